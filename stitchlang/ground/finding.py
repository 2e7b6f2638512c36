"""What the checker says: findings are values, made late and printed later.

attrs is imported with this module and this module only when something was
found, so a clean recipe does not pay for it.
"""

from __future__ import annotations

from attrs import frozen

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from .text import Span
    from .working import Working


@frozen
class Label:
    """Another place that a finding speaks of, and what it is there."""

    at: Span
    says: str


@frozen
class Edit:
    """Put `text` in place of the characters of `at`."""

    at: Span
    text: str


@frozen
class Mend:
    """One way to put a finding right: in words, and as edits.

    `certain` where no other way is meant: a name misspelled, a count that follows from the rest.
    """

    says: str
    edits: tuple[Edit, ...] = ()
    certain: bool = False


@frozen
class Allowed:
    """Why a finding does not count: the reason given, and where (`recipe`, `settings` or `baseline`)."""

    reason: str
    by: str


@frozen
class Finding:
    """One thing wrong: the rule, the exact characters, what is wrong and how to mend it.

    `severity` is `fault` (cannot be sewn so), `doubt` (can, but a sewer would
    stop and ask) or `hint`.  `working` is the sum behind a number that is
    disputed.  `mend` says in words what to do, with the number in it;
    `edits`, where there are any, do it; `mends` are all the ways known, one or two.

    Of a recipe in several sizes `sizes` names those it holds in (none: in all, alike), the first being the one that
    `says` speaks of; `others` are (size, what is to be said of it) where that differs.
    `allowed` is None, or the Allowed for which the finding does not count.
    """

    rule: str
    severity: str
    at: Span
    says: str
    mend: str = ""
    beside: tuple[Label, ...] = ()
    working: tuple[Working, ...] = ()
    edits: tuple[Edit, ...] = ()
    mends: tuple[Mend, ...] = ()
    sizes: tuple[str, ...] = ()
    others: tuple[tuple[str, str], ...] = ()
    allowed: Allowed | None = None
