"""Where a finding stands, as machines want it: paths from here with forward slashes, lines, columns."""

from __future__ import annotations

import os

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import TypeAlias

    from ...ground.text import Source, Span

    Region: TypeAlias = tuple[int, int, int, int]


def path_from_here(name: str) -> str:
    """A recipe's path as seen from the working folder, with forward slashes; as it is where there is no way to it."""
    try:
        near = os.path.relpath(name) if os.path.isabs(name) else os.path.normpath(name)
    except ValueError:  # on another drive
        near = name
    return near.replace(os.sep, "/")


def region(source: Source, span: Span, column_of: Callable[[str], int] | None = None) -> Region:
    """(line, column, last line, column behind the last character), from 1, of a span.

    Columns count code points, or whatever `column_of` makes of the line's text ahead of the place.
    """

    def place(offset: int) -> tuple[int, int]:
        line, column = source.place(offset)
        if column_of is not None:
            column = column_of(source.text[offset - column + 1 : offset]) + 1
        return line, column

    return *place(span.start), *place(span.end)


def utf16_units(text: str) -> int:
    """How many UTF-16 code units a text takes."""
    return len(text.encode("utf-16-le", "replace")) // 2
