"""One small change to a statement, and what the changes look for."""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..tree import Token

    Place = tuple[int, int]  # from a character up to, not including, another
    Edit = tuple[int, int, str]  # the same, and what is put there
    Edits = list[Edit]

LENGTHS = ("NUMBER", "LENGTH")
DECLARED = frozenset(
    "piece cloth interfacing batting webbing ribbon elastic binding cord zip snap touch button ring slider hook eyelet "
    "rivet reel finished made".split()
)


class Change:
    """One small change: the rule that speaks of it, what is said, the edits, and where it is said."""

    def __init__(self, rule: str, says: str, edits: Edits, at: Place | None = None) -> None:
        self.rule = rule
        self.says = says
        self.edits = edits
        self.at = at or (min(start for start, _, _ in edits), max(end for _, end, _ in edits))


def over(*tokens: Token) -> Place:
    """From the first to the last of some words."""
    return tokens[0].start, tokens[-1].end
