"""What a join makes: a flat assembly that grows, or a shell."""

from .things import OPPOSITE, SIDES, Flat, Shell, mirrored

FLAT_KINDS = ("piece", "zip", "strip", "flat")


def root(panel):
    """The flat assembly a panel has become a part of, or the panel itself."""
    if panel.kind == "flat":
        while panel.inside is not None and panel.inside.kind == "flat":
            panel = panel.inside
        return panel
    flat = getattr(panel, "flat", None)
    return panel if flat is None else root(flat)


def lies_flat(seams):
    """Whether these seams, made in one statement, leave the work flat.

    One seam, along one plain side of each panel, between two panels that were
    not joined before.
    """
    if len(seams) != 1 or len(seams[0].sides) < 2:
        return False
    first, second, *_ = seams[0].sides
    return all(chain.panel.kind in FLAT_KINDS and chain.name in SIDES for chain in (first, second)) and root(
        first.panel
    ) is not root(second.panel)


def towards(chain):
    """The side that a chain faces in the frame of its flat assembly."""
    panel = chain.panel
    if panel.kind == "flat" or root(panel) is panel:
        return chain.name
    return SIDES[(SIDES.index(chain.name) + root(panel).members.get(panel, 0)) % 4]


def sew_flat(seam, name, at, op):
    """Lay the second panel against the first and return the flat assembly, grown or new."""
    first, second, *layers = seam.sides
    mine, other = root(first.panel), root(second.panel)
    quarter = (SIDES.index(OPPOSITE[towards(first)]) - SIDES.index(towards(second))) % 4
    flat = mine if mine.kind == "flat" and name is None else Flat(name or first.panel.name, at, op)
    for part, turns in ((mine, 0), (other, quarter)):
        absorb(flat, part, turns)
    flat.seams.append(seam)
    flat.layers += [chain.panel for chain in layers]
    return flat


def absorb(flat, part, quarter):
    """Take a panel, or all that another assembly holds, into a flat assembly."""
    if part is flat:
        return
    if part.kind == "flat":
        for panel, turns in part.members.items():
            flat.members[panel] = (turns + quarter) % 4
            panel.flat = flat
        flat.seams += part.seams
        flat.layers += part.layers
    else:
        flat.members[part] = quarter
        part.flat = flat
    part.inside = flat


def closed_ring(seams):
    """The flat assembly, or the panel, of which one seam sews two opposite sides together: a tube; else None."""
    if len(seams) != 1 or len(seams[0].sides) < 2:
        return None
    first, second = seams[0].sides[:2]
    if not all(chain.panel.kind in FLAT_KINDS and chain.name in SIDES for chain in (first, second)):
        return None
    whole = root(first.panel)
    meets = whole is root(second.panel) and OPPOSITE[towards(first)] == towards(second)
    return whole if meets else None


def round_seam(seams):
    """(the panel, the gusset's chain) where one long edge is sewn round several edges of a panel; or None."""
    for seam in seams:
        for panel, long in (seam.sides[:2], seam.sides[1::-1]) if len(seam.sides) > 1 else ():
            tube = long.panel.kind == "shell"  # a tube stands on the panel, which is its base
            if len(long.links) == 1 and len(panel.links) > 1 and " + " in panel.name and not tube:
                return panel.panel, long
    return None


def free(edges):
    """The edges that no seam or fold has taken yet."""
    return [edge for edge in edges if not (edge.fate("seam") or edge.fate("folded"))]


def outermost(panel):
    """The shell that a panel has become a part of, or the panel itself."""
    while panel.inside is not None and panel.inside.kind == "shell":
        panel = panel.inside
    return panel


def sew_shell(seams, panels, name, at, op):
    """A shell of these panels, or of the shells they are part of; what the seams leave free stays open."""
    ring = closed_ring(seams)
    panels = [ring] if ring is not None else list(dict.fromkeys(outermost(panel) for panel in panels))
    shell = Shell(name or panels[0].name, at, op, panels)
    shell.seams = seams
    shell.open = open_sides(panels)
    if len(shell.open) > 1 and round_seam(seams) is not None:
        # A gusset's ends and the panels' tops are one mouth.
        shell.open = {"top": [edge for edges in shell.open.values() for edge in edges]}
    if any(getattr(panel, "overlap", None) is not None for panel in panels):
        shell.open.setdefault("overlap", [])  # it is turned through where its ends lie over one another
    for panel in panels:
        if panel.kind != "shell" or not shell.open:
            panel.sealed_by = panel.sealed_by or op
        panel.inside = shell
    return shell


def open_sides(panels):
    """Sides still free, by name; a second panel is seen mirrored, as it lies on the first."""
    found = {}
    for at, panel in enumerate(panels):
        sides = panel.open if panel.kind == "shell" else side_edges(panel)
        for name, edges in sides.items():
            seen = mirrored(name) if at and panel.kind != "shell" else name
            left = free(edges)
            if left:
                found.setdefault(seen, []).extend(left)
    return found


def side_edges(panel):
    """The sides of a panel that could stay open: its four, or a circle's one edge."""
    if panel.kind in ("piece", "zip", "strip"):
        return {edge.name: [edge] for edge in panel.edges if not edge.arm}
    return {name: panel.side(name) or [] for name in panel.side_names()}
