"""What changed in the bag: causes worked by hand, laws that hold for any two recipes, git, and hostile names."""

import json
import os
import re
import subprocess
import sys
from fractions import Fraction
from functools import cache
from pathlib import Path

import attrs
import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

import stitchlang
from stitchlang import cli
from stitchlang.ground.lengths import MM, SAME, read_number
from stitchlang.reading.table_maker import grammar_path
from stitchlang.reading.tree import Token
from stitchlang.rules.catalogue import RULES
from stitchlang.work import stated
from stitchlang.work.changes import Length
from stitchlang.work.compare import compare
from stitchlang.work.layout import Refused, laid_out

ROOT = Path(__file__).parent.parent
GOLDEN = Path(__file__).parent / "diff"
PATHS = sorted([*ROOT.glob("examples/*.stitch"), *ROOT.glob("tests/field/*.stitch"), *GOLDEN.glob("*.stitch")])
TEXTS = [path.read_text("utf-8") for path in PATHS]
BEFORE, AFTER = ((GOLDEN / f"{name}.stitch").read_text("utf-8") for name in ("before", "after"))
QUICK = settings(
    max_examples=60,
    deadline=None,
    phases=[phase for phase in Phase if phase is not Phase.explain],
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
SMALL = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\npiece flag of sail: 10 x 12\nhem flag edges by 1/2\n'


def between(before, after, unit=None):
    return compare(stitchlang.read(before), stitchlang.read(after), unit)


@cache
def golden():
    return between(BEFORE, AFTER)


def inches(text):
    """A length in inches, 25.4 mm each: exact by definition, inch of 1959."""
    return Length(read_number(text) * Fraction("25.4"))


def run(*arguments, text="", cwd=None, env=None):
    return subprocess.run(
        [sys.executable, "-m", "stitchlang", "diff", *map(str, arguments)],
        input=text, capture_output=True, text=True, cwd=cwd, check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT), **(env or {})},
    )  # fmt: skip


# -- a pair worked by hand ----------------------------------------------------
# Sides and bottom lose s each side, the corner's square is c, its seam b, the rim's hem h: by arithmetic
#   wide at top   15 - 2 s         14      -> 14 1/4    s 1/2 -> 3/8
#   wide at base  15 - 2 c - 2 b   10      -> 9         c 2 -> 2 1/2
#   tall          16 - c - b - h   12 1/2  -> 12 1/4    c 2 -> 2 1/2, h 1 -> 3/4
#   deep          2 (c + b - s)    4       -> 5 1/4     c 2 -> 2 1/2, s 1/2 -> 3/8
BY_HAND = {
    "wide at top": ("14", "14 1/4", {("seam allowance", "1/2", "3/8", -2)}),
    "wide at base": ("10", "9", {("notch across", "2", "2 1/2", -2)}),
    "tall": ("12 1/2", "12 1/4", {("notch across", "2", "2 1/2", -1), ("hem", "1", "3/4", -1)}),
    "deep": ("4", "5 1/4", {("notch across", "2", "2 1/2", 2), ("seam allowance", "1/2", "3/8", -2)}),
}


def test_each_measure_of_the_bag_has_the_causes_worked_by_hand():
    """Lengths before and after, each cause with its lengths and how often it counts."""
    found = {one.name: one for one in golden().measures if one.thing == "bag"}

    assert set(found) == set(BY_HAND)
    for name, (before, after, causes) in BY_HAND.items():
        one = found[name]

        assert (one.before, one.after) == (inches(before), inches(after))
        assert {(cause.says, cause.before, cause.after, cause.factors) for cause in one.causes} == {
            (says, inches(was), inches(now), (factor, factor)) for says, was, now, factor in causes
        }


def test_a_cause_names_its_line_in_the_new_recipe():
    """The notch stands on line 23, the join on 24, the hem on 27 (counted in the file)."""
    lines = {cause.says: cause.lines[1] for one in golden().measures for cause in one.causes}

    assert lines == {"notch across": 23, "seam allowance": 24, "hem": 27}


def test_pieces_and_materials_of_the_pair():
    """The handle is longer, the flap is gone, a snap is new; webbing spelled in millimetres is the same width."""
    comparison = golden()
    pieces = {(one.name, one.change): one.facts for one in comparison.pieces}
    materials = {(one.name, one.change): [fact.name for fact in one.facts] for one in comparison.materials}

    assert set(pieces) == {("handle", "changed"), ("flap", "gone")}
    assert [(one.name, one.before, one.after) for one in pieces["handle", "changed"]] == [
        ("long", inches("24"), inches("26"))
    ]
    assert materials == {
        ("strong", "changed"): ["thick"],
        ("clasp", "new"): ["kind of stuff", "kind", "across"],
    }


