"""A length together with the sum that gave it.

`Working` is what every finished measure is made of: either a leaf, a length
somebody wrote (with the place where), or a total of other workings, each with
the factor it enters by.  Nothing is ever rounded in here.
"""

from __future__ import annotations

from fractions import Fraction

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from .lengths import Rational
    from .text import Span

    Terms = tuple[tuple[Rational, "Working"], ...]


class Working:
    """`mm` exact millimetres; `exact` False once pi came in.

    `says` names the quantity, `at` is the span it was written at (None for a
    total), `terms` the (factor, Working) pairs that add up to it.
    """

    __slots__ = ("mm", "exact", "says", "at", "terms")

    def __init__(self, mm: Rational, says: str, at: Span | None = None, terms: Terms = (), exact: bool = True) -> None:
        # Of two ints a quotient is a float, so that a length is never an int.
        self.mm: Fraction = mm if isinstance(mm, Fraction) else Fraction(mm)
        self.says = says
        self.at = at
        self.terms = terms
        self.exact = exact

    def __repr__(self) -> str:
        return f"Working({self.says}: {self.mm} mm)"

    def leaves(self, factor: Rational = 1) -> Iterator[tuple[Rational, Working]]:
        """(factor, leaf) for every written length in the sum, in order, factors multiplied out."""
        stack = [(factor, self)]
        while stack:
            factor, working = stack.pop()
            if working.terms:
                stack.extend((factor * inner, term) for inner, term in reversed(working.terms))
            elif working.mm:
                yield factor, working

    def becomes(self, other: Working) -> None:
        """Take over another's length and sum: what was left for later is now known."""
        self.mm, self.exact = other.mm, other.exact
        self.terms = ((1, other),)

    def levers(self, by_place: bool = False) -> list[tuple[Rational, Working]]:
        """(net factor, leaf) for each written length the sum hangs on, alike ones taken together.

        `by_place` also takes together what is written once and means several
        pieces, as `piece front, back of sail: 10 x 12` does.
        """
        net: dict[object, tuple[Rational, Working]] = {}
        for factor, leaf in self.leaves():
            key = leaf.at if by_place and leaf.at is not None else (leaf.at, leaf.says)
            net[key] = (net.get(key, (0, leaf))[0] + factor, leaf)
        return [(factor, leaf) for factor, leaf in net.values() if factor]


NOTHING = Working(0, "nothing")


def later(says: str, at: Span | None = None) -> Working:
    """A Working that stands in a sum already and is worked out once every edge has its fate."""
    return Working(0, says, at)


def total(says: str, *terms: tuple[Rational, Working], at: Span | None = None) -> Working:
    """The sum of (factor, Working) pairs."""
    # Over one denominator, and brought to lowest terms once: a Fraction does that after each step.
    over, under, exact = 0, 1, True
    for factor, working in terms:
        mm = working.mm
        own, its = factor.numerator * mm.numerator, factor.denominator * mm.denominator
        if its == under:
            over += own
        else:
            over, under = over * its + own * under, under * its
        exact = exact and working.exact
    return Working(Fraction(over, under), says, at, terms, exact)
