"""Mending a text: edits put into it, and the findings that can be mended without asking."""

from __future__ import annotations

from attrs import frozen

from ..build import build
from ..ground.text import Source
from ..reading.using import joined
from .allow import READING
from .check import BREAKING, check

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from typing import TypeAlias

    from ..ground.finding import Finding, Mend
    from ..ground.text import Span
    from ..reading.using import Opener

    Found: TypeAlias = list[tuple[Finding, Mend]]
    Better: TypeAlias = tuple[Source, list[Finding]]

ROUNDS = 10


def edited(text: str, edits: Iterable[tuple[Span, str]]) -> str:
    """The text with each (span, new words) put in; of edits that overlap the first is taken."""
    result: list[str] = []
    end = 0
    for span, words in sorted(edits, key=lambda edit: (edit[0].start, edit[0].end)):
        if span.start < end:
            continue
        result += [text[end : span.start], words]
        end = span.end
    return "".join([*result, text[end:]])


def own(source: Source, edits: Iterable[tuple[Span, str]]) -> list[tuple[Span, str]]:
    """The edits that lie in the recipe's own file, as they are there."""
    return [(at, words) for at, words in ((source.own(at), words) for at, words in edits) if at is not None]


@frozen
class Mended:
    """A mended text, what was done (words, in the order done), and what is left to find."""

    text: str
    done: tuple[str, ...] = ()
    left: tuple[Finding, ...] = ()


def mended(text: str, name: str = "<recipe>", opener: Opener | None = None) -> Mended:
    """The text with everything put right that can be put right in one way only: a Mended.

    Round after round, at most ten; a round that would leave more to find than there was is not taken.  What `opener`
    brings in from other files is read along, and left as it is.
    """
    done: list[str] = []
    source, findings = checked(text, name, opener)
    for _ in range(ROUNDS):
        mends = [(finding, mend) for finding in findings for mend in finding.mends if mend.certain]
        better, words = best_of(source, findings, mends, opener)
        if better is None:
            break
        source, findings = better
        done += words
    return Mended(source.own_text(), tuple(done), tuple(findings))


def checked(text: str, name: str, opener: Opener | None) -> Better:
    """A text with what it uses, and what is found in it."""
    source = Source(text, name)
    if opener is not None:
        source = joined(source, opener)
    return source, check(build(source))


def best_of(
    source: Source, before: list[Finding], mends: Found, opener: Opener | None
) -> tuple[Better, list[str]] | tuple[None, tuple[()]]:
    """All certain mends at once if that helps, else each alone: ((source, findings), words), or (None, ())."""
    mends = [(finding, mend) for finding, mend in mends if all(source.own(edit.at) is not None for edit in mend.edits)]
    text = source.own_text()
    for some in (mends, *([mend] for mend in mends)):
        changed = edited(text, own(source, [(edit.at, edit.text) for _, mend in some for edit in mend.edits]))
        if changed == text:
            continue
        better = checked(changed, source.name, opener)
        left = better[1]
        gone = {(finding.rule, finding.says) for finding, _ in some}.isdisjoint((one.rule, one.says) for one in left)
        if (weight(left), not gone) < (weight(before), True):
            return better, [f"{finding.says}: {mend.says}" for finding, mend in some]
    return None, ()


def weight(findings: Sequence[Finding]) -> tuple[int, int, int]:
    """How much is wrong: what cannot be read hides the rest, so a fault in reading counts most."""
    unread = sum(finding.rule in READING or finding.rule in BREAKING for finding in findings)
    return unread, sum(finding.severity == "fault" for finding in findings), len(findings)
