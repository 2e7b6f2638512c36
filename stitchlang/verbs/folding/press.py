"""Press a seam open or to one side, or an edge under.

    press:      "press" edge _rest{_press_clause}*
    _press_clause: open | toward | under

`under by` turns a raw edge in, to be held when the piece is placed or topstitched.
"""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "iron"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    chains = bench.edges(node.listed(), op)
    under, toward = node.first("under"), node.first("toward")
    if len(node.every("open") + node.every("toward") + node.every("under")) != 1:
        bench.misplaced(op.at, wanted="one of `open`, `toward` and `under by`")
    op.parts.update(
        chains=chains,
        toward=None,
        open=node.first("open") is not None,
        under=bench.length(under.parts[0], "pressed under") if under is not None else None,
    )
    if toward is not None:
        op.parts["toward"] = bench.thing(toward.word())
    for chain in chains:
        bench.use(op, chain.panel)
        if under is not None:
            bench.fate(chain.links, "turned", op.parts["under"], op)
        else:
            for link in chain.links:
                seam = link.fate("seam")
                if seam is not None:
                    op.after.setdefault(seam.op, "made")
                else:
                    bench.recipe.slip("no-seam-to-press", chain.at, chain=chain)
                    break


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    edges = speech.edges(parts["chains"])
    if parts["under"] is not None:
        return f"Press {edges} under by {speech.length(parts['under'])}."
    if parts["toward"] is not None:
        return f"Press the seam at {edges} toward {parts['toward'].name}."
    return f"Press the seam at {edges} open."


def cautions(op: Op) -> tuple[str, ...]:
    return ("iron",)
