"""The spread of every finished measure, and of every seam's two sides against each other."""

from __future__ import annotations

from attrs import frozen

from ..model.spread import spread
from .measure import measured

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..ground.lengths import Rational
    from ..ground.working import Working
    from ..model.recipe import Recipe


@frozen
class Off:
    """How far something may be off: what, its nominal length (a Working), worst and likely in millimetres either way.

    `seam` is True for the difference of two joined edges.
    """

    title: str
    working: Working
    worst: Rational
    likely: Rational
    seam: bool = False


def spreads(recipe: Recipe) -> list[Off]:
    """Measures first, then the differences of joined edges, in the order sewn: a list of Off."""
    found = []
    for one in measured(recipe):
        off = spread(recipe.accuracy, (1, one.working))
        found.append(Off(one.title, one.working, off.worst, off.likely))
    for seam in recipe.seams:
        first, *others = seam.sides
        for other in others:
            length, its = first.stitched(), other.stitched()
            off = spread(recipe.accuracy, (1, length), (-1, its))
            found.append(Off(f"{first.title} against {other.title}", length, off.worst, off.likely, seam=True))
    return found
