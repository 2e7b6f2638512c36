"""What a rule is: one thing the checker looks for, and all that is ever said about it."""

from __future__ import annotations

import re

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence
    from typing import Any, TypeAlias

    from ..ground.finding import Edit, Finding
    from ..ground.text import Span
    from ..ground.working import Working

    Edits: TypeAlias = Sequence[tuple[Span, str]]  # where, and the new words
    Way: TypeAlias = tuple[str, Edits, bool]  # to put it right: words, edits, whether certain
    Ways: TypeAlias = Iterable[Way]
    Beside: TypeAlias = Iterable[tuple[Span | None, str]]
    Looks: TypeAlias = Iterator["Found"]
    # Of most rules at a recipe; those of one family look at the permits that a recipe gives.
    Look: TypeAlias = Callable[[Any], Looks]

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

    def __init__(
        self,
        look: Look,
        why: str,
        mend: str,
        examples: tuple[str, str, str],
        severity: str,
        whole: bool,
        waits: Iterable[str],
    ) -> None:
        self.look = look
        self.name = look.__name__.replace("_", "-")
        self.why = why
        self.mend = mend
        self.examples = examples  # opening, the one that trips, the one that passes
        self.severity = severity
        self.whole = whole
        self.waits = frozenset(waits)

    @property
    def trips(self) -> str:
        """A recipe that this rule objects to."""
        return laid_out(self.examples[0], self.examples[1])

    @property
    def passes(self) -> str:
        """The same recipe mended."""
        return laid_out(self.examples[0], self.examples[2])

    def findings(self, seen: Any) -> list[Finding]:  # as in Look
        """Every finding of this rule in a recipe, stamped with its name and severity."""
        return [stamp(self, one) for one in self.look(seen)]


def rule(
    why: str,
    mend: str,
    trips: str,
    passes: str,
    severity: str = "fault",
    whole: bool = False,
    waits: Iterable[str] = (),
    opening: str = OPENING,
) -> Callable[[Look], Rule]:
    """Make a Rule of the function below; it registers nothing."""
    return lambda look: Rule(look, why, mend, (opening, trips, passes), severity, whole, waits)


def laid_out(opening: str, example: str) -> str:
    """An example behind its opening."""
    from textwrap import dedent

    return opening + dedent(example).lstrip("\n")


class Found:
    """What a look-function yields; becomes a Finding once the rule has stamped it.

    `beside` are (span or None, words); `mends` are (words, edits, whether certain), the likeliest first; edits are
    (span, new words).
    """

    __slots__ = ("at", "says", "mend", "beside", "working", "severity", "mends")

    def __init__(
        self,
        at: Span,
        says: str,
        mend: str = "",
        beside: Beside = (),
        working: Iterable[Working] = (),
        severity: str | None = None,
        mends: Ways = (),
    ) -> None:
        self.at = at
        self.says = says
        self.mend = mend
        self.beside = beside
        self.working = working
        self.severity = severity
        self.mends = mends


def stamp(its_rule: Rule, one: Found) -> Finding:
    """The Finding for what a look-function yielded."""
    from ..ground.finding import Finding, Label, Mend

    mends = tuple(Mend(says, edited(edits), certain) for says, edits, certain in one.mends)
    return Finding(
        rule=its_rule.name,
        severity=one.severity or its_rule.severity,
        at=one.at,
        says=shortened(one.says),
        mend=shortened(one.mend),
        beside=tuple(Label(at, says) for at, says in one.beside if at is not None),
        working=tuple(one.working),
        edits=mends[0].edits if mends else (),
        mends=mends,
    )


def edited(edits: Edits) -> tuple[Edit, ...]:
    """Edits as a finding has them."""
    from ..ground.finding import Edit

    return tuple(Edit(at, text) for at, text in edits)


def shortened(words: str) -> str:
    """The words with the long ones among them cut off."""
    return LONG_WORD.sub(lambda word: word[0][:40] + "...", words)
