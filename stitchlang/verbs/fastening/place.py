"""Sew a finished or turned-under piece onto a panel: an applied pocket, a patch, a tab.

    place:      "place" NAME "on" NAME (_rest{_place_clause} | _measured{_spot})*
    _place_clause: centred | sewn | at
    _spot: below | above | from

Distances run from the panel's cut edge.
"""

from __future__ import annotations

from ...model.placing import say_spot

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...model.seams import Chain
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    item_word, panel_word = node.words()
    item = bench.thing(item_word)
    panel = bench.thing(panel_word, ("piece", "flat"), "a piece or flat assembly")
    op.parts.update(
        item=item, panel=panel, sewn=[], at=bench.clause_length(node, "at", "stitching distance"), spot=bench.spot(node)
    )
    if item is None or panel is None or not bench.apart(op, item, panel):
        return
    op.parts["told"] = bench.recipe.slip_count == bench.slips_before  # whether all that is said of the place was read
    bench.use(op, item)
    bench.use(op, panel, open_for_work=True)
    sewn = node.first("sewn")
    if sewn is not None:
        for word in node.listed(sewn):
            op.parts["sewn"] += bench.sides(item, word.word())
    for chain in op.parts["sewn"]:
        bench.fate(chain.links, "sewn", None, op)
    item.inside = panel


def mouth(sewn: list[Chain]) -> str:
    """A pocket open at the top is backstitched where the rows begin and end."""
    names = {chain.name for chain in sewn}
    return ", backstitching at both ends of the mouth" if {"left", "right"} <= names and "top" not in names else ""


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if parts["item"] is None or parts["panel"] is None:
        return ""
    at = f", {speech.length(parts['at'])} from the edge" if parts["at"] is not None else ""
    sewn = "; pin or baste it there"
    if parts["sewn"]:
        sewn = f", and stitch along {speech.edges(parts['sewn'])}{at}{mouth(parts['sewn'])}"
    return f"Place {parts['item'].name} on {parts['panel'].name}, {say_spot(parts['spot'], speech)}{sewn}."
