"""A text and the places in it.

Offsets count code points from the start of the text.  Lines and columns are
worked out only when somebody wants to read them.
"""

from __future__ import annotations

from bisect import bisect_right

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from typing import Protocol

    class Refusal(Protocol):
        """Why a file was not brought in, and which may have been meant."""

        why: str
        near: Sequence[str]


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


class Stretch:
    """A run of a recipe's text that lies in one file: from `start` on, there from offset `own` and line `line`."""

    __slots__ = ("start", "file", "own", "line")

    def __init__(self, start: int, file: str, own: int = 0, line: int = 1) -> None:
        self.start = start
        self.file = file
        self.own = own
        self.line = line


class Source:
    """The text of one recipe, and the name to call it by.

    Where it uses other files their texts stand in it, each behind the line that uses it: `stretches` tell which
    file a place lies in, `refused` why a file was not brought in, by the offset of the statement that uses it.
    """

    __slots__ = ("name", "text", "stretches", "refused", "_starts")

    def __init__(
        self,
        text: str,
        name: str = "<recipe>",
        stretches: list[Stretch] | None = None,
        refused: Mapping[int, Refusal] | None = None,
    ) -> None:
        self.name = name
        self.text = text
        self.stretches = stretches or [Stretch(0, name)]
        self.refused = refused
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

    def stretch(self, offset: int) -> Stretch:
        """The stretch that an offset lies in."""
        return self.stretches[bisect_right(self.stretches, offset, key=lambda one: one.start) - 1]

    def used(self) -> list[str]:
        """The names of the files that the recipe uses, in the order in which they come."""
        return [name for name in dict.fromkeys(one.file for one in self.stretches) if name != self.name]

    def file(self, offset: int) -> str:
        """The name of the file that an offset lies in."""
        return self.stretch(offset).file

    def is_own(self, offset: int) -> bool:
        """Whether an offset lies in the recipe's own file, and not in one that it uses."""
        return self.file(offset) == self.name

    def place(self, offset: int) -> tuple[int, int]:
        """Line and column, both counted from 1, of an offset in the file that it lies in."""
        starts, stretch = self.line_starts(), self.stretch(offset)
        line = bisect_right(starts, offset)
        first = bisect_right(starts, stretch.start)
        return line - first + stretch.line, offset - starts[line - 1] + 1

    def line_said(self, offset: int, near: int = 0) -> str:
        """`line 5`, and of which file where another place, `near`, lies in another one."""
        line, file = self.place(offset)[0], self.file(offset)
        return f"line {line}" if file == self.file(near) else f"line {line} of {plain(file)}"

    def line_at(self, offset: int) -> str:
        """The text of the line that an offset lies in, without its line end."""
        starts = self.line_starts()
        number = bisect_right(starts, offset)
        end = starts[number] if number < len(starts) else len(self.text)
        return self.text[starts[number - 1] : end].rstrip("\r\n")

    def cut(self, span: Span) -> str:
        """The characters of a span."""
        return self.text[span.start : span.end]

    def own_text(self) -> str:
        """The text of the recipe's own file."""
        return "".join(self.text[one.start : end] for one, end in self._ends() if one.file == self.name)

    def own(self, span: Span) -> Span | None:
        """Where a span lies in the recipe's own file; None where it lies in another."""
        stretch = self.stretch(span.start)
        if stretch.file != self.name:
            return None
        return Span(span.start - stretch.start + stretch.own, span.end - stretch.start + stretch.own)

    def _ends(self) -> Iterator[tuple[Stretch, int]]:
        """Each stretch and where it ends."""
        ends = [one.start for one in self.stretches[1:]] + [len(self.text)]
        return zip(self.stretches, ends, strict=True)
