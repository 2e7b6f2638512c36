"""What seams and hems take and how far rows of stitching lie from their edge, statement by statement."""

from __future__ import annotations

from ..speech import listed
from .changes import Allowance, Length, alike
from .stated import length, line_of

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import TypeAlias

    from ..ground.working import Working
    from ..model.recipe import Op, Recipe
    from ..model.seams import Seam
    from .changes import Line
    from .step_changes import Told

    Seams: TypeAlias = dict[Op, list[Seam]]
    Hems: TypeAlias = dict[Op, list[tuple[str, Working]]]  # the kind of fate that takes it, and how much

ROW = "row"
KINDS = {"turned": "edge turned in"}


def allowance_changes(old: Recipe, new: Recipe, pairs: Iterable[tuple[Told, Told]]) -> list[Allowance]:
    """The recipes' own allowance first, then that of every step that is in both recipes: a list of Allowance."""
    was, now = (Length(one.allowance.mm) if one.allowance is not None else None for one in (old, new))
    found: list[Allowance] = []
    if not alike(was, now):
        found.append(Allowance("the recipe's own", was, now, (stated_at(old), stated_at(new))))
    stitched = [(recipe, seams_of(recipe), hems_of(recipe)) for recipe in (old, new)]
    for pair in pairs:
        before, after = (taken(one.op, *sewn) for one, sewn in zip(pair, stitched, strict=True))
        for name in dict.fromkeys((*before, *after)):
            one, other = before.get(name), after.get(name)
            if not alike(one, other):
                said = max((what(name, side.op) for side in pair), key=lambda words: (len(words), words))
                found.append(Allowance(said, one, other, (pair[0].line, pair[1].line)))
    return found


def stated_at(recipe: Recipe) -> Line | None:
    """The line on which a recipe states its own allowance."""
    return next((line_of(recipe, node) for node in recipe.reading.statements if node.rule == "allowance"), None)


def seams_of(recipe: Recipe) -> Seams:
    """Statement to the seams that it makes."""
    found: Seams = {}
    for seam in recipe.seams:
        found.setdefault(seam.op, []).append(seam)
    return found


def hems_of(recipe: Recipe) -> Hems:
    """Statement to what it takes for edges that it hems or turns in, wherever the edges are."""
    found: Hems = {}
    for thing in dict.fromkeys([*recipe.pieces, *recipe.made, *recipe.things.values()]):
        for panel in (thing, *getattr(thing, "faces", ())):
            for edge in getattr(panel, "edges", ()):
                for fate in edge.fates:
                    if fate.op is not None and fate.kind not in ("seam", "caught") and fate.allowance is not None:
                        found.setdefault(fate.op, []).append((fate.kind, fate.allowance))
    return found


def taken(op: Op, recipe: Recipe, seams: Seams, hems: Hems) -> dict[str, Length | str]:
    """What a statement takes, by what it is for: `seam`, `hem`, ROW and the like."""
    found: dict[str, Length | str] = {}
    if op in seams:
        found["seam"] = Length(seams[op][0].allowance.mm)
    for kind, allowance in hems.get(op, ()):
        if allowance.mm:
            found.setdefault(KINDS.get(kind, kind), Length(allowance.mm))
    at = op.node.first("at")
    if at is not None and op not in seams:
        found[ROW] = length(at.parts[0], recipe)
    return found


def what(kind: str, op: Op) -> str:
    """`seam of front and back`, `topstitch row on bag`: what it is taken for, and which things."""
    things = listed(thing.name for thing in op.things if thing.name)
    return f"{op.verb} row on {things}" if kind == ROW else f"{kind} of {things}"
