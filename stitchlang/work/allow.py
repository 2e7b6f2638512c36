"""Findings that do not count: allowed in the recipe above their statement, by the settings, or known to a baseline.

An *excuse* is a function of findings and their recipe that gives an Allowed, or None, for each finding.
"""

from __future__ import annotations

from bisect import bisect_right

from attrs import evolve

from ..bench import span
from ..ground.finding import Allowed
from ..rules.allowing import RULES as ALLOWING
from ..rules.catalogue import BY_NAME, FAMILIES
from .fingerprint import statements_of

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Container, Iterable, Iterator, Mapping
    from typing import TypeAlias

    from ..ground.finding import Finding
    from ..ground.text import Span
    from ..model.recipe import Recipe
    from ..reading.tree import Node

    Excuse: TypeAlias = Callable[[list[Finding], Recipe], Iterable[Allowed | None]]

# What leaves a recipe partly read; the kinds of slip that do the same are named in `work/check.py`.
READING = frozenset(rule.name for rule in FAMILIES["reading"])


class Permit:
    """One `allow` statement: the rule it names, the reason, the span of the statement below, and what is wrong.

    `wrong` is None, `no reason`, `unknown` (no such rule), `never` (cannot be allowed) or `idle` (allowed nothing).
    """

    __slots__ = ("rule", "reason", "at", "rule_at", "below", "wrong")

    def __init__(self, node: Node, below: Span | None, breaking: Container[str]) -> None:
        name = node.phrase()
        self.rule = "".join(token.text for token in name.words())
        self.reason = node.word(1).text[1:-1].strip() if len(node.parts) > 1 else ""
        self.at, self.rule_at, self.below = span(node), span(name), below
        self.wrong = trouble_with(self.rule, self.reason, breaking)


def trouble_with(rule: str, reason: str, breaking: Container[str]) -> str | None:
    """Why a rule cannot be allowed for that reason, in a word; None where it can."""
    if rule not in BY_NAME:
        return "unknown"
    if rule in READING or rule in breaking:
        return "never"
    return None if reason.strip() else "no reason"


def permits_of(recipe: Recipe, breaking: Container[str]) -> list[Permit]:
    """The permit of each `allow` statement, with the span of the next statement of its file that is none."""
    permits: list[Permit] = []
    below: dict[str, Span] = {}
    for one in reversed(statements_of(recipe)):
        file = recipe.source.file(one.at.start)
        if getattr(one.phrase, "rule", None) == "allow":
            permits.append(Permit(one.phrase, below.get(file), breaking))
        else:
            below[file] = one.at
    return permits[::-1]


def finder(permits: Iterable[Permit]) -> Callable[[Finding], Permit | None]:
    """A function that gives the permit for a finding, or None; of two for the same, the lower one."""
    by_rule: dict[str, list[Permit]] = {}  # those with a statement below
    for permit in permits:
        if permit.wrong is None and permit.below is not None:
            by_rule.setdefault(permit.rule, []).append(permit)

    def permit_for(finding: Finding) -> Permit | None:
        mine = by_rule.get(finding.rule, ())
        at = bisect_right(mine, finding.at.start, key=lambda permit: permit.below.start) - 1
        return mine[at] if at >= 0 and finding.at.start < mine[at].below.end else None  # type: ignore[union-attr]  # see above

    return permit_for


def by_statement(permits: Iterable[Permit]) -> Excuse:
    """The excuse that the recipe itself gives."""
    permit_for = finder(permits)

    def excuse(findings: list[Finding], _: Recipe) -> Iterator[Allowed | None]:
        for permit in map(permit_for, findings):
            yield Allowed(permit.reason, "recipe") if permit is not None else None

    return excuse


def by_settings(reasons: Mapping[str, str]) -> Excuse:
    """The excuse that settings give: a reason for each rule that is allowed everywhere."""

    def excuse(findings: list[Finding], _: Recipe) -> Iterator[Allowed | None]:
        for finding in findings:
            yield Allowed(reasons[finding.rule], "settings") if finding.rule in reasons else None

    return excuse


def marked(findings: list[Finding], recipe: Recipe, excuses: Iterable[Excuse]) -> list[Finding]:
    """The findings, each with the first excuse that holds for it."""
    for excuse in excuses:
        given = list(excuse(findings, recipe))
        findings = [
            evolve(finding, allowed=allowed) if allowed is not None and finding.allowed is None else finding
            for finding, allowed in zip(findings, given, strict=True)
        ]
    return findings


def misallowed(permits: list[Permit], findings: list[Finding], recipe: Recipe, partly: bool) -> list[Finding]:
    """What is wrong with the permits themselves; idle ones are told only where their rule was run to the end.

    In a file that is used one may well be idle: what it excuses there is done in the recipe that uses it.
    """
    told = {finding.rule for finding in findings}
    used, source = set(map(finder(permits), findings)), recipe.source
    for permit in permits if not partly else ():
        own = source.is_own(permit.at.start)
        if own and permit.wrong is None and permit not in used and not BY_NAME[permit.rule].waits & told:
            permit.wrong = "idle"
    return [finding for rule in ALLOWING for finding in rule.findings(permits)]
