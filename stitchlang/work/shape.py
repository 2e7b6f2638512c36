"""Where an outline's edges and stitch lines lie: points in millimetres, x to the right and y down, as a page has them.

The model knows lengths and corners, exactly.  Here a ring is walked from its top left corner, clockwise, turning at
every corner by what the interior angle leaves of half a turn, and numbers become floats: this is the drawing's door.
Nothing worked out here goes back into the recipe.
"""

from __future__ import annotations

from math import atan2, cos, hypot, pi, sin

from ..model.outline import SMOOTH, SQUARE, cut_length, neighbours
from ..model.things import SIDES

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence
    from typing import TypeAlias

    from ..ground.lengths import Rational
    from ..model.kinds import Corner, Outlined, Point
    from ..model.notches import Notch
    from ..model.outline import Edge

    At: TypeAlias = tuple[float, float]  # a point on the page
    Arc: TypeAlias = tuple[At, float, float, float]
    Link: TypeAlias = tuple[Edge, float, Corner | None]

CLOSE = 1e-6  # millimetres: what floats may leave open


class Run:
    """One edge as it lies: from `start` to `end`, leaving in the direction `heading` (radians, clockwise from right).

    `arc` is None, or (centre, radius, angle of the start, sweep) of an arc about its centre.
    `smooth` tells whether it runs on into the next without a corner.
    """

    __slots__ = ("edge", "start", "heading", "arc", "end", "smooth")

    def __init__(
        self, edge: Edge | None, start: At, heading: float, end: At, arc: Arc | None = None, smooth: bool = False
    ) -> None:
        # Of a line that is no edge's, a fold's or an arrow's, there is none, and nobody asks it for one.
        self.edge: Edge = edge  # type: ignore[assignment]  # see above
        self.start = start
        self.heading = heading
        self.end = end
        self.arc = arc
        self.smooth = smooth

    @property
    def end_heading(self) -> float:
        """The direction in which it arrives."""
        return self.heading + self.arc[3] if self.arc else self.heading

    @property
    def middle(self) -> tuple[At, float]:
        """(its middle point, the direction there)."""
        if self.arc:
            centre, radius, begins, sweep = self.arc
            return round_about(centre, radius, begins + sweep / 2), self.heading + sweep / 2
        (x, y), (u, v) = self.start, self.end
        return ((x + u) / 2, (y + v) / 2), self.heading

    def moved(self, across: float, down: float, turns: int = 0) -> Run:
        """The run turned clockwise about the origin by quarter turns, then moved."""

        def place(point: At) -> At:
            for _ in range(turns % 4):
                point = (-point[1], point[0])
            return point[0] + across, point[1] + down

        quarter = turns % 4 * pi / 2
        arc = self.arc and (place(self.arc[0]), self.arc[1], self.arc[2] + quarter, self.arc[3])
        return Run(self.edge, place(self.start), self.heading + quarter, place(self.end), arc, self.smooth)


def round_about(centre: At, radius: float, angle: float) -> At:
    """The point at an angle on a circle."""
    return centre[0] + radius * cos(angle), centre[1] + radius * sin(angle)


def ahead(point: At, heading: float, length: float) -> At:
    """The point so far on in a direction."""
    return point[0] + length * cos(heading), point[1] + length * sin(heading)


def inward(point: At, heading: float, by: float) -> At:
    """A point moved into the cloth, which lies on the right of an edge walked clockwise."""
    return point[0] - by * sin(heading), point[1] + by * cos(heading)


def walk(links: Sequence[Link], heading: float) -> list[Run]:
    """The runs of (edge, length, corner that follows), begun in that direction, their box's corner at the origin."""
    at: At = (0.0, 0.0)
    runs: list[Run] = []
    for edge, length, corner in links:
        run = bent(edge, at, heading) if edge.arc else Run(edge, at, heading, ahead(at, heading, length))
        run.smooth = corner is SMOOTH
        runs.append(run)
        at, heading = run.end, run.end_heading
        if corner is not SMOOTH:
            heading += pi - atan2(float(corner[0]), float(corner[1]))
    left, top, _, _ = box(runs)
    return [run.moved(-left, -top) for run in runs]


def bent(edge: Edge, at: At, heading: float) -> Run:
    """An arc that bulges outward, as a run."""
    assert edge.arc, edge
    radius, sweep = float(edge.arc[0].mm), float(edge.arc[1])
    centre = inward(at, heading, radius)
    end = round_about(centre, radius, heading - pi / 2 + sweep)
    return Run(edge, at, heading, end, (centre, radius, heading - pi / 2, sweep))


def box(runs: Sequence[Run]) -> tuple[float, float, float, float]:
    """(left, top, right, bottom) of runs, the bulge of arcs included."""
    points = [point for run in runs for point in (run.start, run.end, *bulge(run))]
    across, down = zip(*points, strict=True)
    return min(across), min(down), max(across), max(down)


