"""What a rule is: one thing the checker looks for, and all that is ever said about it."""

import re

# Every example begins with these lines, so that it shows only what it is about.
OPENING = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\n'


# A hostile name is not repeated at length.
LONG_WORD = re.compile(r"\S{60,}")


class Rule:
    """A look-function with its name, why, mend and two examples.

    `trips` is a recipe that this rule, and no other, objects to; `passes` is
    its mended twin; both are laid out only when asked for.  `whole` rules look
    at the recipe as a whole and wait until every statement can be understood;
    `waits` names rules whose findings make this one's a mere consequence.
    """

    __slots__ = ("name", "why", "mend", "examples", "severity", "whole", "waits", "look")

    def __init__(self, look, why, mend, examples, severity, whole, waits):
        self.look = look
        self.name = look.__name__.replace("_", "-")
        self.why = why
        self.mend = mend
        self.examples = examples  # opening, the one that trips, the one that passes
        self.severity = severity
        self.whole = whole
        self.waits = frozenset(waits)

    @property
    def trips(self):
        """A recipe that this rule objects to."""
        return laid_out(self.examples[0], self.examples[1])

    @property
    def passes(self):
        """The same recipe mended."""
        return laid_out(self.examples[0], self.examples[2])

    def findings(self, recipe):
        """Every finding of this rule in a recipe, stamped with its name and severity."""
        return [stamp(self, facts) for facts in self.look(recipe)]


def rule(why, mend, trips, passes, severity="fault", whole=False, waits=(), opening=OPENING):
    """Make a Rule of the function below; it registers nothing."""
    return lambda look: Rule(look, why, mend, (opening, trips, passes), severity, whole, waits)


def laid_out(opening, example):
    """An example behind its opening."""
    from textwrap import dedent

    return opening + dedent(example).lstrip("\n")


def found(at, says, mend="", beside=(), working=(), edits=(), severity=None, mends=()):
    """What a look-function yields; becomes a Finding once the rule has stamped it.

    `mends` are (words, edits, whether certain), the likeliest first; edits are (span, new words).
    """
    return {
        "at": at,
        "says": says,
        "mend": mend,
        "beside": beside,
        "working": working,
        "edits": edits,
        "severity": severity,
        "mends": mends,
    }


def stamp(its_rule, facts):
    """The Finding for what a look-function yielded."""
    from ..ground.finding import Edit, Finding, Label, Mend

    def edited(edits):
        return tuple(Edit(at, text) for at, text in edits)

    for part in ("says", "mend"):
        facts[part] = LONG_WORD.sub(lambda word: word[0][:40] + "...", facts[part])
    facts["severity"] = facts["severity"] or its_rule.severity
    facts["mends"], facts["working"] = tuple(facts["mends"]), tuple(facts["working"])
    edits = facts["edits"] or next((edits for _, edits, _ in facts["mends"]), ())
    facts["edits"] = edited(edits)
    facts["mends"] = tuple(Mend(says, edited(edits), certain) for says, edits, certain in facts["mends"])
    facts["beside"] = tuple(Label(at, says) for at, says in facts["beside"] if at is not None)
    return Finding(rule=its_rule.name, **facts)
