"""A text and the places in it.

Offsets count code points from the start of the text.  Lines and columns are
worked out only when somebody wants to read them.
"""

from __future__ import annotations

from bisect import bisect_right


def plain(text: str) -> str:
    """A text with every character that could move a cursor or change a terminal made visible as one.

    Line ends stay.  Whatever a recipe's author wrote passes through here before it is printed.
    """
    if text.isprintable():
        return text
    return "".join(letter if letter.isprintable() or letter == "\n" else "\N{REPLACEMENT CHARACTER}" for letter in text)


class Span:
    """A run of characters: the text from `start` up to, not including, `end`."""

    __slots__ = ("start", "end")

    def __init__(self, start: int, end: int) -> None:
        self.start = start
        self.end = end

    def __repr__(self) -> str:
        return f"Span({self.start}, {self.end})"

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Span) and (self.start, self.end) == (other.start, other.end)

    def __hash__(self) -> int:
        return hash((self.start, self.end))


class Source:
    """The text of one recipe, and the name to call it by."""

    __slots__ = ("name", "text", "_starts")

    def __init__(self, text: str, name: str = "<recipe>") -> None:
        self.name = name
        self.text = text
        self._starts: list[int] | None = None

    def line_starts(self) -> list[int]:
        """Offsets at which the lines begin."""
        if self._starts is None:
            starts, at = [0], self.text.find("\n")
            while at >= 0:
                starts.append(at + 1)
                at = self.text.find("\n", at + 1)
            self._starts = starts
        return self._starts

    def place(self, offset: int) -> tuple[int, int]:
        """Line and column, both counted from 1, of an offset."""
        starts = self.line_starts()
        line = bisect_right(starts, offset)
        return line, offset - starts[line - 1] + 1

    def line(self, number: int) -> str:
        """The text of a line, without its line end."""
        starts = self.line_starts()
        end = starts[number] if number < len(starts) else len(self.text)
        return self.text[starts[number - 1] : end].rstrip("\r\n")

    def cut(self, span: Span) -> str:
        """The characters of a span."""
        return self.text[span.start : span.end]
