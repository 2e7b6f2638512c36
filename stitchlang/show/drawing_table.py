"""Under a drawing: letters at the edges, a table of what each becomes, and a legend of the marks used."""

from __future__ import annotations

from ..model.placing import say_spot
from .drawing_marks import outside
from .svg import shortened

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from typing import TypeAlias

    from ..speech import Speech
    from ..work.sketch import EdgeRow, Sketch
    from .drawing import Drawing
    from .svg import Page

    Tagged: TypeAlias = Sequence[tuple[str, EdgeRow]]  # the letter of an edge, and its row of the table

LETTERS = "abcdefghijklmnopqrstuvwxyz"
ROW = 20
COLUMNS = (24, 56, 226, 366, 446, 566)
WORDS = {
    "cut": "cut here",
    "stitch": "stitch here; hatched: what the edge gives up",
    "later": "cut later, as the steps say",
    "fold": "fold line",
    "on fold": "place on the fold of the cloth",
    "grain": "grain: up the piece",
    "placed": "sewn on here",
    "opening": "opening",
    "set": "set here, true size",
    "seam": "seam",
}


def letter(at: int) -> str:
    """a to z, then aa, ab ..."""
    return LETTERS[at] if at < 26 else letter(at // 26 - 1) + LETTERS[at % 26]


def tags_of(drawn: Drawing) -> list[tuple[str, EdgeRow]]:
    """Put a letter outside each edge that is drawn: (letter, its row of the table) pairs."""
    shown = {run.edge: run for one in drawn.laid for run in one.cut}
    tagged: list[tuple[str, EdgeRow]] = []
    for row in drawn.sketch.edges:
        run, at = shown.get(row.run.edge), len(tagged)
        if run is None:
            continue
        tagged.append((letter(at), row))
        places = [outside(drawn, run, by, along) for by in (16, 26, 36) for along in (0, 12, -12, 24, -24)]
        chosen = drawn.room.place((x - 9, y - 9, x + 9, y + 9) for x, y in places)
        x, y = places[chosen]
        drawn.page.circle((x, y), 8.5, "disc")
        drawn.page.words((x, y + 4), letter(at), "small", "middle")
    return tagged


def table(drawn: Drawing, tagged: Tagged) -> float:
    """The edges, then what is placed, then notes; how far down the page it ends."""
    page, speech, top = drawn.page, drawn.speech, drawn.below + 24
    heads = ("", "edge", "what becomes of it", "allowance", "cut", "stitched")
    for at, words in zip(COLUMNS, heads, strict=True):
        page.words((at, top), words, "small strong")
    page.line((24, top + 6), (drawn.across - 24, top + 6), "dim")
    for sign, row in tagged:
        top += ROW
        cells = (sign, row.name, row.fate, *(speech.length(one) for one in (row.allowance, row.cut, row.stitched)))
        limits = [*COLUMNS[1:], drawn.across]
        for at, words, limit in zip(COLUMNS, cells, limits, strict=True):
            page.words((at, top), shortened(words, limit - at - 6, 11), "small")
    if drawn.fold is not None:
        top += ROW
        page.words((24, top), "Lengths are those of the whole piece, unfolded.", "small")
    for words in remarks(drawn):
        top += ROW
        page.words((24, top), shortened(words, drawn.across - 48, 11), "small")
    return top


def remarks(drawn: Drawing) -> Iterator[str]:
    """What is placed and set, in words; and what could not be drawn."""
    yield from spots_said(drawn.sketch, drawn.speech)
    for note in drawn.sketch.notes:
        yield f"{note[:1].upper()}{note[1:]}."


def spots_said(sketch: Sketch, speech: Speech) -> Iterator[str]:
    """Where things are placed and set, in words."""
    for placed in sketch.placed:
        yield f"{placed.name}: {say_spot(placed.spot, speech)}."
    for mark in sketch.marks:
        yield f"{mark.name}: {say_spot(mark.spot, speech)}."


def legend(drawn: Drawing, top: float) -> float:
    """A sample of each mark used, and what it means; where the page ends."""
    page, top = drawn.page, top + 34
    page.words((24, top), "Marks", "small strong")
    for at, kind in enumerate(drawn.used):
        x, y = 24 + at % 2 * 340, top + 22 + at // 2 * 24
        sample(page, kind, x, y - 4)
        page.words((x + 54, y), WORDS[kind], "small")
    return top + 22 + (len(drawn.used) + 1) // 2 * 24


def sample(page: Page, kind: str, x: float, y: float) -> None:
    """A small picture of a mark."""
    if kind == "stitch":
        page.rectangle(x, y - 7, 42, 7, "hatched")
    if kind in ("cut", "stitch", "later", "fold", "seam"):
        page.line((x, y), (x + 42, y), kind)
    elif kind == "grain":
        page.arrow((x, y), (x + 42, y), "grain", 9)
    elif kind == "on fold":
        page.line((x, y + 6), (x + 42, y + 6), "fold")
        page.line((x + 6, y - 6), (x + 36, y - 6), "line")
        for foot in (x + 6, x + 36):
            page.arrow((foot, y - 6), (foot, y + 6), "line", 6, both=False)
    elif kind == "set":
        page.circle((x + 21, y), 6, "line")
        page.line((x + 11, y), (x + 31, y), "line")
        page.line((x + 21, y - 9), (x + 21, y + 9), "line")
    else:
        page.rectangle(x, y - 7, 42, 13, "placed")
