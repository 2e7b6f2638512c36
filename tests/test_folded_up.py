"""What is sewn already and folded up from its bottom: a front, a back and a flap, by sums on paper."""

from fractions import Fraction

import pytest

import stitchlang

HEAD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\n'
CLUTCH = (
    HEAD
    + """\
piece face, lining of sail: 9 x 21
join face to lining along edges, leaving 4 open in bottom as clutch
turn clutch through clutch.bottom
close clutch.bottom
fold clutch up {}
"""
)


@pytest.mark.parametrize(
    ("up", "flap", "found"),
    [
        # Sewn it is 21 - 2 x 1/2 tall.
        ("7", "6", []),
        ("6 2/3", "6 2/3", []),  # in thirds: the flap ends on the fold
        ("6 5/8", "6 3/4", [("doubt", "hangs 1/8 in below the fold")]),
        ("10", "0", []),  # in half: no flap, and no fault
        ("10 1/16", None, [("fault", "stands 1/8 in above its back")]),
    ],
)
def test_front_back_and_flap(up, flap, found):
    recipe = stitchlang.read(CLUTCH.format(up))
    told = stitchlang.check(recipe)
    sizes = {one.title: one.working.mm / Fraction(254, 10) for one in stitchlang.measure(recipe)}

    assert sizes["clutch tall"] == 20
    assert sizes["clutch tall folded"] == sum(map(Fraction, up.split()))
    assert flap is None or sizes["clutch tall at flap"] == sum(map(Fraction, flap.split()))
    assert [one.severity for one in told] == [severity for severity, _ in found]
    assert all(words in one.says for one, (_, words) in zip(told, found, strict=True))


def test_the_step_says_how_far():
    *_, last = stitchlang.steps(stitchlang.read(CLUTCH.format('7 "Pin it."')))

    assert last.sentence.startswith("Fold the bottom of clutch up 7 in and press")
    assert last.said == "Pin it."


@pytest.mark.parametrize("what", ["face", "sail", "nobody"])
def test_only_what_is_sewn_up_is_folded_up(what):
    """A piece is folded in half; cloth and nothing are not folded at all."""
    told = stitchlang.check(stitchlang.read(CLUTCH.replace("fold clutch", f"fold {what}").format(7)))

    assert [one.rule for one in told] in (["unknown-name"], ["not-that-kind-of-thing"])
