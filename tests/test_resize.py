"""Finished sizes asked for: against published cut sizes, every other possible change, and themselves."""

from fractions import Fraction
from itertools import combinations, product
from pathlib import Path

import pytest

import stitchlang
from stitchlang import cli
from stitchlang.ground.lengths import MM
from stitchlang.model.measures import measure
from stitchlang.work.check import check
from stitchlang.work.mend import edited
from stitchlang.work.resizing.asked import Misunderstood, step_of, wishes_of
from stitchlang.work.resizing.resize import Target, Wish, resize

ROOT = Path(__file__).parent.parent
INCH = MM["in"]
HEAD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\n'
FOLDED = HEAD + (
    "piece body of sail: 20 x 24\nfold body in half, bottom to top\njoin body along left, right as bag\n"
    "box bag pinched 3 across\nhem bag.rim by 1/2\nfinished bag: 3 deep\n"
)
PAIR = HEAD + (
    "piece front of sail: 10 x 12\npiece back of sail: 10 x 12\njoin front to back along sides, bottom as bag\n"
    "hem bag.rim by 1/2\nfinished bag: 9 wide, 11 tall\n"
)
BOXED = HEAD + (
    "piece front, back of sail: 12 x 14\nnotch front, back at bottom corners by 2\n"
    "join front to back along sides, bottom as bag\nbox bag\nhem bag.rim by 1 1/2\n"
    "finished bag: 11 wide at top, 7 wide at base, 10 tall, 4 deep\n"
)


def asked(text, wanted, step=None, name=None):
    """(what came of it, the new text) of a wish in words."""
    recipe = stitchlang.read(text)
    step = step_of(step, recipe) if step is not None else None
    resized = resize(recipe, wishes_of(wanted, name, recipe), step)
    return resized, edited(text, resized.edits)


def moves(resized):
    """What each number that moved was and is: a dict of words to inches."""
    return {move.number.says: move.value for move in resized.moves}


def test_published_cut_size_of_a_boxed_tote():
    """ktgreendesign.com/lets-calculate: 12 1/2 high, 13 wide, 4 deep at 1/2 is cut 2 x 13 + 2 x 4 + 1 = 35 round and
    12 1/2 + 4 / 2 + 1 = 15 1/2 high: of two panels each 35 / 2 + 1/2 (its second seam) = 18 wide, less what the page
    counts once for the one seam; here the panel is 13 + 4 + 1 wide and 15 1/2 high, the top hemmed by 1/2."""
    text = BOXED.replace("by 1 1/2", "by 1/2").replace("10 tall", "11 tall")
    resized, _ = asked(text, "13 wide at base, 12 1/2 tall, 4 deep")

    assert moves(resized) == {"front, back wide": 18, "front, back tall": Fraction(31, 2)}


@pytest.mark.parametrize("page", ["lazygirldesigns.com/pdf-files/tutorial-box-the-bottom-corners-of-a-bag"])
def test_published_flat_bag_with_two_inch_squares(page):
    """The page named: 19 by 16 sewn flat with 2 in squares comes to 15 wide, 14 tall, 4 deep: cut 20 by 16 + 2."""
    resized, _ = asked(BOXED, "15 wide at base, 14 tall, 4 deep")

    assert page
    assert moves(resized) == {"front, back wide": 20, "front, back tall": 18}  # 14 + 2 + 1/2 + 1 1/2 of hem


def test_what_is_joined_follows():
    """Two panels written apart both move, and the second says that it is sewn to the first."""
    resized, text = asked(PAIR, "10 wide")

    assert moves(resized) == {"front wide": 11, "back wide": 11}
    assert {move.why for move in resized.moves} == {"bag 10 in wide", "back.bottom is sewn to front.bottom"}
    assert stitchlang.check(stitchlang.read(text)) == []


def test_only_numbers_change():
    """Comments, layout and every word stay: with the digits taken out both texts are one."""
    text = (ROOT / "examples" / "satchel.stitch").read_text("utf-8")
    _, new = asked(text, "12 wide at top, 4 deep")

    def bare(one):
        return [" ".join(word for word in line.split() if not word[0].isdigit()) for line in one.splitlines()]

    assert bare(text) == bare(new)
    assert text != new


def test_a_half_counts_twice():
    """Folded in half, a bag 1 in taller needs 2 in more: (24 / 2 + 1) x 2 = 26."""
    resized, _ = asked(FOLDED, "11 tall")  # 12 - 1/2 - 3/2 = 10 before

    assert moves(resized) == {"body tall": 26}


def brute_force(text, wishes, step):
    """The fewest numbers, moved by so many steps each, that give the wishes and keep all relations: by trying all."""
    recipe = stitchlang.read(text)
    target = Target(recipe, wishes)
    rows = [row for row in target.rows(wishes) if not row.soft]
    count = len(target.numbers)
    for size in range(count + 1):
        best = None
        for some in combinations(range(count), size):
            for amounts in product([n * step for n in range(-8, 9) if n], repeat=size):
                changes = dict(zip(some, amounts, strict=True))
                if all(holds(row, changes) for row in rows):
                    cost = sum(map(abs, amounts))
                    best = cost if best is None else min(best, cost)
        if best is not None:
            return size, best
    return None


def holds(row, changes):
    total = sum(factor * changes.get(at, 0) for at, factor in row.coefficients.items())
    return (row.low is None or total >= row.low) and (row.high is None or total <= row.high)


