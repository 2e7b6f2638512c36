"""Where a thing sits on a panel: a spot, and the rectangle it gives."""

from ..ground.working import NOTHING, Working, total
from .things import cut_size


class Spot:
    """Distances from the panel's edges, by side; `centred` across it."""

    __slots__ = ("centred", "offsets", "at")

    def __init__(self, centred, offsets, at):
        self.centred = centred
        self.offsets = offsets
        self.at = at


# The clauses that give a distance, and the sides each may be measured from.
MEASURED = {"below": ("top",), "above": ("bottom", "base"), "from": ("left", "right", "top", "bottom")}


def say_spot(spot, speech):
    """`centred, 3 in below the top edge`."""
    words = ["centred"] if spot.centred else []
    for side, length in spot.offsets.items():
        how = {"top": "below the cut top", "bottom": "above the cut bottom"}.get(side, f"from the cut {side}")
        words.append(f"{speech.length(length)} {how} edge")
    return ", ".join(words) or "where the edges meet"


class Box:
    """A rectangle on a panel, from its cut left and bottom edges: Workings."""

    __slots__ = ("left", "right", "bottom", "top")

    def __init__(self, left, right, bottom, top):
        self.left = left
        self.right = right
        self.bottom = bottom
        self.top = top


def span_on(panel_size, size, near, far, centred):
    """(start, end) along one direction, from offsets at the near and far edge."""
    if near is not None:
        start = near
    elif far is not None:
        start = total("start", (1, panel_size), (-1, far), (-1, size))
    elif centred:
        start = Working((panel_size.mm - size.mm) / 2, "centred")
    else:
        start = NOTHING
    return start, total("end", (1, start), (1, size))


def box_on(panel, spot, width, height):
    """The rectangle that a thing of that size covers at that spot; None where the panel has no size."""
    across, up = cut_size(panel, "top") or cut_size(panel, "bottom"), cut_size(panel, "left")
    if across is None or up is None:
        return None
    offsets = spot.offsets
    left, right = span_on(across, width, offsets.get("left"), offsets.get("right"), spot.centred)
    above = "top" in offsets or "bottom" in offsets
    bottom, top = span_on(up, height, offsets.get("bottom"), offsets.get("top"), spot.centred and not above)
    return Box(left, right, bottom, top)