def bulge(run: Run) -> Iterator[At]:
    """The points where an arc reaches farthest left, right, up or down."""
    if run.arc:
        centre, radius, begins, sweep = run.arc
        for quarter in range(-8, 9):
            if begins < quarter * pi / 2 < begins + sweep:
                yield round_about(centre, radius, quarter * pi / 2)


def gap(runs: Sequence[Run]) -> float:
    """How far the last run ends from where the first begins: nothing, where an outline closes."""
    return hypot(runs[-1].end[0] - runs[0].start[0], runs[-1].end[1] - runs[0].start[1])


def anchor(panel: Outlined) -> tuple[Edge, float]:
    """(edge, direction): where to begin walking a panel's ring."""
    corners: Sequence[Point] = getattr(panel, "corners", ())
    if corners:
        (x1, y1), (x2, y2) = corners[:2]
        return panel.edges[0], atan2(float(y1 - y2), float(x2 - x1))
    point = getattr(panel, "point", None)
    pointed = point[0] if point else None
    for edge in panel.edges:
        if edge.name in ("top", "bottom") and edge.name != pointed:
            return edge, 0.0 if edge.name == "top" else pi
    return panel.edges[0], 0.0


def in_order(panel: Outlined) -> tuple[list[Edge], float]:
    """(the edges of a panel as they follow one another, the direction in which the first one runs)."""
    first, heading = anchor(panel)
    edges, edge = [first], first.after
    while edge is not first and len(edges) <= len(panel.edges):
        edges.append(edge)
        edge = edge.after
    return edges, heading


def outline(panel: Outlined) -> list[Run]:
    """The runs of a panel's outline, trims and notches taken off."""
    edges, heading = in_order(panel)
    return walk([(edge, float(cut_length(edge).mm), edge.corner_after) for edge in edges], heading)


def as_cut(panel: Outlined, late: Collection[Notch]) -> list[Run]:
    """The runs of a piece as it is cut from its cloth: before trims, and without the `late` notches."""
    edges, heading = in_order(panel)
    arms = {arm for notch in late for arm in (notch.across, notch.up)}
    kept = [edge for edge in edges if edge not in arms]
    links = []
    for edge in kept:
        corner = SQUARE if edge.after in arms else edge.corner_after
        links.append((edge, float(cut_length(edge).mm + given_back(edge, late)), corner))
    return walk(links, heading)


def given_back(edge: Edge, late: Collection[Notch]) -> Rational:
    """What trims and late notches take off an edge, in millimetres."""
    back: Rational = 0 if edge.arm else sum(taken.mm for side in neighbours(edge) for taken in side.trimmed)
    for notch in late:
        for arm, size in ((notch.up, notch.sizes[0]), (notch.across, notch.sizes[1])):
            back += size.mm * ((edge.after is arm) + (edge.before is arm))
    return back


def trimmed_off(panel: Outlined) -> At:
    """(left, top): how far trims move a piece's outline from where it was cut."""
    taken = {side: 0.0 for side in SIDES}
    for edge in panel.edges:
        if edge.name in taken:
            taken[edge.name] += float(sum(trim.mm for trim in edge.trimmed))
    return taken["left"], taken["top"]


def half(runs: Sequence[Run], side: str) -> tuple[list[Run], tuple[At, At]]:
    """The part of a closed outline that is drawn where the piece is cut on the fold at `side`, and the fold.

    (runs from one end of the fold to the other, (end, other end) of the fold).
    """
    left, top, right, bottom = box(runs)
    axis = 0 if side in ("left", "right") else 1
    middle = (left + right) / 2 if axis == 0 else (top + bottom) / 2
    sign = 1 if side in ("left", "top") else -1
    clipped = [cut_at(run, axis, middle, sign) for run in runs]
    begins = next((at for at, run in enumerate(clipped) if run is not None and clipped[at - 1] is None), 0)
    starts = [at for at, run in enumerate(clipped) if run is not None and on(run.start, axis, middle)]
    begins = starts[0] if starts else begins
    kept = [run for run in (*clipped[begins:], *clipped[:begins]) if run is not None]
    return kept, (kept[-1].end, kept[0].start)


def on(point: At, axis: int, middle: float) -> bool:
    """Whether a point lies on the fold."""
    return abs(point[axis] - middle) < CLOSE


def cut_at(run: Run, axis: int, middle: float, sign: int) -> Run | None:
    """The part of a run on one side of a line; None where nothing is left."""
    inside = [sign * (point[axis] - middle) > -CLOSE for point in (run.start, run.end)]
    if all(inside):
        return None if on(run.start, axis, middle) and on(run.end, axis, middle) else run
    if not any(inside):
        return None
    share = (middle - run.start[axis]) / (run.end[axis] - run.start[axis])
    (x, y), (u, v) = run.start, run.end
    crossing = x + share * (u - x), y + share * (v - y)
    ends = (run.start, crossing) if inside[0] else (crossing, run.end)
    return Run(run.edge, ends[0], run.heading, ends[1], run.arc, run.smooth)
