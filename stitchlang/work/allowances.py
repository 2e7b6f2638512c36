"""What seams and hems take and how far rows of stitching lie from their edge, statement by statement."""

from __future__ import annotations

from ..speech import listed
from .changes import Allowance, Length, alike
from .stated import length, line_of

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..model.outline import Fate
    from ..model.recipe import Op, Recipe
    from ..model.things import Seam
    from .step_changes import Told


ROW = "row"
KINDS = {"turned": "edge turned in"}


def allowance_changes(old: Recipe, new: Recipe, pairs: Iterable[tuple[Told, Told]]) -> list[Allowance]:
    """The recipes' own allowance first, then that of every step that is in both recipes: a list of Allowance."""
    own = [Length(one.allowance.mm) if one.allowance is not None else None for one in (old, new)]
    found = [] if alike(*own) else [Allowance("the recipe's own", *own, tuple(stated_at(one) for one in (old, new)))]
    seams = [seams_of(recipe) for recipe in (old, new)]
    hems = [hems_of(recipe) for recipe in (old, new)]
    for pair in pairs:
        before, after = (
            taken(one.op, recipe, sewn, hemmed)
            for one, recipe, sewn, hemmed in zip(pair, (old, new), seams, hems, strict=True)
        )
        lines = tuple(one.line for one in pair)
        for name in dict.fromkeys((*before, *after)):
            one, other = before.get(name), after.get(name)
            if not alike(one, other):
                said = max((what(name, side.op) for side in pair), key=lambda words: (len(words), words))
                found.append(Allowance(said, one, other, lines))
    return found


def stated_at(recipe: Recipe) -> int | None:
    """The line on which a recipe states its own allowance."""
    return next((line_of(recipe, node) for node in recipe.reading.statements if node.rule == "allowance"), None)


def seams_of(recipe: Recipe) -> dict[Op, list[Seam]]:
    """Statement to the seams that it makes."""
    found: dict[Op, list[Seam]] = {}
    for seam in recipe.seams:
        found.setdefault(seam.op, []).append(seam)
    return found


def hems_of(recipe: Recipe) -> dict[Op, list[Fate]]:
    """Statement to the fates by which edges are hemmed or turned in, wherever the edges are."""
    found: dict[Op, list[Fate]] = {}
    for thing in dict.fromkeys([*recipe.pieces, *recipe.made, *recipe.things.values()]):
        for panel in (thing, *getattr(thing, "faces", ())):
            for edge in getattr(panel, "edges", ()):
                for fate in edge.fates:
                    if fate.op is not None and fate.kind not in ("seam", "caught") and fate.allowance is not None:
                        found.setdefault(fate.op, []).append(fate)
    return found


def taken(op: Op, recipe: Recipe, seams: dict[Op, list[Seam]], hems: dict[Op, list[Fate]]) -> dict[str, object]:
    """What a statement takes, by what it is for: `seam`, `hem`, ROW and the like."""
    found: dict[str, object] = {}
    if op in seams:
        found["seam"] = Length(seams[op][0].allowance.mm)
    for fate in hems.get(op, ()):
        if fate.allowance.mm:
            found.setdefault(KINDS.get(fate.kind, fate.kind), Length(fate.allowance.mm))
    at = op.node.first("at")
    if at is not None and op not in seams:
        found[ROW] = length(at.parts[0], recipe)
    return found


def what(kind: str, op: Op) -> str:
    """`seam of front and back`, `topstitch row on bag`: what it is taken for, and which things."""
    things = listed(thing.name for thing in op.things if thing.name)
    return f"{op.verb} row on {things}" if kind == ROW else f"{kind} of {things}"
