"""The order of the steps: the writer's where it can be sewn, the nearest possible one where it cannot."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import stitchlang
from stitchlang.work.order import ordered

ROOT = Path(__file__).parent.parent
EXAMPLES = sorted(ROOT.glob("examples/*.stitch"))
LINED = """\
units in
allowance 1/2
cloth sail: "sailcloth"
snap clasp: magnetic, 3/4 across
piece front, back, front_in, back_in of sail: 10 x 12
piece patch of sail: 4 x 4
hem patch edges by 1/2
place patch on front, centred, 3 below top, sewn along sides, bottom
join front to back along sides, bottom as outer
set clasp on front_in and back_in, centred, 2 below top
join front_in to back_in along sides, bottom, leaving 5 open in bottom as inner
slip inner into outer, right sides together
join inner.rim to outer.rim as bag
turn bag through inner.bottom
close inner.bottom
topstitch bag.rim at 1/8
"""


def verbs(order):
    return [(op.verb, op.things[0].name if op.things else "") for op in order]


def moved(line_start, to_end_of):
    """LINED with one line moved behind another."""
    lines = LINED.splitlines()
    line = next(one for one in lines if one.startswith(line_start))
    lines.remove(line)
    at = next(number for number, one in enumerate(lines) if one.startswith(to_end_of))
    lines.insert(at + 1, line)
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_possible_order_is_kept(path):
    """Where the writer's order can be sewn, the steps come out in it."""
    recipe = stitchlang.read(path.read_text("utf-8"))

    assert ordered(recipe) == recipe.ops


@pytest.mark.parametrize(
    ("line", "behind", "nearest"),
    [
        ("place patch", "join front to", "hem patch"),  # the pocket after its panel is in a bag
        ("set clasp", "join inner.rim", "join front_in"),  # the snap when the lining's inside is turned away
        ("slip inner", "join inner.rim", "join front_in"),  # slipping after the rim is closed
    ],
)
def test_a_step_that_comes_too_late_is_put_back_and_said(line, behind, nearest):
    """The step comes out right before the one that closes its place, all else as written, and the finding says why."""
    recipe = stitchlang.read(moved(line, behind))
    right = stitchlang.read(moved(line, nearest))

    assert [finding.rule for finding in stitchlang.check(recipe)] == ["place-sewn-shut"]
    assert verbs(ordered(recipe)) == verbs(ordered(right))


@pytest.mark.parametrize(
    ("line", "behind"),
    [
        ("turn bag", "slip inner"),  # turning before the bag is whole
        ("topstitch bag", "join inner.rim"),  # topstitching the rim before turning
        ("close inner", "join inner.rim"),  # closing the gap before it is used
    ],
)
def test_a_step_that_comes_too_early_waits_and_it_is_said(line, behind):
    """The step comes out after what it needs, and the finding names the line it must follow."""
    recipe = stitchlang.read(moved(line, behind))
    order = ordered(recipe)

    assert {finding.rule for finding in stitchlang.check(recipe)} == {"used-before-made"}
    assert order.index(next(op for op in order if op.verb == "turn")) < min(
        at for at, op in enumerate(order) if op.verb == "close"
    )
    assert [op.verb for op in order].index("turn") > [op.things[0].name for op in order].index("inner")


@settings(deadline=None, max_examples=60)
@given(st.sampled_from(EXAMPLES), st.randoms(use_true_random=False))
def test_however_lines_are_shuffled_the_order_can_be_sewn(path, chance):
    """In every order that comes out, each statement follows all that it needs, unless they go round."""
    lines = path.read_text("utf-8").splitlines()
    chance.shuffle(lines)
    recipe = stitchlang.read("\n".join(lines) + "\n")
    order = ordered(recipe)
    place = {op: at for at, op in enumerate(order)}
    late = [(op, need) for op in order for need in op.after if need is not op and place[need] > place[op]]

    assert sorted(map(id, order)) == sorted(map(id, recipe.ops))
    assert not late or goes_round(late[0][0])


def goes_round(op):
    """Whether a statement waits, step by step, for itself."""
    seen, stack = set(), list(op.after)
    while stack:
        need = stack.pop()
        if need is op:
            return True
        if need not in seen:
            seen.add(need)
            stack += need.after
    return False
