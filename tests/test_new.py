"""`stitchlang new`: a starter recipe of every form comes to the finished sizes asked for, and checks clean."""

import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import stitchlang
from stitchlang.ground.lengths import MM, PI
from stitchlang.work.layout import laid_out
from stitchlang.work.starter import Senseless, starter
from stitchlang.work.starter_forms import FORMS

ROOT = Path(__file__).parent.parent
UNITS = ("in", "cm", "mm")
INCHES = st.fractions(min_value=3, max_value=40, max_denominator=16)


def written(number):
    """A Fraction as a whole number and a fraction."""
    whole, rest = divmod(number, 1)
    return f"{whole} {rest}" if rest else str(whole)


def measured(text, thing):
    """The measures of one thing in millimetres."""
    return {one.name: one.working.mm for one in stitchlang.measure(stitchlang.read(text)) if one.thing == thing}


@st.composite
def orders(draw):
    """A form, its sizes in its unit as numbers, a seam and whether it is lined: what somebody may ask for."""
    form = draw(st.sampled_from(sorted(FORMS)))
    unit = draw(st.sampled_from(UNITS))
    scale = {"in": 1, "cm": 2, "mm": 25}[unit]
    sizes = {name: draw(INCHES) * scale for name in FORMS[form].needs}
    seam = draw(st.sampled_from((Fraction(1, 4), Fraction(3, 8), Fraction(1, 2), Fraction(5, 8)))) * scale
    return form, sizes, unit, seam, draw(st.booleans())


@given(orders())
@settings(max_examples=150, deadline=None)
def test_the_recipe_gives_the_sizes_asked_for_and_is_clean(order):
    """Exactly, whatever the form, the unit, the seam and the lining; a circle to 1/1000 mm, since pi is written out."""
    form, sizes, unit, seam, lined = order
    # A lining is turned through a gap in its base or its wall: very deep or very low bags have no room for it.
    assume(sizes.get("deep", 0) <= 2 * sizes.get("wide", 0) and sizes.get("across", 0) <= 2 * sizes["tall"])
    text = starter(form, {name: written(size) for name, size in sizes.items()}, unit, written(seam), lined=lined)
    gives = measured(text, FORMS[form].makes)

    assert stitchlang.check(stitchlang.read(text)) == []
    for name, size in sizes.items():
        measure = "wide at base" if form == "boxed" and name == "wide" else name
        off = abs(gives[measure] - size * MM[unit])
        assert off == 0 if name != "across" else off < Fraction(1, 1000)
    if form == "boxed":  # a boxed bag's mouth is as wide as its base and its depth together
        assert gives["wide at top"] == (sizes["wide"] + sizes["deep"]) * MM[unit]


def test_the_cuts_of_a_boxed_bag_by_hand():
    """10 x 4 x 12 in, seams 1/2: panels 10 + 4 + 1 = 15 wide; 12 + 2 + 1/2 at the base + 1/2 and 1 of hem = 16 tall."""
    recipe = stitchlang.read(starter("boxed", {"wide": "10", "tall": "12", "deep": "4"}))

    front = recipe.things["front"]

    assert (front.width.mm, front.height.mm) == (15 * MM["in"], 16 * MM["in"])


def test_the_wall_of_a_round_bag_by_hand():
    """20 cm across: the wall is pi times 20 and two seams of 1 cm long, 15 and two seams and the hem of 2.5 tall."""
    recipe = stitchlang.read(starter("round", {"across": "20", "tall": "15"}, "cm"))
    wall = recipe.things["wall"]

    assert abs(wall.width.mm - (PI * 200 + 20)) < Fraction(1, 10**6)
    assert wall.height.mm == 195


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("lined", [False, True])
def test_the_text_is_laid_out_and_one_number_changes_everything(form, lined):
    """It is laid out already; each finished size is one `let`, and another number there keeps the recipe clean."""
    text = starter(form, dict.fromkeys(FORMS[form].needs, "10"), lined=lined)
    name = {"wide": "width", "across": "diameter"}[FORMS[form].needs[0]]
    changed = text.replace(f"let       {name} = 10 ", f"let       {name} = 11 1/2 ")

    assert laid_out(text) == text
    assert changed != text
    assert stitchlang.check(stitchlang.read(changed)) == []
    assert all(step.sentence for step in stitchlang.steps(stitchlang.read(text)))


