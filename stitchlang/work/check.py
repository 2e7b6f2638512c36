"""Run every rule over a recipe."""

from ..rules.catalogue import RULES

# Slips after which a recipe is only partly understood: rules about what is left undone then wait.
BREAKING = (
    "unknown-name",
    "unknown-edge",
    "name-given-twice",
    "name-is-a-word-of-the-language",
    "misplaced",
    "length-without-unit",
    "wrong-kind",
    "division-by-zero",
    "number-too-long",
    "length-below-nothing",
    "longer-than-any-cloth",
    "joined-to-nothing",
    "broken-name",
    "corner-too-round",
    "steps-go-round",
    "count-not-whole",
)
SERIOUS = {"fault": 0, "doubt": 1, "hint": 2}


def check(recipe):
    """Every finding in a recipe, in text order: a list of Finding."""
    partly = bool(recipe.reading.stumbles or recipe.reading.given_up) or any(kind in recipe.slips for kind in BREAKING)
    findings = []
    for rule in RULES:
        if not (partly and rule.whole):
            findings += rule.findings(recipe)
    findings.sort(key=lambda finding: (finding.at.start, SERIOUS[finding.severity]))
    return findings
