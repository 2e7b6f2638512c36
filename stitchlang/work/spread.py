"""The spread of every finished measure, and of every seam's two sides against each other."""

from attrs import frozen

from ..model.spread import spread
from .measure import measured


@frozen
class Off:
    """How far something may be off: what, its nominal length (a Working), worst and likely in millimetres either way.

    `seam` is True for the difference of two joined edges.
    """

    title: str
    working: object
    worst: object
    likely: object
    seam: bool = False


def spreads(recipe):
    """Measures first, then the differences of joined edges, in the order sewn: a list of Off."""
    found = []
    for one in measured(recipe):
        off = spread(recipe.accuracy, (1, one.working))
        found.append(Off(one.title, one.working, off.worst, off.likely))
    for seam in recipe.seams:
        first, *others = seam.sides
        for other in others:
            one, two = first.stitched(), other.stitched()
            off = spread(recipe.accuracy, (1, one), (-1, two))
            found.append(Off(f"{first.title} against {other.title}", one, off.worst, off.likely, seam=True))
    return found