def test_a_piece_with_the_same_facts_and_use_looks_renamed():
    """Pocket became pouch: said so, and its steps and size are no change; of back and front nothing is said."""
    comparison = golden()

    assert [(one.kind, one.before, one.after) for one in comparison.renamed] == [("piece", "pocket", "pouch")]
    assert "looks like it is now called pouch" in run(GOLDEN / "before.stitch", GOLDEN / "after.stitch").stdout
    assert not any("pouch" in one.after for one in comparison.steps if one.after and "Place" not in one.after)


def test_steps_of_the_pair():
    """New, gone, said otherwise, moved: the snap, the flap's hem, four sentences, and hem against handles."""
    steps = golden().steps
    by_change = {change: [one for one in steps if one.change == change] for change in ("new", "gone", "changed")}

    assert [one.after[:12] for one in by_change["new"]] == ["Set the snap"]
    assert [one.before[:27] for one in by_change["gone"]] == ["Hem all edges of flap: pres"]
    assert [one.after.split()[0] for one in by_change["changed"]] == ["Place", "Cut", "Join", "Hem"]
    assert len([one for one in steps if one.moved]) == 1
    assert sum(map(len, by_change.values())) + len([one for one in steps if one.change == "moved"]) == len(steps)


def test_allowances_promises_headings_and_findings_of_the_pair():
    """Seam, hem and row by statement; two promises; the pocket's part; findings by rule."""
    comparison = golden()
    allowances = {one.what: (one.before, one.after) for one in comparison.allowances}

    assert allowances == {
        "seam of front and back": (inches("1/2"), inches("3/8")),
        "hem of bag": (inches("1"), inches("3/4")),
        "place row on pouch and front": (inches("1/8"), inches("1/4")),
    }
    assert [one.name for one in comparison.promises] == ["bag wide at top", "bag tall"]
    assert [(one.before, one.after, one.count) for one in comparison.parts] == [("Pocket", "Pouch", 4)]
    assert [(one.change, one.rule) for one in comparison.findings] == [
        ("gained", "finished-size-differs"), ("gained", "depth-against-notch"), ("lost", "never-joined"),
    ]  # fmt: skip


def test_the_text_gives_a_measure_with_its_cause():
    """The line that the notch stands on, and both lengths, in the new recipe's unit and in another (2 in = 50.8 mm)."""
    said = " ".join(run(GOLDEN / "before.stitch", GOLDEN / "after.stitch").stdout.split())
    metric = " ".join(run("--units", "mm", GOLDEN / "before.stitch", GOLDEN / "after.stitch").stdout.split())

    assert "bag deep 4 in -> 5 1/4 in: the notch across went from 2 in to 2 1/2 in (line 23), counted 2 x;" in said
    assert "bag deep 101.6 mm -> about 133.4 mm: the notch across went from 50.8 mm to 63.5 mm (line 23)" in metric
    assert "right sides together, with a seam allowance of 1/2 in -> 3/8 in" in said


# -- laws ---------------------------------------------------------------------
def mirrored(value):
    """A comparison, or a part of it, with its two sides exchanged."""
    if isinstance(value, tuple):
        return tuple(mirrored(one) for one in value)
    if not attrs.has(type(value)):
        return value
    swaps = {"new": "gone", "gone": "new", "gained": "lost", "lost": "gained"}
    fields = {field.name: mirrored(getattr(value, field.name)) for field in attrs.fields(type(value))}
    if "before" in fields:
        fields["before"], fields["after"] = fields["after"], fields["before"]
    for name in ("lines", "numbers", "factors", "cautions", "unread", "partly"):
        if name in fields:
            fields[name] = fields[name][::-1]
    if "change" in fields:
        fields["change"] = swaps.get(fields["change"], fields["change"])
    return type(value)(**fields)


def unordered(value):
    """A comparison with everything listed in one order: what comes first hangs on which recipe is the new one."""
    if isinstance(value, tuple):
        return sorted((unordered(one) for one in value), key=repr)
    if not attrs.has(type(value)):
        return value
    return {field.name: unordered(getattr(value, field.name)) for field in attrs.fields(type(value))}


def listed_in_order(value):
    """`unordered`, except that pairs of old and new stay pairs."""
    if isinstance(value, tuple) or not attrs.has(type(value)):
        return unordered(value)
    pairs = ("lines", "numbers", "factors", "cautions", "unread", "partly", "sizes")
    return {
        field.name: repr(getattr(value, field.name))
        if field.name in pairs
        else sorted((listed_in_order(one) for one in getattr(value, field.name)), key=repr)
        if isinstance(getattr(value, field.name), tuple)
        else listed_in_order(getattr(value, field.name))
        for field in attrs.fields(type(value))
    }


NUMBERS = re.compile(r"(?<![\w/.])(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)(?![\w/.])")


