"""What changed in the steps: matched by verb, things and edges, wherever the statements stand."""

from __future__ import annotations

from bisect import bisect_left

from attrs import frozen

from ..cautions import CAUTIONS
from ..ground.lengths import SAME
from ..speech import Speech, millimetres_of
from ..verbs import VERBS
from .changes import PartChange, StepChange
from .stated import line_of, words
from .steps import cautions_of, steps_of

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence
    from typing import TypeAlias

    from ..ground.lengths import Rational
    from ..ground.working import Working
    from ..model.recipe import Op, Recipe
    from .changes import Line

    Pair: TypeAlias = "tuple[Told, Told]"


class ExactSpeech(Speech):
    """Lengths as whole numbers of the least difference that counts: two sentences are one only if their lengths are."""

    def length(self, working: Working | Rational) -> str:
        return f"{round(millimetres_of(working) / SAME)} parts"


@frozen(eq=False)
class Told:
    """A statement with its step: the sentence to read, the sentence to compare, and where it stands."""

    op: Op
    number: int
    part: str
    sentence: str
    exact: str
    cautions: tuple[str, ...]
    names: tuple[str, ...]
    things: frozenset[str]
    place: int
    line: Line


def told(recipe: Recipe, unit: str) -> list[Told]:
    """Every statement that has a step, in the order of the steps: a list of Told."""
    ops = {op.at.start: op for op in recipe.ops}
    read, exact = (steps_of(recipe, speech) for speech in (Speech(unit, 64), ExactSpeech()))
    found: list[Told] = []
    for step, same in zip(read, exact, strict=True):
        if step.at is not None:
            op = ops[step.at.start]
            things = frozenset(thing.name for thing in op.things if thing.name)
            said = f' "{step.said}"' if step.said else ""
            care = tuple(CAUTIONS[key] for key in cautions_of(op, VERBS[op.verb]))
            sentences = (step.sentence + said, " ".join((same.sentence + said, *care)))
            names, line = words(op.node, recipe), line_of(recipe, step.at)
            found.append(Told(op, step.number, step.part, *sentences, care, names, things, len(found), line))
    return found


# ------------------------------------------------------------------ matching
# From the surest sign that two steps are one to the weakest.
SIGNS: tuple[Callable[[Told], object], ...] = (
    lambda one: (one.op.verb, one.exact),
    lambda one: (one.op.verb, one.names),
    lambda one: (one.op.verb, one.things),
)


def matched(old: Sequence[Told], new: Sequence[Told]) -> tuple[list[Pair], Sequence[Told], Sequence[Told]]:
    """(pairs, those of the old without one, those of the new); of several alike the first goes with the first."""
    pairs: list[Pair] = []
    for sign in SIGNS:
        alike: dict[object, list[Told]] = {}
        for one in new:
            alike.setdefault(sign(one), []).append(one)
        waiting = {key: iter(ones) for key, ones in alike.items()}
        none: Iterator[Told] = iter(())
        found = [(one, other) for one in old if (other := next(waiting.get(sign(one), none), None)) is not None]
        pairs += found
        taken = {id(one) for pair in found for one in pair}
        old, new = ([one for one in side if id(one) not in taken] for side in (old, new))
    return sorted(pairs, key=lambda pair: pair[1].place), old, new


def in_order(pairs: Iterable[Pair]) -> list[Pair]:
    """As many pairs as can be that stand in the same order on both sides: the rest have moved.

    Each pair gets the length of the longest row that ends in it; the row is then taken up from its end.  Among equals
    the sentence decides, and not the side, so that nothing hangs on which recipe is the old one.
    """
    ends: list[int] = []  # the least place in the new steps at which a row of each length ends
    rows: list[list[Pair]] = []
    for pair in sorted(pairs, key=lambda pair: pair[0].place):
        length = bisect_left(ends, pair[1].place)
        if length == len(ends):
            ends.append(pair[1].place)
            rows.append([])
        ends[length] = pair[1].place
        rows[length].append(pair)
    kept: list[Pair] = []
    limit: Pair | None = None
    for row in reversed(rows):
        fitting = [pair for pair in row if limit is None or ahead(pair, limit)]
        limit = min(fitting, key=lambda pair: (sorted(one.exact for one in pair), sum(one.place for one in pair)))
        kept.append(limit)
    return kept


def ahead(pair: Pair, other: Pair) -> bool:
    """Whether a pair stands before another on both sides."""
    return all(one.place < its.place for one, its in zip(pair, other, strict=True))


# ------------------------------------------------------------------ changes
def step_changes(old: Sequence[Told], new: Sequence[Told]) -> list[StepChange]:
    """What changed between two lists of Told: StepChanges in the order of the new steps, those that are gone last."""
    pairs, gone, come = matched(old, new)
    kept = {id(one) for pair in in_order(pairs) for one in pair}
    known = [(other.number, matched_change(one, other, id(other) not in kept)) for one, other in pairs]
    found = [(number, one) for number, one in known if one is not None]
    found += [(one.number, step_change("new", None, one)) for one in come]
    found.sort(key=lambda numbered: numbered[0])
    return [one for _, one in found] + [step_change("gone", one, None) for one in gone]


def matched_change(one: Told, other: Told, moved: bool) -> StepChange | None:
    """How two matched steps differ; None where they are one."""
    if one.exact != other.exact:
        return step_change("changed", one, other, moved)
    return step_change("moved", one, other, moved) if moved else None


def step_change(change: str, one: Told | None, other: Told | None, moved: bool = False) -> StepChange:
    """A change of a step, from what it is on both sides."""
    (before, was, line, care), (after, now, its, cautions) = side(one), side(other)
    return StepChange(change, before, after, (was, now), (line, its), moved, (care, cautions))


def side(one: Told | None) -> tuple[str | None, int | None, Line | None, tuple[str, ...]]:
    """(sentence, number, line, cautions) of a step on one side of a comparison, or of none."""
    return (one.sentence, one.number, one.line, one.cautions) if one is not None else (None, None, None, ())


def part_changes(pairs: Iterable[Pair]) -> list[PartChange]:
    """Headings under which matched steps stood and stand, where those differ."""
    found: dict[tuple[str, str], int] = {}
    for one, other in pairs:
        if one.part != other.part:
            found[one.part, other.part] = found.get((one.part, other.part), 0) + 1
    return [PartChange(*parts, count) for parts, count in found.items()]
