"""Roll a mouth down to close it.

    roll:       "roll" edge (_rest{by} | _measured{times})*
    times:       NUMBER "times"

The bag is that much shorter when rolled: `by` each turn.
"""

from __future__ import annotations

from ...ground.working import total
from ...speech import counted

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "hand"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    chains = bench.edges(node.listed(), op)
    by = bench.clause_length(node, "by", "one turn of the roll")
    count = bench.count(node, "times")
    if node.first("by") is None:
        bench.misplaced(op.at, wanted="`by` and how deep one turn of the roll is")
    op.parts.update(chains=chains, by=by, count=count)
    for chain in chains:
        bench.use(op, chain.panel)
        if by is not None and chain.panel.kind == "shell":
            chain.panel.rolled = total(f"rolled {counted(count, 'time')}", (count, by))


def say(op: Op, speech: Speech) -> str:
    if op.parts["by"] is None or not op.parts["chains"]:
        return ""
    return (
        f"To close, roll {speech.edges(op.parts['chains'])} down {counted(op.parts['count'], 'time')}, "
        f"{speech.length(op.parts['by'])} a turn."
    )
