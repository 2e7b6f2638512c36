"""The step list: cutting and fusing first, then a sentence for each statement, grouped by part."""

from __future__ import annotations

from attrs import frozen

from ..cautions import CAUTIONS
from ..model.bulk import places, stated
from ..model.classes import spoken
from ..model.things import coated
from ..rules.bulk import CARE
from ..speech import Speech, listed
from ..verbs import VERBS
from .order import ordered
from .setups import setup_of

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from types import ModuleType
    from typing import TypeAlias

    from ..ground.text import Span
    from ..model.recipe import Op, Recipe, Stuff
    from ..model.things import Piece
    from .setups import Setup

    # Part, sentence, keys of cautions, station, the writer's own sentence, where it is said, notes, classes.
    Told: TypeAlias = tuple[str, str, Sequence[str], str, str, Span | None, Sequence[str], str]
    Set: TypeAlias = tuple[str, str, Sequence[str], str, str, Span | None, Sequence[str], str, Setup | None]


@frozen
class Step:
    """One step: its number, the part it belongs to, what to do, and what to take care of.

    `classes` names its stitch by ISO 4915 and its seam by ISO 4916, where they name one.
    `at` is the span of the statement it comes from (None for cutting and
    fusing, which come from the pieces), `said` the writer's own sentence,
    `notes` the writer's notes that stand before it.  `setup` is its station
    and, at the machine, how that is set; None where no work is done.
    """

    number: int
    part: str
    sentence: str
    said: str = ""
    cautions: tuple[str, ...] = ()
    at: Span | None = None
    station: str = ""
    notes: tuple[str, ...] = ()
    classes: str = ""
    setup: Setup | None = None


def steps(recipe: Recipe, unit: str | None = None, order: Sequence[Op] | None = None) -> list[Step]:
    """The recipe's steps in an order that can be sewn: a list of Step.

    `unit` is `in`, `cm`, `mm` or `both`; the recipe's own where None.
    `order` has the statements in another order than that nearest to the writer's.
    """
    return steps_in(recipe, Speech(unit or recipe.unit or "in"), order)


def steps_in(recipe: Recipe, speech: Speech, order: Sequence[Op] | None = None) -> list[Step]:
    """The steps of a recipe in all its sizes, in a way of speaking."""
    if recipe.sizes:
        from .sizes import every_size, side_by_side

        return side_by_side([(one.size_name, steps_of(one, speech.marked(), order)) for one in every_size(recipe)])
    return steps_of(recipe, speech, order)


def steps_of(recipe: Recipe, speech: Speech, order: Sequence[Op] | None = None) -> list[Step]:
    """The steps of a recipe in the one size that it is worked out in; an order may be that of another size."""
    found: list[Set] = [(*told, (told[3], None)) for told in (*cutting(recipe, speech), *fusing(recipe))]
    waiting: list[str] = []
    notes, humps = notes_by_op(recipe), thick_ops(recipe)
    for op in ordered(recipe) if order is None else [recipe.ops[op.number] for op in order]:
        verb = VERBS[op.verb]
        sentence = verb.say(op, speech)
        waiting += notes.get(op, ())
        if sentence:
            cautions = (*cautions_of(op, verb), *humps.get(op, ()))
            told = (op.part or "Making up", sentence, cautions, verb.STATION, op.said, op.at, waiting)
            found.append((*told, spoken(op), setup_of(op)))
            waiting = []
    return number(found)


def cautions_of(op: Op, verb: ModuleType) -> Sequence[str]:
    """The verb's cautions; coated cloth is creased, not ironed."""
    keys = verb.cautions(op) if hasattr(verb, "cautions") else ()
    if "iron" in keys and any(coated(thing) for thing in op.things):
        return tuple("coated" if key == "iron" else key for key in keys)
    return keys


def thick_ops(recipe: Recipe) -> dict[Op, tuple[str, ...]]:
    """The caution of each statement that sews a thick place."""
    found = places(recipe) if stated(recipe) else ()
    known = ((place.op, place.thickness) for place in found)
    return {op: ("bulk",) for op, thickness in known if thickness is not None and thickness.mm > CARE}


def notes_by_op(recipe: Recipe) -> dict[Op, list[str]]:
    """Each note of a part goes with the statement written after it, or with the last one."""
    found: dict[Op, list[str]] = {}
    for part, text, at in recipe.notes:
        if part is not None and recipe.ops:
            op = next((op for op in recipe.ops if op.at.start > at.start), recipe.ops[-1])
            found.setdefault(op, []).append(text)
    return found


