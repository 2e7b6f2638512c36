"""The order with the fewest changes: against every possible order, a textbook's theorem, and sums done by hand."""

import os
import random
import re
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import stitchlang
from stitchlang.show.steps import steps_text
from stitchlang.work.fewest import fewest
from stitchlang.work.plan import fewest_changes
from stitchlang.work.setups import needs_of, setup_of
from stitchlang.work.steps import steps

ROOT = Path(__file__).parent.parent
RECIPES = sorted([*ROOT.glob("examples/*.stitch"), *ROOT.glob("tests/field/*.stitch")])
BROKEN = sorted(ROOT.glob("tests/broken/*.stitch"))
SETUPS = [
    *[("table", None), ("iron", None), ("hand", None), None],
    *[("machine", "seam"), ("machine", "row"), ("machine", "zip"), ("machine", None)],
]
HEAD = """\
units in
allowance 1/2
cloth sail: "sailcloth"
"""


@st.composite
def works(draw, longest):
    """(set-ups, needs): so many steps, each needing some of those before it."""
    setups = draw(st.lists(st.sampled_from(SETUPS), max_size=longest))
    return setups, [draw(st.lists(st.integers(0, at - 1), max_size=2)) if at else [] for at in range(len(setups))]


def counted(setups):
    """Changes counted anew, step by step, beginning at the table with nothing set."""
    places = [setup[0] for setup in setups if setup]
    settings = [setup[1] for setup in setups if setup and setup[1]]
    moves = sum(one != other for one, other in pairwise(["table", *places]))
    return moves + sum(one != other for one, other in pairwise([None, *settings]))


def possible(needs, order=()):
    """Every order in which each step comes after those that it needs."""
    if len(order) == len(needs):
        yield order
    for number in range(len(needs)):
        if number not in order and all(need in order for need in needs[number]):
            yield from possible(needs, (*order, number))


def can_be_done(order, needs):
    """Whether an order has each step once, behind those that it needs."""
    place = {number: at for at, number in enumerate(order)}
    return sorted(order) == list(range(len(needs))) and all(
        place[need] < place[number] for number, earlier in enumerate(needs) for need in earlier
    )


# ------------------------------------------------------------------ the search
@settings(deadline=None, max_examples=200)
@given(works(7))
def test_no_possible_order_has_fewer_and_of_those_with_as_few_none_is_nearer(work):
    """Against every possible order: the fewest changes, and then the step written first wherever that can be."""
    setups, needs = work
    best = min((counted([setups[number] for number in order]), order) for order in possible(needs))
    found = fewest(setups, needs, "table")

    assert (found.changes, found.order) == best
    assert (found.proven, found.least, found.written) == (True, best[0], counted(setups))


@settings(deadline=None, max_examples=200)
@given(works(14), st.integers(0, 400))
def test_however_small_the_budget_what_is_said_is_true(work, budget):
    """With next to nothing to search with: a possible order, its own changes, never more than as written."""
    setups, needs = work
    found, best = fewest(setups, needs, "table", budget), fewest(setups, needs, "table")

    assert can_be_done(found.order, needs)
    assert found.changes == counted([setups[number] for number in found.order]) <= found.written == counted(setups)
    assert found.least <= best.changes <= found.changes
    assert best.changes == found.changes or not found.proven


def common(one, other):
    """The length of the longest common subsequence, by the textbook's table."""
    row = [0] * (len(other) + 1)
    for letter in one:
        before = 0
        for at, there in enumerate(other, 1):
            before, row[at] = row[at], before + 1 if letter == there else max(row[at], row[at - 1])
    return row[-1]


@pytest.mark.parametrize("seed", range(12))
def test_two_chains_take_what_the_theorem_says(seed):
    """Two chains of stations, none twice running: the stations visited are their shortest common supersequence.

    Its length is m + n less the longest common subsequence (Wagner and Fischer 1974, Journal of the ACM 21).
    """
    chance = random.Random(seed)
    chains = []
    for _ in range(2):
        chain = [chance.choice("abcd")]
        while len(chain) < 24:
            chain.append(chance.choice([letter for letter in "abcd" if letter != chain[-1]]))
        chains.append(chain)
    setups = [(letter, None) for chain in chains for letter in chain]
    needs = [[at - 1] if at % 24 else [] for at in range(48)]
    found = fewest(setups, needs, "table")

    assert found.proven
    assert found.changes == 48 - common(*chains)


