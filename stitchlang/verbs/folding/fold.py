"""Fold a piece: in half for a bag or a pocket, in thirds or quarters for a strap.

    fold:       "fold" NAME ("in" folds (_named{_fold_clause} | _measured{brought})* | up (","? said)?)
    _fold_clause: as | sides
    up:         "up" length

`bottom to top` brings the bottom up to the top, so the fold lies at the bottom, right side in unless `wrong sides
together` is said.
Thirds and quarters divide the width.  A half without a direction is a strip.  What is sewn up already and lies flat is
folded `up` so far from its bottom: the front of a clutch, whose flap is what is left above the back.
"""

from __future__ import annotations

from ...bench import span, statements_on
from ...model.folding import fold_in_half, fold_strip
from ...model.things import OPPOSITE

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...ground.text import Span
    from ...model.recipe import Op
    from ...model.things import Flat, Folded, Piece, Strip
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "iron"
PARTS = {"half": 2, "thirds": 3, "quarters": 4}


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    word = node.word()
    if node.first("up") is not None:
        folded_up(node, op, bench)
        return
    source = bench.thing(word, ("piece", "flat"), "a piece or flat assembly")
    if source is None:
        return
    if not (source.side("top") and source.side("left")):
        bench.misplaced(span(word), "a piece with four sides", f"a circle such as {source.name} is not folded so")
        return
    caught = [fate.op for edge in getattr(source, "edges", ()) for fate in edge.fates if fate.kind == "caught"]
    if caught and node.first("brought") is None:
        bench.recipe.slip("folded-after-sewn-in", op.at, thing=source, first=caught[0])
    how, brought = node.phrase(1).word().text, node.first("brought")
    for earlier in statements_on(source):
        op.after.setdefault(earlier, "written")
    bench.use(op, source)
    as_name = node.first("as")
    token = as_name.word() if as_name is not None else word
    name, at = token.text, span(token)
    made: Folded | Strip | None
    if brought is not None:
        made = halved(op, source, name, at, how, brought, bench)
    else:
        made = fold_strip(name, at, op, source, PARTS[how], bench.fate)
    if made is None:
        return
    op.parts.update(source=source, how=how, made=made)
    source.sealed_by, source.inside = op, made
    bench.make(made, op, token if as_name is not None else None)
    if as_name is None:
        bench.recipe.things[name] = made  # from here on the name means the folded thing


def folded_up(node: Node, op: Op, bench: Bench) -> None:
    """Fold up the bottom of what is sewn already."""
    shell = bench.thing(node.word(), ("shell",), "something sewn up that lies flat")
    by = bench.clause_length(node, "up", "folded up")
    if shell is not None:
        bench.use(op, shell)
        shell.folded_up = by
    op.parts.update(shell=shell, by=by)


def halved(op: Op, source: Piece | Flat, name: str, at: Span, how: str, brought: Node, bench: Bench) -> Folded | None:
    """Check the direction and fold in half."""
    moved, target = brought.words()
    if how != "half" or OPPOSITE.get(moved.text) != target.text:
        bench.misplaced(span(brought), wanted="`in half, bottom to top` or another side brought to its opposite")
        return None
    op.parts["brought"] = (moved.text, target.text)
    # The side that moves leaves the fold where it lay.
    return fold_in_half(name, at, op, source, moved.text)


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if parts.get("shell") is not None and parts["by"] is not None:
        return f"Fold the bottom of {parts['shell'].name} up {speech.length(parts['by'])} and press: the front."
    if "made" not in parts:
        return ""
    made, each = parts["made"], "each " if parts["source"].count > 1 else ""
    if made.kind == "folded":
        moved, target = parts["brought"]
        if parts["source"].long:
            return f"Fold {each}{parts['source'].name} in half, its {moved} end to its {target} end."
        return (
            f"Fold {each}{parts['source'].name} in half, {facing(op)} side in, bringing the {moved} edge to the "
            f"{target}; the fold is now the {made.fold}. Press."
        )
    width = speech.length(made.edges[0].cut)
    if parts["how"] == "quarters":
        return (
            f"Press {each}{parts['source'].name} in half lengthwise, open it, press both long edges to the crease, "
            f"and fold again along the crease: {width} wide in four layers."
        )
    return f"Fold {each}{parts['source'].name} in {parts['how']} lengthwise and press: {width} wide."


def facing(op: Op) -> str:
    """Which side comes to lie inside."""
    said = op.node.first("sides")
    return "wrong" if said is not None and said.word().text.startswith("wrong") else "right"


def cautions(op: Op) -> tuple[str, ...]:
    return ("iron",)
