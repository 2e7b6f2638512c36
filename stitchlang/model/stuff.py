"""What of a recipe's stuff the tables are asked about: its heaviest cloth, its thread, what is coated."""

from __future__ import annotations

from ..ground.units import per_square_metre

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from fractions import Fraction

    from .recipe import Recipe, Stuff


def heaviest(recipe: Recipe) -> tuple[Stuff, Fraction] | tuple[None, None]:
    """(cloth, g/m2) of the heaviest cloth that pieces are cut from, or (None, None) where no mass is stated."""
    cloths = {piece.stuff for piece in recipe.pieces if piece.stuff is not None and piece.stuff.kind == "cloth"}
    known = [(stuff, per_square_metre(stuff.facts["mass"])) for stuff in cloths if "mass" in stuff.facts]
    return max(known, key=lambda one: (one[1], one[0].name), default=(None, None))


def reels(recipe: Recipe) -> list[Stuff]:
    """The reels whose thread has its size stated."""
    return [stuff for stuff in recipe.stuff.values() if stuff.kind == "reel" and "tex" in stuff.facts]


def coated(recipe: Recipe) -> Stuff | None:
    """The first coated stuff that pieces are cut from, or None."""
    stuffs = (piece.stuff for piece in recipe.pieces)
    return next((stuff for stuff in stuffs if stuff is not None and stuff.facts.get("coated")), None)