def test_five_thousand_steps_give_an_order_and_say_that_it_is_not_proven():
    """A hundred chains of fifty steps: far too many orders to try; all is done the same way twice."""
    chance = random.Random(50)
    setups = [chance.choice(SETUPS) for _ in range(5_000)]
    needs = [[at - 1] if at % 50 else [] for at in range(5_000)]
    found = fewest(setups, needs, "table")

    assert can_be_done(found.order, needs)
    assert found.changes == counted([setups[number] for number in found.order]) < found.written
    assert not found.proven
    assert found.least < found.changes
    assert found == fewest(setups, needs, "table")


@pytest.mark.parametrize("chains", [1, 5_000])
def test_one_long_chain_and_none_at_all(chains):
    """Where each step needs the last nothing can be moved; where none does, each place is gone to once.

    Seven of the eight set-ups take work: three places to go to beside the table, three settings.
    """
    setups = [SETUPS[at * 3 % 8] for at in range(5_000)]
    needs = [[at - 1] if at and chains == 1 else [] for at in range(5_000)]
    found = fewest(setups, needs, "table")

    assert found.proven
    assert found.changes == (counted(setups) if chains == 1 else 3 + 3)


def test_more_steps_than_anybody_sews_keep_their_order_and_it_is_said():
    """Fifteen thousand steps, iron and machine in turn: one way to each and one setting is all that is known."""
    setups = [("iron", None), ("machine", "seam")] * 7_500
    found = fewest(setups, [[]] * 15_000, "table")

    assert found.order == tuple(range(15_000))
    assert (found.changes, found.written, found.proven, found.least) == (15_001, 15_001, False, 3)


# ------------------------------------------------------------------ recipes
TABS = (
    HEAD
    + """\
piece one, two of sail: 4 x 3
fold one in quarters
topstitch one sides at 1/8
fold two in quarters
topstitch two sides at 1/8
"""
)


def shown(text, **options):
    """The step list in the order with the fewest changes, as printed."""
    recipe = stitchlang.read(text, **options)
    order, found = fewest_changes(recipe)
    return steps_text(recipe, steps(recipe, None, order), found)


def test_two_tabs_are_folded_together_and_topstitched_together():
    """By hand: as written iron, machine and its setting, iron, machine: 5; together iron, machine, setting: 3."""
    recipe = stitchlang.read(TABS)
    order, found = fewest_changes(recipe)

    assert [op.number for op in order] == [0, 2, 1, 3]
    assert (found.changes, found.written, found.proven) == (3, 5, True)


