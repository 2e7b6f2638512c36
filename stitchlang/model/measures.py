"""Finished measures: what a thing measures along its stitch lines, each with its sum."""

from __future__ import annotations

from fractions import Fraction

from ..ground.working import NOTHING, Working, total
from .joining import round_seam, towards
from .outline import stitched
from .shapes import to_the_point
from .things import MIRRORED, OPPOSITE

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from .kinds import AnyThing
    from .outline import Edge
    from .seams import Chain, Seam
    from .things import Piece, Shell

    Measures = dict[str, Working]


def measures(thing: AnyThing) -> Measures:
    """Every finished measure of a thing: a dict of name to Working, worked out once."""
    if thing.known is None:
        return worked_out(thing)
    if "measures" not in thing.known:
        thing.known["measures"] = worked_out(thing)
    return dict(thing.known["measures"])


def worked_out(thing: AnyThing) -> Measures:
    """The measures of a thing of any kind."""
    if thing.kind == "shell":
        return with_fold(thing, with_roll(thing, shell_measures(thing)))
    if thing.kind == "folded":
        return sheet_measures(thing.faces[0])
    return sheet_measures(thing)


def with_roll(shell: Shell, found: Measures) -> Measures:
    """A mouth that is rolled down: how tall the bag is then."""
    if shell.rolled is not None and "tall" in found:
        found["tall rolled"] = total("rolled down", (1, found["tall"]), (-1, shell.rolled))
    return found


def with_fold(shell: Shell, found: Measures) -> Measures:
    """A bottom that is folded up: how tall the front and the back are then, and the flap that is left."""
    if shell.folded_up is not None and "tall" in found:
        found["tall folded"] = total("folded up", (1, shell.folded_up))
        found["tall at flap"] = total("left for the flap", (1, found["tall"]), (-2, shell.folded_up))
    return found


def measure(thing: AnyThing, name: str) -> Working | None:
    """One measure by the name a claim gives it, or None: `wide` is `wide at top` on a boxed bag."""
    found = measures(thing)
    for known in (name, f"{name} at top", {"long": "tall", "tall": "long"}.get(name)):
        if known in found:
            return found[known]
    return None


def along(panel: AnyThing, side: str) -> Working | None:
    """The stitched length of a side, rounded corners run through: a Working, or None."""
    links = panel.side(side)
    if not links:
        return None
    runs = [run(link) for link in links]
    return runs[0] if len(runs) == 1 else total(f"{panel.name}.{side}", *((1, one) for one in runs))


def run(edge: Edge) -> Working:
    """An edge's stitched length; beside a rounded corner, as far as the corner's own tangents go."""
    before, after, panel = edge.before, edge.after, edge.panel
    if panel.kind != "piece" or not (of_corner(before) or of_corner(after)):
        return stitched(edge)
    while of_corner(before):
        before = before.before
    while of_corner(after):
        after = after.after
    size = panel.width if edge.name in ("top", "bottom") else panel.height
    return total(f"{edge.title} and its corners", (1, size), (-1, before.allowance()), (-1, after.allowance()))


def of_corner(edge: Edge) -> bool:
    """Whether an edge is a rounded or clipped corner: a size runs past it, from side to side."""
    return edge.arc is not None or (edge.name in MIRRORED and not edge.arm)


def sheet_measures(panel: AnyThing) -> Measures:
    """A thing that lies flat."""
    circle = circle_of(panel)
    if circle is not None:
        return circle_measures(*circle)
    if panel.kind == "piece" and panel.point is not None:
        return pointed_measures(panel, panel.point[0])
    top, bottom, tall = along(panel, "top"), along(panel, "bottom"), along(panel, "left")
    found: Measures = {}
    if top is not None and bottom is not None and top.mm != bottom.mm:
        found.update({"wide at top": top, "wide at base": bottom})
    elif (wide := top or bottom) is not None:
        found["wide"] = wide
    if tall is not None and getattr(panel, "shape", "") != "polygon" and not ends_in_hem(panel):
        found["long" if panel.long else "tall"] = upright(panel, tall)
    return found


def pointed_measures(panel: Piece, side: str) -> Measures:
    """A pointed piece reaches to its tip; across, its plain side tells."""
    plain = along(panel, OPPOSITE[side]) or NOTHING
    if side in ("top", "bottom"):
        return {"wide": plain, "tall": to_the_point(panel, side, panel.height)}
    return {"tall": plain, "wide": to_the_point(panel, side, panel.width)}


def ends_in_hem(panel: AnyThing) -> bool:
    """Whether an end is caught by a hem: how much it gives up then depends on how it is turned, so nobody knows."""
    if not panel.long:
        return False
    ends = [edge for side in ("top", "bottom") for edge in panel.side(side) or ()]
    return any(fate.onto is not None and fate.onto.fate("hem") for edge in ends for fate in edge.all_fates())


