"""Sentences that a sewer would follow to the letter: they say what is to be done and nothing that misleads."""

import re
from pathlib import Path

import pytest

import stitchlang

FOLDER = Path(__file__).parent.parent / "examples"


def told(name):
    """All sentences of an example, by running number."""
    text = (FOLDER / f"{name}.stitch").read_text("utf-8")
    return [step.sentence for step in stitchlang.steps(stitchlang.read(text))]


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("cushion", "fold its top end in and then its bottom end"),  # turned, the one folded first lies outside
        ("cushion", "the top edge lies outside"),
        ("barrel", "Cut mouth from the roll, put its slider on"),  # no stops to keep clear of
        ("barrel", "through the open zip (mouth)"),
        ("barrel", "catching the flange of left_welt in the seam"),
        ("barrel", "Bind the seam allowances at both sides of tube, together,"),
        ("rolltop", "catching the top of each shoulder and the bottom of keeper"),
        ("rolltop", "Thread each shoulder through a slider (slide)"),
        ("rolltop", "turn its free end back 3 cm"),  # the other end lies in the seam
        ("messenger", "clipping the other edge where it goes round the corners"),  # rounded: nobody turns there
        ("pleated_tote", "one inverted pleat into the top of front_in, 1 in deep"),
        ("tool_roll", "wrong side in, bringing the top edge to the bottom"),
        ("tool_roll", "folding a mitre at each corner"),
        ("tool_roll", "Fold string in half, its bottom end to its top end"),
        ("sleeve", "the bottom corners cut off 4 cm x 4 cm"),
        ("needle_case", "its top cut to a point 5 cm deep in the middle"),
        ("peg_pouch", "corners at 0 in x 5 in, 6 in x 5 in"),
        ("jeans_sling", "Take off whole, as found: hip (15 cm x 16 cm)"),
    ],
)
def test_an_example_is_told_so(name, words):
    """Each of these read wrongly once."""
    assert any(words in sentence for sentence in told(name)), told(name)


@pytest.mark.parametrize("name", ["barrel", "peg_pouch"])
def test_coated_cloth_is_not_pressed_when_it_is_turned(name):
    """An iron melts it: neither a bag of tarpaulin nor one lined inside a flysheet is pressed."""
    turning = [sentence for sentence in told(name) if "right side out" in sentence and "Slip" not in sentence]

    assert turning
    assert not any("press" in sentence for sentence in turning)


@pytest.mark.parametrize(("name", "words"), [("ditty", "mitre"), ("rolltop", "turn each end"), ("barrel", "end stops")])
def test_and_never_so(name, words):
    """No mitre on a bound seam or a round edge, no second end where one is sewn in, no stops on a zip off the roll."""
    assert not any(words in sentence for sentence in told(name))


@pytest.mark.parametrize("size", ["8 mm", "11 mm", "9.6 mm"])
def test_no_length_stands_behind_an_article(size):
    """Eight and eleven want "an", and so does "about": `a 8 mm seam allowance`, `a about 3/8 in square`."""
    text = (
        f'units in\nallowance {size}\ncloth sail: "sailcloth"\npiece front, back of sail: 10 x 12\n'
        f"notch front, back at bottom corners by {size}\njoin front to back along sides, bottom as bag\nbox bag\n"
    )
    recipe = stitchlang.read(text)
    told = [step.sentence for unit in ("in", "mm") for step in stitchlang.steps(recipe, unit)]

    assert any("seam allowance of" in one for one in told)
    assert any("Cut a square of" in one for one in told)
    assert not [one for one in told if re.search(r"\ba (about|8|11)\b", one)]


def test_a_thing_is_called_by_what_it_is():
    """`front is this flat`: the kinds of the model are no words of a sewer."""
    text = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\npiece high, low of sail: 10 x 8\n'
    flat = text + "join high.bottom to low.top as front\nhem front.rim by 1/2\n"
    folded = text + "fold high in half, bottom to top as pouch\nhem pouch.rim by 1/2\n"

    for recipe, said in ((flat, "front is this flat assembly"), (folded, "pouch is this folded piece")):
        (told,) = [one for one in stitchlang.check(stitchlang.read(recipe)) if one.rule == "unknown-edge"]
        assert [one.says for one in told.beside] == [said]


def test_what_is_basted_to_nothing_known_is_no_step():
    """`Baste  to the top of front`."""
    text = (
        'units in\nallowance 1/2\ncloth sail: "sailcloth"\npiece front of sail: 10 x 8\nbaste tab.ends to front.top\n'
    )
    assert not [step.sentence for step in stitchlang.steps(stitchlang.read(text)) if "Baste" in step.sentence]
