"""Published bags with boxed corners, round bases, gussets and straps, written as recipes and measured.

The numbers that go in and come out are those of the page named beside each
check.  "Derived" marks a result that the page leaves to the reader: plain
arithmetic on its figures, done here by hand and shown.  Allowances at a top
edge, where a page gives none, are the recipe's own, and are said.
"""

from fractions import Fraction

import pytest

import stitchlang
from stitchlang.ground.lengths import MM

# The first fifty places, as published (OEIS A000796, oeis.org).
PI = Fraction("3.14159265358979323846264338327950288419716939937510")
HALF = Fraction(1, 2)


def read(statements, unit="in", allowance="1/2", tolerance="1/64"):
    """A recipe of these statements, one of whose cloths is `sail`."""
    heading = f'units {unit}\nallowance {allowance}\ntolerance {tolerance}\ncloth sail: "old sailcloth"\n'
    return stitchlang.read(heading + statements)


def faults(recipe):
    """The rules that found a fault."""
    return [found.rule for found in stitchlang.check(recipe) if found.severity == "fault"]


def measured(statements, unit="in", **heading):
    """Every finished measure by its title, in the recipe's unit; the recipe must be free of faults."""
    recipe = read(statements, unit, **heading)
    assert faults(recipe) == []
    return {one.title: one.working.mm / MM[unit] for one in stitchlang.measure(recipe)}


def has(found, expected):
    """Whether these measures are among those found, to the last digit."""
    return {title: found.get(title) for title in expected} == expected


def seamed(width, height, square):
    """Two panels with notched bottom corners, the top hemmed by a half."""
    return f"""
piece front, back of sail: {width} x {height}
notch front, back at bottom corners by {square}
join  front to back along sides, bottom as bag
box   bag
hem   bag.rim by 1/2
"""


def on_fold(width, length, across, up):
    """One panel folded at the base, its corners notched, the top hemmed by a half."""
    return f"""
piece body of sail: {width} x {length}
fold  body in half, bottom to top
notch body at bottom corners by {across} x {up}
join  body along sides as bag
box   bag
hem   bag.rim by 1/2
"""


# ------------------------------------------------------------------ boxed corners
def test_published_cut_size_of_a_boxed_tote():
    """h 12 1/2, w 13, d 4 at 1/2: cut 2w + 2d + 1 = 35 by h + d/2 + 1 = 15 1/2, sewn into a tube, pinched d across.

    ktgreendesign.com/lets-calculate/
    """
    found = measured("""
piece body of sail: 35 x 15 1/2
join  body.left to body.right as tube
join  tube along bottom as bag
box   bag pinched 4 across
hem   bag.rim by 1/2
""")

    assert has(found, {"bag wide at base": 13, "bag tall": Fraction(25, 2), "bag deep": 4})