@st.composite
def revised(draw, text):
    """A text after somebody's afternoon with it: numbers changed, statements dropped, doubled, moved, cut short."""
    lines = text.split("\n")
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(lines) - 1))
        deed = draw(st.sampled_from(("number", "number", "number", "drop", "move", "double", "cut", "word")))
        if deed == "number":
            change = draw(st.sampled_from(("1", "2 1/2", "3/8", "12", "7.5", "1/3", "40")))
            lines[at] = NUMBERS.sub(change, lines[at], count=1)
        elif deed == "drop":
            del lines[at]
        elif deed == "move":
            lines.insert(draw(st.integers(0, len(lines) - 1)), lines.pop(at))
        elif deed == "double":
            lines.insert(draw(st.integers(0, len(lines))), lines[at])
        elif deed == "cut":
            lines[at] = lines[at][: draw(st.integers(0, len(lines[at])))]
        else:
            lines[at] = re.sub(r"\b(bottom|sides|front|top)\b", "left", lines[at], count=1)
        lines = lines or [""]
    return "\n".join(lines)


texts = st.sampled_from(TEXTS)
pairs = texts.flatmap(lambda text: st.tuples(st.just(text) | revised(text), revised(text)))


@pytest.mark.parametrize("text", TEXTS, ids=[path.stem for path in PATHS])
def test_a_recipe_does_not_differ_from_itself(text):
    """Nothing of any sort between a recipe and itself."""
    assert not between(text, text).differs


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_faulty_recipe_does_not_differ_from_itself(rule):
    """However faulty or unreadable, a text is the same as itself."""
    assert not between(rule.trips, rule.trips).differs


@QUICK
@given(texts.flatmap(revised))
def test_no_revision_differs_from_itself(text):
    """The same for texts that somebody broke."""
    assert not between(text, text).differs


@QUICK
@given(pairs)
def test_back_is_the_mirror_of_there(pair):
    """What is gained one way is lost the other; before and after, lines, numbers and factors change sides."""
    there, back = between(*pair, "in"), between(*pair[::-1], "in")

    assert {(one.before, one.after) for one in there.renamed} == {(one.after, one.before) for one in back.renamed}
    assume(not there.renamed)  # sentences then speak in the new names, which are not those of the way back
    assert listed_in_order(mirrored(back)) == listed_in_order(there)


@QUICK
@given(pairs)
def test_the_causes_of_a_measure_add_up_to_its_difference(pair):
    """Exactly, save what forty places of pi and roots leave."""
    for one in between(*pair).measures:
        if one.before is not None and one.after is not None:
            assert abs(sum(cause.difference for cause in one.causes) - (one.after.mm - one.before.mm)) < SAME * 100
            assert one.causes


@QUICK
@given(texts.flatmap(lambda text: st.just(text) | revised(text)))
def test_the_one_layout_makes_no_difference(text):
    """Nor do comments, spaces and line ends, which the layout changes and takes away."""
    try:
        tidy = laid_out(text)
    except Refused:
        assume(False)
    bare = re.sub(r'("[^"\n]*")|#[^\n]*', lambda one: one[1] or "", tidy)

    assert not between(text, tidy).differs
    assert not between(text, bare.replace("\n", "\r\n")).differs


def counted_in_grammar():
    """Phrases of the grammar that hold a plain NUMBER: read from the grammar file itself."""
    text = re.sub(r"//[^\n]*", "", grammar_path().read_text("utf-8"))
    rules = re.findall(r"^[!?_]?(\w+):(.*(?:\n[ |].*)*)", text, re.MULTILINE)
    return {name for name, says in rules if re.search(r"\bNUMBER\b", says) and name not in ("factor", "NUMBER")}


def test_counts_are_told_from_lengths_as_the_grammar_tells_them():
    """Every phrase with a NUMBER that is no length is known to be one."""
    assert set(stated.COUNTED) == counted_in_grammar()


def respelled(text, choose):
    """A text with each plain number that is a length written exactly in some unit, as a fraction; None if it cannot be.

    A product of numbers is no length until it is made, so texts with products are left alone.
    """
    recipe, counted = stitchlang.read(text), counted_in_grammar()
    if recipe.reading.stumbles or recipe.unit is None:
        return None
    found, stack = [], [(node, None) for node in recipe.reading.statements]
    while stack:
        part, rule = stack.pop()
        if isinstance(part, Token):
            if part.kind == "NUMBER" and rule not in counted:
                found.append(part)
        elif part.rule == "product":
            return None
        else:
            stack += [(one, part.rule) for one in part.parts]
    for token in sorted(found, key=lambda token: -token.start):
        unit = choose(("in", "mm", "cm"))
        value = read_number(token.text) * MM[recipe.unit] / MM[unit]
        text = f"{text[: token.start]}{value.numerator}/{value.denominator} {unit}{text[token.end :]}"
    return text


@QUICK
@given(st.sampled_from(TEXTS + [rule.passes for rule in RULES]), st.randoms(use_true_random=False))
def test_inches_and_millimetres_make_no_difference(text, random):
    """1 in is 25.4 mm (exact by definition, inch of 1959), whatever unit each number, and the recipe, is written in."""
    other = respelled(text, random.choice)
    assume(other is not None)
    other = re.sub(r"^units( +)\w+", lambda one: f"units{one[1]}{random.choice(('in', 'mm', 'cm'))}", other, flags=re.M)

    assert not between(text, other).differs
    assert not between(other, text).differs


