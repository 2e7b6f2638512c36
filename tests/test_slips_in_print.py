"""Published slips: which one gives the size that was claimed.  Every sum is worked out by hand."""

import pytest

import stitchlang

# 10 x 12, all allowances 1/2, the rim hemmed by 1: notched 1 1/2, it is 12 - 1 - 1 1/2 - 1/2 = 9 tall, 9 wide at the
# top, 3 deep and 9 - 3 = 6 wide at the base.
BAG = """units in
allowance 1/2
cloth sail: "sailcloth"
piece front, back of sail: 10 x 12
{}join front to back along sides, bottom as bag
box bag{}
hem bag.rim by 1
finished bag: {}
"""
NOTCH = "notch front, back at bottom corners by 1 1/2\n"


def says(claim, notch=NOTCH, box=""):
    """What is said of one claim that does not hold."""
    (finding,) = stitchlang.check(stitchlang.read(BAG.format(notch, box, claim)))
    return finding.says


@pytest.mark.parametrize(
    "claim, words",
    [
        ("10 1/2 tall", "before the boxing is taken off"),  # 9 + 3 / 2
        ("10 tall", "before the hems are taken off"),  # 9 + 1
        ("11 1/2 tall", "before the boxing is taken off, and before the hems are taken off"),  # 9 + 3 / 2 + 1
        ("12 tall", "before the boxing is taken off, and before any hem or seam"),  # as cut
        ("9 wide at base", "before the boxing is taken off"),  # 6 + 3
        ("10 wide at top", "before the seam allowances are taken off"),  # 9 + 2 x 1/2
        ("9 1/2 wide at top", "with one of its two seam allowances taken off"),  # 9 + 1/2
        # 2 claimed, where the square was drawn 2 / 2 + 1/2; the square alone makes twice itself, 3
        # (bestfabricstore.com/blog/how-to-box-the-corners-of-a-bag).
        ("2 deep", "without the seam allowance that was added"),
        ("4 deep", "measured from the seam lines"),  # 2 x (1 1/2 + 1/2)
        ("1 1/2 deep", "the side of the notch"),
    ],
)
def test_a_slip_of_a_notched_bag_is_named(claim, words):
    """Each claim is off by what the slip leaves out."""
    assert words in says(claim)


@pytest.mark.parametrize("claim", ["8 1/4 tall", "7 wide at top", "2 3/8 deep"])
def test_no_slip_is_made_up(claim):
    """A size that no slip gives is only told to differ."""
    said = says(claim)

    assert ";" not in said and "said to be" in said


@pytest.mark.parametrize(
    "box, claim, words",
    [
        (" pinched 3 across", "11 1/8 tall", None),  # 12 - 1 - 1/2 - 3 / 2 = 9: nothing gives that
        (" pinched 3 across", "10 1/2 tall", "before the boxing is taken off"),  # 9 + 3 / 2
        (" pinched 3 across", "6 deep", "twice the line across"),
        (" pinched 1 1/2 from tip", "1 1/2 deep", "the distance from the tip"),
    ],
)
def test_a_slip_of_a_pinched_bag_is_named(box, claim, words):
    """Pinched 3 across, or 1 1/2 from the tip, the bag is 3 deep and 9 tall."""
    said = says(claim, notch="", box=box)

    assert words in said if words else ";" not in said
