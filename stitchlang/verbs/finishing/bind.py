"""Wrap a raw edge in a strip: bias or straight binding.

    bind:       "bind" edge _rest{_bind_clause}*
    _bind_clause: with | running_on

A bound edge gives up nothing.  The strip may run on past the edge, as a strap or a tie.  Where the edge lies in a seam
already, the binding goes round its allowances.
"""

from __future__ import annotations

from ...ground.working import NOTHING

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...model.seams import Chain
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    chains = bench.edges(node.listed(), op)
    strip = bench.binding(node, op, "with")
    op.parts.update(chains=chains, running_on=bench.clause_length(node, "running_on", "running on"))
    if strip is None and node.first("with") is None:
        bench.misplaced(op.at, wanted="`with` a binding, or a strip cut for it")
    for chain in chains:
        bench.use(op, chain.panel)
        open_links = [link for link in chain.links if link.fate("seam") is None]
        bench.fate(open_links, "bound", NOTHING, op)


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if parts["binding"] is None or not parts["chains"]:
        return ""
    seamed = all(link.fate("seam") for chain in parts["chains"] for link in chain.links)
    edges = speech.edges(parts["chains"])
    what = f"the seam allowances at {edges}, together," if seamed else edges
    mitre = ", folding a mitre at each corner" if turns_a_corner(parts["chains"]) and not seamed else ""
    on = f"; let it run on free for {speech.length(parts['running_on'])}" if parts["running_on"] is not None else ""
    return (
        f"Bind {what} with {parts['binding'].name}: open one fold, stitch in the crease, wrap the strip to the other "
        f"side and stitch it down{mitre}{on}."
    )


def turns_a_corner(chains: list[Chain]) -> bool:
    """Whether two of the edges meet at a corner."""
    links = [link for chain in chains for link in chain.links]
    return any(link.after is not link and link.after in links for link in links)
