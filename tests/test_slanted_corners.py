"""Corners that are not square, where something is cut off: what stands beside each case was worked out by hand."""

from fractions import Fraction

import pytest

import stitchlang

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
        ("14 at top, 11 at bottom, 12 tall", "2", "2 1/4 in"),  # (14 - 11) / 2 / 12 a side is 1/8 an inch up: 2 + 2/8
        ("10 at top, 14 at bottom, 12 tall", "3", "2 1/2 in"),  # -2 / 12: 3 - 3/6
        ("14 at top, 11 at bottom, 12 tall", "2 x 1", "2 1/8 in"),  # only how far up it goes counts: 2 + 1/8
        # The left alone leans: 2 / 10 an inch up.
        ("polygon 0 x 10 top, 12 x 10 right, 12 x 0 bottom, 2 x 0 left", "2", "2 2/5 in"),
        ("11 1/4 at top, 11 at bottom, 12 tall", "2", None),  # 2 x 1/96, below a thirty-second
        ("11 x 12", "2", None),
    ],
)
def test_a_notch_where_the_side_leans(piece, notch, arm):
    """The arm cut from the height of the notch to the side is longer by as much as the side leans out by then."""
    says = told(BOXED.format(piece, notch), "notch-at-a-slant")

    assert len(says) == (2 if arm else 0)
    assert all(f"upper arm comes to {arm}, and" in one for one in says)


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
