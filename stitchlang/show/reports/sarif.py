"""SARIF 2.1.0 (OASIS Standard, 2020, with errata 01 of 2023), for code scanning.

Section numbers in the comments are the standard's.
"""

from __future__ import annotations

from ... import __version__
from ...rules.catalogue import BY_NAME, FAMILIES
from ..findings import headline
from ..rule_book import rule_text, shortened
from .places import path_from_here, region, utf16_units

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from ...ground.finding import Allowed, Edit, Finding
    from ...ground.text import Source, Span
    from ...rules.rule import Rule
    from ...work.fingerprint import Fingerprint
    from ...work.outcome import Checked, Run, Trouble
    from ..kinds import Json

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
LEVELS = {"fault": "error", "doubt": "warning", "hint": "note"}
FAMILY_OF = {rule.name: family for family, rules in FAMILIES.items() for rule in rules}


def report(run: Run) -> str:
    """The whole log: one run."""
    from json import dumps

    found = [(checked, *pair) for checked in run.recipes for pair in checked.told()]
    names = {finding.rule for _, finding, _ in found}
    rules = {name: index for index, name in enumerate(name for name in BY_NAME if name in names)}
    # 3.27.23, 3.27.24: said of every result, or of none.
    suppressing = any(finding.allowed is not None for _, finding, _ in found)
    results = [result(*one, rules[one[1].rule], suppressing, run.against) for one in found]
    driver = {
        "name": "stitchlang",
        "semanticVersion": __version__,
        "rules": [descriptor(BY_NAME[one]) for one in rules],
    }
    one_run = {
        "tool": {"driver": driver},
        "columnKind": "utf16CodeUnits",  # 3.14.17
        "invocations": [invocation(run.troubles)],
        "results": results,
    }
    return dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": [one_run]}, indent=1)


def descriptor(rule: Rule) -> Json:
    """A rule, with all that the rule book says of it."""
    examples = f"Trips:\n\n```\n{shortened(rule.trips)}\n```\n\nPasses:\n\n```\n{rule.passes.rstrip()}\n```"
    markdown = braced(f"{rule.why}\n\n**Mend:** {rule.mend}\n\n{examples}")
    return {
        "id": rule.name,
        "shortDescription": message(rule.why),
        "fullDescription": message(f"{rule.why} {rule.mend}"),
        "help": {**message(rule_text(rule)), "markdown": markdown},
        "defaultConfiguration": {"level": LEVELS[rule.severity]},
        "properties": {"tags": [FAMILY_OF[rule.name]]},
    }


def result(checked: Checked, finding: Finding, mark: Fingerprint, index: int, suppressing: bool, against: bool) -> Json:
    """One finding."""
    source = checked.source
    row = {
        "ruleId": finding.rule,
        "ruleIndex": index,
        "level": LEVELS[finding.severity],
        "message": message(said(finding)),
        "locations": [{"physicalLocation": place(source, finding.at)}],
        # 3.27.17: `stitchlang/v1` is ours; code scanning on GitHub reads the other, and adds path and rule to it.
        "partialFingerprints": {"stitchlang/v1": mark.code(), "primaryLocationLineHash": mark.code()},
    }
    if finding.beside:
        row["relatedLocations"] = [
            {"id": number, "physicalLocation": place(source, label.at), "message": message(label.says)}
            for number, label in enumerate(finding.beside, 1)
        ]
    fixes = [fix(source, mend.says, mend.edits) for mend in finding.mends if mend.edits]
    if fixes:
        row["fixes"] = fixes
    if suppressing:
        row["suppressions"] = suppressions(finding.allowed)
    if against:
        known = finding.allowed is not None and finding.allowed.by == "baseline"
        row["baselineState"] = "unchanged" if known else "new"
    return row


def said(finding: Finding) -> str:
    """What is wrong, how it is in other sizes, and how to mend it."""
    others = [f"In {size}: {says}." for size, says in finding.others]
    return " ".join([f"{headline(finding)}.", *others, f"Mend: {finding.mend}." if finding.mend else ""]).rstrip()


def suppressions(allowed: Allowed | None) -> list[Json]:
    """3.35: by a statement of the language, or from outside the recipe."""
    if allowed is None:
        return []
    kind = "inSource" if allowed.by == "recipe" else "external"
    return [{"kind": kind, "status": "accepted", "justification": allowed.reason}]


def fix(source: Source, says: str, edits: Sequence[Edit]) -> Json:
    """3.55: the edits of one way to mend it, by the file that they are made in."""
    made: dict[str, list[Json]] = {}
    for edit in edits:
        change = {"deletedRegion": columns(source, edit.at), "insertedContent": {"text": edit.text}}
        made.setdefault(source.file(edit.at.start), []).append(change)
    return {
        "description": message(says),
        "artifactChanges": [{"artifactLocation": artifact(file), "replacements": some} for file, some in made.items()],
    }


def invocation(troubles: Sequence[Trouble]) -> Json:
    """3.20: whether all could be checked, and what could not."""
    told = [
        {
            "level": "error",
            "message": message(one.why),
            "locations": [{"physicalLocation": {"artifactLocation": artifact(one.path)}}],
        }
        for one in troubles
    ]
    return {"executionSuccessful": not told, "toolExecutionNotifications": told}


def artifact(name: str) -> Json:
    """3.4: a path from the working folder as a relative reference, or an absolute URI where there is no way to it."""
    import os
    from pathlib import Path
    from urllib.parse import quote

    path = path_from_here(name)
    try:
        os.fsencode(path)
    except UnicodeEncodeError:  # half of a letter, which no file system of ours takes: it stands as a question mark
        path = path.encode("utf-8", "replace").decode()
    if os.path.isabs(path):
        return {"uri": Path(path).as_uri()}
    return {"uri": quote(os.fsencode(path))}


def place(source: Source, span: Span) -> Json:
    """3.29: a span in a recipe, or in a file that it uses."""
    return {"artifactLocation": artifact(source.file(span.start)), "region": columns(source, span)}


def columns(source: Source, span: Span) -> dict[str, int]:
    """3.30: a text region; its columns count UTF-16 code units."""
    names = ("startLine", "startColumn", "endLine", "endColumn")
    return dict(zip(names, region(source, span, utf16_units), strict=True))


def message(text: str) -> dict[str, str]:
    """3.11: a plain text message."""
    return {"text": braced(text).replace("](", "] (")}  # 3.11.6: no author can put a link into a report


def braced(text: str) -> str:
    """3.11.5: braces stand for themselves only when doubled."""
    return text.replace("{", "{{").replace("}", "}}")
