"""Mending a text: edits put into it, and the findings that can be mended without asking."""

from attrs import field, frozen

from ..build import build
from ..ground.text import Source
from .allow import READING
from .check import BREAKING, check

ROUNDS = 10


def edited(text, edits):
    """The text with each (span, new words) put in; of edits that overlap the first is taken."""
    result, end = [], 0
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
    done: tuple = field(default=(), converter=tuple)
    left: tuple = field(default=(), converter=tuple)


def mended(text, name="<recipe>"):
    """The text with everything put right that can be put right in one way only: a Mended.

    Round after round, at most ten; a round that would leave more to find than there was is not taken.
    """
    findings, done = check(build(Source(text, name))), []
    for _ in range(ROUNDS):
        mends = [(finding, mend) for finding in findings for mend in finding.mends if mend.certain]
        if not mends:
            break
        better, words = best_of(text, name, findings, mends)
        if better is None:
            break
        text, findings = better
        done += words
    return Mended(text, done, findings)


def best_of(text, name, before, mends):
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


def weight(findings):
    """How much is wrong: what cannot be read hides the rest, so a fault in reading counts most."""
    unread = sum(finding.rule in READING or finding.rule in BREAKING for finding in findings)
    return unread, sum(finding.severity == "fault" for finding in findings), len(findings)
