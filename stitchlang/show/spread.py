"""Spreads as text: what may be off, by how much at worst, and by how much likely."""

from __future__ import annotations

from ..ground.text import plain
from ..speech import Speech

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..model.recipe import Recipe
    from ..work.spread import Off


def spread_text(recipe: Recipe, spreads: Sequence[Off], unit: str) -> str:
    """Two tables: finished measures, and joined edges."""
    speech, accuracy = Speech(unit, 32), recipe.accuracy
    how = "as stated" if accuracy.stated else "usual, none is stated"
    lines = [
        f"cut within {speech.length(accuracy.cutting)} and stitched within {speech.length(accuracy.stitching)} ({how})"
    ]
    for heading, seam in (("finished measures", False), ("joined edges, one against the other", True)):
        rows = [one for one in spreads if one.seam is seam]
        if rows:
            lines += ["", f"{heading}: likely within, at worst within"]
        wide = max((len(one.title) for one in rows), default=0)
        for one in rows:
            size = "" if seam else f"{speech.length(one.working)}  "
            off = f"{speech.length(one.likely)}, {speech.length(one.worst)}"
            lines.append(f"{one.title:<{wide}}  {size}{off}")
    return plain("\n".join(lines))
