"""How thick the cloth under a row of stitching is along most of its way, where every ply's thickness is stated.

Interfacing, what is basted in, hems that a seam takes in and crossings of seams are left out: they thicken a place,
not the row.  `model.bulk` has the worst places.
"""

from __future__ import annotations

from ..model.layers import Sheets, cloth, thickness
from ..model.recipe import Stuff

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from fractions import Fraction

    from ..ground.lengths import Rational
    from ..model.kinds import AnyThing, Binding
    from ..model.outline import Edge
    from ..model.recipe import Recipe
    from ..model.seams import Chain, Seam


class Plies:
    """The thickness of things on one another."""

    def __init__(self, recipe: Recipe) -> None:
        self.sheets = Sheets(recipe)

    def through(self, *things: AnyThing | None) -> Fraction | None:
        """Millimetres through all of these; None where there is none, or a thickness is not stated."""
        known = [thing for thing in things if thing is not None]
        if len(known) < len(things):
            return None
        found = thickness([layer for thing in known for layer in cloth(self.sheets.of(thing))])
        return found.mm if found is not None else None

    def of_binding(self, binding: Binding) -> Fraction | None:
        """What a binding is thick: a stuff that is bought, or a strip."""
        if isinstance(binding, Stuff):
            thick = binding.facts.get("thick")
            return thick.mm if thick is not None else None
        return self.through(binding)


def together(*thicknesses: Rational | None) -> Rational | None:
    """Thicknesses on one another; None where one is not known."""
    known = [one for one in thicknesses if one is not None]
    return sum(known) if len(known) == len(thicknesses) else None


def seam_panels(seam: Seam) -> list[AnyThing]:
    """The panels that a seam takes in."""
    return [chain.links[0].panel for chain in seam.sides if chain.links]


def beside(chain: Chain) -> list[AnyThing]:
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


def seam_of(link: Edge) -> Seam | None:
    """The seam that an edge lies in, or None."""
    fate = link.fate("seam")
    seams = fate.op.parts.get("seams") or () if fate is not None and fate.op is not None else ()
    return next((seam for seam in seams for side in seam.sides if link in side.links), None)