def upright(panel: AnyThing, side: Working) -> Working:
    """The height of a tapered panel is not its slanted side but what top and bottom leave of its upright height."""
    edge = next(iter(panel.side("left") or ()), None)
    if edge is None or edge.panel.kind != "piece" or edge.panel.shape != "tapered":
        return side
    if edge.corner_before is not None and (edge.losses or edge.notched):
        return total(f"{panel.name} upright", (abs(edge.corner_before[0]), side))
    ends = [(-1, end.allowance()) for end in (edge.after, edge.before)]
    return total(f"{panel.name} upright", (1, edge.panel.height), *(end for end in ends if end[1].mm))


def circle_of(panel: AnyThing) -> tuple[Edge, Working] | None:
    """The edge and the radius of a circle, or None; a side of a polygon may be called `edge` too, and is straight."""
    edge = next(iter(panel.side("edge") or ()), None)
    return (edge, edge.arc[0]) if edge is not None and edge.arc is not None else None


def circle_measures(edge: Edge, radius: Working) -> Measures:
    """Across and around, on the stitch line."""
    across = total("across, on the stitch line", (2, radius), (-2, edge.allowance()))
    return {"across": across, "around": stitched(edge)}


def shell_measures(shell: Shell) -> Measures:
    """A bag, pouch or tube; of two shells joined, the one that shows."""
    gusset = round_seam(shell.seams)
    if gusset is not None:
        return gusset_measures(*gusset)
    shells = [panel for panel in shell.panels if panel.kind == "shell"]
    if len(shells) > 1:
        return shell_measures(shows(shells))
    if shells:
        return boxed(shell, shells[0], with_base(shell, shell_measures(shells[0])))
    panel = shell.panels[0]
    if panel.kind == "folded":
        return boxed(shell, panel.faces[0], sheet_measures(panel.faces[0]))
    if len(shell.panels) == 1:
        return sheet_measures(panel) if panel.kind == "strip" else tube_measures(panel, shell.seams[0])
    return boxed(shell, panel, sheet_measures(panel))


def with_base(shell: Shell, found: Measures) -> Measures:
    """A tube's measures, and those of the panel that closes it: across and around, or wide and deep."""
    for panel in shell.panels:
        if panel.kind != "piece":
            continue
        found.pop("wide", None)
        circle = circle_of(panel)
        if circle is not None:
            found.update(circle_measures(*circle))
        else:
            base = sheet_measures(panel)
            found.update({"wide": base["wide"], "deep": base["tall"]} if {"wide", "tall"} <= set(base) else {})
    return found


def gusset_measures(panel: AnyThing, chain: Chain) -> Measures:
    """The panel's width and height; the gusset's stitched width is the depth."""
    found = sheet_measures(panel)
    depth = along(chain.panel, "left" if chain.name in ("top", "bottom") else "top")
    if depth is not None:
        found["deep"] = depth
    return found


def shows(shells: Sequence[Shell]) -> Shell:
    """The shell that another was slipped into, or the first."""
    for shell in shells:
        outer: Shell | None = getattr(shell, "lines", None)
        if outer is not None and outer in shells:
            return outer
    return shells[0]


def tube_measures(panel: AnyThing, seam: Seam) -> Measures:
    """A panel, or a flat assembly, joined to itself: its girth, and how tall it is; lying, how long."""
    upright = towards(seam.sides[0]) in ("left", "right")
    found: Measures = {}
    around = along(panel, "top" if upright else "left")
    tall = along(panel, "left" if upright else "top")
    if around is not None:
        found["around"] = around
        found["wide"] = total("lying flat, half the girth", (Fraction(1, 2), around))
    if tall is not None:
        found["tall" if upright else "long"] = tall
    return found


def boxed(shell: Shell, panel: AnyThing, found: Measures) -> Measures:
    """Take the boxing into account: depth, height, and the base."""
    if shell.boxings:
        found["deep"] = boxing_depth(shell.boxings[0])
        split_width(panel, found)
    elif shell.pinch is not None:
        depth = shell.pinch
        found["deep"] = depth
        split_width(panel, found)
        if "tall" in found:
            found["tall"] = total("standing height", (1, found["tall"]), (Fraction(-1, 2), depth))
        if "wide at base" in found:
            found["wide at base"] = total("wide at base", (1, found["wide at base"]), (-1, depth))
    return found


def split_width(panel: AnyThing, found: Measures) -> None:
    """A boxed bag is measured at the top and at the base."""
    if panel.kind == "shell":
        wide = found.pop("wide", None)
        if wide is not None:
            found.update({"wide at top": wide, "wide at base": wide})
    elif "wide" in found:
        wide = found.pop("wide")
        found["wide at top"] = along(panel, "top") or along(panel, "bottom") or wide
        base = along(panel, "bottom") or folded_base(panel)
        if base is not None:
            found["wide at base"] = base


def folded_base(panel: AnyThing) -> Working | None:
    """The stitched length along a fold."""
    links = panel.side("bottom")
    return stitched(links[0]) if links else None


def boxing_depth(seam: Seam) -> Working:
    """The depth: the boxing seam's stitched length."""
    depth = seam.sides[0].stitched()
    return Working(depth.mm, "deep: the boxing seam", depth.at, depth.terms, depth.exact)
