"""Drawings: what `draw` writes is well-formed, told in words, safe in its names, and its words stand clear.

Expected sizes are worked out by hand beside each test.  Whether words overlap is asked of the drawing itself, with the
widths of the letters of Bitstream Vera.
"""

import subprocess
import sys
from functools import cache
from itertools import combinations, pairwise
from math import dist
from pathlib import Path
from xml.etree import ElementTree

import pytest
from reportlab.pdfbase.ttfonts import TTFont

import stitchlang
from stitchlang import cli
from stitchlang.commands.draw import drawings
from stitchlang.files import Unreadable, file_names, make_folder, write_bytes, write_text
from stitchlang.show.layers import layered
from stitchlang.speech import Speech
from stitchlang.work.graph import MOST, Node, graph
from stitchlang.work.shape import box, gap
from stitchlang.work.sketch import sketches

ROOT = Path(__file__).parent.parent
EXAMPLES = sorted(ROOT.glob("examples/*.stitch"))
RECIPES = [*EXAMPLES, *sorted(ROOT.glob("tests/field/*.stitch")), *sorted(ROOT.glob("tests/broken/*.stitch"))]
SVG = "{http://www.w3.org/2000/svg}"
HEAD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\n'
HOSTILE = '<script>alert(1)</script> & "quoted" ]]> \u202e\x07\ufffe'


def recipe_of(text):
    return stitchlang.read(text, "bag.stitch")


def drawn(text):
    """(kind, name) to the parsed drawing."""
    recipe = recipe_of(text)
    return {(kind, name): ElementTree.fromstring(svg) for kind, name, svg in drawings(recipe, Speech("in"))}


def words_of(svg):
    """Every word shown, hints left out."""
    return [text.text or "".join(part.tail or "" for part in text) for text in svg.iter(f"{SVG}text")]


# ------------------------------------------------------------------ every recipe
@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_every_recipe_is_drawn_as_well_formed_svg_with_a_title_and_a_description(path):
    """ElementTree parses it; role, title and description are what screen readers ask for (W3C, SVG 2, chapter 5)."""
    recipe = recipe_of(path.read_text("utf-8"))
    found = list(drawings(recipe, Speech("in")))

    assert {name for kind, name, _ in found if kind == "piece"} == {piece.name for piece in recipe.pieces}
    for _, _, text in found:
        svg = ElementTree.fromstring(text)

        assert svg.get("role") == "img"
        assert [svg.find(f"{SVG}{part}").get("id") for part in ("title", "desc")] == svg.get("aria-labelledby").split()
        assert all(svg.find(f"{SVG}{part}").text for part in ("title", "desc"))
        assert "nan" not in text
        assert "inf " not in text


@pytest.mark.parametrize("path", [*EXAMPLES, *sorted(ROOT.glob("tests/field/*.stitch"))], ids=lambda path: path.stem)
def test_every_outline_closes_and_fills_the_box_that_is_stated(path):
    """A ring walked by lengths and angles comes back to where it began; its box is the size that was written."""
    recipe = recipe_of(path.read_text("utf-8"))
    for sketch in sketches(recipe):
        for one in sketch.laid:
            for runs in filter(None, (one.cut, one.stitch, one.raw)):
                assert gap(runs) < 1e-6, (sketch.name, one.name)
                assert all(dist(a.end, b.start) < 1e-6 for a, b in pairwise(runs) if not a.smooth)
        if sketch.kind == "piece":
            left, top, right, bottom = sketch.box

            assert right - left == pytest.approx(float(sketch.wide.mm))
            assert bottom - top == pytest.approx(float(sketch.tall.mm))


# ------------------------------------------------------------------ what is shown
def test_a_piece_shows_its_size_its_edges_and_what_it_is_cut_from():
    """10 x 12 in with 1/2 in all round: stitched 9 and 11 in."""
    svg = drawn(HEAD + "piece flag of sail: 10 x 12, cut 2\nhem flag edges by 1/2\n")["piece", "flag"]
    words = words_of(svg)

    assert "Cut 2 from sail (sailcloth), seen from the right side, top up." in words
    assert {"10 in", "12 in", "9 in", "11 in"} <= set(words)
    assert words.count("hem") == 4


def test_a_piece_on_the_fold_is_drawn_as_half_with_a_bent_arrow():
    """Half of 16 x 10 is 8 x 10; the legend explains the arrow."""
    text = HEAD + "piece flag of sail: 8 x 10, on fold at left\nhem flag edges by 1/2\n"
    words = words_of(drawn(text)["piece", "flag"])

    assert "8 in to the fold (16 in unfolded)" in words
    assert "place on the fold of the cloth" in words