@QUICK
@given(texts, st.randoms(use_true_random=False))
def test_the_order_of_declarations_makes_no_difference(text, random):
    """Stuff, pieces and promises may stand in any order: no step hangs on it."""
    text = re.sub(r"\n(?=[ \t]+[^\s])", " ", re.sub(r"(?m)^[ \t]*#.*\n", "", text))
    lines = text.split("\n")
    for words in (r"(cloth|webbing|zip|snap|ring|interfacing|hook|slider|cord) ", r"piece ", r"(finished|made|holds) "):
        places = [at for at, line in enumerate(lines) if re.match(words, line)]
        shuffled = random.sample(places, len(places))
        lines = [lines[shuffled[places.index(at)]] if at in places else line for at, line in enumerate(lines)]

    assert not between(text, "\n".join(lines)).differs


def test_let_names_and_lists_of_pieces_are_only_spelling():
    """A named value against the number, two pieces in one statement against one each: no difference."""
    named = SMALL.replace("units in\n", "units in\nlet edge = 1/2\nlet wide = 20 / 2\n").replace("by 1/2", "by edge")
    named = named.replace("10 x 12", "wide x 12 in")
    two = SMALL.replace("piece flag", "piece flag, pole").replace("hem flag", "hem pole edges by 1/2\nhem flag")
    apart = two.replace("flag, pole of sail: 10 x 12", "flag of sail: 10 x 12\npiece pole of sail: 10 x 12")

    assert not between(SMALL, named).differs
    assert not between(named, named.replace("edge =", "border =").replace("by edge", "by border")).differs
    assert not between(two, apart).differs


def test_a_mass_may_be_spelled_otherwise():
    """g/m2, gsm and g/m² are one unit; 10 oz/yd2 is another mass than 339 g/m2 (339.06, rounded)."""
    text = SMALL.replace('"sailcloth"', '"sailcloth", 350 g/m2')

    assert not between(text, text.replace("g/m2", "gsm")).differs
    assert between(text.replace("350 g/m2", "339 g/m2"), text.replace("350 g/m2", "10 oz/yd2")).materials


def test_a_difference_below_any_ruler_is_still_one(tmp_path):
    """A thousandth of a millimetre changes the piece and its width, and the text says by how much."""
    after = SMALL.replace("10 x", "254.001 mm x")
    comparison = between(SMALL, after)
    (tmp_path / "after.stitch").write_text(after, "utf-8")
    shown = run("-", "after.stitch", text=SMALL, cwd=tmp_path).stdout

    assert [one.name for one in comparison.pieces[0].facts] == ["wide"]
    assert [one.name for one in comparison.measures] == ["wide"]
    assert "flag: wide 10 in -> about 10 in, 0.001 mm apart (line 4)" in shown


# -- more of what may change ---------------------------------------------------
PIECE = SMALL.replace("10 x 12", "10 x 12{}").replace("units in", 'units in\ninterfacing crisp: "woven"')


@pytest.mark.parametrize(
    ("before", "after", "facts"),
    [
        ("", ", cut 2", {("cut", 1, 2)}),
        ("", ", with crisp", {("with", None, "crisp")}),
        (", with crisp", ", with crisp whole", {("fused", None, "whole")}),
        ("", ", on fold at left", {("left on fold", None, True), ("wide", inches("10"), inches("20"))}),
        (
            ", bottom corners rounded 2",
            ", bottom corners rounded 3",
            {("bottom rounded", inches("2"), inches("3"))},
        ),
        (
            ", bottom corners clipped 2",
            ", bottom corners clipped 2 x 3",
            {("bottom clipped", inches("2"), (inches("2"), inches("3")))},
        ),
        ("", ", bottom pointed 3", {("bottom pointed", None, inches("3"))}),
        ("", ", salvaged", {("salvaged", None, True)}),
    ],
)
def test_all_that_is_said_of_a_piece_is_compared(before, after, facts):
    """Count, interfacing and how it is fused, fold, corners, point, salvage: each by its name in the language."""
    found = between(PIECE.format(before), PIECE.format(after)).pieces

    assert [one.name for one in found] == ["flag"]
    assert {(fact.name, fact.before, fact.after) for fact in found[0].facts} == facts


def test_a_polygon_is_compared_corner_by_corner():
    """One corner of four moved by an inch: that corner is named, and the box round the piece."""
    shape = "polygon 0 x 8 top, 10 x 8 right, 10 x 0 bottom, 0 x 0 left"
    text = SMALL.replace("10 x 12", shape)
    found = between(text, text.replace("10 x 0 bottom", "11 x 0 bottom")).pieces[0]

    assert {(fact.name, fact.before, fact.after) for fact in found.facts} == {
        ("wide", inches("10"), inches("11")),
        ("bottom corner", (inches("10"), inches("0")), (inches("11"), inches("0"))),
    }


SIZED = 'units in\nlet wide = {} for small, large\ncloth sail: "sailcloth"\npiece flag of sail: wide x 12\n'


