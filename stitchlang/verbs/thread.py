"""Thread a strap through hardware and turn its end back.

    thread:     "thread" NAME "through" NAME _rest{_thread_clause}*
    _thread_clause: turned_back

`turned back` takes that much of each end, stitched down in a box.
"""

from ..speech import listed

STATION = "hand"
HARDWARE = ("ring", "slider", "hook")


def mean(node, bench):
    op = bench.op(node)
    strap = bench.thing(node.parts[0])
    words = [node.parts[1], *(item.parts[0] for item in node.listed())]
    hardware = [found for word in words if (found := bench.stuff(word, HARDWARE, "a ring, slider or hook"))]
    turned = bench.clause_length(node, "turned_back", "turned back")
    op.parts.update(strap=strap, hardware=hardware, turned=turned)
    for one in hardware:
        one.used_by.append(op)
    if strap is None:
        return
    bench.use(op, strap)
    if turned is not None and strap.find("ends"):
        for _, edges in strap.find("ends"):
            bench.fate(edges, "turned", turned, op)


def say(op, speech):
    strap, hardware = op.parts["strap"], op.parts["hardware"]
    if strap is None or not hardware:
        return ""
    ends = (
        f"; turn each end back {speech.length(op.parts['turned'])} and stitch it down in a box"
        if op.parts["turned"] is not None
        else ""
    )
    return f"Thread {strap.name} through the {listed(one.name for one in hardware)}{ends}."


def cautions(op):
    return ("strap", "metal") if op.parts["turned"] is not None else ("strap",)
