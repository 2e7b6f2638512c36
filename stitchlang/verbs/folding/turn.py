"""Turn a shell right side out, through its own mouth, a gap or an open zip.

    turn:       "turn" NAME _named{_turn_clause}*
    _turn_clause: through

Without `through`, it is turned through its own open mouth.
"""

from __future__ import annotations

from ...model.things import coated

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...model.seams import Chain
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "hand"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    shell = bench.thing(node.word(), ("shell",), "a shell")
    through = node.first("through")
    chains = bench.chains(node.listed(through)) if through is not None else []
    op.parts.update(shell=shell, through=chains[0] if chains else None, said_through=through, seam=None)
    if shell is None:
        return
    bench.use(op, shell)
    shell.turned_by.append(op)
    for chain in chains[:1]:
        bench.use(op, chain.panel)
        if chain.panel.kind == "shell" and chain.name is not None:
            op.parts["seam"] = chain.panel.seam(chain.name)
    for inner in shell.panels:
        if inner.kind == "shell":
            inner.turned_by.append(op)


def say(op: Op, speech: Speech) -> str:
    shell, through = op.parts["shell"], op.parts["through"]
    if shell is None:
        return ""
    pressed = " and ease the seams and corners out" if coated(shell) else ", ease the seams and corners out, and press"
    return f"Turn {shell.name} right side out{where(through, speech)}{pressed}."


def where(through: Chain | None, speech: Speech) -> str:
    """` through the gap in the bottom of inner`, ` through the open zip`."""
    if through is None:
        return ""
    if through.panel.kind == "zip":
        return f" through the open zip ({through.panel.name})"
    return f" through the gap in {speech.edges([through])}"
