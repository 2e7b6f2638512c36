"""What to sew a recipe with: the range of needles and stitch lengths that published tables give for its stuff."""

from __future__ import annotations

from attrs import frozen

from ..ground.lengths import decimal
from ..model.stuff import heaviest, reels
from ..trade.needles import CLOTH, STITCH, THREAD, ranged

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import TypeAlias

    from ..ground.lengths import Rational
    from ..model.recipe import Recipe
    from ..trade.needles import Range

    Ends: TypeAlias = tuple[Rational, Rational]


@frozen
class Suggested:
    """Ranges (low, high), or None where nothing is stated to look up; stitch length in millimetres."""

    needle: Ends | None
    stitch: Ends | None
    sources: tuple[str, ...]

    @property
    def sentence(self) -> str:
        """`Needle 90 to 100, stitch 2.5 to 3.6 mm.`; empty where nothing is known."""
        said = [f"needle {' to '.join(map(str, dict.fromkeys(self.needle)))}"] if self.needle else []
        if self.stitch:
            said.append(f"stitch about {' to '.join(decimal(mm, 1) for mm in self.stitch)} mm")
        return ", ".join(said).capitalize() + "." if said else ""


def suggested(recipe: Recipe) -> Suggested:
    """The needle that suits both cloth and thread, where the tables leave one; else what suits the thread."""
    _, mass = heaviest(recipe)
    by_cloth = ranged(CLOTH, mass) if mass is not None else None
    by_thread = [found for reel in reels(recipe) if (found := ranged(THREAD, reel.facts["tex"]))]
    ranges = [one for one in (by_cloth, *by_thread) if one is not None]
    stitch = ranged(STITCH, mass) if mass is not None else None
    rows = [row for one in (*ranges, *filter(None, [stitch])) for row in one.rows]
    return Suggested(
        common(ranges) or common(by_thread),
        (stitch.low, stitch.high) if stitch else None,
        tuple(dict.fromkeys(row.source for row in rows)),
    )


def common(ranges: Sequence[Range]) -> Ends | None:
    """(low, high) that all ranges share, or None."""
    if not ranges:
        return None
    low, high = max(one.low for one in ranges), min(one.high for one in ranges)
    return (low, high) if low <= high else None