SMALL_TOTE = {"deep": 6, "wide at base": 8, "wide at top": 14, "tall": Fraction(23, 2)}
NOTCHED = {
    # lazygirldesigns.com/pdf-files/tutorial-box-the-bottom-corners-of-a-bag: 19 by 16 sewn, 2 in squares, gives 4 deep,
    # 15 wide, 14 tall.  Cut 20 by 17: a half for each seam and the hem.
    "flat bag": (seamed(20, 17, 2), {}, {"wide at top": 19, "wide at base": 15, "tall": 14, "deep": 4}),
    # craftbuds.com/tote-bag-tutorial/, 1/2 in throughout; sizes and notches published, also that the first two are the
    # same bag.  Derived: 2 (3 + 1/2 - 1/2) = 6 deep, base 15 - 6 - 1 = 8, height 15 - 2 1/2 - 1/2 and a 1/2 in hem.
    "tote on a fold": (on_fold(15, 30, 3, "2 1/2"), {}, SMALL_TOTE),
    "tote with a seam": (seamed(15, "15 1/2", 3), {}, SMALL_TOTE),
    # The same page's large one.  Derived: 2 x 3 1/2 deep, base 20 - 7 - 1, height 20 - 3 - 1.
    "large tote": (on_fold(20, 40, "3 1/2", 3), {}, {"deep": 7, "wide at base": 12, "tall": 16}),
    # nicemommy-evileditor.com/2009/12/29/tutorial-boxy-pouch-as-cord-carrier/: cut length = length + depth + 1.  The
    # size is our own: 8 long and 3 deep.
    "boxy pouch": (seamed(12, 9, "1 1/2"), {}, {"wide at base": 8, "deep": 3}),
    # themaven.net/craftbits/patterns/small-squared-bottom-tote: 36 by 38.5 cm, 4 cm squares, 1.5 cm everywhere.
    # Derived: 2 x 4 deep, 36 - 3 - 8 wide.
    "metric tote": (seamed(36, "38.5", 4), {"unit": "cm", "allowance": "1.5"}, {"wide at base": 25, "deep": 8}),
    # spruceandfjell.com/blogsew/super-easy-tote: finished 11 1/2 by 17 by 3 at 1/4.  Derived: panels 11 1/2 + 3 + 1/2 =
    # 15 by 17 + 1 1/2 + 1/4 and a 1/2 in hem.
    "tote from its size": (
        seamed(15, "19 1/4", "1 1/2"),
        {"allowance": "1/4"},
        {"wide at base": Fraction(23, 2), "tall": 17, "deep": 3},
    ),
}


@pytest.mark.parametrize(("bag", "heading", "expected"), NOTCHED.values(), ids=NOTCHED)
def test_notched_bags(bag, heading, expected):
    """Each published bag measures, to the last digit, what its page says or its figures give."""
    found = measured(bag, **heading)

    assert {measure: found[f"bag {measure}"] for measure in expected} == expected


def test_a_square_notch_on_a_fold_does_not_close():
    """3 by 3 on the fold leaves arms of 3 + 1/2 - 1/2 and 3 + 1/2: the boxing seam cannot be sewn (derived)."""
    recipe = read(on_fold(15, 30, 3, 3))
    arms = [[side.stitched().mm / MM["in"] for side in seam.sides] for seam in recipe.seams if seam.boxing]

    assert arms == [[6, 7], [6, 7]]
    assert faults(recipe) == ["boxing-sides-differ"]


@pytest.mark.parametrize("allowance", ["1/4", "3/8", "1/2", "5/8"])
def test_a_two_inch_square_is_a_four_inch_base(allowance):
    """Sewn at one allowance throughout, whichever it is.  sewshare.com/education/how-to-box-corners-for-bags"""
    assert measured(seamed(20, 17, 2), allowance=allowance)["bag deep"] == 4


@pytest.mark.parametrize("pinched", ["7 across", "3 1/2 from tip"])
def test_stitched_straight_across(pinched):
    """18 by 36 folded, sides at 1/2, a line 7 in across, which is 3 1/2 from the tip.

    andiejohnsonsews.com/2011/04/so-im-going-to-chicago-tomorrow-for.html.  Derived: front 18 - 1 - 7 = 10,
    height 18 - 3 1/2 less a 1/2 in hem = 14.
    """
    found = measured(f"""
piece body of sail: 18 x 36
fold  body in half, bottom to top
join  body along sides as bag
box   bag pinched {pinched}
hem   bag.rim by 1/2
""")

    assert has(found, {"bag deep": 7, "bag wide at base": 10, "bag tall": 14})


# ------------------------------------------------------------------ published slips, which ours must not share
def depth_finding(square, depth):
    """What is said of a bag with such notches that claims such a depth."""
    recipe = read(seamed(20, 17, square) + f"finished bag: {depth} deep\n")
    return [found for found in stitchlang.check(recipe) if found.rule == "depth-against-notch"]


