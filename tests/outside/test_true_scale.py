"""Patterns and drawings read back by libraries that know nothing of sewing, and measured.

Sources: PDF points are 72 to the inch (ISO 32000-1, 8.3.2.3), an inch is 25.4 mm exactly (1959), A4 is 210 x 297 mm
(ISO 216), Letter 8 1/2 x 11 in; SVG units are those of its viewBox (W3C, SVG 2, chapter 8).  pypdf reads the PDF,
ElementTree the SVG, and shapely (GEOS) moves outlines inward with mitred corners.
"""

import re
from fractions import Fraction
from io import BytesIO
from math import atan2, cos, hypot, pi, sin
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader
from shapely import Polygon

import stitchlang
from stitchlang.show.pattern_pdf import pattern_pdf
from stitchlang.show.pattern_svg import pattern_svg
from stitchlang.work.pattern import patterns
from stitchlang.work.sketch import sketches
from stitchlang.work.tiles import joints, pages, tiles

ROOT = Path(__file__).parent.parent.parent
SVG = "{http://www.w3.org/2000/svg}"
HEAD = 'units in\nallowance 3/8\ncloth sail: "sailcloth"\n'
INCH = 25.4


def recipe_of(text):
    return stitchlang.read(HEAD + text, "bag.stitch")


def flag(size, fate="hem flag edges by 1/2", facts=""):
    return recipe_of(f"piece flag of sail: {size}{facts}\n{fate}\n")


def sketch_of(recipe, name="flag"):
    return next(one for one in sketches(recipe) if one.name == name)


# ------------------------------------------------------------------ reading back
def pdf_of(recipe, paper="a4", piece=None):
    return PdfReader(BytesIO(pattern_pdf(patterns(recipe, piece), recipe, paper)))


def paths(page):
    """(line width, points) of every path of a page, in points."""
    found, width, path = [], [None], []

    def see(operator, arguments, matrix, _):
        name = operator.decode()
        place = [float(one) for one in arguments if isinstance(one, (int, float))] if name in "mlcw" else []
        if name == "w":
            width[0] = place[0]
        elif name == "m":
            path[:] = [tuple(place)]
        elif name in ("l", "c"):
            path.append(tuple(place[-2:]))
        elif name in ("S", "s", "f", "f*", "B", "n") and path:
            found.append((width[0], list(path)))
            path.clear()
        assert matrix[:4] == [1, 0, 0, 1], "scaled"

    page.extract_text(visitor_operand_before=see)
    return found


def cut_points(page):
    """The points of the widest line: the cut line."""
    found = paths(page)
    widest = max(width for width, _ in found)
    return next(points for width, points in found if width == widest)


def extent(points):
    across, down = zip(*points, strict=True)
    return max(across) - min(across), max(down) - min(down)


# ------------------------------------------------------------------ PDF
def test_a_cut_rectangle_of_10_by_12_inches_is_720_by_864_points():
    """10 x 72 and 12 x 72, on every page that it is tiled over: the path is the same, only clipped."""
    reader = pdf_of(flag("10 x 12"))

    assert len(reader.pages) == 5  # A4 shows 186 x 265 mm: 2 x 2 pages, and the first
    for page in reader.pages[1:]:
        assert extent(cut_points(page)) == pytest.approx((720, 864), abs=0.01)


def test_the_second_page_goes_on_where_the_first_ends_less_the_overlap():
    """A4 shows 210 - 24 = 186 mm across; less 10 mm of overlap each page is 176 mm further on: 498.898 pt."""
    first, second = (cut_points(page) for page in pdf_of(flag("10 x 12")).pages[1:3])

    assert min(first)[0] - min(second)[0] == pytest.approx(176 * 72 / 25.4, abs=0.01)


def test_a_circle_is_as_wide_and_as_tall_as_it_is_cut():
    """9 in across is 648 pt, both ways."""
    recipe = flag("circle 9 across", "leave flag.edge raw")

    assert extent(cut_points(pdf_of(recipe).pages[1])) == pytest.approx((648, 648), abs=0.2)


@pytest.mark.parametrize(("paper", "size"), [("a4", (595.276, 841.890)), ("letter", (612, 792))])
def test_pages_have_the_size_of_the_paper(paper, size):
    """210 x 297 mm and 8 1/2 x 11 in, in points."""
    for page in pdf_of(flag("10 x 12"), paper).pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.01)


def test_the_test_squares_are_an_inch_and_five_centimetres():
    """72 pt, and 50 / 25.4 x 72 = 141.732 pt; both are named."""
    first = pdf_of(flag("10 x 12")).pages[0]
    sizes = [extent(points) for _, points in paths(first)]
    text = first.extract_text()

    assert any(size == pytest.approx((72, 72), abs=0.001) for size in sizes)
    assert any(size == pytest.approx((141.732, 141.732), abs=0.001) for size in sizes)
    assert "1 in" in text
    assert "5 cm" in text
    assert "100 %" in text


