"""How thick the cloth under a row of stitching is, where every ply's thickness is stated.

What is basted in, hems that a seam takes in and crossings of seams are left out.
"""

from ..bench import DEEPEST


def ply(panel):
    """What a panel is thick, the layers it was folded into counted: mm, or None where that is not stated."""
    layers = 1
    for _ in range(DEEPEST):
        panel = getattr(panel, "whole", panel)  # of one face of a folded piece
        layers *= getattr(panel, "parts", 1)  # of a strip
        inner = getattr(panel, "source", None) or next(iter(getattr(panel, "members", ())), None)
        if inner is None:
            break
        panel = inner
    thick = panel.stuff.facts.get("thick") if panel.stuff is not None else None
    return thick.mm * layers if thick is not None else None


def together(*thicknesses):
    """Thicknesses on one another; None where there is none, or one is not known."""
    return None if None in thicknesses or not thicknesses else sum(thicknesses)


def through(panels):
    """The thickness of panels on one another."""
    return together(*(ply(panel) for panel in panels))


def layers_of(thing):
    """The panels that lie on one another in a thing: of a pocket sewn and turned, both sides."""
    return thing.panels if thing.kind == "shell" else [thing, thing] if thing.kind == "folded" else [thing]


def seam_panels(seam):
    """The panels that a seam takes in."""
    return [chain.links[0].panel for chain in seam.sides if chain.links]


def beside(chain):
    """The panels and allowances under a row beside an edge: beside its seam, its hem, or its fold."""
    link = chain.links[0]
    seam = seam_of(link)
    if seam is not None:
        # Turned out, both sides lie there with the allowances between them; flat, they are pressed to this side.
        enclosed = chain.panel.kind == "shell"
        return seam_panels(seam) * 2 if enclosed else [link.panel, *seam_panels(seam)]
    hem, turned = link.fate("hem"), link.fate("turned")
    folds = len(hem.op.parts.get("turns", ())) if hem is not None else 0
    return [link.panel] * (1 + (folds or (turned is not None)))


def seam_of(link):
    """The seam that an edge lies in, or None."""
    fate = link.fate("seam")
    seams = fate.op.parts.get("seams") or () if fate is not None and fate.op is not None else ()
    return next((seam for seam in seams for side in seam.sides if link in side.links), None)
