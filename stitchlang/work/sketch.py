"""What is drawn of a piece or a flat assembly: lines in millimetres, what lies on it, what becomes of its edges."""

from __future__ import annotations

from fractions import Fraction
from math import dist

from attrs import frozen

from ..ground.working import NOTHING
from ..model.measures import measure
from ..model.outline import cut_length, stitched
from ..model.placing import box_on
from ..model.things import cut_size
from ..rules.placing import pockets
from .laid import Laid, laid_flat, laid_piece
from .shape import box, half

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from typing import TypeAlias

    from ..ground.working import Working
    from ..model.kinds import AnyThing
    from ..model.placing import Box, Spot
    from ..model.recipe import Recipe
    from ..model.things import Flat, Folded, Piece
    from .shape import At, Run

    Bounds: TypeAlias = tuple[float, float, float, float]  # left, top, right, bottom
    Fold: TypeAlias = tuple[At, At]
    Panel: TypeAlias = Piece | Flat

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
    spot: Spot
    size: tuple[Working, Working]
    rows: tuple[float, ...] = ()
    opening: bool = False


@frozen
class Mark:
    """A place where something is set: its middle, and how far it reaches across (None where that is not stated)."""

    name: str
    left: float
    top: float
    across: Working | None
    spot: Spot


@frozen
class EdgeRow:
    """An edge as the table under a drawing tells it: the run it belongs to, its fates, its lengths."""

    run: Run
    name: str
    fate: str
    allowance: Working
    cut: Working
    stitched: Working | Fraction


@frozen
class Sketch:
    """One drawing.  `wide` and `tall` are as cut, None of an assembly without such sides; `later` is cut later on."""

    name: str
    kind: str
    panel: Panel
    laid: tuple[Laid, ...]
    box: Bounds
    wide: Working | None
    tall: Working | None
    edges: tuple[EdgeRow, ...] = ()
    folds: tuple[Fold, ...] = ()
    placed: tuple[Placed, ...] = ()
    marks: tuple[Mark, ...] = ()
    later: tuple[Sequence[Run], ...] = ()
    notes: tuple[str, ...] = ()


def as_drawn(sketch: Sketch) -> tuple[list[Laid], Fold | None]:
    """(what is laid down, the fold): a piece cut on the fold is drawn as half, unless something lies on the whole."""
    side = getattr(sketch.panel, "on_fold", None)
    if sketch.kind != "piece" or not side or sketch.placed or sketch.marks or sketch.later:
        return list(sketch.laid), None
    (laid,) = sketch.laid
    cut, fold = half(laid.cut, side)
    stitch = half(laid.stitch, side)[0] if laid.stitch else None
    return [Laid(laid.name, cut, stitch, None, laid.glued, laid.trouble)], fold


def sketches(recipe: Recipe) -> list[Sketch]:
    """A Sketch for each piece, then for each flat assembly."""
    named = [thing for thing in recipe.made if thing.kind == "flat"]
    return [
        *(piece_sketch(piece, recipe) for piece in recipe.pieces if piece.edges),
        *(flat_sketch(flat, recipe) for flat in dict.fromkeys(named) if flat.members),
    ]


def piece_sketch(piece: Piece, recipe: Recipe) -> Sketch:
    """A piece as it is cut, and what is done to it while it lies flat."""
    laid, later = laid_piece(piece, recipe)
    return sketch(piece, "piece", [laid], recipe, laid, (piece.width, piece.height), later=later)


def flat_sketch(flat: Flat, recipe: Recipe) -> Sketch:
    """A flat assembly, right side up: cut edges outside, seams inside."""
    laid = laid_flat(flat)
    whole = Laid(flat.name, [run for one in laid for run in one.cut], None)
    layers = dict.fromkeys(panel.name for panel in flat.layers)
    beneath = [f"beneath, in the seams: {', '.join(layers)}"] if layers else []
    size = cut_size(flat, "top") or cut_size(flat, "bottom"), cut_size(flat, "left")
    return sketch(flat, "assembly", laid, recipe, whole, size, notes=beneath)


def sketch(
    panel: Panel,
    kind: str,
    laid: Sequence[Laid],
    recipe: Recipe,
    whole: Laid,
    size: tuple[Working | None, Working | None],
    later: Sequence[Sequence[Run]] = (),
    notes: Sequence[str] = (),
) -> Sketch:
    """Gather what lies on a panel, measured from the box of its outline once trimmed."""
    at = box(whole.cut)
    return Sketch(
        panel.name,
        kind,
        panel,
        tuple(laid),
        box([run for one in laid for run in (*one.cut, *(one.raw or ()))]),
        *size,
        edges=tuple(row(run, one, kind != "piece") for one in laid for run in one.cut if run.edge not in one.glued),
        folds=tuple(folds(panel, recipe, at)),
        placed=(*placed_on(panel, recipe, at), *openings_in(panel, at)),
        marks=tuple(marks_on(panel, recipe, at)),
        later=tuple(later),
        notes=(*notes, *(one.trouble for one in laid if one.trouble)),
    )


