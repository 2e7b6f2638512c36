"""What a join makes: a flat assembly that grows, or a shell."""

from __future__ import annotations

from .things import OPPOSITE, SIDES, Flat, Shell, mirrored

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from ..ground.text import Span
    from .kinds import AnyThing
    from .outline import Edge
    from .recipe import Op
    from .seams import Chain, Seam

FLAT_KINDS = ("piece", "zip", "strip", "flat")


def root(panel: AnyThing) -> AnyThing:
    """The flat assembly a panel has become a part of, or the panel itself."""
    if panel.kind == "flat":
        while panel.inside is not None and panel.inside.kind == "flat":
            panel = panel.inside
        return panel
    flat = getattr(panel, "flat", None)
    return panel if flat is None else root(flat)


def lies_flat(seams: Sequence[Seam]) -> bool:
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


def towards(chain: Chain) -> str:
    """The side that a chain faces in the frame of its flat assembly."""
    panel, name = chain.panel, chain.name or ""  # no seam is sewn along the whole of a thing
    whole = root(panel)
    if whole.kind != "flat" or panel.kind not in ("piece", "zip", "strip"):
        return name
    return SIDES[(SIDES.index(name) + whole.members.get(panel, 0)) % 4]


def sew_flat(seam: Seam, name: str | None, at: Span, op: Op) -> Flat:
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


def absorb(flat: Flat, part: AnyThing, quarter: int) -> None:
    """Take a panel, or all that another assembly holds, into a flat assembly."""
    if part is flat:
        return
    if part.kind == "flat":
        for panel, turns in part.members.items():
            flat.members[panel] = (turns + quarter) % 4
            panel.flat = flat
        flat.seams += part.seams
        flat.layers += part.layers
    elif part.kind in ("piece", "zip", "strip"):
        flat.members[part] = quarter
        part.flat = flat
    part.inside = flat


def closed_ring(seams: Sequence[Seam]) -> AnyThing | None:
    """The flat assembly, or the panel, of which one seam sews two opposite sides together: a tube; else None."""
    if len(seams) != 1 or len(seams[0].sides) < 2:
        return None
    first, second = seams[0].sides[:2]
    if not all(chain.panel.kind in FLAT_KINDS and chain.name in SIDES for chain in (first, second)):
        return None
    whole = root(first.panel)
    meets = whole is root(second.panel) and OPPOSITE[towards(first)] == towards(second)
    return whole if meets else None


def round_seam(seams: Sequence[Seam]) -> tuple[AnyThing, Chain] | None:
    """(the panel, the gusset's chain) where one long edge is sewn round several edges of a panel; or None."""
    for seam in seams:
        for panel, long in (seam.sides[:2], seam.sides[1::-1]) if len(seam.sides) > 1 else ():
            tube = long.panel.kind == "shell"  # a tube stands on the panel, which is its base
            if len(long.links) == 1 and len(panel.links) > 1 and " + " in (panel.name or "") and not tube:
                return panel.panel, long
    return None


def free(edges: Iterable[Edge]) -> list[Edge]:
    """The edges that no seam or fold has taken yet."""
    return [edge for edge in edges if not (edge.fate("seam") or edge.fate("folded"))]


def outermost(panel: AnyThing) -> AnyThing:
    """The shell that a panel has become a part of, or the panel itself."""
    while panel.inside is not None and panel.inside.kind == "shell":
        panel = panel.inside
    return panel


def sew_shell(seams: list[Seam], panels: Iterable[AnyThing], name: str | None, at: Span, op: Op) -> Shell:
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


def open_sides(panels: Iterable[AnyThing]) -> dict[str, list[Edge]]:
    """Sides still free, by name; a second panel is seen mirrored, as it lies on the first."""
    found: dict[str, list[Edge]] = {}
    for at, panel in enumerate(panels):
        sides = panel.open if panel.kind == "shell" else side_edges(panel)
        for name, edges in sides.items():
            seen = mirrored(name) if at and panel.kind != "shell" else name
            left = free(edges)
            if left:
                found.setdefault(seen, []).extend(left)
    return found


def side_edges(panel: AnyThing) -> dict[str, list[Edge]]:
    """The sides of a panel that could stay open: its four, or a circle's one edge."""
    if panel.kind in ("piece", "zip", "strip"):
        return {edge.name: [edge] for edge in panel.edges if not edge.arm}
    return {name: panel.side(name) or [] for name in panel.side_names()}