def test_sizes_are_compared_size_by_size():
    """Only the large size grew, by 2 in: piece and measure say so.  A change in both is said once."""
    text = SIZED + "hem flag edges by 1/2\n"
    large = between(text.format("9, 12"), text.format("9, 14"))
    both = between(text.format("9, 12"), text.format("9, 12").replace("x 12", "x 13"))

    assert [(one.name, one.sizes) for one in large.pieces] == [("flag", ("large",))]
    assert [(one.before, one.after, one.sizes) for one in large.measures] == [(inches("11"), inches("13"), ("large",))]
    assert [(one.name, one.sizes) for one in both.measures] == [("tall", ())]


def test_what_changes_differently_in_each_size_is_told_together():
    """Width by size, each after the other, then the height that is the same in both (order of the statements)."""
    text = SIZED.format("9, 12") + "hem flag edges by 1/2\n"
    found = between(text, text.replace("9, 12", "10, 14").replace("x 12", "x 13")).measures

    assert [(one.name, one.sizes) for one in found] == [("wide", ("small",)), ("wide", ("large",)), ("tall", ())]


def test_a_handle_of_webbing_made_of_cloth_is_as_tall_as_it_was_long():
    """A strip of webbing is long, a piece of cloth tall: the same 24 in is no change."""
    text = 'units in\nwebbing tape: 1 wide\ncloth sail: "s"\npiece handle of tape: 1 x 24\n'
    found = between(text, text.replace("of tape", "of sail")).pieces

    assert [(fact.name, fact.before, fact.after) for fact in found[0].facts] == [("of", "tape", "sail")]


def test_recipes_without_a_size_in_common_are_compared_in_their_first():
    """It is said which sizes are laid side by side."""
    one = SMALL.replace("10 x", "9 x")
    many = SIZED.format("9, 12") + "hem flag edges by 1/2\n"
    comparison = between(one, many)

    assert comparison.sizes == (None, "small")
    assert not comparison.measures
    assert [fact.name for fact in comparison.heading] == ["sizes"]


def test_findings_are_matched_by_rule_and_names_not_by_lines():
    """Lines above, another number in the same fault: nothing gained or lost.  Another edge: one each."""
    faulty = SMALL.replace("edges", "sides")  # top and bottom are left without a fate
    deeper = "# one\n# two\n" + faulty.replace("10 x 12", "10 x 13")
    other = faulty.replace("hem flag sides", "hem flag left, flag top")

    assert not between(faulty, deeper).findings
    assert {one.change for one in between(faulty, other).findings} == {"gained", "lost"}
    assert {one.rule for one in between(faulty, other).findings} == {"edge-without-fate"}


def test_notes_and_the_writers_sentences_are_compared():
    """Both are printed with the steps."""
    noted = SMALL + 'note "Press as you go."\n'
    said = SMALL.replace("by 1/2", 'by 1/2 "Slowly."')

    assert [(one.change, one.name) for one in between(SMALL, noted).notes] == [("new", "Press as you go.")]
    assert [one.change for one in between(SMALL, said).steps] == ["changed"]


def test_cloth_that_must_not_be_ironed_changes_its_steps():
    """The caution with a step is a part of it."""
    found = between(SMALL, SMALL.replace('"sailcloth"', '"sailcloth", coated'))

    assert [fact.name for fact in found.materials[0].facts] == ["coated"]
    assert [one.change for one in found.steps] == ["changed"]
    assert "Do not iron coated cloth" in found.steps[0].cautions[1][0]


def test_moved_steps_are_as_few_as_can_be():
    """One of five statements carried to the end is one step moved, and four that are not."""
    pieces = "".join(f"piece flag_{name} of sail: 10 x 12\n" for name in "abcde")
    hems = [f"hem flag_{name} edges by 1/2\n" for name in "abcde"]
    head = 'units in\ncloth sail: "sailcloth"\n' + pieces
    moved = between(head + "".join(hems), head + "".join([*hems[:1], *hems[2:], hems[1]])).steps

    assert [(one.change, one.numbers) for one in moved] == [("moved", (3, 6))]
    assert "flag_b" in moved[0].after


def test_a_renamed_piece_whose_size_changed_too_is_gone_and_new():
    """Only identical facts look like a new name."""
    after = SMALL.replace("flag", "banner").replace("10 x", "11 x")
    comparison = between(SMALL, after)

    assert not comparison.renamed
    assert {(one.name, one.change) for one in comparison.pieces} == {("flag", "gone"), ("banner", "new")}


def test_two_names_changed_at_once_are_told_apart_by_their_use():
    """Same size, same cloth; only their places in the join tell which is which."""
    text = 'units in\nallowance 1/2\ncloth sail: "s"\npiece a, b of sail: 9 x 9\njoin a.top to b.bottom as c\n'
    after = text.replace(" a, b ", " m, n ").replace("a.top", "n.top").replace("b.bottom", "m.bottom")
    comparison = between(text, after)

    assert {(one.before, one.after) for one in comparison.renamed} == {("a", "n"), ("b", "m")}
    assert not comparison.steps and not comparison.measures and not comparison.findings


