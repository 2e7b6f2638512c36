"""Small slips that tests/bench/mutants.py made and no quick test saw: each is seen here."""

import pytest

import stitchlang
from stitchlang.ground.nearest import distance, meant, nearest
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


def test_eight_names_are_shown_where_none_is_near():
    """The first eight in the order given, each once."""
    known = [*"abcdefgh", "a", "i"]

    assert meant("wadding", known) == "there is " + ", ".join(f"`{name}`" for name in "abcdefgh")
    assert meant("wadding", []) == ""


@pytest.mark.parametrize(
    ("word", "known", "near"),
    [
        ("fron", ["front"], ["front"]),  # one letter of four: a third of four, rounded down, is one
        ("fr", ["fro"], []),  # two letters are too few for a guess
        ("fr", ["fr"], ["fr"]),  # but it may be written so
        ("fro", ["fr"], ["fr"]),  # three are enough for one
        ("tsrapz", ["straps"], ["straps"]),  # a swap and a change, and a third of six is two
        ("a" * 40, ["a" * 39], ["a" * 39]),  # forty letters are looked at
        ("a" * 41, ["a" * 41], []),  # forty-one are not
        ("pat", ["pan", "pad", "pal", "par"], ["pan", "pad", "pal"]),  # three at most, in the order given
    ],
)
def test_how_near_a_name_must_be(word, known, near):
    """Counted by hand."""
    assert nearest(word, known) == near


@pytest.mark.parametrize(
    ("one", "other", "limit", "letters"),
    [
        ("tab", "tba", 3, 1),  # two letters swapped
        ("bat", "tab", 3, 2),  # two letters changed
        ("ba", "ab", 3, 1),  # swapped at the very beginning
        ("strap", "trap", 3, 1),
        ("trap", "strap", 3, 1),
        ("pocket", "packet", 3, 1),
        ("a", "abcde", 3, 4),  # too long by four: more than the limit is told as one more
        ("a", "abcd", 3, 3),
    ],
)
def test_how_many_letters_lie_between_two_words(one, other, limit, letters):
    """Counted by hand."""
    assert distance(one, other, limit) == letters
