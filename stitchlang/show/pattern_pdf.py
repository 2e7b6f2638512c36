"""Patterns at true scale as a PDF, tiled over pages: reportlab (BSD licence) writes it, and is loaded only here.

A PDF has no arcs: theirs are drawn as curves that miss the circle by less than 0.03 % of its radius.
"""

from __future__ import annotations

from io import BytesIO
from math import degrees

from ..ground.text import plain
from ..work.pattern import Stroke, rectangle, ring_about, straight
from ..work.tiles import BAND, MARGIN, OVERLAP, PAPER, joints, letters, pages, tiles, window
from .pattern_marks import LOOKS, legend, test_squares

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from reportlab.pdfgen.canvas import Canvas
    from reportlab.pdfgen.pathobject import PDFPathObject

    from ..model.recipe import Recipe
    from ..work.pattern import Pattern
    from ..work.shape import Arc, At
    from ..work.tiles import Tile
    from .kinds import Reach

POINT = 72 / 25.4  # points in a millimetre
FONT = "Helvetica"  # every reader has it; letters it lacks come out as question marks
LISTED = 40  # pieces that the first page has room for


def pattern_pdf(patterns: Sequence[Pattern], recipe: Recipe, paper: str) -> bytes:
    """The bytes of the PDF.  ImportError where reportlab is not installed."""
    from reportlab.pdfgen.canvas import Canvas

    out = BytesIO()
    sheet = Sheet(Canvas(out, pagesize=paper_size(paper), invariant=1), paper)
    sheet.canvas.setTitle(written(f"Pattern of {recipe.title or 'the recipe'}"))
    sheet.canvas.setSubject("Sewing pattern at true scale")
    sheet.canvas.setCreator("stitchlang")
    first_page(sheet, patterns, recipe)
    number, every = 1, 1 + sum(len(tiles(one, paper)) for one in patterns)
    for pattern in patterns:
        for tile in tiles(pattern, paper):
            number += 1
            tile_page(sheet, pattern, tile, f"page {number} of {every}")
    sheet.canvas.save()
    return out.getvalue()


def paper_size(paper: str) -> At:
    """How wide and tall a sheet of paper is, in points."""
    wide, tall = PAPER[paper]
    return wide * POINT, tall * POINT


def written(text: str) -> str:
    """Text as the font can show it."""
    return plain(" ".join(text.split())).encode("cp1252", "replace").decode("cp1252")


class Sheet:
    """A PDF page in millimetres, y down."""

    def __init__(self, canvas: Canvas, paper: str) -> None:
        self.canvas = canvas
        self.paper = paper
        self.wide, self.tall = PAPER[paper]

    def at(self, point: At, left: float = 0.0, top: float = 0.0) -> At:
        """A point of the page in the PDF's own coordinates."""
        return (point[0] + left) * POINT, (self.tall - point[1] - top) * POINT

    def stroke(self, stroke: Stroke, left: float = 0.0, top: float = 0.0) -> None:
        """Draw a stroke, its origin at that place of the page."""
        width, dashes = LOOKS[stroke.kind]
        self.canvas.setLineWidth((width or 0.1) * POINT)
        self.canvas.setDash([dash * POINT for dash in dashes])
        path, pen = self.canvas.beginPath(), None
        for run in stroke.runs:
            if pen is None:
                path.moveTo(*self.at(run.start, left, top))
            elif run.start != pen:
                path.lineTo(*self.at(run.start, left, top))
            if run.arc:
                self.arc(path, run.arc, left, top)
            else:
                path.lineTo(*self.at(run.end, left, top))
            pen = run.end
        if stroke.closed:
            path.close()
        filled = stroke.kind == "tip"
        self.canvas.drawPath(path, stroke=0 if filled else 1, fill=1 if filled else 0)

    def arc(self, path: PDFPathObject, arc: Arc, left: float, top: float) -> None:
        """An arc, clockwise on the page."""
        (x, y), radius, begins, sweep = arc
        one, other = self.at((x - radius, y + radius), left, top), self.at((x + radius, y - radius), left, top)
        path.arcTo(*one, *other, startAng=-degrees(begins), extent=-degrees(sweep))

    def words(self, point: At, text: str, size: float = 3.4, turn: int = 0, middle: bool = False) -> None:
        """Words at a point of the page; `size` is how tall the letters' body is."""
        self.canvas.saveState()
        self.canvas.translate(*self.at(point))
        self.canvas.rotate(-turn)
        self.canvas.setFont(FONT, size * POINT)
        draw = self.canvas.drawCentredString if middle else self.canvas.drawString
        draw(0, 0, written(text))
        self.canvas.restoreState()

    def fitted(self, point: At, text: str, size: float = 3.4) -> None:
        """Words at the left, cut to what the page has room for."""
        text, room = written(text), (self.wide - MARGIN - point[0]) * POINT
        while text and self.canvas.stringWidth(text, FONT, size * POINT) > room:
            text = text[:-1]
        self.words(point, text, size)


