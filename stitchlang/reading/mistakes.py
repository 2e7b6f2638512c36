"""The commonest mistakes in a statement, told apart, and what could stand there in plain words."""

from __future__ import annotations

from ..ground.nearest import nearest
from . import table
from .parse import DEEPEST, LONGEST_STATEMENT, ROWS, START, advance

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from .mending.remedy import Remedy
    from .parse import Stumble
    from .tree import Token

WORD_OF = {kind: word for word, kind in table.WORDS.items()}
FIRST_WORDS = sorted(WORD_OF[kind] for kind in ROWS[START] if kind in WORD_OF)
MARKS = {"COMMA": "a comma", "COLON": "a colon", "EQUAL": "`=`", "DOT": "`.`", "RPAR": "`)`", "_BY": "`x`"}
SAID = {
    "NAME": "a name",
    "STRING": "words in quotes",
    "MASS": "a mass such as `350 g/m2`",
    "LPAR": None,
    "MINUS": None,
    "PLUS": None,
    "TIMES": None,
    "OVER": None,
    "NUMBER": "a length",
    "LENGTH": "a length",
    "$END": "the end of the line",
    "_END": None,
    "SIDES_TOGETHER": "`right sides together`",
    "SIDE_SEAMS": "`side seams`",
}


# Words behind a number that say what it measures; where one of them may stand, a unit is not what is missing.
DIMENSIONS = {"WIDE", "TALL", "LONG", "THICK", "DEEP", "ACROSS", "INSIDE", "BELOW", "ABOVE", "FROM", "OPEN"}


def kind_of(stumble: Stumble) -> str:
    """Which mistake a stumble is: the name of the rule that speaks of it."""
    return judged(stumble)[0]


def remedy_of(stumble: Stumble) -> Remedy | None:
    """What the statement was most likely meant to be, or None."""
    return judged(stumble)[1]


def judged(stumble: Stumble) -> tuple[str, Remedy | None]:
    """(the rule, the Remedy or None), worked out once."""
    if not stumble.judged:
        from .mending.remedy import remedy  # here, since a text without a stumble does not need it

        kind, found = plain_kind(stumble), None
        if (
            stumble.judged is None
            and kind not in ("statement-too-long", "quotes-never-closed")
            and not decimal_comma(stumble)
        ):
            found = remedy(stumble, FIRST_WORDS)
        stumble.judged = (found.rule if found is not None else kind, found)
    return stumble.judged


def plain_kind(stumble: Stumble) -> str:
    """The kind of mistake, told from the place of the stumble alone."""
    token, before = stumble.token, stumble.before
    if len(before) >= LONGEST_STATEMENT or _deep(before):
        return "statement-too-long"
    if not before:
        return "unknown-verb"
    if token.text.startswith('"') and token.kind not in ("STRING", "LENGTH"):
        return "quotes-never-closed"
    if token.kind == "$END":
        return "statement-breaks-off"
    if decimal_comma(stumble) or in_place_of(stumble) or and_for_to(stumble):
        return "wrong-mark"
    number_first = token.kind == "NAME" and before[-1].kind == "NUMBER" and token.text not in table.WORDS
    if number_first and not near(stumble) and not DIMENSIONS & set(stumble.wanted):
        return "unknown-unit"
    return "word-out-of-place"


def decimal_comma(stumble: Stumble) -> tuple[str, str] | None:
    """`3,5` as much of the world writes it: (3, 5), or None."""
    if not stumble.before:
        return None
    one, other = stumble.before[-1], next(iter(stumble.behind), None)
    if other is None or (one.end, other.start) != (stumble.token.start, stumble.token.end):
        return None
    if stumble.token.kind == "COMMA" and one.kind == "NUMBER" and other.kind in ("NUMBER", "LENGTH"):
        return one.text, other.text
    return None


def meaning_of(token: Token) -> str:
    """The kind of word a token is: a word of the language where it is spelt like one."""
    return table.WORDS.get(token.text, token.kind) if token.kind == "NAME" else token.kind


def in_place_of(stumble: Stumble) -> str | None:
    """The mark that the word at hand should have been, or None: `;` for a colon, `by` for `x`."""
    behind = next(iter(stumble.behind), None)
    following = meaning_of(behind) if behind is not None else "$END"
    a_word = stumble.token.kind in ("NUMBER", "LENGTH", "STRING") or stumble.token.text[0].isalpha()
    if a_word and stumble.token.text != "by":
        return None
    for kind in stumble.wanted:
        states = advance(kind, stumble.states) if kind in MARKS else None
        if states and advance(following, states):
            return MARKS[kind]
    return None


def and_for_to(stumble: Stumble) -> Token | None:
    """The `and` in `join front and back`, which reads as an edge of front; or None."""
    last = stumble.before[-1]
    return last if last.text == "and" and last.kind == "NAME" and "TO" in stumble.wanted else None


def missing(stumble: Stumble) -> str | None:
    """The one mark or word that, put before the word at hand, lets the statement go on; or None."""
    kind = meaning_of(stumble.token)
    for wanted in sorted(stumble.wanted, key=lambda kind: (kind != "COMMA", kind not in MARKS)):
        states = advance(wanted, stumble.states) if wanted in MARKS or wanted in WORD_OF else None
        if states and advance(kind, states):
            return MARKS.get(wanted) or f"`{WORD_OF[wanted]}`"
    comma = advance("COMMA", stumble.states)
    return "a comma" if comma and stumble.token.text[0].isalpha() and advance("NAME", comma) else None


def _deep(before: list[Token]) -> bool:
    return sum(token.kind == "LPAR" for token in before) > DEEPEST // 2


def near(stumble: Stumble) -> list[str]:
    """Words of the language that could have stood there and are spelt nearly so."""
    return nearest(stumble.token.text, [WORD_OF[kind] for kind in stumble.wanted if kind in WORD_OF])


def expected(stumble: Stumble, most: int = 6) -> str:
    """What could have stood there, in plain words: `a length, `as` or the end of the line`."""
    wanted = [kind for kind in stumble.wanted if kind != "NUMBER" or "LENGTH" in stumble.wanted]
    words = list(dict.fromkeys(filter(None, map(_said, wanted))))
    if len(wanted) < len(stumble.wanted):
        words.append("a whole number")
    words.sort(key=lambda word: (word.startswith("`"), word))
    if len(words) > most:
        words = [*words[:most], "..."]
    return " or ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)


def _said(kind: str) -> str | None:
    if kind in SAID:
        return SAID[kind]
    return MARKS.get(kind) or (f"`{WORD_OF[kind]}`" if kind in WORD_OF else None)
