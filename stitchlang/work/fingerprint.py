"""What makes a finding the same finding after the recipe around it has changed: its rule and its names, never its line.

Used by machine reports and by baselines.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import namedtuple

from ..ground.text import Span
from ..reading.tree import Node

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from ..ground.finding import Finding
    from ..model.recipe import Recipe

Statement = namedtuple("Statement", "start at phrase")


class Fingerprint(namedtuple("Fingerprint", "rule names number")):
    """The rule, the verb and the names in the finding's statement, and which of those that agree in both it is."""

    __slots__ = ()

    def code(self) -> str:
        """The fingerprint as one short word for machines."""
        from hashlib import sha256

        digest = sha256(f"{self.rule}\n{self.names}".encode("utf-8", "replace")).hexdigest()
        return f"{digest[:16]}:{self.number}"


def statements_of(recipe: Recipe) -> list[Statement]:
    """Every statement of a recipe, read or not, in text order."""
    reading = recipe.reading
    found = [Statement(node.start, Span(node.start, node.end), node) for node in reading.statements]
    for stumble in reading.stumbles:
        first, last = stumble.words[0], stumble.words[-1]
        found.append(Statement(first.start, Span(first.start, last.end), stumble))
    return sorted(found, key=lambda one: one.start)


def fingerprints(findings: Iterable[Finding], recipe: Recipe) -> list[Fingerprint]:
    """The fingerprint of each finding; no two of one recipe are the same."""
    statements = statements_of(recipe)
    starts = [one.start for one in statements]
    seen: dict[tuple[str, str], int] = {}
    prints: list[Fingerprint] = []
    for finding in findings:
        at = bisect_right(starts, finding.at.start) - 1
        key = finding.rule, names_in(statements[at]) if at >= 0 else ""
        seen[key] = seen.get(key, 0) + 1
        prints.append(Fingerprint(*key, seen[key]))
    return prints


def names_in(statement: Statement) -> str:
    """The verb of a statement and its names, in order: `join front back outer`."""
    phrase = statement.phrase
    if phrase.__class__ is Node:
        return " ".join([phrase.rule, *names_under(phrase)])
    return " ".join(word.text for word in phrase.words if word.kind == "NAME" or word is phrase.words[0])


def names_under(phrase: Node) -> Iterator[str]:
    """The names in a phrase and the phrases within it."""
    for part in phrase.parts:
        if isinstance(part, Node):
            yield from names_under(part)
        elif part.kind == "NAME":
            yield part.text
