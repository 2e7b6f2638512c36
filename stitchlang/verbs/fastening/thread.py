"""Thread a strap through hardware and turn its ends back, or a cord through its casing.

    thread:     "thread" NAME "through" edge _rest{_thread_clause}*
    _thread_clause: turned_back

`turned back` takes that much of each end, stitched down in a box.  A cord goes through hems, channels and eyelets.
"""

from ...bench import DRAWN
from ...speech import listed

STATION = "hand"
HARDWARE = ("ring", "slider", "hook", "eyelet")


def mean(node, bench):
    op = bench.op(node)
    cord = bench.recipe.stuff.get(node.parts[0].text)
    cord = cord if cord is not None and cord.kind in DRAWN else None
    strap = bench.thing(node.parts[0]) if cord is None else None
    hardware, chains = passages(node.listed(), bench, cord is not None)
    turned = bench.clause_length(node, "turned_back", "turned back")
    op.parts.update(strap=strap, cord=cord, hardware=hardware, chains=chains, turned=turned)
    for one in (*hardware, *([cord] if cord is not None else ())):
        one.used_by.append(op)
    for chain in chains:
        bench.use(op, chain.panel)
    if strap is None:
        return
    bench.use(op, strap)
    if turned is not None and strap.find("ends"):
        for _, edges in strap.find("ends"):
            bench.fate(edges, "turned", turned, op)


def passages(items, bench, cord):
    """What a thing is threaded through: hardware, named alone, and the edges of things that have a casing."""
    hardware, edges = [], []
    for item in items:
        token = item.parts[0]
        if len(item.parts) == 1 and (token.text in bench.recipe.stuff or not cord):
            found = bench.stuff(token, HARDWARE, "a ring, slider, hook or eyelet")
            hardware += [found] if found is not None else []
        else:
            edges.append(item)
    return hardware, bench.chains(edges)


def say(op, speech):
    strap, hardware = op.parts["strap"], op.parts["hardware"]
    if op.parts["cord"] is not None:
        return drawn(op, speech)
    if strap is None or not hardware:
        return ""
    ends = (
        f"; turn each end back {speech.length(op.parts['turned'])} and stitch it down in a box"
        if op.parts["turned"] is not None
        else ""
    )
    return f"Thread {strap.name} through the {listed(one.name for one in hardware)}{ends}."


def drawn(op, speech):
    """A drawstring, told as it is threaded."""
    cord, chains = op.parts["cord"], op.parts["chains"]
    places = [f"the casing at {speech.edges(chains)}"] if chains else []
    places += [f"the {one.kind}s ({one.name})" for one in op.parts["hardware"]]
    each = "each cord, from opposite sides," if cord.facts.get("count", 1) > 1 else "the cord"
    return f"With a bodkin thread {each} ({cord.name}) through {listed(places)}, and knot the ends."


def cautions(op):
    if op.parts["cord"] is not None:
        return ("cord",)
    return ("strap", "metal") if op.parts["turned"] is not None else ("strap",)
