"""Where a thing sits on a panel: a spot, and the rectangle it gives."""

from __future__ import annotations

from ..ground.working import Working, total
from .drawn import drawn, reach

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..ground.lengths import Rational
    from ..ground.text import Span
    from ..speech import Speech
    from .kinds import AnyThing


class Spot:
    """Distances from the panel's edges, by side; `centred` across it."""

    __slots__ = ("centred", "offsets", "at")

    def __init__(self, centred: bool, offsets: dict[str, Working], at: Span) -> None:
        self.centred = centred
        self.offsets = offsets
        self.at = at


# The clauses that give a distance, and the sides each may be measured from.
MEASURED = {"below": ("top",), "above": ("bottom", "base"), "from": ("left", "right", "top", "bottom")}


def say_spot(spot: Spot, speech: Speech) -> str:
    """`centred, 3 in below the top edge`."""
    words = ["centred"] if spot.centred else []
    for side, length in spot.offsets.items():
        how = {"top": "below the cut top", "bottom": "above the cut bottom"}.get(side, f"from the cut {side}")
        words.append(f"{speech.length(length)} {how} edge")
    return ", ".join(words) or "where the edges meet"


class Box:
    """A rectangle on a panel, from its cut left and bottom edges: Workings."""

    __slots__ = ("left", "right", "bottom", "top")

    def __init__(self, left: Working, right: Working, bottom: Working, top: Working) -> None:
        self.left = left
        self.right = right
        self.bottom = bottom
        self.top = top


def span_on(
    limits: tuple[Rational, Rational], size: Working, near: Working | None, far: Working | None, centred: bool
) -> tuple[Working, Working]:
    """(start, end) along one direction between two limits, from offsets at the near and far edge."""
    first, last = (Working(limit, "panel") for limit in limits)
    if near is not None:
        start = total("start", (1, first), (1, near))
    elif far is not None:
        start = total("start", (1, last), (-1, far), (-1, size))
    elif centred:
        start = Working((first.mm + last.mm - size.mm) / 2, "centred")
    else:
        start = first
    return start, total("end", (1, start), (1, size))


def box_on(panel: AnyThing, spot: Spot, width: Working, height: Working) -> Box | None:
    """The rectangle that a thing of that size covers at that spot; None where the panel has no size.

    From a slanted side it is measured level with the top of the thing, a pocket's mouth.
    """
    outline = drawn(panel)
    if outline is None:
        return None
    offsets = spot.offsets
    above = "top" in offsets or "bottom" in offsets
    whole = (0, outline.height)
    bottom, top = span_on(whole, height, offsets.get("bottom"), offsets.get("top"), spot.centred and not above)
    left, right = span_on(reach(outline, top.mm), width, offsets.get("left"), offsets.get("right"), spot.centred)
    return Box(left, right, bottom, top)
