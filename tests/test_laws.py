"""Laws that hold for every recipe, whatever its numbers and names: the expected value is always the same recipe's own.

They need no source: scaling a thing scales its lengths (Euclid, Elements VI), an inch is 25.4 mm by definition (1959),
a mirror changes no length, and what a thing is called, or which of two jobs apart from each other is written first,
changes nothing about it.  That the laws can fail is proved below each by a twin that must break them.
"""

import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from rewriting import given_names, in_millimetres, mirrored, mirrored_name, renamed, scaled, shuffled
from workroom import Impossible, replay, statements

import stitchlang
from stitchlang.ground.lengths import MM
from stitchlang.rules.catalogue import RULES
from stitchlang.work.layout import laid_out
from stitchlang.work.measure import measured_in_sizes

ROOT = Path(__file__).parent.parent
GOODS = sorted([*ROOT.glob("examples/*.stitch"), *ROOT.glob("tests/field/*.stitch")])
TEXTS = [path.read_text("utf-8") for path in GOODS]
NO_NUMBERS = {"number-too-long", "division-by-zero"}
SMALL = [text for rule in RULES if rule.name not in NO_NUMBERS for text in (rule.trips, rule.passes)]
SLANTED = re.compile(r"\b(?:at top|pointed|clipped|polygon|diagonally)\b")
NEAR = Fraction(1, 10**30)  # roots are worked out to forty places
NUMBER = re.compile(r"(?<![\w./])\d+(?: \d+/\d+|/\d+|\.\d+)?(?![\w./])")
HEAD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\n'
EACH = pytest.mark.parametrize("text", TEXTS, ids=[path.stem for path in GOODS])

some = settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))


@st.composite
def recipes(draw):
    """A recipe that can be read, more often than not with other numbers in it or without one of its statements."""
    text = draw(st.sampled_from(TEXTS) | st.sampled_from(SMALL))
    for _ in range(draw(st.integers(0, 3))):
        places = [found.span() for found in NUMBER.finditer(text)]
        start, end = draw(st.sampled_from(places or [(len(text), len(text))]))
        new = draw(st.integers(1, 40).map(str) | st.sampled_from(["1/4", "3/8", "1 1/2", "10 1/3"]))
        text = text[:start] + new + text[end:]
    lines = text.split("\n")
    if len(lines) > 4 and draw(st.integers(0, 2)) == 2:
        del lines[draw(st.integers(3, len(lines) - 1))]
        text = "\n".join(lines)
    return text if not stitchlang.read(text).reading.stumbles else draw(st.sampled_from(TEXTS))


def measures(text):
    """(thing, measure) to its millimetres in every size."""
    rows = measured_in_sizes(stitchlang.read(text))
    return {(thing, name): [one and one.mm for one in found] for thing, name, found in rows}


def findings(text):
    """(rule, severity, message) of every finding, in text order."""
    return [(one.rule, one.severity, one.says) for one in stitchlang.check(stitchlang.read(text))]


def rules(text):
    """The rules that find something, as often as they do, in no order."""
    return sorted(rule for rule, _, _ in findings(text))


def sentences(text, **options):
    """The steps as told."""
    return [(step.part, step.sentence, step.said) for step in stitchlang.steps(stitchlang.read(text), **options)]


# ------------------------------------------------------------------ layout
def proves_layout(text):
    once = laid_out(text)

    assert laid_out(once) == once
    assert findings(once) == findings(text)
    assert measures(once) == measures(text)
    assert sentences(once) == sentences(text)


@EACH
def test_laid_out_once_or_twice_a_good_is_the_same(text):
    """The layout changes no meaning, and its own result not at all."""
    proves_layout(text)


@some
@given(recipes())
def test_laid_out_once_or_twice_any_recipe_is_the_same(text):
    """The same with other numbers and statements missing."""
    proves_layout(text)


def test_a_layout_that_loses_a_statement_breaks_the_law():
    """A flag without its hem is still a recipe, but its edges are left raw and it is an inch wider."""
    text = HEAD + "piece  flag of sail:8 x 10\nhem flag edges   by 1/2\n"
    whole = laid_out(text)
    lost = whole.replace(whole.splitlines(keepends=True)[-1], "")

    assert measures(lost)["flag", "wide"] == [8 * MM["in"]] and measures(whole)["flag", "wide"] == [7 * MM["in"]]
    assert findings(lost) != findings(whole) == findings(text)


# ------------------------------------------------------------------ scale
def proves_scale(text, k):
    small, large = measures(text), measures(scaled(text, k))
    slack = NEAR if SLANTED.search(text) else 0

    assert small.keys() == large.keys()
    for name, lengths in small.items():
        for one, other in zip(lengths, large[name], strict=True):
            assert (one is None and other is None) or abs(one * k - other) <= slack, (name, k)


@EACH
def test_a_good_twice_or_a_third_as_large_measures_so(text):
    """Every length written, those in sums and those in other units with them; pi is no reason for a difference."""
    for k in (Fraction(2), Fraction(1, 3)):
        proves_scale(text, k)