# -- the command ---------------------------------------------------------------
@pytest.fixture
def folder(tmp_path):
    (tmp_path / "before.stitch").write_text(BEFORE, "utf-8")
    (tmp_path / "after.stitch").write_text(AFTER, "utf-8")
    (tmp_path / "broken.stitch").write_text(BEFORE + "press\n", "utf-8")
    return tmp_path


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (("before.stitch", "before.stitch"), 0),
        (("before.stitch", "after.stitch"), 1),
        (("before.stitch", "broken.stitch"), 2),
        (("broken.stitch", "broken.stitch"), 2),
        (("before.stitch", "nowhere.stitch"), 2),
        (("before.stitch", "."), 2),
        (("before.stitch",), 2),
        (("before.stitch", "after.stitch", "broken.stitch"), 2),
    ],
)
def test_the_exit_code_says_same_different_or_trouble(arguments, code, folder):
    """0 the same, 1 different, 2 not to be told; never a traceback."""
    done = run(*arguments, cwd=folder)

    assert done.returncode == code
    assert bool(done.stderr.strip()) is (code == 2)
    assert "Traceback" not in done.stderr


def test_what_could_not_be_read_is_said_with_the_comparison(folder):
    """The line is named on both streams' terms: what is missing, and what to run."""
    done = run("broken.stitch", "after.stitch", cwd=folder)

    assert f"broken.stitch: line {BEFORE.count(chr(10)) + 1} could not be read" in done.stdout
    assert "bag deep 4 in -> 5 1/4 in" in done.stdout
    assert "stitchlang check" in done.stderr


def test_what_waits_for_the_whole_is_not_called_lost():
    """A recipe with a broken line hides findings about the whole; they are not called mended."""
    faulty = SMALL.replace("edges", "sides")
    comparison = between(faulty, faulty + "hem flagg.top by 1/2\n")

    assert not [one for one in comparison.findings if one.change == "lost"]
    assert comparison.partly == (False, True)


def test_standard_input_is_one_side(folder):
    """`-` stands for either."""
    assert run("-", "before.stitch", text=BEFORE, cwd=folder).returncode == 0
    assert run("before.stitch", "-", text=AFTER, cwd=folder).returncode == 1


def test_json_has_exact_lengths(folder):
    """5 1/4 in is 133.35 mm, a fraction in text; causes carry their share: 2 x 12.7 mm for the notch."""
    found = json.loads(run("before.stitch", "after.stitch", "--format", "json", cwd=folder).stdout)
    deep = next(one for one in found["measures"] if (one["thing"], one["name"]) == ("bag", "deep"))

    assert found["differs"] is True
    assert Fraction(deep["after"]["millimetres"]) == Fraction("133.35")
    assert {Fraction(one["difference"]["millimetres"]) for one in deep["causes"]} == {
        Fraction("25.4"), Fraction("6.35"),
    }  # fmt: skip


def test_markdown_is_a_note_without_the_recipes_line_numbers(folder):
    """Headings and lists; nothing of lines, which readers of a printed recipe do not have."""
    note = run("before.stitch", "after.stitch", "--format", "markdown", cwd=folder).stdout

    assert note.startswith("# What changed: Ferry tote, revision B\n\nAgainst Ferry tote, revision A.\n")
    assert "- bag deep 4 in → 5 1/4 in: the notch across went from 2 in to 2 1/2 in, counted 2 x;" in note
    assert "(line" not in note
    assert "Local product-safety rules" in note


# -- hostile names ---------------------------------------------------------------
HOSTILE = (
    "\x1b[31mred\x1b[0m \x07\x9b2J\u202eesrever <script>alert(1)</script> <b>&amp; [x](javascript:alert(1)) "
    "![i](http://evil.example/x.png) **bold** `code` ~~no~~ | # @nobody https://evil.example www.evil.example $x$ \\"
)


def hostile(text):
    """A recipe whose title, revision, names of cloth, parts, notes and sentences are hostile."""
    text = re.sub(r'"[^"\n]+"', lambda one: f'"{HOSTILE} {one[0][1:-1]}"', text)
    return text + f'note "{HOSTILE}"\n'


def test_markdown_of_hostile_words_renders_as_plain_words():
    """markdown-it-py, with tables, strike-through and automatic links on, makes nothing of them but text."""
    from markdown_it import MarkdownIt

    from stitchlang.show.compare import compare_markdown

    old, new = stitchlang.read(BEFORE), stitchlang.read(hostile(AFTER))
    note = compare_markdown(compare(old, new), old, new, "in")
    html = MarkdownIt("gfm-like", {"html": True}).render(note)

    assert set(re.findall(r"</?(\w+)", html)) <= {"h1", "h2", "ul", "li", "p"}
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in html
    assert not re.search(r"[^\S\n ]|[\x00-\x09\x0b-\x1f\x7f-\x9f\u202e]", note)


