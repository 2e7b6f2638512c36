"""Names: of two words, or none at all."""

from __future__ import annotations

from .change import DECLARED, Change, over
from .other_words import FOR_CLAUSE, IDLE

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..parse import Stumble


def names(stumble: Stumble) -> Iterator[Change]:
    """A name of two words, or none, where something is declared."""
    words = stumble.words
    if words[0].text not in DECLARED or any(word.text == ":" for word in stumble.before):
        return
    at, token, last = len(stumble.before), stumble.token, stumble.before[-1]
    two = at > 1 and token.kind == "NAME" and last.kind == "NAME"
    if two and token.text not in IDLE | {"and", "from", "in"} and token.text not in FOR_CLAUSE:
        says = f"`{last.text} {token.text}` is two words, and a name is one (two names want a comma)"
        yield Change("name-lacking", says, [(last.end, token.start, "_")], over(last, token))
    if token.text == "-" and stumble.behind and stumble.behind[0].kind == "NAME":
        says = "a name has no hyphen"
        yield Change("name-lacking", says, [(last.end, stumble.behind[0].start, "_")], over(token))
    if at == 1 or (at == 2 and last.text == "of"):
        says = f"this {words[0].text} has no name"
        mark = "" if token.text in (":", "of") or last.text == "of" else ":"
        place = words[0].end
        yield Change("name-lacking", says, [(place, place, f" NAME{mark}")], over(words[0]))
    if words[0].text == "piece" and token.text == ":" and len(stumble.behind) > 1 and stumble.behind[1].text == ",":
        says = "what a piece is cut from stands ahead of the colon"
        comma = stumble.behind[1]
        yield Change("wrong-mark", says, [(*over(token), " of"), (*over(comma), ":")], over(token))
    if words[0].text == "piece" and token.text == ":":
        says = "it is not said what this piece is cut from"
        yield Change("name-lacking", says, [(last.end, last.end, " of CLOTH")], over(last))
