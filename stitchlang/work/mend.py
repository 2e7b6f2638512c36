"""Mending a text: edits put into it, and the findings that can be mended without asking."""

from __future__ import annotations

from attrs import frozen

from ..build import build
from ..ground.text import Source
from .allow import READING
from .check import BREAKING, check

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from typing import TypeAlias

    from ..ground.finding import Finding, Mend
    from ..ground.text import Span

    Found: TypeAlias = list[tuple[Finding, Mend]]
    Better: TypeAlias = tuple[str, list[Finding]]

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


@frozen
class Mended:
    """A mended text, what was done (words, in the order done), and what is left to find."""

    text: str
    done: tuple[str, ...] = ()
    left: tuple[Finding, ...] = ()


def mended(text: str, name: str = "<recipe>") -> Mended:
    """The text with everything put right that can be put right in one way only: a Mended.

    Round after round, at most ten; a round that would leave more to find than there was is not taken.
    """
    done: list[str] = []
    findings = check(build(Source(text, name)))
    for _ in range(ROUNDS):
        mends = [(finding, mend) for finding in findings for mend in finding.mends if mend.certain]
        if not mends:
            break
        better, words = best_of(text, name, findings, mends)
        if better is None:
            break
        text, findings = better
        done += words
    return Mended(text, tuple(done), tuple(findings))


def best_of(
    text: str, name: str, before: list[Finding], mends: Found
) -> tuple[Better, list[str]] | tuple[None, tuple[()]]:
    """All certain mends at once if that helps, else each alone: ((text, findings), words), or (None, ())."""
    for some in (mends, *([mend] for mend in mends)):
        edits = [(edit.at, edit.text) for _, mend in some for edit in mend.edits]
        changed = edited(text, edits)
        findings = check(build(Source(changed, name)))
        gone = {(finding.rule, finding.says) for finding, _ in some}.isdisjoint(
            (one.rule, one.says) for one in findings
        )
        if changed != text and (weight(findings), not gone) < (weight(before), True):
            return (changed, findings), [f"{finding.says}: {mend.says}" for finding, mend in some]
    return None, ()


def weight(findings: Sequence[Finding]) -> tuple[int, int, int]:
    """How much is wrong: what cannot be read hides the rest, so a fault in reading counts most."""
    unread = sum(finding.rule in READING or finding.rule in BREAKING for finding in findings)
    return unread, sum(finding.severity == "fault" for finding in findings), len(findings)
