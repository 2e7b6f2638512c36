"""What a comparison of two recipes is made of: values, exact, told apart from how they are said.

Wherever something has two sides, the old one comes first: `before` and `after`, or a pair.  `change` is `new`, `gone`,
`changed` or `moved`; for findings `gained` or `lost`.  `lines` is a pair of line numbers, None on the side where there
is none.  Of recipes in several sizes `sizes` names those in which a change holds; none means in all that were compared.
"""

from __future__ import annotations

from fractions import Fraction

from attrs import frozen

from ..ground.lengths import SAME
from ..ground.units import mass_per_area

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from typing import TypeAlias

    from ..ground.lengths import Rational

    # What a fact is: a Length, a Mass, a number, a text, True, several of them, or None for none.
    Stated: TypeAlias = "Length | Mass | Rational | str | bool | tuple[Stated, ...] | None"
    Line: TypeAlias = int | str  # a number, or `5 of strap.stitch`
    Lines: TypeAlias = tuple[Line | None, Line | None]
    Sizes: TypeAlias = tuple[str, ...]

NOWHERE = (None, None)


@frozen
class Length:
    """A length among other facts, so that it is shown as one: exact millimetres."""

    mm: Fraction


@frozen
class Mass:
    """A mass per area among other facts, as written: what it comes to is asked only of two spelled differently."""

    written: str


@frozen
class Fact:
    """One fact of something, before and after."""

    name: str
    before: Stated
    after: Stated


@frozen
class Named:
    """Something with a name and facts: a piece, a stuff, a promise, a note.  `kind` says which.

    What is new has no facts before, what is gone none after.
    """

    kind: str
    name: str
    change: str
    facts: tuple[Fact, ...] = ()
    lines: Lines = NOWHERE
    sizes: Sizes = ()


@frozen
class Renamed:
    """Two names, one gone and one new, of things with the same facts and the same use: so it looks, no more."""

    kind: str
    before: str
    after: str
    lines: Lines = NOWHERE


@frozen
class Allowance:
    """What a seam or a hem takes, or how far a row of stitching lies from its edge: Lengths, or None for none.

    A row's length is as written where it could not be made sense of.
    """

    what: str
    before: Length | str | None
    after: Length | str | None
    lines: Lines = NOWHERE
    sizes: Sizes = ()


@frozen
class StepChange:
    """A step that is new, gone, said otherwise, or done at another place in the order (`moved`, or changed too).

    `before` and `after` are its sentences, `numbers` its numbers in the two step lists, `cautions` what to take care of
    in each of them; None, and no cautions, on the side where there is no such step.
    """

    change: str
    before: str | None
    after: str | None
    numbers: tuple[int | None, int | None]
    lines: Lines
    moved: bool = False
    cautions: tuple[tuple[str, ...], tuple[str, ...]] = ((), ())
    sizes: Sizes = ()


@frozen
class PartChange:
    """So many steps that stood under one heading and stand under another."""

    before: str
    after: str
    count: int
    sizes: Sizes = ()


@frozen
class Cause:
    """A written length in a measure's sum that changed, or counts otherwise: its name, Lengths and factors.

    A length that left the sum, or came into it, has no Length and counts 0 on the other side.
    """

    says: str
    before: Length | None
    after: Length | None
    factors: tuple[Rational, Rational]
    lines: Lines

    @property
    def difference(self) -> Fraction:
        """What it adds to the measure, in millimetres."""
        return share(self.after, self.factors[1]) - share(self.before, self.factors[0])


def share(length: Length | None, factor: Rational) -> Fraction:
    """What a length contributes to a sum."""
    return length.mm * factor if length is not None else Fraction(0)


@frozen
class MeasureChange:
    """A finished measure before and after: Lengths, None where there was no such measure, and what it comes from."""

    thing: str
    name: str
    before: Length | None
    after: Length | None
    causes: tuple[Cause, ...] = ()
    sizes: Sizes = ()


@frozen
class FoundChange:
    """A finding gained or lost: as it is said of the recipe that has it, and the line there."""

    change: str
    rule: str
    severity: str
    says: str
    line: Line


@frozen
class Comparison:
    """All that changed from one recipe to another.

    `unread` is for each side the lines that could not be read, `partly` whether it is understood only in part.
    `sizes` is the pair of sizes compared where the recipes share none, else None.
    """

    heading: tuple[Fact, ...]
    renamed: tuple[Renamed, ...]
    pieces: tuple[Named, ...]
    materials: tuple[Named, ...]
    allowances: tuple[Allowance, ...]
    parts: tuple[PartChange, ...]
    steps: tuple[StepChange, ...]
    notes: tuple[Named, ...]
    measures: tuple[MeasureChange, ...]
    promises: tuple[Named, ...]
    findings: tuple[FoundChange, ...]
    unread: tuple[tuple[Line, ...], tuple[Line, ...]] = ((), ())
    partly: tuple[bool, bool] = (False, False)
    sizes: tuple[str | None, str | None] | None = None

    @property
    def differs(self) -> bool:
        """Whether anything in the bag changed."""
        found = (self.heading, self.renamed, self.pieces, self.materials, self.allowances, self.parts, self.steps)
        return any((*found, self.notes, self.measures, self.promises, self.findings))


def alike(one: Stated, other: Stated) -> bool:
    """Whether two facts are one: lengths a millionth of a micrometre apart are, and masses spelled differently."""
    if isinstance(one, Length) and isinstance(other, Length):
        return abs(one.mm - other.mm) < SAME
    if isinstance(one, Mass) and isinstance(other, Mass):
        return one == other or mass_per_area(one.written) == mass_per_area(other.written)
    return one == other


def change_of(before: object, after: object) -> str:
    """`new`, `gone` or `changed`, by which side is there."""
    return "new" if before is None else "gone" if after is None else "changed"
