"""Thread a strap through hardware and turn its ends back, or a cord through its casing.

    thread:     "thread" NAME "through" edge _rest{_thread_clause}*
    _thread_clause: turned_back

`turned back` takes that much of each end, stitched down in a box.  A cord goes through hems, channels and eyelets.
"""

from __future__ import annotations

from ...bench import DRAWN
from ...speech import listed

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.kinds import AnyThing
    from ...model.outline import Edge
    from ...model.recipe import Op, Stuff
    from ...model.seams import Chain
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "hand"
HARDWARE = ("ring", "slider", "hook", "eyelet")


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    token = node.word()
    stuff = bench.recipe.stuff.get(token.text)
    bought = stuff if stuff is not None and stuff.kind in DRAWN else None
    strap = bench.thing(token) if bought is None else None
    hardware, chains = passages(node.listed(), bench, bought is not None)
    turned = bench.clause_length(node, "turned_back", "turned back")
    for one in (*hardware, *([bought] if bought is not None else ())):
        one.used_by.append(op)
    # A strip sewn for it is drawn through a casing like a cord.
    cord = strap if bought is None and chains else bought
    op.parts.update(strap=strap, cord=cord, hardware=hardware, chains=chains, turned=turned)
    for chain in chains:
        bench.use(op, chain.panel)
    if strap is None:
        return
    bench.use(op, strap)
    if turned is not None:
        for edge in ends(strap):
            if not edge.fates:
                bench.fate([edge], "turned", turned, op)


def passages(items: list[Node], bench: Bench, cord: bool) -> tuple[list[Stuff], list[Chain]]:
    """What a thing is threaded through: hardware, named alone, and things or edges that have a casing."""
    hardware: list[Stuff] = []
    edges: list[Node] = []
    panel: AnyThing | None = None
    for item in items:
        token = item.word()
        thing = bench.recipe.things.get(token.text)
        side = panel is not None and len(item.parts) == 1 and panel.find(token.text) is not None
        if len(item.parts) > 1 or side or (thing is not None and thing.kind != "zip"):
            edges.append(item)
            panel = panel if side else thing
        elif token.text in bench.recipe.stuff or not cord:
            found = bench.stuff(token, HARDWARE, "a ring, slider, hook or eyelet")
            hardware += [found] if found is not None else []
        else:
            edges.append(item)
    return hardware, bench.chains(edges)


def say(op: Op, speech: Speech) -> str:
    strap, hardware = op.parts["strap"], op.parts["hardware"]
    if op.parts["cord"] is not None:
        return drawn(op, speech)
    if strap is None or not hardware:
        return ""
    each = "each " if strap.count > 1 else ""
    passed = [f"{'a' if each else 'the'} {one.kind} ({one.name})" for one in hardware]
    return f"Thread {each}{strap.name} through {listed(passed)}{turned_back(op, speech)}."


def turned_back(op: Op, speech: Speech) -> str:
    """What is turned back: both ends, or the one that no seam holds."""
    if op.parts["turned"] is None:
        return ""
    free = [edge for edge in ends(op.parts["strap"]) if any(fate.op is op for fate in edge.fates)]
    which = "its free end" if len(free) == 1 else "each end"
    return f"; turn {which} back {speech.length(op.parts['turned'])} and stitch it down in a box"


def drawn(op: Op, speech: Speech) -> str:
    """A drawstring, told as it is threaded."""
    cord, chains = op.parts["cord"], op.parts["chains"]
    named = [chain for chain in chains if chain.name is not None]
    places = [f"the casing at {speech.edges(named)}"] if named else []
    places += [chain.panel.name for chain in chains if chain.name is None]
    places += [f"the {one.kind}s ({one.name})" for one in op.parts["hardware"]]
    many = getattr(cord, "facts", {}).get("count", cord.count if cord is op.parts["strap"] else 1) > 1
    kind = getattr(cord, "kind", "cord") if cord is not op.parts["strap"] else "drawstring"
    each = f"each {kind}, from opposite sides," if many else f"the {kind}"
    return f"With a bodkin thread {each} ({cord.name}) through {listed(places)}{ends_of(op, speech)}."


def ends_of(op: Op, speech: Speech) -> str:
    """What becomes of the ends of what was drawn in."""
    if op.parts["turned"] is not None:
        return f"; turn each end back {speech.length(op.parts['turned'])} and stitch it down"
    held = op.parts["cord"] is op.parts["strap"] and any(edge.fates for edge in ends(op.parts["strap"]))
    return {"elastic": ", and sew its ends together, lapped"}.get(
        op.parts["cord"].kind, "" if held else ", and knot the ends"
    )


def ends(strap: AnyThing) -> list[Edge]:
    """The edges at the two ends of a strip."""
    return [edge for _, edges in strap.find("ends") or () for edge in edges]


def cautions(op: Op) -> tuple[str, ...]:
    if op.parts["cord"] is not None:
        return ("cord",)
    return ("strap", "metal") if op.parts["turned"] is not None else ("strap",)
