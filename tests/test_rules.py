"""Tests made from the rules: each one's own examples are run."""

import pytest

import stitchlang
from stitchlang.rules.catalogue import FAMILIES, RULES
from stitchlang.show.findings import finding_text

rules = pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)


def findings(text):
    return stitchlang.check(stitchlang.read(text))


@rules
def test_the_tripping_example_trips_this_rule_and_no_other(rule):
    """A rule's example of the fault is one, and nothing else is wrong with it."""
    found = findings(rule.trips)

    assert {finding.rule for finding in found} == {rule.name}


@rules
def test_the_passing_example_passes_every_rule(rule):
    """The mended twin is clean under the whole rule book."""
    assert findings(rule.passes) == []


@rules
def test_a_finding_has_its_place_and_its_mend(rule):
    """Spans are not empty and lie in the text, here and at every other place; a mend is offered."""
    for finding in findings(rule.trips):
        spans = [finding.at, *(label.at for label in finding.beside)]

        assert all(0 <= span.start < span.end <= len(rule.trips) for span in spans)
        assert finding.mend
        assert finding.severity in ("fault", "doubt", "hint")


@rules
def test_the_printed_finding_shows_the_line_and_points_into_it(rule):
    """The excerpt is the recipe's own line, and the carets stand under the span."""
    recipe = stitchlang.read(rule.trips, "bag.stitch")
    finding = stitchlang.check(recipe)[0]
    line, column = recipe.source.place(finding.at.start)
    printed = finding_text(finding, recipe).splitlines()

    assert printed[0].startswith(f"bag.stitch:{line}:{column}: {finding.severity} {rule.name}: ")
    written = recipe.source.text.split("\n")[line - 1]
    if len(written) <= 110:
        assert printed[1].endswith("| " + written)
        assert printed[2].index("^") - printed[1].index("|") - 2 == column - 1


@rules
def test_the_examples_are_short(rule):
    """An example shows one thing: fifteen lines at most (one rule is about texts without end)."""
    if rule.name == "no-recipe-at-all":
        return
    assert rule.trips.count("\n") <= 15
    assert rule.passes.count("\n") <= 15


def test_an_offered_edit_mends_its_finding():
    """Every text edit that a finding offers, applied, makes that finding go, and brings no new rule."""
    tried = 0
    for rule in RULES:
        for finding in findings(rule.trips):
            text = rule.trips
            for edit in sorted(finding.edits, key=lambda edit: -edit.at.start):
                text = text[: edit.at.start] + edit.text + text[edit.at.end :]
            if finding.edits:
                tried += 1

                assert rule.name not in {one.rule for one in findings(text)}, text
    assert tried >= 3


def test_names_are_words_and_stand_once():
    """A rule is called by plain words joined by hyphens; no two share a name, and no name is a number."""
    names = [rule.name for rule in RULES]

    assert len(names) == len(set(names))
    assert all(name.replace("-", "").isalpha() and name.islower() for name in names)


def test_every_rule_says_why_and_how_to_mend():
    """Whole sentences, for the rule book."""
    for family in FAMILIES.values():
        for rule in family:
            assert rule.why.endswith("."), rule.name
            assert rule.mend.endswith("."), rule.name


def test_a_slip_that_no_rule_speaks_of_cannot_happen():
    """Every kind of slip that the meaning floor notes is read by some rule, or kept silent on purpose."""
    import re
    from pathlib import Path

    package = Path(stitchlang.__file__).parent
    noted = set()
    for path in [
        *package.glob("*.py"),
        *package.glob("declares/*.py"),
        *package.glob("verbs/*.py"),
        *package.glob("model/*.py"),
    ]:
        noted |= set(re.findall(r'(?:\.slip\(|Trouble\()\s*"([a-z-]+)"', path.read_text("utf-8")))
    spoken = "".join(path.read_text("utf-8") for path in package.glob("rules/*.py"))

    assert noted - {"broken-name"} == {kind for kind in noted if f'"{kind}"' in spoken}
