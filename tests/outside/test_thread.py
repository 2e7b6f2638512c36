"""Thread used, against published formulas, chart cells and worked examples.

Sources: textilecalculations.com/calculate-amount-of-sewing-thread-consumption (the formulas, two worked cells);
web.archive.org/web/20080216233719/http:/www.amefird.com/estimating_consumption.htm (a chart for 401, 8 stitches to the
inch); ru.scribd.com/document/49933681 (301 takes 2.5 to 1, half of it from the bobbin);
apparelscience.com/measuring-actual-thread-consumption (15 % waste).
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

import stitchlang
from stitchlang.ground.lengths import MM
from stitchlang.trade import thread
from stitchlang.verbs import VERBS
from stitchlang.work.rows import ROWS
from stitchlang.work.stitching import SEWN_LATER, thread_needed

INCH = MM["in"]


def spacing(per_inch):
    """The length of one stitch, in inches."""
    return Fraction(1, per_inch)


@pytest.mark.parametrize(
    ("kind", "thick", "per_inch", "used"),
    [
        ("301", "0.010", 10, "2.2"),
        ("101", "0.005", 9, "3.09"),
        ("401", "0.055", 8, "4.88"),
        ("401", "0.060", 8, "4.96"),
        ("401", "0.065", 8, "5.04"),
        ("401", "0.070", 8, "5.12"),
        ("401", "0.075", 8, "5.20"),
    ],
)
def test_published_cells(kind, thick, per_inch, used):
    """Inches of thread to an inch of seam, to the last printed place."""
    assert thread.ratio(Fraction(thick), spacing(per_inch), kind) == Fraction(used)


def test_an_unpicked_seam():
    """15 cm of seam gave 19.5 and 62 cm of thread: 100 cm take 543 1/3 (printed 540, from 1.3 and 4.1), 621 with waste.

    apparelscience.com/measuring-actual-thread-consumption.
    """
    factors = Fraction("19.5") / 15, Fraction(62) / 15

    assert factors == (Fraction("1.3"), Fraction(62, 15))
    assert thread.with_waste(100 * (Fraction("1.3") + Fraction("4.1"))) == 621


def test_the_flat_ratio():
    """220 cm of lockstitch take 550 (melgeecrafts.com, estimating thread: 220 x 2.5)."""
    assert 220 * thread.ratio(None) == 550


def test_where_the_flat_ratio_and_the_formula_meet():
    """2 + 2TS = 2.5 where TS = 1/4: ten stitches to the inch through 0.025 in (arithmetic)."""
    assert thread.ratio(Fraction("0.025"), spacing(10)) == thread.FLAT


@given(
    st.fractions(min_value=0, max_value=1, max_denominator=1000),
    st.fractions(min_value=Fraction(1, 20), max_value=1, max_denominator=1000),
)
def test_the_formula_holds_in_any_unit(thick, stitch):
    """Thickness and stitch in inches or in millimetres: the ratio is the same, and never below two."""
    assert thread.ratio(thick, stitch) == thread.ratio(thick * INCH, stitch * INCH) >= 2


# ------------------------------------------------------------------ in a recipe
FLAG = 'units in\ncloth sail: "sailcloth"{}\npiece flag of sail: 10 x 12\nhem flag edges by 1/2\n'
TAILS = 2 * 2 * 100  # two ends, two threads, 10 cm each (common practice, no source)


def needed(text):
    return thread_needed(stitchlang.read(text))


def test_a_hem_by_the_formula():
    """9 + 11 + 9 + 11 = 40 in through two plies of 1/2 mm: 2 + 2 x 1 / 2.5 = 2.8 to one, 15 % more, and the tails."""
    found = needed(FLAG.format(", 0.5 mm thick"))

    assert found.seam == 40 * INCH
    assert found.total == 40 * INCH * Fraction("2.8") * Fraction("1.15") + TAILS
    assert (found.rows, found.flat, found.missing) == (1, 0, ())


def test_a_longer_stitch_takes_less():
    """The same at 4 mm, as the machine is set: 2 + 2 x 1 / 4 = 2.5 to one."""
    found = needed(FLAG.format(", 0.5 mm thick") + "machine: stitch 4 mm\nreel black: tex 40\n")

    assert found.total == 40 * INCH * Fraction("2.5") * Fraction("1.15") + TAILS
    assert [reel.name for reel in found.reels] == ["black"]


def test_a_hem_of_unknown_thickness():
    """The same 40 in at 2.5 to one; half of all is on the bobbin."""
    found = needed(FLAG.format(""))

    assert found.total == 40 * INCH * Fraction("2.5") * Fraction("1.15") + TAILS
    assert found.bobbin == found.needle == found.total / 2
    assert found.flat == found.seam


BAG = """\
units in
allowance 1/2
cloth sail: "sailcloth", 0.5 mm thick
piece front, back of sail: 10 x 12{}
"""


def bag(*lines, cut=""):
    return needed("\n".join([BAG.format(cut), *lines]) + "\n")


JOIN = "join front to back along sides, bottom as bag"


@pytest.mark.parametrize(
    ("lines", "seam", "rows"),
    [
        # Sides 12 - 1/2 - 1/2 = 11 each under a hem, the bottom 9; the hem 18 round.
        ((JOIN, "hem bag.rim by 1/2"), 11 + 9 + 11 + 18, 2),
        # A gap of 4 is not sewn, and makes one row more.
        ((JOIN.replace(" as", ", leaving 4 open in bottom as"), "hem bag.rim by 1/2"), 31 - 4 + 18, 3),
        # ... and closed by a row of its own, but not where that is done by hand.
        ((JOIN.replace(" as", ", leaving 4 open in bottom as"), "close bag.bottom", "hem bag.rim by 1/2"), 31 + 18, 4),
        (
            (JOIN.replace(" as", ", leaving 4 open in bottom as"), "close bag.bottom by hand", "hem bag.rim by 1/2"),
            31 - 4 + 18,
            3,
        ),
        # An enclosed seam is sewn twice along.
        ((JOIN.replace(" as", ", enclosed at 1/8 then 3/8 as"), "hem bag.rim by 1/2"), 2 * 31 + 18, 3),
        # Pinched corners: two rows of 4.
        ((JOIN, "box bag pinched 4 across", "hem bag.rim by 1/2"), 31 + 8 + 18, 4),
    ],
)
def test_rows_of_a_bag(lines, seam, rows):
    """The stitched lengths added by hand, and one row more for every new start."""
    found = bag(*lines)

    assert (found.seam / INCH, found.rows) == (seam, rows)


def test_a_boxed_bag():
    """Notches of 2: sides 12 - 1/2 - 2 - 1/2 = 9, base 10 - 4 - 1 = 5, two boxing seams of 4, a hem of 18."""
    found = bag("notch front, back at bottom corners by 2", JOIN, "box bag", "hem bag.rim by 1/2")

    assert found.seam / INCH == 9 + 9 + 5 + 2 * 4 + 18
    assert found.rows == 3 + 2 + 1


def test_a_piece_cut_twice_is_sewn_twice():
    """Two handles, 4 x 24 folded in quarters: rows of 24 along both sides of both."""
    one = bag("piece handle of sail: 4 x 24", "fold handle in quarters", "topstitch handle sides at 1/8")
    two = bag("piece handle of sail: 4 x 24, cut 2", "fold handle in quarters", "topstitch handle sides at 1/8")

    assert (one.seam / INCH, two.seam / INCH) == (48, 96)
    assert (one.rows, two.rows) == (2, 4)


def test_layers_are_counted():
    """Four layers of 1/2 mm: 2 + 2 x 2 / 2.5 = 3.6 to one."""
    found = bag("piece handle of sail: 4 x 24", "fold handle in quarters", "topstitch handle sides at 1/8")

    assert found.total == 48 * INCH * Fraction("3.6") * Fraction("1.15") + 2 * TAILS


@pytest.mark.parametrize(
    ("line", "seam"),
    [
        ("dart front.bottom by 2, 3 long, 2 of", None),  # two slants of the root of 3 x 3 + 1 x 1
        ("gather front.top to 5", 20),  # two rows along 10 as cut
        ("pleat front.top in 2 knife, 1 deep", 6),  # 10 less 4 folds of 1
        ("piece patch of sail: 4 x 3\nplace patch on front, centred, 3 below top, sewn along sides, bottom", 10),
        ("bind front.top with tape", 20),
        ("slit front for mouth, 7 x 1/2, centred, 3 below top, faced with pouch", 2 * 15 + 9 + 14),
        ("cap mouth ends with scrap, to 11 overall", 4),
        ("channel front.top between 1 and 2", 20),
    ],
)
def test_rows_of_single_statements(line, seam):
    """Each worked out by hand from what the steps tell the sewer to stitch."""
    stuff = "binding tape: 1/2 wide\nzip mouth: coil, 8 long\npiece pouch of sail: 9 x 14\npiece scrap of sail: 2 x 3\n"
    found = bag(stuff + line)
    expected = Fraction(seam) if seam is not None else None

    if expected is None:
        assert abs((found.seam / INCH / 2) ** 2 - 10) < Fraction(1, 10**30)
    else:
        assert found.seam / INCH == expected
    assert not found.missing


def test_what_is_not_known_is_named():
    """How long tucks are nobody states: the total is `at least`, and says what is not in it."""
    found = bag("pleat front.top in 2 tucks, 1/2 deep", "hem back edges by 1/2")

    assert found.missing == ("pleat",)
    assert found.seam / INCH == 40


def test_hand_work_takes_no_machine_thread():
    """Pressing, trimming, notching and snaps take none, and are not missed."""
    found = bag("snap clasp: press, 1/2 across", "set clasp on front and back, centred, 2 below top",
                "trim front.top by 1/2", "press front.left under by 1/2")  # fmt: skip

    assert (found.total, found.rows, found.missing) == (0, 0, ())


def test_every_verb_of_the_machine_has_its_rows():
    """A verb that sews says how: in its rows, by the seam that it makes, or in the seam that comes after."""
    sewing = {name for name, verb in VERBS.items() if verb.STATION == "machine"}

    assert sewing <= {*ROWS, "join", *SEWN_LATER}
