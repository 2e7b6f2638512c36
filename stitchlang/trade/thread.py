"""How much thread a row of stitching takes.

A stitch of length N through a seam T thick takes its share of straight runs
along the cloth and goes through the cloth twice.  For a lockstitch (ISO 4915
type 301) that is 2N + 2T, so thread to seam is

    C = 2 + 2 T S

with S = 1/N stitches to the same unit as T is measured in; the formula holds
in any unit.  Published, with the chainstitches 101 and 401, at
textilecalculations.com/calculate-amount-of-sewing-thread-consumption.
"""

from __future__ import annotations

from fractions import Fraction

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..ground.lengths import Rational

# Straight runs along the cloth for each stitch, by ISO 4915 type.
RUNS = {"101": 3, "301": 2, "401": 4}
LOCKSTITCH = "301"

# Where the thickness is not known: thread to seam for 301 (ru.scribd.com/document/49933681).
# It is what the formula gives for 0.25 of cloth to a unit of stitch: two plies of quilting cotton.
FLAT = Fraction(5, 2)

# Breaks, ravels and repairs: 10 to 15 % (apparelscience.com/measuring-actual-thread-consumption).
WASTE = Fraction(15, 100)

# A balanced lockstitch takes as much from the bobbin as from the needle (ru.scribd.com/document/49933681).
BOBBIN = Fraction(1, 2)

# Millimetres of each of the two threads held at every start and every stop (common practice, no source).
TAIL = 100

# Millimetres, where a recipe says nothing: what domestic machines come set to (common practice, no source).
STITCH = Fraction(5, 2)


def ratio(thick: Rational | None, stitch: Fraction = STITCH, kind: str = LOCKSTITCH) -> Fraction:
    """Thread to seam: `thick` and `stitch` (the length of one) in the same unit; FLAT where `thick` is None."""
    if thick is None:
        return FLAT
    return RUNS[kind] + 2 * thick / stitch


def with_waste(thread: Rational) -> Fraction:
    """A length of thread with what is lost on the way."""
    return thread * (1 + WASTE)


def tails(ends: int) -> int:
    """Thread left hanging at so many starts and stops, needle and bobbin together."""
    return 2 * TAIL * ends
