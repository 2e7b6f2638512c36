"""How a comparison speaks: each change as one phrase, under a heading, for every format that is read by people."""

from __future__ import annotations

import re

from ..ground.lengths import decimal
from ..speech import Speech, counted, listed
from ..work.changes import Length, Mass
from .cut_words import BACKED
from .findings import factor_text
from .steps import title

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from typing import TypeAlias

    from ..ground.lengths import Rational
    from ..model.recipe import Recipe
    from ..work.changes import (
        Allowance,
        Cause,
        Comparison,
        Fact,
        FoundChange,
        Lines,
        MeasureChange,
        Named,
        PartChange,
        Renamed,
        Sizes,
        Stated,
        StepChange,
    )

    Told: TypeAlias = tuple[str, list[str]]  # a heading, and the phrases under it

# A number in a sentence with its unit: what two sentences may differ in and still be told as one.
# A digit within a name, as in `bag2`, is no number.
NUMBER = re.compile(r"(?:about )?(?<!\w)\d+(?: \d+/\d+|/\d+|\.\d+)?(?: (?:in|cm|mm)\b)?(?: \(\d+ mm\))?")
CARE = "Take care"
SENTENCES = {"called": '"{}"', "part": 'under "{}"', "fused": "{}"}


class Manner:
    """A way of telling changes: the unit, the arrow between before and after, and whether lines are named."""

    def __init__(self, unit: str, arrow: str = "->", places: bool = True) -> None:
        self.speech = Speech(unit, 64)
        self.arrow = arrow
        self.places = places

    def went(self, before: Stated, after: Stated) -> str:
        """`4 in -> 5 in`; by how much, where a ruler shows no difference."""
        one, other = self.value(before), self.value(after)
        bare = (text.removeprefix("about ") for text in (one, other))
        if isinstance(before, Length) and isinstance(after, Length) and len(set(bare)) == 1:
            return f"{one} {self.arrow} {other}, {decimal(abs(after.mm - before.mm), 9)} mm apart"
        return f"{one} {self.arrow} {other}"

    def value(self, fact: Stated) -> str:
        """A fact of any kind."""
        if fact is None or fact is True:
            return "none" if fact is None else "yes"
        if isinstance(fact, tuple):
            return " x ".join(self.value(one) for one in fact)
        if isinstance(fact, Length):
            return self.speech.length(fact.mm)
        return fact.written if isinstance(fact, Mass) else str(fact)

    def at(self, lines: Lines) -> str:
        """` (line 12)`, of the new recipe, or of the old where it is only there."""
        old, new = lines
        if not self.places or old is new is None:
            return ""
        return f" (line {new})" if new is not None else f" (was line {old})"


def in_sizes(sizes: Sizes) -> str:
    """In which sizes a change holds, where not in all."""
    return f" (in {'sizes' if len(sizes) > 1 else 'size'} {listed(sizes)})" if sizes else ""


def sections(comparison: Comparison, manner: Manner) -> list[Told]:
    """(heading, phrases) for each sort of change, empty ones left out."""
    told = (
        ("Recipe", [*facts_said(comparison.heading, manner), *map(parts_said, comparison.parts)]),
        ("Names", [renamed_said(one, manner) for one in comparison.renamed]),
        ("Pieces to cut", [named_said(one, manner) for one in comparison.pieces]),
        ("Materials", [named_said(one, manner) for one in comparison.materials]),
        ("Allowances and rows", [allowance_said(one, manner) for one in comparison.allowances]),
        ("Steps", [step_said(one, manner) for one in comparison.steps]),
        ("Notes", [named_said(one, manner) for one in comparison.notes]),
        ("Finished measures", [measure_said(one, manner) for one in comparison.measures]),
        ("Promised, measured on samples, and held", [named_said(one, manner) for one in comparison.promises]),
        ("Findings", [finding_said(one, manner) for one in comparison.findings]),
        (CARE, cautions(comparison)),
    )
    return [(heading, phrases) for heading, phrases in told if phrases]


