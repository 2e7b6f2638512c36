"""Recipes damaged at random, and statements grown from the grammar: nothing raises, every place is in the text.

The number of tries is small by default; STITCH_FUZZ=50 multiplies it.
"""

import os
import re
import signal
from contextlib import contextmanager
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from hypothesis.extra.lark import from_lark
from lark import Lark
from lark.lexer import PatternStr

import stitchlang
from stitchlang.reading import table
from stitchlang.reading.table_maker import grammar_path, lark_reader
from stitchlang.rules.catalogue import RULES
from stitchlang.show.cutting import cutting_text
from stitchlang.show.cutting_data import cutting_csv, cutting_json
from stitchlang.show.findings import finding_text, sum_rows
from stitchlang.show.measures import measures_text
from stitchlang.show.steps import steps_text
from stitchlang.work.cutting import cutting_in_sizes
from stitchlang.work.layout import Refused, laid_out
from stitchlang.work.measure import measured_in_sizes

ROOT = Path(__file__).parent.parent
EXAMPLES = [path.read_text("utf-8") for path in sorted(ROOT.glob("examples/*.stitch"))]
SEEDS = EXAMPLES + [text for rule in RULES for text in (rule.trips, rule.passes)]
WORDS = sorted(table.WORDS)
MARKS = [
    ",",
    ":",
    ".",
    "(",
    ")",
    "+",
    "-",
    "*",
    "/",
    "x",
    "=",
    '"',
    "#",
    "\n",
    "\n ",
    "\t",
    "½",
    "1/0",
    "0",
    "-1",
    "1e9",
    "999999",
    "1/64",
    "\r\n",
    "\f",
    "\x1b[31m",
    "é",
    "\u202e",
    "\N{NO-BREAK SPACE}",
]
NUMBER = re.compile(r"\d+(?: \d+/\d+|/\d+|\.\d+)?")
WORD = re.compile(r"[^\W\d]\w*")


def tries(number):
    """Settings for so many tries, times STITCH_FUZZ."""
    return settings(
        max_examples=number * int(os.environ.get("STITCH_FUZZ", "1")),
        deadline=None,
        suppress_health_check=list(HealthCheck),
        phases=[phase for phase in Phase if phase is not Phase.explain],  # explaining a failure takes minutes here
    )


def span_is_in(span, text):
    """Whether a span is a run of at least one character of the text; an empty text has an empty one."""
    return 0 <= span.start < span.end <= len(text) or (not text and (span.start, span.end) == (0, 0))


@contextmanager
def within(seconds):
    """Raises TimeoutError in what takes longer: a hang is a failure like any other, and can be shrunk."""

    def ring(*_):
        raise TimeoutError

    before = signal.signal(signal.SIGALRM, ring)
    signal.alarm(seconds)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def survives(text):
    """All that can be asked of a text is answered, each answer in time; the recipe and its findings."""
    with within(10):
        return answers(text)


def answers(text):
    """Everything that can be asked of a text, asked; its findings and their places proved to be in it."""
    recipe = stitchlang.read(text, "bag.stitch")
    findings = stitchlang.check(recipe)
    for finding in findings:
        spans = [finding.at, *(one.at for one in finding.beside)]

        assert all(span_is_in(span, text) for span in spans), (finding, text)
        assert all(0 <= one.at.start <= one.at.end <= len(text) for one in finding.edits)  # an edit may put in only
        assert finding_text(finding, recipe).startswith("bag.stitch:")
        assert "\n" not in finding.says
    assert [one.at.start for one in findings] == sorted(one.at.start for one in findings)
    steps_text(recipe, stitchlang.steps(recipe, "both"))
    measures = stitchlang.measure(recipe)
    measures_text(recipe, list(measured_in_sizes(recipe)), "in")
    lists = cutting_in_sizes(recipe)
    for show in (cutting_text, cutting_csv, cutting_json):
        show(recipe, lists, "both")
    for one in measures:
        sum_rows(one.working, recipe)
    return recipe, findings


# -- damage ----------------------------------------------------------------


@st.composite
def cut_at(draw, text):
    """Two offsets in a text, near each other more often than not."""
    start = draw(st.integers(0, len(text)))
    return start, min(len(text), start + draw(st.integers(0, 12) | st.integers(0, len(text))))


