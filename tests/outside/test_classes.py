"""Stitch types and seam classes, against the standards that name them."""

import pytest

import stitchlang
from stitchlang.model.classes import classes
from stitchlang.rules.rule import OPENING

PAIR = OPENING + "binding tape: 1/2 wide, 9 m long\ncord draw: 5 mm across\npiece front, back of sail: 10 x 12\n"

# ISO 4916:1991: 1 superimposed, 2 lapped, 3 bound (translated summary, scribd document 746452830).
SEAMS = [
    ("", 1),
    (", lapped 1/2", 2),
    (", felled", 2),
    (", enclosed at 1/4 then 3/8", 1),
    (", bound with tape", 3),
]


def last(text):
    """The last statement that does something."""
    return stitchlang.read(text).ops[-1]


@pytest.mark.parametrize(("how", "seam"), SEAMS)
def test_a_seam_carries_its_class(how, seam):
    """Plies laid on one another are class 1, lapped ones class 2, bound ones class 3."""
    assert classes(last(PAIR + f"join front to back along sides, bottom{how} as bag\n")) == ("301", seam)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        # ISO 4915:1991: 301 is the lockstitch of a domestic machine (scribd document 49933681).
        ("hem front.top by 1/2", ("301", 6)),  # ISO 4916: 6 edge finishing, one ply
        ("bind front.top with tape", ("301", 3)),
        ("topstitch front.top at 1/8", ("301", None)),
        ("press front.top under by 1/4", (None, None)),
        ("notch front at bottom corners by 1", (None, None)),
    ],
)
def test_a_row_carries_its_class(line, expected):
    """Hems are class 6, binding class 3; topstitching is no seam, and what is not stitched has no class."""
    assert classes(last(PAIR + line + "\n")) == expected


def test_a_gap_closed_by_hand_is_a_hand_stitch():
    """ISO 4915 puts stitches made by hand into class 200."""
    text = PAIR + "join front to back along edges, leaving 4 open in top as mat\nturn mat through mat.top\n"

    assert classes(last(text + "close mat.top by hand\n"))[0] == "200"
    assert classes(last(text + "close mat.top\n"))[0] == "301"


def test_every_step_that_stitches_says_so():
    """The class travels with the step."""
    recipe = stitchlang.read(PAIR + "join front to back along sides, bottom as bag\nhem bag.rim by 1/2\n")

    assert [step.classes for step in stitchlang.steps(recipe)][-2:] == [
        "stitch 301, seam class 1",
        "stitch 301, seam class 6",
    ]