# ------------------------------------------------------------------ what it is, before and after
def facts_said(facts: Iterable[Fact], manner: Manner) -> list[str]:
    return [f"{fact.name}: {manner.went(fact.before, fact.after)}" for fact in facts]


def parts_said(change: PartChange) -> str:
    steps = counted(change.count, "step")
    stand = "stands" if change.count == 1 else "stand"
    return f'{steps} of "{change.before}" now {stand} under "{change.after}"{in_sizes(change.sizes)}'


def renamed_said(one: Renamed, manner: Manner) -> str:
    return f"the {one.kind} {one.before} looks like it is now called {one.after}{manner.at(one.lines)}"


def named_said(one: Named, manner: Manner) -> str:
    """`front: tall 16 in -> 17 in`, `flap: new, 4 in wide, 3 in tall`."""
    where = f"{in_sizes(one.sizes)}{manner.at(one.lines)}"
    quoted = f'"{one.name}"' if one.kind == "note" else one.name
    kind = {"made": "measured on a sample, ", "holds": "to hold, "}.get(one.kind, "")
    if one.change == "changed":
        said = "; ".join(f"{name_of(fact)}{manner.went(fact.before, fact.after)}" for fact in one.facts)
        return f"{kind}{quoted}: {said}{where}"
    side = "after" if one.change == "new" else "before"
    said = "".join(f", {fact_said(fact.name, getattr(fact, side), manner)}" for fact in one.facts)
    return f"{kind}{quoted}: {one.change}{said}{where}"


def name_of(fact: Fact) -> str:
    """A fact's name before what it was and is; a size needs none."""
    return "" if fact.name == "size" else f"{fact.name.replace('_', ' ')} "


def fact_said(name: str, fact: Stated, manner: Manner) -> str:
    """`tape 1 1/4 in wide`, `cut 2`, `salvaged`: a fact in the order in which a recipe states it."""
    words = name.replace("_", " ")
    if fact is True or name == "shape" or name == "kind of stuff":
        return words if fact is True else str(fact)
    if name in SENTENCES:
        return SENTENCES[name].format(BACKED.get(str(fact), fact))
    if name == "size" or not isinstance(fact, Length):
        return manner.value(fact) if name == "size" else f"{words} {manner.value(fact)}"
    *before, dimension = words.split()
    if "at" in before:
        return f"{manner.value(fact)} {words}"
    return " ".join([*before, manner.value(fact), dimension])


# ------------------------------------------------------------------ how it is sewn
def allowance_said(one: Allowance, manner: Manner) -> str:
    return f"{one.what}: {manner.went(one.before, one.after)}{in_sizes(one.sizes)}{manner.at(one.lines)}"


def step_said(one: StepChange, manner: Manner) -> str:
    """The step, its lengths before and after; both sentences where they differ in more than lengths."""
    where = f"{in_sizes(one.sizes)}{manner.at(one.lines)}"
    old, new = one.numbers
    if one.before is None or one.after is None:
        number, sentence = (new, one.after) if one.before is None else (old, one.before)
        return f"step {number} is {one.change}{where}: {sentence}"
    moved = " moved" if one.moved else ""
    was = f" (was step {old})" if old != new else ""
    together = in_one(one.before, one.after, manner.arrow)
    told = together or f"{one.after} Before: {one.before}"
    return f"step {new}{moved}{was}{where}: {told}"


def in_one(before: str, after: str, arrow: str) -> str | None:
    """Two sentences as one, `a seam allowance of 3/8 in -> 1/2 in`; None where they differ in more than numbers."""
    if before == after:
        return after
    if NUMBER.split(before) != NUMBER.split(after):
        return None
    numbers = iter(zip(NUMBER.findall(before), NUMBER.findall(after), strict=True))

    def both(_: re.Match[str]) -> str:
        one, other = next(numbers)
        return other if one == other else f"{one} {arrow} {other}"

    return NUMBER.sub(both, after)


