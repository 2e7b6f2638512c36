"""What gathers, pleats, darts and ease have in common: an edge keeps its cloth and loses stitched length."""

from ...ground.working import later, total


def shape(op, node, bench, takes=None, leaves=None):
    """Take length up along each edge that a statement names: `takes` so much, or all but what it `leaves`.

    Worked out when every edge has its fate; nothing is taken where the size could not be read.
    """
    chains = op.parts["chains"] = bench.edges(node.listed(), op)
    op.parts["taken"] = []
    for chain in chains:
        bench.use(op, chain.panel, open_for_work=True)
        if chain.links and (takes or leaves):
            held = later(f"taken up on {chain.title}", op.at)
            op.parts["taken"].append((chain, held))
            bench.recipe.late.append(settling(op, chain, held, takes, leaves))


def settling(op, chain, held, takes, leaves):
    """What works out how much one edge loses, and tells the edge."""

    def work_out():
        full = op.parts.setdefault("full", {})[chain] = chain.stitched()
        held.becomes(takes or total(held.says, (1, full), (-1, leaves)))
        chain.links[0].taken_up.append(held)

    return work_out
