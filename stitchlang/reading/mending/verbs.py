"""A line that begins with no verb of the language."""

from __future__ import annotations

from ..table import WORDS
from .change import Change, over
from .other_words import FOR_VERB, verb_of

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from ..parse import Stumble
    from ..tree import Token


def verb_changes(stumble: Stumble, verbs: Collection[str]) -> Iterator[Change]:
    """The line begins with no word of the language."""
    words = stumble.words
    first = words[0]
    text, second = first.text, words[1].text if len(words) > 1 else ""
    if text + second in ("//", "--", "/*"):
        yield Change("unknown-verb", "a comment begins with `#`", [(first.start, words[1].end, "#")])
        return
    if second == "=":
        yield from given_by_equals(words, verbs)
    if text.lower() in verbs:
        small = [(*over(word), word.text.lower()) for word in words if word.text.lower() in WORDS or word is first]
        yield Change("unknown-verb", "verbs are written in small letters", small, over(first))
    if second and text.lower() + second in verbs:
        yield Change(
            "unknown-verb", f"`{text} {second}` is one word", [(*over(first, words[1]), text.lower() + second)]
        )
    ours = FOR_VERB.get(text.lower()) or tuple(filter(None, [verb_of(text.lower(), verbs)]))
    if not any(word.text in ("to", "and", "with", "along") for word in words):
        ours = tuple(sorted(ours, key=lambda word: word == "join"))  # one edge alone is not joined
    said = " or ".join(f"`{word}`" for word in ours)
    onto = next((word for word in words if word.text in ("to", "onto")), None)
    for word in ours:
        if word == "place" and onto is not None and ours[0] == "place":
            says = f"`{text}` is not a statement; here it is called `place`"
            yield Change("unknown-verb", says, [(*over(first), "place"), (*over(onto), "on")], over(first))
        if word in verbs:
            yield verb(first, (word,), f"`{text}` is not a statement; here it is called {said}")
    if second == ":":
        yield Change(
            "unknown-verb", f"`{text}` is not a statement", [(first.start, first.start, "finished ")], over(first)
        )
    yield from verb_behind(words, verbs)


def verb(token: Token, ours: tuple[str, ...], says: str) -> Change:
    """Another verb put for the first word."""
    return Change("unknown-verb", says, [(token.start, token.end, ours[0])])


def given_by_equals(words: list[Token], verbs: Collection[str]) -> Iterator[Change]:
    """`bag = join ...` and `wide = 10`."""
    name = words[0]
    if len(words) > 2 and words[2].text in verbs:
        says = f"a statement begins with its verb; what it makes is named by `as {name.text}` at its end"
        end = words[-1].end
        yield Change(
            "verb-not-first", says, [(name.start, words[2].start, ""), (end, end, f" as {name.text}")], over(name)
        )
    says = f"`{name.text}` is not a statement; a value is named with `let`"
    yield Change("unknown-verb", says, [(name.start, name.start, "let ")], over(name))


def verb_behind(words: list[Token], verbs: Collection[str]) -> Iterator[Change]:
    """A verb that stands behind its clauses, or behind a number or a word that is not needed."""
    place = next((at for at, word in enumerate(words[1:7], 1) if word.text in verbs), None)
    if place is None:
        return
    verb, end = words[place], words[-1].end
    ahead = " ".join(word.text for word in words[:place] if word.text != ",")
    says = f"a statement begins with its verb, `{verb.text}`"
    for tail in (f" {ahead}", f", {ahead}", ""):
        edits = [(words[0].start, verb.start, "")] + ([(end, end, tail)] if tail else [])
        if tail or words[0].text not in WORDS or place == 1:
            yield Change("verb-not-first", says, edits, over(words[0], words[place - 1]))
