"""Finished measures before and after, each with its cause: the written lengths in its sum that changed."""

from __future__ import annotations

from bisect import bisect_right

from attrs import evolve

from ..ground.lengths import SAME
from .changes import Cause, Length, MeasureChange
from .measure import measured
from .stated import line_of, words

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from typing import TypeAlias

    from ..ground.lengths import Rational
    from ..ground.text import Span
    from ..ground.working import Working
    from ..model.recipe import Recipe
    from .changes import Line

    Term: TypeAlias = tuple[Rational, Working]  # (factor, leaf) of a sum
    Owner: TypeAlias = tuple[str, tuple[str, ...]]
    Both: TypeAlias = "tuple[Owners, Owners]"


def measure_changes(old: Recipe, new: Recipe) -> list[MeasureChange]:
    """Every finished measure that is not what it was: of what is promised first, else in the new recipe's order."""
    before, after = ({one.title: one for one in measured(recipe)} for recipe in (old, new))
    owners = Owners(old), Owners(new)
    found: list[MeasureChange] = []
    for title, one in after.items():
        was = before.get(title)
        if was is None:
            found.append(MeasureChange(one.thing, one.name, None, Length(one.working.mm)))
        elif abs(one.working.mm - was.working.mm) >= SAME:
            lengths = Length(was.working.mm), Length(one.working.mm)
            causes = causes_of(was.working, one.working, owners)
            found.append(MeasureChange(one.thing, one.name, *lengths, tuple(causes)))
    gone = [one for title, one in before.items() if title not in after]
    found += [MeasureChange(one.thing, one.name, Length(one.working.mm), None) for one in gone]
    promised = {claim.thing.name for recipe in (old, new) for claim in recipe.claims}
    return sorted(found, key=lambda one: one.thing not in promised)


class Owners:
    """Which statement of a recipe a place lies in, by its verb and names."""

    def __init__(self, recipe: Recipe) -> None:
        self.recipe = recipe
        self.nodes = sorted(recipe.reading.statements, key=lambda node: node.start)
        self.starts = [node.start for node in self.nodes]
        self.known: dict[int, Owner] = {}

    def of(self, at: Span | None) -> Owner | None:
        """(verb, names) of the statement; the same in two recipes for statements that do the same."""
        number = bisect_right(self.starts, at.start) - 1 if at is not None else -1
        if number < 0:
            return None
        if number not in self.known:
            node = self.nodes[number]
            self.known[number] = (node.rule, words(node, self.recipe))
        return self.known[number]


# From the surest sign that two terms are one to the weakest: the same length of the same statement, added in both sums
# or taken off in both; then one called alike, as `at 1/4` is where before the recipe's own allowance was taken.
SIGNS: tuple[Callable[[Rational, Working, Owners], object], ...] = (
    lambda factor, leaf, owners: (leaf.says, factor < 0, owners.of(leaf.at)),
    lambda factor, leaf, _: (leaf.says, factor < 0),
    lambda _, leaf, __: leaf.says,
)


def causes_of(before: Working, after: Working, owners: Both) -> list[Cause]:
    """The causes of a difference between two Workings; their differences add up to it."""
    old, new = terms(before), terms(after)
    pairs: list[tuple[str, Term | None, Term | None]] = []  # what the length is called, and both its terms
    for sign in SIGNS:
        waiting: dict[object, list[Term]] = {}
        for term in new:
            waiting.setdefault(sign(*term, owners[1]), []).append(term)
        rest: list[Term] = []
        for term in old:
            same = waiting.get(sign(*term, owners[0]))
            if same:
                pairs.append((same[0][1].says, term, same.pop(0)))
            else:
                rest.append(term)
        taken = {id(other) for _, _, other in pairs}
        old, new = rest, [term for term in new if id(term) not in taken]
    pairs += [(term[1].says, term, None) for term in old] + [(term[1].says, None, term) for term in new]
    return together(cause(*pair, owners) for pair in pairs)


def terms(working: Working) -> list[Term]:
    """(factor, leaf) for each written length in a sum; one that is added here and taken off there is two terms."""
    found: dict[object, Term] = {}
    for factor, leaf in working.leaves():
        key = (leaf.at, leaf.says, factor < 0)
        found[key] = (found.get(key, (0, leaf))[0] + factor, leaf)
    return list(found.values())


def together(causes: Iterable[Cause]) -> list[Cause]:
    """Causes with those that are one length taken together; what then makes no difference is none."""
    found: dict[object, Cause] = {}
    for one in causes:
        key = (one.says, one.before, one.after, one.lines)
        if key in found:
            (was, now), (more, its) = one.factors, found[key].factors
            one = evolve(one, factors=(was + more, now + its))
        found[key] = one
    return [one for one in found.values() if abs(one.difference) >= SAME]


def cause(says: str, one: Term | None, other: Term | None, owners: Both) -> Cause:
    """The cause that two matched terms make; one of them may be None."""
    (was, before, line), (now, after, its) = side(one, owners[0]), side(other, owners[1])
    return Cause(says, before, after, (was, now), (line, its))


def side(term: Term | None, owners: Owners) -> tuple[Rational, Length | None, Line | None]:
    """(factor, length, line) of a term on one side; what is not in that sum counts nothing."""
    if term is None:
        return 0, None, None
    factor, leaf = term
    return factor, Length(leaf.mm), line_of(owners.recipe, leaf.at) if leaf.at is not None else None
