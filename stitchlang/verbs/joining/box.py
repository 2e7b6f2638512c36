"""Box the corners: side and base seams laid on each other and stitched across.

    box:        "box" NAME _named{_box_clause}*
    _box_clause: at | pinched | from_tip

Where corners were notched, the two arms of each notch are joined and the depth
is what their stitch lines give.  `pinched` stitches straight across a whole
corner instead.
"""

from __future__ import annotations

from ...bench import span
from ...ground.lengths import MM
from ...ground.working import total
from ...model.notches import corner_pairs
from ...model.seams import Chain, Seam

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...model.things import Shell
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"
TRIMMED = MM["in"] / 2  # what is left beside a pinched corner's stitching: common practice, no source


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    token = node.word()
    shell = bench.thing(token, ("shell",), "a shell, made by a join along sides and bottom")
    if shell is None:
        return
    bench.use(op, shell, open_for_work=True)
    op.parts.update(shell=shell, allowance=None, pinch=None)
    if node.first("pinched") is not None or node.first("from_tip") is not None:
        pinch(op, shell, bench)
        return
    allowance = op.parts["allowance"] = bench.allowance(node, op, "boxing seam allowance")
    pairs = corner_pairs(shell)
    if not pairs:
        bench.recipe.slip("nothing-to-box", op.at, shell=shell)
    for corner, across, up, notches in pairs:
        sides = [Chain(shell, f"{corner} {way}", edges, span(token)) for way, edges in (("across", across), ("up", up))]
        seam = Seam(op, corner, sides, allowance, op.at)
        seam.boxing = True
        bench.fate([*across, *up], "seam", allowance, op)
        bench.recipe.seams.append(seam)
        shell.boxings.append(seam)
        for notch in notches:
            op.after.setdefault(notch, "made")


def pinch(op: Op, shell: Shell, bench: Bench) -> None:
    """The depth of a pinched corner: the line across, or twice its distance from the tip."""
    if op.node.first("pinched") is not None:
        depth = bench.clause_length(op.node, "pinched", "line across the pinched corner")
    else:
        tip = bench.clause_length(op.node, "from_tip", "pinch, from the tip along the seam")
        depth = total("pinched depth", (2, tip)) if tip is not None else None
    op.parts["pinch"] = depth
    shell.pinch = depth


def say(op: Op, speech: Speech) -> str:
    shell, pinched = op.parts.get("shell"), op.parts.get("pinch")
    if shell is None or (pinched is None and op.parts["allowance"] is None):
        return ""
    base = "fold at the bottom" if shell.panels[0].kind == "folded" else "bottom seam"
    if pinched is not None:
        return (
            f"Box {shell.name}: at each bottom corner lay the side seam on the {base} and stitch straight across "
            f"where the line is {speech.length(pinched)} long. Trim to {speech.length(TRIMMED)} from the stitching."
        )
    allowance = speech.length(op.parts["allowance"])
    return (
        f"Box {shell.name}: at each notch lay the side seam on the {base}, raw edges even, and stitch across with a "
        f"seam allowance of {allowance}."
    )
