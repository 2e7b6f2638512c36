"""What is drawn through a casing: a strip sewn for it, a ribbon, or a thing laid double that is a casing itself."""

import pytest

import stitchlang

BAG = """
units in
allowance 1/2
cloth sail: "sailcloth"
ribbon band: {ribbon} wide, 40 long
piece front, back of sail: 10 x 12
piece string of sail: {strip} x {long}
fold string in quarters
topstitch string sides at 1/8
join front to back along sides, bottom, leaving 1 open in left for {draw} as bag
hem bag.rim by 1/4 then {casing}
thread {draw} through bag.rim
"""


def rules_on(draw="string", strip=4, long=40, casing="1 1/4", ribbon=1):
    """The rules that speak of a bag drawn shut, those about the strip's ends and what is not used left out."""
    text = BAG.format(draw=draw, strip=strip, long=long, casing=casing, ribbon=ribbon)
    found = {one.rule for one in stitchlang.check(stitchlang.read(text))}
    return found - {"edge-without-fate", "never-used", "never-joined"}


def test_a_strip_is_drawn_through_a_casing_as_a_cord_is():
    """Four thicknesses of 4 in are 1 in wide, and go through a casing of 1 1/4."""
    assert rules_on() == set()


@pytest.mark.parametrize("strip, casing, fits", [(4, 1, True), (4, "7/8", False), (3, "3/4", True), (3, "5/8", False)])
def test_a_strip_needs_a_casing_as_wide_as_itself(strip, casing, fits):
    """Flat, it turns nowhere: a quarter of what was cut is what the casing must be."""
    assert ("cord-too-thick" not in rules_on(strip=strip, casing=casing)) is fits


@pytest.mark.parametrize("ribbon, fits", [(1, True), ("1 1/4", True), ("1 3/8", False)])
def test_a_ribbon_needs_a_casing_as_wide_as_itself(ribbon, fits):
    """The casing is 1 1/4 deep."""
    assert ("cord-too-thick" not in rules_on(draw="band", ribbon=ribbon)) is fits


@pytest.mark.parametrize("long, fits", [(24, True), (23, False)])
def test_a_strip_goes_all_round_with_its_ends_hanging_out(long, fits):
    """2 x 9 in round and 2 x 75 mm of ends: 18 + 5.91 = 23.91 in."""
    assert ("cord-too-short" not in rules_on(long=long)) is fits


def tunnel(by):
    """A ring, laid double, as the casing of a strip."""
    return stitchlang.read(f"""
units in
allowance 1/4
cloth sail: "sailcloth"
piece front, back of sail: 13 1/2 x 13 1/2
piece ring of sail: 25 1/2 x 3 1/2
piece string of sail: {by} x 40
join ring.left to ring.right as tunnel
baste tunnel.top, bottom to front.top
join front to back along sides, bottom as bag
hem bag.rim by 1/4
fold string in quarters
thread string through tunnel
hem string.top, bottom by 1/4
""")


@pytest.mark.parametrize("by, fits", [(6, True), ("6 1/4", False)])
def test_a_thing_laid_double_is_a_casing(by, fits):
    """(3 1/2 - 2 x 1/4) / 2 = 1 1/2 of casing; a strip of 6 in comes to 1 1/2, one of 6 1/4 to 1 9/16."""
    found = {one.rule for one in stitchlang.check(tunnel(by))}

    assert ("cord-too-thick" not in found) is fits
    assert "no-casing-for-cord" not in found
    assert "no-way-in-for-cord" not in found


def test_two_strips_are_told_as_two():
    """Of a strip cut twice each is threaded, from opposite sides."""
    text = BAG.format(draw="string", strip=4, long=40, casing=2, ribbon=1).replace("4 x 40", "4 x 40, cut 2")
    (step,) = [one for one in stitchlang.steps(stitchlang.read(text)) if "bodkin" in one.sentence]

    assert "each drawstring, from opposite sides, (string)" in step.sentence


EYED = """
units in
allowance 1/2
cloth sail: "sailcloth"
cord draw: 5 mm across, 60 long
eyelet eye: 10 mm inside, 1/2 across, 4 of
piece front, back of sail: 10 x 12
set eye on front and back, 2 from left, {} below top, mirrored
join front to back along sides, bottom as bag
hem bag.rim by 1/2 then 3
{}
thread draw through eye, bag.rim
"""


@pytest.mark.parametrize(
    ("below", "channel", "rules"),
    [
        # 3 1/2 goes into the hem: 5 below the cut edge is 1 1/2 below the finished one, midway between the rows.
        ("5", "channel bag.rim between 1 and 2", set()),
        ("4 3/4", "channel bag.rim between 1 and 2", set()),  # its rim touches the upper row
        ("4 5/8", "channel bag.rim between 1 and 2", {"row-over-snap"}),
        ("5 1/2", "channel bag.rim between 1 and 2", {"row-over-snap"}),
        ("5 9/16", "channel bag.rim between 1 and 2", {"row-over-snap", "eyelet-beside-casing"}),
        ("6", "channel bag.rim between 1 and 2", {"eyelet-beside-casing"}),
        ("6", "", set()),  # the hem is the casing, 3 deep
        ("7 1/2", "", {"eyelet-beside-casing"}),
    ],
)
def test_eyelets_open_into_the_casing(below, channel, rules):
    """Where an eyelet lies between the rows the cord comes out; on a row the needle meets it."""
    found = stitchlang.check(stitchlang.read(EYED.format(below, channel)))

    assert {one.rule for one in found} == rules
