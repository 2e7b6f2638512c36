"""Every finished measure of a recipe, and the sum behind one of them."""

from __future__ import annotations

from attrs import frozen

from ..ground.nearest import nearest
from ..model.measures import measures
from .sizes import every_size

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..ground.working import Working
    from ..model.recipe import Recipe
    from ..model.things import Piece


@frozen
class Measure:
    """One finished measure: which thing, which measure, its Working."""

    thing: str
    name: str
    working: Working

    @property
    def title(self) -> str:
        """`bag wide at top`."""
        return f"{self.thing} {self.name}"


def measured(recipe: Recipe) -> list[Measure]:
    """Every finished measure, in the order things were made: a list of Measure.

    Pieces that became part of something else are left out; what was made of
    them is measured instead.
    """
    found: list[Measure] = []
    for thing in [*recipe.pieces, *recipe.made]:
        if thing.consumed_by is not None or (thing.kind == "piece" and became_part(thing)):
            continue
        if recipe.things.get(thing.name) is thing:
            found += [Measure(thing.name, name, working) for name, working in measures(thing).items()]
    return found


def measured_in_sizes(recipe: Recipe) -> Iterator[tuple[str, str, list[Working | None]]]:
    """Rows of (thing, measure, Workings in the order of the sizes, None where a size has no such measure)."""
    columns = [{one.title: one for one in measured(each)} for each in every_size(recipe)]
    titles = dict.fromkeys(title for column in columns for title in column)
    for title in titles:
        found = [column.get(title) for column in columns]
        first = next(one for one in found if one is not None)
        yield first.thing, first.name, [one.working if one is not None else None for one in found]


def became_part(piece: Piece) -> bool:
    """Whether a piece is measured as part of what it was sewn into; one placed on another keeps its own size."""
    inside = piece.inside
    return piece.flat is not None or (inside is not None and inside.kind in ("shell", "folded", "strip"))


def find(recipe: Recipe, wanted: str) -> tuple[Measure | None, list[str]]:
    """The measure that words such as `bag deep` or `bag.wide at top` ask for.

    Returns (Measure, []) or (None, near titles).
    """
    words = " ".join(wanted.replace(".", " ").split())
    found = measured(recipe)
    for one in found:
        if one.title == words or one.title == f"{words} at top":
            return one, []
    titles = [one.title for one in found]
    near = nearest(words, titles) or [title for title in titles if title.split()[:1] == words.split()[:1]]
    return None, near or titles[:12]
