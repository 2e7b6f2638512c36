"""Baselines: the findings that old recipes had when checking began, which do not count until they are mended.

A finding is known by its fingerprint (rule, names, and which of those alike), never by its line or by how many there
are.  The file is JSON with a finding on each line, sorted, so that two branches can be merged.
"""

from __future__ import annotations

import json
import os
from functools import cache

from ..files import Unreadable, decoded, read_bytes, write_text
from ..ground.finding import Allowed
from ..terminal import STANDARD_INPUT
from ..work.fingerprint import Fingerprint, fingerprints

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from ..ground.finding import Finding
    from ..model.recipe import Recipe
    from ..work.allow import Excuse
    from ..work.outcome import Gone, Run

VERSION = 1
KNOWN = Allowed("known to the baseline", "baseline")
FACTS = {"recipe": str, "rule": str, "names": str, "number": int}


def excuse_all(findings: list[Finding], _: Recipe) -> list[Allowed | None]:
    """Excuses whatever nothing else does: what a baseline will hold, consequences that rules else wait for included."""
    return [KNOWN for _ in findings]


class Baseline:
    """What a baseline file holds: fingerprints by the recipe's path, as seen from the file's folder."""

    def __init__(self, path: str, entries: dict[str, set[Fingerprint]]) -> None:
        self.folder = os.path.dirname(os.path.abspath(path))
        self.entries = entries

    def key(self, path: str) -> str:
        """A recipe's path as the file writes it."""
        return os.path.relpath(path, self.folder).replace(os.sep, "/")

    def excuse(self, path: str) -> Excuse:
        """What excuses the findings of a recipe that are known, for `work/allow.py`."""
        known = self.entries.get(self.key(path), ())

        def excuse(findings: list[Finding], recipe: Recipe) -> Iterator[Allowed | None]:
            for mark in fingerprints(findings, recipe):
                yield KNOWN if mark in known else None

        return excuse

    def gone(self, path: str, prints: Iterable[Fingerprint]) -> list[Gone]:
        """(path, Fingerprint) for what is known of a recipe and was not found again."""
        return [(path, mark) for mark in sorted(self.entries.get(self.key(path), set()) - set(prints))]

    def orphans(self) -> Iterator[Gone]:
        """(path, Fingerprint) for what is known of recipes that are no more."""
        for key, marks in sorted(self.entries.items()):
            path = os.path.join(self.folder, key)
            if not os.path.exists(path):
                yield from ((os.path.relpath(path), mark) for mark in sorted(marks))


@cache
def read(path: str) -> Baseline:
    """The baseline in a file.  Raises Unreadable with what is wrong with it."""
    try:
        data = json.loads(decoded(path, read_bytes(path)))
    except (ValueError, RecursionError) as error:
        raise Unreadable(path, f"not a baseline: {error}") from None
    if not isinstance(data, dict) or data.get("version") != VERSION or not isinstance(data.get("findings"), list):
        raise Unreadable(path, f"not a baseline of version {VERSION}; `--write-baseline` makes one")
    entries: dict[str, set[Fingerprint]] = {}
    for row in data["findings"]:
        if not isinstance(row, dict) or any(not isinstance(row.get(name), kind) for name, kind in FACTS.items()):
            raise Unreadable(path, f"not a baseline: each finding has {', '.join(FACTS)}")
        entries.setdefault(row["recipe"], set()).add(Fingerprint(row["rule"], row["names"], row["number"]))
    return Baseline(path, entries)


def write(path: str, run: Run) -> int:
    """Write what `excuse_all` excused in a run as a baseline; how much that is.

    What the file holds of other recipes stays, as long as these are there.
    """
    old = read(path) if os.path.exists(path) else Baseline(path, {})
    orphaned = {old.key(orphan) for orphan, _ in old.orphans()}
    entries = {key: marks for key, marks in old.entries.items() if key not in orphaned}
    for checked in run.recipes:
        if checked.name != STANDARD_INPUT:
            marks = {mark for finding, mark in checked.pairs() if finding.allowed == KNOWN}
            entries[old.key(checked.name)] = marks
    rows = [json.dumps({"recipe": key, **mark._asdict()}) for key in sorted(entries) for mark in sorted(entries[key])]
    write_text(path, f'{{"version": {VERSION}, "findings": [\n' + ",\n".join(rows) + "\n]}\n")
    read.cache_clear()
    return len(rows)


def orphans(run: Run) -> list[Gone]:
    """What the baselines of a run have of recipes that are no more."""
    paths = dict.fromkeys(one.baseline for one in run.recipes if one.baseline is not None)
    return [orphan for path in paths for orphan in read(path).orphans()]
