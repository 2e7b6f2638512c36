"""What a beginner types, and what is said of it: the rule that speaks, and the line that was meant.

The mistakes and the mends were written down by hand; every mended line is one that the reference allows.
"""

import time

import pytest

import stitchlang

HEAD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\n'
MISTAKES = [
    # marks
    ("piece front of sail 10 x 12", "missing-mark", "piece front of sail: 10 x 12"),
    ("piece front of sail, 10 x 12", "wrong-mark", "piece front of sail: 10 x 12"),
    ("piece front of sail; 10 x 12", "wrong-mark", "piece front of sail: 10 x 12"),
    ("piece front: sail, 10 x 12", "wrong-mark", "piece front of sail: 10 x 12"),
    ("piece front of sail: 10 12", "missing-mark", "piece front of sail: 10 x 12"),
    ("piece front of sail: 10 by 12", "wrong-mark", "piece front of sail: 10 x 12"),
    ("piece front of sail: 10 * 12", "wrong-mark", "piece front of sail: 10 x 12"),
    ("piece front of sail: 10 X 12", "wrong-mark", "piece front of sail: 10 x 12"),
    ("piece front and back of sail: 10 x 12", "wrong-mark", "piece front, back of sail: 10 x 12"),
    ("piece front of sail: 10 x 12 cut 2", "missing-mark", "piece front of sail: 10 x 12, cut 2"),
    ('cloth duck "tent duck"', "missing-mark", 'cloth duck: "tent duck"'),
    ('cloth duck = "tent duck"', "wrong-mark", 'cloth duck: "tent duck"'),
    ("let wide 10", "missing-mark", "let wide = 10"),
    ("let wide: 10", "wrong-mark", "let wide = 10"),
    ("wide = 10", "unknown-verb", "let wide = 10"),
    ("units: in", "wrong-mark", "units in"),
    ("join front and back along sides", "wrong-mark", "join front to back along sides"),
    ("join front to back along sides and bottom", "wrong-mark", "join front to back along sides, bottom"),
    ("join front to back along sides = bag", "wrong-mark", "join front to back along sides as bag"),
    ("join front to back along sides;", "wrong-mark", "join front to back along sides"),
    ("finished bag: 10 wide and 12 tall", "wrong-mark", "finished bag: 10 wide, 12 tall"),
    # quotes
    ("recipe “Peg bag”", "quotes-of-another-kind", 'recipe "Peg bag"'),
    ("cloth duck: 'tent duck'", "quotes-of-another-kind", 'cloth duck: "tent duck"'),
    ("part Lining", "words-without-quotes", 'part "Lining"'),
    ("cloth duck: canvas", "words-without-quotes", 'cloth duck: "canvas"'),
    # sizes
    ("piece front of sail: 12 tall x 10 wide", "dimension-out-of-place", "piece front of sail: 10 x 12"),
    ("piece front of sail: wide 10, tall 12", "dimension-out-of-place", "piece front of sail: 10 x 12"),
    ("finished bag: wide 10, tall 12", "dimension-out-of-place", "finished bag: 10 wide, 12 tall"),
    ("finished bag: 10 x 12", "dimension-out-of-place", "finished bag: 10 wide, 12 tall"),
    ("finished bag: width 10", "dimension-out-of-place", "finished bag: 10 wide"),
    ("finished bag: 12 high", "word-out-of-place", "finished bag: 12 tall"),
    ('cloth duck: "duck", thick 0.6 mm', "dimension-out-of-place", 'cloth duck: "duck", 0.6 mm thick'),
    ("hem 1 bag.rim", "dimension-out-of-place", "hem bag.rim by 1"),
    ("piece front of sail: 10 inchs x 12 inchs", "unknown-unit", "piece front of sail: 10 in x 12 in"),
    ("units inches", "unknown-unit", "units in"),
    ("piece flag of sail: circle 8", "word-out-of-place", "circle 8 across"),
    ("ring dee: 1", "statement-breaks-off", "ring dee: 1 inside"),
    ("zip mouth: metal 8", "missing-mark", "zip mouth: metal, 8 long"),
    ("piece front of sail: 10 x 12, 2 of", "word-out-of-place", "piece front of sail: 10 x 12, cut 2"),
    ("piece 2 front of sail: 10 x 12", "word-out-of-place", "piece front of sail: 10 x 12, cut 2"),
    # names
    ("piece front panel of sail: 10 x 12", "name-lacking", "piece front_panel of sail: 10 x 12"),
    ("piece front-panel of sail: 10 x 12", "name-lacking", "piece front_panel of sail: 10 x 12"),
    ("piece of sail: 10 x 12", "name-lacking", "piece NAME of sail: 10 x 12"),
    ('cloth: "duck"', "name-lacking", 'cloth NAME: "duck"'),
    # the verb
    ("at 1/4 join front.top to back.top", "verb-not-first", "join front.top to back.top at 1/4"),
    ("along sides join front to back", "verb-not-first", "join front to back along sides"),
    ("bag = join front to back along sides", "verb-not-first", "join front to back along sides as bag"),
    ("1. join front to back along sides", "verb-not-first", "join front to back along sides"),
    ("- join front to back along sides", "verb-not-first", "join front to back along sides"),
    ("seam allowance 3/8", "verb-not-first", "allowance 3/8"),
    ("// the lining", "unknown-verb", "# the lining"),
    ("JOIN front TO back", "unknown-verb", "join front to back"),
    ("joined front to back along sides", "unknown-verb", "join front to back along sides"),
    ("hemming bag.rim by 1", "unknown-verb", "hem bag.rim by 1"),
    ("bound mat edges with tape", "unknown-verb", "bind mat edges with tape"),
    ("gathers frill.top to 15", "unknown-verb", "gather frill.top to 15"),
    ("pleated body.top in 2 box, 1 deep", "unknown-verb", "pleat body.top in 2 box, 1 deep"),
    ("sew front to back along sides", "unknown-verb", "join front to back along sides"),
    ("stitch bag.rim at 1/8", "unknown-verb", "topstitch"),
    ("cut front, back of sail: 10 x 12", "unknown-verb", "piece front, back of sail: 10 x 12"),
    ("cut front.top to 9 tall", "unknown-verb", "trim front.top to 9 tall"),
    ("pin front to back", "unknown-verb", "baste front to back"),
    ("attach pocket to front", "unknown-verb", "place pocket on front"),
    ("zipper mouth: coil, 8 long", "unknown-verb", "zip mouth: coil, 8 long"),
    ('fabric duck: "tent duck"', "unknown-verb", 'cloth duck: "tent duck"'),
    ("lining front_in: 10 x 12", "unknown-verb", "piece front_in of CLOTH: 10 x 12"),
    ("iron bag.left open", "unknown-verb", "press bag.left open"),
    ("top stitch bag.rim at 1/8", "unknown-verb", "topstitch bag.rim at 1/8"),
    ("fuse crisp to front", "unknown-verb", "with crisp"),
    ("backstitch both ends", "unknown-verb", "note"),
    ("topstich bag.rim at 1/8", "unknown-verb", "topstitch"),
    # words
    ("piece flag of sail: tapered 14 at top, 11 at bottom, 12 tall", "word-out-of-place", "sail: 14 at top"),
    ("join front to back along sides called bag", "word-out-of-place", "as bag"),
    ("join front to back on sides, bottom", "word-out-of-place", "along sides, bottom"),
    ("join front.top to back.top 1/4", "word-out-of-place", "at 1/4"),
    ("join front.top to back.top at 1/4 seam allowance", "word-out-of-place", "join front.top to back.top at 1/4`"),
    ("join front to back along sides, leavng 4 open in left", "word-out-of-place", "sides, leaving 4 open in left"),
    ("join front to back along sides, catchin tab.ends as bag", "word-out-of-place", "sides, catching tab.ends as bag"),
    ("hem bag.rim 1", "word-out-of-place", "hem bag.rim by 1"),
    ("hem bag.rim 1/2 twice", "word-out-of-place", "by 1/2, turned twice"),
    ("hem the bag.rim by 1", "word-out-of-place", "hem bag.rim by 1"),
    ("hem top of bag by 1", "word-out-of-place", "hem bag.top by 1"),
    ("notch front bottom corners by 2", "word-out-of-place", "notch front at bottom corners by 2"),
    ("box bag by 4", "word-out-of-place", "box bag pinched 4 across"),
    ("fold strap in 4", "word-out-of-place", "fold strap in quarters"),
    ("fold strap into quarters", "word-out-of-place", "fold strap in quarters"),
    ("turn bag right side out", "word-out-of-place", "turn bag"),
    ("turn bag through gap in bottom", "word-out-of-place", "turn bag through bag.bottom"),
    ("close bag.bottom with ladder stitch", "word-out-of-place", "close bag.bottom by hand"),
    ("bind mat edges in tape", "word-out-of-place", "bind mat edges with tape"),
    ("set clasp in front", "word-out-of-place", "set clasp on front"),
    ("slip inner inside outer", "word-out-of-place", "slip inner into outer"),
    ("leave front.top unfinished", "word-out-of-place", "leave front.top raw"),
    ("divide slip at 2, 4", "word-out-of-place", "divide slip 2 from left, 4 from left"),
    ("quilt mat with warm in rows 2", "statement-breaks-off", "in rows 2 apart"),
]


