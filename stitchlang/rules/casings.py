"""Family: casings.  A cord runs in a casing that leaves it room, is long enough, and comes out again."""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import PI
from ..ground.working import NOTHING, total
from ..model.measures import measure
from .rule import Found, rule
from .snaps import Half, from_rim

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import TypeAlias

    from ..ground.working import Working
    from ..model.kinds import AnyThing
    from ..model.recipe import Op, Recipe, Stuff
    from ..model.seams import Chain
    from .rule import Looks

    Drawn: TypeAlias = AnyThing | Stuff  # a cord or a binding: bought, or sewn for it

# What hangs out of a casing on each side to be knotted and pulled, at the least (common practice, no source).
TAIL = 75  # mm
DRAWN = """
    cord draw: {} across, {} long
    piece front, back of sail: 10 x 12
    join front to back along sides, bottom{} as bag
    hem bag.rim by 1/4 then {}
    thread draw through bag.rim
"""
OPEN = ", leaving 1 open in left for draw"


def threaded(recipe: Recipe) -> Iterator[tuple[Op, Drawn, Chain]]:
    """(statement, cord, chain) for every casing that a cord is threaded through."""
    for op in recipe.ops:
        if op.verb == "thread" and op.parts["cord"] is not None:
            for chain in op.parts["chains"]:
                yield op, op.parts["cord"], chain


def lying_flat(cord: Drawn) -> Working | None:
    """What a cord takes of a casing that lies flat: half way round it; of ribbon, elastic or a strip, its width."""
    if not hasattr(cord, "facts"):
        return measure(cord, "wide")
    across = cord.facts.get("across")
    if across is None:
        return cord.facts.get("wide")
    return total(f"half way round {cord.name}", (PI / 2, across), at=across.at)


def own_length(cord: Drawn) -> Working | None:
    """How long what is drawn through a casing is: a cord as bought, a strip as sewn; None of elastic."""
    if hasattr(cord, "facts"):
        return cord.facts.get("long") if cord.kind == "cord" else None
    return measure(cord, "long")


def casing(recipe: Recipe, chain: Chain) -> tuple[Working, Op] | None:
    """(how wide the casing at an edge is, the statement that made it), or None: the last channel, else the hem.

    A thing is a casing itself, laid double, where one edge holds both its own.
    """
    if chain.name is None:
        return laid_double(recipe, chain.panel)
    for op in reversed(recipe.ops):
        for other in op.parts.get("chains", ()) if op.verb in ("channel", "hem") else ():
            if set(map(id, other.links)) & set(map(id, chain.links)) and (
                op.parts.get("rows") or op.parts.get("turns")
            ):
                if op.verb == "channel":
                    near, far = sorted(op.parts["rows"], key=lambda row: row.mm)
                    return total("channel", (1, far), (-1, near)), op
                return op.parts["at"] or op.parts["turns"][-1], op
    return None


def laid_double(recipe: Recipe, panel: AnyThing) -> tuple[Working, Op] | None:
    """(half its height, the statement) where a thing's top and bottom are basted to one edge; else None."""
    for op in recipe.ops:
        held = [chain.name for chain in op.parts["chains"] if chain.panel is panel] if op.verb == "baste" else ()
        tall = measure(panel, "tall") if {"top", "bottom"} <= set(held) and len(op.parts["onto"]) == 1 else None
        if tall is not None:
            return total(f"{panel.name}, laid double", (Fraction(1, 2), tall)), op
    return None


@rule(
    why="A cord runs in a casing: a hem or a channel whose rows leave it room.",
    mend="Hem the edge or stitch a channel along it, and write which edge the cord runs in.",
    trips=DRAWN.format("5 mm", 40, OPEN, 1).replace("hem bag.rim by 1/4 then 1", "leave bag.rim raw"),
    passes=DRAWN.format("5 mm", 40, OPEN, 1),
    whole=True,
)
def no_casing_for_cord(recipe: Recipe) -> Looks:
    for op, cord, chain in threaded(recipe):
        if chain.panel.kind != "folded" and casing(recipe, chain) is None:
            yield Found(
                chain.at,
                f"there is no casing at {chain.title} for {cord.name} to run in",
                no_casing_mend(chain),
                beside=[(op.at, "the cord is threaded here")],
            )


def no_casing_mend(chain: Chain) -> str:
    """How an edge, or a thing as a whole, becomes a casing."""
    if chain.name is None:
        return f"write the edge that has the casing, or baste {chain.title}.top, bottom to one edge"
    return f"write `hem {chain.title} by 1/4 then 1`, or `channel {chain.title} between 1 and 2`"


@rule(
    why="A cord slides only where its casing, lying flat, is wider than half way round the cord, and through eyelets "
    "as wide as it is.",
    mend="Make the casing wider, or use a thinner cord.",
    trips=DRAWN.format("1", 40, OPEN, 1),
    passes=DRAWN.format("5 mm", 40, OPEN, 1),
    whole=True,
)
def cord_too_thick(recipe: Recipe) -> Looks:
    for op, cord, chain in threaded(recipe):
        need, room = lying_flat(cord), casing(recipe, chain)
        if need is not None and room is not None and room[0].mm < need.mm:
            yield Found(
                op.at,
                f"{cord.name} needs {recipe.say(need)} of casing lying flat; this one is {recipe.say(room[0])}",
                f"make the casing {recipe.say(need)} deep or more, or draw something thinner through it",
                beside=[(room[1].at, "the casing is made here"), (need.at or cord.at, f"this is {cord.name}")],
            )
    for op in recipe.ops:
        if op.verb != "thread":
            continue
        cord = op.parts["cord"]
        across = getattr(cord, "facts", {}).get("across")
        for eye in op.parts["hardware"]:
            inside = eye.facts.get("inside")
            if inside is not None and across is not None and inside.mm < across.mm:
                yield Found(
                    op.at,
                    f"{cord.name} is {recipe.say(across)} across and {eye.name} {recipe.say(inside)} inside",
                    f"use eyelets {recipe.say(across)} inside or wider, or a thinner cord",
                    beside=[(inside.at, "the eyelet's width"), (across.at, "the cord's width")],
                )


