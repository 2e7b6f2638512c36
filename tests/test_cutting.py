"""The cutting list, the shopping list, and the rules that hold them against what there is."""

import csv
import io
import json
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import stitchlang
from stitchlang.ground.lengths import MM, PI
from stitchlang.model.needs import cut_from, least_area
from stitchlang.show.cut_words import area, long_length
from stitchlang.show.cutting import cutting_text
from stitchlang.show.cutting_data import cell
from stitchlang.work.cutting import cutting, cutting_in_sizes

ROOT = Path(__file__).parent.parent
INCH = MM["in"]
HEAD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"{}\n'


def lists(*lines, cloth=""):
    return cutting(stitchlang.read("\n".join([HEAD.format(cloth), *lines]) + "\n"))


def sizes(batch):
    """Piece to (count, across, up) in inches."""
    return {cut.piece.name: (cut.count, cut.wide / INCH, cut.tall / INCH) for cut in batch.cuts}


def run(*arguments, text="", cwd=ROOT):
    return subprocess.run(
        [sys.executable, "-m", "stitchlang", "cut", *arguments],
        input=text, capture_output=True, text=True, cwd=cwd, check=False,
        env={"PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip


# ------------------------------------------------------------------ sizes
PUBLISHED = """\
units in
allowance 1/2
let h = 12 1/2
let w = 13
let d = 4
cloth duck: "duck", 45 wide
piece body of duck: 2 * w + 2 * d + 1 x h + d / 2 + 1
fold body in half, left to right
join body along right, bottom as bag
box bag pinched d across
hem bag.rim by 1/2
finished bag: h tall, w wide at base, d deep
"""


def test_a_published_cut_size():
    """Height 12 1/2, width 13, depth 4, seams 1/2: 35 x 15 1/2 to cut (ktgreendesign.com/lets-calculate)."""
    recipe = stitchlang.read(PUBLISHED)
    (batch,) = cutting(recipe).batches

    assert sizes(batch) == {"body": (1, 35, Fraction("15.5"))}
    assert batch.length == Fraction("15.5") * INCH
    assert stitchlang.check(recipe) == []


def test_a_piece_on_the_fold_counts_unfolded():
    """8 x 12 drawn half at the left is 16 x 12, at the bottom 8 x 24."""
    (batch,) = lists(
        "piece one of sail: 8 x 12, on fold at left", "piece two of sail: 8 x 12, on fold at bottom"
    ).batches

    assert sizes(batch) == {"one": (1, 16, 12), "two": (1, 8, 24)}


@pytest.mark.parametrize(
    ("piece", "fate", "wide", "tall"),
    [
        ("10 x 12", "hem {} edges by 1/2", 9, 11),
        ("10 x 12", "hem {0}.top by 1/2 then 1\nleave {0}.left, bottom, right raw", 10, "10.5"),
        ("circle 9 across", "hem {} edges by 1/2", 8, 8),
        # The sides lean by 3 in 4 over the height: each loses 1/2 x 5 / 4 level, so the top 9 + 1/2 x (3/4) x 2 - 5/4.
        ("15 at top, 9 at bottom, 4 tall", "hem {0}.left, right by 1/2\nleave {0}.top, bottom raw", "13.75", 4),
    ],
)
def test_interfacing_is_cut_clear_of_the_allowances(piece, fate, wide, tall):
    """What seams and hems take is left off; worked by hand."""
    _, crisp = lists(
        'interfacing crisp: "woven"', f"piece flag of sail: {piece}, with crisp", fate.format("flag")
    ).batches

    assert sizes(crisp) == {"flag": (1, Fraction(wide), Fraction(tall))}
    assert crisp.area == Fraction(wide) * Fraction(tall) * INCH**2
    assert crisp.length is None


@pytest.mark.parametrize("how", ["whole", "before cutting"])
def test_interfacing_into_the_allowances_is_as_large_as_its_piece(how):
    """10 x 12 stays 10 x 12."""
    _, crisp = lists(
        'interfacing crisp: "woven"', f"piece flag of sail: 10 x 12, with crisp {how}", "hem flag edges by 1/2"
    ).batches

    assert sizes(crisp) == {"flag": (1, 10, 12)}


def test_interfacing_that_the_allowances_leave_nothing_of_is_not_cut():
    """1 x 12 with 1/2 off each side: nothing, and no piece of no size in the list."""
    found = lists('interfacing crisp: "woven"', "piece flag of sail: 1 x 12, with crisp", "hem flag edges by 1/2")

    assert [batch.stuff.name for batch in found.batches] == ["sail"]


def test_batting_is_cut_for_what_is_quilted():
    """As large as the panel."""
    found = lists("batting warm: 3 mm thick", "piece flag of sail: 10 x 12", "quilt flag with warm, in rows 2 apart")

    assert sizes(found.batches[1]) == {"flag": (1, 10, 12)}


# ------------------------------------------------------------------ how much
def test_cloth_by_a_layout_and_without_a_width():
    """Two of 20 lie side by side on 44: 22 long; without a width there is an area of 2 x 20 x 22 and no length."""
    pieces = "piece front, back of sail: 20 x 22"
    (known,), (unknown,) = lists(pieces, cloth=", 44 wide").batches, lists(pieces).batches

    assert known.length == 22 * INCH
    assert unknown.length is None
    assert known.area == unknown.area == 880 * INCH**2


def test_webbing_is_added_up():
    """Two of 24 and one of 4: 52, however wide the webbing is."""
    found = lists("webbing tape: 1 wide", "piece handle of tape: 1 x 24, cut 2", "piece loop of tape: 1 x 4")

    assert found.batches[0].length == 52 * INCH


def test_what_is_found_whole_takes_no_cloth():
    """A napkin of 20 x 20 is in the list, and not in the length."""
    (batch,) = lists(
        "piece flag of sail: 10 x 12", "piece napkin of sail: 20 x 20, salvaged", cloth=", 44 wide"
    ).batches

    assert batch.length == 12 * INCH
    assert batch.area == 120 * INCH**2
    assert "napkin" in sizes(batch)


def test_binding_and_cord_by_what_they_run_along():
    """All round 10 x 12, 44; and a casing 18 round with 75 mm of cord out at each end (common practice, no source)."""
    bag = (
        "piece front, back of sail: 10 x 12",
        "join front to back along sides, bottom, leaving 1 open in left for draw as bag",
    )
    found = lists(
        "binding tape: 1/2 wide", "piece mat of sail: 10 x 12", "bind mat edges with tape", "cord draw: 5 mm across",
        *bag, "hem bag.rim by 1/4 then 1", "thread draw through bag.rim",
    )  # fmt: skip
    used = {notion.stuff.name: notion.length for notion in found.notions}

    assert used == {"tape": 44 * INCH, "draw": 18 * INCH + 150}


def test_hardware_is_listed_as_often_as_the_recipe_says():
    """The satchel's list: its zip, snap and slider once, its rings and hooks twice."""
    path = ROOT / "examples" / "satchel.stitch"
    found = cutting(stitchlang.read(path.read_text("utf-8")))

    assert {notion.stuff.name: notion.count for notion in found.notions} == {
        "mouth": 1, "clasp": 1, "dee": 2, "clip": 2, "slide": 1,
    }  # fmt: skip


@pytest.mark.parametrize(
    ("piece", "square_inches"),
    [
        ("10 x 12", 120),
        ("circle 10 across", 25 * PI),
        ("15 at top, 9 at bottom, 4 tall", 48),
        ("10 x 12, bottom corners rounded 2", 120 - 2 * (4 - PI)),
        ("10 x 12, bottom pointed 3", 120 - 15),
    ],
)
def test_the_least_area_is_the_piece_itself(piece, square_inches):
    """No more than the outline, by school geometry: the area that no layout can do without."""
    recipe = stitchlang.read(HEAD.format("") + f"piece flag of sail: {piece}\n")
    ((_, cuts),) = cut_from(recipe).items()

    assert abs(least_area(cuts) / INCH**2 - square_inches) < Fraction(1, 10**30)


def test_areas_and_spools_are_rounded_up():
    """A square metre is 1.1960 square yards (0.9144 m to the yard, 1959); 9.2 m are 10.06 yd, so 11 yd or 10 m."""
    assert area(10**6, "in") == "1.2 yd2 or 1 m2"
    assert area(10**6 + 1, "cm") == "1.01 m2"
    assert long_length(9200, "in") == "11 yd (10 m)"
    assert long_length(9000, "mm") == "9 m"


def test_an_area_is_exact_however_large():
    """2**53 + 1 hundredths of a square metre: the least number of hundredths that a float cannot hold."""
    assert area((2**53 + 1) * 10**4, "cm") == "90071992547409.93 m2"


# ------------------------------------------------------------------ rules
def severities(*lines, cloth=""):
    recipe = stitchlang.read("\n".join([HEAD.format(cloth), *lines]) + "\n")
    return {finding.rule: finding.severity for finding in stitchlang.check(recipe)}


FLAG = "hem flag edges by 1/2"


@pytest.mark.parametrize(
    ("piece", "cloth", "expected"),
    [
        ("20 x 20, cut 4", "40 wide, 40 long", {}),
        # 1600 square inches on 40 wide take 40: 39 can never do.
        ("20 x 20, cut 4", "40 wide, 39 long", {"not-enough-cloth": "fault"}),
        # 3 x 20 x 20 take 30 by area and 40 by the layout: perhaps a closer one does.
        ("20 x 20, cut 3", "40 wide, 39 long", {"not-enough-cloth": "doubt"}),
        ("20 x 20, cut 3", "40 wide, 29 long", {"not-enough-cloth": "fault"}),
        # Circles need less than their boxes: pi x 100 x 4 / 40 = 31.4.
        ("circle 20 across, cut 4", "40 wide, 32 long", {"not-enough-cloth": "doubt"}),
        ("circle 20 across, cut 4", "40 wide, 31 long", {"not-enough-cloth": "fault"}),
        # Taller than there is: across the grain it would go on, or not.
        ("20 x 35", "40 wide, 30 long", {"not-enough-cloth": "doubt"}),
        ("20 x 45", "40 wide, 30 long", {"not-enough-cloth": "fault"}),
        ("45 x 20", "40 wide", {"piece-wider-than-cloth": "doubt"}),
        ("45 x 20", "40 wide, 44 long", {"piece-wider-than-cloth": "fault"}),
        ("45 x 20, salvaged", "40 wide, 10 long", {}),
    ],
)
def test_cloth_needed_against_cloth_had(piece, cloth, expected):
    """A fault only where no layout can do: the area alone, or a piece that fits neither way."""
    fate = "leave flag edges finished" if "salvaged" in piece else FLAG

    assert severities(f"piece flag of sail: {piece}", fate, cloth=f", {cloth}") == expected


def test_interfacing_may_be_put_together():
    """A piece wider than its interfacing is only asked about."""
    lines = ('interfacing crisp: "woven", 8 wide', "piece flag of sail: 10 x 12, with crisp", FLAG)

    assert severities(*lines) == {"piece-wider-than-cloth": "doubt"}


SHELL = ("join front to back along sides, bottom as bag", "hem bag.rim by 1/2")


ON_FRONT, ON_BACK = "set pop on front, centred, 2 below top", "set pop on back, centred, 2 below top"
MIRRORED = "set pop on front and back, 2 from left, 2 below top, mirrored"


@pytest.mark.parametrize(
    ("stuff", "lines", "trips"),
    [
        # Two statements with a panel each are the two halves of one snap.
        ("snap pop: press, 1/2 across", (ON_FRONT, ON_BACK), False),
        ("snap pop: press, 1/2 across", (MIRRORED,), True),
        ("snap pop: press, 1/2 across, 2 of", (MIRRORED,), False),
        ("eyelet pop: 6 mm inside, 3 of", (MIRRORED,), True),
        ("eyelet pop: 6 mm inside, 4 of", (MIRRORED,), False),
        ("rivet pop: 9 mm across, 2 of", (MIRRORED,), False),
        ("rivet pop: 9 mm across", (MIRRORED,), True),
        ("button pop: 5/8 across", (ON_FRONT, ON_BACK), True),
    ],
)
def test_counts_against_the_list(stuff, lines, trips):
    """Halves of snaps make snaps; a rivet goes through both panels; the rest are counted one by one."""
    found = severities(stuff, "piece front, back of sail: 10 x 12", *lines, *SHELL)

    assert ("more-used-than-listed" in found) == trips


STRAP = ("fold strap in quarters", "topstitch strap sides at 1/8", "thread strap through clip, turned back 1")


@pytest.mark.parametrize(
    ("stuff", "cut", "trips"),
    [
        ("hook clip: 1 inside", "", False),
        ("hook clip: 1 inside", ", cut 2", True),
        ("hook clip: 1 inside, 2 of", ", cut 2", False),
        ("ring clip: 1 inside", ", cut 2", False),
    ],
)
def test_each_strap_takes_a_hook_of_its_own(stuff, cut, trips):
    """A ring may join two straps; a hook or slider carries one."""
    found = severities(stuff, f"piece strap of sail: 4 x 20{cut}", *STRAP)

    assert ("more-used-than-listed" in found) == trips


@pytest.mark.parametrize(("long", "trips"), [("36", False), ("35 1/2", True)])
def test_cord_for_piping_is_as_long_as_its_strip(long, trips):
    """A strip of 36 takes 36 of cord."""
    lines = (
        f"cord filler: 5 mm across, {long} long",
        "piece front, back of sail: 12 x 12",
        "piece welt of sail: 2 x 36",
        "wrap welt round filler",
        "join front to back along sides, bottom, catching welt.right as bag",
        "leave welt.ends raw",
        "hem bag.rim by 1/2",
    )

    assert severities(*lines) == ({"not-enough-length": "fault"} if trips else {})


# ------------------------------------------------------------------ printing
GOOD = 'recipe "=1+1"\nunits in\ncloth sail: "@sail", 44 wide\npiece flag of sail: 10 x 12 1/3\nhem flag edges by 1/2\n'


def test_csv_cells_are_safe_and_exact():
    """The writer's `@sail` gets an apostrophe; 10 in is 254 mm, 12 1/3 in 313.266667 mm to a millionth."""
    done = run("-", "--format", "csv", text=GOOD)
    cut, buy, spool = csv.DictReader(io.StringIO(done.stdout))

    assert done.returncode == 0
    assert cut["called"] == "'@sail"
    assert (cut["piece"], cut["count"], cut["width_mm"], cut["height_mm"]) == ("flag", "1", "254", "313.266667")
    assert (buy["list"], buy["length_mm"]) == ("buy", "313.266667")
    assert spool["stuff"] == "thread"


@pytest.mark.parametrize("begins", ["=", "+", "-", "@", "\t", "\r", " =", "＝"])
def test_no_cell_is_a_formula(begins):
    """The characters that owasp.org/www-community/attacks/CSV_Injection lists, and full-width ones."""
    assert cell(begins + "cmd|' /C calc'!A0").startswith("'")


@given(st.text(max_size=20))
def test_any_cell_comes_back_whole_and_printable(text):
    """Whatever the text: no formula, nothing that moves a cursor, and the same text where it was harmless."""
    shown = cell(text)

    assert not shown.lstrip(" ").startswith(("=", "+", "-", "@", "\t", "\r"))
    assert all(letter.isprintable() or letter == "\n" for letter in shown)
    if text.isprintable() and text.lstrip()[:1].isalnum():
        assert shown == text


def test_json_is_exact():
    """Millimetres as fractions in text: 12 1/3 in is 4699/15 mm; 40.667 in of hem is not rounded either."""
    found = json.loads(run("-", "--format", "json", text=GOOD).stdout)
    (size,) = found["sizes"]
    (piece,) = size["cutting"][0]["pieces"]

    assert set(found) == {"recipe", "revision", "unit", "sizes"}
    assert set(size) == {"size", "cutting", "shopping", "thread"}
    assert Fraction(piece["tall"]["millimetres"]) == Fraction(37, 3) * INCH
    assert Fraction(size["shopping"][0]["length"]["millimetres"]) == Fraction(37, 3) * INCH
    assert Fraction(size["thread"]["seam"]["millimetres"]) == 2 * (9 + Fraction(34, 3)) * INCH


@pytest.mark.parametrize("form", ["text", "csv", "json"])
def test_nothing_printed_moves_a_cursor(form):
    """An escape and a right-to-left override in the writer's words come out as harmless marks, or as JSON escapes."""
    done = run("-", "--format", form, text=GOOD.replace("@sail", "\x9b2J \u202e sail"))

    assert done.stdout.replace("\n", "").isprintable()
    if form == "json":
        assert json.loads(done.stdout)["sizes"][0]["cutting"][0]["called"] == "\x9b2J \u202e sail"


def test_the_text_tells_what_to_cut_and_what_to_have():
    """Sizes, notes, the layout, what is over, and the caution that it is not the least."""
    text = GOOD.replace("44 wide", "44 wide, 20 long").replace("12 1/3", "12, bottom corners rounded 2")
    said = " ".join(run("-", text=text).stdout.split())

    assert "1 x flag 10 in x 12 in; bottom left and bottom right corners rounded to 2 in" in said
    assert "44 in wide: 12 in" in said
    assert "the recipe has 20 in, 8 in to spare" in said
    assert "enough, and often not the least there could be" in said


SIZES = """\
units in
let wide = 10, 14 for small, large
cloth sail: "sailcloth", 44 wide
piece flag of sail: wide x 12, cut 4
hem flag edges by 1/2
"""


def test_each_size_has_its_own_lists():
    """Four of 10 lie side by side on 44, 12 long; of 14 only three, so 24.  One size can be asked for."""
    found = cutting_in_sizes(stitchlang.read(SIZES))
    said, rows = run("-", text=SIZES).stdout, run("-", "--format", "csv", text=SIZES).stdout

    assert [(lists.size, lists.batches[0].length / INCH) for lists in found] == [("small", 12), ("large", 24)]
    assert said.count("Cutting list, size") == 2
    assert {row["size"] for row in csv.DictReader(io.StringIO(rows))} == {"small", "large"}
    assert [one["size"] for one in json.loads(run("-", "--format", "json", text=SIZES).stdout)["sizes"]] == [
        "small",
        "large",
    ]
    assert "4 x flag  14 in x 12 in" in run("-", "--size", "large", text=SIZES).stdout
    assert run("-", "--size", "huge", text=SIZES).returncode == 2


def test_units_can_be_asked_for():
    """10 in is 25.4 cm."""
    assert "25.4 cm x" in run("-", "--units", "cm", text=GOOD).stdout


def test_it_writes_a_file(tmp_path):
    """`-o` writes what would have been printed, and prints nothing."""
    done = run("-", "--format", "csv", "-o", str(tmp_path / "out.csv"), text=GOOD)

    assert (done.returncode, done.stdout) == (0, "")
    assert (tmp_path / "out.csv").read_text("utf-8") == run("-", "--format", "csv", text=GOOD).stdout


@pytest.mark.parametrize(
    ("text", "code"), [(GOOD, 0), (GOOD.replace("edges", "sides"), 1), ("pres", 2), ("", 2), (GOOD + "hemm it\n", 2)]
)
def test_exit_codes_and_a_word_where_the_recipe_is_faulty(text, code):
    """Faults are 1 with a warning; what cannot be read is 2; there is never a traceback."""
    done = run("-", text=text)

    assert done.returncode == code
    assert bool(done.stderr) == bool(code)
    assert "Traceback" not in done.stderr


def test_an_unwritable_file_is_said(tmp_path):
    """A folder that is not there: one line, exit 2."""
    done = run("-", "-o", str(tmp_path / "nowhere" / "out.csv"), text=GOOD)

    assert done.returncode == 2
    assert "not written" in done.stderr


RECIPES = sorted(
    [*ROOT.glob("examples/*.stitch"), *ROOT.glob("tests/field/*.stitch"), *ROOT.glob("tests/broken/*.stitch")]
)


def every_format(text):
    """Both lists in every format, as the command prints them."""
    from stitchlang.show.cutting import cutting_text
    from stitchlang.show.cutting_data import cutting_csv, cutting_json

    recipe = stitchlang.read(text)
    found = cutting_in_sizes(recipe)
    return [show(recipe, found, "both") for show in (cutting_text, cutting_csv, cutting_json)]


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_every_recipe_has_its_lists_even_a_broken_one(path):
    """Each piece that could be read stands in each of the three formats; JSON and CSV read back."""
    text, table, data = every_format(path.read_text("utf-8"))
    names = {piece.name for piece in stitchlang.read(path.read_text("utf-8")).pieces}

    assert {row["piece"] for row in csv.DictReader(io.StringIO(table))} - {""} >= names
    assert {
        piece["piece"] for size in json.loads(data)["sizes"] for batch in size["cutting"] for piece in batch["pieces"]
    } >= names
    assert all(f" x {name}" in text for name in names)


@given(st.integers(0, 3000), st.sampled_from(["", "0", "x", ", cut 999", "\nfold bag in half", ' "']))
def test_a_text_cut_off_anywhere_falls_over_nowhere(at, more):
    """The full bag, broken off at any letter and gone on with something odd."""
    text = (ROOT / "examples" / "satchel.stitch").read_text("utf-8")

    assert len(every_format(text[:at] + more)) == 3


def test_thousands_of_pieces_do_not_hang():
    """999 of each of three sizes: too many to lay out, so there is an area and no length; quickly."""
    pieces = "\n".join(f"piece p{n} of sail: {n} x {n}, cut 999\nhem p{n} edges by 1/4" for n in (2, 3, 4))
    (batch,) = lists(pieces, cloth=", 44 wide, 10 long").batches

    assert batch.layout is None
    assert batch.area == 999 * (4 + 9 + 16) * INCH**2


@pytest.mark.parametrize(("units", "width"), [("in", "44 in"), ("cm", "112 cm"), ("mm", "112 cm")])
def test_the_width_to_state_is_one_of_cloth(units, width):
    """`44 wide` is a ribbon's width in a recipe in centimetres; 44 in is 111.76 cm."""
    recipe = stitchlang.read(f'units {units}\ncloth sail: "sailcloth"\npiece flag of sail: 10 x 12\n')
    assert f"such as `{width} wide`" in " ".join(cutting_text(recipe, cutting_in_sizes(recipe), units).split())