def test_half_an_allowance_is_not_added_to_the_square():
    """bestfabricstore.com/blog/how-to-box-the-corners-of-a-bag/ cuts 1 1/2 in squares for a 2 in base: it gives 3.

    Derived: 2 (1 1/2 + 1/2 - 1/2) = 3; the square for 2 in is 1 in.  A boxing seam without allowance would give 2.
    """
    bag = seamed(20, 17, "1 1/2")
    finding, *others = depth_finding("1 1/2", "2")

    assert measured(bag)["bag deep"] == 3
    assert measured(bag.replace("box   bag", "box   bag at 0"))["bag deep"] == 2
    assert not others
    assert [edit.text for edit in finding.edits] == ["1"]
    assert not depth_finding("1", "2")


def test_a_fold_and_sew_line_is_halved_not_divided_by_root_two():
    """artquiltmaker.com/blog/2026/06/13/ turns a 4 1/2 in line into a square of 4 1/2 over root two, 3.18.

    Derived: the square is 4 1/2 over 2 = 2 1/4; one of 3.18 gives 6.36.
    """
    finding, *others = depth_finding("3.18", "4 1/2")

    assert measured(seamed(20, 17, "3.18"))["bag deep"] == Fraction("6.36")
    assert not others
    assert [edit.text for edit in finding.edits] == ["2 1/4"]
    assert not depth_finding("2 1/4", "4 1/2")


# ------------------------------------------------------------------ round bases
def round_bag(wall, across):
    """A wall joined to itself, and a circle."""
    return f"""
piece wall of sail: {wall} x 12
piece base of sail: circle {across} across
join  wall.left to wall.right as tube
join  tube.bottom to base.edge as bag
hem   bag.rim by 1/2
"""


def near(value, expected, within=Fraction(1, 10**30)):
    return abs(value - expected) <= within


@pytest.mark.parametrize(("unit", "across", "page"), [("in", 12, "37.68"), ("cm", 30, "94.2")])
def test_round_a_circle(unit, across, page):
    """A circle 12 in across measures 37.699 in round and one of 30 cm 94.248; the page, with 3.14, 37.68 and 94.2.

    sew4home.com/tips-resources/sewing-tips-tricks/make-and-measure-circle-without-pattern
    """
    found = measured(f"piece base of sail: circle {across} across\nleave base.edge raw\n", unit=unit)

    assert found["base across"] == across
    assert near(found["base around"], PI * across)
    assert near(found["base around"], Fraction(page), within=Fraction(1, 20))


def test_disc_and_tube():
    """8 in finished at 1/4 is a disc cut 8 1/2, as published; derived: a tube cut pi x 8 + 1/2 = 25.63.

    quiltincorn.blogspot.com/2007/05/promises-to-keep-or-drawstring-bags.html
    """
    found = measured(round_bag("25.63", "8 1/2"), allowance="1/4")

    assert found["bag across"] == 8
    assert near(found["bag around"], PI * 8)
    assert near(found["tube around"], PI * 8, within=Fraction(1, 200))


def test_raw_edges_of_disc_and_tube_differ_and_must():
    """Raw, the disc is 2 pi/4 = 1.571 in longer round than the tube; only a tube cut to that raw edge is a fault.

    Same bag, derived: raw pi x 8 1/2 = 26.70 against pi x 8 = 25.13 on the stitch line.
    """
    raw, sewn = PI * Fraction(17, 2), PI * 8
    right, wrong = (read(round_bag(wall, "8 1/2"), allowance="1/4") for wall in ("25.63", "27.20"))

    assert round(raw - sewn, 3) == Fraction(1571, 1000)
    assert faults(right) == []
    assert faults(wrong) == ["joined-edges-differ"]


def test_duffel_girth():
    """A base 12 1/2 in across on the stitch line has a girth of 39.27 in.

    Specification A-A-55077, vdocuments.net/a-a-55077a-bag-duffle.html: the base's size.  Girth derived; allowance ours.
    """
    found = measured(round_bag("40.27", "13 1/2"))

    assert found["bag across"] == Fraction(25, 2)
    assert round(found["bag around"], 2) == Fraction("39.27")


