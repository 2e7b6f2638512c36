"""Patterns at true scale on one SVG sheet: its width and height are in millimetres, and so are its units."""

from __future__ import annotations

from .pattern_marks import LOOKS, legend, test_squares
from .svg import Page, number, path_of, shortened

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..model.recipe import Recipe
    from ..work.pattern import Pattern, Stroke, Words
    from ..work.shape import At

GAP, HEAD, WIDEST = 20.0, 84.0, 1000.0

STYLE = """
svg { color: #1b1b1b; background: #fff }
text { font: 3.4px "DejaVu Sans", Verdana, Arial, sans-serif; fill: currentColor }
.paper { fill: #fff }
@media (prefers-color-scheme: dark) { svg { color: #ececec; background: #16181b } .paper { fill: #16181b } }
@media print { svg { color: #000; background: #fff } .paper { fill: #fff } }
"""


def pattern_svg(patterns: Sequence[Pattern], recipe: Recipe) -> str:
    """The SVG text of all patterns on one sheet."""
    across = max(WIDEST if len(patterns) > 1 else 0, 200, *(one.wide + 2 * GAP for one in patterns))
    places, bottom = shelves(patterns, across)
    told = ". ".join(f"{one.name}: {one.told}" for one in patterns)
    page = Page(across, bottom, f"Pattern of {recipe.title or 'the recipe'}, true scale", told, "mm", style())
    page.words((GAP, 16), shortened(f"{recipe.title or 'Pattern'}", across - 2 * GAP, 5), "title")
    told = "True scale: print without any scaling and measure both squares before you cut."
    page.words((GAP, 23), told)
    strokes, words = test_squares(GAP, 28)
    samples, rows = legend(GAP + 62, 34)
    for stroke in [*strokes, *samples]:
        paint(page, stroke, 0, 0)
    for one in words:
        write(page, one, 0, 0)
    for x, y, text in rows:
        page.words((x, y), text)
    for pattern, (left, top) in zip(patterns, places, strict=True):
        for stroke in pattern.strokes:
            paint(page, stroke, left, top, pattern.name if stroke.kind in ("cut", "stitch") else "")
        for one in pattern.words:
            write(page, one, left, top)
    return page.text()


def style() -> str:
    """The line styles, in millimetres."""
    rules = [
        f".{kind} {{ fill: none; stroke: currentColor; stroke-width: {width}; "
        f"stroke-dasharray: {' '.join(map(str, dashes)) or 'none'} }}"
        for kind, (width, dashes) in LOOKS.items()
        if width
    ]
    return "\n".join(
        [STYLE.strip(), ".tip { fill: currentColor }", ".title { font-size: 5px; font-weight: bold }", *rules]
    )


def shelves(patterns: Sequence[Pattern], across: float) -> tuple[list[At], float]:
    """Where each pattern's corner lies, side by side in rows, and where the sheet ends."""
    places, left, top, deepest = [], GAP, HEAD, 0.0
    for one in patterns:
        if left > GAP and left + one.wide + GAP > across:
            left, top, deepest = GAP, top + deepest + GAP, 0.0
        places.append((left, top))
        left, deepest = left + one.wide + GAP, max(deepest, one.tall)
    return places, top + deepest + GAP


def paint(page: Page, stroke: Stroke, left: float, top: float, name: str = "") -> None:
    """A stroke at a place; cut and stitch lines say whose they are."""
    facts = {"data_piece": name} if name else {}
    page.path(path_of(stroke.runs, 1, left, top, stroke.closed), stroke.kind, **facts)


def write(page: Page, words: Words, left: float, top: float) -> None:
    """Words at a place, as tall as they are meant to be."""
    put = page.words((words.left + left, words.top + top), words.text, "", "middle", words.turn)
    put.set("style", f"font-size:{number(words.size)}px")
