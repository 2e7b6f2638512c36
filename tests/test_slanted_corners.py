"""Corners that are not square, where something is cut off: what stands beside each case was worked out by hand."""

import re
from fractions import Fraction

import pytest

import stitchlang

INCH = Fraction(254, 10)
NEAR = Fraction(1, 10**9)  # a slant is a root, to forty places
HEAD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\n'
BOXED = """\
piece front, back of sail: {}
notch front, back at bottom corners by {}
join front to back along sides, bottom as bag
box bag
hem bag.rim by 1/2
"""


def told(text, rule):
    return [one.says for one in stitchlang.check(stitchlang.read(HEAD + text)) if one.rule == rule]


@pytest.mark.parametrize(
    ("piece", "notch", "arm"),
    [
        ("14 at top, 11 at bottom, 12 tall", "2", Fraction(9, 4)),  # (14 - 11) / 2 / 12 is 1/8 an inch up: 2 + 2/8
        ("14 at top, 11 at bottom, 12 tall", "1 3/4 x 2", Fraction(2)),
        ("10 at top, 14 at bottom, 12 tall", "3", Fraction(5, 2)),  # -2 / 12: 3 - 3/6
        ("14 at top, 11 at bottom, 12 tall", "2 x 1", Fraction(17, 8)),  # only how far up it goes counts: 2 + 1/8
        # The left alone leans: 2 / 10 an inch up.
        ("polygon 0 x 10 top, 12 x 10 right, 12 x 0 bottom, 2 x 0 left", "2", Fraction(12, 5)),
        ("11 x 12", "2", Fraction(2)),
    ],
)
def test_a_notch_where_the_side_leans(piece, notch, arm):
    """The arm cut from the height of the notch to the side is longer by as much as the side leans out by then."""
    (front, *_) = stitchlang.read(HEAD + BOXED.format(piece, notch)).pieces
    (cut,) = [edge.cut.mm for edge in front.edges if edge.name == "bottom_left_across"]

    assert abs(cut / INCH - arm) < NEAR


def test_a_bag_of_leaning_panels_boxed():
    """14 and 11 wide, 12 tall, notched 1 3/4 x 2, seams of 1/2: by hand.

    The base is 11 - 2 x 1 3/4 - 2 x 1/2; of the 12 in upright the notch takes 2, the boxing seam 1/2, the hem 1/2.  The
    side leans 1/8 an inch up: sewn half an inch in, its stitch line lies 1/2 x root(1 + 1/64) = 0.50389 in further in,
    and half an inch above the arm 1/16 further out, so that the arm comes to 2 + 1/2 - 0.44139 = 2.05861.
    """
    recipe = stitchlang.read(HEAD + BOXED.format("14 at top, 11 at bottom, 12 tall", "1 3/4 x 2"))
    found = {one.title: one.working.mm / INCH for one in stitchlang.measure(recipe)}

    assert found["bag wide at base"] == Fraction(13, 2)
    assert abs(found["bag tall"] - 9) < NEAR
    assert abs(found["bag deep"] - Fraction("4.11722")) < Fraction(1, 10**5)


@pytest.mark.parametrize("piece", ["14 at top, 11 at bottom, 12 tall", "10 at top, 14 at bottom, 12 tall"])
@pytest.mark.parametrize("way", [0, 1])
def test_either_way_of_closing_such_a_notch_closes_it(piece, way):
    """A square one has arms of two lengths; each mend, rounded to a ruler's mark, is within the accuracy of cutting."""
    text = HEAD + "tolerance 1/8\n" + BOXED.format(piece, "3")
    (finding,) = [one for one in stitchlang.check(stitchlang.read(text)) if one.rule == "boxing-sides-differ"]
    across, up, depth = (
        sum(map(Fraction, size.split()))
        for size in re.findall(r"(?:notch|and|for) (?:about )?([\d /]+) in", finding.mend.split(", or ")[way])
    )
    other = stitchlang.read(text.replace("by 3", f"by {across} x {up}"))
    (deep,) = [one.working.mm / INCH for one in stitchlang.measure(other) if one.title == "bag deep"]

    assert "boxing-sides-differ" not in [one.rule for one in stitchlang.check(other)]
    assert abs(deep - depth) < Fraction(1, 8)


