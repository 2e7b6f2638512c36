"""How patterns look, on paper and on one sheet alike: line styles, the legend, the test squares."""

from __future__ import annotations

from ..work.pattern import Stroke, Words, rectangle, straight, tip

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from typing import TypeAlias

    Row: TypeAlias = tuple[float, float, str]  # x, y and words

# Kind: (line width, dashes), millimetres.
LOOKS: dict[str, tuple[float, tuple[float, ...]]] = {
    "cut": (0.6, ()),
    "stitch": (0.35, (3, 2)),
    "later": (0.4, (6, 1.5, 1, 1.5, 1, 1.5)),
    "fold": (0.4, (7, 2, 1.5, 2)),
    "grain": (0.5, ()),
    "placed": (0.35, (0.8, 1.2)),
    "set": (0.3, ()),
    "joint": (0.25, ()),
    "frame": (0.15, ()),
    "overlap": (0.2, (1, 2)),
    "test": (0.3, ()),
    "tip": (0, ()),
}
LEGEND = (
    ("cut", "cut here"),
    ("stitch", "stitch here"),
    ("later", "cut later, as the steps say"),
    ("fold", "fold line; bent arrows: place on the fold of the cloth"),
    ("grain", "double-ended arrow: grain"),
    ("placed", "sewn on here"),
)
INCH = 25.4
SQUARE = 50.0  # 5 cm


def test_squares(left: float, top: float) -> tuple[list[Stroke], list[Words]]:
    """(strokes, words): a square of 5 cm, and one of 1 in in its corner."""
    strokes = [
        Stroke("test", rectangle(left, top, SQUARE, SQUARE), True),
        Stroke("test", rectangle(left, top, INCH, INCH), True),
    ]
    words = [
        Words(left + INCH / 2, top + INCH / 2 + 1, 3.4, "1 in"),
        Words(left + SQUARE / 2, top + 40, 3.4, "5 cm"),
    ]
    return strokes, words


def legend(left: float, top: float) -> tuple[list[Stroke], list[Row]]:
    """(strokes, (x, y, words) rows): a sample of each kind of line."""
    strokes: list[Stroke] = []
    rows: list[Row] = []
    for at, (kind, words) in enumerate(LEGEND):
        y = top + at * 6
        ends = (left, y), (left + 18, y)
        strokes.append(Stroke(kind, straight(*ends)))
        if kind == "grain":
            strokes += [tip(ends[0], (1, 0)), tip(ends[1], (-1, 0))]
        rows.append((left + 22, y + 1.2, words))
    return strokes, rows
