"""Draw an edge up on a thread, so that it fits a shorter one.

    gather:     "gather" edge _rest{gathered}*
    gathered:    "to" length

The length is what the edge measures on its stitch line once it is drawn up.
"""

from __future__ import annotations

from .shaping import shape

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    to = bench.clause_length(node, "gathered", "gathered edge")
    if node.first("gathered") is None:
        bench.misplaced(op.at, wanted="`to` and how long the gathered edge is to be")
    op.parts["to"] = to
    shape(op, node, bench, leaves=to)


def say(op: Op, speech: Speech) -> str:
    if op.parts["to"] is None or not op.parts["chains"]:
        return ""
    return (
        f"Gather {speech.edges(op.parts['chains'])}: sew two rows of long stitches inside the seam allowance, draw the "
        f"bobbin threads up until the edge is {speech.length(op.parts['to'])} between its stitch lines, and spread the "
        f"fullness evenly."
    )
