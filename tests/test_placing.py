"""Where things sit: snap halves, pockets and rows, each against a sum worked out by hand beside it."""

import pytest

import stitchlang

HEAD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\nsnap clasp: press, 1/2 across, 2 of\n'
BAG = "join front to back along sides, bottom as bag\n"


def told(text):
    """(rule, what it says) of every finding."""
    return [(one.rule, one.says) for one in stitchlang.check(stitchlang.read(HEAD + text))]


def only(text, rule):
    """The one finding of a recipe, which is of this rule: what it says."""
    found = told(text)
    assert [name for name, _ in found] == [rule], found
    return found[0][1]


def bag(setting, fronts="10 x 12", backs="10 x 12", rims=("1/2", "1/2")):
    """An unlined bag with snaps, its two rims hemmed each by its own amount."""
    front, back = (f"hem {name}.top by {rim}\n" for name, rim in zip(("front", "back"), rims, strict=True))
    return f"piece front of sail: {fronts}\npiece back of sail: {backs}\n{front}{back}{setting}\n{BAG}"


@pytest.mark.parametrize(
    "setting",
    [
        "set clasp on front and back, centred, 2 below top",
        "set clasp on front and back, 3 from left, 2 below top, mirrored",
        "set clasp on front, 3 from left, 2 below top\nset clasp on back, 3 from right, 2 below top",
        "set clasp on front and back, centred, 9 above bottom",
    ],
)
def test_halves_that_face_each_other_pass(setting):
    """Opposite panels, one distance from the rim, and left meeting right."""
    assert told(bag(setting)) == []


@pytest.mark.parametrize(
    "setting",
    [
        "set clasp on front and back, 3 from left, 2 below top",
        "set clasp on front, 3 from left, 2 below top\nset clasp on back, 3 from left, 2 below top",
    ],
)
def test_two_halves_from_the_left_lie_apart(setting):
    """3 from the left of 10 lies 2 1/2 inside one seam; on the back that is 10 - 1/2 - 3 = 6 1/2 from it: 4 apart."""
    assert "4 in apart across" in only(bag(setting), "snap-halves-apart")


def test_unequal_hems_set_the_halves_at_unequal_heights():
    """2 below a rim that turns 1/2 sits 1 1/2 down, 2 below one that turns 1 sits 1 down: 1/2 apart."""
    text = bag("set clasp on front and back, centred, 2 below top", backs="10 x 12 1/2", rims=("1/2", "1"))

    assert "1/2 in apart in height" in only(text, "snap-halves-apart")


def test_measured_from_the_bottom_a_higher_panel_is_another_distance_from_the_rim():
    """9 above the bottom of 12 with 1/2 turned sits 2 1/2 down; of 12 1/2 with 1 turned, 2 1/2 down too."""
    text = bag("set clasp on front and back, centred, 9 above bottom", backs="10 x 12 1/2", rims=("1/2", "1"))

    assert told(text) == []


LINED = """piece front, back, front_in, back_in of sail: 10 x 12
set clasp on {}, centred, 2 below top
join front to back along sides, bottom as outer
join front_in to back_in along sides, bottom, leaving 5 open in bottom as inner
slip inner into outer, right sides together
join inner.rim to outer.rim as bag
turn bag through inner.bottom
close inner.bottom
"""


def test_halves_on_two_layers_or_outside_never_meet():
    """A shell lies between its outside and the mouth; a lining panel faces the other lining panel only."""
    for panels in ("front and front_in", "back_in and front"):
        assert "on the lining and one on the shell" in only(LINED.format(panels), "snap-halves-never-meet")
    assert "inner lies between" in only(LINED.format("front and back"), "snap-halves-never-meet")
    assert told(LINED.format("front_in and back_in")) == []


def test_a_flap_meets_the_front():
    """A lined flap caught in the rim comes down over the outside of the front."""
    flap = "piece flap, flap_in of sail: 8 x 6\nset clasp on flap_in and front, centred, 4 above bottom\n"
    flap += "join flap to flap_in along sides, bottom as cover\nturn cover\n"
    text = LINED.replace("set clasp on {}, centred, 2 below top\n", flap).replace(
        "slip", "baste cover.top to outer.rim, at 1/4\nslip"
    )

    assert not [rule for rule, _ in told(text) if rule.startswith("snap")]


def test_a_half_alone_has_no_other_half():
    """One half on one panel in the whole recipe."""
    assert "the other half nowhere" in only(bag("set clasp on front, centred, 2 below top"), "snap-half-alone")
