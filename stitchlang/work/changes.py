"""What a comparison of two recipes is made of: values, exact, told apart from how they are said.

Wherever something has two sides, the old one comes first: `before` and `after`, or a pair.  `change` is `new`, `gone`,
`changed` or `moved`; for findings `gained` or `lost`.  `lines` is a pair of line numbers, None on the side where there
is none.  Of recipes in several sizes `sizes` names those in which a change holds; none means in all that were compared.
"""

from attrs import field, frozen

from ..ground.lengths import SAME
from ..ground.units import mass_per_area

NOWHERE = (None, None)


@frozen
class Length:
    """A length among other facts, so that it is shown as one: exact millimetres."""

    mm: object


@frozen
class Mass:
    """A mass per area among other facts, as written: what it comes to is asked only of two spelled differently."""

    written: str


@frozen
class Fact:
    """One fact of something, before and after: a Length, a Mass, a number, a text, True, a tuple, or None for none."""

    name: str
    before: object
    after: object


@frozen
class Named:
    """Something with a name and facts: a piece, a stuff, a promise, a note.  `kind` says which.

    What is new has no facts before, what is gone none after.
    """

    kind: str
    name: str
    change: str
    facts: tuple = field(default=(), converter=tuple)
    lines: tuple = NOWHERE
    sizes: tuple = ()


@frozen
class Renamed:
    """Two names, one gone and one new, of things with the same facts and the same use: so it looks, no more."""

    kind: str
    before: str
    after: str
    lines: tuple = NOWHERE


@frozen
class Allowance:
    """What a seam or a hem takes, or how far a row of stitching lies from its edge: Lengths, or None for none."""

    what: str
    before: object
    after: object
    lines: tuple = NOWHERE
    sizes: tuple = ()


@frozen
class StepChange:
    """A step that is new, gone, said otherwise, or done at another place in the order (`moved`, or changed too).

    `before` and `after` are its sentences, `numbers` its numbers in the two step lists, `cautions` what to take care of
    in each of them.
    """

    change: str
    before: str
    after: str
    numbers: tuple
    lines: tuple
    moved: bool = False
    cautions: tuple = ((), ())
    sizes: tuple = ()


@frozen
class PartChange:
    """So many steps that stood under one heading and stand under another."""

    before: str
    after: str
    count: int
    sizes: tuple = ()


@frozen
class Cause:
    """A written length in a measure's sum that changed, or counts otherwise: its name, Lengths and factors.

    A length that left the sum, or came into it, has no Length and counts 0 on the other side.
    """

    says: str
    before: object
    after: object
    factors: tuple
    lines: tuple

    @property
    def difference(self):
        """What it adds to the measure, in millimetres."""
        return share(self.after, self.factors[1]) - share(self.before, self.factors[0])


def share(length, factor):
    """What a length contributes to a sum."""
    return length.mm * factor if length is not None else 0


@frozen
class MeasureChange:
    """A finished measure before and after: Lengths, None where there was no such measure, and what it comes from."""

    thing: str
    name: str
    before: object
    after: object
    causes: tuple = field(default=(), converter=tuple)
    sizes: tuple = ()


@frozen
class FoundChange:
    """A finding gained or lost: as it is said of the recipe that has it, and the line there."""

    change: str
    rule: str
    severity: str
    says: str
    line: int


@frozen
class Comparison:
    """All that changed from one recipe to another.

    `unread` is for each side the lines that could not be read, `partly` whether it is understood only in part.
    `sizes` is the pair of sizes compared where the recipes share none, else None.
    """

    heading: tuple = field(converter=tuple)
    renamed: tuple = field(converter=tuple)
    pieces: tuple = field(converter=tuple)
    materials: tuple = field(converter=tuple)
    allowances: tuple = field(converter=tuple)
    parts: tuple = field(converter=tuple)
    steps: tuple = field(converter=tuple)
    notes: tuple = field(converter=tuple)
    measures: tuple = field(converter=tuple)
    promises: tuple = field(converter=tuple)
    findings: tuple = field(converter=tuple)
    unread: tuple = ((), ())
    partly: tuple = (False, False)
    sizes: object = None

    @property
    def differs(self):
        """Whether anything in the bag changed."""
        found = (self.heading, self.renamed, self.pieces, self.materials, self.allowances, self.parts, self.steps)
        return any((*found, self.notes, self.measures, self.promises, self.findings))


def alike(one, other):
    """Whether two facts are one: lengths a millionth of a micrometre apart are, and masses spelled differently."""
    if isinstance(one, Length) and isinstance(other, Length):
        return abs(one.mm - other.mm) < SAME
    if isinstance(one, Mass) and isinstance(other, Mass):
        return one == other or mass_per_area(one.written) == mass_per_area(other.written)
    return one == other


def change_of(before, after):
    """`new`, `gone` or `changed`, by which side is there."""
    return "new" if before is None else "gone" if after is None else "changed"
