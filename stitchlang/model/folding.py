"""Folding: half-pieces that share a fold without allowance, and strips in several layers."""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import PI
from ..ground.working import NOTHING, later, total
from .outline import Fate, rectangle, stitched
from .things import OPPOSITE, Face, Folded, Strip, cut_size

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from ..ground.text import Span
    from ..ground.working import Working
    from .outline import Edge
    from .recipe import Op, Recipe
    from .things import Flat, Piece


def size(source: Piece | Flat, side: str) -> Working:
    """A side's length cut to cut; nothing where it is sewn away, and what has no such side is not folded."""
    return cut_size(source, side) or NOTHING


def fold_in_half(name: str, at: Span, op: Op, source: Piece | Flat, moved: str, half: Working | None = None) -> Folded:
    """Bring the side `moved` to its opposite: two faces, and the fold where `moved` lay.

    The first face is the part that stays, the second the part that moves, seen
    from its own right side: what lies on the first one's left is its right.
    `half` is how far the faces reach, where that is not half the piece.
    """
    folded = Folded(name, at, op, source, moved)
    level = moved in ("top", "bottom")
    width, height = size(source, "top"), size(source, "left")
    half = half or total(f"half of {source.name}", (Fraction(1, 2), height if level else width))
    wide, tall = (width, half) if level else (half, height)
    folded.faces = (Face(folded, 0, wide, tall), Face(folded, 1, wide, tall))
    for face, outer in zip(folded.faces, (OPPOSITE[moved], moved), strict=True):
        (fold_edge,), (open_edge,) = face.as_laid(moved), face.as_laid(OPPOSITE[moved])
        fold_edge.fates.append(Fate("folded", NOTHING, op))
        share(open_edge, source.side(outer))
        for side in ("left", "right") if level else ("top", "bottom"):
            halve(face.as_laid(side)[0], source.side(side))
    return folded


def fold_about_cord(name: str, at: Span, op: Op, source: Piece | Flat, across: Working) -> Folded:
    """A strip round a cord, raw edges even: its fold lies at the left, what is beside the cord is the flange."""
    flange = total(f"flange of {name}", (Fraction(1, 2), size(source, "top")), (-PI / 2, across))
    flange.exact = False
    folded = fold_in_half(name, at, op, source, "left", flange)
    folded.cord = across
    return folded


def fold_round(name: str, at: Span, op: Op, source: Piece | Flat, moved: str, by: Working, recipe: Recipe) -> Folded:
    """Bring the side `moved` over its opposite by so much: two faces between two folds.

    How far the faces reach is worked out once the edges that overlap are finished.
    """
    folded = Folded(name, at, op, source, OPPOSITE[moved])
    folded.overlap = by
    level = moved in ("top", "bottom")
    along, ends = ("left", "right") if level else ("top", "bottom"), ("top", "bottom") if level else ("left", "right")
    reach = later(f"{name}, half of what the overlap leaves", at)
    edges = source.side(along[0]) or []
    recipe.late.append(
        lambda: reach.becomes(total(reach.says, (Fraction(1, 2), stitched(edges[0])), (Fraction(-1, 2), by)))
    )
    across = size(source, ends[0])
    folded.faces = tuple(Face(folded, n, *((across, reach) if level else (reach, across))) for n in (0, 1))
    for face in folded.faces:
        for side in ends:
            face.as_laid(side)[0].fates.append(Fate("folded", NOTHING, op))
        for side in along:
            halve(face.as_laid(side)[0], source.side(side))
    return folded


def share(edge: Edge, originals: list[Edge] | None) -> None:
    """Let an edge and those it was made of have one list of fates."""
    if originals:
        edge.fates = originals[0].fates
        for other in originals[1:]:
            edge.fates.extend(fate for fate in other.fates if fate not in edge.fates)
            other.fates = edge.fates


def halve(half: Edge, originals: list[Edge] | None) -> None:
    """Let an edge stand for half of what it was before the fold."""
    half.parents = tuple(originals or ())
    for original in half.parents:
        original.halves = (*original.halves, half)


def fold_strip(
    name: str,
    at: Span,
    op: Op,
    source: Piece | Flat,
    parts: int,
    fate: Callable[[Iterable[Edge], str, Working, Op], None],
) -> Strip:
    """A strip folded lengthwise into so many layers: its long edges go inside, its ends stay raw."""
    strip = Strip(name, at, op, source, parts)
    sides = [list(source.side(side) or ()) for side in ("left", "right")]
    long_edges = [edge for side in sides for edge in side]
    turned = [most_taken(side) for side in sides if any(edge.fates for edge in side)]
    across = [(1, size(source, "top")), *((-1, taken) for taken in turned if taken.mm)]
    width = total(f"{source.name} folded in {parts}", *((Fraction(sign, parts), length) for sign, length in across))
    strip.edges = rectangle(strip, width, size(source, "left"))
    top, right, bottom, left = strip.edges
    share(top, source.side("top"))
    share(bottom, source.side("bottom"))
    for edge in (left, right):
        edge.fates.append(Fate("folded", NOTHING, op))
    # Quarters hide both long edges, thirds one; a half hides neither.
    bare = [edge for edge in long_edges if not edge.fates]
    hidden = {4: bare, 3: sides[0] if len(bare) == len(long_edges) else bare}.get(parts, ())
    fate(hidden, "turned", width, op)
    return strip


def most_taken(side: Iterable[Edge]) -> Working:
    """What was turned in along a side, of strips joined end to end the widest."""
    return max((edge.allowance() for edge in side), key=lambda taken: taken.mm)