def change_lines(draw, text):
    """Swap, double or drop a line, or run it into the one above."""
    lines = text.split("\n")
    one, other = (draw(st.integers(0, len(lines) - 1)) for _ in "ab")
    what = draw(st.sampled_from(("swap", "double", "drop", "run on", "move")))
    if what == "swap":
        lines[one], lines[other] = lines[other], lines[one]
    elif what == "double":
        lines.insert(other, lines[one])
    elif what == "move":
        lines.insert(other, lines.pop(one))
    elif what == "drop":
        del lines[one]
    else:
        lines[one] = " " + lines[one]
    return "\n".join(lines)


def change_match(pattern, new):
    """A damage that puts something drawn from `new(text)` in place of one match of a pattern."""

    def change(draw, text):
        places = [match.span() for match in pattern.finditer(text)]
        if not places:
            return text
        start, end = draw(st.sampled_from(places))
        return text[:start] + draw(new(text)) + text[end:]

    return change


def numbers(_):
    """Numbers that a sewer could have written by mistake."""
    return st.sampled_from(
        [
            "0",
            "-1",
            "1/0",
            "0.001",
            "1 1/2",
            "99",
            "100000",
            "12 cm",
            "1/3 mm",
            '3/8"',
            "½",
            "(1 - 1)",
            "1/7",
            "2 x 3",
            "1 1",
            "9" * 30,
        ]
    ) | st.integers(0, 40).map(str)


def words(text):
    """Another word of the same text, or one of the language."""
    return st.sampled_from(WORD.findall(text) or ["a"]) | st.sampled_from(WORDS)


def drop_span(draw, text):
    """Take a run of characters out."""
    start, end = draw(cut_at(text))
    return text[:start] + text[end:]


def put_in(draw, text):
    """Put words, marks or random characters in."""
    at = draw(st.integers(0, len(text)))
    new = draw(st.sampled_from(MARKS) | words(text).map(" {} ".format) | st.text(max_size=5))
    return text[:at] + new + text[at:]


def another_line(draw, text):
    """Put in a line of some other recipe."""
    lines = text.split("\n")
    lines.insert(draw(st.integers(0, len(lines))), draw(st.sampled_from(draw(st.sampled_from(SEEDS)).split("\n"))))
    return "\n".join(lines)


DAMAGES = (change_lines, change_match(NUMBER, numbers), change_match(WORD, words), drop_span, put_in, another_line)


@st.composite
def damaged(draw, seeds=SEEDS, damages=DAMAGES, most=5):
    """A recipe of ours with one to five things done to it."""
    text = draw(st.sampled_from(seeds))
    for damage in draw(st.lists(st.sampled_from(damages), min_size=1, max_size=most)):
        text = damage(draw, text)
    return text


# -- growth ----------------------------------------------------------------

PRELUDE = """units in
allowance 1/2
cloth sail: "sailcloth", 44 wide
zip mouth: coil, 8 long, tape 1 wide
snap clasp: magnetic, 3/4 across
ring dee: 1 inside, 2 of
slider slide: 1 inside
let deep = 2
piece front, back of sail: 10 x 12, cut 2
piece disc of sail: circle 6 across
piece strap of sail: 40 x 4
piece wedge of sail: 12 at top, 9 at bottom, 10 tall
piece soft of sail: 11 x 8, bottom corners rounded 2
piece flat_a, flat_b of sail: 10 x 10
join flat_a.top to flat_b.bottom as flat
piece shell_a, shell_b of sail: 10 x 10
join shell_a to shell_b along sides, bottom as shell
fold soft in half as pouch
"""
NAMES = [
    "front",
    "back",
    "disc",
    "strap",
    "wedge",
    "soft",
    "flat",
    "shell",
    "pouch",
    "mouth",
    "clasp",
    "dee",
    "slide",
    "flat_a",
    "shell_a",
    "deep",
    "sail",
    "top",
    "bottom",
    "left",
    "right",
    "sides",
    "edges",
    "rim",
    "ends",
    "base",
    "upper",
    "lower",
    "side",
    "boxing",
    "new",
    "fresh",
]


