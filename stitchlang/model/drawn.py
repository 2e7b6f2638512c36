"""A panel as it is drawn: its cut outline in coordinates, and how far a rectangle lies inside it.

The origin is the lower left corner of the smallest upright rectangle round the cut panel; y runs up.  Notches are left
out: what they take is a matter of the boxed base.
"""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import SAME, root
from .outline import SMOOTH, SQUARE, cut_length
from .things import SIDES, cut_size

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from typing import TypeAlias

    from .kinds import AnyThing
    from .outline import Edge
    from .placing import Box
    from .things import Piece

    Point: TypeAlias = tuple[Fraction, Fraction]
    Sides: TypeAlias = tuple[Fraction, Fraction, Fraction, Fraction]  # left, right, low, high

ONE, NIL = Fraction(1), Fraction(0)
HEADINGS = {"top": (ONE, NIL), "right": (NIL, -ONE), "bottom": (-ONE, NIL), "left": (NIL, ONE)}


class Line:
    """A straight run of the outline, clockwise, from one point to another; `allowance` lies along its inside."""

    __slots__ = ("name", "start", "end", "allowance")

    def __init__(self, name: str, start: Point, end: Point, allowance: Fraction) -> None:
        self.name = name
        self.start = start
        self.end = end
        self.allowance = allowance

    @property
    def run(self) -> Point:
        """How far it goes across and up."""
        return self.end[0] - self.start[0], self.end[1] - self.start[1]


class Arc:
    """A quarter of a circle at a corner, `towards` two directions; a whole circle where there are none."""

    __slots__ = ("name", "centre", "radius", "towards", "allowance")

    def __init__(
        self, name: str, centre: Point, radius: Fraction, towards: Sequence[Point], allowance: Fraction
    ) -> None:
        self.name = name
        self.centre = centre
        self.radius = radius
        self.towards = towards
        self.allowance = allowance


class Drawn:
    """Lines and arcs of one panel, moved to the origin, with the width and height they reach.

    `rims` names for each line the side of the smallest rectangle that it lies on, or None; `takes` is the most that the
    lines on a side give up.
    """

    __slots__ = ("arcs", "height", "lines", "rims", "takes", "width")

    def __init__(self, lines: list[Line], arcs: list[Arc], width: Fraction, height: Fraction) -> None:
        self.lines = lines
        self.arcs = arcs
        self.width = width
        self.height = height
        self.rims = [rim_side(self, line) for line in lines]
        self.takes = dict.fromkeys(FOUR, NIL)
        for line, side in zip(lines, self.rims, strict=True):
            if side is not None:
                self.takes[side] = max(self.takes[side], line.allowance)


class Gap:
    """How far a rectangle lies inside one edge, and how much of that the edge gives up: millimetres.

    Along a slanted edge both are measured across, or up and down, whichever the edge is steeper to.
    """

    __slots__ = ("name", "inside", "taken")

    def __init__(self, name: str, inside: Fraction, taken: Fraction) -> None:
        self.name = name
        self.inside = inside
        self.taken = taken


def drawn(panel: AnyThing) -> Drawn | None:
    """The Drawn outline of a panel, worked out once; None where it has no size of its own."""
    if panel.known is None:
        return outline_of(panel)
    if "drawn" not in panel.known:
        panel.known["drawn"] = outline_of(panel)
    return panel.known["drawn"]


def outline_of(panel: AnyThing) -> Drawn | None:
    """The outline of a panel of any shape."""
    shape = getattr(panel, "shape", None)
    if panel.kind == "piece" and panel.edges[0].arc is not None and shape == "circle":
        radius = panel.edges[0].arc[0].mm
        whole = Arc("edge", (radius, radius), radius, (), panel.edges[0].allowance().mm)
        return Drawn([], [whole], 2 * radius, 2 * radius)
    if panel.kind == "piece" and shape == "polygon":
        return closed(panel.corners, [(edge.name, edge.allowance().mm) for edge in around(panel)])
    if panel.kind == "piece" and shape == "tapered":
        return drawn_tapered(panel)
    return walked(panel) if panel.kind == "piece" else drawn_flat(panel)


