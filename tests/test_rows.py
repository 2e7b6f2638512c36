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
