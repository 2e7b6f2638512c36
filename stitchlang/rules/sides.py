"""Family: sides.  Which side of the cloth meets which."""

from __future__ import annotations

from ..verbs.joining.slip import turned_before, wanted
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..model.recipe import Op, Recipe
    from .rule import Looks

LINED = """
    piece front, back, front_in, back_in of sail: 10 x 12
    join front to back along sides, bottom as outer
    join front_in to back_in along sides, bottom, leaving 5 open in bottom as inner
    {}slip inner into outer, {} sides together
    join inner.rim to outer.rim as bag
    turn bag through inner.bottom
    close inner.bottom
"""


def slips_in(recipe: Recipe) -> list[Op]:
    """Slip statements whose shells are both known."""
    return [op for op in recipe.ops if op.verb == "slip" and op.parts["inner"] and op.parts["outer"]]


@rule(
    why="Freshly sewn, a bag is wrong side out. For right sides to meet at the rim the inner one is turned "
    "and the outer one is not.",
    mend="Turn the inner bag, not the outer one, before slipping it in.",
    trips=LINED.format("turn outer\n    ", "right"),
    passes=LINED.format("turn inner\n    ", "right"),
)
def wrong_sides_meet(recipe: Recipe) -> Looks:
    for op in slips_in(recipe):
        said = "right" if op.parts["right"] else "wrong"
        for shell, right_out in wanted(op):
            before = turned_before(shell, op)
            if len(before) % 2 and not right_out:
                yield Found(
                    op.at,
                    f"{shell.name} has been turned right side out, so {said} sides do not meet",
                    f"leave {shell.name} wrong side out",
                    beside=[(before[-1].at, f"{shell.name} is turned here")],
                )
            elif before and len(before) % 2 == 0 and right_out:
                yield Found(
                    op.at,
                    f"{shell.name} has been turned twice and is wrong side out again, so {said} sides do not meet",
                    f"turn {shell.name} once",
                    beside=[(before[-1].at, "it is turned back here")],
                )


@rule(
    why="A rim joined with wrong sides together and then turned leaves its raw edges on the outside.",
    mend="Slip the bags right sides together, or turn both rims in and topstitch instead of joining.",
    trips=LINED.format("", "wrong"),
    passes=LINED.format("", "right"),
)
def rim_raw_outside(recipe: Recipe) -> Looks:
    for op in slips_in(recipe):
        inner, outer = op.parts["inner"], op.parts["outer"]
        joins = [seam.op for seam in recipe.seams if {side.panel for side in seam.sides[:2]} == {inner, outer}]
        if not op.parts["right"] and joins:
            yield Found(
                op.at,
                f"{inner.name} and {outer.name} are joined at the rim with wrong sides together: "
                f"after turning the raw edges show",
                "write `right sides together`, or fold both rims in and topstitch them",
                beside=[(joins[0].at, "the rim is joined here")],
            )


RULES = (wrong_sides_meet, rim_raw_outside)
