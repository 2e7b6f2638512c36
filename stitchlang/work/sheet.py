"""The complete instructions of a recipe as values: what every printed form of them is made from.

Sentences and lengths are in the sheet's way of speaking: in one unit, or in two at once (`speech.PairedSpeech`).
"""

from itertools import groupby

from attrs import field, frozen

from .check import check
from .cutting import cutting_in_sizes
from .measure import measured_in_sizes
from .sizes import every_size
from .steps import steps_in
from .tools import suggested


@frozen
class Finished:
    """One finished measure: its thing, its name, its Working in each size, and what the recipe allows it to be off."""

    thing: str
    name: str
    lengths: tuple = field(converter=tuple)
    within: object = None


@frozen
class Part:
    """A part of the work, and its Steps."""

    title: str
    steps: tuple = field(converter=tuple)


@frozen
class Sheet:
    """The instructions: see the fields.  `sizes` is empty where the recipe has one size only.

    `lists` are the cutting lists, one a size.  `faults` counts what `check` calls faults: with any, nobody should cut.
    """

    title: str
    revision: str
    sizes: tuple = field(converter=tuple)
    faults: int
    notes: tuple = field(converter=tuple)
    finished: tuple = field(converter=tuple)
    lists: tuple = field(converter=tuple)
    machine: object
    tools: object
    parts: tuple = field(converter=tuple)
    speech: object
    recipe: object

    @property
    def name(self):
        return self.title or "Untitled recipe"


def sheet(recipe, speech):
    """The instructions of a recipe in a way of speaking: a Sheet."""
    return Sheet(
        recipe.title,
        recipe.revision,
        recipe.sizes or (),
        sum(one.severity == "fault" for one in check(recipe)),
        [note for part, note, _ in recipe.notes if part is None],
        finished(recipe),
        cutting_in_sizes(recipe),
        recipe.machine,
        suggested(recipe),
        [Part(title, steps) for title, steps in groupby(steps_in(recipe, speech), lambda step: step.part)],
        speech,
        recipe,
    )


def finished(recipe):
    """The measures of what leaves the table, most wanted first: what is promised, then what became part of nothing."""
    claims = {(claim.thing.name, claim.measure): claim.within for one in every_size(recipe) for claim in one.claims}
    promised = list(dict.fromkeys(thing for thing, _ in claims))
    whole = [thing.name for thing in recipe.made if thing.inside is None and thing.kind != "flat"]
    wanted = list(dict.fromkeys(promised + whole[::-1]))
    rows = [row for row in measured_in_sizes(recipe) if row[0] in wanted]
    for thing, name, lengths in sorted(rows, key=lambda row: wanted.index(row[0])):
        within = claims.get((thing, name)) or claims.get((thing, name.removesuffix(" at top")))
        yield Finished(thing, name, lengths, within)
