"""Stitch a panel through its batting in rows.

    quilt:      "quilt" NAME _named{_quilt_clause}*
    _quilt_clause: with | rows
    rows:        "in" "rows" length "apart"

Quilting draws cloth up; by how much nobody can say beforehand, so a quilted panel is cut larger and trimmed after.
"""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    panel = bench.thing(node.word(), ("piece", "flat"), "a piece or flat assembly")
    batting = node.first("with")
    stuff = bench.stuff(batting.word(), ("batting",), "a batting") if batting is not None else None
    apart = bench.clause_length(node, "rows", "distance of the rows")
    if batting is None or node.first("rows") is None:
        bench.misplaced(op.at, wanted="`with` a batting, and `in rows` so far `apart`")
    op.parts.update(panel=panel, batting=stuff, apart=apart)
    if stuff is not None:
        stuff.used_by.append(op)
    if panel is not None:
        bench.use(op, panel, open_for_work=True)
        panel.quilted_by = op


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if None in parts.values():
        return ""
    return (
        f"Lay {parts['panel'].name} on the batting ({parts['batting'].name}), baste the layers together, and quilt in "
        f"rows {speech.length(parts['apart'])} apart, from the middle outward."
    )
