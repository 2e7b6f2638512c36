"""How a cutting list speaks: sizes, shapes, grain, areas, and what a stuff is."""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import MM, decimal, millimetres
from ..model.needs import by_length
from ..model.outline import stitched
from ..speech import listed

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..ground.lengths import Rational
    from ..model.needs import Cut
    from ..model.recipe import Stuff
    from ..model.things import Piece
    from ..speech import Speech

GRAIN = "lengthwise, up the piece"
UNKNOWN = "stuff unknown"


def name_of(stuff: Stuff | None) -> str:
    """The stuff's name, and what the writer calls it."""
    if stuff is None:
        return UNKNOWN
    return f"{stuff.name} ({stuff.called})" if stuff.called else stuff.name


def size(cut: Cut, speech: Speech) -> str:
    """`11 in x 12 1/2 in`, across by up, as the recipe writes it; a circle by its width."""
    if shape_of(cut) == "circle":
        return f"circle {speech.length(cut.wide)} across"
    return f"{speech.length(cut.wide)} x {speech.length(cut.tall)}"


def shape_of(cut: Cut) -> str:
    """The piece's shape; what is quilted and not one piece is taken for a rectangle."""
    return cut.piece.shape if cut.piece.kind == "piece" else "rectangle"


def grain(stuff: Stuff | None) -> str:
    """How the grain of what is cut from a stuff runs."""
    return "along its length" if stuff is not None and by_length(stuff) else GRAIN


BACKED = {
    "net": "clear of the seam allowances",
    "whole": "to the raw edges",
    "before cutting": "fused to the cloth first, then both cut as one",
    "quilted": "as large as the panel that is quilted",
    "quilted, trimmed": "as large as the quilted panel once trimmed: leave a margin",
}


def notes(cut: Cut, speech: Speech) -> list[str]:
    """What a rectangle's size does not say: a list of phrases."""
    piece = cut.piece
    found = [BACKED[cut.backing]] if cut.backing is not None else []
    if piece.kind != "piece":
        return found
    found += ["found whole, not cut"] if cut.found_whole else []
    if piece.shape == "polygon":
        found.append("a polygon: this is the box round it")
    if piece.shape == "tapered":
        edges = (links[0] for side in ("top", "bottom") if (links := piece.side(side)))
        top, bottom = (stitched(edge) if cut.net else edge.cut for edge in edges)
        found.append(f"tapered: {speech.length(top)} at the top, {speech.length(bottom)} at the bottom")
    if piece.point is not None:
        pointed, depth = piece.point
        found.append(f"{pointed} pointed {speech.length(depth)}")
    return found + corners(piece, cut.net, speech) + fold(piece, cut, speech)


def corners(piece: Piece, net: bool, speech: Speech) -> list[str]:
    """Rounded and clipped corners; interfacing's are rounded by what the allowance leaves."""
    rounded: dict[Fraction, list[str]] = {}
    clipped: list[str] = []
    for edge in piece.edges if piece.shape == "rectangle" else ():
        if edge.arc:
            radius = edge.arc[0].mm - (edge.allowance().mm if net else 0)
            if radius > 0:
                rounded.setdefault(radius, []).append(edge.name.replace("_", " "))
        elif "_" in edge.name and not edge.arm:
            clipped.append(edge.name.replace("_", " "))
    found = [f"{_corners(names)} rounded to {speech.length(radius)}" for radius, names in rounded.items()]
    return found + ([f"{_corners(clipped)} clipped"] if clipped else [])


def _corners(names: Sequence[str]) -> str:
    return f"{listed(sorted(names))} corner{'s' if len(names) > 1 else ''}"


def fold(piece: Piece, cut: Cut, speech: Speech) -> list[str]:
    """A piece drawn half: what is laid on the folded cloth."""
    side = piece.on_fold
    if side is None:
        return []
    level = side in ("left", "right")
    wide, tall = (cut.wide / 2, cut.tall) if level else (cut.wide, cut.tall / 2)
    return [f"on the fold at {side}: {speech.length(wide)} x {speech.length(tall)} on cloth folded in two"]


def described(stuff: Stuff, speech: Speech) -> str:
    """`metal, 8 in long, tape 1 1/4 in wide`: the facts of a stuff that is bought ready."""
    words = []
    for name, fact in stuff.facts.items():
        *before, dimension = name.split("_")
        if name == "thick":
            words.append(f"{millimetres(fact.mm)} thick")
        elif hasattr(fact, "mm"):
            words.append(" ".join([*before, speech.length(fact), dimension]))
        elif name == "kind":
            words.append(fact)
        elif name == "rolled":
            words.append("off the roll")
    return ", ".join(words)


def area(square_mm: Rational, unit: str) -> str:
    """`about 0.55 m2`, and in square yards where inches are used; a hundredth begun counts as one."""
    metric = f"{_up(Fraction(square_mm, 10**6), 2)} m2"
    return f"{_up(square_mm / MM['yd'] ** 2, 2)} yd2 or {metric}" if unit in ("in", "both") else metric


def long_length(mm: Rational, unit: str) -> str:
    """A length off a roll or a spool, a yard or a metre begun counting as one."""
    metric = f"{_up(Fraction(mm, 1000), 0)} m"
    return f"{_up(mm / MM['yd'], 0)} yd ({metric})" if unit in ("in", "both") else metric


def _up(number: Fraction, places: int) -> str:
    """Rounded up: nobody buys too little."""
    steps = -((-number * 10**places) // 1)
    return decimal(Fraction(steps, 10**places), places)
