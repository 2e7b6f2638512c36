"""Bad statements: numbers, depth, names, verbs and clauses gone wrong, and k broken lines that give k findings."""

import re
from pathlib import Path

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from lark import UnexpectedInput

import stitchlang
from stitchlang.reading.mistakes import FIRST_WORDS
from stitchlang.reading.table import WORDS
from stitchlang.reading.table_maker import lark_reader
from stitchlang.rules.catalogue import FAMILIES
from stitchlang.show.cutting import cutting_text
from stitchlang.show.cutting_data import cutting_csv, cutting_json
from stitchlang.show.findings import finding_text
from stitchlang.show.measures import measures_text
from stitchlang.show.steps import steps_text
from stitchlang.work.cutting import cutting_in_sizes
from stitchlang.work.measure import measured_in_sizes

ROOT = Path(__file__).parent.parent
EXAMPLES = sorted(ROOT.glob("examples/*.stitch"))
READING_RULES = {rule.name for rule in FAMILIES["reading"]}
FLAG = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\npiece flag of sail: 10 x 12\nhem flag edges by 1/2\n'


def asked(text):
    """Everything that can be asked of a text: (findings, everything printed about it)."""
    recipe = stitchlang.read(text, "bag.stitch")
    findings = stitchlang.check(recipe)
    printed = [finding_text(finding, recipe) for finding in findings]
    printed.append(steps_text(recipe, stitchlang.steps(recipe)))
    printed.append(measures_text(recipe, list(measured_in_sizes(recipe)), "in"))
    lists = cutting_in_sizes(recipe)
    printed += [show(recipe, lists, "in") for show in (cutting_text, cutting_csv, cutting_json)]
    return findings, "\n".join(printed)


def items(text):
    """The items of a list written with ` ~ ` between them."""
    return re.split(r" ~\s", text.strip())


def test_what_has_no_four_sides_is_not_lapped():
    """Its top lies opposite its bottom, but no left side runs between them that the overlap could be taken from."""
    outline = "polygon 0 x 9 top, 12 x 9 east, 12 x 0 bottom, 0 x 0 west"
    findings, _ = asked(FLAG.replace("10 x 12", outline) + "lap flag.top over flag.bottom by 3 as case\n")

    assert [(one.rule, one.says) for one in findings] == [("misplaced", "this statement wants a piece with four sides")]


def test_a_side_in_two_parts_is_named_once():
    """A pointed side is two edges of one name: whoever is told to leave it raw writes it once."""
    (finding,) = stitchlang.check(
        stitchlang.read(FLAG.replace("12\nhem flag edges", "12, left pointed 2\nhem flag.top"))
    )

    assert finding.says == "nothing is said of the right, bottom and left of flag"
    assert finding.mend.endswith("or write `leave flag.right, bottom, left raw`")


# -- numbers and depth ------------------------------------------------------

DEEP = {
    "parentheses": "(" * 10_000 + "1" + ")" * 10_000,
    "signs": "-" * 10_000 + "1",
    "both, and broken off": "(-" * 5_000,
    "factors": "1" + "*1" * 9_000,
    "just too deep": "(" * 65 + "1" + ")" * 65,
}


@pytest.mark.parametrize("inner", DEEP.values(), ids=DEEP)
def test_an_expression_too_deep_or_too_long_is_one_finding(inner):
    """Ten thousand parentheses, signs or factors: one finding, on their own line, and the rest is read."""
    findings, _ = asked(FLAG + f"let deep = {inner}\nfoo\n")

    assert [one.rule for one in findings] == ["statement-too-long", "unknown-verb"]
    assert FLAG.count("\n") == (FLAG + "let")[: findings[0].at.start].count("\n")