@some
@given(recipes(), st.fractions(Fraction(1, 8), 8, max_denominator=12))
def test_every_measure_grows_with_every_length(text, k):
    """Any recipe by any factor; what is found may change (a foot does not grow with its bag), no measure may."""
    proves_scale(text, k)


def test_one_length_left_as_it_was_breaks_the_law():
    """With the square cut for the boxed corner not scaled, the bag is no longer twice as deep."""
    text = (ROOT / "examples" / "satchel.stitch").read_text("utf-8")
    wrong = scaled(text, Fraction(2)).replace("bottom corners by 5/2", "bottom corners by 5/4")

    assert measures(scaled(text, Fraction(2)))["bag", "deep"][0] == 2 * measures(text)["bag", "deep"][0]
    assert measures(wrong)["bag", "deep"][0] != 2 * measures(text)["bag", "deep"][0]


# ------------------------------------------------------------------ units
def proves_units(text):
    unit = stitchlang.read(text).unit
    if unit is None:
        return
    metric = in_millimetres(text, unit)

    assert measures(metric) == measures(text)
    assert findings(metric) == findings(text)


@EACH
def test_a_good_in_millimetres_is_the_same_good(text):
    """1 in = 25.4 mm exactly (international yard, 1959): same measures, and the same said of it, word for word."""
    proves_units(text)


@some
@given(recipes())
def test_any_recipe_in_millimetres_is_the_same(text):
    """The same with other numbers and statements missing."""
    proves_units(text)


def test_one_size_without_its_unit_changed_breaks_the_law():
    """8 mm where 8 in was written: the flag is (8 in less two hems of 1/2 in) wide, and then it is not."""
    text = HEAD + "piece flag of sail: 8 x 10\nhem flag edges by 1/2\n"
    metric = in_millimetres(text, "in")

    assert "1016/5 mm x 254 mm" in metric  # 8 x 25.4 is 203.2, 10 x 25.4 is 254
    assert measures(metric)["flag", "wide"] == [7 * MM["in"]] == measures(text)["flag", "wide"]
    assert measures(metric.replace("1016/5 mm", "80 mm")) != measures(text)


# ------------------------------------------------------------------ mirror
POLYGON = """\
units in
allowance 1/2
cloth sail: "sailcloth"
piece front, back of sail: polygon 0 x 8 top, 10 x 8 right, 7 x 0 bottom, 0 x 0 left
piece wide of sail: 9 x 9, bottom corners rounded 2
hem front.top, right by 1/2
hem wide.left by 1
"""


def proves_mirror(text, faulty=False):
    """Where edges that are sewn together differ, a thing has no one height: of a `faulty` text only rules are asked."""

    def turned(name):
        return " ".join(mirrored_name(word) for word in name.split())

    before = {(turned(thing), turned(name)): found for (thing, name), found in measures(text).items()}
    after = measures(mirrored(text))
    slack = NEAR if SLANTED.search(text) else 0

    assert rules(mirrored(text)) == rules(text)
    if faulty:
        return
    assert before.keys() == after.keys()
    for name, lengths in before.items():
        for one, other in zip(lengths, after[name], strict=True):
            assert one == other or abs(one - other) <= slack, name


@EACH
def test_a_good_seen_in_a_mirror_measures_the_same(text):
    """Left for right in every name; the cloth has no handedness here."""
    proves_mirror(text)


@some
@given(recipes() | st.just(POLYGON))
def test_any_recipe_seen_in_a_mirror_measures_the_same(text):
    """The same with other numbers and statements missing, and with an outline by its corners."""
    proves_mirror(text, any(severity == "fault" for _, severity, _ in findings(text)))


def test_a_side_that_is_not_turned_breaks_the_law():
    """Hemmed by 1 in at the left and 1/2 in at the right, its mirror image is hemmed the other way round.

    With both at the right, one side is left raw and the other is sewn twice: other rules speak.
    """
    text = HEAD + (
        "piece flag of sail: 8 x 10\nhem flag.left by 1\nhem flag.right by 1/2\nhem flag.top, bottom by 1/2\n"
    )
    image = mirrored(text)

    assert "flag.right by 1\n" in image and "flag.left by 1/2\n" in image
    assert rules(text) == rules(image) == []
    assert rules(image.replace("flag.left", "flag.right")) != rules(text)


# ------------------------------------------------------------------ names
def proves_names(text, prefix):
    names = {name: f"{prefix}{at}q" for at, name in enumerate(sorted(given_names(text)))}
    other = renamed(text, names)

    assert {(names.get(thing, thing), name): found for (thing, name), found in measures(text).items()} == measures(
        other
    )
    assert rules(other) == rules(text)


@EACH
def test_a_good_by_any_other_names_measures_the_same(text):
    """Nothing is read into a name, neither a number nor a fault."""
    proves_names(text, "zz")


def test_every_rules_example_by_any_other_names_measures_the_same():
    """A piece called by a word of the language keeps it: that is what its rule is about."""
    for text in SMALL:
        proves_names(text, "zz")


