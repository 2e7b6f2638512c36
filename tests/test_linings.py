"""A lining against its shell, and pieces lined edge to edge; each expected size worked out by hand beside it."""

from fractions import Fraction
from pathlib import Path

import stitchlang
from stitchlang.ground.lengths import MM

TESTS = Path(__file__).parent


def says_of(text, rule):
    """What findings of one rule say."""
    return [one.says for one in stitchlang.check(stitchlang.read(text)) if one.rule == rule]


def test_the_lining_of_a_zip_pouch_is_compared_with_its_shell():
    """Cut 7 tall instead of 6 the lining is 7 - 1/4 - 3/8 = 6 3/8 against 5 3/8: an inch too large."""
    text = (TESTS.parent / "examples" / "zip_pouch.stitch").read_text("utf-8")

    (said,) = says_of(text.replace("of lawn: 9 x 6", "of lawn: 9 x 7"), "lining-does-not-fit")

    assert "inner is 6 3/8 in tall and outer 5 3/8 in: the lining is 1 in too large" in said
    assert says_of(text, "lining-does-not-fit") == []


def test_a_boxed_lining_pinched_farther_is_compared_too():
    """c25 with its lining pinched 1 1/2 from the tip: 3 deep against 2, an inch too large."""
    text = (TESTS / "field" / "c25.stitch").read_text("utf-8")
    wider = text.replace("box       inner pinched 1 from", "box       inner pinched 1 1/2 from")

    (said,) = says_of(wider, "lining-does-not-fit")

    assert "1 in too" in said
    assert wider != text and says_of(text, "lining-does-not-fit") == []


ROUNDED = """units in
allowance 1/2
cloth sail: "sailcloth"
piece flap of sail: 10 x 8, bottom corners rounded 2
piece flap_in of sail: {}
join flap to flap_in along edges, leaving 3 open in top as cover
turn cover through cover.top
close cover.top
topstitch cover edges at 1/8
"""


def test_edges_go_round_the_corners():
    """All six edges of two flaps are joined, so nothing is open when it is turned."""
    recipe = stitchlang.read(ROUNDED.format("10 x 8, bottom corners rounded 2"))

    assert stitchlang.check(recipe) == []
    assert {seam.name for seam in recipe.seams} == {"top", "right", "bottom_right", "bottom", "bottom_left", "left"}
    assert any("Topstitch all edges of cover" in step.sentence for step in stitchlang.steps(recipe))


def test_a_left_corner_meets_a_right_one():
    """Laid face to face, what is the left corner of one is the right corner of the other."""
    recipe = stitchlang.read(ROUNDED.format("10 x 8, bottom corners rounded 2"))
    pairs = {tuple(chain.name for chain in seam.sides) for seam in recipe.seams}

    assert {("left", "right"), ("bottom_left", "bottom_right"), ("bottom_right", "bottom_left")} <= pairs


def test_square_corners_against_round_ones():
    """A lining left square has no corners to sew the round ones to."""
    recipe = stitchlang.read(ROUNDED.format("10 x 8"))

    assert {one.rule for one in stitchlang.check(recipe)} == {"unknown-edge"}


def test_a_tapered_panel_is_measured_upright():
    """13 tall less 1/2 at the top and 1/2 at the bottom is 12, exactly: its sides of root 173 do not come in."""
    text = """units in
allowance 1/2
cloth sail: "sailcloth"
piece front, back of sail: 16 at top, 12 at bottom, 13 tall
join front to back along sides, bottom as bag
hem bag.rim by 1/2
"""
    tall = next(one.working for one in stitchlang.measure(stitchlang.read(text)) if one.title == "bag tall")

    assert tall.exact and tall.mm == 12 * MM["in"]
    assert sorted((factor, leaf.mm / MM["in"]) for factor, leaf in tall.leaves()) == [
        (-1, Fraction(1, 2)),
        (-1, Fraction(1, 2)),
        (1, 13),
    ]


def test_a_base_of_nothing_is_said_once():
    """Pinched 10 across on 9 of width the base is 9 - 10 = -1: what that does to the claims is no second fault."""
    text = """units in
allowance 1/2
cloth sail: "sailcloth"
piece front, back of sail: 10 x 12
join front to back along sides, bottom as bag
box bag pinched 10 across
hem bag.rim by 1/2
finished bag: 9 wide at top, 4 wide at base, 11 tall
"""
    assert [one.rule for one in stitchlang.check(stitchlang.read(text))] == ["base-of-nothing"]
