"""Lay a recipe's text out in the one way, comments kept.

Works on the words the scanner found, never on the worked-out recipe, so a
number stays as it was written.  The result is read again before it is handed
out: where its meaning or its comments would differ, the text is refused.
"""

from __future__ import annotations

from bisect import bisect_left

from ..ground.lengths import VULGAR, mass_parts, unit_of
from ..reading.parse import read, split
from ..reading.tree import Token

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..reading.parse import Stumble

VERB_COLUMN = 10  # what follows the verb begins here
WIDEST = 88
TIGHT_BEFORE = {"COMMA", "COLON", "RPAR", "DOT"}
TIGHT_AFTER = {"LPAR", "DOT"}
VALUES = {"NUMBER", "LENGTH", "NAME", "RPAR"}  # what a minus behind it is taken from


class Refused(Exception):
    """The text cannot be laid out; `stumbles` says where it could not be read."""

    def __init__(self, stumbles: Sequence[Stumble] = ()) -> None:
        super().__init__("the recipe cannot be read")
        self.stumbles = stumbles


def laid_out(text: str) -> str:
    """The text in the one layout.  Raises Refused where a statement cannot be read."""
    reading = read(text)
    if reading.stumbles:
        raise Refused(reading.stumbles)
    comments: list[Token] = []
    statements = list(split(text, comments))
    if not statements and not comments:
        return ""
    result = "\n".join(lines_of(text, statements, comments)) + "\n"
    if meaning(result) != meaning(text):
        raise Refused
    return result


def meaning(text: str) -> tuple[list[list[str]], list[str]]:
    """What layout must not change: the statements' words and the comments."""
    comments: list[Token] = []
    statements = [[written(token) for token in words] for words in split(text, comments)]
    return statements, [comment.text.rstrip() for comment in comments]


def lines_of(text: str, statements: Sequence[list[Token]], comments: Sequence[Token]) -> list[str]:
    """The output lines: statements and comments in text order, at most one blank line between."""
    items = sorted([*statements, *([comment] for comment in comments)], key=lambda item: item[0].start)
    starts = [comment.start for comment in comments]
    lines: list[str] = []
    end = 0
    for item in items:
        first = item[0]
        if first.start < end:
            continue  # a comment inside a statement, printed with it
        if first.kind == "COMMENT":
            if lines and "\n" not in text[end : first.start]:
                lines[-1] += "  " + first.text.rstrip()
            else:
                space(lines, text[end : first.start])
                lines.append(first.text.rstrip())
        else:
            space(lines, text[end : first.start], first.text == "part" and not follows_comment(lines))
            inner = comments[bisect_left(starts, first.start) : bisect_left(starts, item[-1].end)]
            lines += broken(item, inner, text) if inner else wrapped(item)
        end = item[-1].end
    return lines


def follows_comment(lines: Sequence[str]) -> bool:
    """Whether the last line is a comment or an `allow`, which belong to what comes next."""
    return bool(lines) and lines[-1].startswith(("#", "allow "))


def space(lines: list[str], gap: str, wanted: bool = False) -> None:
    """One blank line where there were some, or where a part begins."""
    if lines and lines[-1] and (wanted or gap.count("\n") > 1):
        lines.append("")


def wrapped(words: Sequence[Token]) -> list[str]:
    """A statement on one line; where it is too long, broken before clauses, or else between items."""
    whole = spaced(words, lead=True)
    if len(whole) <= WIDEST:
        return [whole]
    lines: list[str] = []
    line = ""
    for number, part in enumerate(phrases(words)):
        said = spaced(part, lead=number == 0)
        if line and len(line) + 1 + len(said) > WIDEST:
            lines.append(line)
            line = " " * VERB_COLUMN + said
        else:
            line = f"{line} {said}" if line else said
    return [*lines, line]


def phrases(words: Sequence[Token]) -> list[list[Token]]:
    """A statement's words in the runs that stay together: a clause, or an item of a long list, or the sentence."""
    parts: list[list[Token]] = []
    part: list[Token] = []
    for at, token in enumerate(words):
        sentence = token.kind == "STRING" and at > 1
        if part and (sentence or words[at - 1].kind == "COMMA"):
            # Items of one phrase stay together unless the phrase alone fills a line.
            item = token.kind == "NAME" and not sentence
            if not item or len(spaced(part, lead=False)) > WIDEST // 2:
                parts.append(part)
                part = []
        part.append(token)
    return [*parts, part]


def broken(words: Sequence[Token], inner: Sequence[Token], text: str) -> list[str]:
    """A statement with comments inside keeps its line ends, so that they stay where they are."""
    rows: list[list[Token]] = [[]]
    end = words[0].start
    for token in sorted([*words, *inner], key=lambda token: token.start):
        if "\n" in text[end : token.start]:
            rows.append([])
        rows[-1].append(token)
        end = token.end
    lines: list[str] = []
    for row in rows:
        said = spaced([token for token in row if token.kind != "COMMENT"], lead=not lines)
        comment = "".join(token.text.rstrip() for token in row if token.kind == "COMMENT")
        indent = "" if not lines else " " * VERB_COLUMN
        lines.append(f"{indent}{said}{'  ' if said and comment else ''}{comment}".rstrip())
    return lines


def spaced(words: Sequence[Token], lead: bool) -> str:
    """Words with one space where one belongs; the first of a statement fills the verb's column."""
    said = ""
    before: Token | None = None
    verb = words[:2] if len(words) > 1 and words[1].kind == "COLON" else words[:1]  # `machine:` has no name
    rule_name = lead and words[0].text == "allow"  # whose hyphens are no minus signs
    for token in words:
        if before is None or token.kind in TIGHT_BEFORE or before.kind in TIGHT_AFTER or before is unary:
            gap = ""
        else:
            gap = "" if rule_name and "MINUS" in (token.kind, before.kind) else " "
        sign = token.kind == "MINUS" and not (before and before.kind in VALUES and before.text != "polygon")
        said += gap + written(token)
        if lead and token is verb[-1] and len(words) > 1:
            said = said.ljust(VERB_COLUMN - 1)
        before = unary if sign else token
    return said


unary = Token("UNARY", "-", 0, 0)  # a minus that belongs to the number behind it


def written(token: Token) -> str:
    """A word as the layout writes it; numbers keep their value and their unit."""
    if token.kind == "_BY":
        return "x"
    if token.kind == "LENGTH":
        number = token.text.rstrip('"″abcdefghijklmnopqrstuvwxyz')
        return f"{number_text(number)} {unit_of(token.text)}"
    if token.kind == "NUMBER":
        return number_text(token.text)
    if token.kind == "MASS":
        number, unit = mass_parts(token.text)
        return f"{number} {unit.replace('²', '2')}"
    return " ".join(token.text.split()) if token.kind in ("SIDES_TOGETHER", "SIDE_SEAMS") else token.text


def number_text(text: str) -> str:
    """`12-1/2`, `12½` and `12   1/2` are all written `12 1/2`."""
    text = text.strip()
    if text[-1] in VULGAR:
        over, under = VULGAR[text[-1]]
        text = f"{text[:-1].strip()} {over}/{under}"
    return " ".join(text.replace("-", " ").split())