# ------------------------------------------------------------------ what it does
def measure_said(one: MeasureChange, manner: Manner) -> str:
    """`bag deep 4 in -> 5 in: the notch across went from 2 in to 2 1/2 in (line 12), counted 2 x`."""
    name = f"{one.thing} {one.name}"
    if one.before is None or one.after is None:
        change, there = ("new", one.after) if one.before is None else ("gone", one.before)
        return f"{name} is {change}: {manner.value(there)}{in_sizes(one.sizes)}"
    causes = "; ".join(cause_said(cause, manner) for cause in one.causes) or "its sum is another"
    return f"{name} {manner.went(one.before, one.after)}{in_sizes(one.sizes)}: {causes}"


def cause_said(cause: Cause, manner: Manner) -> str:
    """What a written length did to a measure."""
    before, after = cause.before, cause.after
    was, now = cause.factors
    where = manner.at(cause.lines)
    what = subject(cause.says)
    if before is None or after is None:
        factor, there = (now, after) if before is None else (was, before)
        comes = "came into" if before is None else "left"
        return f"{what}, {factor_text(factor)}{manner.value(there)}, {comes} the sum{where}{taken_off(factor)}"
    if was == now:
        return f"{what} went from {manner.value(before)} to {manner.value(after)}{where}{times(now)}"
    went = f" went from {manner.value(before)} to {manner.value(after)} and" if before != after else ""
    return f"{what}{went} counts {count(now)}, before {count(was)}{where}"


def subject(says: str) -> str:
    """`the notch across`; `front wide` for what the sum calls `front is wide`."""
    if " is " in says:
        return says.replace(" is ", " ", 1)
    return says if says.startswith("half ") else f"the {says}"


def times(factor: Rational) -> str:
    """How a length enters a sum, where not simply once."""
    if factor < 0:
        return f", taken off{'' if factor == -1 else ' ' + factor_text(factor).rstrip()}"
    return "" if factor == 1 else f", counted {factor_text(factor).rstrip()}"


def taken_off(factor: Rational) -> str:
    return ", taken off" if factor < 0 else ""


def count(factor: Rational) -> str:
    """`2 x`, `-1 x`."""
    return f"{'-' if factor < 0 else ''}{factor_text(factor).rstrip() or '1 x'}"


def finding_said(one: FoundChange, manner: Manner) -> str:
    where = f" (line {one.line})" if manner.places else ""
    return f"{one.change}: {one.severity} {one.rule}{where}: {one.says}"


# ------------------------------------------------------------------ what could not be compared
def provisos(comparison: Comparison, names: Sequence[str]) -> Iterator[str]:
    """What a reader must know before trusting the comparison: sentences."""
    for lines, name in zip(comparison.unread, names, strict=True):
        if lines:
            shown = listed([str(line) for line in lines[:12]]) + (" and more" if len(lines) > 12 else "")
            yield (
                f"{name}: line{'s' if len(lines) > 1 else ''} {shown} could not be read; what "
                f"{'they say' if len(lines) > 1 else 'it says'} is missing from this comparison"
            )
    partly = [name for part, name in zip(comparison.partly, names, strict=True) if part]
    if partly:
        yield (
            f"{listed(partly)} {'are' if len(partly) > 1 else 'is'} understood only in part: measures may be off, and "
            f"findings about a recipe as a whole are not compared"
        )
    if comparison.sizes is not None and comparison.sizes != (None, None):
        one, other = (f"size {name}" if name is not None else "the one size" for name in comparison.sizes)
        yield f"the recipes share no size: {one} of the old is compared with {other} of the new"


def titles(old: Recipe, new: Recipe) -> list[str | None]:
    """`Market tote, revision A` of each side; None for a side that has no text at all."""
    return [title(recipe) if recipe.reading.statements or recipe.reading.stumbles else None for recipe in (old, new)]


def cautions(comparison: Comparison) -> list[str]:
    """What to take care of in steps that are new or said otherwise, each once."""
    found = [caution for one in comparison.steps if one.change != "moved" for caution in one.cautions[1]]
    return list(dict.fromkeys(found))
