"""Family: finished.  Promises tighter than hands can keep, samples that came out otherwise, things that do not fit."""

from __future__ import annotations

from fractions import Fraction

from ..model.fitting import USUAL_EASE, room, shortfall
from ..model.measures import measure, measures
from ..model.spread import spread
from ..speech import listed
from .centring import compartments, divided
from .rule import Found, rule
from .sizes import UNSETTLED

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..ground.working import Working
    from ..model.fitting import Room
    from ..model.kinds import AnyThing
    from ..model.recipe import Recipe
    from .rule import Looks

FLAT = """
    piece front, back of sail: 10 x 12
    join front to back along sides, bottom as bag
    hem bag.rim by 1/2
    {}
"""


@rule(
    why="Nobody cuts and sews exactly: a size promised nearer than that is kept by luck.",
    mend="Promise it less closely, or state how exactly you cut and stitch.",
    trips=FLAT.format("finished bag: 9 wide, within 1/32"),
    passes=FLAT.format("finished bag: 9 wide, within 1/8"),
    severity="doubt",
    whole=True,
    waits=(*UNSETTLED, "finished-size-differs", "depth-against-notch"),
)
def promised_too_closely(recipe: Recipe) -> Looks:
    told, accuracy = set(), recipe.accuracy
    for claim in recipe.claims:
        gives = measure(claim.thing, claim.measure)
        if claim.within is None or gives is None or claim.within.at in told:
            continue
        likely = spread(accuracy, (1, gives))
        if claim.within.mm < likely.likely:
            told.add(claim.within.at)
            stated = "as stated" if accuracy.stated else "which is usual"
            yield Found(
                claim.within.at or claim.at,
                f"{claim.thing.name} {claim.measure} is promised within {recipe.say(claim.within)}; cut within "
                f"{recipe.say(accuracy.cutting)} and stitched within {recipe.say(accuracy.stitching)} ({stated}) it "
                f"comes out within {recipe.say(likely.likely)}, at worst {recipe.say(likely.worst)}",
                f"promise it within {recipe.say(likely.likely)}, or write `accuracy` and how exactly you work",
                beside=[(claim.at, "the size promised")],
                working=(gives,),
            )


# An allowance sewn this much otherwise than stated is a slip of the foot; more is another recipe (our own threshold).
SLIP = Fraction(254, 40)  # a quarter of an inch
# Cloth that draws up or gives is off by so much at most (our own threshold).
STRETCH = Fraction(1, 20)


@rule(
    why="A sample that comes out otherwise than worked out says that one assumption of the recipe is not how it is "
    "sewn.",
    mend="Find out which: measure the allowances as sewn, and the cloth before and after.",
    trips=FLAT.format("made bag: 8 1/2 wide, 11 tall"),
    passes=FLAT.format("made bag: 8 15/16 wide, 11 tall"),
    severity="doubt",
    whole=True,
    waits=UNSETTLED,
)
def sample_came_out_otherwise(recipe: Recipe) -> Looks:
    for sample in recipe.samples:
        gives = measure(sample.thing, sample.measure)
        if gives is None:
            continue
        off, within = sample.length.mm - gives.mm, spread(recipe.accuracy, (1, gives))
        if abs(off) <= within.worst:
            continue
        reasons = explanations(recipe, gives, off)
        yield Found(
            sample.length.at or sample.at,
            f"the sample came out {recipe.say(sample.length)} {sample.measure}; the pieces give {recipe.say(gives)}, "
            f"and careful work is within {recipe.say(within.worst)} of that: "
            f"{recipe.say(abs(off))} too {'large' if off > 0 else 'small'}",
            "; or ".join(reasons) or "measure again, and check that the sample was cut from this revision",
            beside=[(leaf.at, f"{leaf.says}: {recipe.say(leaf)}") for _, leaf in gives.levers()[:4]],
            working=(gives,),
        )


