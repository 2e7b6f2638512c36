"""Leave an edge raw on purpose.

    leave:      "leave" edge _rest{_leave_clause}*
    _leave_clause: raw | as_bought

It takes no allowance and is not asked about again; `finished` says that it came so, as a
selvedge or a hemmed napkin does.
"""

from __future__ import annotations

from ...ground.working import NOTHING

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "table"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    chains = bench.edges(node.listed(), op)
    if (node.first("raw") or node.first("as_bought")) is None:
        bench.misplaced(op.at, wanted="`raw` or `finished`")
    op.parts["chains"] = chains
    for chain in chains:
        bench.use(op, chain.panel)
        bench.fate(chain.links, "raw", NOTHING, op)


def say(op: Op, speech: Speech) -> str:
    """Nothing is done, so there is no step, unless the writer has something to say of it."""
    what = "they are" if len(op.parts["chains"]) > 1 else "it is"
    return f"Leave {speech.edges(op.parts['chains'])} as {what}." if op.said else ""
