"""Outlines that are no rectangle: polygons by their corners, points, clipped corners.

A corner is kept as the sine and cosine of its interior angle, worked out from
the sides as exact numbers, or to forty places where a root comes in.
"""

from __future__ import annotations

from ..ground.lengths import root
from ..ground.working import Working, total
from .outline import SQUARE, Edge, insert, ring

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence
    from fractions import Fraction

    from ..ground.text import Span
    from .kinds import Corner, Point
    from .things import Piece


def polygon(panel: Piece, points: Sequence[Point], names: Sequence[str], at: Sequence[Span]) -> list[Edge] | None:
    """The edges of a closed outline, clockwise; `points` are (x, y) Fractions, y up, names[i] leaves points[i].

    `at` gives the span of each side.  None where two corners are one, or the outline runs the other way round or
    crosses itself.
    """
    sides = [(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in zip(points, [*points[1:], points[0]], strict=True)]
    if any(not x and not y for x, y in sides) or area(points) >= 0 or crosses_itself(points):
        return None
    lengths = [root(x * x + y * y) for x, y in sides]
    edges = [
        Edge(panel, name, Working(length, f"{panel.name} is along {name}", span))
        for name, length, span in zip(names, lengths, at, strict=True)
    ]
    return ring(edges, [corner(one, other) for one, other in zip(sides, [*sides[1:], sides[0]], strict=True)])


def area(points: Sequence[Point]) -> Fraction | int:
    """Twice the area of a polygon; below nothing where it runs clockwise."""
    pairs = zip(points, [*points[1:], points[0]], strict=True)
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs)


# An outline of more corners is not asked whether it crosses itself: that takes their square.
MOST_CORNERS = 200


def crosses_itself(points: Sequence[Point]) -> bool:
    """Whether two sides that are no neighbours have a point in common."""
    sides = list(zip(points, [*points[1:], points[0]], strict=True))
    return len(sides) <= MOST_CORNERS and any(
        crossing(*one, *sides[there])
        for here, one in enumerate(sides)
        for there in range(here + 2, len(sides) - (here == 0))
    )


def crossing(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the line from a to b and the one from c to d meet."""
    turns = [area((a, b, c)), area((a, b, d)), area((c, d, a)), area((c, d, b))]
    if turns[0] * turns[1] < 0 and turns[2] * turns[3] < 0:
        return True
    ends = ((c, a, b), (d, a, b), (a, c, d), (b, c, d))
    return any(turn == 0 and between(*end) for turn, end in zip(turns, ends, strict=True))


def between(point: Point, start: Point, end: Point) -> bool:
    """Whether a point on the line through two others lies between them."""
    return all(min(s, e) <= p <= max(s, e) for p, s, e in zip(point, start, end, strict=True))


def corner(one: Point, other: Point) -> Corner:
    """Sine and cosine of the interior angle between two sides of a clockwise outline."""
    (x1, y1), (x2, y2) = one, other
    size = root((x1 * x1 + y1 * y1) * (x2 * x2 + y2 * y2))
    return (y1 * x2 - x1 * y2) / size, -(x1 * x2 + y1 * y2) / size


def straight(corner: Corner | None) -> bool:
    """Whether two sides run on in one line, or double back: no allowance can be moved past such a corner."""
    return corner is not None and corner[0] == 0


def clip(edges: list[Edge], before: Edge, across: Working, up: Working) -> None:
    """Cut the corner that follows `before` off by a straight line: one new edge, named as the corner is."""
    after = before.after
    level_first = before.name in ("top", "bottom")
    first, second = (across, up) if level_first else (up, across)
    slant = root(across.mm**2 + up.mm**2)
    name = "_".join(sorted((before.name, after.name), key=("top", "bottom", "left", "right").index))
    edge = Edge(before.panel, name, Working(slant, f"{before.panel.name} clipped at the {name}", across.at))
    before.losses.append(first)
    after.losses.append(second)
    corners = [(second.mm / slant, -first.mm / slant), (first.mm / slant, -second.mm / slant)]
    insert(edges, before, [edge], corners)


def pointed(panel: Piece, width: Working, height: Working, side: str, depth: Working) -> list[Edge]:
    """A rectangle whose one side runs to a point in its middle: two slants of that side's name."""
    level = side in ("top", "bottom")
    base, tall = (width, height) if level else (height, width)
    half = base.mm / 2
    slant = root(half * half + depth.mm**2)
    sine, cosine = half / slant, depth.mm / slant  # of half the angle at the tip
    short = total(f"{panel.name} beside its point", (1, tall), (-1, depth))
    tip = (2 * sine * cosine, cosine * cosine - sine * sine)
    shoulder = (sine, -cosine)
    order = ("top", "right", "bottom", "left")
    edges, corners = [], []
    for name in order:
        if name == side:
            edges += [Edge(panel, name, Working(slant, f"{panel.name} slants to its point", depth.at)) for _ in "ab"]
        elif name in _beside(side):
            edges.append(Edge(panel, name, short))
        else:
            edges.append(Edge(panel, name, base))
    for one, other in zip(edges, [*edges[1:], edges[0]], strict=True):
        sides = {one.name, other.name}
        corners.append(tip if sides == {side} else shoulder if side in sides else SQUARE)
    return ring(edges, corners)


def _beside(side: str) -> tuple[str, str]:
    return ("left", "right") if side in ("top", "bottom") else ("top", "bottom")


def to_the_point(panel: Piece, side: str, whole: Working) -> Working:
    """The stitched length from the far side to the point that a side runs to, along the middle: a Working.

    `whole` is the size as cut.  Where two stitch lines meet at the tip they lie `s / sin(a)` inside it, `a` being half
    the angle there.
    """
    opposite = {"top": "bottom", "bottom": "top", "left": "right", "right": "left"}[side]
    slant = next(edge for edge in panel.edges if edge.name == side)
    far = next(edge for edge in panel.edges if edge.name == opposite)
    base = far.cut.mm / 2
    return total(
        f"{panel.name} to its point",
        (1, whole),
        (-1, far.allowance()),
        (-slant.cut.mm / base, slant.allowance()),
    )
