"""Recipes made of several files: what is brought in, what is refused, and that every place keeps its file."""

import json
import os
import re
import subprocess
import sys
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import stitchlang
from stitchlang.checking.one import Wish
from stitchlang.checking.watch import watch
from stitchlang.files import beside, recipe_paths
from stitchlang.ground.text import Source
from stitchlang.reading.using import MOST_ASKED, MOST_FILES, NotUsable, joined
from stitchlang.show.findings import finding_text
from stitchlang.work.mend import mended

STRAP = """\
recipe "Strap"
units cm
allowance 1
cloth duck: "tent duck"
allow edge-without-fate "the bag that uses it sews its ends in"
piece strap of duck: 10 x 80
fold strap in quarters
topstitch strap sides at 3 mm
finished strap: 2.5 wide
"""
BAG = """\
recipe "Bag"
units in
allowance 1/2
cloth duck: "tent duck"
part "Straps"
use "parts/strap.stitch"
part "Bag"
piece front, back of duck: 10 x 12
baste strap.ends to front.top, back.top
join front to back along sides, bottom as bag
hem bag.rim by 1/2
finished bag: 9 wide
"""

HERE = Path(__file__).parent
LINE = re.compile(r"line \d+(?: of part\.stitch| of <recipe>)?")
# Their fault lies in the heading, which each file has of its own; or is none where another file may mend it.
HEADS = ("length-without-unit", "said-twice", "nothing-to-allow", "allowance-unsaid")
WHOLE = [*sorted(HERE.parent.glob("examples/*.stitch")), *sorted(HERE.glob("broken/*.stitch"))]
WHOLE = [path for path in WHOLE if not path.stem.endswith(HEADS)]


def opening(files):
    """An opener of texts that are not on the disk."""

    def opener(words, _):
        if words not in files:
            raise NotUsable("no such file")
        return words, files[words]

    return opener


def read(text, name="bag.stitch", **files):
    """A recipe that uses texts; `strap_stitch` stands for strap.stitch."""
    return stitchlang.read(text, name, opening({one.replace("_", "."): two for one, two in files.items()}))


def rules(recipe):
    return [one.rule for one in stitchlang.check(recipe)]


def shelf(folder, bag=BAG, strap=STRAP):
    """A folder with a bag and, below it, the strap that it uses: the bag's path."""
    (folder / "parts").mkdir()
    (folder / "parts" / "strap.stitch").write_text(strap, "utf-8")
    (folder / "bag.stitch").write_text(bag, "utf-8")
    return folder / "bag.stitch"


def run(folder, *words, text=None):
    command = [sys.executable, "-m", "stitchlang", *map(str, words)]
    return subprocess.run(command, input=text, capture_output=True, text=True, cwd=folder, check=False)


# -- what it means ------------------------------------------------------------
def test_each_file_has_its_own_units_and_allowance():
    """A strap cut 10 cm wide and folded in four is 2.5 cm (a quarter: common practice), in a bag measured in inches."""
    recipe = stitchlang.read(BAG, "bag.stitch", opening({"parts/strap.stitch": STRAP}))
    found = {one.title: one.working.mm for one in stitchlang.measure(recipe)}

    assert rules(recipe) == []
    assert found["strap wide"] == 25
    assert found["bag wide"] == Fraction(254, 10) * 9  # 10 in less half an inch at each side
    assert recipe.unit == "in"
    assert recipe.title == "Bag"


def test_a_part_ends_with_its_file():
    """The strap's own title heads its steps; behind it the bag's parts go on."""
    steps = stitchlang.steps(stitchlang.read(BAG, "bag.stitch", opening({"parts/strap.stitch": STRAP})))
    told = [(step.part, step.sentence.split()[0]) for step in steps]

    assert [part for part, _ in told] == ["Cutting", "Strap", "Strap", "Bag", "Bag", "Bag"]
    assert [word for _, word in told] == ["From", "Press", "Topstitch", "Baste", "Join", "Hem"]