def test_a_placed_pocket_lies_where_the_recipe_says():
    """A 4 x 3 in pocket, 3 in below the top of a 10 in wide panel and centred: its left is at (10 - 4) / 2 = 3 in."""
    recipe = recipe_of(
        HEAD + "piece front of sail: 10 x 12\npiece pat of sail: 5 x 4\npress pat edges under by 1/2\n"
        "place pat on front, centred, 3 below top, sewn along sides, bottom at 1/8\n"
    )
    (placed,) = next(one for one in sketches(recipe) if one.name == "front").placed

    assert [placed.left, placed.top, placed.wide, placed.tall] == pytest.approx([76.2, 76.2, 101.6, 76.2])


@pytest.mark.parametrize(
    "facts", ["", ", bottom corners rounded 2", ", bottom corners clipped 2", ", bottom pointed 3"]
)
def test_what_the_corners_of_a_panel_are_like_moves_no_pocket(facts):
    """2 in below the top is 2 in below the top; centred on 10 in, a pocket of 3 in begins 3 1/2 in from the left."""
    recipe = recipe_of(
        HEAD + f"piece front of sail: 10 x 8{facts}\npiece pat of sail: 4 x 4\npress pat edges under by 1/2\n"
        "place pat on front, centred, 2 below top, sewn along sides, bottom at 1/8\n"
    )
    (placed,) = next(one for one in sketches(recipe) if one.name == "front").placed

    assert [placed.left, placed.top, placed.wide, placed.tall] == pytest.approx([88.9, 50.8, 76.2, 76.2])


def test_a_mirrored_mark_is_as_far_from_the_other_side():
    """2 in from the left of 10 in, and mirrored: at 2 and at 8 in, both 1 in below the top."""
    recipe = recipe_of(
        HEAD + "rivet stud: 9 mm across, 2 of\npiece front of sail: 10 x 12\n"
        "set stud on front, 2 from left, 1 below top, mirrored\n"
    )
    marks = next(one for one in sketches(recipe) if one.name == "front").marks

    assert [(mark.left, mark.top) for mark in marks] == [pytest.approx((50.8, 25.4)), pytest.approx((203.2, 25.4))]


def test_what_is_trimmed_and_notched_later_is_drawn_on_the_piece_as_it_is_cut():
    """The satchel's low piece is cut 9 3/4 in tall; trimmed by 1 in less two quarters, and notched, it ends higher.

    Front before the trim: 3 1/2 + 9 3/4 + 1 1/4 of tape, less 4 x 1/4 in the two seams = 13 1/2 in; trimmed to 12 1/2
    that is 1 in off the bottom of low, so its last outline is 8 3/4 in tall.
    """
    recipe = recipe_of((ROOT / "examples" / "satchel.stitch").read_text("utf-8"))
    (laid,) = next(one for one in sketches(recipe) if one.name == "low").laid

    assert box(laid.raw) == pytest.approx((0, 0, 11 * 25.4, 9.75 * 25.4))
    assert box(laid.cut) == pytest.approx((0, 0, 11 * 25.4, 8.75 * 25.4))


def test_a_flat_assembly_lies_seam_on_seam():
    """Two pieces 10 x 4 and 10 x 6 in, joined at 1/2 in: 10 x 9 in, the seam 3 1/2 in below the top."""
    recipe = recipe_of(
        HEAD + "piece high of sail: 10 x 4\npiece low of sail: 10 x 6\njoin high.bottom to low.top as front\n"
    )
    sketch = next(one for one in sketches(recipe) if one.kind == "assembly")
    high, low = sketch.laid

    assert sketch.box == pytest.approx((0, 0, 254, 9 * 25.4))
    assert box(high.cut)[3] == pytest.approx(3.5 * 25.4)
    assert box(low.cut)[1] == pytest.approx(3.5 * 25.4)


@pytest.mark.parametrize(
    ("example", "name", "forms"),
    [
        ("satchel", "bag", ["wide at top 10 1/4 in", "wide at base 7 3/4 in", "tall 10 1/2 in", "deep 2 1/2 in"]),
        ("bucket", "bucket", ["across 8 in", "tall 10 in"]),
        ("flat_tote", "bag", ["wide 14 in", "tall 15 in"]),
    ],
)
def test_the_finished_bag_shows_the_measures_that_its_recipe_claims(example, name, forms):
    """The numbers are those of the recipe's own `finished` line."""
    words = words_of(drawn((ROOT / "examples" / f"{example}.stitch").read_text("utf-8"))["bag", name])

    assert set(forms) <= set(words)


