"""Wrap a strip round a cord: piping, to be caught in a seam.

    wrap:       "wrap" NAME "round" NAME _named{as}*

What is left of the strip beside the cord, on both sides of it, is the flange.  The strip's left edge is the fold, so
`catching welt.right` sews the flange into a seam.
"""

from __future__ import annotations

from ...bench import span
from ...model.folding import fold_about_cord

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    strip_word, cord_word = node.words()
    source = bench.thing(strip_word, ("piece",), "a strip of cloth")
    cord = bench.stuff(cord_word, ("cord",), "a cord")
    op.parts.update(source=source, cord=cord, made=None)
    if cord is not None:
        cord.used_by.append(op)
    if source is None or cord is None or source.side("left") is None:
        return
    across = cord.facts.get("across")
    if across is None:
        bench.misplaced(span(cord_word), wanted="a cord whose width `across` is stated")
        return
    bench.use(op, source)
    as_name = node.first("as")
    token = as_name.word() if as_name is not None else strip_word
    made = op.parts["made"] = fold_about_cord(token.text, span(token), op, source, across)
    source.sealed_by, source.inside = op, made
    bench.make(made, op, token if as_name is not None else None)
    if as_name is None:
        bench.recipe.things[token.text] = made


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if parts["made"] is None:
        return ""
    return (
        f"Fold {parts['source'].name} lengthwise round the cord ({parts['cord'].name}), wrong side in, raw edges even, "
        f"and stitch close to the cord with a foot that runs beside it: this is the piping."
    )