@pytest.mark.parametrize("form", ["text", "markdown", "json"])
def test_nothing_hostile_reaches_the_terminal(form, tmp_path):
    """No format lets a control character through; JSON keeps it as an escape, and the file's name too."""
    (tmp_path / "old.stitch").write_text(BEFORE, "utf-8")
    name = "new\x1b[31m\u202e.stitch"
    (tmp_path / name).write_text(hostile(AFTER) + "press\n", "utf-8")
    done = run("old.stitch", name, "--format", form, cwd=tmp_path)

    assert done.returncode == 2
    assert done.stdout.strip()
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202e]", done.stdout + done.stderr)
    if form == "json":
        assert HOSTILE in json.loads(done.stdout)["new"]["title"]


@settings(max_examples=40, deadline=None, phases=QUICK.phases)
@given(st.text(st.characters(exclude_characters='"\n', codec="utf-8"), max_size=60))
def test_any_title_is_one_plain_line_of_markdown(title):
    """Whatever the words, the note's first heading holds them and nothing grows out of them."""
    from markdown_it import MarkdownIt

    from stitchlang.show.compare import compare_markdown

    old, new = stitchlang.read(SMALL), stitchlang.read(f'recipe "{title}"\n{SMALL}')
    reader = MarkdownIt("gfm-like", {"html": True})
    if not re.search(r"(?i)www|@|:", title):  # GFM 6.9 makes no links of others; this reader does, of `0.al`
        reader.disable("linkify")
    tokens = reader.parse(compare_markdown(compare(old, new), old, new, "in"))
    inner = {token.type for one in tokens for token in one.children or ()}

    assert inner <= {"text", "text_special", "entity"}
    assert not {token.type for token in tokens} & {"html_block", "table_open", "fence", "hr", "blockquote_open"}


def test_two_recipes_of_four_thousand_statements_turned_round_are_compared_in_time():
    """Every step moved: within 60 seconds, and all but one of them are said to have moved."""
    names = range(2000)
    head = 'units in\ncloth sail: "s"\n' + "".join(f"piece f{name} of sail: 9 x 9\n" for name in names)
    hems = [f"hem f{name} edges by 1/2\n" for name in names]
    comparison = between(head + "".join(hems), head + "".join(reversed(hems)))

    assert len([one for one in comparison.steps if one.moved]) == len(names) - 1


