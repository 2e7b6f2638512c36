"""Close a gap that was left for turning.

    close:      "close" edge _rest{_close_clause}*
    _close_clause: by_hand | at

A gap is closed after the bag has been turned through it.
"""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "hand"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    chains = bench.chains(node.listed())
    op.parts.update(
        chains=chains,
        seam=None,
        by_hand=node.first("by_hand") is not None,
        at=bench.clause_length(node, "at", "closing distance"),
    )
    for chain in chains:
        if chain.name is None:
            bench.misplaced(chain.at, wanted="the seam with the gap, such as inner.bottom")
            continue
        bench.use(op, chain.panel)
        seam = chain.panel.seam(chain.name) if chain.panel.kind == "shell" else None
        if seam is None or seam.opening is None:
            bench.recipe.slip("no-gap-to-close", chain.at, chain=chain)
            continue
        op.parts["seam"] = seam
        seam.closed_by = op


def say(op: Op, speech: Speech) -> str:
    chains = op.parts["chains"]
    if not chains:
        return ""
    how = "by hand with a slip stitch" if op.parts["by_hand"] else "with a row close to the edge, or by hand"
    return f"Close the gap in {speech.edges(chains)} {how}."