@pytest.mark.parametrize(
    ("form", "sizes", "word"),
    [
        ("flat", {"wide": "10"}, "--tall"),
        ("boxed", {}, "--wide, --tall and --deep"),
        ("flat", {"wide": "10", "tall": "12", "deep": "4"}, "boxed or gusseted"),
        ("round", {"wide": "10", "across": "4", "tall": "12"}, "no size `wide`"),
        ("flat", {"wide": "0", "tall": "12"}, "above nothing"),
        ("flat", {"wide": "-3", "tall": "12"}, "above nothing"),
        ("flat", {"wide": "1/0", "tall": "12"}, "above nothing"),
        ("flat", {"wide": "ten", "tall": "12"}, "`10 1/2`"),
        ("flat", {"wide": "", "tall": "12"}, "wide"),
        ("flat", {"wide": "10\npiece x of y: 1 x 1", "tall": "12"}, "wide"),
        ("flat", {"wide": "10 # wide", "tall": "12"}, "wide"),
        ("flat", {"wide": "10 + 2", "tall": "12"}, "wide"),
        ("flat", {"wide": "9" * 40, "tall": "12"}, "wide"),
        ("flat", {"wide": "100000", "tall": "12"}, "kilometre"),
        ("flat", {"wide": "10 km", "tall": "12"}, "wide"),
        ("boxed", {"wide": "3", "tall": "12", "deep": "40"}, "gap"),
        ("flat", {"wide": "10", "tall": "1"}, "hem"),
    ],
)
def test_senseless_sizes_are_said_to_be_so(form, sizes, word):
    """The message names the size, or the finding that such a bag would have."""
    with pytest.raises(Senseless) as trouble:
        starter(form, sizes, lined=form == "boxed")

    assert word in str(trouble.value)


@pytest.mark.parametrize("title", ["", " ", 'a "big" bag', "two\nlines", "bell\a"])
def test_a_title_stays_between_its_quotes(title):
    """A title can neither close its quotes nor begin a line."""
    with pytest.raises(Senseless):
        starter("flat", {"wide": "10", "tall": "12"}, title=title)


def run(*arguments, cwd):
    return subprocess.run(
        [sys.executable, "-m", "stitchlang", "new", *arguments],
        capture_output=True, text=True, cwd=cwd, check=False, env={"PYTHONPATH": str(ROOT)},
    )  # fmt: skip


def test_a_file_is_written_once_and_overwritten_only_by_force(tmp_path):
    """Exit 2 and the old text where a file is there; a link or a folder in the way is not written over."""
    out = tmp_path / "bag.stitch"
    sizes = ("boxed", "--wide", "10", "1/2", "--tall", "12", "--deep", "4", "--title", "Peg bag", "-o")
    first = run(*sizes, "bag.stitch", cwd=tmp_path)

    assert (first.returncode, first.stderr) == (0, "")
    assert 'recipe    "Peg bag"' in out.read_text("utf-8")
    assert "width = 10 1/2 " in out.read_text("utf-8")

    out.write_text("mine", "utf-8")
    (tmp_path / "link.stitch").symlink_to("nowhere.stitch")
    for path in ("bag.stitch", "link.stitch", "."):
        assert run(*sizes, path, cwd=tmp_path).returncode == 2
    assert out.read_text("utf-8") == "mine"
    assert run(*sizes, ".", "--force", cwd=tmp_path).returncode == 2
    assert run(*sizes, "bag.stitch", "--force", cwd=tmp_path).returncode == 0
    assert out.read_text("utf-8").startswith("# A boxed bag")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["bag.stitch", "link.stitch"]


@pytest.mark.parametrize(
    "arguments",
    [("flat", "--wide", "10"), ("cube", "--wide", "10"), ("flat", "--wide"), (),
     ("flat", "--wide", "10", "--tall", "x"),
     ("flat", "--wide", "10", "--tall", "12", "-o", "no/such/folder/bag.stitch"),
     ("flat", "--wide", "10", "--tall", "12", "--lined", "--hem", "1")],
)  # fmt: skip
def test_wrong_usage_exits_2_says_why_and_writes_nothing(arguments, tmp_path):
    """Nothing is written where anything is wrong."""
    done = run(*arguments, cwd=tmp_path)

    assert done.returncode == 2
    assert done.stderr.strip()
    assert "Traceback" not in done.stderr
    assert (done.stdout, list(tmp_path.iterdir())) == ("", [])