def number(found: Iterable[Set]) -> list[Step]:
    """Number the steps; each caution is printed with the first step of a part that calls for it."""
    steps: list[Step] = []
    told: set[tuple[str, str]] = set()
    for at, (part, sentence, keys, station, said, span, notes, classes, setup) in enumerate(found, 1):
        fresh = [key for key in keys if (part, key) not in told]
        told.update((part, key) for key in fresh)
        cautions = tuple(CAUTIONS[key] for key in fresh)
        steps.append(Step(at, part, sentence, said, cautions, span, station, tuple(notes), classes, setup))
    return steps


def cutting(recipe: Recipe, speech: Speech) -> Iterator[Told]:
    """A step for each stuff that pieces are cut from."""
    by_stuff: dict[Stuff | None, list[Piece]] = {}
    for piece in recipe.pieces:
        by_stuff.setdefault(piece.stuff, []).append(piece)
    for stuff, every in by_stuff.items():
        pieces = [piece for piece in every if not piece.salvaged]
        whole = listed(f"{piece.name} ({size(piece, speech)}{times(piece.count)})" for piece in every if piece.salvaged)
        if whole:
            yield "Cutting", f"Take off whole, as found: {whole}.", (), "table", "", None, (), ""
        if not pieces:
            continue
        cut = [f"{piece.name} {size(piece, speech)}{times(piece.count)}" for piece in pieces]
        called = f" ({stuff.called})" if stuff is not None and stuff.called else ""
        name = f"From the {stuff.name}{called} cut" if stuff is not None else "Cut"
        yield "Cutting", f"{name}: {'; '.join(cut)}.", ("cutter",), "table", "", None, (), ""


def times(count: int) -> str:
    """`, twice` for two of a piece."""
    return {1: "", 2: ", twice", 3: ", three times"}.get(count, f", {count} times")


def size(piece: Piece, speech: Speech) -> str:
    """The cut size of a piece, as a maker reads it: across by up."""
    if piece.shape == "circle":
        return f"as a circle {speech.length(piece.width)} across"
    shown = f"{speech.length(piece.width)} x {speech.length(piece.height)}"
    if piece.shape == "tapered":
        top, bottom = (side[0].cut for name in ("top", "bottom") if (side := piece.side(name)))
        return (
            f"{speech.length(top)} wide at the top, {speech.length(bottom)} at the bottom, "
            f"{speech.length(piece.height)} tall"
        )
    if piece.on_fold:
        wide, tall = (2, 1) if piece.on_fold in ("left", "right") else (1, 2)
        lying = f"{speech.length(piece.width.mm / wide)} x {speech.length(piece.height.mm / tall)}"
        return f"{lying} with the {piece.on_fold} on the fold"
    arcs = [(edge.name, edge.arc[0]) for edge in piece.edges if edge.arc]
    if arcs:
        corners = listed(name.replace("_", " ") for name, _ in arcs)
        return f"{shown}, the {corners} corners rounded to {speech.length(arcs[0][1])}"
    return shown + shaped(piece, speech)


def shaped(piece: Piece, speech: Speech) -> str:
    """What is cut off a rectangle: corners, or all but a point; a polygon by its corners."""
    if piece.point is not None:
        side, depth = piece.point
        return f", its {side} cut to a point {speech.length(depth)} deep in the middle"
    if piece.corners:
        left, low = (min(corner[way] for corner in piece.corners) for way in (0, 1))
        corners = listed(f"{speech.length(across - left)} x {speech.length(up - low)}" for across, up in piece.corners)
        return f", with its corners at {corners} from the lower left, clockwise"
    cut = [f", the {side} corners cut off {speech.length(a)} x {speech.length(u)}" for side, a, u in piece.clipped]
    return "".join(cut)


FUSED = {
    "net": "Fuse {stuff} to the wrong side of {names}, clear of the seam allowances.",
    "whole": "Fuse {stuff} to the whole wrong side of {names}, seam allowances and all.",
    "before cutting": "Before cutting {names}, fuse {stuff} to the wrong side of the cloth; cut both as one.",
}


def fusing(recipe: Recipe) -> Iterator[Told]:
    """A step for each interfacing, and each way of fusing it."""
    by_stuff: dict[tuple[Stuff, str], list[str]] = {}
    for piece in recipe.pieces:
        if piece.stiffening is not None:
            by_stuff.setdefault((piece.stiffening, piece.fused), []).append(piece.name)
    for (stuff, fused), names in by_stuff.items():
        sentence = FUSED[fused].format(stuff=stuff.name, names=listed(names))
        if stuff.kind == "batting":
            yield "Cutting", f"Baste {stuff.name} to the wrong side of {listed(names)}.", (), "hand", "", None, (), ""
            continue
        yield "Cutting", sentence, ("fusing", "iron"), "iron", "", None, (), ""
