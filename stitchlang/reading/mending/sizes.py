"""Sizes: their units, their dimensions, their order."""

from __future__ import annotations

from itertools import pairwise

from .change import LENGTHS, Change, over
from .other_words import ACROSS, CALLED, DIMENSIONS, LENGTH_WORD, NAMED_BY, UNITS, UPWARD

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..parse import Stumble
    from ..tree import Token


def units(stumble: Stumble) -> Iterator[Change]:
    """A unit in another spelling."""
    token, before = stumble.token, stumble.before[-1]
    ours = UNITS.get(token.text.lower())
    if ours and before.kind == "NUMBER":
        says = f"`{token.text}` is not how a unit is written"
        yield Change("unknown-unit", says, [(*over(token), ours)])
    if stumble.words[0].text == "units":
        for word in stumble.words[1:]:
            ours = UNITS.get(word.text.lower(), {"inches": "in", "inch": "in"}.get(word.text.lower()))
            if ours:
                yield Change("unknown-unit", f"`{word.text}` is not how a unit is written", [(*over(word), ours)])


def sizes(stumble: Stumble) -> Iterator[Change]:
    """Sizes with the dimension ahead of them, or named where they are told by their order, or the other way round."""
    words, first = stumble.words, stumble.words[0].text
    if first in ("piece", "finished", "made"):
        yield from named_sizes(words, first)
    if first == "piece":
        yield from circle_and_count(words)
    if len(words) > 2 and words[1].kind in LENGTHS and first in LENGTH_WORD:
        says = "a length stands behind what it is for"
        edits = [
            (words[0].end, words[1].end, ""),
            (words[-1].end, words[-1].end, f" {LENGTH_WORD[first][0]} {words[1].text}"),
        ]
        yield Change("dimension-out-of-place", says, edits, over(words[1]))
    for one, other in pairwise(words[1:]):
        if one.text in DIMENSIONS and other.kind in LENGTHS:
            ours = CALLED.get(one.text, one.text)
            says = f"the length stands first, then `{ours}`"
            yield Change("dimension-out-of-place", says, [(*over(one, other), f"{other.text} {ours}")])
    for one, side, length in zip(words[1:], words[2:], words[3:], strict=False):
        if one.text in ("below", "above", "from") and length.kind in LENGTHS:
            says = f"the length stands first, then `{one.text} {side.text}`"
            text = f", {length.text} {one.text} {side.text}"
            before = words[words.index(one) - 1]
            yield Change("dimension-out-of-place", says, [(before.end, length.end, text)], over(one, length))
    yield from called_sizes(stumble, first)


def named_sizes(words: list[Token], first: str) -> Iterator[Change]:
    """`10 tall x 8 wide` where a piece takes `8 x 10`, and `10 x 12` where a claim takes `10 wide, 12 tall`."""
    colon = next((at for at, word in enumerate(words) if word.text == ":"), None)
    if colon is None:
        return
    run = []
    for word in words[colon + 1 :]:
        if (
            word.kind not in LENGTHS
            and word.text not in DIMENSIONS
            and word.text not in (",", "x", "×", "X", "by", "and", "*")
        ):
            break
        run.append(word)
    while run and run[-1].kind not in LENGTHS and run[-1].text not in DIMENSIONS:
        run.pop()
    lengths = [word for word in run if word.kind in LENGTHS]
    called = [word.text for word in run if word.text in DIMENSIONS]
    if first == "piece" and len(lengths) == len(called) == 2:
        pair = dict(zip(called, lengths, strict=True))
        wide = next((pair[word] for word in called if word in ACROSS), None)
        tall = next((pair[word] for word in called if word in UPWARD), None)
        if wide and tall:
            says = "a cut size is written across x up, and does not say which is which"
            yield Change("dimension-out-of-place", says, [(*over(*run), f"{wide.text} x {tall.text}")])
    if first != "piece" and len(lengths) in (2, 3) and not called:
        names = ("wide", "tall", "deep")
        text = ", ".join(f"{length.text} {name}" for length, name in zip(lengths, names, strict=False))
        says = "a finished size says which it is: wide, tall, deep"
        yield Change("dimension-out-of-place", says, [(*over(*run), text)])


def called_sizes(stumble: Stumble, first: str) -> Iterator[Change]:
    """A dimension by another name, or one that is not what the thing is named by."""
    token, last = stumble.token, stumble.before[-1]
    for word in (token, last):
        ours = CALLED.get(word.text)
        if ours:
            says = f"`{word.text}` is written `{ours}`"
            yield Change("word-out-of-place", says, [(*over(word), ours)])
    ours = NAMED_BY.get(first)
    if ours and last.kind in LENGTHS:
        says = f"it is not said what `{last.text}` measures; a {first} is named by how much it is `{ours}`"
        if token.text in DIMENSIONS:
            says = f"a {first} is not said to be `{token.text}`; it is named by how much it is `{ours}`"
            yield Change("word-out-of-place", says, [(*over(token), ours)])
        elif not token.text:
            yield Change("statement-breaks-off", says, [(last.end, last.end, f" {ours}")], over(last))
        else:
            yield Change("word-out-of-place", says, [(last.end, last.end, f" {ours},")], over(last))


def circle_and_count(words: list[Token]) -> Iterator[Change]:
    """A circle without `across`, and how many are cut, in another order."""
    round_at = next((word for word in words if word.text in ("circle", "round")), None)
    lengths = [word for word in words if word.kind in LENGTHS]
    told = (
        {word.text for word in words if word.text in (",", "with", "cut") or word.start > lengths[0].end}
        if lengths
        else ()
    )
    if round_at is not None and len(lengths) == 1 and set(told) <= {"circle", "round", "across", "diameter"}:
        colon = next((word for word in words if word.text == ":"), words[0])
        says = "a circle is written `circle 8 across`"
        edits = [(colon.end, words[-1].end, f" circle {lengths[0].text} across")]
        yield Change("word-out-of-place", says, edits, over(round_at))
    for one, other in pairwise(words[1:]):
        if (one.kind, other.text) in (("NUMBER", "of"), ("NUMBER", "pieces"), ("NUMBER", "off")) and one is not words[
            1
        ]:
            yield Change(
                "word-out-of-place", f"a piece says `cut {one.text}`", [(*over(one, other), f"cut {one.text}")]
            )
        if one.text in ("x", "X") and other is words[-1] and words[words.index(one) - 1].text == ",":
            yield Change(
                "word-out-of-place", f"a piece says `cut {other.text}`", [(*over(one, other), f"cut {other.text}")]
            )
    if len(words) > 2 and words[1].kind == "NUMBER":
        says = f"how many are cut stands at the end: `cut {words[1].text}`"
        end = words[-1].end
        edits = [(words[0].end, words[1].end, ""), (end, end, f", cut {words[1].text}")]
        yield Change("word-out-of-place", says, edits, over(words[1]))
