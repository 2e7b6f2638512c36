"""Work a little more length into an edge than the edge it is sewn to has, without a pucker.

    ease:       "ease" edge _rest{by}*
    by:          "by" length

More than a twentieth of an edge can hardly be eased in.
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
    by = op.parts["by"] = bench.clause_length(node, "by", "eased in")
    if node.first("by") is None:
        bench.misplaced(op.at, wanted="`by` and how much is eased in")
    shape(op, node, bench, takes=by)


def say(op: Op, speech: Speech) -> str:
    if op.parts["by"] is None or not op.parts["chains"]:
        return ""
    return (
        f"Ease {speech.edges(op.parts['chains'])} in by {speech.length(op.parts['by'])}: pin it closely to the shorter "
        f"edge and sew with the longer one underneath, against the feed."
    )