@some
@given(recipes(), st.sampled_from(["z", "A", "é", "ß_", "left_of", "xa", "ins"]))
def test_any_recipe_by_any_other_names_measures_the_same(text, prefix):
    """Accents, capitals, names that begin like words of the language; but `x1` is none: `10 x1` are two lengths."""
    proves_names(text, prefix)


def test_a_name_changed_in_one_place_only_breaks_the_law():
    """A piece renamed where it is cut and not where it is hemmed is another recipe."""
    text = HEAD + "piece flag of sail: 8 x 10\nhem flag edges by 1/2\n"
    whole, half = renamed(text, {"flag": "banner"}), text.replace("piece flag", "piece banner")

    assert whole == text.replace("flag", "banner")
    assert rules(whole) == rules(text) == []
    assert rules(half) != rules(text)


# ------------------------------------------------------------------ written order
@some
@given(st.sampled_from(TEXTS) | st.sampled_from(SMALL), st.data())
def test_the_order_of_jobs_apart_changes_no_measure(text, data):
    """Statements that share neither a name nor a thing that theirs are sewn to may be written in any order."""
    other = shuffled(text, lambda number: data.draw(st.integers(0, number - 1)))

    assert measures(other) == measures(text)


def test_the_satchel_can_be_written_in_many_orders():
    """The shuffle moves things: otherwise its law would say nothing."""
    text = (ROOT / "examples" / "satchel.stitch").read_text("utf-8")

    assert len({shuffled(text, lambda number, at=at: at % number) for at in range(5)}) == 5


# ------------------------------------------------------------------ steps
def replayed(text, reverse=False, **options):
    """Do the steps in the order that the program gives them."""
    offsets = [step.at.start for step in stitchlang.steps(stitchlang.read(text), **options) if step.at is not None]
    names = given_names(text)
    givers = {found[1] for found in re.finditer(r"\bas ([^\W\d]\w*)\s*(?:\"[^\"]*\"\s*)?(?:#.*)?$", text, re.M)}
    replay(text, offsets[::-1] if reverse else offsets, names, givers & names)


@EACH
@pytest.mark.parametrize("fewest", [False, True])
def test_the_steps_of_a_good_can_be_done(text, fewest):
    """One after the other in a workroom that reads the words for itself: as written, and with the fewest changes."""
    replayed(text, fewest=fewest)


@pytest.mark.parametrize("line", ["place     back_pocket", "set       clasp", "box       inner", "slip      inner"])
@pytest.mark.parametrize("fewest", [False, True])
def test_work_written_too_late_is_brought_forward(line, fewest):
    """A pocket, a snap, a boxing and a slipping in, written at the very end, still come where they can be done."""
    text = (ROOT / "examples" / "satchel.stitch").read_text("utf-8")
    found = re.search(rf"^{line}.*\n(?: +\S.*\n)*", text, re.M)[0]
    late = text.replace(found, "").replace("finished  bag", f"{found}finished  bag")

    replayed(late, fewest=fewest)


@some
@given(st.sampled_from(TEXTS), st.data())
def test_steps_of_recipes_written_in_another_order_can_be_done(text, data):
    """However the jobs are mixed in writing, both orders that are offered can be done."""
    other = shuffled(text, lambda number: data.draw(st.integers(0, number - 1)))

    replayed(other)
    replayed(other, fewest=True)


@pytest.mark.parametrize("name", ["satchel", "zip_pouch", "bucket", "lunch_sack"])
def test_the_workroom_refuses_what_cannot_be_done(name):
    """Backwards no bag can be made."""
    with pytest.raises(Impossible):
        replayed((ROOT / "examples" / f"{name}.stitch").read_text("utf-8"), reverse=True)


@pytest.mark.parametrize(
    ("late", "early"),
    [
        ("place back_pocket", "join front to back"),
        ("set clasp", "join inner.rim"),
        ("turn bag", "close inner.bottom"),
        ("box inner", "join inner.rim"),
        ("slip inner", "join inner.rim"),
        ("notch front,", "join front to back"),
        ("baste pouch", "join front to back"),
        ("topstitch tab", "baste tab"),
        ("join low.top", "topstitch low.top"),
    ],
)
def test_the_workroom_refuses_two_steps_the_wrong_way_round(late, early):
    """Each pair of the satchel's steps that a sewer could not change over."""
    text = (ROOT / "examples" / "satchel.stitch").read_text("utf-8")
    steps = [step.at.start for step in stitchlang.steps(stitchlang.read(text)) if step.at is not None]
    words = dict(statements(text))
    one, other = (next(at for at in steps if words[at].startswith(start)) for start in (late, early))
    order = [at for at in steps if at != one]
    order.insert(order.index(other) + 1, one)
    names = given_names(text)
    givers = {name for name in names if re.search(rf"\bas {name}\b", text)}

    replay(text, steps, names, givers)
    with pytest.raises(Impossible):
        replay(text, order, names, givers)