def finding_in(line):
    """What is said about a line that cannot be read."""
    found = [one for one in stitchlang.check(stitchlang.read(HEAD + line + "\n")) if one.at.start >= len(HEAD)]
    assert found
    return found[0]


@pytest.mark.parametrize(("line", "rule", "meant"), MISTAKES, ids=[line for line, _, _ in MISTAKES])
def test_the_mistake_is_named_and_the_line_that_was_meant_is_shown(line, rule, meant):
    """One rule for each kind of mistake; the mend shows what to write."""
    finding = finding_in(line)

    assert finding.rule == rule
    assert meant in finding.mend


@pytest.mark.parametrize("line", [line for line, _, _ in MISTAKES])
def test_the_edit_makes_the_line_readable(line):
    """Where a mend offers an edit to the whole line, the line can be read after it."""
    text = HEAD + line + "\n"
    for mend in finding_in(line).mends:
        if not mend.says.startswith("write `topstitch`"):  # the nearest verb: an edit of one word
            edit = mend.edits[0]
            mended = text[: edit.at.start] + edit.text + text[edit.at.end :]

            assert stitchlang.read(mended).reading.stumbles == []


def test_a_side_in_place_of_a_length_is_told_as_a_distance():
    """`at bottom` is what a sewer says; the pocket's place is not known, and nothing else is said of where it lies."""
    text = HEAD + "piece front of sail: 10 x 12\npiece patch of sail: 6 x 6\nplace patch on front at bottom\n"
    found = stitchlang.check(stitchlang.read(text))

    assert [one.rule for one in found if one.at.start > text.index("place")] == ["unknown-name"]
    assert "`, 2 above bottom`" in found[-1].mend


