"""A row of stitching beside a seam, fold or hem, through all that lies beneath.

    topstitch:  "topstitch" edge _rest{_topstitch_clause}*
    _topstitch_clause: at

Without `at`, the row runs close to the edge.
"""

from __future__ import annotations

from ...speech import capital

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
    at = bench.clause_length(node, "at", "topstitching distance")
    op.parts.update(chains=chains, at=at)
    for chain in chains:
        closed = chain.panel.kind == "shell" or all(link.fate("folded") for link in chain.links)
        bench.use(op, chain.panel, open_for_work=not closed)
        for link in chain.links:
            for fate in link.all_fates():
                if fate.kind in ("seam", "hem", "turned") and fate.op is not op:
                    op.after.setdefault(fate.op, "made")


def say(op: Op, speech: Speech) -> str:
    at = op.parts["at"]
    inside = all(
        link.fate("seam") for chain in op.parts["chains"] if chain.panel.kind != "shell" for link in chain.links
    )
    seam = "seam" if inside and any(chain.panel.kind != "shell" for chain in op.parts["chains"]) else "edge"
    away = f", {speech.length(at)} from the {seam}" if at is not None else f" close to the {seam}"
    return capital(f"topstitch {speech.edges(op.parts['chains'])}{away}.")


def cautions(op: Op) -> tuple[str, ...]:
    zips = [link.fate("seam").op for chain in op.parts["chains"] for link in chain.links if link.fate("seam")]
    panels = [chain.panel for seam_op in zips for seam in seam_op.parts.get("seams", ()) for chain in seam.sides]
    metal = any(one.kind == "zip" and one.stuff.facts.get("kind") == "metal" for one in panels)
    return ("teeth",) if metal else ()