@pytest.mark.parametrize(
    "written, pointed_at",
    [
        ("1/0", "1/0"),
        ("3 1/0", "3 1/0"),
        ("3-1/0 in", "3-1/0 in"),
        ('1/0"', '1/0"'),
        ("1 / 0", "0"),
        ("1/(1 - 1)", "(1 - 1)"),
        ("2 / none", "none"),
        ("2 in / (none * 3)", "(none * 3)"),
        ("(1/2) / (0/5)", "(0/5)"),
    ],
)
def test_dividing_by_nothing_is_found_where_it_stands(written, pointed_at):
    """As a written fraction, as a quotient, by a value that is 0: one finding, its span the divisor or the number."""
    text = FLAG + f"let none = 0\nlet wide = {written}\npiece new of sail: wide x none\n"
    recipe = stitchlang.read(text)
    found = [one for one in stitchlang.check(recipe) if one.rule == "division-by-zero"]

    assert [recipe.source.cut(one.at) for one in found] == [pointed_at]


DIGITS = "7" * 10_000


LONG_NUMBERS = """
let a = {} ~ let a = {} in ~ let a = 1/{} ~ let a = {} 1/2 ~ let a = 0.{} cm ~ let a = {}½ ~ allowance {} ~
piece new of sail: {} x 2 ~ piece new of sail: 2 x 2, cut {} ~ piece new of sail: circle {} across ~
cloth drill: "drill", {} g/m2 ~ cloth drill: "drill", 0.{} oz/yd2 ~ ring dee: "dee", {} of ~ divide flag into {} ~
hem flag.top by {} ~ notch flag at bottom corners by 1 x {} ~ finished flag: {} wide ~ tolerance {}
"""


@pytest.mark.parametrize("line", items(LONG_NUMBERS))
def test_a_number_of_ten_thousand_digits_is_a_finding(line):
    """Wherever a number can stand, one beyond all rulers is found on its line, and printed in no great length."""
    text = FLAG + line.format(DIGITS) + "\npiece more of drill: 1 x 2\n"
    findings, printed = asked(text)
    at = len(FLAG)

    assert any(at <= one.at.start < at + len(line) + len(DIGITS) for one in findings)
    assert len(printed) < 8_000


@pytest.mark.parametrize("line", ["let c = " + "+".join(["b"] * 1_900)], ids=["sum"])
def test_sizes_beyond_a_float_are_printed_or_found(line):
    """A piece as wide as the largest values allow, of a cloth with a mass, raises nothing."""
    text = (
        "let a = 100000000000000000000000\nlet b = a*a*a*a*a*a*a/10000000\nunits in\n"
        + line
        + '\ncloth sail: "sailcloth", 10 g/m2\npiece flag of sail: c x c\nhem flag edges by 1/2\n'
    )
    _, printed = asked(text)

    assert "flag" in printed


# -- words, verbs and clauses -----------------------------------------------


@pytest.mark.parametrize("word", sorted({*WORDS, "x", "rim", "edges", "sides"}))
def test_a_word_of_the_language_as_a_name_works_or_is_pointed_at(word):
    """A piece called by a word of the language can be used as any other, or a finding stands on that very word."""
    text = FLAG + f"piece {word} of sail: 10 x 12\nhem {word}.top, {word}.left by 1/2\nleave {word}.right raw\n"
    text += f"leave {word}.bottom raw\n"
    recipe = stitchlang.read(text)
    findings = stitchlang.check(recipe)

    assert not findings or word in [recipe.source.cut(one.at) for one in findings]


@pytest.mark.parametrize("verb", FIRST_WORDS)
def test_a_verb_with_nothing_behind_it_breaks_off(verb):
    """Each statement's first word alone on a line is one finding, on that word, and so with a comment or quotes."""
    for rest in ("", "  # and then", "\n"):
        text = FLAG + verb + rest
        recipe = stitchlang.read(text)
        findings = stitchlang.check(recipe)

        assert [one.rule for one in findings] == ["statement-breaks-off"]
        assert recipe.source.cut(findings[0].at) == verb


