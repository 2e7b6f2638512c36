"""Fold fullness into an edge: knife pleats, box pleats, inverted ones, or tucks.

    pleat:      "pleat" edge (_rest{pleats} | _measured{deep})*
    pleats:      "in" NUMBER pleat_kind
    deep:        length "deep"

`deep` is one fold, from its edge to where it is hidden: a knife pleat or a tuck takes two of them from the edge,
a box pleat four.
"""

from __future__ import annotations

from ...ground.working import total
from ...speech import counted
from .shaping import shape

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"
FOLDS = {"knife": 2, "tucks": 2, "box": 4, "inverted": 4}


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    deep = bench.clause_length(node, "deep", "depth of a pleat")
    pleats = node.first("pleats")
    kind = pleats.phrase(1).word().text if pleats is not None else "knife"
    if pleats is None or node.first("deep") is None:
        bench.misplaced(op.at, wanted="`in 2 knife` or another kind, and how `deep` each pleat is")
    count = bench.count(node, "pleats")
    op.parts.update(deep=deep, kind=kind, count=count)
    each = None if deep is None or pleats is None else total(f"{kind} pleats", (count * FOLDS[kind], deep))
    shape(op, node, bench, takes=each)


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if parts["deep"] is None or not parts["chains"]:
        return ""
    word = "tuck" if parts["kind"] == "tucks" else f"{parts['kind']} pleat"
    edges, deep = speech.edges(parts["chains"]), speech.length(parts["deep"])
    held = "stitch along each fold" if word == "tuck" else "baste across the folds"
    each = "each " if parts["count"] > 1 else ""
    return f"Fold {counted(parts['count'], word)} into {edges}, {each}{deep} deep, press, and {held}."


def cautions(op: Op) -> tuple[str, ...]:
    return ("iron",)
