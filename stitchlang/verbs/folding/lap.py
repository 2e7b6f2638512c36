"""Bring two opposite edges over one another, as the back of a cushion cover or of an envelope pouch.

    lap:        "lap" edge _rest{_lap_clause}*
    _lap_clause: over | by | as

Both edges are finished first.  What remains, less the overlap, is twice the height (or width) of the folded thing.
"""

from __future__ import annotations

from ...bench import span, statements_on
from ...model.folding import fold_round
from ...model.things import OPPOSITE, SIDES

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
    over = node.first("over")
    under = bench.edges(node.listed(over), op) if over is not None else []
    by = bench.clause_length(node, "by", "overlap")
    op.parts.update(chains=chains + under, by=by)
    if by is None or len(chains) != 1 or len(under) != 1:
        bench.misplaced(op.at, wanted="one edge `over` the opposite one, and `by` how much they overlap")
        return
    (upper,), (lower,) = chains, under
    source, side, as_name = upper.panel, upper.name or "", node.first("as")
    if source is not lower.panel or OPPOSITE.get(side) != lower.name or source.kind != "piece":
        bench.misplaced(op.at, wanted="two opposite edges of one piece")
        return
    if not all(source.side(name) for name in SIDES):
        bench.misplaced(op.at, wanted="a piece with four sides")
        return
    for earlier in statements_on(source):
        op.after.setdefault(earlier, "written")
    bench.use(op, source)
    token = as_name.word() if as_name is not None else node.phrase().word()
    made = fold_round(token.text, span(token), op, source, side, by, bench.recipe)
    op.parts.update(source=source, made=made)
    source.sealed_by, source.inside = op, made
    bench.make(made, op, token if as_name is not None else None)
    if as_name is None:
        bench.recipe.things[token.text] = made


def say(op: Op, speech: Speech) -> str:
    if "made" not in op.parts:
        return ""
    upper, lower = (chain.name for chain in op.parts["chains"])
    return (
        f"Lay {op.parts['source'].name} right side up, fold its {upper} end in and then its {lower} end, so that they "
        f"overlap by {speech.length(op.parts['by'])}; raw edges even at both sides. Once it is turned, the {upper} "
        f"edge lies outside."
    )
