"""A piece or a flat assembly as a drawing: cut and stitch lines, marks, dimensions, a table of its edges, a legend."""

from __future__ import annotations

from fractions import Fraction

from ..work.shape import CLOSE, box
from ..work.sketch import as_drawn
from .drawing_marks import fold_arrow, fold_line, grain, pocket, pocket_words, spot
from .drawing_table import legend, spots_said, table, tags_of
from .room import Room, words_box
from .svg import Page, path_of, shortened, wide

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..ground.working import Working
    from ..model.recipe import Recipe
    from ..speech import Speech
    from ..work.laid import Laid
    from ..work.shape import At, Run
    from ..work.sketch import Sketch
    from .kinds import Fact, Reach

LARGEST = 520  # pixels: the longer side of what is drawn
LEFT, RIGHT, HEAD = 96, 132, 96
NARROWEST = 700


class Drawing:
    """One sketch being drawn: the page, the scale, and where words stand already."""

    def __init__(self, sketch: Sketch, speech: Speech, about: Fact, largest: int = LARGEST) -> None:
        self.sketch = sketch
        self.speech = speech
        self.laid, self.fold = as_drawn(sketch)
        # The side that it is cut on the fold at, where it is.
        self.side = sketch.panel.on_fold if sketch.panel.kind == "piece" else None
        self.box: Reach = sketch.box if self.fold is None else box(self.laid[0].cut)
        self.scale = largest / max(self.box[2] - self.box[0], self.box[3] - self.box[1], 1)
        self.wide = (self.box[2] - self.box[0]) * self.scale
        self.tall = (self.box[3] - self.box[1]) * self.scale
        self.frame = LEFT, HEAD, LEFT + self.wide, HEAD + self.tall
        self.room = Room()
        self.used: list[str] = []
        self.across = max(NARROWEST, LEFT + self.wide + RIGHT)
        self.below = HEAD + self.tall + 84
        self.page = Page(self.across, self.below, *about)

    def at(self, point: At) -> At:
        """A point of the sketch on the page."""
        return (
            (point[0] - self.box[0]) * self.scale + LEFT,
            (point[1] - self.box[1]) * self.scale + HEAD,
        )

    def path(self, runs: Sequence[Run], closed: bool = True) -> str:
        left, top = self.at((0, 0))
        return path_of(runs, self.scale, left, top, closed)

    def use(self, kind: str) -> None:
        """Note that the legend has to explain a kind of mark."""
        if kind not in self.used:
            self.used.append(kind)


def drawing(sketch: Sketch, recipe: Recipe, speech: Speech) -> str:
    """The SVG text of a sketch."""
    about = about_it(sketch)
    drawn = Drawing(sketch, speech, (f"{sketch.kind} {sketch.name}", " ".join([*about, *told(sketch, speech)])))
    head(drawn, recipe, about)
    for one in drawn.laid:
        outlines(drawn, one)
    for runs in sketch.later:
        drawn.page.path(drawn.path(runs, False), "later")
        drawn.use("later")
    for fold in sketch.folds:
        fold_line(drawn, *(drawn.at(point) for point in fold))
    tagged = tags_of(drawn)
    for placed in sketch.placed:
        pocket(drawn, placed)
    for mark in sketch.marks:
        spot(drawn, mark)
    for placed in sketch.placed:
        pocket_words(drawn, placed)
    if sketch.kind == "piece":
        fold_arrow(drawn)
        grain(drawn)
    else:
        names(drawn)
    dimensions(drawn)
    drawn.page.reach(legend(drawn, table(drawn, tagged)))
    return drawn.page.text()


def about_it(sketch: Sketch) -> list[str]:
    """What stands under the name: what it is cut from, or made of."""
    piece = sketch.panel
    if piece.kind != "piece":
        return [f"A flat assembly of {', '.join(one.name for one in sketch.laid)}, right side up."]
    stuff = f"Cut {piece.count} from {piece.stuff.name}" if piece.stuff is not None else f"Cut {piece.count}"
    called = f" ({piece.stuff.called})" if piece.stuff is not None and piece.stuff.called else ""
    lines = [f"{stuff}{called}, seen from the right side, top up."]
    if piece.stiffening is not None:
        lines.append(f"With {piece.stiffening.name}.")
    return lines


def told(sketch: Sketch, speech: Speech) -> Iterator[str]:
    """The drawing in words, for those who do not see it."""
    yield f"{cut_words(sketch, speech)}."
    for row in sketch.edges:
        yield f"{row.name}: {row.fate}, {speech.length(row.allowance)}."
    yield from spots_said(sketch, speech)


