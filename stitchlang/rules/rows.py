"""Family: allowance, rows.  Hem stitching and basting, against what they hold."""

from __future__ import annotations

from .allowances import BAG
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..model.outline import Edge
    from ..model.recipe import Op, Recipe
    from .rule import Looks

BASTED = """
    piece front, back of sail: 10 x 12
    piece tab of sail: 4 x 4
    fold tab in quarters
    baste tab to front.top
    join front to back along sides, bottom as bag
    {}
"""


@rule(
    why="The row that holds a hem runs through what is turned: past its inner edge it catches nothing.",
    mend="Stitch nearer to the fold, or turn more.",
    trips=BAG + "hem bag.rim by 1/4 then 1, at 1 1/4",
    passes=BAG + "hem bag.rim by 1/4 then 1, at 7/8",
)
def hem_stitching_beyond_turn(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        at = op.parts["at"] if op.verb == "hem" and op.parts["turns"] else None
        if at is None or at.mm < op.parts["turns"][-1].mm:
            continue
        turn = op.parts["turns"][-1]
        beyond = at.mm - turn.mm
        where = f"{recipe.say(beyond)} beyond" if beyond else "along the very edge of"
        yield Found(
            at.at,
            f"stitched at {recipe.say(at)} from the fold, the row runs {where} the {recipe.say(turn)} that is turned",
            f"stitch at less than {recipe.say(turn)} from the fold, or turn more than {recipe.say(at)}",
            beside=[(turn.at, "the last turn is this deep")],
        )


@rule(
    why="Basting only holds until a seam, a hem or a row of stitching catches the edge; pulled out, nothing holds it.",
    mend="Sew, hem or bind the edge after basting, or stitch over it.",
    trips=BASTED.format("leave bag.rim raw"),
    passes=BASTED.format("hem bag.rim by 1"),
    severity="doubt",
    whole=True,
    waits=("edge-without-fate",),
)
def basting_never_caught(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        for chain in op.parts["onto"] if op.verb == "baste" else ():
            if chain.links and not any(catches(recipe, op, link) for link in chain.links):
                raw = next((fate.op for link in chain.links for fate in link.all_fates() if fate.op is not None), None)
                yield Found(
                    chain.at,
                    f"what is basted to {chain.title} is held by nothing more: that edge is never sewn",
                    f"join, hem or bind {chain.title}, or topstitch it",
                    beside=[(raw.at, "its edge is left so here")] if raw is not None else (),
                )
                break


def catches(recipe: Recipe, basting: Op, edge: Edge) -> bool:
    """Whether a seam, a hem or a later row of stitching takes in the edge that something is basted to."""
    if any(fate.kind not in ("raw", "found") for fate in edge.all_fates()):
        return True
    if any(catches(recipe, basting, half) for half in edge.halves):
        return True
    rows = [op for op in recipe.ops if op.verb not in ("baste", "leave") and op.number > basting.number]
    return any(edge in chain.links for op in rows for chain in op.parts.get("chains") or ())


RULES = (hem_stitching_beyond_turn, basting_never_caught)