OPENINGS = """
baste front.top ~ box shell ~ cap mouth ends with cap ~ close shell.bottom ~ divide front ~ fold front in half ~
hem front.top ~ join front.top to back.bottom ~ leave front.top ~ notch front ~ place cap on front ~ press front.top ~
set clasp on front and back ~ slip shell into bag ~ thread strap through dee ~ topstitch front.top ~ trim front.top ~
turn shell ~ piece new of sail: 3 x 4 ~ finished bag: 10 wide ~ cloth drill: "drill" ~ let new = 3 ~ bind front.top ~
bind bag.rim ~ channel bag.rim ~ channel front.top ~ dart front.bottom ~ ease back sides ~ gather front.top ~
gather bag.rim ~ lap front.top ~ pleat front.top ~ quilt front ~ roll bag.rim ~ slit front ~ wrap strap round draw ~
thread draw through bag.rim ~ set eye on front ~ piece new of sail: polygon 0 x 3 top, 4 x 3 right, 0 x 0 left ~
zip new: coil ~ cord new: "cord" ~ binding new: "tape"
"""
CLAUSES = """
at 1/4 ~ at side seams ~ at bottom corners ~ at bottom ~ to back.top ~ to bag sides ~ along sides ~ as new ~
with cap ~ leaving 5 open in bottom ~ catching cap.top ~ diagonally ~ pinched 4 across ~ pinched 1 from tip ~ by 1/2 ~
by 1 x 2 ~ turned twice ~ raw ~ bottom to top ~ centred ~ 3 below top ~ 3 above bottom ~ 4 from left ~
sewn along sides, bottom ~ open ~ toward top ~ under by 3/8 ~ right sides together ~ wrong sides together ~
to 12 1/2 tall ~ to 9 wide ~ by hand ~ through shell.bottom ~ turned back 1 1/2 ~ into 3 ~ to 11 overall ~ "so" ~
back.top ~ back sides ~ in thirds ~ cut 2 ~ on fold at left ~ bottom corners rounded 2 ~ 10 wide at base ~
within 1/8 ~ through dee ~ on front ~ 0.5 mm thick ~ coil ~ with tape ~ with warm ~ with crisp whole ~ running on 4 ~
between 1 and 2 ~ between 2 and 1 ~ to 9 ~ by 20 ~ over front.bottom ~ over back.top ~ in 2 knife ~ in 9 box ~
in 3 tucks ~ 1 deep ~ 3 long ~ 2 of ~ in rows 2 apart ~ 3 times ~ for mouth ~ for draw ~ faced with cap ~ 7 x 1/2 ~
mirrored ~ lapped 1/2 ~ felled ~ enclosed at 1/4 then 3/8 ~ bound with tape ~ bound with strap ~
leaving 1 open in left for draw ~ leaving 1 open for draw ~ leaving 1 open ~ from seam lines ~ bottom pointed 1 ~
bottom pointed 4 ~ bottom corners clipped 1 ~ top corners clipped 1 x 3 ~ salvaged ~ off the roll ~ 5 mm across ~
10 tall when rolled ~ 9, 10 ~ 9, 10 for small, large
"""
PRELUDE = """units in
allowance 1/2
cloth sail: "sailcloth"
zip mouth: coil, 8 long, tape 1 wide
snap clasp: press, 1/2 across
ring dee: 1 inside, 2 of
cord draw: 5 mm across, 30 long
eyelet eye: 8 mm inside
binding tape: 1/2 wide, 3 long
batting warm: "batting"
interfacing crisp: "fusible"
piece front, back, shell_a, shell_b, bag_a, bag_b of sail: 10 x 12
piece cap, strap of sail: 2 x 9, cut 2
join shell_a to shell_b along sides, bottom, leaving 4 open in bottom as shell
join bag_a to bag_b along sides, bottom as bag
"""


LARK = lark_reader()


def lark_takes(line):
    """Whether plain Lark reads a statement word by word.

    Its words in quotes know no word ends, so it would read `top` as `to p` where nothing else fits.
    """
    try:
        tokens = list(LARK.parse_interactive(line, start="statement").iter_parse())
        LARK.parse(line, start="statement")
    except UnexpectedInput:
        return False
    return not any(re.match(r"\w\w", line[token.end_pos - 1 : token.end_pos + 1]) for token in tokens)


@pytest.mark.parametrize("opening", items(OPENINGS))
def test_every_verb_with_every_clause_is_read_as_plain_lark_reads_it(opening):
    """A clause of another verb is one finding in reading where Lark refuses it, none where Lark takes it."""
    for clause in items(CLAUSES):
        for line in (f"{opening}{between}{clause}" for between in (" ", ", ")):
            findings, _ = asked(PRELUDE + line)
            unread = [one for one in findings if one.rule in READING_RULES]

            assert len(unread) == (0 if lark_takes(line) else 1), line
            assert all(one.at.start >= len(PRELUDE) for one in unread), line


