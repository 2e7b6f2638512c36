"""Family: placing, hanging bags.  A pocket bag sewn in beside a zip hangs down behind its panel."""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import SAME
from ..ground.working import total
from ..model.joining import root
from ..model.outline import cut_length, stitched
from .placing import base_line, seam_at
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..ground.working import Working
    from ..model.kinds import AnyThing
    from ..model.outline import Edge
    from ..model.recipe import Op, Recipe
    from ..model.things import Flat, Piece, Zip
    from .rule import Looks

FRONT = """
    zip mouth: coil, 10 long, tape 1 wide, tape 12 long
    piece high of sail: 12 x 3
    piece low of sail: 12 x 9
    piece back of sail: 12 x 12
    piece pouch of sail: 12 x {}
    join low.top to mouth.lower to pouch.top at 1/4
    join high.bottom to mouth.upper to pouch.bottom at 1/4 as front
    baste pouch sides to front sides
    join front to back along sides, bottom, catching mouth.ends as bag
    box bag pinched 3 across
    hem bag.rim by 1/2
"""


class Hanging:
    """A bag sewn in above and below a zip: how far its fold hangs, and what it hangs behind."""

    __slots__ = ("bag", "panel", "below", "hangs")

    def __init__(self, bag: Piece, panel: Flat, below: Piece, hangs: Working) -> None:
        self.bag = bag
        self.panel = panel  # the flat assembly
        self.below = below  # the piece of it below the opening
        self.hangs = hangs


def layered_on(recipe: Recipe, edge: Edge) -> tuple[Piece, str | None, Zip | None] | None:
    """(the piece of cloth that an edge is sewn to as a layer, its side, the zip between or None), or None."""
    for seam in recipe.seams:
        chains = [chain for chain in seam.sides if edge not in chain.links]
        if len(chains) == len(seam.sides):
            continue
        cloth = [(chain.panel, chain.name) for chain in chains if chain.panel.kind == "piece"]
        zips = [chain.panel for chain in chains if chain.panel.kind == "zip"]
        return (*cloth[0], next(iter(zips), None)) if len(cloth) == 1 else None
    return None


def hanging(recipe: Recipe) -> Iterator[Hanging]:
    """Every pocket bag whose two ends are sewn in beside one opening of a flat assembly, so far as it can be known."""
    for bag in recipe.pieces:
        top, bottom = only(bag, "top"), only(bag, "bottom")
        if bag.flat is not None or bag.shape != "rectangle" or top is None or bottom is None:
            continue
        held = [one for edge in (top, bottom) if (one := layered_on(recipe, edge)) is not None]
        lower = next((one for one in held if one[1] == "top"), None)
        upper = next((one for one in held if one[1] == "bottom"), None)
        if lower is None or upper is None or lower[2] is not upper[2]:
            continue
        panel, long = root(lower[0]), loop(bag, lower[2])
        if panel.kind == "flat" and long is not None:
            yield Hanging(bag, panel, lower[0], long)


def only(panel: AnyThing, name: str) -> Edge | None:
    """The edge that a panel has at a side; None where it has none there, or more than one."""
    edges = panel.side(name)
    return edges[0] if edges is not None and len(edges) == 1 else None


def loop(bag: Piece, zip_between: Zip | None) -> Working | None:
    """How far below the lower seam the fold of a bag hangs: half of what the opening's height leaves of it."""
    tall = only(bag, "left")
    if tall is None:
        return None
    end = only(zip_between, "left") if zip_between is not None else None
    gap = [(Fraction(-1, 2), stitched(end))] if end is not None else []
    return total(f"{bag.name} hanging", (Fraction(1, 2), stitched(tall)), *gap)


def room_below(one: Hanging) -> tuple[Fraction, Op | None] | None:
    """(how far it is from the lower seam down to the base or bottom seam, the statement that makes it), or None."""
    top, side, bottom = (only(one.below, name) for name in ("top", "left", "bottom"))
    if top is None or side is None or bottom is None or bottom in one.panel.glued():
        return None
    base = base_line(one.panel) or seam_at(one.panel, "bottom")
    return cut_length(side, notched=False).mm - top.allowance().mm - base[0], base[1]


@rule(
    why="A pocket bag that hangs lower than the base lies folded under the bag, or is caught in the bottom seam.",
    mend="Cut the pocket bag shorter, or set the zip higher.",
    trips=FRONT.format(18),
    passes=FRONT.format(13),
    severity="doubt",
    whole=True,
)
def pocket_bag_below_base(recipe: Recipe) -> Looks:
    for one in hanging(recipe):
        room = room_below(one)
        if room is None or one.hangs.mm - room[0] <= SAME:
            continue
        by = one.hangs.mm - room[0]
        yield Found(
            one.bag.at,
            f"{one.bag.name} hangs {recipe.say(one.hangs)} below its opening in {one.panel.name}; "
            f"down to the base there are {recipe.say(room[0])}",
            f"cut {one.bag.name} {recipe.say(2 * by)} shorter, or set the zip {recipe.say(by)} higher",
            beside=[(room[1].at if room[1] is not None else None, "what lies below is made here")],
            working=(one.hangs,),
        )


RULES = (pocket_bag_below_base,)
