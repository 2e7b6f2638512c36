"""The reference: every statement has its section, and every example is checked."""

import re

import pytest

import stitchlang
from stitchlang.reading.mistakes import FIRST_WORDS
from stitchlang.reading.table_maker import grammar_path
from stitchlang.rules.rule import OPENING

PAGE = (grammar_path().parent / "REFERENCE.md").read_text("utf-8")
SECTIONS = {
    match[1]: match[2] for match in re.finditer(r"^## (\w+)\n(.*?)(?=^#{1,2} |\Z)", PAGE, re.MULTILINE | re.DOTALL)
}


FILES = dict(re.findall(r"^The file `(.+?)`:\n\n```\n(.*?)```", PAGE, re.MULTILINE | re.DOTALL))


def opener(words, _):
    """Opens the files that the page shows."""
    return words, FILES[words]


def example(section):
    """The section's example as a whole recipe."""
    text = re.search(r"```\n(.*?)```", SECTIONS[section], re.DOTALL)[1]
    return text if "\nallowance " in text or text.startswith("units") else OPENING + text


def test_every_statement_has_a_section():
    """No statement of the grammar is missing from the reference, and none is invented."""
    assert sorted(SECTIONS) == FIRST_WORDS


@pytest.mark.parametrize("word", FIRST_WORDS)
def test_the_example_uses_its_statement_and_is_clean(word):
    """Nothing is found in a reference example; hints about unused stuff included."""
    recipe = stitchlang.read(example(word), opener=opener)

    assert word in {node.rule for node in recipe.reading.statements}
    assert [(finding.rule, finding.says) for finding in stitchlang.check(recipe)] == []


@pytest.mark.parametrize("word", FIRST_WORDS)
def test_the_example_gives_steps(word):
    """Each example can be told as steps: sentences that begin with a capital and end with a full stop."""
    for step in stitchlang.steps(stitchlang.read(example(word), opener=opener)):
        assert step.sentence[0].isupper()
        assert step.sentence.endswith(".")
