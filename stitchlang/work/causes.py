"""Finished measures before and after, each with its cause: the written lengths in its sum that changed."""

from bisect import bisect_right

from ..ground.lengths import SAME
from .changes import Cause, Length, MeasureChange
from .measure import measured
from .stated import line_of, words


def measure_changes(old, new):
    """Every finished measure that is not what it was, in the new recipe's order, those that are gone last."""
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
    return found


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


def causes_of(before, after, owners):
    """The causes of a difference between two Workings; their differences add up to it."""
    sides = [list(working.levers()) for working in (before, after)]
    pairs = []
    # First the same length of the same statement, then one called alike: `at 1/4` where the recipe's own was taken.
    for sign in (lambda leaf, side: (leaf.says, side.of(leaf.at)), lambda leaf, _: leaf.says):
        waiting = {}
        for term in sides[1]:
            waiting.setdefault(sign(term[1], owners[1]), []).append(term)
        rest = []
        for term in sides[0]:
            same = waiting.get(sign(term[1], owners[0]))
            if same:
                pairs.append((term, same.pop(0)))
            else:
                rest.append(term)
        taken = {id(pair[1]) for pair in pairs}
        sides = [rest, [term for term in sides[1] if id(term) not in taken]]
    pairs += [(term, None) for term in sides[0]] + [(None, term) for term in sides[1]]
    causes = [cause(one, other, owners) for one, other in pairs]
    return [one for one in causes if abs(one.difference) >= SAME]


def cause(one, other, owners):
    """The cause that two matched terms make; one of them may be None."""
    (factor, leaf), (its, new) = one or (0, None), other or (0, None)
    lengths = [Length(side.mm) if side is not None else None for side in (leaf, new)]
    lines = tuple(
        line_of(side.recipe, term.at) if term is not None else None
        for side, term in zip(owners, (leaf, new), strict=True)
    )
    return Cause((new or leaf).says, *lengths, (factor, its), lines)
