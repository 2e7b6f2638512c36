"""What is drawn of a piece or a flat assembly: lines in millimetres, what lies on it, what becomes of its edges."""

from fractions import Fraction
from math import dist

from attrs import field, frozen

from ..ground.working import NOTHING
from ..model.measures import measure
from ..model.outline import cut_length, stitched
from ..model.placing import box_on
from ..model.things import cut_size
from ..rules.placing import pockets
from .laid import Laid, laid_flat, laid_piece
from .shape import box, half

# What becomes of an edge, where the model's word says too little.
FATES = {
    "turned": "turned under",
    "caught": "caught in a seam",
    "sewn": "stitched down",
    "found": "finished as found",
    "folded": "folded",
}


@frozen
class Placed:
    """A rectangle on a panel, from its top left corner: a pocket, or an opening.

    `rows` are stitched from its bottom to its top, that far from its left.  `spot` tells what the recipe says of it.
    """

    name: str
    left: float
    top: float
    wide: float
    tall: float
    spot: object
    size: tuple = ()
    rows: tuple = field(default=(), converter=tuple)
    opening: bool = False


@frozen
class Mark:
    """A place where something is set: its middle, and how far it reaches across (None where that is not stated)."""

    name: str
    left: float
    top: float
    across: object
    spot: object


@frozen
class EdgeRow:
    """An edge as the table under a drawing tells it: the run it belongs to, its fates, its lengths (Workings)."""

    run: object
    name: str
    fate: str
    allowance: object
    cut: object
    stitched: object


@frozen
class Sketch:
    """One drawing.  `wide` and `tall` are Workings as cut, `folds` (point, point), `later` runs cut later on."""

    name: str
    kind: str
    panel: object
    laid: tuple = field(converter=tuple)
    box: tuple
    wide: object
    tall: object
    edges: tuple = field(default=(), converter=tuple)
    folds: tuple = field(default=(), converter=tuple)
    placed: tuple = field(default=(), converter=tuple)
    marks: tuple = field(default=(), converter=tuple)
    later: tuple = field(default=(), converter=tuple)
    notes: tuple = field(default=(), converter=tuple)


def as_drawn(sketch):
    """(what is laid down, the fold): a piece cut on the fold is drawn as half, unless something lies on the whole."""
    side = getattr(sketch.panel, "on_fold", None)
    if sketch.kind != "piece" or not side or sketch.placed or sketch.marks or sketch.later:
        return list(sketch.laid), None
    (laid,) = sketch.laid
    cut, fold = half(laid.cut, side)
    stitch = half(laid.stitch, side)[0] if laid.stitch else None
    return [Laid(laid.name, cut, stitch, None, laid.glued, laid.trouble)], fold


def sketches(recipe):
    """A Sketch for each piece, then for each flat assembly."""
    named = [thing for thing in recipe.made if thing.kind == "flat"]
    return [
        *(piece_sketch(piece, recipe) for piece in recipe.pieces if piece.edges),
        *(flat_sketch(flat, recipe) for flat in dict.fromkeys(named) if flat.members),
    ]


def piece_sketch(piece, recipe):
    """A piece as it is cut, and what is done to it while it lies flat."""
    laid, later = laid_piece(piece, recipe)
    return sketch(piece, "piece", [laid], recipe, laid, wide=piece.width, tall=piece.height, later=later)


def flat_sketch(flat, recipe):
    """A flat assembly, right side up: cut edges outside, seams inside."""
    laid = laid_flat(flat)
    whole = Laid(flat.name, [run for one in laid for run in one.cut], None)
    layers = dict.fromkeys(panel.name for panel in flat.layers)
    beneath = [f"beneath, in the seams: {', '.join(layers)}"] if layers else []
    size = {"wide": cut_size(flat, "top") or cut_size(flat, "bottom"), "tall": cut_size(flat, "left")}
    return sketch(flat, "assembly", laid, recipe, whole, notes=beneath, **size)


def sketch(panel, kind, laid, recipe, whole, wide, tall, later=(), notes=()):
    """Gather what lies on a panel, measured from the box of its outline once trimmed."""
    at = box(whole.cut)
    return Sketch(
        panel.name,
        kind,
        panel,
        laid,
        box([run for one in laid for run in (*one.cut, *(one.raw or ()))]),
        wide,
        tall,
        edges=[row(run, one, kind != "piece") for one in laid for run in one.cut if run.edge not in one.glued],
        folds=list(folds(panel, recipe, at)),
        placed=[*placed_on(panel, recipe, at), *openings_in(panel, at)],
        marks=list(marks_on(panel, recipe, at)),
        later=later,
        notes=[*notes, *(one.trouble for one in laid if one.trouble)],
    )


