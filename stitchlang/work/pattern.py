"""The pieces of a recipe as patterns at true scale: strokes and words in millimetres, y down, each piece from its own
top left corner.  What paints them, on pages or on one sheet, knows no sewing."""

from __future__ import annotations

from itertools import pairwise
from math import pi

from attrs import frozen

from ..speech import Speech
from .shape import Run, box
from .sketch import as_drawn, piece_sketch

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..model.recipe import Recipe
    from ..model.things import Piece
    from .laid import Laid
    from .shape import At
    from .sketch import Fold, Sketch

NAME, WORDS = 5.0, 3.4  # millimetres: how tall letters are
TIP = 3.0  # an arrow's
MIDST = 110.0, 120.0  # no farther from the corner than this do words stand: they are to come out on one page


@frozen
class Stroke:
    """A line of one kind: runs in a row, closed or not."""

    kind: str
    runs: Sequence[Run]
    closed: bool = False


@frozen
class Words:
    """Words whose baseline has its middle at a point; `turn` in degrees, clockwise."""

    left: float
    top: float
    size: float
    text: str
    turn: int = 0


@frozen
class Pattern:
    """One piece: how wide and tall its drawing is, and what is on it."""

    name: str
    told: str
    wide: float
    tall: float
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]


def patterns(recipe: Recipe, only: str | None = None) -> list[Pattern]:
    """A Pattern for each piece, or for the one of that name."""
    return [pattern(piece, recipe) for piece in recipe.pieces if piece.edges and only in (None, piece.name)]


def straight(*points: At) -> list[Run]:
    """Straight runs from point to point."""
    return [Run(None, one, 0.0, other) for one, other in pairwise(points)]


def ring_about(centre: At, radius: float) -> Run:
    """A whole circle as one run."""
    at = (centre[0], centre[1] - radius)
    return Run(None, at, 0.0, at, (centre, radius, -pi / 2, 2 * pi))


def rectangle(left: float, top: float, wide: float, tall: float) -> list[Run]:
    """Four straight runs."""
    right, low = left + wide, top + tall
    return straight((left, top), (right, top), (right, low), (left, low), (left, top))


def pattern(piece: Piece, recipe: Recipe) -> Pattern:
    """A piece's strokes and words."""
    sketch = piece_sketch(piece, recipe)
    (laid,), fold = as_drawn(sketch)
    left, top, right, bottom = box([*laid.cut, *(laid.raw or ())])
    wide, tall = right - left, bottom - top
    strokes = [*lines(laid, fold is None), *folded(fold, piece), *inside(sketch)]
    strokes = [Stroke(one.kind, [run.moved(-left, -top) for run in one.runs], one.closed) for one in strokes]
    said = f"Cut {piece.count}" + (f" from {piece.stuff.name}" if piece.stuff is not None else "")
    said += f", on the fold at the {piece.on_fold}" if fold is not None else ""
    size = " x ".join(Speech(recipe.unit or "in").length(one) for one in (piece.width, piece.height))
    size += " unfolded" if fold is not None else ""
    lines_of_words = [piece.name, said, size, *([f"with {piece.stiffening.name}"] if piece.stiffening else [])]
    words = (*labels(lines_of_words, wide, tall), *names(sketch, left, top))
    return Pattern(piece.name, f"{said}; {size}", wide, tall, (*strokes, *grain(wide, tall)), words)


def lines(laid: Laid, whole: bool) -> Iterator[Stroke]:
    """Cut, stitch, and what is cut away later."""
    yield Stroke("cut", laid.raw or laid.cut, bool(laid.raw) or whole)
    if laid.raw:
        yield Stroke("later", laid.cut, whole)
    if laid.stitch:
        yield Stroke("stitch", laid.stitch, whole)


