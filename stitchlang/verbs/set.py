"""Set a snap: one half on each of two panels.

    set:        "set" NAME "on" NAME ("and" NAME)* (_named{_set_clause} | _measured{_spot})*
    _set_clause: centred
    _spot: below | above | from

Distances run from each panel's cut edge, so the halves meet when the mouth is closed.
"""

from ..model.placing import say_spot
from ..speech import listed

STATION = "hardware"


def mean(node, bench):
    op = bench.op(node)
    snap_word, *panel_words = node.words()
    snap = bench.stuff(snap_word, ("snap", "ring", "hook", "slider"), "a snap")
    panels = [
        panel for word in panel_words if (panel := bench.thing(word, ("piece", "flat"), "a piece or flat assembly"))
    ]
    if len(set_of(panels)) < len(panels):
        bench.recipe.slip("worked-on-with-itself", op.at, name=panels[0].name)
        panels = set_of(panels)
    op.parts.update(snap=snap, panels=panels, spot=bench.spot(node))
    if snap is not None:
        snap.used_by.append(op)
    for panel in panels:
        bench.use(op, panel, open_for_work=True)
        panel.fitted = [*getattr(panel, "fitted", ()), op]


def set_of(panels):
    """Each panel once, in order."""
    return list(dict.fromkeys(panels))


def say(op, speech):
    snap, panels = op.parts["snap"], op.parts["panels"]
    if snap is None or not panels:
        return ""
    halves = ", one half on each of " if len(panels) > 1 else " on "
    return (
        f"Set the {snap.kind} ({snap.name}){halves}{listed(panel.name for panel in panels)}, "
        f"{say_spot(op.parts['spot'], speech)}; put a patch of firm cloth behind it."
    )


def cautions(op):
    snap = op.parts["snap"]
    magnetic = snap is not None and snap.facts.get("kind") == "magnetic"
    return ("prongs", "small parts", "magnet") if magnetic else ("prongs", "small parts")