@pytest.mark.parametrize(
    ("cloth", "found"),
    [
        ('cloth duck: "tent duck"', []),
        ('cloth   duck:   "tent duck"', []),
        ('cloth duck: "awning"', ["name-given-twice"]),
    ],
)
def test_a_cloth_that_both_state_word_for_word_is_one(cloth, found):
    text = BAG.replace('cloth duck: "tent duck"', cloth)
    assert rules(stitchlang.read(text, "bag.stitch", opening({"parts/strap.stitch": STRAP}))) == found


@pytest.mark.parametrize(("width", "found"), [("54 in wide", []), ("54 wide", ["name-given-twice"])])
def test_the_same_number_in_another_unit_is_another_cloth(width, found):
    """54 in a file in centimetres is not 54 in one in inches; where the unit is written it is."""
    cloth = f'cloth duck: "tent duck", {width}'
    files = {"parts/strap.stitch": STRAP.replace('cloth duck: "tent duck"', cloth)}
    text = BAG.replace('cloth duck: "tent duck"', cloth)

    assert rules(stitchlang.read(text, "bag.stitch", opening(files))) == found


def test_a_third_file_that_two_use_is_brought_in_once():
    cloth = 'units in\ncloth duck: "duck"\n'
    one, two = (f'units in\nuse "c.stitch"\npiece {name} of duck: 9 x 9\nhem {name}.top by 1/2\n' for name in "ab")
    recipe = read(
        'units in\nuse "a.stitch"\nuse "b.stitch"\nallowance 1/2\njoin a to b along sides, bottom as bag\n',
        a_stitch=one,
        b_stitch=two,
        c_stitch=cloth,
    )

    assert rules(recipe) == []
    assert [piece.name for piece in recipe.pieces] == ["a", "b"]
    assert recipe.source.used() == ["a.stitch", "c.stitch", "b.stitch"]


def test_what_an_excuse_in_a_used_file_excuses_may_be_done_by_its_user():
    """Alone the strap's ends are raw, and that is allowed; in the bag they are sewn, and the excuse is idle."""
    alone = stitchlang.read(STRAP)
    idle = BAG.replace("piece front", 'allow never-used "kept"\npiece front')

    assert rules(alone) == []
    assert rules(stitchlang.read(idle, "bag.stitch", opening({"parts/strap.stitch": STRAP}))) == ["nothing-to-allow"]


# -- places -------------------------------------------------------------------
def test_a_finding_points_into_the_file_that_it_lies_in():
    """Its headline, its excerpt, and the lines beside it; a line of the other file says of which."""
    strap = STRAP.replace("10 x 80", "10 x 80, with crisp")
    recipe = stitchlang.read(BAG, "bag.stitch", opening({"parts/strap.stitch": strap}))
    (finding,) = stitchlang.check(recipe)
    told = finding_text(finding, recipe).split("\n")

    assert told[0].startswith("parts/strap.stitch:6:36: fault unknown-name:")
    assert told[1] == "    6 | piece strap of duck: 10 x 80, with crisp"
    twice = BAG.replace("piece front", "piece strap, front")
    recipe = stitchlang.read(twice, "bag.stitch", opening({"parts/strap.stitch": STRAP}))
    told = finding_text(stitchlang.check(recipe)[0], recipe)
    assert told.startswith("bag.stitch:8:7: fault name-given-twice")
    assert "line 6 of parts/strap.stitch: given here first" in told


@st.composite
def shelves(draw):
    """Texts that use one another, as anybody may write them: name to text, the first is the recipe."""
    names = [f"f{number}.stitch" for number in range(draw(st.integers(1, 4)))]
    uses = (f'use "{one}"' for one in names)
    line = st.sampled_from(["", "units in", "  # a comment", "piece a of b: 1 x 2", '"', "é½ \t", *uses])
    ending = st.sampled_from(["", "\n", "\r\n", "\n\n"])
    return {name: "\n".join(draw(st.lists(line, max_size=6))) + draw(ending) for name in names}


