"""What the rules say, word for word, and every figure that the model gives, as recorded and looked through.

In `recorded/`: `said.txt` has what is found in each rule's example of its fault, in each broken twin and in the recipes
of `faulty/`; `missed.txt` what is found in each rule's two examples when one of their statements is left out;
`steps.txt` the steps of each example, of each rule's mended example and of the recipes of `shapes/`; `figures.txt` the
edges, outlines, measures, layers and cloth of each example and of the recipes of `shapes/`.

That the figures are right is shown elsewhere: by sums worked out by hand (test_examples.py, test_boundaries.py), by
Shapely, by published sizes.  Here it is shown that none has moved, and that every word is the one that was read.
After a change that is meant, `python tests/test_recorded.py` writes them anew; the difference is to be read.
"""

import re
from pathlib import Path

import pytest
from recording import figures, missed, said, steps

from stitchlang.rules.catalogue import RULES

HERE = Path(__file__).parent
TOO_LONG = {"no-recipe-at-all"}  # what it says is told by the length of the text alone


def texts(*places):
    """Recipes by what they are called, from files."""
    return {path.stem: path.read_text("utf-8") for place in places for path in sorted(HERE.glob(place))}


FAULTY = {rule.name: rule.trips for rule in RULES if rule.name not in TOO_LONG}
FAULTY |= texts("broken/*.stitch", "recorded/faulty/*.stitch")
SOUND = texts("../examples/*.stitch", "recorded/shapes/*.stitch")


def examples():
    """Each rule's two examples by its name and theirs; a text that an earlier rule has is left out."""
    seen = set()
    for rule in RULES:
        for name in ("trips", "passes") if rule.name not in TOO_LONG else ():
            text = getattr(rule, name)
            if text not in seen:
                seen.add(text)
                yield f"{rule.name} {name}", text


EXAMPLES = dict(examples())


def read(name):
    """What was recorded: lines by what the recipe is called."""
    parts = re.split(r"^== (.+)\n", (HERE / "recorded" / f"{name}.txt").read_text("utf-8"), flags=re.MULTILINE)
    return {title: lines.splitlines() for title, lines in zip(parts[1::2], parts[2::2], strict=True)}


SAID, MISSED, FIGURES, STEPS = read("said"), read("missed"), read("figures"), read("steps")
SEWN = SOUND | {name: text for name, text in EXAMPLES.items() if name.endswith("passes")}


@pytest.mark.parametrize("name", FAULTY)
def test_what_is_said_is_what_was_read(name):
    """Places, words, sums, mends and edits of every finding."""
    assert list(said(FAULTY[name])) == SAID[name]


@pytest.mark.parametrize("name", EXAMPLES)
def test_what_is_missed_is_what_was_read(name):
    """A statement less is another fault, or none."""
    assert list(missed(EXAMPLES[name])) == MISSED[name]


@pytest.mark.parametrize("name", SOUND)
def test_no_figure_has_moved(name):
    """Edges cut and stitched, outlines, measures with their sums, layers, cloth."""
    assert list(figures(SOUND[name])) == FIGURES[name]


@pytest.mark.parametrize("name", SEWN)
def test_every_step_is_told_as_it_was_read(name):
    """Sentences, headings and cautions."""
    assert list(steps(SEWN[name])) == STEPS[name]


def test_nothing_is_recorded_of_what_is_gone():
    """Each record has its recipe."""
    recorded = (set(SAID), set(MISSED), set(FIGURES), set(STEPS))
    assert recorded == (set(FAULTY), set(EXAMPLES), set(SOUND), set(SEWN))


def write(name, recorded):
    """Record anew."""
    parts = [f"== {title}\n" + "".join(f"{line}\n" for line in lines) for title, lines in recorded.items()]
    (HERE / "recorded" / f"{name}.txt").write_text("".join(parts), "utf-8")


if __name__ == "__main__":
    write("said", {name: said(text) for name, text in FAULTY.items()})
    write("missed", {name: missed(text) for name, text in EXAMPLES.items()})
    write("figures", {name: figures(text) for name, text in SOUND.items()})
    write("steps", {name: steps(text) for name, text in SEWN.items()})