def test_laundry_bag_of_the_specification():
    """Base 16 in across, top 25 in flat: half the base's girth is 25.13, within 0.2 of the flat width.

    m.mydoc123.com/d-686632.html gives 16 and 25 as minimums; pi x 16 / 2 derived.
    """
    found = measured(round_bag(51, 17), tolerance="3/8")

    assert found["bag across"] == 16
    assert near(found["tube wide"], 25, within=0)
    assert near(found["bag around"] / 2, PI * 8)
    assert near(found["bag around"] / 2, found["tube wide"], within=Fraction(1, 5))


def test_sailors_rule_for_a_round_base():
    """Cut radius (flat + 2)/3, sewn 1 in inside: for 20 in flat, 7 1/3, half a per cent from the true 20/pi + 1.

    chestofbooks.com/crafts/mechanics/Cyclopaedia/How-To-Make-Sailor-s-Canvas-Bag.html
    """
    found = measured("piece base of sail: circle 2*22/3 across\npress base.edge under by 1\n", allowance="1")

    assert found["base across"] == 2 * (Fraction(22, 3) - 1)
    assert near(found["base around"], PI * Fraction(38, 3))
    assert near(Fraction(22, 3), 20 / PI + 1, within=Fraction(22, 3) / 200)
    assert near(found["base around"], 40, within=Fraction(40 * 6, 1000))


# ------------------------------------------------------------------ rounded bases and gussets
ALL_ROUND = "base.top, top_right, right, bottom_right, bottom, bottom_left, left, top_left"


def rounded_base_bag(inner_length):
    """A wall 20 in round on a base with 2 in quadrants, end straights 1/2, side straights as given; 1/2 in seams."""
    return f"""
piece wall of sail: 21 x 10
piece base of sail: {inner_length} + 4 + 1 x 1/2 + 4 + 1, bottom corners rounded 2 1/2, top corners rounded 2 1/2
join  wall.left to wall.right as tube
join  tube.bottom to {ALL_ROUND} as bag
hem   bag.rim by 1/2
"""


def test_base_with_rounded_corners():
    """Perimeter 20, four 2 in quadrants, ends 1/2: sides (20 - 4 pi - 1)/2 = 3.217; the page's 3 1/4 is 1/16 long.

    projectsbyjane.blogspot.com/2010/05/how-to-draw-bag-bottom-pattern.html rounds 4 pi to 12 1/2.
    """
    exact = (20 - 4 * PI - 1) / 2
    tube, base = read(rounded_base_bag("3.217")).seams[-1].sides

    assert round(exact, 3) == Fraction("3.217")
    assert tube.stitched().mm / MM["in"] == 20
    assert near(base.stitched().mm / MM["in"], 2 * (Fraction("3.217") + HALF) + 4 * PI)
    assert faults(read(rounded_base_bag("3.217"))) == []
    assert faults(read(rounded_base_bag("3.25"))) == ["joined-edges-differ"]
    size = {"bag wide": Fraction("7.217"), "bag deep": Fraction(9, 2), "bag tall": 9}  # 3.217 + 4, 1/2 + 4, 10 - 1

    assert has(measured(rounded_base_bag("3.217")), size)


def gusseted(gusset, radius):
    """A panel 12 by 10 on the stitch line, at 1/2, its bottom corners cut to a radius, and a gusset."""
    return f"""
piece front, back of sail: 13 x 11, bottom corners rounded {radius}
piece gusset of sail: 4 x {gusset} + 1
join  front.left, bottom_left, bottom, bottom_right, right to gusset.left as half
join  back.right, bottom_right, bottom, bottom_left, left to gusset.right as bag
hem   bag.rim by 1/2
"""


def path(radius):
    """The panel's path on the stitch line, as worked out."""
    return read(gusseted("30.283", radius)).seams[0].sides[0].stitched().mm / MM["in"]