def row(run: Run, laid: Laid, of_many: bool) -> EdgeRow:
    """What the table says of an edge; one that was folded in two answers for its halves."""
    edge = run.edge
    told = edge if edge.all_fates() or not edge.halves else edge.halves[0]
    kinds = dict.fromkeys(FATES.get(fate.kind, fate.kind) for fate in told.all_fates())
    side = edge.panel.shown.get(edge.name, edge.name).replace("_", " ")
    name = f"{edge.panel.name}: {side}" if of_many else side
    unsaid = "as bought" if edge.panel.woven else "nothing said"
    return EdgeRow(run, name, ", ".join(kinds) or unsaid, told.allowance(), cut_length(edge), sewn_length(run, laid))


def sewn_length(run: Run, laid: Laid) -> Working | Fraction:
    """An edge's stitched length; that of its row as drawn where it, or a neighbour, was folded in two."""
    edge = run.edge
    if laid.stitch and (edge.halves or edge.before.halves or edge.after.halves) and not edge.taken_up:
        drawn = next((row for row in laid.stitch if row.edge is edge), None)
        if drawn is not None and not drawn.arc:
            return Fraction(dist(drawn.start, drawn.end)).limit_denominator(10**6)
    return stitched(edge)


def folds(panel: Panel, recipe: Recipe, at: Bounds) -> Iterator[Fold]:
    """The lines that a panel is folded along: in half, or in equal parts across."""
    left, top, right, bottom = at
    for thing in recipe.made:
        parts = 0
        if thing.kind == "strip" and thing.source is panel:
            parts = thing.parts
        elif thing.kind == "folded" and thing.source is panel and not folded_round(thing):
            if thing.fold in ("top", "bottom"):
                yield (left, (top + bottom) / 2), (right, (top + bottom) / 2)
            else:
                parts = 2
        for number in range(1, parts):
            across = left + (right - left) * number / parts
            yield (across, top), (across, bottom)


def folded_round(thing: Folded) -> bool:
    """Whether it lies about a cord, or its ends over one another: then no fold runs through its middle."""
    return hasattr(thing, "overlap") or hasattr(thing, "cord")


def corner_of(found: Box, at: Bounds) -> At:
    """(left, top) on the page of a rectangle that `box_on` measured from the lower left of the panel's box."""
    return at[0] + float(found.left.mm), at[3] - float(found.top.mm)


def placed_on(panel: Panel, recipe: Recipe, at: Bounds) -> Iterator[Placed]:
    """What `place` sews onto a panel, with the rows that divide it."""
    for op, on, found in pockets(recipe):
        item = op.parts["item"]
        across, up = measure(item, "wide"), measure(item, "tall")
        if on is panel and across is not None and up is not None:
            wide, tall = float(across.mm), float(up.mm)
            left, top = corner_of(found, at)
            if reaches_both_seams(item, op.parts["spot"]):
                left = (at[0] + at[2] - wide) / 2
            rows = tuple(rows_in(item, recipe, wide))
            yield Placed(item.name, left, top, wide, tall, op.parts["spot"], (across, up), rows)


def reaches_both_seams(item: AnyThing, spot: Spot) -> bool:
    """Whether what is placed runs from one side seam of its panel to the other, caught in both."""
    sides = [edge for side in ("left", "right") for edge in item.side(side) or ()]
    return not {"left", "right"} & set(spot.offsets) and bool(sides) and all(edge.fate("caught") for edge in sides)


def rows_in(item: AnyThing, recipe: Recipe, wide: float) -> Iterator[float]:
    """How far from a pocket's left its rows of stitching lie."""
    for op in recipe.ops:
        if op.verb == "divide" and op.parts["pocket"] is item:
            parts = op.parts["into"] or 1
            yield from (wide * number / parts for number in range(1, parts))
            for side, length in op.parts["rows"]:
                yield float(length.mm) if side == "left" else wide - float(length.mm)


def openings_in(panel: Panel, at: Bounds) -> Iterator[Placed]:
    """The openings slit into a panel."""
    for op in getattr(panel, "slits", ()):
        size = op.parts["size"]
        found = box_on(panel, op.parts["spot"], *size) if size is not None else None
        if found is not None:
            wide, tall = (float(one.mm) for one in size)
            name = op.parts["zip"].name if op.parts["zip"] is not None else "opening"
            yield Placed(name, *corner_of(found, at), wide, tall, op.parts["spot"], size, opening=True)


def marks_on(panel: Panel, recipe: Recipe, at: Bounds) -> Iterator[Mark]:
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
