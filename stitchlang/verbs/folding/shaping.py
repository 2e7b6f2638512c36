"""What gathers, pleats, darts and ease have in common: an edge keeps its cloth and loses stitched length."""

from __future__ import annotations

from ...ground.working import later, total

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable

    from ...bench import Bench
    from ...ground.working import Working
    from ...model.recipe import Op
    from ...model.seams import Chain
    from ...reading.tree import Node


def shape(op: Op, node: Node, bench: Bench, takes: Working | None = None, leaves: Working | None = None) -> None:
    """Take length up along each edge that a statement names: `takes` so much, or all but what it `leaves`.

    Worked out when every edge has its fate; nothing is taken where the size could not be read.
    """
    chains = op.parts["chains"] = bench.edges(node.listed(), op)
    op.parts["taken"] = []
    for chain in chains:
        bench.use(op, chain.panel, open_for_work=True)
        if chain.links and (takes is not None or leaves is not None):
            held = later(f"taken up on {chain.title}", op.at)
            op.parts["taken"].append((chain, held))
            bench.recipe.late.append(settling(op, chain, held, takes, leaves))


def settling(op: Op, chain: Chain, held: Working, takes: Working | None, leaves: Working | None) -> Callable[[], None]:
    """What works out how much one edge loses, and tells the edge."""

    def work_out() -> None:
        full = op.parts.setdefault("full", {})[chain] = chain.stitched()
        if takes is not None:
            held.becomes(takes)
        elif leaves is not None:
            held.becomes(total(held.says, (1, full), (-1, leaves)))
        chain.links[0].taken_up.append(held)

    return work_out
