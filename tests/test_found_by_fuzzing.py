"""What the campaign of tests/bench/fuzz.py found, shortened: each text once raised, and is answered now."""

import pytest
from test_fuzz import survives

from stitchlang.show.compare_words import in_one

HEAD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\n'
FOUND = {
    # The finding about the second row had no place, since a row of nothing has none.
    "a row of nothing": (
        "piece front, back of sail: 10 x 12\n"
        "join front to back along sides, bottom, enclosed at 1/4 then 0/1 as bag\n"
        "hem bag.rim by 1/2\n",
        "length-below-nothing",
    ),
    # The cutting list asked how long a seam is along a side whose every edge was sewn already.
    "a side without edges": (
        "zip mouth: metal, 8 long, tape 1 1/4 wide\n"
        "piece high of awning: 11 x 3 1/2\n"
        "piece pouch of cotton: 11 x 14\n"
        "piece back of awning: 11 x 12 1/2\n"
        "join mouth.lower to pouch.top at 1/4\n"
        "join high.bottom to mouth.upper to pouch.bottom at 1/4 as front\n"
        "join front to back along sides, bottom as outer\n",
        "unknown-name",
    ),
    # A mend was sought for a statement that reads well once it stands on one line.
    "a unit on the next line": ("piece flag of sail: 10 x 12 # to be hemmed\n  in\n", "unknown-unit"),
    # Two words that are one were looked for where there is one word.
    "a lone verb in great letters": ("piece flag of sail: 10 x 12\nPiece\n", "unknown-verb"),
}


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        ("Sew bag to strap.", "Sew bag2 to strap.", None),
        ("Sew bag2 to strap, 1/2 in.", "Sew bag2 to strap, 1 in.", "Sew bag2 to strap, 1/2 in -> 1 in."),
    ],
)
def test_a_digit_of_a_name_is_no_number(before, after, told):
    """Two sentences are told as one where they differ in numbers only; a name's digit once broke that."""
    assert in_one(before, after, "->") == told


@pytest.mark.parametrize("name", FOUND)
def test_what_once_raised_is_answered(name):
    """Everything that can be asked of it is answered, and what is wrong with it is found."""
    lines, rule = FOUND[name]
    _, findings = survives(HEAD + lines)

    assert rule in {finding.rule for finding in findings}
    assert all(finding.at is not None for finding in findings)