def row(run, laid, of_many):
    """What the table says of an edge; one that was folded in two answers for its halves."""
    edge = run.edge
    told = edge if edge.all_fates() or not edge.halves else edge.halves[0]
    kinds = dict.fromkeys(FATES.get(fate.kind, fate.kind) for fate in told.all_fates())
    side = edge.panel.shown.get(edge.name, edge.name).replace("_", " ")
    name = f"{edge.panel.name}: {side}" if of_many else side
    unsaid = "as bought" if edge.panel.woven else "nothing said"
    return EdgeRow(run, name, ", ".join(kinds) or unsaid, told.allowance(), cut_length(edge), sewn_length(run, laid))


def sewn_length(run, laid):
    """An edge's stitched length; that of its row as drawn where it, or a neighbour, was folded in two."""
    edge = run.edge
    if laid.stitch and (edge.halves or edge.before.halves or edge.after.halves) and not edge.taken_up:
        drawn = next((row for row in laid.stitch if row.edge is edge), None)
        if drawn is not None and not drawn.arc:
            return Fraction(dist(drawn.start, drawn.end)).limit_denominator(10**6)
    return stitched(edge)


def folds(panel, recipe, at):
    """The lines that a panel is folded along: in half, or in equal parts across."""
    left, top, right, bottom = at
    for thing in recipe.made:
        if getattr(thing, "source", None) is not panel or hasattr(thing, "overlap") or hasattr(thing, "cord"):
            continue
        if thing.kind == "folded" and thing.fold in ("top", "bottom"):
            yield (left, (top + bottom) / 2), (right, (top + bottom) / 2)
        else:
            parts = getattr(thing, "parts", 2)
            for number in range(1, parts):
                across = left + (right - left) * number / parts
                yield (across, top), (across, bottom)


def corner_of(found, at):
    """(left, top) on the page of a rectangle that `box_on` measured from the lower left of the panel's box."""
    return at[0] + float(found.left.mm), at[3] - float(found.top.mm)


def placed_on(panel, recipe, at):
    """What `place` sews onto a panel, with the rows that divide it."""
    for op, on, found in pockets(recipe):
        item = op.parts["item"]
        if on is panel:
            size = measure(item, "wide"), measure(item, "tall")
            wide, tall = (float(one.mm) for one in size)
            left, top = corner_of(found, at)
            if reaches_both_seams(item, op.parts["spot"]):
                left = (at[0] + at[2] - wide) / 2
            yield Placed(item.name, left, top, wide, tall, op.parts["spot"], size, list(rows_in(item, recipe, wide)))


def reaches_both_seams(item, spot):
    """Whether what is placed runs from one side seam of its panel to the other, caught in both."""
    sides = [edge for side in ("left", "right") for edge in item.side(side) or ()]
    return not {"left", "right"} & set(spot.offsets) and bool(sides) and all(edge.fate("caught") for edge in sides)


def rows_in(item, recipe, wide):
    """How far from a pocket's left its rows of stitching lie."""
    for op in recipe.ops:
        if op.verb == "divide" and op.parts["pocket"] is item:
            parts = op.parts["into"] or 1
            yield from (wide * number / parts for number in range(1, parts))
            for side, length in op.parts["rows"]:
                yield float(length.mm) if side == "left" else wide - float(length.mm)


def openings_in(panel, at):
    """The openings slit into a panel."""
    for op in getattr(panel, "slits", ()):
        size = op.parts["size"]
        found = box_on(panel, op.parts["spot"], *size) if size is not None else None
        if found is not None:
            wide, tall = (float(one.mm) for one in size)
            name = op.parts["zip"].name if op.parts["zip"] is not None else "opening"
            yield Placed(name, *corner_of(found, at), wide, tall, op.parts["spot"], size, opening=True)


def marks_on(panel, recipe, at):
    """Where snaps, rivets, eyelets and the like are set."""
    for op in recipe.ops:
        snap = op.parts.get("snap") if op.verb == "set" else None
        if snap is None or panel not in op.parts["panels"]:
            continue
        found = box_on(panel, op.parts["spot"], NOTHING, NOTHING)
        if found is None:
            continue
        left, top = corner_of(found, at)
        across = snap.facts.get("across")
        yield Mark(snap.name, left, top, across, op.parts["spot"])
        if op.parts["mirrored"]:
            yield Mark(snap.name, at[0] + at[2] - left, top, across, op.parts["spot"])
