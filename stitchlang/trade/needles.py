"""Needles, thread and stitch length, as published: by mass of cloth, by size of thread, by work.

The tables disagree, so every answer is a range with the rows it came from.  Guides name cloth by kind; the mass that
stands for a kind is from other tables (5mv.com/blogs/news/how-is-cotton-fabric-categorized: cottons by oz/yd2;
aaenterprises.in/fabric-gsm-chart: canvas 300-500 g/m2; bmytextile.com/what-is-denim-fabric-and-its-types.html: denim
from 4.7 oz, medium from 8 oz, heavy from 12 oz), and where a guide says no more than `heavy` or `light`, the mass is
our own reading.
"""

from __future__ import annotations

from collections import namedtuple
from fractions import Fraction

from ..ground.lengths import MM

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..ground.lengths import Rational

# Metric size, the blade in hundredths of a millimetre, and the other number that packets carry
# (shoemaking.wiki/Sewing_Machine_Needle_Sizing; 110 as in manualslib.es/manual/656612, page 18).
SIZES = dict(
    zip(
        (60, 65, 70, 75, 80, 90, 100, 110, 120, 125, 130, 140, 160, 180, 200),
        (8, 9, 10, 11, 12, 14, 16, 18, 19, 20, 21, 22, 23, 24, 25),
        strict=True,
    )
)
OTHER_NUMBER = {other: size for size, other in SIZES.items()}

# Sources by a short name, and where they are to be read.  Addresses that would name a maker's product are left out.
MANUAL = "a machine manual"  # manualslib.es/manual/656612, page 18
MANUALS = "two other machine manuals"
DENIM = "a guide to denim"  # patternemporium.com/blogs/education-tips/tips-for-sewing-denim
SELLER = "a thread seller's needle chart"
BONDED = "a thread seller's page"  # jsrz.com/polyester-filament-thread/polyester-filament-thread-size-138-tex-135.html
SEAMS = "a machine maker's guide to seams"
PIECING = "a guide to stitch length"  # veneaistudio.com/to-seamstresses/how-is-stitch-length-calculated.html
TENTS = "US Army TM 10-8340-224-13"  # tents, page 129
CARGO = "US Army TM 10-1670-298-20P"  # cargo bags, page 30
MEMORY = "from memory, no source"


class Row(namedtuple("Row", "of least most low high source")):
    """`of` is the work; `least` to `most` what it is for: g/m2 or tex; `low` to `high` what the source gives."""

    __slots__ = ()
    of: str
    least: int
    most: int
    low: Rational
    high: Rational
    source: str


class Range(namedtuple("Range", "low high rows")):
    """A range over all rows that apply."""

    __slots__ = ()
    low: Rational
    high: Rational
    rows: list[Row]


def by_inch(most: int, least: int) -> tuple[Fraction, Fraction]:
    """Millimetres of a stitch from stitches to the inch: the more, the shorter."""
    return MM["in"] / most, MM["in"] / least


HEAVIEST = 10**6
CLOTH = (
    Row("fine cotton", 34, 170, 70, 80, MANUAL),  # voile to lawn and shirting, 1 to 5 oz
    Row("quilting cotton", 136, 203, 80, 90, MANUAL),  # 4 to 6 oz
    Row("firm woven cloth", 136, 237, 90, 90, MANUAL),  # as poplin, 4 to 7 oz
    Row("denim", 159, 500, 90, 100, DENIM),
    Row("heavier cloth", 271, HEAVIEST, 80, 100, MANUALS),
    Row("canvas and denim", 271, 500, 100, 100, MANUAL),
    Row("upholstery and coating", 400, HEAVIEST, 110, 110, MANUAL),  # mass: our own reading
)
THREAD = (
    Row("tex 30 to 40", 30, 40, 80, 90, SELLER),
    Row("tex 45", 45, 45, 90, 100, SELLER),
    Row("tex 70", 70, 70, 100, 110, MEMORY),
    Row("tex 90", 90, 90, 110, 120, MEMORY),
    Row("tex 135", 135, 135, 125, 140, BONDED),
)
STITCH = (
    Row("light cloth", 0, 170, *by_inch(14, 12), SEAMS),  # mass: our own reading
    Row("ordinary seams", 102, 407, *by_inch(12, 8), SEAMS),  # mass: our own reading
    Row("heavy cloth", 271, HEAVIEST, *by_inch(10, 6), SEAMS),  # mass: our own reading
    Row("piecing and usual sewing", 136, 203, Fraction(2), Fraction(5, 2), PIECING),
    Row("denim, seams and topstitching", 159, 500, Fraction(28, 10), Fraction(4), DENIM),
    Row("tent cloth", 271, HEAVIEST, *by_inch(7, 5), TENTS),
    Row("cargo bag cloth", 271, HEAVIEST, *by_inch(11, 7), CARGO),
)
# Coated cloth tears along close holes: common practice, no source.
COATED = Fraction(3)


def applying(table: tuple[Row, ...], value: Rational) -> list[Row]:
    """The rows that a value falls into; between two rows, the nearest on each side; beyond the table, none."""
    rows = [row for row in table if row.least <= value <= row.most]
    if rows:
        return rows
    below = max((row for row in table if row.most < value), key=lambda row: row.most, default=None)
    above = min((row for row in table if row.least > value), key=lambda row: row.least, default=None)
    return [below, above] if below and above else []


def ranged(table: tuple[Row, ...], value: Rational) -> Range | None:
    """The range of a table for a value, over every row that applies: a Range, or None."""
    rows = applying(table, value)
    return Range(min(row.low for row in rows), max(row.high for row in rows), rows) if rows else None


def disagree(found: Range) -> bool:
    """Whether no one value is in all of a range's rows."""
    return max(row.low for row in found.rows) > min(row.high for row in found.rows)


def ticket(tex: Rational) -> Fraction:
    """The metric ticket number, three times the metres in a gram: exactly 3000 / tex."""
    return Fraction(3000) / tex
