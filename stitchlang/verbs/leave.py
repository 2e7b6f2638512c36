"""Leave an edge raw on purpose.

    leave:      "leave" edge _rest{_leave_clause}*
    _leave_clause: raw

An edge left raw takes no allowance and is not asked about again.
"""

from ..ground.working import NOTHING

STATION = "table"


def mean(node, bench):
    op = bench.op(node)
    chains = [chain for chain in bench.chains(node.listed()) if chain.name is not None]
    if not chains or node.first("raw") is None:
        bench.misplaced(op.at, wanted="an edge, and `raw`")
    op.parts["chains"] = chains
    for chain in chains:
        bench.use(op, chain.panel)
        bench.fate(chain.links, "raw", NOTHING, op)


def say(op, speech):
    return f"Leave {speech.edges(op.parts['chains'])} raw."
