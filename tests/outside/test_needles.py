"""Needles, thread and stitch length against the pages that publish them.

Addresses stand beside the values.  Where an address would name a maker's product, the page is described instead.
What is marked `from memory` was read on no page.
"""

from fractions import Fraction

import pytest

import stitchlang
from stitchlang.ground.units import mass_per_area, per_square_metre
from stitchlang.trade import needles
from stitchlang.trade.needles import CLOTH, MEMORY, OTHER_NUMBER, SIZES, STITCH, THREAD, disagree, ranged, ticket
from stitchlang.work.tools import suggested

# -- sizes ----------------------------------------------------------------------


@pytest.mark.parametrize(("size", "other"), [
    # shoemaking.wiki/Sewing_Machine_Needle_Sizing
    (60, 8), (65, 9), (70, 10), (75, 11), (80, 12), (90, 14), (100, 16), (125, 20), (130, 21), (140, 22), (160, 23),
    (180, 24), (200, 25),
    (110, 18),  # manualslib.es/manual/656612, page 18; the page above prints 17
    (120, 19),  # ar.scribd.com/document/47176093; the page above misprints the size
])  # fmt: skip
def test_the_two_numbers_of_a_needle(size, other):
    """Metric size and the other number on the packet."""
    assert SIZES[size] == other
    assert OTHER_NUMBER[other] == size


@pytest.mark.parametrize(("tex", "number"), [
    # onlineclothingstudy.com/2013/01/difference-between-tex-and-tkt-in.html: Tex 40 is ticket 75.
    (Fraction(40), 75),
    # salmanenayet.wixsite.com: metric count plied, ticket three times the resultant; tex is 1000 over the resultant.
    (Fraction(1000, 40), 120),  # 80/2
    (Fraction(1000, 20), 60),  # 80/4
    (Fraction(1000, 30), 90),  # 60/2
    (Fraction(1000, 15), 45),  # 60/4
    (Fraction(1000, 60), 180),  # 60/1
])  # fmt: skip
def test_ticket_numbers(tex, number):
    """The metric ticket, exactly."""
    assert ticket(tex) == number


# -- needle by cloth --------------------------------------------------------------


@pytest.mark.parametrize(("mass", "size"), [
    # manualslib.es/manual/656612, page 18, by kind of cloth; the mass within the kind's own published span:
    # 5mv.com/blogs/news/how-is-cotton-fabric-categorized (ounces a square yard), aaenterprises.in/fabric-gsm-chart.
    (60, 70), (60, 80),  # voile 1-2 oz, 34-68 g/m2: 70-80
    (150, 80), (190, 90),  # quilting cotton 4-6 oz, 136-203 g/m2: 80-90
    (180, 90),  # firm woven cloth, poplin 4-7 oz, 136-237 g/m2: 90
    (350, 100), (480, 100),  # canvas 300-500 g/m2: 100
    (600, 110),  # upholstery: 110
    # patternemporium.com/blogs/education-tips/tips-for-sewing-denim: denim at least 90, thick denim 100;
    # bmytextile.com/what-is-denim-fabric-and-its-types.html: light 4.7-8 oz, medium 8-11 oz, heavy from 12 oz.
    (200, 90), (320, 90), (420, 100),
    # Two other machine manuals stop heavier cloth at 80-90 or 90-100.
    (350, 80), (350, 90),
])  # fmt: skip
def test_every_published_needle_is_in_its_cloths_range(mass, size):
    """No page's own advice is doubted."""
    found = ranged(CLOTH, mass)

    assert found.low <= size <= found.high


@pytest.mark.parametrize(("mass", "size"), [(60, 110), (100, 100), (350, 70), (350, 120), (600, 70)])
def test_what_no_page_advises_is_outside(mass, size):
    """Fine needles in canvas, thick ones in voile."""
    found = ranged(CLOTH, mass)

    assert not found.low <= size <= found.high


def test_the_tables_disagree_on_heavy_cloth():
    """One manual has 110 for upholstery, two stop at 100: the range says both, and that they disagree."""
    assert disagree(ranged(CLOTH, 450))
    assert not disagree(ranged(CLOTH, 60))


def test_a_cloth_lighter_than_any_table_has_no_range():
    """Below voile, 34 g/m2, nothing was read."""
    assert ranged(CLOTH, 20) is None


# -- needle by thread ------------------------------------------------------------


@pytest.mark.parametrize(("tex", "low", "high"), [
    (30, 80, 90), (35, 80, 90), (40, 80, 90),  # a seller's chart for bonded thread
    (45, 90, 100),  # the same
    (70, 100, 110), (90, 110, 120),  # from memory, no source
    (135, 125, 140),  # jsrz.com/polyester-filament-thread/polyester-filament-thread-size-138-tex-135.html
    (60, 90, 110),  # between 45 and 70: both rows
])  # fmt: skip
def test_needles_for_thread(tex, low, high):
    """The needle for a size of thread; between two rows, what either says."""
    found = ranged(THREAD, tex)

    assert (found.low, found.high) == (low, high)


@pytest.mark.parametrize("tex", [18, 29, 136, 400])
def test_thread_beyond_the_tables_has_no_range(tex):
    """What no page speaks of is not judged."""
    assert ranged(THREAD, tex) is None


def test_what_is_from_memory_says_so():
    """Rows that were read nowhere carry no source's name."""
    assert [row.of for row in THREAD if row.source is MEMORY] == ["tex 70", "tex 90"]


# -- stitch length ---------------------------------------------------------------


