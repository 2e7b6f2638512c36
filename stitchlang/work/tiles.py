"""Patterns cut into pages: which part of a piece each page holds, and the marks by which pages are put together.

Pages overlap; every mark stands in the overlap, on both pages, at one place of the piece.
"""

from __future__ import annotations

from math import ceil

from attrs import frozen

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from .pattern import Pattern

# Millimetres: A4 by ISO 216; Letter is 8 1/2 x 11 in.
PAPER = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
MARGIN = 12.0  # left free all round: more than home printers need; common practice, no source
BAND = 8.0  # for the page's label, above its window
OVERLAP = 10.0
PAD = 3.0  # round each piece, so that its cut line is printed whole
ROUNDING = 1e-9  # what floats may add to a piece that just fits
MOST = 300  # pages: beyond that somebody mistyped a size


@frozen
class Tile:
    """One page of a pattern: its row and column, counted from 0, and the corner of the piece's sheet it begins at."""

    row: int
    column: int
    left: float
    top: float

    @property
    def label(self) -> str:
        """`A1`: rows have letters, columns numbers."""
        return f"{letters(self.row)}{self.column + 1}"


@frozen
class Joint:
    """A mark in the overlap of two pages, with the number that both show."""

    number: int
    left: float
    top: float


def letters(at: int) -> str:
    """A to Z, then AA, AB ..."""
    return chr(65 + at) if at < 26 else letters(at // 26 - 1) + chr(65 + at % 26)


def window(paper: str) -> tuple[float, float]:
    """How wide and tall the part of a page is that shows the piece."""
    wide, tall = PAPER[paper]
    return wide - 2 * MARGIN, tall - 2 * MARGIN - BAND


def count(length: float, room: float) -> int:
    """How many overlapping pages a length takes."""
    return max(1, ceil((length + 2 * PAD - OVERLAP) / (room - OVERLAP) - ROUNDING))


def pages(pattern: Pattern, paper: str) -> tuple[int, int]:
    """(rows, columns) of pages that a pattern takes."""
    across, down = window(paper)
    return count(pattern.tall, down), count(pattern.wide, across)


def tiles(pattern: Pattern, paper: str) -> list[Tile]:
    """The pages of a pattern, row by row."""
    rows, columns = pages(pattern, paper)
    across, down = (room - OVERLAP for room in window(paper))
    return [
        Tile(row, column, column * across - PAD, row * down - PAD) for row in range(rows) for column in range(columns)
    ]


def joints(pattern: Pattern, paper: str) -> list[Joint]:
    """Two marks in every overlap of two neighbouring pages."""
    rows, columns = pages(pattern, paper)
    across, down = window(paper)
    steps = across - OVERLAP, down - OVERLAP
    places = []
    for row in range(rows):
        for column in range(columns):
            left, top = column * steps[0] - PAD, row * steps[1] - PAD
            for share in (0.25, 0.75):
                if column + 1 < columns:
                    places.append((left + across - OVERLAP / 2, top + down * share))
                if row + 1 < rows:
                    places.append((left + across * share, top + down - OVERLAP / 2))
    return [Joint(number, *place) for number, place in enumerate(places, 1)]