# -- git -----------------------------------------------------------------------
CLEAN_GIT = {
    "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1", "GIT_PAGER": "cat", "NO_COLOR": "1",
    **{f"GIT_{who}_{what}": "ferry@example.org" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")},
}  # fmt: skip


def git(cwd, *words, check=True):
    env = {**os.environ, **CLEAN_GIT, "PYTHONPATH": str(ROOT)}
    return subprocess.run(["git", *words], cwd=cwd, capture_output=True, text=True, env=env, check=check)


@pytest.fixture
def repository(tmp_path):
    """A real repository with the pair as two commits, set up with the two lines that README gives."""
    readme = (ROOT / "README.md").read_text("utf-8")
    attribute = re.search(r"^echo '(\*\.stitch diff=stitchlang)' >> \.gitattributes$", readme, re.MULTILINE)[1]
    setting = re.search(r'^git config (diff\.stitchlang\.command) "(stitchlang diff)"$', readme, re.MULTILINE)
    command = setting[2].replace("stitchlang", f'"{sys.executable}" -m stitchlang', 1)
    git(tmp_path, "init", "-q")
    git(tmp_path, "config", setting[1], command)
    (tmp_path / ".gitattributes").write_text(attribute + "\n")
    for text in (BEFORE, AFTER):
        (tmp_path / "bag.stitch").write_text(text, "utf-8")
        git(tmp_path, "add", ".")
        git(tmp_path, "commit", "-qm", "a revision")
    return tmp_path


def test_git_shows_what_changed_in_the_bag(repository):
    """`git diff` calls us for a recipe, by the two lines of README, and goes on to the other files."""
    (repository / "notes.txt").write_text("more\n")
    git(repository, "add", ".")
    done = git(repository, "diff", "HEAD~1")

    assert "bag deep 4 in -> 5 1/4 in: the notch across went" in done.stdout
    assert done.stdout.startswith("bag.stitch\n")
    assert "+more" in done.stdout
    assert "+notch" not in done.stdout
    assert "bag deep 4 in -> 5 1/4 in" in git(repository, "log", "-1", "-p", "--ext-diff").stdout


def test_git_shows_new_deleted_and_renamed_recipes(repository):
    """A file on one side only, and one that git takes for renamed, which it hands over with nine words."""
    (repository / "other.stitch").write_text(SMALL, "utf-8")
    git(repository, "add", ".")
    new = git(repository, "diff", "--cached").stdout
    git(repository, "commit", "-qm", "another")
    git(repository, "rm", "-q", "other.stitch")
    gone = git(repository, "diff", "--cached").stdout
    git(repository, "reset", "-q", "--hard")
    git(repository, "mv", "bag.stitch", "tote.stitch")
    (repository / "tote.stitch").write_text(AFTER.replace("15 x 16", "15 x 17"), "utf-8")
    moved = git(repository, "diff", "-M", "HEAD").stdout

    assert "flag: new, rectangle, 10 in wide, 12 in tall" in new
    assert "flag: gone, rectangle, 10 in wide, 12 in tall" in gone
    assert "nothing-to-check" not in new + gone
    assert moved.startswith("bag.stitch -> tote.stitch\n")
    assert "front: tall 16 in -> 17 in" in moved


def test_git_goes_on_past_what_cannot_be_read(repository):
    """A recipe that is no text, then one that is broken: a word on each, and git ends well."""
    (repository / "bad.stitch").write_bytes(b"\xff\xfe")
    (repository / "broken.stitch").write_text(SMALL + "press\n")
    git(repository, "add", ".")
    done = git(repository, "diff", "--cached")

    assert "bad.stitch: line 1, byte 1: not UTF-8" in done.stderr
    assert "broken.stitch: line 6 could not be read" in " ".join(done.stdout.split())


def test_git_reformatting_is_no_difference(repository):
    """The one layout of a recipe: nothing in the bag."""
    text = AFTER.replace("    ", " ") + "# a comment\n"
    (repository / "bag.stitch").write_text(text, "utf-8")

    assert "No difference in the bag." in git(repository, "diff").stdout


def test_git_unmerged_file(repository):
    """Git calls us with the path alone for a file in conflict: a word, and no trouble."""
    git(repository, "checkout", "-qb", "side", "HEAD~1")
    (repository / "bag.stitch").write_text(BEFORE.replace("15 x 16", "15 x 18"), "utf-8")
    git(repository, "commit", "-qam", "side")
    assert git(repository, "merge", "-q", "-", check=False).returncode
    done = git(repository, "diff", "--cached")

    assert "bag.stitch: not merged yet" in done.stdout


def test_revisions_are_read_through_git(repository):
    """`HEAD~1:bag.stitch`, the index, a path from a folder inside; the same texts as the files."""
    (repository / "inner").mkdir()
    done = run("HEAD~1:bag.stitch", "bag.stitch", cwd=repository)

    assert done.returncode == 1
    assert "bag deep 4 in -> 5 1/4 in" in done.stdout
    assert run(":bag.stitch", "HEAD:bag.stitch", cwd=repository).returncode == 0
    assert run("HEAD:../bag.stitch", "HEAD:./../bag.stitch", cwd=repository / "inner").returncode == 0


@pytest.mark.parametrize(
    ("argument", "words"),
    [
        ("v9:bag.stitch", "git knows no revision `v9`"),
        ("HEAD:tote.stitch", "there is no file `tote.stitch` in revision `HEAD`"),
        ("--output=x:bag.stitch", "not the name of a revision"),
        ("HEAD:", "no such file"),
        ("HEAD\x1b[31m:bag.stitch", "not the name of a revision"),
        ("HEAD:.", "there is no file"),
    ],
)
def test_a_revision_that_is_not_there_is_said_plainly(argument, words, repository):
    """Which of the two is wrong, revision or path; git's options cannot be smuggled in."""
    done = run("--", argument, "bag.stitch", cwd=repository)

    assert done.returncode == 2
    assert words in done.stderr
    assert "\x1b" not in done.stderr
    assert sorted(os.listdir(repository)) == [".git", ".gitattributes", "bag.stitch"]


def test_without_git_or_outside_a_repository_it_is_said(tmp_path):
    """No repository, then no git on the path at all."""
    (tmp_path / "bag.stitch").write_text(SMALL, "utf-8")
    outside = run("HEAD:bag.stitch", "bag.stitch", cwd=tmp_path, env={"GIT_CEILING_DIRECTORIES": str(tmp_path.parent)})
    without = run("HEAD:bag.stitch", "bag.stitch", cwd=tmp_path, env={"PATH": str(tmp_path)})

    assert outside.returncode == without.returncode == 2
    assert "no git repository" in outside.stderr
    assert "git, which could look for it" in without.stderr


def test_a_file_whose_name_has_a_colon_wins(repository):
    """`HEAD:bag.stitch` as a real file is read as one."""
    (repository / "HEAD:bag.stitch").write_text(BEFORE, "utf-8")

    assert run("HEAD:bag.stitch", "HEAD~1:bag.stitch", cwd=repository).returncode == 0


def test_a_single_file_is_wrong_usage_outside_git(monkeypatch, capsys, folder):
    """Only git may hand over one path."""
    monkeypatch.delenv("GIT_DIFF_PATH_TOTAL", raising=False)
    with pytest.raises(SystemExit) as stopped:
        cli.main(["diff", str(folder / "before.stitch")])

    assert stopped.value.code == 2
    assert "OLD and NEW are wanted" in capsys.readouterr().err
