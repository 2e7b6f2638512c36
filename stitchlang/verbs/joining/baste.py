"""Hold edges in place until a later seam catches them.

    baste:      "baste" edge _rest{_baste_clause}*
    _baste_clause: with | to | at | at_seams

`with` threads a ring first: the strip is looped and both its ends are caught.
"""

from __future__ import annotations

from ...bench import span
from ...model.seams import Chain

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op, Stuff
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"
HARDWARE = ("ring", "slider", "hook")


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    chains = bench.chains(node.listed())
    to = node.first("to")
    onto = bench.edges(node.listed(to), op) if to is not None else []
    if to is None:
        bench.recipe.slip("joined-to-nothing", op.at, panel=chains[0].panel if chains else None)
    chains = [whole for chain in chains for whole in both_ends(chain, bench)]
    if chains and onto and chains[0].panel is onto[0].panel:
        bench.recipe.slip("worked-on-with-itself", op.at, name=onto[0].panel.name)
        onto = []
    op.parts.update(
        chains=chains,
        onto=onto,
        at=bench.clause_length(node, "at", "basting distance"),
        hardware=ring(node, op, bench),
        at_seams=node.first("at_seams"),
    )
    for at, chain in enumerate(chains):
        host = onto[min(at, len(onto) - 1)].links if onto else ()
        bench.fate(chain.links, "caught", None, op, host[0] if host else None)
        bench.use(op, chain.panel)
    for chain in onto:
        bench.use(op, chain.panel)


def both_ends(chain: Chain, bench: Bench) -> list[Chain]:
    """A strip named without an edge is caught by its ends."""
    if chain.name is not None:
        return [chain]
    ends = chain.panel.find("ends") if chain.panel.kind in ("strip", "piece", "shell") else None
    if ends:
        return [Chain(chain.panel, name, edges, chain.at) for name, edges in ends]
    bench.misplaced(chain.at, wanted="the edges to baste, such as pocket sides")
    return []


def ring(node: Node, op: Op, bench: Bench) -> Stuff | None:
    """The hardware that `with` threads, and the clause it stands in."""
    clause = node.first("with")
    if clause is None:
        return None
    found = bench.stuff(clause.word(), HARDWARE, "a ring, slider or hook")
    if found is not None:
        found.used_by.append(op)
        op.parts["hardware_at"] = span(clause)
    return found


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if not parts["chains"] or not parts["onto"]:
        return ""
    where = " at the side seams" if parts["at_seams"] is not None else ""
    away = f", {speech.length(parts['at'])} from the raw edge" if parts["at"] is not None else ""
    if parts["hardware"] is not None:
        names = list(dict.fromkeys(chain.panel for chain in parts["chains"]))
        each = "each " if any(panel.count > 1 for panel in names) else ""
        loops = " and ".join(f"{each}{panel.name}" for panel in names)
        return (
            f"Thread {loops} through {'a ' if each else 'the '}{parts['hardware'].kind} "
            f"({parts['hardware'].name}), fold it with the raw ends even, and baste the ends to "
            f"{speech.edges(parts['onto'])}{where}{away}."
        )
    return f"Baste {laid(parts['chains'], parts['onto'], speech)}{where}{away}."


def laid(chains: list[Chain], onto: list[Chain], speech: Speech) -> str:
    """What is basted to what; of two handles, one to each panel."""
    panels, hosts = {chain.panel for chain in chains}, {chain.panel for chain in onto}
    item = chains[0].panel if chains else None
    if item is not None and len(panels) == 1 and item.long and item.count == len(hosts) == len(onto) == 2:
        one, other = (speech.edges([chain]) for chain in onto)
        return f"both ends of one {item.name} to {one}, and both ends of the other to {other}"
    return f"{speech.edges(chains)} to {speech.edges(onto)}"


def cautions(op: Op) -> tuple[str, ...]:
    return ("metal",) if op.parts["hardware"] is not None else ()