def folded(fold: Fold | None, piece: Piece) -> Iterator[Stroke]:
    """The fold of a piece cut on the fold, with a line whose ends are bent toward it."""
    if fold is None or piece.on_fold is None:
        return
    one, other = fold
    yield Stroke("fold", straight(one, other))
    inward = {"left": (1, 0), "right": (-1, 0), "top": (0, 1), "bottom": (0, -1)}[piece.on_fold]
    run = other[0] - one[0], other[1] - one[1]
    feet = [(one[0] + run[0] * share, one[1] + run[1] * share) for share in (0.15, 0.85)]
    bends = [(foot[0] + inward[0] * 12, foot[1] + inward[1] * 12) for foot in feet]
    yield Stroke("grain", straight(feet[0], *bends, feet[1]))
    for foot in feet:
        yield tip(foot, inward)


def tip(point: At, back: At) -> Stroke:
    """A filled arrow tip at a point; `back` is the direction of its tail."""
    across, down = back[0] * TIP, back[1] * TIP
    wings = [(point[0] + across - down * 0.4 * s, point[1] + down + across * 0.4 * s) for s in (1, -1)]
    return Stroke("tip", straight(point, *wings, point), True)


def grain(wide: float, tall: float) -> Iterator[Stroke]:
    """A double-ended arrow up the piece, a quarter of its width from the left, or less."""
    across, low, high = min(wide / 4, MIDST[0] / 2), tall * 0.2, tall * 0.8
    if high - low > 3 * TIP:
        yield Stroke("grain", straight((across, low), (across, high)))
        yield tip((across, low), (0, 1))
        yield tip((across, high), (0, -1))


def inside(sketch: Sketch) -> Iterator[Stroke]:
    """Fold lines, what is placed, and where something is set."""
    for runs in sketch.later:
        yield Stroke("later", runs)
    for fold in sketch.folds:
        yield Stroke("fold", straight(*fold))
    for one in sketch.placed:
        yield Stroke("placed", rectangle(one.left, one.top, one.wide, one.tall), True)
        for row in one.rows:
            yield Stroke("placed", straight((one.left + row, one.top), (one.left + row, one.top + one.tall)))
    for mark in sketch.marks:
        reach = float(mark.across.mm) / 2 if mark.across is not None else 2.0
        yield Stroke("set", [ring_about((mark.left, mark.top), reach)], True)
        for across, down in ((reach + 2, 0), (0, reach + 2)):
            ends = [(mark.left + sign * across, mark.top + sign * down) for sign in (-1, 1)]
            yield Stroke("set", straight(*ends))


def names(sketch: Sketch, left: float, top: float) -> Iterator[Words]:
    """The names of what is placed and set."""
    for one in sketch.placed:
        yield Words(one.left + one.wide / 2 - left, one.top + WORDS + 2 - top, WORDS, one.name)
    for mark in sketch.marks:
        yield Words(
            mark.left - left, mark.top + float(mark.across.mm if mark.across else 4) / 2 + 6 - top, WORDS, mark.name
        )


def labels(rows: Sequence[str], wide: float, tall: float) -> Iterator[Words]:
    """What the piece is, in its middle: turned on a slender piece, and smaller where there is little room."""
    turned = wide < 60 and tall > wide
    along, across = (tall, wide) if turned else (wide / 2, tall)
    longest = max(len(row) * (NAME if at == 0 else WORDS) for at, row in enumerate(rows)) * 0.6
    shrink = min(1.0, (along - 4) / longest, (across - 2) / (len(rows) * 6.5 + 2)) if along > 4 and across > 2 else 0.2
    step, begin = 6.5 * shrink, -6.5 * shrink * (len(rows) - 1) / 2 + 2 * shrink
    for at, row in enumerate(rows):
        size, down = (NAME if at == 0 else WORDS) * shrink, begin + at * step
        if turned:
            yield Words(wide * 0.6 + down, min(tall / 2, MIDST[1]), size, row, -90)
        else:
            yield Words(min(wide * 0.6, MIDST[0]), min(tall / 2, MIDST[1]) + down, size, row)
