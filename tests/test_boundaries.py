"""Where each rule begins to speak, to the sixty-fourth of an inch (to one, where things are counted).

`boundaries.txt` has for each rule the numbers of its two examples on which it hangs, and for each the last value that
is fine and the first that is found, worked out on paper: the sum stands above them.  What other rules find at the two
values stands behind them in parentheses.  The thresholds are the rules' own, with their sources told where they are.
"""

import re
from pathlib import Path

import pytest

import stitchlang
from stitchlang.rules.catalogue import BY_NAME

LINE = re.compile(r"  (trips|passes): (.*) \| ([\d /]+?)(?: \((.*)\))? \| ([\d /]+?)(?: \((.*)\))?")
TEXT = (Path(__file__).parent / "boundaries.txt").read_text("utf-8")
FOUND = {name: lines.splitlines() for name, lines in re.findall(r"^([a-z-]+)\n((?:[ #].*\n)+)", TEXT, re.MULTILINE)}
ROWS = [(name, line) for name, lines in FOUND.items() for line in lines if line.startswith("  ")]


def names(text):
    """The rules that find something."""
    return {finding.rule for finding in stitchlang.check(stitchlang.read(text))}


def with_number(text, statement, number):
    """A recipe with another number in a statement, `{}` in its writing here."""
    before, after = (re.escape(part) for part in statement.split("{}"))
    changed, times = re.subn(rf"^({before})[\d./ ]*\d({after})$", rf"\g<1>{number}\g<2>", text, flags=re.MULTILINE)
    assert times == 1, statement
    return changed


@pytest.mark.parametrize(("name", "line"), ROWS, ids=[f"{name}-{at}" for at, (name, _) in enumerate(ROWS)])
def test_a_rule_begins_where_the_sum_says(name, line):
    """Just within, the rule is silent; just beyond, it speaks."""
    example, statement, fine, beside_fine, bad, beside_bad = LINE.fullmatch(line).groups()
    text = getattr(BY_NAME[name], example)

    assert names(with_number(text, statement, fine)) == set((beside_fine or "").split(", ")) - {""}
    assert names(with_number(text, statement, bad)) == {name, *(beside_bad or "").split(", ")} - {""}


def test_every_line_is_read():
    """None is lost for a slip in its writing, and each rule's sum is told."""
    assert len(ROWS) == sum(line.startswith("  ") for line in TEXT.splitlines())
    assert [name for name, lines in FOUND.items() if not any(line.startswith("#") for line in lines)] == []
