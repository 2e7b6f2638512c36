"""What a change of finished sizes does to the cuts, as text."""

from __future__ import annotations

from ..ground.text import plain

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..model.recipe import Recipe
    from ..work.resizing.resize import Resized, Wish


def resized_text(recipe: Recipe, wishes: Sequence[Wish], resized: Resized) -> str:
    """Which cuts move and why; or which wishes cannot be had together."""
    asked = ", ".join(wish.says for wish in wishes)
    if resized.conflict:
        few = resized.conflict
        if len(few) == 1:
            return plain(f"no cuts give {few[0]}: everything that it hangs on is fixed, or would shrink to nothing")
        return plain(f"these cannot be had together: {'; '.join(few)}")
    if not resized.moves:
        return plain(f"it is {asked} already")
    lines = [f"{asked}:"]
    for move in resized.moves:
        number = move.number
        line = recipe.source.line_said(number.at.start)
        lines.append(f"  {line}: {number.says} {number.was} -> {number.spelled(move.value)} ({move.why})")
    lines += [f"  no longer as promised: {says}; the promise is rewritten" for says in resized.given_up]
    return plain("\n".join(lines))
