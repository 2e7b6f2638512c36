"""Annotations on a pull request: GitHub's workflow commands, one a line, the worst first.

Per cent signs and line ends are escaped in what is said, colons and commas too in what stands before it, as GitHub's
toolkit does (actions/toolkit, packages/core/src/command.ts).
"""

from __future__ import annotations

from ...ground.text import plain
from ..findings import headline
from .places import path_from_here, region

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...ground.finding import Finding
    from ...work.outcome import Checked, Run, Trouble

LEVELS = {"fault": "error", "doubt": "warning", "hint": "notice"}
SHOWN = 10  # of each level in a step; GitHub drops the rest without a word


def report(run: Run) -> str:
    """A line for each finding that counts and for each trouble."""
    lines: dict[str, list[str]] = {level: [] for level in LEVELS.values()}
    lines["error"] = [f"::error title={escaped('not checked', True)}::{trouble(one)}" for one in run.troubles]
    for checked in run.recipes:
        for finding in checked.counting():
            level = LEVELS[finding.severity]
            lines[level].append(command(level, finding, checked))
    unseen = sum(max(0, len(found) - SHOWN) for found in lines.values())
    if unseen:
        word = "finding is" if unseen == 1 else "findings are"
        lines["warning"].append(f"::notice title=more::{unseen} more {word} in the log: GitHub shows {SHOWN} of a kind")
    return "\n".join(line for level in lines.values() for line in level)


def command(level: str, finding: Finding, checked: Checked) -> str:
    """One finding as a workflow command."""
    line, column, last, behind = region(checked.source, finding.at)
    file = checked.source.file(finding.at.start)
    facts = {"file": path_from_here(file), "line": line, "endLine": last, "col": column, "endColumn": behind}
    if last != line:  # GitHub takes columns only within a line
        del facts["col"], facts["endColumn"]
    facts["title"] = finding.rule
    said = ",".join(f"{name}={escaped(str(value), True)}" for name, value in facts.items())
    mend = f"\nmend: {plain(finding.mend)}" if finding.mend else ""
    return f"::{level} {said}::{escaped(headline(finding) + mend)}"


def trouble(one: Trouble) -> str:
    """What is said of a path that gave no recipe."""
    return escaped(plain(f"{path_from_here(one.path)}: {one.why}"))


def escaped(text: str, before: bool = False) -> str:
    """Text as a workflow command takes it; `before` the two colons more has to be escaped."""
    text = plain(text) if before else text
    for letter, code in (("%", "%25"), ("\r", "%0D"), ("\n", "%0A"), *(((":", "%3A"), (",", "%2C")) if before else ())):
        text = text.replace(letter, code)
    return text
