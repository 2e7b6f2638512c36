"""The examples are clean, laid out, told in the order written, and finish at the sizes worked out by hand.

No maker stands behind them: they are our own goods.  Each measure below was worked out on paper from the cut sizes,
the allowances and the hems before the recipe was checked; the sum stands beside it.
"""

from fractions import Fraction
from math import pi, sqrt
from pathlib import Path

import pytest

import stitchlang
from stitchlang.model.measures import measure
from stitchlang.reading.mistakes import FIRST_WORDS
from stitchlang.work.layout import laid_out

FOLDER = Path(__file__).parent.parent / "examples"
NAMES = sorted(path.stem for path in FOLDER.glob("*.stitch"))
# Exact by definition: the inch of 1959, and the centimetre.
UNIT = {"in": Fraction(254, 10), "cm": Fraction(10)}
# What a hand sum with pi or a root is written to.
NEAR = Fraction(1, 10000)


def size(whole, part="0"):
    """`size(10, "1/4")` is ten and a quarter."""
    return whole + Fraction(part)


# The patch pocket of the flat tote leans 1/2 in over its 8 in, 1 in 16: a row 1/2 in inside its slanted side lies
# 1/2 * sqrt(257) / 16 in inside it, measured across.
LEAN = sqrt(257) / 16
SUMS = {
    ("satchel", "bag wide at top"): size(10, "1/4"),  # 11 - 3/8 - 3/8
    ("satchel", "bag wide at base"): size(7, "3/4"),  # 11 - 2 * 1 1/4 - 2 * 3/8
    ("satchel", "bag tall"): size(10, "1/2"),  # 12 1/2 - 1 1/4 - 3/8 boxing - 3/8 rim
    ("satchel", "bag deep"): size(2, "1/2"),  # 2 * (1 1/4 + 3/8 - 3/8)
    ("satchel", "inner tall"): size(10, "1/2"),  # cut like the shell
    ("satchel", "pouch tall"): size(13, "1/2"),  # 14 - 1/4 - 1/4: hangs 6 3/4 when folded
    ("satchel", "back_pocket wide"): size(7, "1/4"),  # 8 - 2 * 3/8
    ("satchel", "back_pocket tall"): size(6, "1/4"),  # 7 - 2 * 3/8
    ("satchel", "sleeve wide"): size(10, "1/4"),  # 11 - 2 * 3/8
    ("satchel", "sleeve tall"): size(6, "1/8"),  # 13 / 2 - 3/8
    ("satchel", "tab wide"): size(1),  # 4 / 4
    ("satchel", "strap wide"): size(1),  # 4 / 4
    ("satchel", "strap long"): size(53),  # 30 + 30 - 4 for the diagonal join - 2 * 1 1/2 turned back
    ("flat_tote", "bag wide"): size(14),  # 15 - 2 * 1/2
    ("flat_tote", "bag tall"): size(15),  # 17 - 1/2 - (1/2 + 1) hem
    ("flat_tote", "pocket tall"): size(6),  # 8 - (1/2 + 1) hem - 1/2 under
    ("flat_tote", "pocket wide at top"): 8 - 2 * 1.5 / 16 - LEAN,  # 1 1/2 down the slant, then 1/2 off each side
    ("flat_tote", "pocket wide at base"): 8 - 2 * 7.5 / 16 - LEAN,  # 7 1/2 down the slant
    ("square_tote", "bag wide at top"): size(15),  # 10 + 5 + 1 = 16, less 2 * 1/2
    ("square_tote", "bag wide at base"): size(10),  # 16 - 2 * 2 1/2 - 2 * 1/2
    ("square_tote", "bag tall"): size(13),  # 13 + 2 1/2 + 1 = 16 1/2, less 2 1/2, 1/2 boxing and 1/2 rim
    ("square_tote", "bag deep"): size(5),  # 2 * (2 1/2 + 1/2 - 1/2)
    ("square_tote", "handle wide"): size(1),  # 4 / 4
    ("square_tote", "handle long"): size(23),  # 24 - 2 * 1/2
    ("square_tote", "tray wide"): size(9),  # 10 - 2 * 1/2
    ("square_tote", "tray tall"): size(6),  # 7 - 2 * 1/4 - 1/2
    ("pinched_tote", "bag wide at top"): size(15),  # 16 - 2 * 1/2
    ("pinched_tote", "bag wide at base"): size(10),  # 15 - 5
    ("pinched_tote", "bag tall"): size(13),  # 32 / 2 - 1/2 rim - 5 / 2
    ("pinched_tote", "bag deep"): size(5),  # the line across
    ("pinched_tote", "inner tall"): size(13),  # 16 1/2 - 1/2 - 1/2 - 5 / 2
    ("pinched_tote", "inner wide at top"): size(15),  # 2 * 8 - 2 * 1/2
    ("pinched_tote", "handle long"): size(23),  # 24 - 2 * 1/2
    ("bucket", "bucket tall"): size(10),  # 12 - 1/2 base - (1/2 + 1) hem
    ("bucket", "bucket across"): size(8),  # 9 - 2 * 1/2
    ("bucket", "bucket around"): 8 * pi,  # of which the wall, 26 1/8 - 2 * 1/2, lacks less than 1/100
    ("bucket", "tube around"): size(25, "1/8"),
    ("bucket", "patch wide"): size(6),  # 7 - 2 * 1/2
    ("bucket", "patch tall"): size(6),  # 7 - 2 * 1/4 - 1/2
    ("bucket", "loop wide"): size(1),  # 4 / 4
    ("bucket", "loop long"): size(4),  # 5 - 2 * 1/2
    ("zip_pouch", "outer wide"): size(8, "1/4"),  # 9 - 2 * 3/8
    ("zip_pouch", "outer tall"): size(5, "3/8"),  # 6 - 1/4 at the zip - 3/8
    ("zip_pouch", "inner tall"): size(5, "3/8"),
    ("lunch_sack", "sack wide at top"): size(30),  # 32 - 2 * 1
    ("lunch_sack", "sack wide at base"): size(18),  # 32 - 2 * 6 - 2 * 1
    ("lunch_sack", "sack tall"): size(19),  # 56 / 2 - 5 - 1 boxing - (1 + 2) hem
    ("lunch_sack", "sack deep"): size(12),  # 2 * (6 + 1 - 1) across; 2 * (5 + 1 - 0) up, on the fold
    ("lunch_sack", "loop wide"): size(3),  # (10 - 1) / 3
    ("lunch_sack", "loop long"): size(14),  # 16 - 2 * 1
}
examples = pytest.mark.parametrize("name", NAMES)


