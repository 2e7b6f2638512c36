"""Rings and lying tubes, strips joined before they are folded, outlines that cross: sums worked out by hand."""

from fractions import Fraction

import pytest

import stitchlang
from stitchlang.model.measures import measure
from stitchlang.work.mend import mended

OPENING = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\n'


def read(text):
    return stitchlang.read(OPENING + text)


def inches(recipe, thing, name):
    return measure(recipe.things[thing], name).mm / Fraction(254, 10)


def rules_on(text):
    return {one.rule for one in stitchlang.check(read(text))}


@pytest.mark.parametrize("closing", ["c.right to a.left", "wall.right to wall.left"])
def test_a_ring_of_three_panels_is_as_long_as_all_of_them(closing):
    """Three panels of 10, six allowances of 1/2: 27 round, whether the pieces or the whole are named."""
    recipe = read(
        "piece a, b, c of sail: 10 x 12\njoin a.right to b.left\njoin b.right to c.left as wall\n"
        f"join {closing} as tube\nhem tube.top, bottom by 1/2\n"
    )

    assert inches(recipe, "tube", "around") == 27
    assert inches(recipe, "tube", "tall") == 11
    assert stitchlang.check(recipe) == []


def test_a_panel_rolled_from_top_to_bottom_lies():
    """20 up, less two allowances, is the girth of 19; 10 across, less two hems, is the length of 9."""
    recipe = read("piece wall of sail: 10 x 20\njoin wall.top to wall.bottom as tube\nhem tube.left, right by 1/2\n")

    assert inches(recipe, "tube", "around") == 19
    assert inches(recipe, "tube", "long") == 9


@pytest.mark.parametrize(
    ("pressed", "folded", "wide"),
    [
        ("press strap.left under by 1\n", "thirds", 4),  # (13 - 1) / 3
        ("press strap sides under by 1\n", "half", Fraction(11, 2)),  # (13 - 2) / 2
        ("", "thirds", Fraction(13, 3)),
    ],
)
def test_strips_joined_end_to_end_lose_each_side_once(pressed, folded, wide):
    """What is pressed under along two strips in a row narrows the fold once, not twice."""
    recipe = read(
        "piece one, two of sail: 13 x 30\njoin one.top to two.bottom diagonally as strap\n"
        f"{pressed}fold strap in {folded}\nleave strap.ends raw\n"
    )

    assert inches(recipe, "strap", "wide") == wide


def test_thirds_hide_one_whole_side_of_joined_strips():
    """The right sides of both strips stay raw, and neither of the left ones."""
    (finding, other) = stitchlang.check(
        read(
            "piece one, two of sail: 13 x 30\njoin one.top to two.bottom diagonally as strap\n"
            "fold strap in thirds\nleave strap.ends raw\nfinished strap: 47 long\n"
        )
    )

    assert [finding.says, other.says] == ["nothing is said of the right of one", "nothing is said of the right of two"]


@pytest.mark.parametrize(
    ("corners", "crosses"),
    [
        ("0 x 8 top, 10 x 8 right, 10 x 0 bottom, 0 x 0 left", False),
        ("-5 x 8 top, 5 x 8 right, 5 x 3 slope, 0 x 0 slant, -5 x 3 left", False),
        ("0 x 8 top, 10 x 2 right, 10 x 8 slope, 0 x 0 left", True),  # a bow tie
        ("0 x 8 top, 10 x 8 right, 10 x 0 bottom, 5 x 8 slant, 0 x 0 left", True),  # a corner on another side
    ],
)
def test_an_outline_that_crosses_itself_is_none(corners, crosses):
    """Two sides that are no neighbours have no point in common."""
    found = rules_on(f"piece flag of sail: polygon {corners}\nhem flag edges by 1/4\n")

    assert ("outline-not-closed" in found) is crosses


@pytest.mark.parametrize("second", ["top corners clipped 1", "left corners rounded 1", "top corners rounded 1"])
def test_a_corner_is_shaped_once(second):
    """A rounded corner cannot be rounded or clipped again."""
    assert "said-twice" in rules_on(
        f"piece flag of sail: 10 x 12, top corners rounded 1, {second}\nleave flag edges raw\n"
    )