@pytest.mark.parametrize(
    ("paper", "size", "many"),
    [
        # A page shows 186 x 265 mm of A4 and 191.9 x 247.4 mm of Letter; the next one begins 10 mm less far on, and
        # each piece has 3 mm of paper round it.  So one page takes 180 x 259 mm, two 356 x 514, three 532 x 769.
        ("a4", "180 mm x 259 mm", (1, 1)),
        ("a4", "181 mm x 259 mm", (1, 2)),
        ("a4", "180 mm x 260 mm", (2, 1)),
        ("a4", "356 mm x 514 mm", (2, 2)),
        ("a4", "357 mm x 515 mm", (3, 3)),
        ("a4", "532 mm x 769 mm", (3, 3)),
        # Letter: 185.9 x 241.4 mm on one page, 367.8 x 478.8 on two.
        ("letter", "185.9 mm x 241.4 mm", (1, 1)),
        ("letter", "186 mm x 241.5 mm", (2, 2)),
        ("letter", "367.9 mm x 478.8 mm", (2, 3)),
    ],
)
def test_pages_needed_by_hand(paper, size, many):
    """(rows, columns) from the sums above."""
    (one,) = patterns(flag(size))

    assert pages(one, paper) == many


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_mark_stands_on_the_two_pages_that_share_it_and_on_both_at_one_place(paper):
    """In the piece's own millimetres a mark lies in the windows of two pages or more."""
    (one,) = patterns(flag("500 mm x 700 mm"))
    across, down = {"a4": (186, 265), "letter": (191.9, 247.4)}[paper]
    marks = joints(one, paper)

    assert marks
    for mark in marks:
        holding = [
            tile
            for tile in tiles(one, paper)
            if tile.left <= mark.left <= tile.left + across and tile.top <= mark.top <= tile.top + down
        ]
        assert len(holding) >= 2, mark


def test_pages_say_which_they_are():
    """Piece, row and column, and the number of the page."""
    texts = [page.extract_text() for page in pdf_of(flag("10 x 12")).pages]

    assert "pages 2 to 5" in texts[0]
    for at, label in enumerate(("A1", "A2", "B1", "B2"), 1):
        assert f"flag {label}" in " ".join(texts[at].split())
        assert f"page {at + 1} of 5" in texts[at]


def test_words_in_letters_that_the_font_lacks_do_not_break_the_file():
    """They come out as question marks; the sizes stay."""
    reader = pdf_of(
        recipe_of(
            'recipe "\u888b \u202e & <b>"\n'
            "piece \u0444\u043b\u0430\u0433 of sail: 4 x 4\nleave \u0444\u043b\u0430\u0433 edges raw\n"
        )
    )

    assert "?" in reader.pages[1].extract_text()
    assert extent(cut_points(reader.pages[1])) == pytest.approx((288, 288), abs=0.01)


# ------------------------------------------------------------------ SVG
def points_of(data):
    """The points that path data go through, arcs followed at every degree or so; commands M, L, A and Z only."""
    found = []
    for letter, rest in re.findall(r"([MLAZ])([^MLAZ]*)", data):
        numbers = [float(one) for one in rest.split()]
        if letter in "ML":
            found.append(tuple(numbers))
        elif letter == "A":
            radius, _, _, large, sweep, x, y = numbers
            assert (large, sweep) == (0, 1)
            found += on_arc(found[-1], (x, y), radius)
    return found


def on_arc(one, other, radius):
    """Points on the arc of at most half a turn, clockwise on the page, from one point to another."""
    (x1, y1), (x2, y2) = one, other
    chord = hypot(x2 - x1, y2 - y1)
    height = max(radius * radius - chord * chord / 4, 0) ** 0.5
    middle = ((x1 + x2) / 2 - (y2 - y1) / chord * height, (y1 + y2) / 2 + (x2 - x1) / chord * height)
    half = pi / 2 if height == 0 else pi / 2 - atan2(height, chord / 2)
    begins = atan2(y1 - middle[1], x1 - middle[0])
    steps = 90
    return [
        (
            middle[0] + radius * cos(begins + 2 * half * at / steps),
            middle[1] + radius * sin(begins + 2 * half * at / steps),
        )
        for at in range(1, steps + 1)
    ]


def lines_of(recipe, piece):
    """(cut line, stitch line) of a piece on the sheet, as points in millimetres."""
    svg = ElementTree.fromstring(pattern_svg(patterns(recipe), recipe))
    found = {
        path.get("class"): points_of(path.get("d"))
        for path in svg.iter(f"{SVG}path")
        if path.get("data-piece") == piece
    }
    return svg, found["cut"], found.get("stitch")


def test_the_sheet_is_in_millimetres_and_so_is_the_cut_line():
    """10 x 12 in is 254 x 304.8 mm; one unit of the viewBox is one millimetre of the sheet."""
    svg, cut, stitch = lines_of(flag("10 x 12"), "flag")
    wide, tall = (float(svg.get(side).removesuffix("mm")) for side in ("width", "height"))

    assert svg.get("viewBox").split()[:2] == ["0", "0"]
    assert [float(one) for one in svg.get("viewBox").split()[2:]] == [wide, tall]
    assert extent(cut) == pytest.approx((254, 304.8), abs=0.002)
    assert extent(stitch) == pytest.approx((254 - INCH, 304.8 - INCH), abs=0.002)


