"""Spread, samples and contents: against hand sums, exact enumeration and a simulation."""

import random
from fractions import Fraction
from itertools import product
from math import sqrt
from pathlib import Path
from statistics import pstdev

import pytest

import stitchlang
from stitchlang.ground.lengths import MM
from stitchlang.model.measures import measure
from stitchlang.model.spread import Accuracy, laid_once, spread
from stitchlang.work.spread import spreads

ROOT = Path(__file__).parent.parent
HEAD = 'units in\nallowance 1/2\naccuracy cutting 1/32, stitching 1/16\ncloth sail: "sailcloth", 1 mm thick\n'
BAG = HEAD + "piece front, back of sail: 10 x 12\njoin front to back along sides, bottom as bag\nhem bag.rim by 1/2\n"
BOXED = HEAD + (
    "piece front, back of sail: 12 x 14\nnotch front, back at bottom corners by 2\n"
    "join front to back along sides, bottom as bag\nbox bag\nhem bag.rim by 1\n"
)
INCH = MM["in"]


def off(text):
    """Title to (worst, likely) in inches."""
    return {one.title: (one.worst / INCH, one.likely / INCH) for one in spreads(stitchlang.read(text))}


def test_a_width_is_one_cut_and_two_rows():
    """By hand: 1/32 + 1/16 + 1/16 = 5/32 at worst; likely the root of (1 + 4 + 4) / 32 squared, 3/32."""
    assert off(BAG)["bag wide"] == (Fraction(5, 32), Fraction(3, 32))


def test_joined_edges_differ_by_what_both_sides_may():
    """By hand: each side is one cut and two ends, so together 2 x 5/32 at worst, root 2 x 3/32 likely."""
    worst, likely = off(BAG)["front.left against back.right"]

    assert worst == Fraction(10, 32)
    assert abs(float(likely) - sqrt(2) * 3 / 32) < 1e-12


def test_what_is_trimmed_to_a_size_is_as_exact_as_one_cut():
    """However many seams a panel was built over, trimmed to 12 in its height is one cut and no more."""
    text = HEAD + (
        "piece high, low of sail: 10 x 7\njoin high.bottom to low.top as front\ntrim front.bottom to 12 tall\n"
        "leave front edges raw\nfinished front: 12 tall\n"
    )

    assert off(text)["front tall"] == (Fraction(1, 32), Fraction(1, 32))


def errors(recipe, title):
    """(factor, tolerance) of everything that can go wrong with a measure."""
    thing, _, name = title.partition(" ")
    working = measure(recipe.things[thing], name)
    return [(factor, recipe.accuracy.of(leaf)) for factor, leaf in laid_once([(1, working)])]


@pytest.mark.parametrize("title", ["bag wide at top", "bag deep", "bag tall"])
def test_worst_case_is_the_largest_of_all_corners(title):
    """Every combination of plus and minus, tried out: none is farther off than the worst case, and one is as far."""
    recipe = stitchlang.read(BOXED)
    terms = errors(recipe, title)
    farthest = max(
        abs(sum(sign * factor * by for sign, (factor, by) in zip(signs, terms, strict=True)))
        for signs in product((1, -1), repeat=len(terms))
    )

    assert farthest / INCH == off(BOXED)[title][0]


@pytest.mark.parametrize("title", ["bag wide at top", "bag deep", "bag tall"])
def test_likely_spread_against_a_simulation(title):
    """20,000 bags with independent normal errors, a tolerance being three sigma: three sigma of the bags is the root
    of the sum of squares (the rule by which variances of independent errors add)."""
    recipe, chance = stitchlang.read(BOXED), random.Random(1959)
    terms = [(float(factor), float(by)) for factor, by in errors(recipe, title)]
    made = [sum(factor * chance.gauss(0, by / 3) for factor, by in terms) for _ in range(20_000)]

    assert 3 * pstdev(made) / float(INCH) == pytest.approx(float(off(BOXED)[title][1]), rel=0.03)


@pytest.mark.parametrize("path", sorted(ROOT.glob("examples/*.stitch")), ids=lambda path: path.stem)
def test_likely_is_never_more_than_worst(path):
    """A root of a sum of squares is at most the sum, and nothing that is cut or sewn is exact."""
    for one in spreads(stitchlang.read(path.read_text("utf-8"))):
        assert 0 < one.likely <= one.worst or one.worst == 0


def test_perfect_hands_have_no_spread():
    """With nothing off anywhere nothing comes out otherwise."""
    recipe = stitchlang.read(BAG)
    nothing = spread(Accuracy(0, 0), (1, measure(recipe.things["bag"], "wide")))

    assert (nothing.worst, nothing.likely) == (0, 0)


def rules(text):
    return [one.rule for one in stitchlang.check(stitchlang.read(text))]


@pytest.mark.parametrize(("within", "found"), [("3/32", []), ("1/16", ["promised-too-closely"])])
def test_a_promise_is_held_against_the_likely_spread(within, found):
    """Likely within 3/32, see above: promised so it can be kept, promised nearer it is a doubt."""
    assert rules(BAG + f"finished bag: 9 wide, within {within}\n") == found