@cache
def grown(known_names):
    """Statements grown from the grammar file; with known names, words apart and plain lengths."""
    if not known_names:
        return from_lark(lark_reader(), start="statement")
    flat = grammar_path().read_text("utf-8").replace("?length:    sum", "?length:    LENGTH | NUMBER | NAME | negative")
    reader = Lark(flat, parser="lalr", start=["recipe_file", "statement"])
    own = {
        "NAME": st.sampled_from(NAMES).map("{} ".format),
        "NUMBER": st.sampled_from(["1", "2", "3/8 ", "10", "12", "1/4 ", "0", "5 1/2 "]).map("{} ".format),
        "LENGTH": st.sampled_from(["1 in", '2"', "30 mm", "4 cm"]).map("{} ".format),
        "STRING": st.sampled_from(['"so"', '""', '"\x1b"']),
        "SIDES_TOGETHER": st.sampled_from(["right sides together", "wrong sides together"]),
        "SIDE_SEAMS": st.just("side seams"),
        "MASS": st.just("350 g/m2"),
        "_BY": st.just(" x "),
        "WHITE": st.just(" "),
        "COMMENT": st.just(" "),
    }
    fixed = {
        one.name: st.just(f" {one.pattern.value} ") for one in reader.terminals if isinstance(one.pattern, PatternStr)
    }
    return from_lark(reader, start="statement", explicit=fixed | own)


# -- what is proved --------------------------------------------------------


@tries(300)
@given(damaged())
def test_no_damage_to_a_recipe_makes_anything_raise(text):
    """However a recipe is damaged, all that can be asked of it ends, and each place is in the text."""
    survives(text)


@tries(100)
@given(damaged(seeds=EXAMPLES, damages=(change_lines, change_match(WORD, words), change_match(NUMBER, numbers))))
def test_no_change_of_order_names_or_numbers_makes_anything_raise(text):
    """The same on whole bags whose lines, names and numbers are changed: those reach the rules behind the reading."""
    survives(text)


@tries(150)
@given(damaged())
def test_reading_a_text_twice_says_the_same(text):
    """Nothing depends on chance or on what was read before."""
    first, second = (stitchlang.check(stitchlang.read(text)) for _ in "ab")

    assert [(one.rule, one.at, one.says, one.mend) for one in first] == [
        (one.rule, one.at, one.says, one.mend) for one in second
    ]


@tries(150)
@given(damaged())
def test_layout_refuses_or_settles_a_damaged_recipe(text):
    """The layout either refuses a text or gives one that it would not change again."""
    try:
        once = laid_out(text)
    except Refused:
        return

    assert laid_out(once) == once


@tries(50)
@given(st.data())
def test_statements_grown_from_the_grammar_never_raise(data):
    """Any run of statements that the grammar allows, with names out of nowhere, is checked and never raises."""
    survives("\n".join(data.draw(st.lists(grown(False), max_size=4))))


@tries(150)
@given(st.data())
def test_statements_about_known_things_never_raise(data):
    """The same behind a recipe whose names they use, so that every verb meets every kind of thing."""
    lines = [line.strip() for line in data.draw(st.lists(grown(True), min_size=1, max_size=5))]
    _, findings = survives(PRELUDE + "\n".join(lines) + "\n")

    assert isinstance(findings, list)


@tries(100)
@given(st.text(max_size=300) | st.text(alphabet='abx1/ "#\n\t.,:()-½', max_size=300))
def test_any_text_at_all_is_read(text):
    """Random characters, and random characters of the language's own marks, are read without raising."""
    recipe, findings = survives(text)

    assert findings or recipe.reading.statements


RINGS = """slip shell into shell, right sides together; place front on front, centred; place front on back|place
back on front; fold front in half as front; join front.top to front.bottom as front; join shell.rim to shell.rim
as new; place shell on shell; cap mouth ends with mouth; baste front to front; join wedge to wedge along sides;
set clasp on front and front; thread strap through strap; join flat to flat along sides as flat; fold pouch in
half as pouch; place flat_a on flat; place flat on flat_a; slip shell into pouch|slip pouch into shell; fold
front in half as one|place one on front; divide front into 3|place front on front; turn shell through
shell.bottom|turn shell; fold disc in half; fold disc in quarters; box pouch|box pouch; place disc on
wedge|place wedge on disc; join strap.left to strap.right as loop|join loop.top to loop.bottom as ball|turn
ball|turn ball; close front, front; baste front, front to back, back; hem front, front by 1"""


@pytest.mark.parametrize("lines", " ".join(RINGS.split()).split("; "))
def test_a_thing_worked_on_with_itself_or_in_a_ring_is_answered_in_time(lines):
    """What is placed on, slipped into or joined to itself, at once or by another, is a fault found there."""
    _, findings = survives(PRELUDE + lines.replace("|", "\n") + "\n")

    assert any(one.severity == "fault" and one.at.start >= len(PRELUDE) for one in findings)
