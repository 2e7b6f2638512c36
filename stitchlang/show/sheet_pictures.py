"""The pictures of a sheet: the finished bag and each piece, small, without the tables of the full drawings.

The one place where the sheet meets the drawings.
"""

from __future__ import annotations

from ..speech import PairedSpeech, Speech
from ..work.sketch import sketches
from .drawing import Drawing, about_it, dimensions, outlines, told
from .drawing_bag import ACROSS, LEFT, TOP, Bag, bags, form_of
from .drawing_marks import fold_arrow, fold_line, grain, pocket, pocket_words, spot
from .sheet_blocks import Para, Picture
from .svg import Page, wide

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..ground.working import Working
    from ..model.things import Shell
    from ..work.sheet import Sheet
    from ..work.sketch import Sketch

LARGEST = 230  # pixels: the longer side of a piece
LINES = (
    "Each piece to a scale of its own, seen from its right side, top up. Solid lines are cut, dashed lines stitched; "
    "lines of dashes and dots are cut or folded later on; the arrow is the grain; dotted is what is sewn on."
)


def bag_pictures(sheet: Sheet) -> Iterator[Picture]:
    """The finished bags, in the sheet's first size."""
    for shell, found in bags(sheet.recipe):
        shown = ", ".join(f"{name} {sheet.speech.length(working)}" for name, working in found.items())
        words = f"{shell.name}, finished{': ' + shown if shown else ''}. A simple projection, not a likeness."
        pages = tuple(small_bag(shell, found, one) for one in speeches(sheet))
        yield Picture(f"{shell.name}, a simple projection", words, pages)


def small_bag(shell: Shell, found: dict[str, Working], speech: Speech) -> Page:
    """The SVG page of a finished bag."""
    page, bag = Page(ACROSS, 600, f"{shell.name}, finished", ""), Bag(shell, found, speech)
    bottom = form_of(bag)(page, bag)
    page.crop(LEFT - 70, TOP - 50, LEFT + max(bag.px.values(), default=0) + 150, bottom + 24)
    return page


def piece_pictures(sheet: Sheet) -> Iterator[Para | Picture]:
    """What the lines mean, then each piece as it is cut, in the sheet's first size."""
    found = [sketch for sketch in sketches(sheet.recipe) if sketch.kind == "piece"]
    if found:
        yield Para(f"In size {sheet.lists[0].size}. {LINES}" if sheet.lists[0].size is not None else LINES, "small")
    for sketch in found:
        words = " ".join([f"{sketch.name}.", *told(sketch, sheet.speech)])
        yield Picture(sketch.name, words, tuple(small_piece(sketch, one) for one in speeches(sheet)))


def small_piece(sketch: Sketch, speech: Speech) -> Page:
    """The SVG page of a piece: its lines, its marks and how large it is."""
    drawn = Drawing(sketch, speech, (sketch.name, " ".join(about_it(sketch))), LARGEST)
    for one in drawn.laid:
        outlines(drawn, one)
    for runs in sketch.later:
        drawn.page.path(drawn.path(runs, False), "later")
    for fold in sketch.folds:
        fold_line(drawn, *(drawn.at(point) for point in fold))
    for placed in sketch.placed:
        pocket(drawn, placed)
    for mark in sketch.marks:
        spot(drawn, mark, told=len(sketch.marks) == 1)  # of several the steps say where they stand
    for placed in sketch.placed:
        pocket_words(drawn, placed)
    fold_arrow(drawn)
    grain(drawn)
    dimensions(drawn)
    left, top, right, bottom = drawn.frame
    words = max(wide(speech.length(length)) for length in (sketch.wide, sketch.tall) if length is not None) + 24
    drawn.page.crop(left - 36, top - 8, max(right + 88, left + words), max(bottom, top + words * 0.7) + 80)
    return drawn.page


def speeches(sheet: Sheet) -> list[Speech]:
    """A way of speaking for each spelling of the sheet."""
    speech = sheet.speech
    units = speech.units if isinstance(speech, PairedSpeech) else (speech.unit,)
    return [Speech(unit, speech.ruler) for unit in units]
