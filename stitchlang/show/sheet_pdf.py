"""The sheet of instructions as a PDF: reportlab (BSD licence) writes it, and is loaded only here.

Its text can be selected; letters that the common fonts lack come out as question marks.
"""

from __future__ import annotations

from io import BytesIO
from itertools import groupby
from xml.sax.saxutils import escape

from ..ground.text import plain
from ..speech import spelt
from .sheet_blocks import Facts, Para, Picture, Steps, Table
from .sheet_words import cover, sections, warning
from .steps import title

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence
    from typing import Any, TypeAlias

    from reportlab.graphics.shapes import Drawing
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.pdfgen.canvas import Canvas
    from reportlab.platypus import Flowable, Paragraph
    from reportlab.platypus import Table as Grid

    from ..work.sheet import Sheet
    from .sheet_blocks import Line

    Cell: TypeAlias = Flowable | Sequence[Flowable] | str

MM = 72 / 25.4  # points in a millimetre
MARGIN = 18 * MM
INK, QUIET, LINE, THREAD = "#1f1d1a", "#4f4a43", "#c9c3b8", "#7a3b12"
TEXT, HEAD = "Helvetica", "Times-Bold"  # every reader has them


def sheet_pdf(sheet: Sheet, paper: str) -> bytes:
    """The bytes of the PDF.  ImportError where reportlab is not installed."""
    from reportlab.lib import pagesizes
    from reportlab.platypus import SimpleDocTemplate

    out = BytesIO()
    document = SimpleDocTemplate(
        out,
        pagesize={"a4": pagesizes.A4, "letter": pagesizes.LETTER}[paper],
        leftMargin=MARGIN, rightMargin=MARGIN, topMargin=MARGIN, bottomMargin=MARGIN + 4 * MM,
        title=written(title(sheet)), subject="Sewing instructions", creator="stitchlang", author="", invariant=1,
    )  # fmt: skip
    printer = Printer(document.width)
    document.build(list(together(printer.story(sheet))), canvasmaker=numbering(written(title(sheet))))
    return out.getvalue()


def written(text: str) -> str:
    """Words as the fonts can show them, on one line."""
    return plain(" ".join(spelt(text).split())).encode("cp1252", "replace").decode("cp1252")


def marked(text: str) -> str:
    """Words as a paragraph takes them: none of them markup."""
    return escape(written(text))


def numbering(name: str) -> type[Canvas]:
    """A canvas that writes `page 2 of 9` under each page once it knows how many there are."""
    from reportlab.pdfgen.canvas import Canvas

    class Numbered(Canvas):  # type: ignore[misc]  # reportlab has no types
        def __init__(self, *arguments: Any, **options: Any) -> None:
            super().__init__(*arguments, **options)
            self.pages: list[dict[str, Any]] = []  # all that a canvas knows of itself at the end of each page

        def showPage(self) -> None:
            self.pages.append(dict(self.__dict__))
            self._startPage()

        def save(self) -> None:
            for number, page in enumerate(self.pages, 1):
                self.__dict__.update(page)
                self.setFont(TEXT, 8)
                self.setFillColor(QUIET)
                self.drawString(MARGIN, 10 * MM, name[:80])
                self.drawRightString(self._pagesize[0] - MARGIN, 10 * MM, f"page {number} of {len(self.pages)}")
                super().showPage()
            super().save()

    return Numbered


def styles() -> dict[str, ParagraphStyle]:
    """How each kind of paragraph looks."""
    from reportlab.lib.styles import ParagraphStyle

    body = ParagraphStyle("body", fontName=TEXT, fontSize=9.5, leading=13, spaceAfter=4, textColor=INK)
    looks: dict[str, dict[str, str | float]] = {
        "": {},
        "title": {"fontName": HEAD, "fontSize": 24, "leading": 28, "spaceAfter": 10},
        "section": {
            "fontName": HEAD,
            "fontSize": 15,
            "leading": 18,
            "spaceBefore": 18,
            "spaceAfter": 6,
        },
        "part": {"fontName": HEAD, "fontSize": 12, "leading": 15, "spaceBefore": 10, "spaceAfter": 3},
        "caption": {"fontName": "Helvetica-Bold", "spaceBefore": 8},
        "fault": {"fontName": "Helvetica-Bold", "textColor": THREAD, "spaceAfter": 8},
        "said": {"fontName": "Helvetica-Oblique"},
        "note": {"fontName": "Helvetica-Oblique"},
        "care": {"fontSize": 9, "leading": 12, "leftIndent": 7, "borderColor": THREAD},
        "name": {"fontSize": 8, "leading": 11, "textColor": QUIET, "leftIndent": 12},
        "small": {"fontSize": 8, "leading": 11, "textColor": QUIET},
    }
    return {name: ParagraphStyle(name or "plain", parent=body, **its) for name, its in looks.items()}


HEADINGS = ("section", "part", "caption")