def text_of(name):
    return (FOLDER / f"{name}.stitch").read_text("utf-8")


def recipe_of(name):
    return stitchlang.read(text_of(name), f"{name}.stitch")


def measured(recipe, title):
    """A finished measure in the recipe's own unit."""
    thing, _, name = title.partition(" ")
    return measure(recipe.things[thing], name).mm / UNIT[recipe.unit]


@examples
def test_nothing_is_found_in_an_example(name):
    """A published recipe is clean: no fault, no doubt, no hint."""
    found = [(finding.rule, finding.says) for finding in stitchlang.check(recipe_of(name))]

    assert found == []


@examples
def test_an_example_is_laid_out_already(name):
    """Laying an example out changes no character of it."""
    assert laid_out(text_of(name)) == text_of(name)


@examples
def test_the_steps_come_in_the_written_order(name):
    """The order in which an example is written can be sewn, so its steps keep it."""
    starts = [step.at.start for step in stitchlang.steps(recipe_of(name)) if step.at is not None]

    assert len(starts) > 5
    assert starts == sorted(starts)


@examples
def test_every_step_stands_under_a_heading_of_the_recipe(name):
    """Steps are grouped by the parts that the writer headed, and every part has a step."""
    recipe = recipe_of(name)
    headings = [step.part for step in stitchlang.steps(recipe) if step.at is not None]

    assert list(dict.fromkeys(headings)) == [title for title, _ in recipe.parts]


@pytest.mark.parametrize(("name", "title"), SUMS, ids=["-".join(key) for key in SUMS])
def test_the_finished_measure_is_the_hand_sum(name, title):
    """What the checker works out is what paper and pencil give: exact, or near where pi or a root comes in."""
    by_hand = SUMS[name, title]
    gives = measured(recipe_of(name), title)

    if isinstance(by_hand, Fraction):
        assert gives == by_hand
    else:
        assert abs(gives - Fraction(by_hand)) < NEAR


@examples
def test_every_promised_size_is_in_the_table(name):
    """No size is promised on a cover that was not worked out by hand here."""
    promised = set()
    for claim in recipe_of(name).claims:
        titles = (f"{claim.thing.name} {claim.measure}", f"{claim.thing.name} {claim.measure} at top")
        promised.add(any((name, title) in SUMS for title in titles))

    assert promised == {True}


def test_cut_squares_and_pinched_corners_give_one_bag():
    """Two ways of boxing, one finished bag: the stand-up totes agree in all four sizes."""
    square, pinched = recipe_of("square_tote"), recipe_of("pinched_tote")
    sizes = ("bag wide at top", "bag wide at base", "bag tall", "bag deep")

    assert [measured(square, one) for one in sizes] == [measured(pinched, one) for one in sizes]


def test_every_statement_is_shown_in_some_example():
    """The examples between them use the whole language."""
    used = {node.rule for name in NAMES for node in recipe_of(name).reading.statements}

    assert used == set(FIRST_WORDS)
