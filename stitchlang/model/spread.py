"""How far a finished measure may be off because nobody cuts and sews exactly.

Every written length in a sum was laid on cloth once: a cut size by ruler and cutter, an allowance by the foot.  Each
goes wrong by so much and no more (`Accuracy`), independently of the others, however often the recipe's one number
stands for several rows.  The worst case adds all up; the likely spread is the root of the sum of squares.
"""

from __future__ import annotations

from ..ground.lengths import MM, root

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable
    from fractions import Fraction

    from ..ground.lengths import Rational
    from ..ground.working import Working
    from .kinds import Terms

# A row is straight within 1/16 in (MIL-L-24778, marinelifesavingdivingequipment.emilspec.com).  Cutting along a ruler
# with 1/16 in marks is good to half a mark (common practice, no source; a cutting room allows itself 2 mm on a face:
# Industrial Cutting of Textile Materials, table 13.1).
CUTTING, STITCHING = MM["in"] / 32, MM["in"] / 16
# What a cut size is called in a sum; everything else is sewn or pressed.
CUT_WORDS = ("notch", "trimmed", "corner radius", "clipped corner", "point of", "tape", "slanted side")


class Accuracy:
    """How exactly somebody cuts and stitches: millimetres either way; `stated` where the recipe says so."""

    __slots__ = ("cutting", "stitching", "stated")

    def __init__(self, cutting: Fraction = CUTTING, stitching: Fraction = STITCHING, stated: bool = False) -> None:
        self.cutting = cutting
        self.stitching = stitching
        self.stated = stated

    def of(self, leaf: Working) -> Rational:
        """How far one written length may be off."""
        if leaf.at is None and leaf.says == "centred":
            return 0
        return self.cutting if is_cut(leaf) else self.stitching


def is_cut(leaf: Working) -> bool:
    """Whether a written length is laid out with ruler and cutter."""
    return " is " in leaf.says or leaf.says in ("long", "zip with its caps") or leaf.says.startswith(CUT_WORDS)


class Spread:
    """`worst` and `likely`: millimetres either way, Fractions (a root to forty places)."""

    __slots__ = ("likely", "worst")

    def __init__(self, worst: Rational, likely: Rational) -> None:
        self.worst = worst
        self.likely = likely


def spread(accuracy: Accuracy, *terms: tuple[Rational, Working]) -> Spread:
    """The spread of a sum of (factor, Working) pairs: a Spread."""
    worst: Rational = 0
    squares: Rational = 0
    for factor, leaf in laid_once(terms):
        off = factor * accuracy.of(leaf)
        worst += -off if off < 0 else off
        squares += off * off
    return Spread(worst, root(squares) if squares else 0)


def laid_once(terms: Iterable[tuple[Rational, Working]]) -> Terms:
    """(factor, leaf) for every length laid on cloth.

    What was trimmed to a size is as long as that size, however it came about: the lengths it was made of drop out.
    """
    found: Terms = []
    cut_off: Terms = []
    stack = [(sign, working, False) for sign, working in terms]
    while stack:
        factor, working, trimmed = stack.pop()
        if working.terms:
            made_of_it = working.says.startswith("trimmed off")
            for at, (inner, term) in enumerate(working.terms):
                stack.append((factor * inner, term, trimmed or (made_of_it and at == 0)))
        elif working.mm:
            (cut_off if trimmed else found).append((factor, working))
    for factor, leaf in cut_off:
        if (-factor, leaf) in found:
            found.remove((-factor, leaf))
        else:
            found.append((factor, leaf))
    return found
