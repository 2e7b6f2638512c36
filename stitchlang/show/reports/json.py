"""JSON, in a shape of our own that stays as it is within a version.

    version     1
    tool        name, version
    summary     how many: recipes, fault, doubt, hint (those that count), allowed, known (to the baseline), excluded
    recipes     for each: path, understood (false: sizes and what is left undone were not checked)
    findings    for each: recipe (the path of what was checked), rule, severity, PLACE, says, mend, fails,
                beside [PLACE, says], sums [text], mends [says, certain, edits [PLACE, text]], sizes,
                others [size, says], fingerprint, allowed (null, or by: recipe, settings, baseline; and reason)
    troubles    for each: path, why
    stale       what the baseline has and nothing gave: path, rule, names, number

PLACE is path (the recipe's, or that of a file it uses), line, column, end_line, end_column.
Lines and columns count from 1, columns in characters; an end column is the one behind the last character.
"""

from __future__ import annotations

from ... import __version__
from ..findings import counts, sum_line
from .places import path_from_here, region

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...ground.finding import Finding, Mend
    from ...ground.text import Source, Span
    from ...work.fingerprint import Fingerprint
    from ...work.outcome import Checked, Run
    from ..kinds import Json

VERSION = 1


def report(run: Run) -> str:
    """The whole report."""
    from json import dumps

    findings = [row(finding, mark, checked) for checked in run.recipes for finding, mark in checked.told()]
    return dumps(
        {
            "version": VERSION,
            "tool": {"name": "stitchlang", "version": __version__},
            "summary": {"recipes": len(run.recipes), **counts(run), "excluded": run.excluded},
            "recipes": [{"path": path_from_here(one.name), "understood": not one.partly} for one in run.recipes],
            "findings": findings,
            "troubles": [{"path": path_from_here(one.path), "why": one.why} for one in run.troubles],
            "stale": [{"path": path, **mark._asdict()} for path, mark in run.stale],
        },
        indent=1,
    )


def row(finding: Finding, mark: Fingerprint, checked: Checked) -> Json:
    """One finding."""
    source, allowed = checked.source, finding.allowed
    return {
        "recipe": path_from_here(checked.name),
        "rule": finding.rule,
        "severity": finding.severity,
        **place(source, finding.at),
        "says": finding.says,
        "mend": finding.mend,
        "fails": checked.fails(finding),
        "beside": [{**place(source, label.at), "says": label.says} for label in finding.beside],
        "sums": [line for working in finding.working for line in sum_line(working, checked)],
        "mends": [
            {"says": mend.says, "certain": mend.certain, "edits": edits_of(mend, source)} for mend in finding.mends
        ],
        "sizes": list(finding.sizes),
        "others": [{"size": size, "says": says} for size, says in finding.others],
        "fingerprint": mark.code(),
        "allowed": {"by": allowed.by, "reason": allowed.reason} if allowed is not None else None,
    }


def edits_of(mend: Mend, source: Source) -> list[Json]:
    """The edits of one way to mend a finding."""
    return [{**place(source, edit.at), "text": edit.text} for edit in mend.edits]


def place(source: Source, span: Span) -> Json:
    """The file of a place, and its four numbers."""
    numbers = zip(("line", "column", "end_line", "end_column"), region(source, span), strict=True)
    return {"path": path_from_here(source.file(span.start)), **dict(numbers)}