MAT = """\
piece face, lining of sail: 10 x 8
join face to lining along sides, top, bottom, leaving 4 open in bottom as mat
turn mat
close mat.bottom
"""


def test_a_turn_that_does_not_say_its_gap_is_mended():
    """One gap is left, so one is meant; after the mend nothing is found."""
    from stitchlang.work.mend import mended

    found = stitchlang.check(stitchlang.read(HEAD + MAT))

    assert [one.rule for one in found] == ["no-gap-to-turn-through"]
    assert mended(HEAD + MAT).text == HEAD + MAT.replace("turn mat", "turn mat through mat.bottom")
    assert stitchlang.check(stitchlang.read(mended(HEAD + MAT).text)) == []


def test_the_writers_own_sentence_stays_behind_the_gap():
    """The gap goes behind the name, and not behind the sentence that ends the statement."""
    from stitchlang.work.mend import mended

    text = HEAD + MAT.replace("turn mat", 'turn mat "Push the corners out."')

    assert 'turn mat through mat.bottom "Push the corners out."' in mended(text).text


def test_of_two_gaps_neither_is_chosen():
    """The writer says which."""
    text = HEAD + MAT.replace("in bottom as mat", "in bottom, leaving 4 open in top as mat") + "close mat.top\n"
    found = next(one for one in stitchlang.check(stitchlang.read(text)) if one.rule == "no-gap-to-turn-through")

    assert found.mends == ()


def test_a_comment_within_a_statement_is_not_lost():
    """Where the edit would run over a comment or a line end, the line is shown but no edit is offered."""
    text = HEAD + "piece front of sail: 12 tall # up\n  x 10 wide\n"
    finding = next(one for one in stitchlang.check(stitchlang.read(text)) if one.rule == "dimension-out-of-place")

    assert "piece front of sail: 10 x 12" in finding.mend
    assert not finding.mends


@pytest.mark.parametrize("word", ["x", ",", "and", "in", "“", "'", "10", "of", "deep", "=", "\u202e", "circle", "box"])
@pytest.mark.parametrize(
    "head", ["", "piece ", "join ", "box ", "finished a: ", "zip ", "let ", "hem a.top ", "close "]
)
def test_no_repetition_of_words_breaks_the_mending(head, word):
    """Whatever is typed, one statement gives one finding at most of its kind, and no traceback."""
    for times in (1, 2, 3, 30, 300):
        findings = stitchlang.check(stitchlang.read(HEAD + head + f"{word} " * times))

        assert all(one.at.start < one.at.end for one in findings)


def test_many_broken_lines_do_not_take_long():
    """Five hundred lines that nothing mends: only the first hundred are asked what they were meant to be."""
    text = HEAD + "".join(f"join a{at} of deep x and 10 with = 4 of to by {at} tall wide in on\n" for at in range(500))
    before = time.process_time()
    stitchlang.check(stitchlang.read(text))

    assert time.process_time() - before < 30
