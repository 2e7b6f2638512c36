"""Two rows of stitching through two layers make a channel: a casing for a cord.

    channel:    "channel" edge _rest{between}*
    between:     "between" length "and" length

Distances run from the finished edge.
"""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    chains = bench.edges(node.listed(), op)
    between = node.first("between")
    rows = [bench.length(part, "row of the channel", nothing=True) for part in between.parts] if between else []
    if between is None:
        bench.misplaced(op.at, wanted="`between` the distances of its two rows")
    op.parts.update(chains=chains, rows=rows if None not in rows else [])
    for chain in chains:
        bench.use(op, chain.panel)
        for link in chain.links:
            for fate in link.all_fates():
                if fate.op is not None and fate.op is not op:
                    op.after.setdefault(fate.op, "made")


def say(op: Op, speech: Speech) -> str:
    if not op.parts["rows"] or not op.parts["chains"]:
        return ""
    near, far = sorted(op.parts["rows"], key=lambda row: row.mm)
    first = f"one {speech.length(near)} from the edge, " if near.mm else "the edge itself is one side of it, "
    return (
        f"Stitch a channel along {speech.edges(op.parts['chains'])} through all layers: "
        f"{first}{'another' if near.mm else 'a row'} {speech.length(far)} from it."
    )
