"""Marks and quotes: wrong ones, and those left out."""

from __future__ import annotations

from ..table import WORDS
from .attempt import line_of
from .change import DECLARED, LENGTHS, Change, over
from .other_words import CURLY, IDLE, SINGLE

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..parse import Stumble

QUOTED = frozenset("recipe revision part note use".split())
SAID = {":": "a colon", ",": "a comma", "x": "`x`", "=": "`=`", "to": "`to`", ".": "`.`"}


def quotes(stumble: Stumble) -> Iterator[Change]:
    """Quotes as a word processor sets them, and single ones."""
    curly = [word for word in stumble.words if word.text in CURLY]
    if curly:
        says = f"`{curly[0].text}` are quotes of another kind"
        yield Change("quotes-of-another-kind", says, [(*over(word), '"') for word in curly], over(curly[0]))
    single = [word for word in stumble.words if word.text in SINGLE]
    if len(single) > 1:
        says = "words stand in double quotes"
        edits = [(*over(single[0]), '"'), (*over(single[-1]), '"')]
        yield Change("quotes-of-another-kind", says, edits, over(single[0]))


def marks(stumble: Stumble) -> Iterator[Change]:
    """A mark, or `and`, that stands for another mark."""
    words, token = stumble.words, stumble.token
    linked = [word for word in words[1:] if word.text in ("and", "&", "+", "plus")]
    for word in linked[-2:]:
        later = any(other.text == "to" and other.start < word.start for other in words)
        order = (",", "to", "through") if later or words[0].text != "join" else ("to", ",")
        for ours in order:
            right = "items take a comma" if ours == "," else f"edges are joined with `{ours}`"
            says = f"`{word.text}` links nothing here: {right}"
            start = word.start - 1 if ours == "," else word.start
            yield Change("wrong-mark", says, [(start, word.end, ours)], over(word))
    times = [word for word in words if word.text in ("*", "X", "by")] if words[0].text == "piece" else []
    for word in times[-1:]:
        yield Change("wrong-mark", f"here stands `{word.text}` where `x` belongs", [(*over(word), "x")])
    if token.text == "=" and words[0].text in ("join", "fold", "lap", "wrap"):
        yield Change("wrong-mark", "what a statement makes is named by `as`", [(*over(token), "as")])
    if words[0].text == "thread" and token.text == ":":
        yield Change("unknown-verb", "sewing thread is called `reel`", [(*over(words[0]), "reel")])
    if token.text in (";", ".") and not stumble.behind:
        yield Change("wrong-mark", f"a statement ends without `{token.text}`", [(*over(token), "")])
    if token.text and token.kind not in (*LENGTHS, "STRING") and not token.text[0].isalpha():
        for ours in (":", ",", "x", "=", "."):
            says = f"here stands `{token.text}` where {SAID[ours]} belongs"
            padded = f" {ours} " if ours in "x=" else ours
            yield Change("wrong-mark", says, [(stumble.before[-1].end, token.end, padded)], over(token))
        says = f"`{token.text}` is not needed here"
        yield Change("wrong-mark", says, [(stumble.before[-1].end, token.end, "")], over(token))
    elif not token.text and stumble.before[-1].text in ".;,":
        last = stumble.before[-1]
        yield Change("wrong-mark", f"a statement ends without `{last.text}`", [(*over(last), "")])


def missing_marks(stumble: Stumble) -> Iterator[Change]:
    """A mark that was left out."""
    token, last = stumble.token, stumble.before[-1]
    if not token.text:
        return
    for ours in (":", "x", "=", ","):
        says = f"{SAID[ours]} is missing between `{last.text}` and `{token.text}`"
        text = ours if ours in ":," else f" {ours}"
        gap = "" if token.start > last.end else " "
        change = Change("missing-mark", says, [(last.end, last.end, text + gap)], over(last, token))
        if ours != "," or token.kind in ("STRING", *LENGTHS) or (token.text in WORDS and token.text not in IDLE):
            yield change


def unquoted(stumble: Stumble) -> Iterator[Change]:
    """Words that want quotes."""
    words = stumble.words
    if words[0].text in QUOTED and len(words) > 1 and not any(word.kind == "STRING" for word in words):
        text = " ".join(line_of([word for word in words[1:] if word.text not in (":", '"')]).split())
        says = f"what `{words[0].text}` says stands in quotes"
        yield Change("words-without-quotes", says, [(words[0].end, words[-1].end, f' "{text}"')], over(*words[1:]))
    colon = next((at for at, word in enumerate(words) if word.text == ":"), None)
    if words[0].text not in DECLARED or colon is None:
        return
    run = []
    for word in words[colon + 1 :]:
        if word.kind in (*LENGTHS, "STRING") or not word.text[0].isalpha():
            break
        run.append(word)
    if run and words[0].text not in ("piece", "finished", "made"):
        text = " ".join(line_of(run).split())
        yield Change("words-without-quotes", "a description stands in quotes", [(*over(*run), f'"{text}"')])
