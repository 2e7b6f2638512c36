"""Zips against the panels they are sewn to.  Sizes are invented; the arithmetic stands beside them."""

import pytest

import stitchlang

POUCH = """\
units in
allowance 1/4
cloth duck: "duck"
zip mouth: coil, 7 long, tape 1 wide{}
piece front, back of duck: 9 1/2 x 6
join mouth.lower to front.top
join mouth.upper to back.top as face
join front to back along sides, bottom, catching mouth.ends, leaving 3 open in bottom as pouch
turn pouch through pouch.bottom
close pouch.bottom
"""


@pytest.mark.parametrize("tape", ["", ", tape 9 1/2 long", ", tape 11 long"])
def test_a_tape_may_be_longer_than_its_panel(tape):
    """Unknown, equal or longer: the tails are cut off (common practice, no source)."""
    assert stitchlang.check(stitchlang.read(POUCH.format(tape))) == []


def test_a_tape_shorter_than_its_panel_is_a_fault():
    """Tape 9 against panel 9 1/2: 1/2 in is missing, on the stitch line as on the cut edge."""
    found = stitchlang.check(stitchlang.read(POUCH.format(", tape 9 long")))

    assert {finding.rule for finding in found} == {"joined-edges-differ"}
    assert all("front.top is 1/2 in too long" in one.says or "back.top is 1/2 in too long" in one.says for one in found)
