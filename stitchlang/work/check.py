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
    "corner-too-large",
    "outline-not-closed",
    "steps-go-round",
    "worked-on-with-itself",
    "allowance-unsaid",
    "said-twice",
    "count-not-whole",
)
SERIOUS = {"fault": 0, "doubt": 1, "hint": 2}


def partly_understood(recipe):
    """Whether some statement could not be read or made sense of, so that sizes cannot be checked yet."""
    reading = recipe.reading
    return bool(reading.stumbles or reading.given_up) or any(kind in recipe.slips for kind in BREAKING)


def check(recipe):
    """Every finding in a recipe, in text order: a list of Finding."""
    partly, findings, told = partly_understood(recipe), [], set()
    for rule in RULES:
        if (partly and rule.whole) or rule.waits & told:
            continue
        found = rule.findings(recipe)
        if found:
            told.add(rule.name)
            findings += found
    findings.sort(key=lambda finding: (finding.at.start, SERIOUS[finding.severity]))
    return findings