@pytest.mark.parametrize("opening", items(OPENINGS))
def test_every_length_of_every_clause_may_have_no_value(opening):
    """Where a clause takes a number, no unknown name, 0, less than 0, 1/0 or far too much raises anything."""
    numbers = re.compile(r"\d+(?: \d+/\d+|/\d+|\.\d+)?")
    for clause in ["", *items(CLAUSES)]:
        line = f"{opening}, {clause}" if clause else opening
        for bad in ("nix", "0", "-3", "1/0", "5000") if numbers.search(line) and lark_takes(line) else ():
            findings, _ = asked(PRELUDE + numbers.sub(bad, line))

            assert bad in ("0", "5000") or any(one.at.start >= len(PRELUDE) for one in findings), (bad, line)


BELOW_NOTHING = """
allowance -3 ~ tolerance -3 ~ tolerance 0, curves -3 ~ join front.top to back.bottom at -3 as new ~
topstitch front.top at -3 ~ hem front.top by -3 ~ baste front.top to back.top at -3 ~
place cap on front, centred, sewn along sides at -3 ~ box shell pinched -3 across ~
notch front at bottom corners by -3 ~ trim front.top by -3 ~ press front.top under by -3 ~
join front to back along top, leaving -3 open in top ~ cap mouth ends with cap, to -3 overall ~
finished front: -3 wide ~ finished front: 10 wide, within -3 ~ piece new of sail: -3 x 4 ~
piece new of sail: circle -3 across ~ cloth drill: "drill", -3 mm thick ~ ring new: -3 inside ~ zip new: -3 long ~
thread strap through dee, turned back -3
"""


@pytest.mark.parametrize("line", items(BELOW_NOTHING))
def test_a_length_below_nothing_is_found_where_it_stands(line):
    """No seam, hem, gap, thickness, tolerance or claimed size is less than nothing: a fault, its span the number."""
    text = PRELUDE.replace("allowance 1/2\n", "") if line.startswith("allowance") else PRELUDE
    recipe = stitchlang.read(text + line)
    found = [recipe.source.cut(one.at) for one in stitchlang.check(recipe) if one.severity == "fault"]

    assert any(cut in ("-3", "-3 mm") for cut in found)


# -- k broken lines ---------------------------------------------------------

BROKEN = items("""
pres front.top open ~ join front to ~ piece new of: 1 ~ hem flag edges by ~ (((( ~ "open ~ @ ~ é ~ 12 ~ box ~ . ~
piece ~ trim front.left by 1/2 1/2 ~ ½½ ~ piece new of sail 1 x 2 ~ hem flag edges by 1/2 "press ~ zip new metal ~
x x x ~ let = 3 ~ let new 3 ~ units furlong ~ join front.top,, back.top ~ finished bag: ~ notch front.bottom,, ~ \x1b ~
turn bag through ~ set clasp on ~ recipe Awning ~ fold tab in fifths ~ tolerance 1/16 1/8 ~ units in in # twice
""")


@settings(max_examples=60, deadline=None, phases=[phase for phase in Phase if phase is not Phase.explain])
@given(st.sampled_from(EXAMPLES), st.lists(st.tuples(st.sampled_from(BROKEN), st.integers(0, 10_000)), max_size=12))
def test_k_broken_lines_are_k_findings(path, broken):
    """Put among a clean recipe's statements, k broken lines are k findings, each in reading and on its line."""
    statements = re.split(r"\n(?=[^\s#])", path.read_text("utf-8"))
    for line, place in broken:
        statements.insert(place % (len(statements) + 1), line)
    text = "\n".join(statements)
    recipe = stitchlang.read(text)
    findings = stitchlang.check(recipe)
    lines = [number for number, line in enumerate(text.split("\n"), 1) if line in BROKEN]

    assert [recipe.source.place(one.at.start)[0] for one in findings] == lines
    assert {one.rule for one in findings} <= READING_RULES
