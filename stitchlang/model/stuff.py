"""What of a recipe's stuff the tables are asked about: its heaviest cloth, its thread, what is coated."""

from ..ground.units import per_square_metre


def heaviest(recipe):
    """(cloth, g/m2) of the heaviest cloth that pieces are cut from, or (None, None) where no mass is stated."""
    cloths = {piece.stuff for piece in recipe.pieces if piece.stuff is not None and piece.stuff.kind == "cloth"}
    known = [(stuff, per_square_metre(stuff.facts["mass"])) for stuff in cloths if "mass" in stuff.facts]
    return max(known, key=lambda one: (one[1], one[0].name), default=(None, None))


def reels(recipe):
    """The reels whose thread has its size stated."""
    return [stuff for stuff in recipe.stuff.values() if stuff.kind == "reel" and "tex" in stuff.facts]


def coated(recipe):
    """The first coated stuff that pieces are cut from, or None."""
    stuffs = (piece.stuff for piece in recipe.pieces)
    return next((stuff for stuff in stuffs if stuff is not None and stuff.facts.get("coated")), None)