# ------------------------------------------------------------------ the graph
def test_the_graph_has_every_piece_and_operation_and_runs_from_left_to_right():
    """Layers only grow along a line, and nothing but pieces and notions is without a source."""
    recipe = recipe_of((ROOT / "examples" / "satchel.stitch").read_text("utf-8"))
    nodes = graph(recipe)

    assert {node.name for node in nodes if node.kind == "piece"} >= {piece.name for piece in recipe.pieces}
    assert sum(node.kind == "step" for node in nodes) == len(recipe.ops)
    assert all(source.layer < node.layer for node in nodes for source in node.sources)
    assert all(node.sources for node in nodes if node.kind in ("step", "made"))


def test_boxes_of_a_layer_never_touch():
    """Twelve pieces into three joins into one: within a layer, middles are a box's height apart or more."""
    pieces = [Node("piece", f"p{at}") for at in range(12)]
    joins, last = [Node("step", f"j{at}") for at in range(3)], Node("step", "end")
    for at, one in enumerate(joins):
        one.sources, one.layer = pieces[at::3], 1
    last.sources, last.layer = [*joins, pieces[0]], 2
    layers, _ = layered([*pieces, *joins, last], 54, 14)

    for layer in layers:
        for one, other in pairwise(layer):
            assert other.y - one.y >= (one.high + other.high) / 2 - 1e-9


def test_a_recipe_with_more_operations_than_a_picture_holds_has_no_graph():
    """Everything else is drawn."""
    text = HEAD + "piece flag of sail: 10 x 12\n" + "topstitch flag.top at 1/8\n" * (MOST + 1)

    assert ("graph", "") not in drawn(text)
    assert ("piece", "flag") in drawn(text)


# ------------------------------------------------------------------ words stand clear
@cache
def face(bold):
    """Bitstream Vera, which the font that the drawings' style names first was made from: reportlab brings it along."""
    return TTFont("VeraBd", "VeraBd.ttf") if bold else TTFont("Vera", "Vera.ttf")


def shown_boxes(svg):
    """The rectangle of every word on a drawing."""
    for text in svg.iter(f"{SVG}text"):
        words = text.text or "".join(part.tail or "" for part in text)
        looks = text.get("class").split()
        size = 18 if "title" in looks else 11 if "small" in looks else 13
        long = face("title" in looks or "strong" in looks).stringWidth(words, size)
        before = {"middle": long / 2, "end": long}.get(text.get("text-anchor"), 0)
        x, y = float(text.get("x")), float(text.get("y"))
        if text.get("transform"):  # read from below
            yield words, (x - size * 0.8, y - long + before, x + size * 0.2, y + before)
        else:
            yield words, (x - before, y - size * 0.8, x - before + long, y + size * 0.2)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_two_words_of_a_drawing_overlap_and_none_runs_off_the_page(path):
    """Pairs of words' boxes have no common area; every box lies on the page."""
    for (kind, name), svg in drawn(path.read_text("utf-8")).items():
        _, _, wide, tall = map(float, svg.get("viewBox").split())
        boxes = list(shown_boxes(svg))
        for (one, a), (other, b) in combinations(boxes, 2):
            assert a[0] >= b[2] or b[0] >= a[2] or a[1] >= b[3] or b[1] >= a[3], (kind, name, one, other)
        for words, (left, top, right, bottom) in boxes:
            assert left >= 0 and top >= 0 and right <= wide and bottom <= tall, (kind, name, words)


# ------------------------------------------------------------------ hostile names
def test_hostile_words_are_shown_as_words():
    """No element but those that drawings are made of, whatever titles and cloths are called."""
    called = HOSTILE.replace('"', "'")
    text = f'recipe "{called}"\nrevision "{called}"\n' + HEAD.replace("sailcloth", called)
    for svg in drawn(text + "piece flag of sail: 10 x 12\nhem flag edges by 1/2\n").values():
        assert {part.tag.removeprefix(SVG) for part in svg.iter()} <= set(
            "svg title desc style defs pattern path rect circle ellipse text".split()
        )
        shown = " ".join(words_of(svg))

        assert "\u202e" not in shown
        assert "\x07" not in shown