@rule(
    why="A cord goes all round its casing with the mouth wide open, and both ends hang out to be pulled.",
    mend="Cut the cord longer.",
    trips=DRAWN.format("5 mm", 15, OPEN, 1),
    passes=DRAWN.format("5 mm", 40, OPEN, 1),
    whole=True,
)
def cord_too_short(recipe: Recipe) -> Looks:
    for op, cord, chain in threaded(recipe):
        long = own_length(cord)
        if long is None or chain.panel.kind != "shell" or chain.name is None:
            continue
        around = chain.stitched()
        need = around.mm + 2 * TAIL
        if long.mm < need:
            yield Found(
                long.at or cord.at,
                f"{cord.name} is {recipe.say(long)} long; its casing is {recipe.say(around)} round, and two ends of "
                f"{recipe.say(TAIL)} are needed to pull it",
                f"cut it {recipe.say(need)} long or more",
                beside=[(op.at, "it is threaded here")],
                working=(around,),
                severity="fault" if long.mm < around.mm else "doubt",
            )


@rule(
    why="A casing sewn shut all round has no way in for its cord.",
    mend="Leave an opening for the cord in a seam or in the hem, or set eyelets.",
    trips=DRAWN.format("5 mm", 40, "", 1),
    passes=DRAWN.format("5 mm", 40, OPEN, 1),
    whole=True,
)
def no_way_in_for_cord(recipe: Recipe) -> Looks:
    eyelets = [op for op in recipe.ops if op.verb == "set" and op.parts["snap"] and op.parts["snap"].kind == "eyelet"]
    openings = [seam for seam in recipe.seams if seam.opening_for is not None]
    hems = [op for op in recipe.ops if op.verb == "hem" and op.parts.get("open") is not None]
    for op, cord, chain in threaded(recipe):
        if (
            chain.panel.kind == "shell"
            and chain.name is not None
            and not (eyelets or openings or hems or loose_ends(chain))
        ):
            seam = next(iter(chain.panel.all_seams()), None)
            name = seam.name if seam is not None else "left"
            yield Found(
                op.at,
                f"nothing lets {cord.name} into its casing at {chain.title}",
                f"write `leaving 1 open in {name} for {cord.name}` where the sides are joined, or "
                f"`hem ... leaving 1 open for {cord.name}`",
                beside=[(chain.at, "this is sewn all round")],
            )


EYED = """
    cord draw: 5 mm across, 40 long
    eyelet eye: 6 mm inside, 12 mm across, 2 of
    piece front, back of sail: 10 x 12
    set eye on front, 3 from left, {} below top, mirrored
    join front to back along sides, bottom as bag
    hem bag.rim by 1/4 then 1
    thread draw through bag.rim
"""


@rule(
    why="A cord comes out of its casing through eyelets only where they open into it, between its rows.",
    mend="Set the eyelets at the height of the casing.",
    trips=EYED.format(4),
    passes=EYED.format("1 3/4"),
    severity="doubt",
    whole=True,
    waits=("snap-too-near-edge",),
)
def eyelet_beside_casing(recipe: Recipe) -> Looks:
    for _, cord, chain in threaded(recipe):
        made = casing(recipe, chain)
        reach = casing_from_rim(made[1]) if made is not None else None
        if made is None or reach is None:
            continue
        near, far = reach
        middle = (near.mm + far.mm) / 2
        for op, panel, deep in eyes_below(recipe, chain):
            if not near.mm <= deep <= far.mm:
                yield Found(
                    op.parts["spot"].at,
                    f"{op.parts['snap'].name} on {panel.name} lies {recipe.say(deep)} below the finished edge, and the "
                    f"casing of {cord.name} runs from {recipe.say(near)} to {recipe.say(far)}",
                    f"set it {recipe.say(abs(deep - middle))} {'higher' if deep > middle else 'lower'}, in its middle",
                    beside=[(made[1].at, "the casing is made here")],
                )


def casing_from_rim(op: Op) -> tuple[Working, Working] | None:
    """How far below the finished edge a casing begins and ends; None of one that is laid double."""
    if op.verb == "channel":
        near, far = sorted(op.parts["rows"], key=lambda row: row.mm)
        return near, far
    return (NOTHING, op.parts["at"] or op.parts["turns"][-1]) if op.verb == "hem" else None


def eyes_below(recipe: Recipe, chain: Chain) -> Iterator[tuple[Op, AnyThing, Fraction]]:
    """(statement, panel, how far below the finished rim) for each eyelet in the panels of a rim."""
    for op in recipe.ops:
        eye = op.parts["snap"] if op.verb == "set" else None
        for panel in op.parts["panels"] if eye is not None and eye.kind == "eyelet" else ():
            deep = from_rim(Half(panel, op)) if panel in getattr(chain.panel, "panels", ()) else None
            if deep is not None and chain.name in ("rim", "top"):
                yield op, panel, deep


def loose_ends(chain: Chain) -> bool:
    """Whether the casing's ends are open: an edge beside it is hemmed or raw rather than sewn up."""
    ends = [edge for link in chain.links for edge in (link.before, link.after)]
    return any(edge.fate("hem") or edge.fate("raw") for edge in ends)


RULES = (
    no_casing_for_cord,
    cord_too_thick,
    cord_too_short,
    no_way_in_for_cord,
    eyelet_beside_casing,
)
