"""What a statement that cannot be read was most likely meant to be.

Small changes are tried on it, the likeliest first, and only one after which
the whole statement can be read is offered: the grammar itself is the judge.
"""

from __future__ import annotations

from collections import deque
from itertools import pairwise

from ..parse import Stumble
from .attempt import applied, left, line_of, parsed, well_read
from .change import Change, over
from .marks import marks, missing_marks, quotes, unquoted
from .names import names
from .sizes import sizes, units
from .verbs import verb_changes
from .words import idle_words, lacking_words, misspelt, other_words, phrases

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from ..tree import Token
    from .change import Edit, Place

MOST_WORDS, MOST_CHARACTERS = 60, 600  # of a statement that is worth mending
MOST_TRIES = 120  # changes tried on one statement
MOST_CHANGES = 3  # changes to one statement


class Remedy:
    """What a statement was meant to be: its first change, the whole line, and the edit that makes it so (or None)."""

    def __init__(self, first: Change, line: str, edit: Edit | None, at: Place) -> None:
        self.rule = first.rule
        self.says = first.says
        self.line = " ".join(line.split())
        self.edit = edit
        self.at = at


def remedy(stumble: Stumble, verbs: Collection[str]) -> Remedy | None:
    """The Remedy for a statement, or None where no small change makes it readable."""
    words, start = stumble.words, stumble.words[0].start
    if len(words) > MOST_WORDS or words[-1].end - start > MOST_CHARACTERS:
        return None
    line = line_of(words)
    read = parsed(line)
    if well_read(read):
        return Remedy(*on_one_line(stumble, line))
    found = search(line, read, verbs) if isinstance(read, Stumble) else None
    if found is None:
        return None
    first, mended = found
    at = (start + min(first.at[0], len(line) - 1), start + max(min(first.at[1], len(line)), first.at[0] + 1))
    at = (at[0], max(min(at[1], start + len(line)), at[0] + 1))
    return Remedy(first, mended, difference(line, mended, words), at)


def on_one_line(stumble: Stumble, line: str) -> tuple[Change, str, None, Place]:
    """What a Remedy is made of where nothing is wrong but that a length ends one line and its unit begins the next."""
    token, last = stumble.token, stumble.before[-1]
    says = f"`{last.text}` and `{token.text}` stand on two lines, and so are not read as one length"
    change = Change("unknown-unit", says, [(last.end, token.start, " ")], over(last))
    return change, line, None, change.at


def search(line: str, stumble: Stumble, verbs: Collection[str]) -> tuple[Change, str] | None:
    """(the first change, the mended line): the fewest changes that make it readable; None where none do."""
    queue: deque[tuple[str, Stumble, Change | None, int]] = deque([(line, stumble, None, 0)])
    seen = {line}
    while queue:
        text, stumble, first, depth = queue.popleft()
        for change in changes(stumble, verbs):
            changed = applied(text, change.edits)
            if changed in seen:
                continue
            seen.add(changed)
            if len(seen) > MOST_TRIES:
                return None
            result = parsed(changed)
            if well_read(result) or (result is None and changed.startswith("#")):
                return first or change, changed
            if isinstance(result, Stumble) and depth + 1 < MOST_CHANGES and left(result) < left(stumble):
                queue.append((changed, result, first or change, depth + 1))
    return None


def difference(line: str, mended: str, words: list[Token]) -> Edit | None:
    """The one edit from the line to the mended line; None where a comment or a line end lies in it."""
    front = 0
    while front < min(len(line), len(mended)) and line[front] == mended[front]:
        front += 1
    back = 0
    while back < min(len(line), len(mended)) - front and line[-1 - back] == mended[-1 - back]:
        back += 1
    if front == len(line) - back:  # an edit takes the place of something: of a character beside what is put in
        front, back = (front - 1, back) if front else (0, back - 1)
    start, end = words[0].start + front, words[0].start + len(line) - back
    for one, other in pairwise(words):
        if other.start - one.end > 1 and one.end < end and start < other.start:
            return None
    return start, end, mended[front : len(mended) - back]


def changes(stumble: Stumble, verbs: Collection[str]) -> Iterator[Change]:
    """Changes worth trying, the likeliest first."""
    if not stumble.before:
        yield from verb_changes(stumble, verbs)
        return
    for kind in (
        quotes,
        units,
        phrases,
        sizes,
        names,
        misspelt,
        marks,
        missing_marks,
        other_words,
        idle_words,
        lacking_words,
        unquoted,
    ):
        yield from kind(stumble)
