"""Finished measures before and after, each with its cause: the written lengths in its sum that changed."""

from bisect import bisect_right

from attrs import evolve

from ..ground.lengths import SAME
from .changes import Cause, Length, MeasureChange
from .measure import measured
from .stated import line_of, words


def measure_changes(old, new):
    """Every finished measure that is not what it was: of what is promised first, else in the new recipe's order."""
    before, after = ({one.title: one for one in measured(recipe)} for recipe in (old, new))
    owners = Owners(old), Owners(new)
    found = []
    for title in (*after, *(title for title in before if title not in after)):
        one, other = before.get(title), after.get(title)
        named = other or one
        lengths = [Length(side.working.mm) if side is not None else None for side in (one, other)]
        if one is None or other is None:
            found.append(MeasureChange(named.thing, named.name, *lengths))
        elif abs(other.working.mm - one.working.mm) >= SAME:
            causes = causes_of(one.working, other.working, owners)
            found.append(MeasureChange(named.thing, named.name, *lengths, causes))
    promised = {claim.thing.name for recipe in (old, new) for claim in recipe.claims}
    return sorted(found, key=lambda one: one.thing not in promised)


class Owners:
    """Which statement of a recipe a place lies in, by its verb and names."""

    def __init__(self, recipe):
        self.recipe = recipe
        self.nodes = sorted(recipe.reading.statements, key=lambda node: node.start)
        self.starts = [node.start for node in self.nodes]
        self.known = {}

    def of(self, at):
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
SIGNS = (
    lambda factor, leaf, owners: (leaf.says, factor < 0, owners.of(leaf.at)),
    lambda factor, leaf, _: (leaf.says, factor < 0),
    lambda _, leaf, __: leaf.says,
)


def causes_of(before, after, owners):
    """The causes of a difference between two Workings; their differences add up to it."""
    old, new, pairs = terms(before), terms(after), []
    for sign in SIGNS:
        waiting = {}
        for term in new:
            waiting.setdefault(sign(*term, owners[1]), []).append(term)
        rest = []
        for term in old:
            same = waiting.get(sign(*term, owners[0]))
            if same:
                pairs.append((term, same.pop(0)))
            else:
                rest.append(term)
        taken = {id(other) for _, other in pairs}
        old, new = rest, [term for term in new if id(term) not in taken]
    pairs += [(term, None) for term in old] + [(None, term) for term in new]
    return together([cause(one, other, owners) for one, other in pairs])


def terms(working):
    """(factor, leaf) for each written length in a sum; one that is added here and taken off there is two terms."""
    found = {}
    for factor, leaf in working.leaves():
        key = (leaf.at, leaf.says, factor < 0)
        found[key] = (found.get(key, (0, leaf))[0] + factor, leaf)
    return list(found.values())


def together(causes):
    """Causes with those that are one length taken together; what then makes no difference is none."""
    found = {}
    for one in causes:
        key = (one.says, one.before, one.after, one.lines)
        if key in found:
            one = evolve(one, factors=tuple(map(sum, zip(one.factors, found[key].factors, strict=True))))
        found[key] = one
    return [one for one in found.values() if abs(one.difference) >= SAME]


def cause(one, other, owners):
    """The cause that two matched terms make; one of them may be None."""
    (factor, leaf), (its, new) = one or (0, None), other or (0, None)
    lengths = [Length(side.mm) if side is not None else None for side in (leaf, new)]
    lines = tuple(
        line_of(side.recipe, term.at) if term is not None else None
        for side, term in zip(owners, (leaf, new), strict=True)
    )
    return Cause((new or leaf).says, *lengths, (factor, its), lines)