def first_page(sheet: Sheet, patterns: Sequence[Pattern], recipe: Recipe) -> None:
    """What this is, the test squares, what the lines mean, and which pages hold which piece."""
    revision = f", revision {recipe.revision}" if recipe.revision else ""
    sheet.fitted((MARGIN, 22), f"{recipe.title or 'Pattern'}{revision}", 7)
    told = (
        "Print at 100 %, without fitting to the page, and measure both squares before you cut.",
        f"Pages overlap by {OVERLAP:g} mm; lay the numbered marks on one another.  Rows are letters, columns numbers.",
    )
    for at, line in enumerate(told):
        sheet.fitted((MARGIN, 32 + 5 * at), line)
    strokes, words = test_squares(MARGIN, 44)
    samples, rows = legend(MARGIN + 62, 50)
    for stroke in [*strokes, *samples]:
        sheet.stroke(stroke)
    for one in words:
        sheet.words((one.left, one.top), one.text, one.size, middle=True)
    for x, y, text in rows:
        sheet.fitted((x, y), text)
    page, y = 2, 106.0
    for pattern in patterns[:LISTED]:
        many = len(tiles(pattern, sheet.paper))
        where = f"page {page}" if many == 1 else f"pages {page} to {page + many - 1}"
        sheet.fitted((MARGIN, y), f"{pattern.name}: {pattern.told}; {where}")
        page, y = page + many, y + 4.2
    if len(patterns) > LISTED:
        sheet.fitted((MARGIN, y), f"and {len(patterns) - LISTED} more")
    sheet.canvas.showPage()


def tile_page(sheet: Sheet, pattern: Pattern, tile: Tile, counted: str) -> None:
    """One page of a piece: its part of the piece in a frame, marks in the overlaps, and the page's label above."""
    across, down = window(sheet.paper)
    left, top = MARGIN, MARGIN + BAND
    rows, columns = pages(pattern, sheet.paper)
    where = f"row {letters(tile.row)}, column {tile.column + 1}, of {rows} x {columns}"
    sheet.fitted((left, MARGIN + 5), f"{pattern.name}   {tile.label}   ({where}; {counted})", 4)
    canvas = sheet.canvas
    canvas.saveState()
    clip = canvas.beginPath()
    clip.rect(left * POINT, (sheet.tall - top - down) * POINT, across * POINT, down * POINT)
    canvas.clipPath(clip, stroke=0, fill=0)
    for stroke in pattern.strokes:
        sheet.stroke(stroke, left - tile.left, top - tile.top)
    for one in pattern.words:
        sheet.words((one.left + left - tile.left, one.top + top - tile.top), one.text, one.size, one.turn, True)
    canvas.restoreState()
    frame(sheet, tile, (rows, columns), (left, top, across, down))
    for joint in joints(pattern, sheet.paper):
        x, y = joint.left - tile.left, joint.top - tile.top
        if 0 <= x <= across and 0 <= y <= down:
            cross(sheet, left + x, top + y, joint.number)
    canvas.showPage()


def frame(sheet: Sheet, tile: Tile, many: tuple[int, int], reach: Reach) -> None:
    """The edge of the page's window, and a dashed line where each overlap begins."""
    left, top, across, down = reach
    sheet.stroke(Stroke("frame", rectangle(left, top, across, down), True))
    if tile.column + 1 < many[1]:
        x = left + across - OVERLAP
        sheet.stroke(Stroke("overlap", straight((x, top), (x, top + down))))
    if tile.row + 1 < many[0]:
        y = top + down - OVERLAP
        sheet.stroke(Stroke("overlap", straight((left, y), (left + across, y))))


def cross(sheet: Sheet, x: float, y: float, number: int) -> None:
    """An alignment mark: a cross in a circle, with its number."""
    sheet.stroke(Stroke("joint", straight((x - 4, y), (x + 4, y))))
    sheet.stroke(Stroke("joint", straight((x, y - 4), (x, y + 4))))
    sheet.stroke(Stroke("joint", (ring_about((x, y), 2),), True))
    sheet.words((x + 2.2, y - 2.2), str(number), 2.6)