def cut_words(sketch: Sketch, speech: Speech) -> str:
    wide, tall = sizes(sketch)
    return f"Cut {speech.length(wide)} wide, {speech.length(tall)} tall"


def sizes(sketch: Sketch) -> tuple[Fraction, Fraction]:
    """(wide, tall) as drawn."""
    left, top, right, bottom = sketch.box
    return as_known(right - left, sketch.wide), as_known(bottom - top, sketch.tall)


def as_known(drawn: float, exact: Working | None) -> Fraction:
    """The exact length where the model has the same as the outline, else what the outline measures."""
    if exact is not None and abs(float(exact.mm) - drawn) < CLOSE:
        return exact.mm
    return Fraction(drawn).limit_denominator(10**6)


def head(drawn: Drawing, recipe: Recipe, about: Sequence[str]) -> None:
    """The name, what it is, and whose recipe it belongs to."""
    page, room = drawn.page, drawn.across - 48
    page.words((24, 30), shortened(drawn.sketch.name, room, 18), "title")
    revision = f", revision {recipe.revision}" if recipe.revision else ""
    lines = [about[0], " ".join([*about[1:], f"{recipe.title}{revision}" if recipe.title else ""])]
    for at, line in enumerate(filter(None, lines)):
        page.words((24, 50 + 17 * at), shortened(line, room, 13), "small" if at else "")


# ------------------------------------------------------------------ outlines
def outlines(drawn: Drawing, one: Laid) -> None:
    """Cut line, stitch line and the allowance between them."""
    page, whole = drawn.page, drawn.fold is None
    page.path(drawn.path(one.cut), "panel", stroke="none")
    if one.stitch:
        between = drawn.path(one.cut) + drawn.path(one.stitch)
        page.path(between, "hatched", fill_rule="evenodd")
        for runs in [[run] for run in one.stitch if run.edge not in one.glued] if one.glued else [one.stitch]:
            page.path(drawn.path(runs, whole and not one.glued), "stitch")
        drawn.use("stitch")
    if one.raw:
        page.path(drawn.path(one.raw), "cut")
        page.path(drawn.path(one.cut), "later")
        drawn.use("later")
    elif not one.glued:
        page.path(drawn.path(one.cut, whole), "cut")
    for run in one.cut if one.glued else ():
        page.path(drawn.path([run], False), "seam" if run.edge in one.glued else "cut")
    drawn.use("cut")
    if one.glued:
        drawn.use("seam")


def names(drawn: Drawing) -> None:
    """Each panel's name in the middle of it."""
    for one in drawn.laid:
        left, top, right, bottom = box(one.cut)
        at = drawn.at(((left + right) / 2, (top + bottom) / 2))
        across = (right - left) * drawn.scale - 12
        turned = across < wide(one.name) < (bottom - top) * drawn.scale
        words = shortened(one.name, max(across, 40) if not turned else (bottom - top) * drawn.scale)
        places = [(at[0], at[1] + 5 + 20 * step) for step in (0, 1, -1, 2, -2, 3, -3)]
        chosen = drawn.room.place(words_box(place, words, turned=turned) for place in places)
        drawn.page.words(places[chosen], words, "strong", "middle", -90 if turned else 0)


# ------------------------------------------------------------------ dimensions
def dimensions(drawn: Drawing) -> None:
    """How wide and how tall it is cut, outside the outline."""
    page, (wide_mm, tall_mm) = drawn.page, sizes(drawn.sketch)
    words = [drawn.speech.length(wide_mm), drawn.speech.length(tall_mm)]
    if drawn.fold is not None:
        at = 0 if drawn.side in ("left", "right") else 1
        halves = drawn.speech.length((wide_mm, tall_mm)[at] / 2)
        words[at] = f"{halves} to the fold ({words[at]} unfolded)"
    left, top, right, bottom = drawn.frame
    low, aside = bottom + 52, right + 52
    for across in (left, right):
        page.line((across, bottom + 6), (across, low + 5), "dim")
    page.arrow((left, low), (right, low))
    middle = max((left + right) / 2, wide(words[0]) / 2 + 12)
    page.words((middle, low + 18), words[0], anchor="middle")
    for down in (top, bottom):
        page.line((right + 6, down), (aside + 5, down), "dim")
    page.arrow((aside, top), (aside, bottom))
    page.words((aside + 18, (top + bottom) / 2), words[1], anchor="middle", turn=-90)
