"""How a cutting list speaks: sizes, shapes, grain, areas, and what a stuff is."""

from ..ground.lengths import MM, decimal, millimetres
from ..model.needs import by_length
from ..model.outline import stitched
from ..speech import listed

GRAIN = "lengthwise, up the piece"
UNKNOWN = "stuff unknown"


def name_of(stuff):
    """The stuff's name, and what the writer calls it."""
    if stuff is None:
        return UNKNOWN
    return f"{stuff.name} ({stuff.called})" if stuff.called else stuff.name


def size(cut, speech):
    """`11 in x 12 1/2 in`, across by up, as the recipe writes it; a circle by its width."""
    if shape_of(cut) == "circle":
        return f"circle {speech.length(cut.wide)} across"
    return f"{speech.length(cut.wide)} x {speech.length(cut.tall)}"


def shape_of(cut):
    """The piece's shape; what is quilted and not one piece is taken for a rectangle."""
    return getattr(cut.piece, "shape", "rectangle")


def grain(stuff):
    """How the grain of what is cut from a stuff runs."""
    return "along its length" if stuff is not None and by_length(stuff) else GRAIN


BACKED = {
    "net": "clear of the seam allowances",
    "whole": "to the raw edges",
    "before cutting": "fused to the cloth first, then both cut as one",
    "quilted": "as large as the panel that is quilted",
    "quilted, trimmed": "as large as the quilted panel once trimmed: leave a margin",
}


def notes(cut, speech):
    """What a rectangle's size does not say: a list of phrases."""
    piece = cut.piece
    found = [BACKED[cut.backing]] if cut.backing is not None else []
    if piece.kind != "piece":
        return found
    found += ["found whole, not cut"] if cut.found_whole else []
    if piece.shape == "polygon":
        found.append("a polygon: this is the box round it")
    if piece.shape == "tapered":
        top, bottom = (
            stitched(edge) if cut.net else edge.cut for edge in (piece.side("top")[0], piece.side("bottom")[0])
        )
        found.append(f"tapered: {speech.length(top)} at the top, {speech.length(bottom)} at the bottom")
    if piece.point is not None:
        side, depth = piece.point
        found.append(f"{side} pointed {speech.length(depth)}")
    return found + corners(cut, speech) + fold(cut, speech)


def corners(cut, speech):
    """Rounded and clipped corners; interfacing's are rounded by what the allowance leaves."""
    rounded, clipped = {}, []
    for edge in cut.piece.edges if cut.piece.shape == "rectangle" else ():
        if edge.arc:
            radius = edge.arc[0].mm - (edge.allowance().mm if cut.net else 0)
            rounded.setdefault(max(radius, 0), []).append(edge.name.replace("_", " "))
        elif "_" in edge.name and not edge.arm:
            clipped.append(edge.name.replace("_", " "))
    found = [f"{_corners(names)} rounded to {speech.length(radius)}" for radius, names in rounded.items() if radius]
    return found + ([f"{_corners(clipped)} clipped"] if clipped else [])


def _corners(names):
    return f"{listed(sorted(names))} corner{'s' if len(names) > 1 else ''}"


def fold(cut, speech):
    """A piece drawn half: what is laid on the folded cloth."""
    side = cut.piece.on_fold
    if side is None:
        return []
    level = side in ("left", "right")
    wide, tall = (cut.wide / 2, cut.tall) if level else (cut.wide, cut.tall / 2)
    return [f"on the fold at {side}: {speech.length(wide)} x {speech.length(tall)} on cloth folded in two"]


def described(stuff, speech):
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


def area(square_mm, unit):
    """`about 0.55 m2`, and in square yards where inches are used; a hundredth begun counts as one."""
    metric = f"{_up(square_mm / 10**6, 2)} m2"
    return f"{_up(square_mm / MM['yd'] ** 2, 2)} yd2 or {metric}" if unit in ("in", "both") else metric


def long_length(mm, unit):
    """A length off a roll or a spool, a yard or a metre begun counting as one."""
    metric = f"{_up(mm / 1000, 0)} m"
    return f"{_up(mm / MM['yd'], 0)} yd ({metric})" if unit in ("in", "both") else metric


def _up(number, places):
    """Rounded up: nobody buys too little."""
    steps = -((-number * 10**places) // 1)
    return decimal(steps / 10**places, places) if places else str(int(steps))
