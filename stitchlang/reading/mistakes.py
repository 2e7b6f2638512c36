"""The commonest mistakes in a statement, told apart, and what could stand there in plain words."""

from ..ground.nearest import nearest
from . import table
from .parse import DEEPEST, LONGEST_STATEMENT, ROWS, START

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


def kind_of(stumble):
    """Which mistake a stumble is: the name of the rule that speaks of it."""
    token, before = stumble.token, stumble.before
    if len(before) >= LONGEST_STATEMENT or _deep(before):
        return "statement-too-long"
    if not before:
        return "unknown-verb"
    if token.text.startswith('"') and token.kind not in ("STRING", "LENGTH"):
        return "quotes-never-closed"
    if token.kind == "$END":
        return "statement-breaks-off"
    if token.kind == "NAME" and before[-1].kind == "NUMBER" and token.text not in table.WORDS and not near(stumble):
        return "unknown-unit"
    marks = [kind for kind in stumble.wanted if kind in MARKS and kind != "RPAR"]
    if token.kind in ("COMMA", "COLON", "EQUAL") and len(marks) == 1 and marks[0] != token.kind:
        return "wrong-mark"
    return "word-out-of-place"


def _deep(before):
    return sum(token.kind == "LPAR" for token in before) > DEEPEST // 2


def near(stumble):
    """Words of the language that could have stood there and are spelt nearly so."""
    return nearest(stumble.token.text, [WORD_OF[kind] for kind in stumble.wanted if kind in WORD_OF])


def expected(stumble, most=6):
    """What could have stood there, in plain words: `a length, `as` or the end of the line`."""
    marks = [MARKS[kind] for kind in stumble.wanted if kind in MARKS and kind != "RPAR"]
    if stumble.token.kind in ("COMMA", "COLON", "EQUAL") and len(marks) == 1:
        return marks[0]
    words = list(dict.fromkeys(filter(None, map(_said, stumble.wanted))))
    words.sort(key=lambda word: (word.startswith("`"), word))
    if len(words) > most:
        words = [*words[:most], "..."]
    return " or ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)


def _said(kind):
    if kind in SAID:
        return SAID[kind]
    return MARKS.get(kind) or (f"`{WORD_OF[kind]}`" if kind in WORD_OF else None)
