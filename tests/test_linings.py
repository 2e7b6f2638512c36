"""A lining against its shell, and pieces lined edge to edge; each expected size worked out by hand beside it."""

from pathlib import Path

import stitchlang

TESTS = Path(__file__).parent


def says_of(text, rule):
    """What findings of one rule say."""
    return [one.says for one in stitchlang.check(stitchlang.read(text)) if one.rule == rule]


def test_the_lining_of_a_zip_pouch_is_compared_with_its_shell():
    """Cut 7 tall instead of 6 the lining is 7 - 1/4 - 3/8 = 6 3/8 against 5 3/8: an inch too large."""
    text = (TESTS.parent / "examples" / "zip_pouch.stitch").read_text("utf-8")

    (said,) = says_of(text.replace("of lawn: 9 x 6", "of lawn: 9 x 7"), "lining-does-not-fit")

    assert "inner is 6 3/8 in tall and outer 5 3/8 in: the lining is 1 in too large" in said
    assert says_of(text, "lining-does-not-fit") == []


def test_a_boxed_lining_pinched_farther_is_compared_too():
    """c25 with its lining pinched 1 1/2 from the tip: 3 deep against 2, an inch too large."""
    text = (TESTS / "field" / "c25.stitch").read_text("utf-8")
    wider = text.replace("box       inner pinched 1 from", "box       inner pinched 1 1/2 from")

    (said,) = says_of(wider, "lining-does-not-fit")

    assert "1 in too" in said
    assert wider != text and says_of(text, "lining-does-not-fit") == []