def around(panel: Piece) -> list[Edge]:
    """The edges of a piece in order, those that notches left passed over."""
    return [edge for edge in panel.edges if not edge.arm]


def closed(points: Sequence[Point], named: Iterable[tuple[str, Fraction]], arcs: Sequence[Arc] = ()) -> Drawn:
    """Lines from each point to the next, moved to the origin; `named` gives each one's name and allowance."""
    left, low = min(x for x, _ in points), min(y for _, y in points)
    moved = [(x - left, y - low) for x, y in points]
    lines = [
        Line(name, one, other, taken)
        for (name, taken), one, other in zip(named, moved, [*moved[1:], moved[0]], strict=True)
    ]
    for arc in arcs:
        arc.centre = arc.centre[0] - left, arc.centre[1] - low
    return Drawn(lines, list(arcs), max(x for x, _ in moved), max(y for _, y in moved))


def drawn_tapered(panel: Piece) -> Drawn:
    """Top and bottom centred on one another."""
    edges = {edge.name: edge for edge in around(panel)}
    top, bottom, tall = (edges["top"].cut.mm / 2, edges["bottom"].cut.mm / 2, panel.height.mm)
    points = [(-top, tall), (top, tall), (bottom, NIL), (-bottom, NIL)]
    return closed(points, [(name, edges[name].allowance().mm) for name in SIDES])


def drawn_flat(panel: AnyThing) -> Drawn | None:
    """A flat assembly, a strip or a folded piece lies as a rectangle."""
    across, up = cut_size(panel, "top") or cut_size(panel, "bottom"), cut_size(panel, "left")
    if across is None or up is None:
        return None
    points = [(NIL, up.mm), (across.mm, up.mm), (across.mm, NIL), (NIL, NIL)]
    taken = [(name, max((link.allowance().mm for link in panel.side(name) or ()), default=NIL)) for name in SIDES]
    return closed(points, taken)


def walked(panel: Piece) -> Drawn:
    """Walk round a rectangle whose corners may be rounded, clipped or run to a point."""
    edges = around(panel)
    away = panel.point[0] if panel.point is not None else None
    first = next(at for at, edge in enumerate(edges) if edge.name in HEADINGS and edge.name != away)
    edges = edges[first:] + edges[:first]
    at, heading = (NIL, NIL), HEADINGS[edges[0].name]
    points, named = [], []
    arcs: list[Arc] = []
    for edge in edges:
        points.append(at)
        named.append((edge.name, edge.allowance().mm))
        if edge.arc:
            at, heading = round_corner(edge, edge.arc[0].mm, at, heading, arcs)
        else:
            long = cut_length(edge, notched=False).mm
            at = at[0] + long * heading[0], at[1] + long * heading[1]
        heading = turned(heading, edge)
    found = closed(points, named, arcs)
    corners = {arc.name for arc in arcs}
    lines = [line for line in found.lines if line.name not in corners]
    return Drawn(lines, found.arcs, found.width, found.height)


def round_corner(edge: Edge, radius: Fraction, at: Point, heading: Point, arcs: list[Arc]) -> tuple[Point, Point]:
    """Go round a quarter arc that turns to the right: where it ends, and the heading there."""
    x, y = heading
    right = (y, -x)
    centre = at[0] + radius * right[0], at[1] + radius * right[1]
    arcs.append(Arc(edge.name, centre, radius, ((-right[0], -right[1]), heading), edge.allowance().mm))
    return (centre[0] + radius * x, centre[1] + radius * y), right


def turned(heading: Point, edge: Edge) -> Point:
    """The heading after the corner that follows an edge."""
    if edge.corner_after is SMOOTH:
        return heading
    x, y = heading
    sine, cosine = SQUARE if edge.after.arm else edge.corner_after
    return sine * y - cosine * x, -sine * x - cosine * y


def reach(outline: Drawn, level: Fraction) -> tuple[Fraction, Fraction]:
    """Where the edges called left and right stand at a height: (x, x)."""
    found = {"left": NIL, "right": outline.width}
    for line in outline.lines:
        low, high = sorted((line.start[1], line.end[1]))
        if line.name in found and low < high:
            found[line.name] = across_at(line, min(max(level, low), high))
    return found["left"], found["right"]


