"""Ask a recipe for finished sizes: which cuts move, to what, and why; or which wishes cannot be had together."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

from attrs import frozen

from ...build import build
from ...ground.lengths import MM, SAME, write
from ...model.measures import measure, measures
from .numbers import numbers
from .relations import relations
from .solve import Row, exactly, solve

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from typing import TypeAlias

    from ...ground.text import Span
    from ...model.recipe import Recipe
    from .numbers import Number
    from .relations import Key, Relation

    Edit: TypeAlias = tuple[Span, str]
    Sizes: TypeAlias = dict[Key, Fraction]  # by thing and measure
    Held: TypeAlias = dict[Key, Relation]
    Slope: TypeAlias = dict[int, Fraction]  # how much a length grows with a millimetre of each number, by its place
    View: TypeAlias = tuple[Sizes, Held, dict[Key, Slope]]

ROUNDS = 8  # of working out again where sizes do not change in proportion (slanted sides)
LEAST = 1  # millimetres: no cut becomes smaller


@frozen
class Move:
    """One number that changes: the Number, its new value in its unit, and why."""

    number: Number
    value: Fraction
    why: str


@frozen
class Resized:
    """What came of it.

    `moves` are the changes; `given_up` the claimed sizes that could not be kept; `conflict` the smallest set of wishes
    that cannot be had together, where there is no answer; `edits` (span, text) pairs that make the new recipe.
    """

    moves: tuple[Move, ...] = ()
    given_up: tuple[str, ...] = ()
    conflict: tuple[str, ...] = ()
    edits: tuple[Edit, ...] = ()


class Wish:
    """A finished size asked for: the thing's name, the measure, millimetres, how the wish was written."""

    def __init__(self, thing: str, measure: str, mm: Fraction, says: str) -> None:
        self.thing = thing
        self.measure = measure
        self.mm = mm
        self.says = says


def resize(recipe: Recipe, wishes: Sequence[Wish], step: Fraction | None = None) -> Resized:
    """The cuts that give the wishes: a Resized.

    `step`, in millimetres, is the ruler's mark that new cuts lie on.  Where none is asked for they lie on marks of 1/16
    in or 1 mm if they can, and are exact if they cannot.
    """
    target = Target(recipe, wishes)
    usual = MM["in"] / 16 if recipe.unit == "in" else MM["mm"]
    changes, lost = target.answer(wishes, step or usual)
    if changes is None and step is None:
        changes, lost = target.answer(wishes, None)
    if changes is None:
        return Resized(conflict=smallest_conflict(target, wishes, step))
    moves = [
        Move(number, number.value + change / MM[number.unit], target.why(at, changes, [row.says for row in lost]))
        for at, (number, change) in enumerate(zip(target.numbers, changes, strict=True))
        if change
    ]
    edits = [(move.number.at, move.number.spelled(move.value)) for move in moves]
    edits += claim_edits(recipe, target, changes)
    return Resized(tuple(moves), tuple(row.says for row in lost), (), tuple(edits))


def smallest_conflict(target: Target, wishes: Sequence[Wish], step: Fraction | None) -> tuple[str, ...]:
    """The fewest wishes that have no answer together."""
    for size in range(1, len(wishes) + 1):
        for some in combinations(wishes, size):
            if target.answer(some, step)[0] is None:
                return tuple(wish.says for wish in some)
    return tuple(wish.says for wish in wishes)


