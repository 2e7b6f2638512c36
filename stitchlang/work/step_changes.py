"""What changed in the steps: matched by verb, things and edges, wherever the statements stand."""

from bisect import bisect_left

from attrs import frozen

from ..cautions import CAUTIONS
from ..ground.lengths import SAME
from ..speech import Speech
from ..verbs import VERBS
from .changes import PartChange, StepChange, change_of
from .stated import line_of, words
from .steps import cautions_of, steps_of


class ExactSpeech(Speech):
    """Lengths as whole numbers of the least difference that counts: two sentences are one only if their lengths are."""

    def length(self, working):
        return f"{round(getattr(working, 'mm', working) / SAME)} parts"


@frozen(eq=False)
class Told:
    """A statement with its step: the sentence to read, the sentence to compare, and where it stands."""

    op: object
    number: int
    part: str
    sentence: str
    exact: str
    cautions: tuple
    names: tuple
    things: frozenset
    place: int
    line: int


def told(recipe, unit):
    """Every statement that has a step, in the order of the steps: a list of Told."""
    ops = {op.at.start: op for op in recipe.ops}
    read, exact = (steps_of(recipe, speech) for speech in (Speech(unit, 64), ExactSpeech()))
    found = []
    for step, same in zip(read, exact, strict=True):
        if step.at is not None:
            op = ops[step.at.start]
            things = frozenset(thing.name for thing in op.things if thing.name)
            said = f' "{step.said}"' if step.said else ""
            care = tuple(CAUTIONS[key] for key in cautions_of(op, VERBS[op.verb]))
            sentences = (step.sentence + said, " ".join((same.sentence + said, *care)))
            place = (len(found), line_of(recipe, step.at))
            found.append(Told(op, step.number, step.part, *sentences, care, words(op.node, recipe), things, *place))
    return found


# ------------------------------------------------------------------ matching
# From the surest sign that two steps are one to the weakest.
SIGNS = (
    lambda one: (one.op.verb, one.exact),
    lambda one: (one.op.verb, one.names),
    lambda one: (one.op.verb, one.things),
)


def matched(old, new):
    """(pairs, those of the old without one, those of the new); of several alike the first goes with the first."""
    pairs = []
    for sign in SIGNS:
        waiting = {}
        for one in new:
            waiting.setdefault(sign(one), []).append(one)
        waiting = {key: iter(ones) for key, ones in waiting.items()}
        found = [(one, next(waiting.get(sign(one), iter(())), None)) for one in old]
        found = [pair for pair in found if pair[1] is not None]
        pairs += found
        taken = {id(one) for pair in found for one in pair}
        old, new = ([one for one in side if id(one) not in taken] for side in (old, new))
    return sorted(pairs, key=lambda pair: pair[1].place), old, new


def in_order(pairs):
    """As many pairs as can be that stand in the same order on both sides: the rest have moved.

    Each pair gets the length of the longest row that ends in it; the row is then taken up from its end.  Among equals
    the sentence decides, and not the side, so that nothing hangs on which recipe is the old one.
    """
    ends, rows = [], []
    for pair in sorted(pairs, key=lambda pair: pair[0].place):
        length = bisect_left(ends, pair[1].place)
        if length == len(ends):
            ends.append(None)
            rows.append([])
        ends[length] = pair[1].place
        rows[length].append(pair)
    kept, limit = [], None
    for row in reversed(rows):
        fitting = [pair for pair in row if limit is None or ahead(pair, limit)]
        limit = min(fitting, key=lambda pair: (sorted(one.exact for one in pair), sum(one.place for one in pair)))
        kept.append(limit)
    return kept


def ahead(pair, other):
    """Whether a pair stands before another on both sides."""
    return all(one.place < its.place for one, its in zip(pair, other, strict=True))


# ------------------------------------------------------------------ changes
def step_changes(old, new):
    """What changed between two lists of Told: StepChanges in the order of the new steps, those that are gone last."""
    pairs, gone, come = matched(old, new)
    kept = {id(one) for pair in in_order(pairs) for one in pair}
    found = [one for pair in pairs if (one := step_change(*pair, id(pair[1]) not in kept)) is not None]
    found += [step_change(None, one) for one in come]
    found.sort(key=lambda one: one.numbers[1])
    return found + [step_change(one, None) for one in gone]


def step_change(one, other, moved=False):
    """How two matched steps differ, or one that has no match; None where they are one."""
    sides = (one, other)
    if None not in sides and one.exact == other.exact and not moved:
        return None
    change = change_of(one, other)
    if None not in sides and one.exact == other.exact:
        change = "moved"
    sentences, numbers, lines = (
        tuple(getattr(side, name) if side is not None else None for side in sides)
        for name in ("sentence", "number", "line")
    )
    cautions = tuple(side.cautions if side is not None else () for side in sides)
    return StepChange(change, *sentences, numbers, lines, moved, cautions)


def part_changes(pairs):
    """Headings under which matched steps stood and stand, where those differ."""
    found = {}
    for one, other in pairs:
        if one.part != other.part:
            found[one.part, other.part] = found.get((one.part, other.part), 0) + 1
    return [PartChange(*parts, count) for parts, count in found.items()]
