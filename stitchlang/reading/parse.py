"""Text to statements: one scan, one LALR run a statement.

The tables come from the grammar (see `table_maker`).  A statement that cannot
be read leaves a `Stumble` and the reader takes up again at the next line that
begins at the margin, so one broken line gives one stumble and hides nothing.
"""

from __future__ import annotations

import re

from . import table
from .tree import Node, Token

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from .mending.remedy import Remedy

    Rows = tuple[dict[str, int], ...]
    Rule = tuple[str, int, tuple[int, ...], bool, str]

# Spaces before a word are taken with it: half the matches.
SCAN = re.compile(r"[ \t]*(?:" + "|".join(f"({pattern})" for _, pattern in table.SCANNER) + r"|(.))")
KINDS = ("", *(name for name, _ in table.SCANNER), "STRAY")
START, ACCEPT = table.START, table.ACCEPT
ROWS: Rows = ({}, *table.ROWS)  # states count from 1

# Hostile text is refused at these sizes, long before it can cost seconds.
LONGEST_TEXT = 4_000_000  # characters in a recipe
MOST_STATEMENTS = 20_000  # statements in a recipe; a very full bag has a hundred
MOST_MENDED = 100  # statements of which it is asked what they were meant to be
MOST_STUMBLES = 500  # statements that cannot be read, after which the text is no recipe
LONGEST_STATEMENT = 4_000  # words and marks in one statement
DEEPEST = 64  # phrases inside phrases


class Stumble:
    """A place where a statement stops making sense.

    `token` is the word that could not follow (kind `$END` where the statement
    broke off), `words` all words of the statement, `before` those ahead of the
    token and `behind` those that follow it, `wanted` the kinds of word that
    could have stood there, `states` the parser's at that place.
    """

    __slots__ = ("token", "words", "before", "behind", "wanted", "states", "judged")

    def __init__(
        self, token: Token, words: list[Token], at: int, wanted: tuple[str, ...], states: tuple[int, ...]
    ) -> None:
        self.token = token
        self.words = words
        self.before = words[:at]
        self.behind = words[at + 1 :]
        self.wanted = wanted
        self.states = states
        # Which mistake it is, once somebody asked; () where it is not worth mending.
        self.judged: tuple[str, Remedy | None] | tuple[()] | None = None


class Reading:
    """A text as read: statements, stumbles and comments, each in text order.

    `given_up` is None, or the first word that was not looked at because the
    text had by then shown itself to be no recipe.
    """

    __slots__ = ("statements", "stumbles", "comments", "given_up")

    def __init__(self) -> None:
        self.statements: list[Node] = []
        self.stumbles: list[Stumble] = []
        self.comments: list[Token] = []
        self.given_up: Token | None = None

    def full(self) -> bool:
        """Whether it is time to give up."""
        return len(self.stumbles) >= MOST_STUMBLES or len(self.statements) >= MOST_STATEMENTS


def read(text: str) -> Reading:
    """Read a whole text.  Never raises, whatever the text."""
    reading = Reading()
    for words in split(text, reading.comments):
        if reading.full() or words[0].start > LONGEST_TEXT:
            reading.given_up = words[0]
            break
        result = parse(words)
        if isinstance(result, Node):
            reading.statements.append(result)
            continue
        reading.stumbles.append(result)
        if len(reading.stumbles) > MOST_MENDED:
            result.judged = ()
    return reading


def split(text: str, comments: list[Token]) -> Iterator[list[Token]]:
    """The words of each statement in turn; comments are put aside as tokens."""
    words: list[Token] = []
    for match in SCAN.finditer(text):
        group: int = match.lastindex  # type: ignore[assignment]  # whatever matches is in a group
        kind = KINDS[group]
        if kind == "WHITE":
            continue
        start, end = match.span(group)
        if kind == "_END":
            if words:
                yield words
                words = []
        elif kind == "COMMENT":
            comments.append(Token(kind, match[group], start, end))
        else:
            words.append(Token(kind, match[group], start, end))
    if words:
        yield words


def parse(
    words: list[Token], rows: Rows = ROWS, meant: Callable[[str], str | None] = table.WORDS.get
) -> Node | Stumble:
    """One statement's words to its Node, or the Stumble that prevents it."""
    states = [START]
    values: list[Node | Token] = []
    if len(words) > LONGEST_STATEMENT:
        return Stumble(words[LONGEST_STATEMENT], words, LONGEST_STATEMENT, (), ())
    for at, token in enumerate(words):
        kind = token.kind
        if kind == "NAME":
            word = meant(token.text)
            if word is not None and word in rows[states[-1]]:
                kind = token.kind = word
        if not _feed(kind, token, states, values) or len(states) > DEEPEST:
            return _stumble(token, words, at, states)
    last = words[-1]
    end = Token("$END", "", last.end, last.end)
    if not _feed("$END", end, states, values):
        return _stumble(end, words, len(words), states)
    statement = values[0]
    assert isinstance(statement, Node)  # a statement is a phrase, whatever its words
    return statement


def _feed(
    kind: str,
    token: Token,
    states: list[int],
    values: list[Node | Token],
    rows: Rows = ROWS,
    rules: list[Rule] = table.RULES,
) -> bool:
    """Shift one token, after the reductions it calls for.  False where it cannot follow."""
    while True:
        action = rows[states[-1]].get(kind)
        if action is None:
            return False
        if action > 0:
            states.append(action)
            values.append(token)
            return True
        name, size, keeps, gives_way, origin = rules[-1 - action]
        if gives_way and size == 1:
            states.pop()  # the phrase is its one part, which lies on top already
        else:
            taken = values[-size:]
            del values[-size:], states[-size:]
            values.append(_reduce(name, keeps, gives_way, taken))
        target = rows[states[-1]][origin]
        states.append(target)
        if target == ACCEPT and kind == "$END":
            return True


def _reduce(name: str, keeps: tuple[int, ...], gives_way: bool, taken: list[Node | Token]) -> Node | Token:
    """The node of one phrase: marks dropped, helper phrases opened up."""
    parts: list[Node | Token] = []
    for keep, value in zip(keeps, taken, strict=True):
        if keep == 1:
            parts.append(value)
        elif keep == 2:
            assert isinstance(value, Node)  # only a phrase is opened up
            # A helper's list is nobody else's: take it over rather than copy it,
            # or long lists would cost their square.
            if parts:
                parts.extend(value.parts)
            else:
                parts = value.parts
    if gives_way and len(parts) == 1:
        return parts[0]
    return Node(name, parts, taken[0].start, taken[-1].end)


def _stumble(token: Token, words: list[Token], at: int, states: list[int]) -> Stumble:
    wanted = tuple(kind for kind in ROWS[states[-1]] if kind.isupper() and advance(kind, states))
    return Stumble(token, words, at, wanted, tuple(states))


def advance(kind: str, states: Sequence[int], rows: Rows = ROWS, rules: list[Rule] = table.RULES) -> list[int] | None:
    """The states after one more word of that kind, or None where it cannot stand there.

    LALR rows promise more than they keep: only the reductions tell.
    """
    states = list(states)
    while True:
        action = rows[states[-1]].get(kind)
        if action is None:
            return None
        if action > 0:
            return [*states, action]
        size, origin = rules[-1 - action][1], rules[-1 - action][4]
        del states[-size:]
        states.append(rows[states[-1]][origin])
        if states[-1] == ACCEPT:
            return states if kind == "$END" else None
