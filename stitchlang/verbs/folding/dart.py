"""Sew a wedge of cloth away at an edge, so that the panel bulges.

    dart:       "dart" edge (_rest{by} | _measured{_dart_size})*
    _dart_size: long | count

`by` is what one dart takes at the edge.
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


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    by = bench.clause_length(node, "by", "dart, at the edge")
    long = bench.clause_length(node, "long", "dart, in length")
    count = bench.count(node, "count")
    if node.first("by") is None or node.first("long") is None:
        bench.misplaced(op.at, wanted="`by` and what the dart takes at the edge, and how `long` it is")
    op.parts.update(by=by, long=long, count=count)
    each = None if by is None else total("darts", (count, by))
    shape(op, node, bench, takes=each)


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if None in (parts["by"], parts["long"]) or not parts["chains"]:
        return ""
    edges, wide, long = speech.edges(parts["chains"]), speech.length(parts["by"]), speech.length(parts["long"])
    each = "each " if parts["count"] > 1 else ""
    return (
        f"Sew {counted(parts['count'], 'dart')} into {edges}, {each}{wide} wide at the edge and {long} long, from the "
        f"edge to nothing; tie the threads and press."
    )


def cautions(op: Op) -> tuple[str, ...]:
    return ("iron",)