def test_a_sample_within_the_worst_case_is_no_news():
    """9 in less 5/32 at worst: 8 7/8 is within it, 8 13/16 is not."""
    assert rules(BAG + "made bag: 8 7/8 wide\n") == []
    assert rules(BAG + "made bag: 8 13/16 wide\n") == ["sample-came-out-otherwise"]


def test_a_sample_names_what_would_explain_it():
    """1/4 in too narrow: two seams of 1/2 sewn at 5/8; 1/4 of 9 in is 2.8 in 100; 6.35 mm is six times 1 mm."""
    (finding,) = stitchlang.check(stitchlang.read(BAG + "made bag: 8 3/4 wide\n"))

    assert "sewn as 5/8 in instead of 1/2 in" in finding.mend
    assert "drew up by 2.8 in 100" in finding.mend
    assert "6 times the thickness" in finding.mend


@pytest.mark.parametrize(
    ("bag", "content", "fits"),
    [
        (BAG, "8 x 10", True),  # flat: 8 + 1/4 is at most 9, 10 at most 11
        (BAG, "10 x 8", True),  # turned
        (BAG, "9 x 10", False),  # 9 + 1/4 of ease is more than 9, and turned 10 is
        (BAG, "7 x 9 x 1 1/2", True),  # 7 + 1 1/2 + 1/4 = 8 3/4 of 9; 9 + 3/4 of 11
        (BAG, "7 x 9 x 2", False),  # 9 1/4 of 9; lying on its 9 x 2 side 11 1/4, on its 7 x 9 more
        (BOXED, "6 x 3 x 9", True),  # base 12 - 1 - 4 = 7 x 4, height 14 - 1 - 2 - 1/2 = 10 1/2
        (BOXED, "7 x 3 x 9", False),  # 7 + 1/4 is more than 7, and any other way is wider still
    ],
)
def test_what_goes_in(bag, content, fits):
    """Each case by hand, with 1/4 in of ease: the sum stands beside it."""
    assert rules(bag + f'holds bag: "thing", {content}, ease 1/4\n') == ([] if fits else ["does-not-fit"])


def test_what_a_flat_thing_lacks_is_exact():
    """11 1/3 up a bag of 12 - 1/2 - 1/2 = 11 is 1/3 in too much: no float comes in, which would be told as about."""
    (finding,) = stitchlang.check(stitchlang.read(BAG + 'holds bag: "card", 8 x 11 1/3, ease 0\n'))

    assert finding.rule == "does-not-fit"
    assert finding.says.endswith(": 1/3 in too little")


def test_a_round_bag_holds_what_its_circle_holds():
    """Pythagoras: 3 x 4 has a diagonal of 5, so a base of 5 holds it without ease and one of 4 7/8 does not."""
    bag = (
        'units in\nallowance 1/2\ncloth sail: "sailcloth"\npiece wall of sail: {girth} x 10\n'
        "piece base of sail: circle {across} across\njoin wall.left to wall.right as tube\n"
        'join wall.bottom to base.edge as bag\nhem bag.rim by 1/2\nholds bag: "box", 3 x 4 x 8, ease 0\n'
    )
    wide = bag.format(girth="16.708", across="6")  # 5 pi + 1
    narrow = bag.format(girth="16.315", across="5 7/8")  # 4 7/8 pi + 1

    assert "does-not-fit" not in rules(wide)
    assert "does-not-fit" in rules(narrow)


def test_of_a_measure_that_nothing_is_near_the_same_things_are_shown():
    """Asked for the colour of one of two flags, its own measures are shown and not the other's."""
    from stitchlang.work.measure import find

    recipe = stitchlang.read(
        'units in\nallowance 1/2\ncloth sail: "sailcloth"\npiece flag, banner of sail: 8 x 10\n'
        "hem flag edges by 1/2\nhem banner edges by 1/2\n"
    )
    measure, near = find(recipe, "banner colour")

    assert measure is None
    assert near == ["banner wide", "banner tall"]


@pytest.mark.parametrize(
    ("rows", "wide", "fits"),
    [
        ("", "5", True),
        ("divide patch 2 from left", "3", True),  # 5 less 2
        ("divide patch 2 from left", "3 1/16", False),
        ("divide patch 2 from left, 1 from right", "2", True),  # 2, 2 and 1
        ("divide patch 2 from left, 1 from right", "2 1/16", False),
        ("divide patch into 4", "1 1/4", True),
        ("divide patch into 4", "1 5/16", False),
    ],
)
def test_a_divided_pocket_holds_what_its_widest_compartment_holds(rows, wide, fits):
    """A pocket 5 wide and 5 1/2 tall finished: 6 - 2 x 1/2, 7 - 1 - 1/2; the card goes in upright."""
    pocket = (
        "piece patch of sail: 6 x 7\nhem patch.top by 1\npress patch.left, bottom, right under by 1/2\n"
        f"place patch on front, centred, 3 below top, sewn along sides, bottom\n{rows}\n"
    )
    text = BAG.replace("join front", f"{pocket}join front", 1) + f'holds patch: "card", {wide} x 5 1/4, ease 0\n'
    found = [one for one in stitchlang.check(stitchlang.read(text)) if one.rule == "does-not-fit"]

    assert len(found) == (not fits)
    assert all("the widest compartment of patch" in one.says for one in found)
