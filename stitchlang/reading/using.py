"""Files that a recipe uses: their texts put in behind the lines that name them, before anything is worked out.

Nothing is opened here: whoever stands at the door gives a function that opens what is named.  A text that uses
nothing costs one search.
"""

from __future__ import annotations

import re

from ..ground.text import Source, Stretch
from .parse import LONGEST_TEXT, read

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from typing import TypeAlias

    from .tree import Node

    # What is named, and the file that names it: the name to call the file by, and its text.  Raises NotUsable.
    Opener: TypeAlias = Callable[[str, str], tuple[str, str]]

USES = re.compile(r"^use\b", re.MULTILINE)
MOST_FILES = 64  # files that a recipe brings in
MOST_ASKED = 256  # files that it asks for, some of them over and over: each is opened
DEEPEST = 16  # files that use files
TOO_MANY = f"a recipe is made of {MOST_FILES} files at most, {DEEPEST} deep"


class NotUsable(Exception):
    """A file that cannot be brought in: why, in words for the reader, and which files may have been meant."""

    def __init__(self, why: str, near: Sequence[str] = ()) -> None:
        super().__init__(why)
        self.why = why
        self.near = near


def joined(source: Source, opener: Opener) -> Source:
    """The recipe with all that it uses, itself where it uses nothing.  Never raises."""
    if USES.search(source.text) is None:
        return source
    joining = Joining(opener)
    joining.put(source.text, source.name, (source.name,))
    return Source("".join(joining.texts), source.name, joining.stretches, joining.refused)


class Joining:
    """A text as it is put together: what there is of it, which file each stretch is from, what was refused."""

    def __init__(self, opener: Opener) -> None:
        self.opener = opener
        self.texts: list[str] = []
        self.length = 0
        self.stretches: list[Stretch] = []
        self.refused: dict[int, NotUsable] = {}
        self.brought: set[str] = set()
        self.asked = 0

    def put(self, text: str, name: str, chain: tuple[str, ...]) -> None:
        """Put a file's text in, and behind each of its lines that use a file that file's."""
        done = line = 0
        here: set[str] = set()
        for node in read(text).statements:
            if node.rule != "use":
                continue
            end = text.find("\n", node.end) + 1 or len(text)
            self.add(text[done:end], Stretch(self.length, name, done, line + 1))
            at = self.length - (end - node.start)
            line += text.count("\n", done, end)
            done = end
            try:
                self.bring(node, name, chain, here)
            except NotUsable as trouble:
                self.refused[at] = trouble
        self.add(text[done:], Stretch(self.length, name, done, line + 1))

    def add(self, text: str, stretch: Stretch) -> None:
        """Put a run of text at the end."""
        if text:
            self.texts.append(text)
            self.stretches.append(stretch)
            self.length += len(text)

    def bring(self, node: Node, name: str, chain: tuple[str, ...], here: set[str]) -> None:
        """Put in the file that a statement names.  Raises NotUsable."""
        self.asked += 1
        if self.asked > MOST_ASKED:
            raise NotUsable(TOO_MANY)
        file, text = self.opener(node.word().text[1:-1], name)
        if file in chain:
            raise NotUsable("it uses the file that is being read, and so would never end")
        if file in here:
            raise NotUsable("it is brought in already by a line above; to make two of a thing write `cut 2`")
        here.add(file)
        if file in self.brought:
            return  # two files use a third: once is enough for both
        if len(self.brought) >= MOST_FILES or len(chain) > DEEPEST:
            raise NotUsable(TOO_MANY)
        if self.length + len(text) > LONGEST_TEXT:
            raise NotUsable(f"with it the recipe would be longer than {LONGEST_TEXT:,} characters")
        self.brought.add(file)
        self.break_line(file)
        self.put(text, file, (*chain, file))
        self.break_line(file)

    def break_line(self, file: str) -> None:
        """End a line that does not end: the character is nobody's, and counted to the file brought in."""
        if self.texts and not self.texts[-1].endswith("\n"):
            self.add("\n", Stretch(self.length, file, -1, 0))
