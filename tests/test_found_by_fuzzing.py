"""What the campaign of tests/bench/fuzz.py found, shortened: each text once raised, and is answered now."""

import pytest
from test_fuzz import survives

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
}


@pytest.mark.parametrize("name", FOUND)
def test_what_once_raised_is_answered(name):
    """Everything that can be asked of it is answered, and what is wrong with it is found."""
    lines, rule = FOUND[name]
    _, findings = survives(HEAD + lines)

    assert rule in {finding.rule for finding in findings}
    assert all(finding.at is not None for finding in findings)