@pytest.mark.parametrize(
    ("text", "wished"),
    [
        (PAIR, {"wide": 10}),
        (PAIR, {"wide": 8, "tall": 12}),
        (FOLDED, {"tall": 11}),
        (BOXED, {"wide at base": 8, "deep": 3}),
        (BOXED, {"tall": 11, "deep": 5}),
    ],
)
def test_the_optimum_against_brute_force(text, wished):
    """As few numbers as any change of whole half inches needs, and by as little in sum."""
    recipe = stitchlang.read(text)
    wishes = [Wish("bag", name, size * INCH, f"{size} in {name}") for name, size in wished.items()]
    resized = resize(recipe, wishes, INCH / 2)
    cost = sum(abs(move.value - move.number.value) * INCH for move in resized.moves)
    soft = resized.given_up

    found = brute_force(text, wishes, INCH / 2)
    if not soft:  # a promise kept may cost a cut more than the bare optimum
        assert (len(resized.moves), cost) >= found
    assert len(resized.moves) <= found[0] + len(recipe.claims)
    again = stitchlang.read(edited(text, resized.edits))
    for wish in wishes:
        assert measure(again.things["bag"], wish.measure).mm == wish.mm


def test_wishes_that_cannot_be_had_together():
    """Plain geometry: top less base is the depth, so 11, 8 and 4 contradict, and no two of them do."""
    resized, _ = asked(BOXED, "11 wide at top, 8 wide at base, 4 deep, 12 tall")

    assert set(resized.conflict) == {"11 in wide at top", "8 in wide at base", "4 in deep"}


def test_a_wish_alone_that_cannot_be():
    """Nothing in a recipe can make a bag 0.1 mm wide: its seams alone take an inch."""
    resized, _ = asked(
        PAIR.replace("10 x 12", "zz x 12").replace("piece front", "let zz = 5 + 5\npiece front"), "8 wide"
    )

    assert resized.conflict == ("8 in wide",)


TRIMMED = HEAD + (
    "piece front, back of sail: 12 x 14\ntrim front.bottom, back.bottom to {} tall\n"
    "{}join front to back along sides, bottom as bag\n{}hem bag.rim by 1/2\n"
)
NOTCHED = ("notch front, back at bottom corners by 2\n", "box bag\n")


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        (TRIMMED.format("13", *NOTCHED), "12 tall"),
        (TRIMMED.format("13", "trim front.bottom, back.bottom to 12 tall\n", ""), "13 tall"),
    ],
    ids=["notched", "trimmed twice"],
)
def test_a_trim_never_comes_to_add_cloth(text, wanted):
    """A bag taller than its pieces: they grow with what they are trimmed to, whatever else is done at the edge."""
    resized, new = asked(text, wanted)

    assert resized.moves
    assert not [one.says for one in check(stitchlang.read(new)) if one.severity == "fault"]


SUMS = HEAD + "piece flag of sail: 5 + 5 x 6 + 6\nhem flag edges by 1/2\n"


@pytest.mark.parametrize(("wanted", "conflict"), [("9 wide", ()), ("12 wide", ("12 in wide",))])
def test_a_recipe_without_a_plain_number_has_nothing_to_move(wanted, conflict):
    """Cuts that are sums all through stay: 5 + 5 less a hem of 1/2 on both sides is 9 wide, and never 12."""
    resized, new = asked(SUMS, wanted, name="flag")

    assert (resized.moves, resized.conflict, new) == ((), conflict, SUMS)


def test_new_cuts_lie_on_the_marks_asked_for():
    """9 across needs a wall of 9 pi + 1 = 29.274: on quarters 29 1/4, whose seam still meets within 1/16."""
    text = (ROOT / "examples" / "bucket.stitch").read_text("utf-8")
    resized, new = asked(text, "9 across", "1/4")

    assert moves(resized)["wall wide"] == Fraction(117, 4)
    assert all(move.value % Fraction(1, 4) == 0 for move in resized.moves)
    assert [one.rule for one in stitchlang.check(stitchlang.read(new)) if one.severity == "fault"] == []


def test_what_is_so_already_moves_nothing():
    """Asking for the present size is answered by no change at all."""
    resized, new = asked(PAIR, "9 wide, 11 tall")

    assert (resized.moves, new) == ((), PAIR)


@pytest.mark.parametrize(
    "wanted", ["wide", "12", "12 wide at middle", "12 across", "12 x 3", "", "12 wide\npiece a", "-1 wide"]
)
def test_what_makes_no_sense_is_said(wanted):
    """Words that are no finished sizes, or none that the bag has, are refused with what it has."""
    with pytest.raises(Misunderstood):
        wishes_of(wanted, None, stitchlang.read(PAIR))


def test_the_command_writes_whole_or_not_at_all(tmp_path, capsys):
    """`-o` writes the new recipe; a faulty recipe, an unknown name and a conflict write nothing."""
    path, out = tmp_path / "bag.stitch", tmp_path / "new.stitch"
    path.write_text(PAIR, "utf-8")

    assert cli.main(["resize", str(path), "--to", "10 wide", "-o", str(out)]) == 0
    assert "finished bag: 10 wide, 11 tall" in out.read_text("utf-8")
    capsys.readouterr()
    out.unlink()
    assert cli.main(["resize", str(path), "--to", "10 wide", "--of", "sack", "-o", str(out)]) == 2
    assert "nothing is called `sack`" in capsys.readouterr().err
    path.write_text(PAIR.replace("back of sail: 10", "back of sail: 11"), "utf-8")
    assert cli.main(["resize", str(path), "--to", "10 wide", "-o", str(out)]) == 2
    assert not out.exists()
