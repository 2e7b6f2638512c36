"""Open a panel for a zip: a letter-box opening, faced, with the zip behind it.

    slit:       "slit" NAME (_named{_slit_clause} | _measured{_slit_size})*
    _slit_clause: for | faced | centred
    _slit_size: opening | below | above | from

`7 x 1/2` is the opening as sewn.  Distances run from the panel's cut edges to the opening.  The piece it is faced with
is folded up behind the panel and becomes the pocket bag.
"""

from __future__ import annotations

from ...model.placing import say_spot

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...model.things import Piece, Zip
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    panel = bench.thing(node.word(), ("piece", "flat"), "a piece or flat assembly")
    for_zip, faced, opening = node.first("for"), node.first("faced"), node.first("opening")
    zip_thing = bench.thing(for_zip.word(), ("zip",), "a zip") if for_zip is not None else None
    bag = bench.thing(faced.word(), ("piece",), "a piece") if faced is not None else None
    size = [bench.length(part, "opening") for part in opening.parts] if opening is not None else []
    if None in (for_zip, faced, opening):
        bench.misplaced(op.at, wanted="`for` a zip, the opening's size, and the piece it is `faced with`")
    op.parts.update(
        panel=panel,
        zip=zip_thing,
        bag=bag,
        size=size if len(size) == 2 and None not in size else None,
        spot=bench.spot(node),
    )
    if panel is not None:
        bench.use(op, panel, open_for_work=True)
        panel.slits = [*getattr(panel, "slits", ()), op]
    behind: list[Zip | Piece | None] = [zip_thing, bag]
    for thing in behind:
        if thing is not None:
            bench.use(op, thing)
            bench.fate(thing.edges, "seam", None, op)
            thing.inside, thing.consumed_by = panel, op


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if None in parts.values():
        return ""
    wide, tall = (speech.length(size) for size in parts["size"])
    bag, panel = parts["bag"].name, parts["panel"].name
    return (
        f"Lay {bag} on {panel}, right sides together, and stitch a box {wide} x {tall}, "
        f"{say_spot(parts['spot'], speech)}; cut along its middle and into each corner, turn {bag} through to the "
        f"wrong side and press. Lay {parts['zip'].name} behind the opening and stitch round it close to the edge. Fold "
        f"{bag} up behind the zip, right sides together, and sew its three open sides into a pocket bag, keeping "
        f"{panel} out of it."
    )


def cautions(op: Op) -> tuple[str, ...]:
    metal = op.parts["zip"] is not None and op.parts["zip"].stuff.facts.get("kind") == "metal"
    return ("cutter", "teeth") if metal else ("cutter",)
