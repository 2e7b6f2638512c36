"""Turn an edge to the wrong side and stitch it down.

    hem:        "hem" edge _rest{_hem_clause}*
    _hem_clause: hem_by | twice | at | hem_open
    hem_open:    "leaving" length "open" for?

A hem takes all that it turns: `by 1/2, turned twice` takes an inch, and so does `by 1/4 then 3/4`.  One with an opening
is a casing: `leaving 1 open for draw`.
"""

from __future__ import annotations

from ...ground.working import total

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
    by, twice = node.first("hem_by"), node.first("twice") is not None
    lengths = [bench.length(part, "hem") for part in by.parts] if by is not None else []
    if not lengths or (twice and len(lengths) > 1):
        bench.misplaced(op.at, wanted="`by` and how much it turns")
    turns = [turn for turn in lengths if turn is not None] * (2 if twice else 1)
    op.parts.update(chains=chains, turns=turns, at=bench.clause_length(node, "at", "hem stitching"))
    taken = total("hem", *((1, turn) for turn in turns)) if len(turns) > 1 else next(iter(turns), None)
    op.parts["open"] = bench.clause_length(node, "hem_open", "opening in the casing")
    bench.drawn(node.first("hem_open"))
    for chain in chains:
        bench.use(op, chain.panel)
        bench.fate(chain.links, "hem", taken, op)


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if not parts["turns"] or not parts["chains"]:
        return ""
    held = "close to the inner fold" if len(parts["turns"]) > 1 else "it down"
    first, *others = [speech.length(turn) for turn in parts["turns"]]
    turn = f"{first} to the wrong side" + ("".join(f", then {other} again" for other in others))
    at = f"{speech.length(parts['at'])} from the folded edge" if parts["at"] is not None else held
    gap = f", leaving {speech.length(parts['open'])} open for the cord" if parts["open"] is not None else ""
    return f"Hem {speech.edges(parts['chains'])}: press {turn}, and stitch {at}{gap}."


def cautions(op: Op) -> tuple[str, ...]:
    return ("iron",)
