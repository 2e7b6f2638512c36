"""Turn an edge to the wrong side and stitch it down.

    hem:        "hem" edge _rest{_hem_clause}*
    _hem_clause: by | twice | at

A hem takes all that it turns: `by 1/2, turned twice` takes an inch.
"""

from ..ground.working import total

STATION = "machine"


def mean(node, bench):
    op = bench.op(node)
    chains = [chain for chain in bench.chains(node.listed()) if chain.name is not None]
    turned = bench.clause_length(node, "by", "hem")
    twice = node.first("twice") is not None
    if not chains or node.first("by") is None:
        bench.misplaced(op.at, wanted="an edge, and `by` how much it turns")
    op.parts.update(chains=chains, by=turned, twice=twice, at=bench.clause_length(node, "at", "hem stitching"))
    taken = total("hem turned twice", (2, turned)) if twice and turned is not None else turned
    for chain in chains:
        bench.use(op, chain.panel)
        bench.fate(chain.links, "hem", taken, op)


def say(op, speech):
    parts = op.parts
    if parts["by"] is None or not parts["chains"]:
        return ""
    turn = f"{speech.length(parts['by'])} to the wrong side{' twice' if parts['twice'] else ''}"
    at = f"{speech.length(parts['at'])} from the folded edge" if parts["at"] is not None else "close to the inner fold"
    return f"Hem {speech.edges(parts['chains'])}: press {turn} and stitch {at}."


def cautions(op):
    return ("iron",)
