"""What is sewn already and folded up from its bottom: a front, a back and a flap, by sums on paper."""

import re
from fractions import Fraction

import pytest

import stitchlang
from stitchlang.show.drawing_bag import bag_drawing, bags
from stitchlang.speech import Speech

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


def test_it_is_drawn_with_its_flap_open():
    """7 in of front and above it 6 in of flap, to one scale, and as wide as each other."""
    recipe = stitchlang.read(CLUTCH.format(7))
    ((shell, found),) = bags(recipe)
    page = bag_drawing(shell, found, recipe, Speech("in"))
    boxes = [[float(one) for one in re.findall(r"[\d.]+", path)] for path in re.findall(r'd="(M[^"]*Z)"', page)]
    sizes = [(max(box[::2]) - min(box[::2]), max(box[1::2]) - min(box[1::2])) for box in boxes if len(box) == 8]
    flap, front = sizes  # the rest are the heads of arrows

    assert flap[0] == front[0]
    assert abs(flap[1] / front[1] - 6 / 7) < 1e-3
    assert "tall folded 7 in" in page and "tall at flap 6 in" in page
