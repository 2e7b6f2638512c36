"""Cut a square (or w x h) out of corners, for boxing.

    notch:      "notch" NAME _rest{_notch_clause}*
    _notch_clause: at_corners | by_square | from_seams
    from_seams:  "from" "seam" "lines"

Measured from the cut edges, unless it is said `from seam lines`.  Both panels of a bag are notched alike; the arms are
sewn together by `box`.
"""

from __future__ import annotations

from ...bench import span
from ...model.notches import add_allowances, cut_notch, notch_from_seams
from ...speech import listed

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "table"
CORNERS = {
    "bottom": ("bottom_left", "bottom_right"),
    "top": ("top_left", "top_right"),
    "all": ("bottom_left", "bottom_right", "top_left", "top_right"),
}
CORNERS.update({corner: (corner,) for corner in CORNERS["all"]})


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    words = [node.word(), *(item.word() for item in node.listed())]
    things = [
        thing for word in words if (thing := bench.thing(word, ("piece", "flat", "folded"), "a piece or flat assembly"))
    ]
    corners, square = node.first("at_corners"), node.first("by_square")
    if corners is None or square is None:
        bench.misplaced(op.at, wanted="`at bottom corners by` and the size of the notch")
        return
    across = bench.length(square.parts[0], "notch across")
    up = bench.length(square.parts[1], "notch up") if len(square.parts) > 1 else across
    which = "_".join(word.text for word in corners.words())
    if which not in CORNERS:
        bench.unknown(corners.word(-1), "bottom, top or all corners, or one such as bottom left", CORNERS)
        return
    from_seams = node.first("from_seams") is not None
    op.parts.update(things=things, which=which, across=across, up=up, from_seams=from_seams)
    cut = notch_from_seams if from_seams else cut_notch
    for thing in things:
        bench.use(op, thing, open_for_work=True)
        if across is not None and up is not None:
            for corner in CORNERS[which]:
                if not cut(thing, corner, across, up, op):
                    bench.recipe.slip("nothing-to-notch", span(corners), thing=thing, corner=corner)
    if from_seams:
        bench.recipe.late.append(lambda: add_allowances(things, op))


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if not parts or parts["across"] is None or parts["up"] is None:
        return ""
    size = speech.length(parts["across"])
    what = (
        f"a square of {size}"
        if parts["up"].mm == parts["across"].mm
        else f"a rectangle {size} across and {speech.length(parts['up'])} up"
    )
    corners = f"{parts['which'].replace('_', ' ')} corner{'' if '_' in parts['which'] else 's'}"
    how = ", measured from the seam lines" if parts["from_seams"] else ""
    return f"Cut {what} out of the {corners} of {listed(thing.name for thing in parts['things'])}{how}."


def cautions(op: Op) -> tuple[str, ...]:
    return ("cutter",)