@pytest.mark.parametrize(("away", "apart"), [(3, False), (2, True), (4, True)])
def test_halves_of_a_tape_on_an_overlap_meet(away, apart):
    """An overlap of 4, a half 1 in from the upper finished edge: the other lies 3 in from the lower one."""
    found = rules_on(
        'touch grip: "hook and loop", 1/2 wide, 4 long\npiece cover of sail: 17 x 40\n'
        "hem cover.top, bottom by 1/2\nset grip on cover, centred, 1 1/2 below top\n"
        f"set grip on cover, centred, {away} + 1/2 above bottom\n"
        "lap cover.top over cover.bottom by 4 as case\njoin case along sides as pillow\nturn pillow\n"
    )

    assert ("snap-halves-apart" in found) is apart


def test_a_name_given_to_stuff_and_to_a_bag_is_given_twice():
    """The second giver is told, and nothing is made to wait for it."""
    found = stitchlang.check(
        read(
            'cloth inner: "nylon"\npiece front, back of inner: 10 x 12\n'
            "join front to back along sides, bottom as inner\nhem inner.rim by 1/2\n"
        )
    )

    assert "name-given-twice" in {one.rule for one in found}
    assert not any("nothing is called `front`" in one.says for one in found)


def test_a_binding_goes_once_along_two_layers():
    """The open edge of a folded piece, 10 wide, takes 10 of binding, not 20."""
    text = (
        "binding tape: 1/2 wide, {} long\npiece slip of sail: 10 x 12\nfold slip in half, bottom to top\n"
        "bind slip.top with tape\nleave slip sides raw\n"
    )

    assert "binding-too-short" not in rules_on(text.format(10))
    assert "binding-too-short" in rules_on(text.format(9))


def test_a_tie_longer_than_its_panel_hangs_over_it():
    """A ribbon of 30 held in the middle of a panel 12 tall is no pocket outside its panel."""
    text = (
        "ribbon band: 1 wide, 60 long\npiece mat of sail: 10 x 12\npiece tie of band: 1 x {}\nhem tie.ends by 1/2\n"
        "place tie on mat, centred, 6 below top\nhem mat edges by 1/2\n"
    )

    assert "pocket-outside-panel" not in rules_on(text.format(30))
    assert "pocket-outside-panel" in rules_on(text.format(10))


def test_a_side_called_edge_is_no_circle():
    """A polygon 10 wide, hemmed by 1/2 at either side, is 9 wide, whatever its other sides are called."""
    recipe = read(
        "piece flag of sail: polygon 0 x 8 edge, 10 x 8 fly, 10 x 0 bottom, 0 x 0 hoist\nhem flag edges by 1/2\n"
    )

    assert stitchlang.check(recipe) == []
    assert inches(recipe, "flag", "wide") == 9


ROUND = """\
units in
allowance 1/2
cloth sail: "sailcloth"
piece wall, wall_in of sail: 26 1/8 x 12
piece base, base_in of sail: circle 9 across
join wall.left to wall.right as tube
join tube.bottom to base.edge as outer
join wall_in.left to wall_in.right, leaving {} as tube_in
join tube_in.bottom to base_in.edge as inner
slip inner into outer, right sides together
join inner.rim to outer.rim as bag
turn bag through inner.left
close inner.left
"""


@pytest.mark.parametrize(("gap", "found"), [("2 5/8", []), ("2 1/2", ["gap-too-small"])])
def test_a_round_bag_passes_its_gap_lying_flat(gap, found):
    """Lying flat it is half its girth, (26 1/8 - 1) / 2 = 12 9/16; a fifth of that (our own threshold) is 2 41/80."""
    recipe = stitchlang.read(ROUND.format(f"{gap} open in left"))

    assert [one.rule for one in stitchlang.check(recipe)] == found


def test_a_seam_goes_by_its_first_edge():
    """A gap in the seam of left to right is in `left`: said so, and mended."""
    wrong = ROUND.format("3 open in right")
    told = stitchlang.check(stitchlang.read(wrong))[0]

    assert (told.rule, told.mend) == ("unknown-edge", "write `left`")
    assert mended(wrong).text == ROUND.format("3 open in left")
