"""Family: allowing.  `allow` statements that do not do what they were written for.

These look at the permits that `work/allow.py` made of the statements, once all else has been found.
"""

from __future__ import annotations

from ..ground.nearest import nearest
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Protocol, TypeAlias

    from ..ground.text import Span
    from .rule import Looks

    class Permit(Protocol):
        """What is made of an `allow` statement, a floor above."""

        rule: str
        at: Span
        rule_at: Span
        below: Span | None
        wrong: str | None

    Permits: TypeAlias = Sequence[Permit]

FLAG = "piece flag of sail: 10 x 12\nhem flag edges by 1/2\n"
ALLOWED = FLAG + 'allow never-used "for the next edition"\ncloth lawn: "cotton lawn"'


def gone_wrong(permits: Permits, how: str) -> list[Permit]:
    """The permits with which that is wrong."""
    return [permit for permit in permits if permit.wrong == how]


@rule(
    why="A finding that is allowed without a reason cannot be told from one that was silenced to have quiet.",
    mend="Write the reason behind the rule's name, in quotes.",
    trips="allow never-used\n" + FLAG,
    passes=ALLOWED,
)
def allowed_without_reason(permits: Permits) -> Looks:
    for permit in gone_wrong(permits, "no reason"):
        mend = f'write, for instance, `allow {permit.rule} "the customer asked for it"`'
        yield Found(permit.at, f"`{permit.rule}` is allowed, and no reason is given; it counts as before", mend)


@rule(
    why="A rule that does not exist allows nothing; most likely its name is misspelt.",
    mend="Copy the rule's name from the finding.",
    trips='allow never-use "for the next edition"\n' + FLAG,
    passes=ALLOWED,
)
def unknown_rule(permits: Permits) -> Looks:
    from .catalogue import BY_NAME

    for permit in gone_wrong(permits, "unknown"):
        near = " or ".join(f"`{name}`" for name in nearest(permit.rule, BY_NAME))
        mend = f"did you mean {near}?" if near else "`stitchlang rules` lists them all"
        yield Found(permit.rule_at, f"no rule is called `{permit.rule}`", mend)


@rule(
    why="What cannot be read or understood hides other faults: allowing it would pass them unseen.",
    mend="Mend the statement, and take the `allow` out.",
    trips='allow unknown-name "it is clear what is meant"\n' + FLAG,
    passes=ALLOWED,
)
def cannot_be_allowed(permits: Permits) -> Looks:
    for permit in gone_wrong(permits, "never"):
        says = f"`{permit.rule}` cannot be allowed: while it stands, not all of the recipe is checked"
        yield Found(permit.rule_at, says, "mend what it finds, and take this statement out")


@rule(
    why="What is allowed and does not happen was mended, or stands elsewhere; the next one would pass unseen.",
    mend="Take the `allow` out, or put it directly above the statement of the finding.",
    trips='piece flag of sail: 10 x 12\nallow never-used "for the next edition"\nhem flag edges by 1/2',
    passes=ALLOWED,
    severity="doubt",
)
def nothing_to_allow(permits: Permits) -> Looks:
    for permit in gone_wrong(permits, "idle"):
        says = f"`{permit.rule}` finds nothing in the statement below" if permit.below else "no statement follows"
        mend = "take this out, or put it directly above the statement that the finding begins in"
        beside = [(permit.below, "this is the statement below")] if permit.below else ()
        yield Found(permit.at, says, mend, beside=beside)


RULES = (
    allowed_without_reason,
    unknown_rule,
    cannot_be_allowed,
    nothing_to_allow,
)