@settings(max_examples=300, deadline=None)
@given(shelves())
def test_every_letter_keeps_its_place(files):
    """Each letter of the joined text is the letter at its line and column of its file; and the own text comes back."""
    first = next(iter(files))
    source = joined(Source(files[first], first), opening(files))

    assert source.own_text() == files[first]
    for offset, letter in enumerate(source.text):
        line, column = source.place(offset)
        lines = files[source.file(offset)].split("\n")
        if letter != "\n":
            assert lines[line - 1][column - 1] == letter
    assert stitchlang.check(stitchlang.read(files[first], first, opening(files))) is not None


# -- what is refused ----------------------------------------------------------
@pytest.mark.parametrize(
    ("words", "why"),
    [
        ("../strap.stitch", "from the folder of this file downward"),
        ("/etc/strap.stitch", "from the folder of this file downward"),
        ("parts/../../strap.stitch", "from the folder of this file downward"),
        ("C:\\\\strap.stitch", "from the folder of this file downward"),
        ("parts//strap.stitch", "from the folder of this file downward"),
        ("strap.txt", "its name ends in .stitch"),
        ("", "its name ends in .stitch"),
        ("\x1b[31m.stitch", "its name ends in .stitch"),
        ("gone.stitch", "no such file"),
        ("link.stitch", "outside the folder of the recipe"),
        ("loop.stitch", "would never end"),
        ("folder.stitch", "not a file"),
        ("bytes.stitch", "line 1, byte 1: not UTF-8"),
        ("bag.stitch", "would never end"),
    ],
)
def test_only_recipes_in_the_same_folder_tree_are_brought_in(tmp_path, words, why):
    """Whatever else is named is a finding at the name, and nothing else is said of what it would have given."""
    folder = tmp_path / "shelf"
    folder.mkdir()
    (tmp_path / "strap.stitch").write_text(STRAP, "utf-8")
    os.symlink(tmp_path / "strap.stitch", folder / "link.stitch")
    (folder / "loop.stitch").write_text('use "loop.stitch"\n', "utf-8")
    (folder / "folder.stitch").mkdir()
    (folder / "bytes.stitch").write_bytes(b"\xff")
    path = folder / "bag.stitch"
    path.write_text(BAG.replace("parts/strap.stitch", words), "utf-8")
    recipe = stitchlang.read(path.read_text("utf-8"), str(path), beside(str(path)))
    told = stitchlang.check(recipe)

    assert [one.rule for one in told] == ["not-brought-in"]
    assert why in told[0].says
    assert "\x1b" not in finding_text(told[0], recipe)


@pytest.mark.parametrize(
    ("words", "meant"),
    [
        ("strap.stitch", ["parts/strap.stitch"]),
        ("parts/strop.stitch", ["parts/strap.stitch"]),
        ("bag.stich", []),
        ("pockets.stitch", []),
    ],
)
def test_a_path_misspelled_is_mended(tmp_path, words, meant):
    """The file of that name further down, or of nearly that path; the one that there is, is put in without asking."""
    path = shelf(tmp_path, BAG.replace("parts/strap.stitch", words))
    recipe = stitchlang.read(path.read_text("utf-8"), str(path), beside(str(path)))
    (told,) = stitchlang.check(recipe)
    run(tmp_path, "check", "bag.stitch", "--mend")

    assert [edit.text for mend in told.mends for edit in mend.edits] == [f'"{one}"' for one in meant]
    assert (path.read_text("utf-8") == BAG) == bool(meant)


def test_a_path_without_quotes_is_told_as_written():
    (told, *_) = stitchlang.check(read("units in\nuse parts/strap.stitch\n"))
    assert (told.rule, told.mend) == ("words-without-quotes", 'write `use "parts/strap.stitch"`')


def test_a_link_within_the_folder_is_followed(tmp_path):
    path = shelf(tmp_path)
    os.symlink(tmp_path / "parts" / "strap.stitch", tmp_path / "near.stitch")
    path.write_text(BAG.replace("parts/strap.stitch", "near.stitch"), "utf-8")

    assert run(tmp_path, "check", "bag.stitch").stdout == "nothing found in 1 recipe\n"


