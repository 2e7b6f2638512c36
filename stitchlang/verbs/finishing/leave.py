"""Leave an edge raw on purpose.

    leave:      "leave" edge _rest{_leave_clause}*
    _leave_clause: raw | as_bought

It takes no allowance and is not asked about again; `finished` says that it came so, as a
selvedge or a hemmed napkin does.
"""

from ...ground.working import NOTHING

STATION = "table"


def mean(node, bench):
    op = bench.op(node)
    chains = bench.edges(node.listed(), op)
    if (node.first("raw") or node.first("as_bought")) is None:
        bench.misplaced(op.at, wanted="`raw` or `finished`")
    op.parts["chains"] = chains
    for chain in chains:
        bench.use(op, chain.panel)
        bench.fate(chain.links, "raw", NOTHING, op)


def say(op, speech):
    """Nothing is done, so there is no step, unless the writer has something to say of it."""
    what = "they are" if len(op.parts["chains"]) > 1 else "it is"
    return f"Leave {speech.edges(op.parts['chains'])} as {what}." if op.said else ""