class Target:
    """A recipe, its numbers, and how every measure and relation hangs on them."""

    def __init__(self, recipe: Recipe, wishes: Sequence[Wish]) -> None:
        self.recipe = recipe
        self.wishes = wishes
        self.numbers = numbers(recipe)
        self.names = {(wish.thing, wish.measure) for wish in wishes}
        self.names |= {(claim.thing.name, claim.measure) for claim in recipe.claims}
        self.unmoved = [Fraction(0)] * len(self.numbers)
        self.present = self.view(self.unmoved)

    def worked_out(self, changes: Iterable[Fraction]) -> tuple[Sizes, Held]:
        """The recipe with its numbers changed by so many millimetres, its measures and its relations."""
        for number, change in zip(self.numbers, changes, strict=True):
            if change:
                number.put(number.value + change / MM[number.unit])
        again = build(self.recipe.source, self.recipe.size, self.recipe.reading)
        for number in self.numbers:
            number.restore()
        found: Sizes = {}
        for thing, name in self.names:
            if thing in again.things:
                size = measure(again.things[thing], name)
                if size is not None:
                    found[(thing, name)] = size.mm
        return found, relations(again)

    def view(self, changes: Sequence[Fraction]) -> View:
        """The recipe so changed: measures, relations, and how much each grows with a millimetre of each number."""
        sizes, held = self.worked_out(changes)
        lengths = {**sizes, **{key: relation.mm for key, relation in held.items()}}
        slopes: dict[Key, Slope] = {key: {} for key in lengths}
        for at in range(len(self.numbers)):
            nudged = [*changes]
            nudged[at] += 1
            other_sizes, other_held = self.worked_out(nudged)
            for key, length in lengths.items():
                other = other_held[key].mm if key in other_held else other_sizes.get(key, length)
                if abs(other - length) > SAME:
                    slopes[key][at] = other - length
        return sizes, held, slopes

    def rows(self, wishes: Iterable[Wish], view: View | None = None) -> Iterator[Row]:
        """What must hold: wishes and relations; what should: the other sizes that the recipe promises."""
        sizes, held, slopes = view or self.present
        asked = {(wish.thing, wish.measure) for wish in wishes}
        for wish in wishes:
            key: Key = (wish.thing, wish.measure)
            if key not in sizes:
                yield Row({}, 1, 1, wish.says)
                continue
            gap = wish.mm - sizes[key]
            yield Row(slopes[key], gap, gap, f"{wish.thing} {wish.says}")
        for key, relation in held.items():
            if not relation.loose or abs(relation.mm) <= relation.slack:
                yield relation_row(slopes[key], relation)
        for claim in self.recipe.claims:
            key = (claim.thing.name, claim.measure)
            if key in sizes and key not in asked and abs(sizes[key] - claim.length.mm) <= SAME:
                says = f"{claim.thing.name} {self.recipe.say(claim.length)} {claim.measure}"
                yield Row(slopes[key], 0, 0, says, soft=True)

    def answer(self, wishes: Sequence[Wish], step: Fraction | None) -> tuple[list[Fraction] | None, Sequence[Row]]:
        """(change of each number in millimetres, soft rows given up), or (None, ())."""
        total, view = self.unmoved, self.present
        for _ in range(ROUNDS):
            rows = list(self.rows(wishes, view))
            least = [LEAST - number.mm - change for number, change in zip(self.numbers, total, strict=True)]
            marks = None
            if step is not None:
                marks = [(number.mm + change, step) for number, change in zip(self.numbers, total, strict=True)]
            found = solve(rows, least, marks)
            if found is None:
                return None, ()
            changes, lost = found
            kept = [row for row in rows if row not in lost]
            moved = on_marks(self.numbers, total, changes, step) if step else exactly(kept, changes)
            total = [one + other for one, other in zip(total, moved, strict=True)]
            if self.holds(wishes, total, step):
                return total, lost
            view = self.view(total)
        return None, ()

    def holds(self, wishes: Iterable[Wish], changes: Iterable[Fraction], step: Fraction | None) -> bool:
        """Whether the recipe, worked out anew, has what was wished for."""
        sizes, _ = self.worked_out(changes)
        near = Fraction(1, 1000) if step is None else step
        return all(
            (wish.thing, wish.measure) in sizes and abs(sizes[(wish.thing, wish.measure)] - wish.mm) <= near
            for wish in wishes
        )

    def why(self, at: int, changes: Sequence[Fraction], lost: Sequence[str]) -> str:
        """Why a number moves: the wish it serves, or what ties it to one that moves."""
        rows = [row for row in self.rows(self.wishes) if at in row.coefficients]
        wished = [row for row in rows if row.low == row.high and row.low != 0]
        kept = [row for row in rows if row.soft and row.says not in lost]
        if kept and not wished:
            return f"keeps {kept[0].says}"
        tied = [row for row in rows if any(changes[other] for other in row.coefficients if other != at)]
        return (wished or tied or rows)[0].says if rows else ""


def relation_row(slopes: Slope, relation: Relation) -> Row:
    """A relation as a row: as it is now, or within its slack where it is within it now."""
    if relation.floor:
        return Row(slopes, -max(relation.mm, Fraction(0)), None, relation.says)
    if 0 < abs(relation.mm) <= relation.slack and relation.slack > SAME:
        return Row(slopes, -relation.slack - relation.mm, relation.slack - relation.mm, relation.says)
    return Row(slopes, 0, 0, relation.says)


def on_marks(
    numbers: Iterable[Number], total: Iterable[Fraction], changes: Iterable[float], step: Fraction
) -> list[Fraction]:
    """Changes rounded so that each number that moves lies exactly on a mark."""
    moved: list[Fraction] = []
    for number, before, change in zip(numbers, total, changes, strict=True):
        if not change:
            moved.append(Fraction(0))
            continue
        mark = round((number.mm + before + Fraction(change)) / step)
        moved.append(mark * step - number.mm - before)
    return moved


def claim_edits(recipe: Recipe, target: Target, changes: Iterable[Fraction]) -> Iterator[Edit]:
    """New numbers for the claims that no longer hold: what the new cuts give."""
    sizes, _ = target.worked_out(changes)
    for claim in recipe.claims:
        now, at = sizes.get((claim.thing.name, claim.measure)), claim.length.at
        if now is None or at is None or abs(now - claim.length.mm) <= SAME:
            continue
        written = recipe.source.cut(at)
        if recipe.source.own(at) is None or not written[:1].isdigit():
            continue
        unit = recipe.unit or "in"
        text = write(now, unit)
        if text is not None:
            yield at, text if written[-1:].isdigit() else f"{text} {unit}"


def known_measures(recipe: Recipe, thing: str) -> list[str]:
    """The measures that can be asked of a thing, by name."""
    return list(measures(recipe.things[thing]))
