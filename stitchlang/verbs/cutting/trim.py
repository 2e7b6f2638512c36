"""Cut a side back, to a size or by an amount.

    trim:       "trim" edge _rest{_trim_clause}*
    _trim_clause: to_size | by

A size is measured cut to cut, over seams already sewn.
"""

from __future__ import annotations

from ...speech import capital

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "table"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    chains = bench.edges(node.listed(), op)
    size, by = node.first("to_size"), node.first("by")
    clause = size or by
    if clause is None or (size and by):
        bench.misplaced(op.at, wanted="`to` a size, or `by` an amount")
        return
    if not chains:
        return
    length = bench.length(clause.parts[0], "trimmed size" if size else "trimmed away")
    if length is None:
        return
    along = size.phrase(1).word().text if size else None
    op.parts.update(chains=chains, to=length if size else None, by=None if size else length, along=along)
    for chain in chains:
        bench.use(op, chain.panel, open_for_work=True)
    bench.recipe.trims.append(op)


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if not parts:
        return ""
    edges = speech.edges(parts["chains"])
    if parts["by"] is not None:
        return capital(f"trim {speech.length(parts['by'])} off {edges}.")
    return capital(f"trim {edges} so that it is {speech.length(parts['to'])} {parts['along']}.")


def cautions(op: Op) -> tuple[str, ...]:
    return ("cutter",)
