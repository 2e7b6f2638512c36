"""Words: those of another kind of recipe, those left out, those that are not needed."""

from __future__ import annotations

from itertools import pairwise

from ...ground.nearest import nearest
from ..table import WORDS
from .attempt import line_of, parsed, well_read
from .change import DECLARED, LENGTHS, Change, over
from .other_words import FOLDS, FOR_CLAUSE, IDLE, LENGTH_WORD, NUMBERS, PHRASES

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..parse import Stumble
    from ..tree import Token

WORD_OF = {kind: word for word, kind in WORDS.items()}


def phrases(stumble: Stumble) -> Iterator[Change]:
    """Phrases of speech: what goes without saying, and what is said in fewer words."""
    for phrase in PHRASES:
        for at in range(1, len(stumble.words)):
            tokens = stumble.words[at : at + len(phrase)]
            if tuple(word.text for word in tokens) == phrase:
                says = f"`{' '.join(phrase)}` goes without saying"
                yield Change(
                    "word-out-of-place", says, [(stumble.words[at - 1].end, tokens[-1].end, "")], over(*tokens)
                )
    words = stumble.words
    text = [word.text for word in words]
    for at in range(1, len(words)):
        if text[at : at + 3] == ["right", "sides", "facing"]:
            yield Change("word-out-of-place", "it is `right sides together`", [(*over(words[at + 2]), "together")])
        if text[at : at + 2] in (["gap", "in"], ["opening", "in"]) and len(text) > at + 2:
            says = "a gap is called by the seam that it was left in"
            edits = [(*over(words[at], words[at + 2]), f"{text[1]}.{text[at + 2]}")]
            yield Change("word-out-of-place", says, edits)
        if text[at] == "of" and at > 1 and len(text) > at + 1 and text[0] not in DECLARED:
            yield of_a_panel(words, at)
    if text[0] == "close" and ("with" in text or "using" in text):
        how = words[text.index("with" if "with" in text else "using")]
        yield Change(
            "word-out-of-place", "a gap is closed `by hand`, or by machine", [(*over(how, words[-1]), "by hand")]
        )
    if text[0] == "fold" and text[-1] in FOLDS:
        says = "a fold is in half, in thirds or in quarters"
        yield Change("word-out-of-place", says, [(*over(words[-1]), FOLDS[text[-1]])])
    if text[0] == "divide" and "at" in text:
        yield rows_from_a_side(words, text.index("at"))
    length = next((word for word in words if word.kind in LENGTHS), None)
    if text[0] == "box" and length is not None and "pinched" not in text and {"by", "deep"} & set(text):
        says = "the depth comes from the notch, or from how far across an uncut corner is pinched"
        end = words[text.index("deep")].end if "deep" in text else length.end
        start = words[text.index("by")].start if "by" in text else length.start
        yield Change("word-out-of-place", says, [(start, end, f"pinched {length.text} across")])


def rows_from_a_side(words: list[Token], at: int) -> Change:
    """`divide pocket at 2, 4`: each row by its distance from a side."""
    lengths = [word for word in words[at:] if word.kind in LENGTHS]
    edits = [(words[at].start, words[at].end, "")] + [(word.end, word.end, " from left") for word in lengths]
    return Change("word-out-of-place", "a row is measured from a side: `2 from left`", edits, over(words[at]))


def of_a_panel(words: list[Token], at: int) -> Change:
    """`top of bag`, `corners of front`."""
    side, panel = words[at - 1], words[at + 1]
    if side.text not in ("corners", "corner"):
        text = f"{panel.text}.{side.text}"
    else:
        text = panel.text if words[0].text == "box" else f"{panel.text} at bottom corners"
    return Change("word-out-of-place", f"it is written `{text}`", [(*over(side, panel), text)])


def misspelt(stumble: Stumble) -> Iterator[Change]:
    """A clause's word misspelt behind a comma, where it was read as one more edge."""
    for comma, word in pairwise(stumble.before[-3:]):
        if comma.kind == "COMMA" and word.kind == "NAME":
            for ours in nearest(word.text, WORDS):
                says = f"`{word.text}` is no word of the language"
                yield Change("word-out-of-place", says, [(*over(word), ours)], over(word))


def other_words(stumble: Stumble) -> Iterator[Change]:
    """A word of another kind of recipe for one of ours."""
    for word in (stumble.token, *reversed(stumble.before[-2:]), *stumble.behind[:1]):
        if word is stumble.words[0] or not word.text:
            continue
        for ours in (*FOR_CLAUSE.get(word.text.lower(), ()), *filter(None, [NUMBERS.get(word.text.lower())])):
            says = f"`{word.text}` is not the word here" + (f"; write `{ours.lstrip(', ')}`" if ours else "")
            glued = ours[:1] in (",", ":") or not ours
            start = stumble.words[stumble.words.index(word) - 1].end if glued else word.start
            yield Change("word-out-of-place", says, [(start, word.end, ours)], over(word))
        if word.text != word.text.lower() and word.text.lower() in WORDS:
            says = "words of the language are written in small letters"
            yield Change("word-out-of-place", says, [(*over(word), word.text.lower())])


def lacking_words(stumble: Stumble) -> Iterator[Change]:
    """A word of the language that was left out before the word at hand, or at the end of the line."""
    token, last, first = stumble.token, stumble.before[-1], stumble.words[0].text
    wanted = [WORD_OF[kind] for kind in stumble.wanted if kind in WORD_OF]
    likely = LENGTH_WORD.get(first, ("at", "by", "to")) if token.kind in LENGTHS else ()
    if not token.text:
        finish = [word for word in wanted if well_read(parsed(f"{line_of(stumble.words)} {word}"))]
        if len(finish) == 1:
            says = f"the statement breaks off after `{last.text}`"
            yield Change("statement-breaks-off", says, [(last.end, last.end, f" {finish[0]}")], over(last))
        return
    for ours in (*likely, *sorted(set(wanted) - set(likely))):
        says = f"`{ours}` is missing before `{token.text}`"
        yield Change("word-out-of-place", says, [(last.end, last.end, f" {ours}")], over(token))
        if token.kind in LENGTHS and ours in ("across", "long", "tall", "deep"):
            yield Change("word-out-of-place", says, [(token.end, token.end, f" {ours}")], over(token))


def idle_words(stumble: Stumble) -> Iterator[Change]:
    """Little words that the language does without."""
    words = stumble.words
    for at in range(max(1, len(stumble.before) - 3), min(len(words), len(stumble.before) + 2)):
        word = words[at]
        if word.text in IDLE or (at == 1 and word.text in (":", "=", "of")):
            says = f"`{word.text}` is not needed here"
            yield Change("word-out-of-place", says, [(words[at - 1].end, word.end, "")], over(word))
