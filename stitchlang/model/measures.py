"""Finished measures: what a thing measures along its stitch lines, each with its sum."""

from fractions import Fraction

from ..ground.working import Working, total
from .joining import round_seam, towards
from .notches import MIRRORED
from .outline import stitched
from .shapes import to_the_point
from .things import OPPOSITE


def measures(thing):
    """Every finished measure of a thing: a dict of name to Working, worked out once."""
    if thing.known is None:
        return worked_out(thing)
    if "measures" not in thing.known:
        thing.known["measures"] = worked_out(thing)
    return dict(thing.known["measures"])


def worked_out(thing):
    """The measures of a thing of any kind."""
    if thing.kind == "shell":
        return with_roll(thing, shell_measures(thing))
    if thing.kind == "folded":
        return sheet_measures(thing.faces[0])
    return sheet_measures(thing)


def with_roll(shell, found):
    """A mouth that is rolled down: how tall the bag is then."""
    if shell.rolled is not None and "tall" in found:
        found["tall rolled"] = total("rolled down", (1, found["tall"]), (-1, shell.rolled))
    return found


def measure(thing, name):
    """One measure by the name a claim gives it, or None: `wide` is `wide at top` on a boxed bag."""
    found = measures(thing)
    for known in (name, f"{name} at top", {"long": "tall", "tall": "long"}.get(name)):
        if known in found:
            return found[known]
    return None


def along(panel, side):
    """The stitched length of a side, rounded corners run through: a Working, or None."""
    links = panel.side(side)
    if not links:
        return None
    runs = [run(link) for link in links]
    length = runs[0] if len(runs) == 1 else total(f"{panel.name}.{side}", *((1, one) for one in runs))
    return None if length.mm <= 0 and not length.terms else length


def run(edge):
    """An edge's stitched length; beside a rounded corner, as far as the corner's own tangents go."""
    before, after = edge.before, edge.after
    if not (of_corner(before) or of_corner(after)):
        return stitched(edge)
    while of_corner(before):
        before = before.before
    while of_corner(after):
        after = after.after
    size = edge.panel.width if edge.name in ("top", "bottom") else edge.panel.height
    return total(f"{edge.title} and its corners", (1, size), (-1, before.allowance()), (-1, after.allowance()))


def of_corner(edge):
    """Whether an edge is a rounded or clipped corner: a size runs past it, from side to side."""
    return edge.arc is not None or (edge.name in MIRRORED and not edge.arm)


def sheet_measures(panel):
    """A thing that lies flat."""
    round_edge = panel.side("edge")
    if round_edge:
        return circle_measures(round_edge[0])
    if getattr(panel, "point", None) is not None:
        return pointed_measures(panel)
    top, bottom, tall = along(panel, "top"), along(panel, "bottom"), along(panel, "left")
    found = {}
    if top is not None and bottom is not None and top.mm != bottom.mm:
        found.update({"wide at top": top, "wide at base": bottom})
    elif top is not None or bottom is not None:
        found["wide"] = top or bottom
    if tall is not None and getattr(panel, "shape", "") != "polygon" and not ends_in_hem(panel):
        found["long" if panel.long else "tall"] = upright(panel, tall)
    return found


def pointed_measures(panel):
    """A pointed piece reaches to its tip; across, its plain side tells."""
    side, _ = panel.point
    if side in ("top", "bottom"):
        return {"wide": along(panel, OPPOSITE[side]), "tall": to_the_point(panel, panel.height)}
    return {"tall": along(panel, OPPOSITE[side]), "wide": to_the_point(panel, panel.width)}


def ends_in_hem(panel):
    """Whether an end is caught by a hem: how much it gives up then depends on how it is turned, so nobody knows."""
    if not panel.long:
        return False
    ends = [edge for side in ("top", "bottom") for edge in panel.side(side) or ()]
    return any(fate.onto is not None and fate.onto.fate("hem") for edge in ends for fate in edge.all_fates())


def upright(panel, side):
    """The height of a tapered panel is not its slanted side but what top and bottom leave of its upright height."""
    edge = panel.side("left")[0]
    if getattr(edge.panel, "shape", "") != "tapered":
        return side
    if edge.losses or edge.notched:
        sine, _ = edge.corner_before
        return total(f"{panel.name} upright", (abs(sine), side))
    ends = [(-1, end.allowance()) for end in (edge.after, edge.before)]
    return total(f"{panel.name} upright", (1, edge.panel.height), *(end for end in ends if end[1].mm))


def circle_measures(edge):
    """Across and around, on the stitch line."""
    radius, _ = edge.arc
    across = total("across, on the stitch line", (2, radius), (-2, edge.allowance()))
    return {"across": across, "around": stitched(edge)}


def shell_measures(shell):
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


def with_base(shell, found):
    """A tube's measures, and those of the panel that closes it: across and around, or wide and deep."""
    for panel in shell.panels:
        if panel.kind != "piece":
            continue
        found.pop("wide", None)
        if panel.side("edge"):
            found.update(circle_measures(panel.side("edge")[0]))
        else:
            base = sheet_measures(panel)
            found.update({"wide": base["wide"], "deep": base["tall"]} if {"wide", "tall"} <= set(base) else {})
    return found


def gusset_measures(panel, chain):
    """The panel's width and height; the gusset's stitched width is the depth."""
    found = sheet_measures(panel)
    depth = along(chain.panel, "left" if chain.name in ("top", "bottom") else "top")
    if depth is not None:
        found["deep"] = depth
    return found


def shows(shells):
    """The shell that another was slipped into, or the first."""
    for shell in shells:
        outer = getattr(shell, "lines", None)
        if outer in shells:
            return outer
    return shells[0]


def tube_measures(panel, seam):
    """A panel, or a flat assembly, joined to itself: its girth, and how tall it is; lying, how long."""
    upright = towards(seam.sides[0]) in ("left", "right")
    found, around = {}, along(panel, "top" if upright else "left")
    tall = along(panel, "left" if upright else "top")
    if around is not None:
        found["around"] = around
        found["wide"] = total("lying flat, half the girth", (Fraction(1, 2), around))
    if tall is not None:
        found["tall" if upright else "long"] = tall
    return found


def boxed(shell, panel, found):
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


def split_width(panel, found):
    """A boxed bag is measured at the top and at the base."""
    if panel.kind == "shell":
        wide = found.pop("wide", None)
        if wide is not None:
            found.update({"wide at top": wide, "wide at base": wide})
    elif "wide" in found:
        found.pop("wide")
        found["wide at top"] = along(panel, "top") or along(panel, "bottom")
        base = along(panel, "bottom") or folded_base(panel)
        if base is not None:
            found["wide at base"] = base


def folded_base(panel):
    """The stitched length along a fold."""
    links = panel.side("bottom")
    return stitched(links[0]) if links else None


def boxing_depth(seam):
    """The depth: the boxing seam's stitched length."""
    depth = seam.sides[0].stitched()
    return Working(depth.mm, "deep: the boxing seam", depth.at, depth.terms, depth.exact)