def across_at(line: Line, level: Fraction) -> Fraction:
    """Where a line that is not level stands at a height."""
    across, up = line.run
    return line.start[0] + across * (level - line.start[1]) / up


def gaps(panel: AnyThing, box: Box) -> list[Gap]:
    """A Gap for every edge that a rectangle could pass: the four sides, then slants and rounded corners."""
    outline = drawn(panel)
    if outline is None:
        return []
    left, right, low, high = sides = box.left.mm, box.right.mm, box.bottom.mm, box.top.mm
    found = []
    if outline.lines:
        limits = (left, outline.width - right, low, outline.height - high)
        found = [Gap(side, gap, outline.takes[side]) for side, gap in zip(FOUR, limits, strict=True)]
    astray = bool(outline.lines) and not holds(outline, ((left + right) / 2, (low + high) / 2))
    for line, rim in zip(outline.lines, outline.rims, strict=True):
        gap = None if rim else line_gap(line, sides)
        if gap is not None and (gap.inside >= 0 or astray or passes_through(line, sides)):
            found.append(gap)
    found += [gap for arc in outline.arcs if (gap := arc_gap(arc, sides)) is not None]
    return found


FOUR = ("left", "right", "bottom", "top")


def rim_side(outline: Drawn, line: Line) -> str | None:
    """The side of the smallest rectangle round the outline that a line lies on, or None."""
    (x1, y1), (x2, y2) = line.start, line.end
    for side, one, other, reaches in (
        ("left", x1, x2, NIL),
        ("right", x1, x2, outline.width),
        ("bottom", y1, y2, NIL),
        ("top", y1, y2, outline.height),
    ):
        if abs(one - reaches) <= SAME and abs(other - reaches) <= SAME:
            return side
    return None


def line_gap(line: Line, sides: Sides) -> Gap | None:
    """How far a rectangle lies inside a line that runs beside it; None where it runs elsewhere."""
    left, right, low, high = sides
    start, run = line.start, line.run
    steep = abs(run[1]) >= abs(run[0])
    if not steep:  # seen with across and up changed over
        start, run, left, right, low, high = start[::-1], run[::-1], low, high, left, right
    first, last = max(low, min(start[1], start[1] + run[1])), min(high, max(start[1], start[1] + run[1]))
    if first > last:
        return None
    stands = [start[0] + run[0] * (level - start[1]) / run[1] for level in (first, last)]
    inward = (run[1] > 0) == steep  # a left edge runs up and a bottom edge to the left
    inside = left - max(stands) if inward else min(stands) - right
    return Gap(line.name, inside, line.allowance * root(run[0] ** 2 + run[1] ** 2) / abs(run[1]))


def arc_gap(arc: Arc, sides: Sides) -> Gap | None:
    """How far the corners of a rectangle lie inside an arc; None where none lies out in its corner."""
    left, right, low, high = sides
    away = [(x - arc.centre[0], y - arc.centre[1]) for x in (left, right) for y in (low, high)]
    away = [one for one in away if all(one[0] * x + one[1] * y > 0 for x, y in arc.towards)]
    if not away:
        return None
    farthest = root(max(x * x + y * y for x, y in away))
    return Gap(arc.name, arc.radius - farthest, arc.allowance)


def holds(outline: Drawn, point: Point) -> bool:
    """Whether a point lies inside the straight outline: a level ray crosses it an odd number of times."""
    x, y = point
    crossed = [across_at(line, y) > x for line in outline.lines if (line.start[1] > y) != (line.end[1] > y)]
    return bool(sum(crossed) % 2) or bool(outline.arcs)


def passes_through(line: Line, sides: Sides) -> bool:
    """Whether a line runs through the inside of a rectangle."""
    left, right, low, high = sides
    enters, leaves = NIL, ONE
    for at, step, least, most in (
        (line.start[0], line.run[0], left, right),
        (line.start[1], line.run[1], low, high),
    ):
        if step == 0:
            if not least < at < most:
                return False
            continue
        one, other = sorted(((least - at) / step, (most - at) / step))
        enters, leaves = max(enters, one), min(leaves, other)
    return enters < leaves
