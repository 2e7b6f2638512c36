"""Small slips that tests/bench/mutants.py made and no quick test saw: each is seen here."""

import pytest

import stitchlang
from stitchlang.model.stuff import coated
from stitchlang.rules.catalogue import BY_NAME


def found(text, rule):
    """What a rule finds in a text."""
    return [one for one in stitchlang.check(stitchlang.read(text)) if one.rule == rule]


@pytest.mark.parametrize(("tall", "kept"), [("17", True), ("17 1/64", False)])
def test_the_longest_pocket_bag_is_the_one_that_the_mend_names(tall, kept):
    """By hand: 12 of panel, 3 above the opening, 1/2 in the seam leave 8 1/2; the bag is doubled, so 17 tall."""
    text = BY_NAME["pocket-bag-too-long"].trips

    assert "cut pouch 17 in tall or less, or set the opening 1 1/2 in higher" in [
        one.mend for one in found(text, "pocket-bag-too-long")
    ]
    assert (not found(text.replace("9 x 20", f"9 x {tall}"), "pocket-bag-too-long")) is kept


def test_the_coated_stuff_is_found_behind_others():
    """Neither plain cloth nor a piece of unknown cloth before it hides it, and where there is none there is none."""
    head = 'units in\nallowance 1/2\ncloth plain: "canvas"\ncloth skin: "oilcloth", coated\n'

    assert coated(stitchlang.read(f"{head}piece a of nowhere: 4 x 4\npiece b of plain: 4 x 4\n")) is None
    assert coated(stitchlang.read(f"{head}piece a of nowhere: 4 x 4\npiece b of skin: 4 x 4\n")).name == "skin"
    assert coated(stitchlang.read(f"{head}piece a of plain: 4 x 4\npiece b of skin: 4 x 4\n")).name == "skin"
