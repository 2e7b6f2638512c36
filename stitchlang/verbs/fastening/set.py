"""Set a snap, a half on each of two panels; or rivets, eyelets, buttons, hook-and-loop tape.

    set:        "set" NAME "on" NAME ("and" NAME)* (_named{_set_clause} | _measured{_spot})*
    _set_clause: centred | mirrored
    _spot: below | above | from

Distances run from each panel's cut edge, so the halves meet when the mouth is closed.  `mirrored` sets one more at the
same distance from the opposite side.
"""

from __future__ import annotations

from ...model.placing import say_spot
from ...speech import listed

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.kinds import AnyThing
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "hardware"
SET = ("snap", "touch", "button", "rivet", "eyelet", "ring", "hook", "slider")
PANELS = ("piece", "flat", "strip", "folded")
HOW = {
    "button": "sew it on with a thread shank",
    "eyelet": "punch the hole no wider than its neck",
    "rivet": "punch the hole no wider than its post",
}


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    snap_word, *panel_words = node.words()
    snap = bench.stuff(snap_word, SET, "a snap, rivet, eyelet, button or hook-and-loop tape")
    panels = [panel for word in panel_words if (panel := bench.thing(word, PANELS, "a panel that lies flat"))]
    if len(set_of(panels)) < len(panels):
        bench.recipe.slip("worked-on-with-itself", op.at, name=panels[0].name)
        panels = set_of(panels)
    op.parts.update(snap=snap, panels=panels, spot=bench.spot(node), mirrored=node.first("mirrored") is not None)
    if snap is not None:
        snap.used_by.append(op)
    for panel in panels:
        bench.use(op, panel, open_for_work=True)


def set_of(panels: list[AnyThing]) -> list[AnyThing]:
    """Each panel once, in order."""
    return list(dict.fromkeys(panels))


def say(op: Op, speech: Speech) -> str:
    snap, panels = op.parts["snap"], op.parts["panels"]
    if snap is None or not panels:
        return ""
    names = listed(panel.name for panel in panels)
    spot = say_spot(op.parts["spot"], speech)
    mirrored = ", and one more mirrored at the other side" if op.parts["mirrored"] else ""
    if snap.kind == "touch":
        halves = "One half of" if len(panels) == 1 else "The two halves of"
        return f"{halves} the hook-and-loop tape ({snap.name}): stitch on {names}, {spot}{mirrored}, all round."
    halves = ", one half on each of " if len(panels) > 1 and snap.kind == "snap" else " on "
    how = HOW.get(snap.kind, "put a patch of firm cloth behind it")
    return f"Set the {snap.kind} ({snap.name}){halves}{names}, {spot}{mirrored}; {how}."


def cautions(op: Op) -> tuple[str, ...]:
    snap = op.parts["snap"]
    if snap is not None and snap.kind in ("touch", "button"):
        return ("small parts",) if snap.kind == "button" else ()
    magnetic = snap is not None and snap.facts.get("kind") == "magnetic"
    return ("prongs", "small parts", "magnet") if magnetic else ("prongs", "small parts")
