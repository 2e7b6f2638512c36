"""Stitch a pocket into compartments.

    divide:     "divide" NAME from? (_named{_divide_clause} | _measured{from})*
    _divide_clause: equally

Rows run from the pocket's bottom to its mouth; `into 3` spaces them evenly.
"""

from __future__ import annotations

from ...bench import statements_on
from ...speech import counted, listed

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    pocket = bench.thing(node.word())
    rows = []
    for clause in node.every("from"):
        side = clause.word(1)
        length = bench.length(clause.parts[0], f"row from {side.text}")
        if side.text not in ("left", "right"):
            bench.unknown(side, "left or right", ("left", "right"))
        elif length is not None:
            rows.append((side.text, length))
    equally = node.first("equally")
    parts = bench.whole_number(equally.word()) if equally is not None else None
    if not rows and equally is None:
        bench.misplaced(op.at, wanted="rows such as `4 from left`, or `into 3`")
    op.parts.update(pocket=pocket, rows=rows, into=parts)
    if pocket is not None:
        bench.use(op, pocket)
        panel = pocket.inside
        if panel is not None:
            bench.use(op, panel, open_for_work=True)
        for placed in statements_on(pocket):
            if placed.verb in ("place", "baste") and placed is not op:
                op.after.setdefault(placed, "made")


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if parts["pocket"] is None:
        return ""
    name = parts["pocket"].name
    if parts["into"]:
        return f"Divide {name} into {counted(parts['into'], 'equal compartment')} with rows of stitching."
    rows = listed(f"{speech.length(length)} from its {side}" for side, length in parts["rows"])
    return f"Divide {name}: stitch from its bottom edge to its top, {rows}, backstitching at the top."