def test_file_names_cannot_leave_the_folder_or_collide():
    """Separators, capitals, accents written in two ways, names a system keeps, and names too long for one."""
    names = [
        "../../etc/passwd",
        "a/b",
        "a\\b",
        "Front",
        "front",
        "FRONT",
        "\u00e9",
        "e\u0301",
        "con",
        "x" * 500,
        "",
        ".",
    ]
    found = file_names([("piece", name) for name in names], ".svg")

    assert len({name.casefold() for name in found}) == len(names)
    assert all("/" not in name and "\\" not in name and not name.startswith(".") for name in found)
    assert all(name.startswith("piece") and len(name.encode()) < 120 for name in found)
    assert found[3:6] == ["piece-Front.svg", "piece-front-2.svg", "piece-FRONT-3.svg"]


def test_files_are_written_whole_and_never_over_something_that_is_no_file(tmp_path):
    """A new file is made, an old one replaced, a folder left alone, and no spare file stays behind."""
    write_text(tmp_path / "new.svg", "one\n")
    write_bytes(tmp_path / "new.svg", b"two\n")
    (tmp_path / "folder").mkdir()

    assert (tmp_path / "new.svg").read_bytes() == b"two\n"
    for path in (tmp_path / "folder", tmp_path / "nowhere" / "new.svg", "/dev/null", tmp_path / "nul\0"):
        with pytest.raises(Unreadable):
            write_bytes(path, b"three")
    with pytest.raises(Unreadable):
        make_folder(tmp_path / "new.svg")

    assert sorted(one.name for one in tmp_path.iterdir()) == ["folder", "new.svg"]


# ------------------------------------------------------------------ the commands
def run(*arguments, text=""):
    done = subprocess.run(
        [sys.executable, "-m", "stitchlang", *map(str, arguments)],
        input=text, capture_output=True, text=True, cwd=ROOT, check=False,
    )  # fmt: skip

    assert "Traceback" not in done.stderr
    return done


def test_draw_writes_a_file_for_each_thing(tmp_path):
    """The pouch: five pieces, two flat assemblies, its shell and its lining, and the graph."""
    done = run("draw", "examples/zip_pouch.stitch", "-o", tmp_path / "out")

    assert done.returncode == 0, done.stderr
    assert sorted(one.name for one in (tmp_path / "out").iterdir()) == [
        "assembly-face.svg", "assembly-front.svg", "bag-inner.svg", "bag-outer.svg", "graph.svg", "piece-back.svg",
        "piece-back_in.svg", "piece-front.svg", "piece-front_in.svg", "piece-loop.svg",
    ]  # fmt: skip


def test_faults_are_said_and_the_drawing_is_made_all_the_same(tmp_path):
    """Exit code 1, as for the steps; 2 where parts could not be read, or there is nowhere to write."""
    faulty = HEAD + "piece flag of sail: 10 x 12\nhem flag sides by 1/2\n"
    done = run("draw", "-", "-o", tmp_path / "out", text=faulty)

    assert done.returncode == 1
    assert "1 fault: run `stitchlang check`" in done.stderr
    assert (tmp_path / "out" / "piece-flag.svg").exists()
    assert run("draw", "-", "-o", tmp_path / "out", text=faulty + "sew it\n").returncode == 2
    assert run("draw", "-", "-o", "/dev/null/out", text=faulty).returncode == 2


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("-o", "out.png"), "must end in .pdf or .svg"),
        (("-o", "out.svg", "--piece", "frnt"), "no piece `frnt`"),
        (("-o", "nowhere/out.svg"), "not written"),
    ],
)
def test_pattern_says_what_is_wrong_with_its_arguments(arguments, says, tmp_path, monkeypatch, capsys):
    """Exit code 2 and one line."""
    monkeypatch.chdir(tmp_path)

    assert cli.main(["pattern", str(ROOT / "examples" / "zip_pouch.stitch"), *arguments]) == 2
    assert says in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_pattern_says_which_library_a_pdf_needs(tmp_path, monkeypatch, capsys):
    """Where reportlab cannot be imported."""
    monkeypatch.setitem(sys.modules, "reportlab.pdfgen.canvas", None)

    assert cli.main(["pattern", str(EXAMPLES[0]), "-o", str(tmp_path / "out.pdf")]) == 2
    assert "reportlab" in capsys.readouterr().err


def test_a_piece_of_a_kilometre_is_refused_as_pages(tmp_path, capsys):
    """Nobody prints that; the message gives the number of pages."""
    (tmp_path / "long.stitch").write_text(HEAD + "piece flag of sail: 10 x 1000 m\nleave flag edges raw\n")

    assert cli.main(["pattern", str(tmp_path / "long.stitch"), "-o", str(tmp_path / "out.pdf")]) == 2
    assert "pages, more than 300" in capsys.readouterr().err