def test_a_notch_measured_from_the_seam_lines_leans_likewise():
    """2 and the 1/2 that either seam takes: 2 1/2 x 2 1/2, and 2 1/2 + 2 1/2 x 1/8 along the arm to the side."""
    text = HEAD + BOXED.format("14 at top, 11 at bottom, 12 tall", "2 from seam lines")
    (cut,) = [edge.cut.mm for edge in stitchlang.read(text).pieces[0].edges if edge.name == "bottom_left_across"]

    assert abs(cut / INCH - Fraction(45, 16)) < NEAR


@pytest.mark.parametrize(
    ("piece", "side", "known"),
    [
        ("12 x 14", "bottom", True),
        ("12 x 14, bottom corners rounded 2", "bottom", False),
        ("12 x 14, bottom corners rounded 2", "top", True),
        ("12 x 14, bottom corners clipped 2", "bottom", False),
        ("14 at top, 11 at bottom, 12 tall", "bottom", False),
        ("14 at top, 11 at bottom, 12 tall", "left", False),
        ("circle 9 across", "edge", False),
    ],
)
def test_a_trim_moves_a_side_between_square_corners_only(piece, side, known):
    """Between square corners the neighbours lose as much; where there are others nothing is made up."""
    text = f"piece flag of sail: {piece}\ntrim flag.{side} by 1\nhem flag edges by 1/2\n"

    assert (told(text, "trim-at-no-square-corner") == []) == known


def test_an_inch_trimmed_off_is_an_inch_less():
    """14 - 1 - 2 x 1/2."""
    recipe = stitchlang.read(HEAD + "piece flag of sail: 12 x 14\ntrim flag.bottom by 1\nhem flag edges by 1/2\n")
    (tall,) = [one.working.mm for one in stitchlang.measure(recipe) if one.title == "flag tall"]

    assert tall == 12 * Fraction(254, 10)


@pytest.mark.parametrize(
    ("piece", "fold", "square"),
    [
        ("12 x 24", "fold body in half, bottom to top", True),
        ("12 at top, 9 at bottom, 24 tall", "fold body in half, bottom to top", False),
        ("12 at top, 9 at bottom, 24 tall", "fold body in half, left to right", False),
        ("12 x 24, top corners rounded 2", "fold body in half, bottom to top", False),
        ("12 x 24, top pointed 3", "fold body in half, bottom to top", False),
        ("12 x 24", "lap body.top over body.bottom by 2", True),
        ("12 at top, 9 at bottom, 24 tall", "lap body.top over body.bottom by 2", False),
        ("12 at top, 9 at bottom, 24 tall", "fold body in quarters", True),  # a strap: only its width is worked out
    ],
)
def test_only_rectangles_are_folded_in_half(piece, fold, square):
    """Nothing is known of the half of a slant or a round: that is said, where once it was taken for a rectangle."""
    assert (told(f"piece body of sail: {piece}\n{fold}\n", "folded-out-of-square") == []) == square


@pytest.mark.parametrize(
    ("piece", "amiss"),
    [
        ("12 x 24, bottom corners rounded 2, cut 2", 0),
        ("12 at top, 9 at bottom, 24 tall, cut 2", 0),
        ("12 at top, 9 at bottom, 24 tall, bottom corners rounded 2", 1),
        ("12 at top, 9 at bottom, 24 tall, on fold at left, top pointed 2", 2),
        ("circle 9 across, bottom corners clipped 2", 1),
        ("polygon 0 x 8 top, 10 x 8 right, 10 x 0 bottom, 0 x 0 left, cut 2", 0),
        ("polygon 0 x 8 top, 10 x 8 right, cut 2, 10 x 0 bottom, 0 x 0 left", 0),
        ("polygon 0 x 8 top, 10 x 8 right, 10 x 0 bottom, 0 x 0 left, top corners clipped 2", 1),
    ],
)
def test_what_changes_nothing_is_told(piece, amiss):
    """Corners of a rectangle, said of another outline, once went unheard."""
    assert len(told(f"piece flag, other of sail: {piece}\n", "fact-of-a-rectangle")) == amiss


def test_a_polygon_is_cut_so_often_and_backed():
    recipe = stitchlang.read(
        HEAD + 'interfacing crisp: "woven"\n'
        "piece flag of sail: polygon 0 x 8 top, 10 x 8 right, 10 x 0 bottom, 0 x 0 left, cut 3, with crisp\n"
    )
    (flag,) = recipe.pieces

    assert (flag.count, flag.stiffening.name, len(flag.edges)) == (3, "crisp", 4)