def explanations(recipe: Recipe, gives: Working, off: Fraction) -> list[str]:
    """Which assumptions, taken one at a time, would explain that a sample is off by so much: sentences."""
    reasons = []
    for factor, leaf in gives.levers():
        sewn = leaf.mm + off / factor
        if " is " not in leaf.says and leaf.at is not None and sewn >= 0 and abs(sewn - leaf.mm) <= SLIP:
            reasons.append(f"the {leaf.says} was sewn as {recipe.say(sewn)} instead of {recipe.say(leaf)}")
    share = abs(off) / gives.mm if gives.mm > 0 else 1
    if share <= STRETCH:
        way = "gave" if off > 0 else "drew up"
        reasons.append(f"the cloth {way} by {float(100 * share):.1f} in 100")
    thick = [piece.stuff.facts.get("thick") for piece in recipe.pieces if piece.stuff is not None]
    thickest = max((one for one in thick if one is not None), key=lambda one: one.mm, default=None)
    if off < 0 and thickest is not None:
        turns = -off / thickest.mm
        if 1 <= turns <= 8:
            reasons.append(f"turn of cloth took it: {float(turns):.0f} times the thickness of {recipe.say(thickest)}")
    return reasons


def room_for(recipe: Recipe, thing: AnyThing) -> tuple[Room, str]:
    """What a thing offers, and in words which part of it: one divided by rows its widest compartment."""
    offered = room(thing)
    for pocket, width, rows in divided(recipe):
        if pocket is thing and rows:
            return {**offered, "wide": max(compartments(width, rows))}, "the widest compartment of "
    return offered, ""


HOLDS = FLAT.format('holds bag: "book", {}')


@rule(
    why="What a bag is made for goes into it, with a little room.",
    mend="Make the bag larger, or carry something smaller.",
    trips=HOLDS.format("8 x 11 x 3"),
    passes=HOLDS.format("7 x 9 x 1"),
    whole=True,
    waits=UNSETTLED,
)
def does_not_fit(recipe: Recipe) -> Looks:
    for content in recipe.contents:
        ease = content.ease.mm if content.ease is not None else USUAL_EASE
        space, widest = room_for(recipe, content.thing)
        lack = shortfall(space, [size.mm for size in content.sizes], ease)
        if lack is None or lack <= 0:
            continue
        offered = {name: size for name, size in space.items() if size is not None}
        sizes = " x ".join(recipe.say(size) for size in content.sizes)
        held_by = f"{widest}{content.thing.name}"
        yield Found(
            content.sizes[0].at or content.at,
            f"{content.name}, {sizes} and {recipe.say(ease)} of ease, does not go into {held_by}, which is "
            f"{listed(f'{recipe.say(size)} {name}' for name, size in offered.items())}: {recipe.say(lack)} too little",
            f"make {content.thing.name} {recipe.say(lack)} larger there, or state another ease",
            beside=[(content.thing.at, "this is to hold it")],
            working=tuple(measures(content.thing).values())[:3],
        )


@rule(
    why="Whether something fits can be said only of what has a width and a height, or is round.",
    mend="Say what a bag, a pouch or a pocket holds.",
    trips="""
        piece frill of sail: polygon 0 x 8 one, 10 x 8 two, 10 x 0 three, 0 x 0 four
        hem frill edges by 1/2
        holds frill: "pencil", 1/4 x 1/4 x 7
    """,
    passes=HOLDS.format("7 x 9 x 1"),
    severity="doubt",
    whole=True,
)
def nothing_to_hold_it(recipe: Recipe) -> Looks:
    for content in recipe.contents:
        if shortfall(room(content.thing), [size.mm for size in content.sizes], 0) is None:
            yield Found(
                content.at,
                f"{content.thing.name} has no width and height to hold anything",
                "name the bag, pouch or pocket that holds it",
                beside=[(content.thing.at, "this is it")],
            )


RULES = (promised_too_closely, sample_came_out_otherwise, does_not_fit, nothing_to_hold_it)
