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


@pytest.mark.parametrize(
    ("long", "told", "meant"),
    [
        ("6", None, None),  # two thirds of the 9 between the seams: just enough
        ("5 15/16", "3 1/16 in of it does not open", None),
        ("7 cm", "about 6 1/4 in of it does not open", "7 in"),  # 9 - 7 / 2.54 = 6.244
        ("10 cm", "about 5 1/16 in of it does not open", None),  # nor would 10 in fit: 9 - 10 / 2.54 = 5.063
        ("60 mm", "about 6 5/8 in of it does not open", None),  # 9 - 60 / 25.4 = 6.638
    ],
)
def test_a_zip_much_shorter_than_its_seam_is_doubted(long, told, meant):
    """Below two thirds of the opening (our own threshold), and with the unit that may have been meant."""
    recipe = stitchlang.read(POUCH.format("").replace("7 long", f"{long} long"))
    found = [one for one in stitchlang.check(recipe) if one.rule == "zip-too-short"]

    assert len(found) == (told is not None)
    for one in found:
        assert told in one.says
        assert [edit.text for edit in one.edits] == ([meant] if meant else [])
        assert ("meant" in one.mend) == (meant is not None)