def test_a_file_is_brought_in_once():
    text = BAG.replace('part "Bag"', 'use "parts/strap.stitch"\npart "Bag"')
    told = stitchlang.check(stitchlang.read(text, "bag.stitch", opening({"parts/strap.stitch": STRAP})))

    assert [(one.rule, "write `cut 2`" in one.says) for one in told] == [("not-brought-in", True)]


@pytest.mark.parametrize("shape", ["deep", "wide"])
def test_hostile_shelves_end(shape):
    """Files that use files without end, and more files than any recipe has: refused, quickly."""
    count = MOST_FILES + 5

    def deep(words, _):
        number = int(words.removesuffix(".stitch"))
        return words, f'use "{number + 1}.stitch"\n'

    text = 'use "1.stitch"\n' if shape == "deep" else "".join(f'use "{one}.stitch"\n' for one in range(count))
    source = joined(Source(text, "bag.stitch"), deep if shape == "deep" else lambda words, _: (words, "units in\n"))

    assert len(source.used()) <= MOST_FILES
    assert len(source.refused) == (1 if shape == "deep" else 5)
    assert all("files at most" in one.why for one in source.refused.values())


def test_a_file_named_without_end_is_opened_so_often_and_no_more():
    """Twenty thousand lines that all use the same large file: it is not read twenty thousand times."""
    opened = []

    def opener(words, _):
        opened.append(words)
        return words, "units in\n"

    source = joined(Source('use "a.stitch"\n' * 20_000, "bag.stitch"), opener)

    assert len(opened) == MOST_ASKED
    assert len(source.refused) == 19_999


def test_a_text_alone_brings_nothing_in():
    (told,) = stitchlang.check(stitchlang.read(BAG))
    assert told.rule == "not-brought-in"
    assert "no folder" in told.says


# -- what is done with it -----------------------------------------------------
def test_reports_name_the_file(tmp_path):
    """JSON, SARIF 3.4 and GitHub's commands: the path of the used file, from the working folder."""
    shelf(tmp_path, strap=STRAP.replace("topstitch strap sides", "topstitch strop sides"))
    forms = ("--format", "json:r.json", "--format", "sarif:r.sarif", "--format", "github")
    done = run(tmp_path, "check", "bag.stitch", *forms)
    (row,) = json.loads((tmp_path / "r.json").read_text("utf-8"))["findings"]
    (result,) = json.loads((tmp_path / "r.sarif").read_text("utf-8"))["runs"][0]["results"]
    change = result["fixes"][0]["artifactChanges"][0]

    assert done.returncode == 1
    assert (row["path"], row["recipe"], row["line"]) == ("parts/strap.stitch", "bag.stitch", 8)
    assert row["mends"][0]["edits"][0]["path"] == "parts/strap.stitch"
    assert result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == "parts/strap.stitch"
    assert change["artifactLocation"]["uri"] == "parts/strap.stitch"
    assert "::error file=parts/strap.stitch,line=8" in done.stdout


def test_mending_changes_the_recipe_s_own_file_only(tmp_path):
    """A name misspelled in each: that in the bag is put right, that in the strap is left to its own file."""
    path = shelf(
        tmp_path, BAG.replace("hem bag.rim", "hem bagg.rim"), STRAP.replace("topstitch strap", "topstitch strop")
    )
    before = (tmp_path / "parts" / "strap.stitch").read_text("utf-8")
    run(tmp_path, "check", "bag.stitch", "--mend")

    assert path.read_text("utf-8") == BAG
    assert (tmp_path / "parts" / "strap.stitch").read_text("utf-8") == before
    assert mended(BAG.replace("bag.rim", "bagg.rim"), "bag.stitch", opening({"parts/strap.stitch": STRAP})).text == BAG