def test_gusset_round_rounded_corners():
    """w + 2h - (4 - pi) r with 12, 10 and r 2 on the stitch line is 30.283; the gusset's width sewn is the depth.

    Derived: plane geometry; the corner is cut to 2 + 1/2, since it curves outward.
    """
    found = measured(gusseted("30.283", "2 1/2"))

    assert near(path("2 1/2"), 12 + 20 - (4 - PI) * 2)
    assert round(path("2 1/2"), 3) == Fraction("30.283")
    assert has(found, {"bag wide": 12, "bag tall": 10, "bag deep": 3})


def test_radius_belongs_to_the_stitch_line():
    """To take the radius on the wrong line is 0.429 in of gusset: (4 - pi) x 1/2, derived as above."""
    assert near(path("2 1/2") - path("3"), (4 - PI) * HALF)
    assert round((4 - PI) * HALF, 3) == Fraction("0.429")
    assert faults(read(gusseted("30.283", "3"))) == ["joined-edges-differ"] * 2


def square_gusset(length):
    """Panels 13 by 15 with square corners and a gusset of this length, at 1/2, all tops raw."""
    return f"""
piece front, back of sail: 13 x 15
piece gusset of sail: 4 x {length}
join  front.left, bottom, right to gusset.left as half
join  back.right, bottom, left to gusset.right as bag
leave bag.rim raw
"""


def test_gusset_cut_to_the_raw_edges_is_too_long():
    """Panels 13 by 15 and a gusset of 15 + 13 + 15 = 43: on the stitch line 12 + 2 x 14 1/2 = 41, so 2 in over.

    peschelpress.com/laying-totebag-panels-gusset gives the sizes; 1/2 in and raw tops are ours, the rest derived.
    """
    long = read(square_gusset(43))
    panel, gusset = (side.stitched().mm / MM["in"] for side in long.seams[0].sides)

    assert (panel, gusset) == (41, 43)
    assert faults(long) == ["joined-edges-differ"] * 2
    assert faults(read(square_gusset(41))) == []


# ------------------------------------------------------------------ straps and tabs
@pytest.mark.parametrize(
    ("unit", "cut", "finished"),
    [
        ("in", "4", 1),  # crunchybunch.blogspot.com/2009/09/tote-bag-tutorial.html
        ("cm", "10", Fraction(5, 2)),  # themaven.net/craftbits/patterns/small-squared-bottom-tote
        ("in", "3", Fraction(3, 4)),  # flyawayquilts.com/2014/10/tutorial-diy-no-hassle-straps.html
    ],
)
def test_strap_folded_in_four(unit, cut, finished):
    """A strip folded in quarters is a quarter as wide (cut widths published, a quarter of each derived)."""
    found = measured(
        f"piece strap of sail: {cut} x 50\nfold strap in quarters\nleave strap.ends raw\n", unit=unit, tolerance="0.05"
    )

    assert has(found, {"strap wide": finished, "strap long": 50})


# instructables.com/id/Sew-a-Hobo-Bag/step8/: 1/2 in turned on all edges, then folded crosswise.
@pytest.mark.parametrize(
    ("cut", "flat", "looped"), [("2 x 4", (1, 3), (1, Fraction(3, 2))), ("2 x 13", (1, 12), (1, 6))]
)
def test_tab_turned_in_all_round_then_looped(cut, flat, looped):
    """A tab 2 by 4 is 1 by 3 and, looped, 1 1/2 long; a strap 2 by 13 is 1 by 12 and doubled 6."""
    turned = f"piece tab of sail: {cut}\npress tab sides, ends under by 1/2\n"
    open_tab = measured(turned + "topstitch tab edges at 1/8\n")
    loop = measured(turned + "fold tab in half, bottom to top as loop\ntopstitch loop.sides at 1/8\n")

    assert has(open_tab, {"tab wide": flat[0], "tab tall": flat[1]})
    assert has(loop, {"loop wide": looped[0], "loop tall": looped[1]})
