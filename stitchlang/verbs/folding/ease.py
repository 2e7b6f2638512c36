"""Work a little more length into an edge than the edge it is sewn to has, without a pucker.

    ease:       "ease" edge _rest{by}*
    by:          "by" length

More than a twentieth of an edge can hardly be eased in.
"""

from .shaping import shape

STATION = "machine"


def mean(node, bench):
    op = bench.op(node)
    by = op.parts["by"] = bench.clause_length(node, "by", "eased in")
    if node.first("by") is None:
        bench.misplaced(op.at, wanted="`by` and how much is eased in")
    shape(op, node, bench, takes=by)


def say(op, speech):
    if op.parts["by"] is None or not op.parts["chains"]:
        return ""
    return (
        f"Ease {speech.edges(op.parts['chains'])} in by {speech.length(op.parts['by'])}: pin it closely to the shorter "
        f"edge and sew with the longer one underneath, against the feed."
    )