def together(story: Iterable[Flowable]) -> Iterator[Flowable]:
    """What must not be parted on one page, where a page can hold it: headings and what follows them, and each step."""
    from reportlab.platypus import KeepTogether

    waiting: list[Flowable] = []
    for one in story:
        waiting.append(one)
        looks = getattr(getattr(one, "style", None), "name", "")
        if looks not in HEADINGS and not (looks == "small" and len(waiting) > 1):
            yield KeepTogether(waiting)
            waiting = []
    yield from waiting


class Printer:
    """Blocks to what reportlab lays out, in a column so wide."""

    def __init__(self, wide: float) -> None:
        self.wide = wide
        self.styles = styles()
        # Each takes blocks of its own class, and no other.
        self.printed: dict[type, Callable[[Any], list[Flowable]]] = {
            Para: self.para,
            Facts: self.facts,
            Table: self.table,
            Steps: self.steps,
        }

    def words(self, text: str, looks: str = "", before: str = "") -> Paragraph:
        from reportlab.platypus import Paragraph

        return Paragraph(before + marked(text), self.styles[looks])

    def story(self, sheet: Sheet) -> list[Flowable]:
        """Everything in its order."""
        found: list[Flowable] = [self.words(title(sheet), "title")]
        found += [self.words(warning(sheet), "fault")] if sheet.faults else []
        found += self.facts(Facts(tuple(cover(sheet))))
        found += [self.words(note, "note") for note in sheet.notes]
        for section in sections(sheet):
            found.append(self.words(section.title, "section"))
            for kind, blocks in groupby(section.blocks, type):
                if kind is Picture:
                    found += self.pictures([one for one in blocks if isinstance(one, Picture)])
                else:
                    found += [one for block in blocks for one in self.printed[kind](block)]
        return found

    def para(self, block: Para) -> list[Flowable]:
        return [self.words(block.words, block.looks)]

    def grid(self, rows: Sequence[Sequence[Cell]], widths: Sequence[float], ruled: bool = True, head: int = 0) -> Grid:
        """Rows of cells; a row is split over two pages only where one page cannot hold it."""
        from reportlab.platypus import Table as Grid

        looks: list[tuple[object, ...]] = [("VALIGN", (0, 0), (-1, -1), "TOP"), ("LEFTPADDING", (0, 0), (-1, -1), 0)]
        looks += [("TOPPADDING", (0, 0), (-1, -1), 3), ("BOTTOMPADDING", (0, 0), (-1, -1), 1)]
        looks += [("LINEBELOW", (0, 0), (-1, -1), 0.4, LINE)] if ruled else []
        wide = [self.wide * share for share in widths]
        return Grid(rows, wide, style=looks, repeatRows=head, splitInRow=1, spaceAfter=4, hAlign="LEFT")

    def facts(self, block: Facts) -> list[Flowable]:
        rows = [[self.words(name, "small"), self.words(words)] for name, words in block.rows]
        return [self.grid(rows, (0.22, 0.78), ruled=False)]

    def table(self, block: Table) -> list[Flowable]:
        rows = [[self.words(cell) for cell in row] for row in block.rows]
        rows.insert(0, [self.words(cell, "small") for cell in block.head])
        found: list[Flowable] = [self.words(block.caption, "caption"), self.grid(rows, shares(block), head=1)]
        return [*found, self.words(block.total, "small")] if block.total else found

    def steps(self, block: Steps) -> list[Flowable]:
        return [self.words(block.title, "part"), *map(self.step, block.lines)]

    def step(self, one: Line) -> Grid:
        """A box to tick, the number, and the step."""
        inner = [self.words(note, "note") for note in one.notes]
        inner.append(self.words(one.sentence))
        inner += [self.words(one.said, "said")] if one.said else []
        inner += [self.words(caution, "care", "<b>Take care:</b> ") for caution in one.cautions]
        inner += [self.words(" · ".join(one.tags), "small")] if one.tags else []
        return self.grid([[box(), self.words(str(one.number)), inner]], (0.04, 0.05, 0.91))

    def pictures(self, blocks: Sequence[Picture]) -> list[Flowable]:
        """Pictures that follow one another, side by side under their names."""
        from .sheet_pdf_pictures import flowable

        across = min(len(blocks), 3)
        room = (self.wide / across - 12, 62 * MM)
        cells: list[Cell] = [[flowable(one.pages[0], *room, written), self.words(one.name, "name")] for one in blocks]
        cells += [""] * (-len(cells) % across)
        rows = [cells[at : at + across] for at in range(0, len(cells), across)]
        return [self.grid([row], [1 / across] * across, ruled=False) for row in rows]


def shares(block: Table) -> list[float]:
    """How the columns of a table share the width: by their longest words, none of them starved."""
    longest = [
        max(min(len(spelt(cell)), 48) for cell in column) + 4 for column in zip(block.head, *block.rows, strict=True)
    ]
    return [one / sum(longest) for one in longest]


def box() -> Drawing:
    """An empty square to tick."""
    from reportlab.graphics.shapes import Drawing, Rect

    drawing = Drawing(3.2 * MM, 3.6 * MM)
    drawing.add(Rect(0, 0, 3 * MM, 3 * MM, fillColor=None, strokeWidth=0.8))
    return drawing