def test_a_mend_is_written_in_the_unit_of_its_file():
    """The strap promises 3 cm: its cut would be 12 cm, which is 12 there and not 4 3/4."""
    strap = STRAP.replace("2.5 wide", "3 wide")
    recipe = stitchlang.read(BAG, "bag.stitch", opening({"parts/strap.stitch": strap}))
    (told,) = stitchlang.check(recipe)

    assert told.rule == "finished-size-differs"
    assert [[edit.text for edit in mend.edits] for mend in told.mends] == [["12"], ["2.5"]]


def test_resizing_moves_the_recipe_s_own_numbers(tmp_path):
    """The bag grows by its own pieces; the strap, which others use too, stays as it is."""
    pytest.importorskip("highspy")
    path = shelf(tmp_path)
    done = run(tmp_path, "resize", "bag.stitch", "--to", "11 wide", "-o", "new.stitch")
    kept = run(tmp_path, "resize", "bag.stitch", "--of", "strap", "--to", "2 wide")

    assert done.returncode == 0, done.stderr
    wider = path.read_text("utf-8").replace("10 x 12", "12 x 12").replace("9 wide", "11 wide")
    assert (tmp_path / "new.stitch").read_text("utf-8") == wider
    assert kept.returncode == 1
    assert "everything that it hangs on is fixed" in kept.stdout


def test_a_comparison_sees_through_and_says_where(tmp_path):
    shelf(tmp_path)
    other = tmp_path / "other"
    other.mkdir()
    shelf(other, strap=STRAP.replace("at 3 mm", "at 5 mm"))
    done = run(tmp_path, "diff", "bag.stitch", "other/bag.stitch")

    assert done.returncode == 1
    assert "(line 8 of other/parts/strap.stitch)" in " ".join(done.stdout.split())


def test_a_revision_uses_the_files_of_that_revision(tmp_path):
    """`HEAD:bag.stitch` is held against the working tree, its strap as it was then."""
    shelf(tmp_path)
    who = ("-c", "user.name=a", "-c", "user.email=a@b")
    for words in (("init", "-q"), ("add", "."), (*who, "commit", "-qm", "first")):
        subprocess.run(["git", *words], cwd=tmp_path, check=True)
    same = run(tmp_path, "diff", "HEAD:bag.stitch", "bag.stitch")
    (tmp_path / "parts" / "strap.stitch").write_text(STRAP.replace("10 x 80", "10 x 90"), "utf-8")
    moved = run(tmp_path, "diff", "HEAD:bag.stitch", "bag.stitch")

    assert same.returncode == 0, same.stdout
    assert moved.returncode == 1
    assert "strap: tall about 31 1/2 in -> about 35 7/16 in (line 6 of parts/strap.stitch)" in moved.stdout


def test_watching_sees_a_used_file_change(tmp_path, monkeypatch):
    """The bag is looked at again when its strap is written, and not before."""
    path = shelf(tmp_path)
    monkeypatch.chdir(tmp_path)
    rounds = []

    def pause():
        if len(rounds) == 1:
            (tmp_path / "parts" / "strap.stitch").write_text(STRAP.replace("10 x 80", "10 x 100"), "utf-8")

    turns = iter([False, False, True])
    watch(lambda: recipe_paths([path.name]), Wish(), lambda _, new: rounds.append(len(new)), pause, lambda: next(turns))

    assert rounds == [1, 1]


def test_standard_input_uses_what_lies_in_the_working_folder(tmp_path):
    shelf(tmp_path)
    done = run(tmp_path, "check", "-", text=BAG)

    assert done.stdout == "nothing found in 1 recipe\n"


def test_several_processes_tell_the_same(tmp_path):
    """What a file comes to goes from one process to another, what was refused included."""
    shelf(tmp_path)
    (tmp_path / "sack.stitch").write_text(BAG.replace("parts/strap", "gone"), "utf-8")
    one, two = (run(tmp_path, "check", ".", "--jobs", jobs) for jobs in (1, 2))

    assert one.returncode == two.returncode == 1
    assert one.stdout == two.stdout
    assert "1 fault in 3 recipes (1 allowed)" in one.stdout