def test_the_tote_of_the_readme():
    """By hand, from the table where it is cut.

    As written: machine, seam; table; machine; table; machine; hand; machine, topstitch; hand: 10.
    With both bags notched, then both sewn, and the gap closed right after turning: machine, seam; table; machine;
    hand; machine, topstitch: 7.
    """
    text = re.search(r"```stitch\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), re.DOTALL)[1]
    _, found = fewest_changes(stitchlang.read(text))

    assert (found.changes, found.written, found.proven) == (7, 10, True)


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_every_good_can_be_sewn_so(path):
    """Each statement once, behind all that it needs and behind what was done to its things; counted from the steps."""
    recipe = stitchlang.read(path.read_text("utf-8"))
    order, found = fewest_changes(recipe)
    place = {op: at for at, op in enumerate(order)}

    assert sorted(op.number for op in order) == list(range(len(recipe.ops)))
    assert all(place[need] < place[op] for op in order for need in op.after if need is not op)
    assert found.proven
    assert found.changes == counted([step.setup for step in stitchlang.steps(recipe, fewest=True)])
    assert found.written == counted([step.setup for step in stitchlang.steps(recipe)])


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_work_on_one_thing_keeps_its_order(path):
    """What is done to a piece, an assembly or a bag is done in the order in which it is written."""
    recipe = stitchlang.read(path.read_text("utf-8"))
    order, _ = fewest_changes(recipe)
    for thing in {thing: None for op in recipe.ops for thing in op.things}:
        numbers = [op.number for op in order if thing in op.things]

        assert numbers == sorted(numbers), thing.name


def test_things_sewn_together_count_as_one():
    """Once a pocket lies on a panel, work on either follows work on the other; work on the back is free of both."""
    recipe = stitchlang.read(
        HEAD
        + """\
piece front, back of sail: 10 x 12
piece pocket of sail: 4 x 4
press front.top under by 1/2
hem pocket edges by 1/2
place pocket on front, centred, sewn along sides, bottom
topstitch pocket.top at 1/4
press back.top under by 1/2
baste front.bottom to back.bottom
"""
    )

    assert needs_of(recipe.ops, recipe) == [[], [], [0, 1], [1, 2], [], [3, 4]]


def test_a_cord_goes_through_an_eyelet_that_is_set():
    """The eyelet is no thing that is sewn, and yet it must be there."""
    recipe = stitchlang.read(
        HEAD
        + """\
cord draw: 1/4 across, 40 long
eyelet grommet: 3/8 inside, 2 of
piece front of sail: 10 x 12
set grommet on front, 2 below top, 3 from left
thread draw through grommet
"""
    )

    assert needs_of(recipe.ops, recipe)[1] == [0]


# ------------------------------------------------------------------ set-ups
def setups_by_verb(text):
    """The set-up of each statement, the verb before it."""
    return [(op.verb, setup_of(op)) for op in stitchlang.read(HEAD + text).ops]


def test_a_zip_calls_for_its_foot_along_its_edge_and_nowhere_else():
    """Sewn in and topstitched with the zip foot; the seams across its ends, and all others, with the plain one."""
    found = setups_by_verb(
        """\
zip mouth: metal, 9 long, tape 1 wide
piece high, low, back of sail: 10 x 6
join low.top to mouth.lower
topstitch low.top at 1/8
join high.bottom to mouth.upper as front
topstitch front.top at 1/8
join front to back along sides, bottom as bag
"""
    )
    zip_seam, zip_row = ("machine", "zip foot, seam stitch"), ("machine", "zip foot, topstitch")
    plain_row, plain_seam = ("machine", "plain foot, topstitch"), ("machine", "plain foot, seam stitch")

    assert [setup for _, setup in found] == [zip_seam, zip_row, zip_seam, plain_row, plain_seam]


def test_piping_is_sewn_beside_its_cord():
    """A foot with one toe runs beside the cord when it is wrapped and when its flange is caught."""
    found = setups_by_verb(
        """\
cord filler: 1/4 across
piece strip of sail: 2 x 10
piece front, back of sail: 10 x 12
wrap strip round filler as welt
join front.top to back.top catching welt.right
"""
    )

    assert [setup for _, setup in found] == [("machine", "zip foot, seam stitch")] * 2


def test_other_settings_and_stations():
    """Rows that are seen, rows that are drawn out again, tape that is sewn by machine, buttons by hand, no work."""
    found = setups_by_verb(
        """\
touch fuzzy: 3/4 wide, 3 long
button knob: 3/4 across
rivet stud: 3/8 across
piece front, back of sail: 10 x 12
hem front.top by 1/2
baste front.left to back.left
set fuzzy on front, centred, 2 below top
set knob on front, centred, 5 below top
set stud on front, centred, 7 below top
leave back.top raw
"""
    )

    assert found == [
        ("hem", ("machine", "plain foot, topstitch")),
        ("baste", ("machine", "plain foot, long stitch")),
        ("set", ("machine", "plain foot, topstitch")),
        ("set", ("hand", None)),
        ("set", ("hardware", None)),
        ("leave", None),
    ]


def test_a_verb_may_say_its_own_set_up(monkeypatch):
    """What a verb's module says comes before what is guessed from outside."""
    from stitchlang.verbs import VERBS

    monkeypatch.setattr(VERBS["hem"], "setup", lambda op: ("machine", f"hemmer {op.number}"), raising=False)

    assert setups_by_verb("piece a of sail: 4 x 4\nhem a.top by 1/2\n") == [("hem", ("machine", "hemmer 0"))]


# ------------------------------------------------------------------ printing
@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_each_change_is_told_where_it_is_made(path):
    """The head gives a number; so many changes stand between the steps."""
    text = shown(path.read_text("utf-8"))
    number, written = re.search(r"^(\d+) changes? of station and set-up \((\d+) in the written", text, re.M).groups()
    told = re.findall(r"^     (?:At the (?:machine|table|iron|setting tools)\.|By hand\.)", text, re.M)
    told += re.findall(r"^     (?:At the machine\. )?Set: ", text, re.M)

    assert len(told) == int(number) <= int(written)


def test_a_part_is_headed_again_where_it_goes_on():
    """Parts may be mixed; each run of steps stands under its own heading, and numbers go on."""
    text = shown(TABS.replace("fold one", 'part "One"\nfold one').replace("fold two", 'part "Two"\nfold two'))

    assert re.findall(r"^(\w+)\n-+$", text, re.M) == ["Cutting", "One", "Two", "One", "Two"]
    assert re.findall(r"^ *(\d+)\. ", text, re.M) == ["1", "2", "3", "4", "5"]


def tangle(pieces, jobs):
    """A recipe of many pieces, with work on each at one station and another as chance has it."""
    chance = random.Random(pieces)
    kinds = ["hem {}.top by 1/2", "press {}.left under by 1/2", "trim {}.bottom by 1", "gather {}.top to 5"]
    kinds += ["set stud on {}, 2 below top", "set knob on {}, 2 below top", "dart {}.top by 1, 3 long"]
    names = [f"p{number}" for number in range(pieces)]
    lines = [chance.choice(kinds).format(name) for name in names for _ in range(jobs)]
    head = f"rivet stud: 3/8 across\nbutton knob: 3/4 across\npiece {', '.join(names)} of sail: 10 x 40\n"
    return HEAD + head + "\n".join(lines) + "\n"


def test_it_says_when_the_order_is_not_proven_best():
    """Sixteen pieces with twelve jobs each are too many orders to try."""
    text = shown(tangle(16, 12))
    head = " ".join(text.split("\n\n")[0].split())

    number, written, least = re.search(
        r"(\d+) changes of station and set-up \((\d+) in the written order\); not proven fewest: "
        r"too many possible orders to try, and none has fewer than (\d+)$",
        head,
    ).groups()
    assert int(least) < int(number) < int(written)


def test_the_command_prints_the_same_whatever_the_hash_seed():
    """Nothing hangs on the order in which a set happens to be walked."""
    outputs = set()
    for seed in ("0", "1", "77"):
        run = subprocess.run(
            [sys.executable, "-m", "stitchlang", "steps", "examples/satchel.stitch", "--fewest-changes"],
            cwd=ROOT,
            capture_output=True,
            text=True,
            env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONHASHSEED": seed},
            check=True,
        )
        outputs.add(run.stdout)

    assert len(outputs) == 1
    assert "; proven fewest\n" in outputs.pop()


SIZED = """\
recipe "Tabs"
units in
allowance 1/2
cloth sail: "sailcloth"
let broad = 4, 6 for small, large
piece one, two of sail: broad x 3
fold one in quarters
topstitch one sides at 1/8
fold two in quarters
topstitch two sides at 1/8
"""


def test_a_recipe_of_several_sizes_has_one_order():
    """The lengths of both sizes stand side by side in the same steps."""
    text = shown(SIZED)

    assert "3 changes of station and set-up (5 in the written order); proven fewest" in text
    assert text.count("1 in / 1 1/2 in wide in four layers") == 2


# ------------------------------------------------------------------ what cannot be sewn
RING = (
    HEAD
    + """\
piece front, back of sail: 10 x 12
join front to inner along sides, bottom as outer
join back to outer along sides, bottom as inner
"""
)


def test_steps_that_wait_for_each_other_are_told_all_the_same():
    """The rules report the ring; the list comes out, with every statement that says something."""
    recipe = stitchlang.read(RING)
    first, second, *_ = stitchlang.read(TABS).ops
    first.after[second] = second.after[first] = "made"

    assert "steps-go-round" in {finding.rule for finding in stitchlang.check(recipe)}
    assert len(stitchlang.steps(recipe, fewest=True)) == len(stitchlang.steps(recipe))


def test_a_ring_of_needs_is_broken_where_the_written_order_breaks_it():
    """Two statements that each need the other: the one written first is taken first."""
    recipe = stitchlang.read(TABS)
    recipe.ops[1].after[recipe.ops[3]] = recipe.ops[3].after[recipe.ops[1]] = "made"
    order, found = fewest_changes(recipe)

    assert [op.number for op in order] == [0, 2, 1, 3]
    assert found.proven


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_what_cannot_be_sewn_is_told_as_far_as_it_can_be_understood(path):
    """The same steps as without the flag, in another order perhaps."""
    recipe = stitchlang.read(path.read_text("utf-8"))
    sentences = sorted(step.sentence for step in stitchlang.steps(recipe))

    assert sorted(step.sentence for step in stitchlang.steps(recipe, fewest=True)) == sentences


@pytest.mark.parametrize("text", ["", "nonsense", HEAD, HEAD + "piece a of sail: 4 x 4\nhem a.top\njoin a to b\n"])
def test_next_to_nothing(text):
    """A recipe with no steps, or with none that can be understood, has no changes."""
    _, found = fewest_changes(stitchlang.read(text))

    assert (found.changes, found.proven) == (0, True)