# ------------------------------------------------------------------ the stitch line against shapely
SHAPES = {
    "rectangle": ("10 x 12", ""),
    "rounded": ("10 x 12", ", bottom corners rounded 1 1/2"),
    "rounded all": ("10 x 12", ", bottom corners rounded 1 1/2, top corners rounded 2"),
    "clipped": ("10 x 12", ", bottom corners clipped 2 x 3"),
    "pointed": ("10 x 12", ", bottom pointed 3"),
    "pointed up": ("10 x 12", ", top pointed 3"),
    "pointed aside": ("10 x 12", ", right pointed 4"),
    "tapered": ("8 at top, 12 at bottom, 9 tall", ""),
    "tapered down": ("12 at top, 9 at bottom, 10 tall", ""),
    "circle": ("circle 9 across", ""),
    "polygon": ("polygon 0 x 8 top, 10 x 8 right, 10 x 0 bottom, 0 x 0 left", ""),
    "kite": ("polygon 5 x 9 one, 8 x 4 two, 5 x 0 three, 0 x 4 four", ""),
    "hollow": ("polygon 0 x 9 one, 9 x 9 two, 9 x 0 three, 6 x 0 four, 6 x 5 five, 0 x 5 six", ""),
}


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("by", ["1/4", "3/8", "1"])
def test_the_stitch_line_is_the_outline_moved_inward(shape, by):
    """With one allowance all round, GEOS moves the cut line inward with mitred corners; both regions are one."""
    size, facts = SHAPES[shape]
    _, cut, stitch = lines_of(flag(size, f"hem flag edges by {by}", facts), "flag")
    taken = float(Fraction(by)) * INCH
    expected = Polygon(cut).buffer(-taken, join_style="mitre", mitre_limit=20)

    assert Polygon(stitch).symmetric_difference(expected).area < expected.area * 2e-4


@settings(deadline=None, max_examples=40)
@given(*[st.integers(1, 20) for _ in range(4)], st.integers(1, 6))
def test_unequal_allowances_on_a_notched_panel(top, right, bottom, left, boxing):
    """Allowances in sixteenths of an inch; the stitch line's corners are where the moved edges cross, by hand.

    The notch is 2 in square.  Its arms move into the cloth, so the notch grows by the boxing allowance on both.
    """
    recipe = recipe_of(
        "piece flag of sail: 10 x 12\nnotch flag at bottom corners by 2\n"
        f"hem flag.top by {top}/16\nhem flag.right by {right}/16\nhem flag.bottom by {bottom}/16\n"
        f"hem flag.left by {left}/16\n"
        + "".join(
            f"hem flag.bottom_{side}_{way} by {boxing}/16\n" for side in ("left", "right") for way in ("across", "up")
        )
    )
    (laid,) = sketch_of(recipe).laid
    above, beside, below, aside, s = (one * INCH / 16 for one in (top, right, bottom, left, boxing))
    wide, tall, c = 10 * INCH, 12 * INCH, 2 * INCH
    inner, outer = aside, wide - beside
    expected = [
        (inner, above), (outer, above), (outer, tall - c - s), (wide - c - s, tall - c - s),
        (wide - c - s, tall - below), (c + s, tall - below), (c + s, tall - c - s), (inner, tall - c - s),
    ]  # fmt: skip

    assert [run.start for run in laid.stitch] == [pytest.approx(point) for point in expected]


def test_an_allowance_wider_than_the_corner_is_round_closes_it_to_a_point():
    """Radius 1/2 in, allowance 1 in: the stitch line is the plain rectangle 8 x 10 in, by shapely and by hand."""
    _, _, stitch = lines_of(flag("10 x 12", "hem flag edges by 1", ", bottom corners rounded 1/2"), "flag")

    assert Polygon(stitch).area == pytest.approx(8 * 10 * INCH * INCH, rel=1e-6)


def test_allowances_that_leave_nothing_have_no_stitch_line():
    """2 in of cloth, 1 in from either side."""
    for size in ("2 x 12", "circle 2 across"):
        (laid,) = sketch_of(flag(size, "hem flag edges by 1")).laid

        assert laid.stitch is None
        assert "leave nothing" in laid.trouble


def test_half_a_piece_on_the_fold_is_half_the_area():
    """8 x 10 in on the fold: its cut line, with the fold, holds 80 of the 160 square inches."""
    for side, size in (("left", "8 x 10"), ("right", "8 x 10"), ("top", "8 x 10"), ("bottom", "8 x 10")):
        _, cut, stitch = lines_of(flag(size, facts=f", on fold at {side}"), "flag")
        away = (1 / 2, 1) if side in ("left", "right") else (1, 1 / 2)
        left_of = (8 - away[0]) * (10 - away[1])

        assert Polygon(cut).area == pytest.approx(80 * INCH * INCH, rel=1e-5)
        assert Polygon(stitch).area == pytest.approx(left_of * INCH * INCH, rel=1e-5)
