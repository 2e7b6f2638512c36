"""Rows of stitching against the cloth that lies beneath them; each amount by the sum beside it."""

import pytest

import stitchlang

BAG = """units in
allowance 1/2
cloth sail: "sailcloth"
piece front, back of sail: 10 x 24
join front to back along sides, bottom as bag
hem bag.rim by {}
"""


def told(text):
    return [(one.rule, one.says) for one in stitchlang.check(stitchlang.read(text))]


@pytest.mark.parametrize(
    "hem, words",
    [
        ("1 then 3, at 5", "2 in beyond the 3 in"),  # 5 - 3
        ("1 then 3, at 3", "along the very edge of the 3 in"),
        ("1/2, at 3/4", "1/4 in beyond the 1/2 in"),
        ("1/2, turned twice, at 3/4", "1/4 in beyond the 1/2 in"),
        ("3 then 1, at 2", "1 in beyond the 1 in"),  # what is turned first lies inside the second turn
    ],
)
def test_a_hem_stitched_past_its_last_turn(hem, words):
    """A hem turned 1 then 3 shows 3 of turned cloth, and no more, from its fold."""
    ((rule, says),) = told(BAG.format(hem))

    assert rule == "hem-stitching-beyond-turn" and words in says


@pytest.mark.parametrize("hem", ["1 then 3, at 2 7/8", "1/2", "1/2, turned twice, at 3/8"])
def test_a_hem_stitched_within_its_last_turn(hem):
    assert told(BAG.format(hem)) == []


HANDLES = """units in
allowance 1/2
cloth sail: "sailcloth"
webbing tape: {} wide
piece front, back of sail: 10 x 24
piece handle of tape: {}, cut 2
baste handle.ends to front.top, back.top
join front to back along sides, bottom as bag
{}
"""


@pytest.mark.parametrize(
    "woven, cut, words",
    [
        ("1", "4 x 24", "3 in too wide"),  # 4 - 1
        ("1 1/2", "1 x 24", "1/2 in too narrow"),
    ],
)
def test_webbing_keeps_the_width_it_is_woven_in(woven, cut, words):
    ((rule, says),) = told(HANDLES.format(woven, cut, "hem bag.rim by 1"))

    assert rule == "webbing-of-another-width" and words in says


@pytest.mark.parametrize("woven, cut", [("1", "1 x 24"), ("25 mm", "1 x 24")])
def test_webbing_in_its_own_width(woven, cut):
    """25 mm is sold for 1 in: 0.4 mm apart (exact by definition, inch 1959)."""
    assert told(HANDLES.format(woven, cut, "hem bag.rim by 1")) == []


@pytest.mark.parametrize("rest", ["hem bag.rim by 1", "leave bag.rim raw\ntopstitch bag.rim at 1/4"])
def test_what_is_basted_is_caught_later(rest):
    assert told(HANDLES.format("1", "1 x 24", rest)) == []


def test_what_is_basted_to_a_raw_edge_is_held_by_nothing():
    ((rule, says),) = told(HANDLES.format("1", "1 x 24", "leave bag.rim raw"))

    assert rule == "basting-never-caught" and "front.top" in says
