"""Reading a changed statement: the grammar judges whether a change helps."""

from __future__ import annotations

from ..parse import parse, split
from ..tree import Node
from .other_words import NO_NAMES

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..parse import Stumble
    from ..tree import Token
    from .change import Edits


def line_of(words: list[Token]) -> str:
    """A statement's words as one line, each in its place; comments and line ends are spaces."""
    return "".join(" " * (word.start - before) + word.text for word, before in zip(words, befores(words), strict=True))


def befores(words: list[Token]) -> list[int]:
    """Where the word before each word ends."""
    return [words[0].start, *(word.end for word in words[:-1])]


def parsed(text: str) -> Node | Stumble | None:
    """The one statement in a text as Node or Stumble; None where it is none, or several."""
    statements = list(split(text, []))
    return parse(statements[0]) if len(statements) == 1 else None


def well_read(result: Node | Stumble | None) -> bool:
    """Whether a statement was read, and no word that holds sentences together was taken for a name."""
    if not isinstance(result, Node):
        return False
    stack = [result]
    while stack:
        for part in stack.pop().parts:
            if isinstance(part, Node):
                stack.append(part)
            elif part.kind == "NAME" and part.text in NO_NAMES:
                return False
    return True


def left(stumble: Stumble) -> int:
    """How many words are left from where a statement cannot be read on."""
    return len(stumble.words) - len(stumble.before)


def applied(text: str, edits: Edits) -> str:
    """A text with edits made."""
    for start, end, new in sorted(edits, reverse=True):
        text = text[:start] + new + text[end:]
    return text
