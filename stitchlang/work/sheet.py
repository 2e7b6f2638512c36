"""The complete instructions of a recipe as values: what every printed form of them is made from.

Sentences and lengths are in the sheet's way of speaking: in one unit, or in two at once (`speech.PairedSpeech`).
"""

from __future__ import annotations

from itertools import groupby

from attrs import frozen

from .check import check
from .cutting import cutting_in_sizes
from .measure import measured_in_sizes
from .sizes import every_size
from .steps import steps_in
from .tools import suggested

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..ground.working import Working
    from ..model.recipe import Recipe, Stuff
    from ..speech import Speech
    from .cutting import Lists
    from .steps import Step
    from .tools import Suggested


@frozen
class Finished:
    """One finished measure: its thing, its name, its Working in each size, and what the recipe allows it to be off."""

    thing: str
    name: str
    lengths: tuple[Working | None, ...]
    within: Working | None = None


@frozen
class Part:
    """A part of the work, and its Steps."""

    title: str
    steps: tuple[Step, ...]


@frozen
class Sheet:
    """The instructions: see the fields.  `sizes` is empty where the recipe has one size only.

    `lists` are the cutting lists, one a size.  `faults` counts what `check` calls faults: with any, nobody should cut.
    """

    title: str
    revision: str
    sizes: tuple[str, ...]
    faults: int
    notes: tuple[str, ...]
    finished: tuple[Finished, ...]
    lists: tuple[Lists, ...]
    machine: Stuff | None
    tools: Suggested
    parts: tuple[Part, ...]
    speech: Speech
    recipe: Recipe

    @property
    def name(self) -> str:
        return self.title or "Untitled recipe"


def sheet(recipe: Recipe, speech: Speech) -> Sheet:
    """The instructions of a recipe in a way of speaking: a Sheet."""
    return Sheet(
        recipe.title,
        recipe.revision,
        tuple(recipe.sizes or ()),
        sum(one.severity == "fault" for one in check(recipe)),
        tuple(note for part, note, _ in recipe.notes if part is None),
        tuple(finished(recipe)),
        tuple(cutting_in_sizes(recipe)),
        recipe.machine,
        suggested(recipe),
        tuple(Part(title, tuple(steps)) for title, steps in groupby(steps_in(recipe, speech), lambda step: step.part)),
        speech,
        recipe,
    )


def finished(recipe: Recipe) -> Iterator[Finished]:
    """The measures of what leaves the table, most wanted first: what is promised, then what became part of nothing."""
    claims = {(claim.thing.name, claim.measure): claim.within for one in every_size(recipe) for claim in one.claims}
    promised = list(dict.fromkeys(thing for thing, _ in claims))
    whole = [thing.name for thing in recipe.made if thing.inside is None and thing.kind != "flat"]
    wanted = list(dict.fromkeys(promised + whole[::-1]))
    rows = [row for row in measured_in_sizes(recipe) if row[0] in wanted]
    for thing, name, lengths in sorted(rows, key=lambda row: wanted.index(row[0])):
        within = claims.get((thing, name)) or claims.get((thing, name.removesuffix(" at top")))
        yield Finished(thing, name, tuple(lengths), within)