@pytest.mark.parametrize(("of", "most", "least"), [
    ("light cloth", 14, 12),  # a machine maker's guide to seams: 12-14 to the inch
    ("ordinary seams", 12, 8),  # the same: 8-12
    ("heavy cloth", 10, 6),  # the same: 6-10
    ("tent cloth", 7, 5),  # tentsshelters.tpub.com/TM-10-8340-224-13/css/TM-10-8340-224-13_129.htm: 5-7
    ("cargo bag cloth", 11, 7),  # constructioncranes.tpub.com/TM-10-1670-298-20P/css/TM-10-1670-298-20P_30.htm: 7-11
])  # fmt: skip
def test_stitches_to_the_inch(of, most, least):
    """25.4 mm over the stitches to the inch (exact by definition, inch 1959)."""
    row = next(row for row in STITCH if row.of == of)

    assert row.low * most == Fraction(254, 10)
    assert row.high * least == Fraction(254, 10)


@pytest.mark.parametrize(("mass", "stitch"), [
    (150, 2), (150, Fraction(5, 2)),  # veneaistudio.com/.../how-is-stitch-length-calculated.html: piecing, usual
    (320, Fraction(28, 10)), (320, 4),  # patternemporium.com/...: denim seams 2.8-3 mm, topstitching 3.5-4 mm
    (400, 5),  # tents, 5 to the inch: 5.08 mm
])  # fmt: skip
def test_every_published_stitch_is_in_its_cloths_range(mass, stitch):
    """No page's own advice is doubted."""
    found = ranged(STITCH, mass)

    assert found.low <= stitch <= found.high


# -- masses ----------------------------------------------------------------------


@pytest.mark.parametrize("text", ["1 oz/yd2", "12 oz/yd²", "350 g/m2", "10.5 oz/yd2", "180gsm"])
def test_a_mass_is_what_pint_makes_of_it(text):
    """Our exact factor against pint's."""
    assert per_square_metre(text) == mass_per_area(text).to("gram / meter ** 2").magnitude


def test_the_ounce_a_square_yard():
    """33.9057475 g/m2 (NIST SP 811, appendix B: 3.390575 E-02 kg/m2)."""
    assert abs(per_square_metre("1 oz/yd2") - Fraction("33.9057475")) < Fraction(1, 10**6)


# -- the rules -------------------------------------------------------------------

FLAG = 'units in\ncloth duck: "duck"{}\npiece flag of duck: 10 x 12\nhem flag edges by 1/2\n'
FAMILY = ("no-such-needle", "needle-against-thread", "needle-against-cloth", "stitch-length-against-cloth")


def told(cloth="", tools=""):
    """(rule, severity, sentence) of each finding about tools."""
    found = stitchlang.check(stitchlang.read(FLAG.format(cloth) + tools))
    return [(one.rule, one.severity, one.says) for one in found if one.rule in FAMILY]


@pytest.mark.parametrize(("cloth", "tools"), [
    (", 350 g/m2", ""),  # no machine
    (", 350 g/m2", 'machine: "domestic"\n'),  # states no needle
    ("", 'machine: needle 70, stitch 1 mm\n'),  # no mass, no thread
    (", 20 g/m2", "machine: needle 140\n"),  # lighter than any table
    ("", 'machine: needle 60\nreel r: tex 18\n'),  # finer than any table
    (", 350 g/m2", 'machine: needle 125\nreel r: tex 135\n'),  # too thick for the cloth alone: the thread asks for it
])  # fmt: skip
def test_nothing_is_said_where_nothing_can_be(cloth, tools):
    """A rule of this family needs the machine's fact, and the cloth's or the thread's."""
    assert told(cloth, tools) == []


def test_a_finding_names_range_and_source_and_says_where_they_disagree():
    """What each source gives is in the sentence."""
    ((rule, severity, says),) = told(", 12 oz/yd2", "machine: needle 70\n")

    assert (rule, severity) == ("needle-against-cloth", "doubt")
    assert "90 to 100 for denim (a guide to denim)" in says
    assert "110 for upholstery and coating (a machine manual)" in says
    assert says.endswith("they disagree")


def test_what_rests_on_memory_alone_is_a_hint():
    """Tex 90 was read on no page."""
    ((rule, severity, says),) = told("", "machine: needle 80\nreel r: tex 90\n")

    assert (rule, severity) == ("needle-against-thread", "hint")
    assert "from memory" in says


def test_coated_cloth_wants_long_stitches():
    """3 mm or more: common practice, no source, and said so."""
    assert [rule for rule, _, _ in told(", coated", "machine: stitch 2.9 mm\n")] == ["stitch-length-against-cloth"]
    assert told(", coated", "machine: stitch 3 mm\n") == []


def test_suggested_is_what_cloth_and_thread_share():
    """Canvas of 350 g/m2 takes 80 to 100, thread of tex 45 takes 90 to 100: 90 to 100 for both."""
    found = suggested(stitchlang.read(FLAG.format(", 350 g/m2") + "reel r: tex 45\n"))

    assert found.needle == (90, 100)
    assert found.stitch == (Fraction(254, 120), Fraction(254, 50))  # 12 and 5 to the inch
    assert needles.SELLER in found.sources
    assert found.sentence == "Needle 90 to 100, stitch about 2.1 to 5.1 mm."


def test_suggested_knows_nothing_of_a_recipe_that_states_nothing():
    """No mass and no thread: no needle."""
    found = suggested(stitchlang.read(FLAG.format("")))

    assert (found.needle, found.stitch, found.sources, found.sentence) == (None, None, (), "")
