"""The broken twins: copies of the examples, each with one slip, and each caught by the one rule that speaks of it.

A twin is called `<example>--<rule>.stitch`.  Its first line says what was broken and, as worked out by hand, by how
much it is off.
"""

import re
from pathlib import Path

import pytest

import stitchlang

HERE = Path(__file__).parent
TWINS = sorted((HERE / "broken").glob("*.stitch"))
EXAMPLES = sorted((HERE.parent / "examples").glob("*.stitch"))
twins = pytest.mark.parametrize("path", TWINS, ids=lambda path: path.stem)


def text_of(path):
    return path.read_text("utf-8")


def rule_of(path):
    """The rule that a twin's file name promises."""
    return path.stem.split("--")[1]


def findings(text):
    return stitchlang.check(stitchlang.read(text))


def said_alone(length):
    """A pattern for a length that is not the end of a longer one: `1/2 in`, but not the tail of `10 1/2 in`."""
    return rf"(?<![\d/])(?<!\d ){re.escape(length)}\b"


@twins
def test_a_twin_is_caught_by_its_rule_and_no_other(path):
    """One slip, one rule: nothing else is blamed for it."""
    assert {finding.rule for finding in findings(text_of(path))} == {rule_of(path)}


@twins
def test_a_finding_points_into_the_text_and_offers_a_mend(path):
    """The characters blamed are there, and something can be done about them."""
    text = text_of(path)
    for finding in findings(text):
        assert 0 <= finding.at.start < finding.at.end <= len(text)
        assert finding.mend.strip()


@twins
def test_a_twin_says_in_its_first_line_what_is_broken(path):
    """The first line is a comment, one sentence."""
    first = text_of(path).splitlines()[0]

    assert re.fullmatch(r"# Broken: .+\.", first)


@pytest.mark.parametrize("path", [path for path in TWINS if "off by" in text_of(path)], ids=lambda path: path.stem)
def test_the_amount_worked_out_by_hand_is_in_the_sentence(path):
    """What is wrong is said with the number that paper and pencil give."""
    off = re.search(r"off by (.+)\.$", text_of(path).splitlines()[0])[1]
    sentences = [finding.says for finding in findings(text_of(path))]

    assert any(re.search(said_alone(off), sentence) for sentence in sentences), sentences


@twins
def test_an_offered_edit_mends_its_finding(path):
    """Where a finding offers to change the text, the changed text no longer has it."""
    text = text_of(path)
    for finding in findings(text):
        mended = text
        for edit in sorted(finding.edits, key=lambda edit: -edit.at.start):
            mended = mended[: edit.at.start] + edit.text + mended[edit.at.end :]
        if finding.edits:
            assert finding.says not in [one.says for one in findings(mended)]


@twins
def test_a_twin_differs_from_its_example_in_one_place(path):
    """A twin is its example with a few lines changed, moved or taken out, and the first line added."""
    example = text_of(HERE.parent / "examples" / f"{path.stem.split('--')[0]}.stitch").splitlines()
    twin = text_of(path).splitlines()[1:]
    lost = [line for line in example if line not in twin]
    new = [line for line in twin if line not in example]

    assert len(lost) <= 3
    assert len(new) <= 3
    assert twin != example


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_has_two_twins_or_more(example):
    """Each example is broken in at least two ways, by two different rules."""
    rules = {rule_of(path) for path in TWINS if path.stem.split("--")[0] == example.stem}

    assert len(rules) >= 2