def test_a_fault_that_several_share_is_told_once(tmp_path):
    """Of a strap that two bags use and that is checked itself: once, in every report; and each of the three fails."""
    shelf(tmp_path, strap=STRAP.replace("topstitch strap sides", "topstitch strop sides"))
    (tmp_path / "sack.stitch").write_text(BAG, "utf-8")
    forms = ("text", "json:r.json", "sarif:r.sarif", "github:r.txt", "junit:r.xml")
    done = run(tmp_path, "check", ".", *(word for form in forms for word in ("--format", form)))
    (result,) = json.loads((tmp_path / "r.sarif").read_text("utf-8"))["runs"][0]["results"]
    report = json.loads((tmp_path / "r.json").read_text("utf-8"))

    assert done.returncode == 1
    assert done.stdout.count("strap.stitch:8:11: fault unknown-name") == 1
    assert done.stdout.rstrip().endswith("1 fault in 3 recipes (2 recipes understood in part)")
    assert [one["recipe"] for one in report["findings"]] == ["bag.stitch"]
    assert report["summary"]["fault"] == 1
    assert result["ruleId"] == "unknown-name"
    assert (tmp_path / "r.txt").read_text("utf-8").count("::error") == 1
    assert 'tests="3" failures="3"' in (tmp_path / "r.xml").read_text("utf-8")


def test_what_differs_between_users_is_told_of_each(tmp_path):
    """A strap too wide for the ring of one bag, and one whose ring is another: two findings at one place."""
    ring = BAG.replace('cloth duck: "tent duck"', 'cloth duck: "tent duck"\nring dee: {} inside').replace(
        "baste strap.ends to", "baste strap.ends with dee to"
    )
    shelf(tmp_path, ring.format("3/4"))
    (tmp_path / "sack.stitch").write_text(ring.format("2 in"), "utf-8")
    done = run(tmp_path, "check", "bag.stitch", "sack.stitch", "--short")

    assert "bag.stitch:" in done.stdout and "sack.stitch:" in done.stdout
    assert done.stdout.count("strap-against-ring") == 2


def test_laying_out_keeps_the_line(tmp_path):
    path = shelf(tmp_path, BAG.replace('use "', 'use     "'))
    run(tmp_path, "format", "bag.stitch")

    assert [line.split() for line in path.read_text("utf-8").split("\n") if line.startswith("use")] == [
        ["use", '"parts/strap.stitch"']
    ]


# -- a law --------------------------------------------------------------------
def parts_of(text):
    """(the text ahead of a part, the part, the text behind) for each `part` of a recipe."""
    cuts = [match.start() for match in re.finditer(r"^(?=part\b|finished\b)", text, re.MULTILINE)]
    for start, end in pairwise([*cuts, len(text)]):
        if text.startswith("part", start):
            yield text[:start], text[start:end], text[end:]


def come_to(recipe):
    """What is found, the sizes and the steps, whatever the places."""
    steps = [(step.part, step.sentence) for step in stitchlang.steps(recipe)]
    sizes = {one.title: one.working.mm for one in stitchlang.measure(recipe)}
    found = [(one.rule, LINE.sub("line", one.says)) for one in stitchlang.check(recipe)]
    return sorted(found), sizes, steps


def heading_of(text):
    """The units and the seam allowance that a recipe states."""
    return "".join(f"{line}\n" for line in text.split("\n") if line.startswith(("units", "allowance")))


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.stem)
def test_a_part_may_stand_in_a_file_of_its_own(path):
    """Each part of each example and broken twin moved to another file: sizes, steps and what is found are the same."""
    text = path.read_text("utf-8")
    whole = come_to(stitchlang.read(text))
    for ahead, part, behind in parts_of(text):
        files = {"part.stitch": heading_of(text) + part}
        split = stitchlang.read(f'{ahead}use "part.stitch"\n{behind}', opener=opening(files))

        assert come_to(split) == whole, part
