"""The order of a whole recipe's steps with the fewest changes of station and set-up."""

from __future__ import annotations

from ..verbs import VERBS
from .fewest import BUDGET, changes, fewest
from .order import ordered
from .setups import needs_of, setup_of
from .steps import cutting, fusing

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..model.recipe import Op, Recipe
    from .fewest import Fewest

START = "table"  # where the sewer stands before the first step


def fewest_changes(recipe: Recipe, budget: int = BUDGET) -> tuple[list[Op], Fewest]:
    """(statements in the order with the fewest changes, the Fewest that counts them).

    Cutting and fusing come first and stay; their changes are counted with the rest.
    """
    from attrs import evolve

    ops = ordered(recipe)
    first = [(station, None) for _, _, _, station, *_ in (*cutting(recipe, recipe.speech), *fusing(recipe))]
    setups = [setup_of(op) if VERBS[op.verb].say(op, recipe.speech) else None for op in ops]
    found = fewest(setups, needs_of(ops, recipe), first[-1][0] if first else START, budget)
    before = changes(first, START)
    told = evolve(found, changes=found.changes + before, written=found.written + before, least=found.least + before)
    return [ops[number] for number in found.order], told
