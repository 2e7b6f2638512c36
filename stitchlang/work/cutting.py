"""The cutting list and the shopping list: what is cut from what, and how much of each stuff is needed."""

from __future__ import annotations

from attrs import frozen

from ..model.needs import by_length, cut_from, layout_of, length_in_a_row
from ..rules.casings import TAIL
from ..rules.edgings import bound_edges
from .sizes import every_size
from .stitching import thread_needed

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..ground.lengths import Rational
    from ..ground.working import Working
    from ..model.needs import Cut
    from ..model.packing import Layout
    from ..model.recipe import Recipe, Stuff
    from .stitching import Thread


@frozen
class Batch:
    """What is cut from one stuff (None where the recipe names one that it does not have).

    `area` is in square millimetres, of the boxes round the pieces.  `length`
    is what must be had of it in mm, None where that is not known; `layout` is
    the simple layout that gave it.  `had` is the length that the recipe states.
    """

    stuff: Stuff | None
    cuts: tuple[Cut, ...]
    area: Rational
    length: Rational | None
    layout: Layout | None
    had: Working | None


@frozen
class Notion:
    """Something that is bought and not cut to pieces: how many, and what length in mm is used of it (or None)."""

    stuff: Stuff
    count: int
    length: Rational | None


@frozen
class Lists:
    """Both lists of a recipe: `batches` to cut, `notions` to have, and the `thread`.

    `size` names the size they are for, None where the recipe has one only.
    """

    batches: tuple[Batch, ...]
    notions: tuple[Notion, ...]
    thread: Thread
    size: str | None = None


def cutting_in_sizes(recipe: Recipe) -> list[Lists]:
    """The lists of a recipe for each of its sizes: a list of Lists."""
    return [cutting(one) for one in every_size(recipe)]


def cutting(recipe: Recipe) -> Lists:
    """The cutting list and the shopping list of a recipe in the size that it is worked out in: a Lists."""
    by_stuff = cut_from(recipe)
    return Lists(
        tuple(batch(stuff, cuts) for stuff, cuts in by_stuff.items()),
        tuple(
            notion(stuff, recipe) for stuff in recipe.stuff.values() if stuff not in by_stuff and stuff.kind != "reel"
        ),
        thread_needed(recipe),
        recipe.size_name,
    )


def batch(stuff: Stuff | None, cuts: list[Cut]) -> Batch:
    """A stuff's pieces, and the length that they take of it."""
    facts = stuff.facts if stuff is not None else {}
    needed = [cut for cut in cuts if not cut.found_whole]
    layout: Layout | None = None
    length: Rational | None = None
    if stuff is not None and by_length(stuff):
        length = length_in_a_row(needed)
    elif "wide" in facts:
        layout = layout_of(needed, facts["wide"].mm)
        length = layout.length if layout is not None else None
    return Batch(stuff, tuple(cuts), sum(cut.box for cut in needed), length, layout, facts.get("long"))


def notion(stuff: Stuff, recipe: Recipe) -> Notion:
    """What is bought ready: as many as the recipe lists, or the length that its statements use."""
    return Notion(stuff, stuff.facts.get("count", 1), length_used(stuff, recipe))


def length_used(stuff: Stuff, recipe: Recipe) -> Rational | None:
    """The length of a binding, or of one cord, that the statements use in mm; None where none says."""
    found: list[Rational] = []
    for op in recipe.ops:
        parts = op.parts
        if parts.get("binding") is stuff:
            found += [chain.stitched().mm for chain in bound_edges(op)]
            found += [parts["running_on"].mm] if parts.get("running_on") is not None else []
        elif op.verb == "thread" and parts["cord"] is stuff and parts["chains"]:
            found.append(sum(chain.stitched().mm for chain in parts["chains"] if chain.links) + 2 * TAIL)
        elif op.verb == "wrap" and parts["cord"] is stuff and parts["source"] is not None:
            found.append(parts["source"].height.mm * parts["source"].count)
    return sum(found) if found else None
