"""Family: closures and hardware.  Zips, rings and what passes through them."""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import MM
from ..ground.text import Span
from ..model.measures import measure
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..ground.working import Working
    from ..model.kinds import AnyThing
    from ..model.recipe import Op, Recipe, Stuff
    from ..model.seams import Chain, Seam
    from ..model.things import Zip
    from .rule import Looks

# A strap this much narrower than its ring slides about (our own threshold; the ring is
# named by the strap that passes: leathercraft suppliers' size charts).
SLACK = MM["in"] / 4

# A zip shorter than this share of its opening is doubted (our own threshold; published pouches pair panels of
# 10 to 15 in with zips up to 1 in shorter).
LEAST = Fraction(2, 3)

ZIPPED = """
    zip mouth: {}, tape 1 1/4 wide, tape 10 long
    piece front, back of sail: 10 x 8
    join front.top to mouth.lower at 1/4
    join back.top to mouth.upper at 1/4 as face
    join front to back along sides, bottom, catching mouth.ends, leaving 4 open in bottom as pouch
    turn pouch through pouch.bottom
    close pouch.bottom
"""


def zip_seams(recipe: Recipe) -> Iterator[tuple[Seam, Zip, Chain]]:
    """(seam, zip, chain it is sewn to) for each long edge of a zip in a seam."""
    for seam in recipe.seams:
        for side in seam.sides:
            if side.panel.kind == "zip" and side.name in ("top", "bottom"):
                other = next((one for one in seam.sides if one is not side), None)
                if other is not None:
                    yield seam, side.panel, other


@rule(
    why="A needle that meets metal teeth breaks, and may fly.",
    mend="Use a shorter zip, cap its ends, or make the panel wider.",
    trips=ZIPPED.format("metal, 9 1/2 long"),
    passes=ZIPPED.format("metal, 8 long"),
    whole=True,
)
def teeth_in_seam(recipe: Recipe) -> Looks:
    told = set()
    for seam, zip_thing, other in zip_seams(recipe):
        long = zip_thing.stuff.facts.get("long")
        opening = other.stitched()
        if zip_thing.stuff.facts.get("rolled") and zip_thing.stuff.facts.get("kind") != "metal":
            continue  # cut where it is sewn across
        if long is None or zip_thing in told or long.mm < opening.mm:
            continue
        told.add(zip_thing)
        over = long.mm - opening.mm
        metal = zip_thing.stuff.facts.get("kind") == "metal"
        capped = zip_thing.capped_by is not None
        caps = "" if capped else ", cap its ends"
        where = f"reach {recipe.say(over / 2)} into the seam at each end" if over else "end exactly on the side seams"
        yield Found(
            seam.at,
            f"{zip_thing.name} is {recipe.say(long)} long and {other.title} {recipe.say(opening)} between "
            f"the seams: its teeth {where}",
            f"use a zip {recipe.say(over)} shorter or less{caps}, or make {other.panel.name} wider"
            if over
            else f"use a shorter zip{caps.replace(', ', ' or ')}",
            beside=[(long.at, "the zip's length, stop to stop")],
            working=(opening,),
            severity="fault" if metal and over else "doubt",
        )


@rule(
    why="What is put in passes between the zip's stops: one much shorter than its seam leaves most of the mouth shut.",
    mend="Use a zip about as long as the opening between the seams, or cap its ends.",
    trips=ZIPPED.format("coil, 5 long"),
    passes=ZIPPED.format("coil, 8 long"),
    severity="doubt",
    whole=True,
)
def zip_too_short(recipe: Recipe) -> Looks:
    told: set[Zip] = set()
    for _, zip_thing, other in zip_seams(recipe):
        opening = other.stitched()
        long = zip_thing.stuff.facts.get("long")
        if long is None or zip_thing in told or zip_thing.capped_by is not None or long.mm >= opening.mm * LEAST:
            continue
        told.add(zip_thing)
        slip = slip_of_unit(recipe, long, opening)
        meant = "" if slip is None else f"; or is `{slip[1]}` meant, and not `{slip[0]}`?"
        mends = [] if slip is None else [(f"write `{slip[1]}`", [(long.at, slip[1])], False)]
        yield Found(
            long.at,
            f"{zip_thing.name} is {recipe.say(long)} long and {other.title} {recipe.say(opening)} between "
            f"the seams: {recipe.say(opening.mm - long.mm)} of it does not open",
            f"use a zip about {recipe.say(opening)} long, or cap its ends{meant}",
            beside=[(other.panel.at, f"{other.panel.name} is cut here")],
            working=(opening,),
            mends=mends,
        )


def slip_of_unit(recipe: Recipe, length: Working, opening: Working) -> tuple[str, str] | None:
    """(what was written, what it may have been meant for) where the recipe's own unit would make the length fit."""
    if length.at is None:
        return None
    words, ours = recipe.source.cut(length.at), recipe.unit_at(length.at)
    number, _, unit = words.rpartition(" ")
    if unit not in MM or not length.mm < length.mm / MM[unit] * MM[ours] <= opening.mm:
        return None
    return words, f"{number} {ours}"


@rule(
    why="A cap must reach from the zip's stop to the end of the tape, and be as wide as the tape.",
    mend="Cut longer caps, cut two, or make the zip shorter overall.",
    trips="""
        zip mouth: coil, 6 long, tape 1 1/4 wide
        piece high, low of sail: 10 x 4
        piece cap of sail: 1 1/4 x 3, cut 2
        cap mouth ends with cap, to 10 overall
        join low.top to mouth.lower
        join high.bottom to mouth.upper as face
        hem face edges by 1/2
    """,
    passes="""
        zip mouth: coil, 7 long, tape 1 1/4 wide
        piece high, low of sail: 10 x 4
        piece cap of sail: 1 1/4 x 3, cut 2
        cap mouth ends with cap, to 10 overall
        join low.top to mouth.lower
        join high.bottom to mouth.upper as face
        hem face edges by 1/2
    """,
)
def cap_too_short(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        parts = op.parts
        if op.verb != "cap" or None in (parts["zip"], parts["cap"], parts["overall"]):
            continue
        long, tape = (parts["zip"].stuff.facts.get(name) for name in ("long", "tape_wide"))
        cap, overall = parts["cap"], parts["overall"]
        if cap.count < 2:
            yield Found(
                cap.at,
                f"both ends of {parts['zip'].name} are capped, and one {cap.name} is cut",
                "add `cut 2`",
                beside=[(op.at, "the caps are sewn on here")],
                mends=[("add `cut 2`", [(Span(cap.node.end, cap.node.end), ", cut 2")], True)],
            )
        if long is not None and (overall.mm - long.mm) > cap.height.mm:
            need = (overall.mm - long.mm) / 2
            yield Found(
                overall.at,
                f"each end needs {recipe.say(need)} of cap from the stop on, and {cap.name} folded "
                f"over gives {recipe.say(cap.height.mm / 2)}, {recipe.say(need - cap.height.mm / 2)} short",
                f"cut {cap.name} {recipe.say(2 * need)} tall, or make the zip "
                f"{recipe.say(long.mm + cap.height.mm)} overall or less",
                beside=[(cap.at, "the caps are cut here")],
            )
        if tape is not None and cap.width.mm < tape.mm:
            yield Found(
                cap.at,
                f"{cap.name} is {recipe.say(cap.width)} wide and the tape {recipe.say(tape)}",
                f"cut {cap.name} {recipe.say(tape)} wide",
                beside=[(tape.at, "the tape's width")],
            )


def passed(recipe: Recipe) -> Iterator[tuple[Op, AnyThing, Stuff, Span]]:
    """(statement, strap, hardware, place) wherever a strap goes through hardware."""
    for op in recipe.ops:
        if op.verb == "baste" and op.parts["hardware"] is not None:
            for panel in dict.fromkeys(chain.panel for chain in op.parts["chains"]):
                yield op, panel, op.parts["hardware"], op.parts["hardware_at"]
        elif op.verb == "thread" and op.parts["strap"] is not None:
            for hardware in op.parts["hardware"]:
                yield op, op.parts["strap"], hardware, op.at


TAB = """
    ring dee: {} inside{}
    piece front, back of sail: 10 x 12
    piece tab of sail: 4 x 3, cut 2
    fold tab in quarters
    join front to back along sides, bottom as bag
    baste tab with dee to bag.rim at side seams
    hem bag.rim by 1/2
"""


@rule(
    why="A ring is named by the strap that passes it: a wider one bunches, a much narrower one slides about.",
    mend="Use a ring as wide inside as the strap.",
    trips=TAB.format("3/4", ", 2 of"),
    passes=TAB.format("1", ", 2 of"),
)
def strap_against_ring(recipe: Recipe) -> Looks:
    for _, strap, hardware, at in passed(recipe):
        wide, inside = measure(strap, "wide"), hardware.facts.get("inside")
        if wide is None or inside is None:
            continue
        beside = [
            (inside.at, f"{hardware.name} is {recipe.say(inside)} inside"),
            (strap.at, f"{strap.name} comes to {recipe.say(wide)}"),
        ]
        if wide.mm > inside.mm:
            yield Found(
                at,
                f"{strap.name} is {recipe.say(wide)} wide and {hardware.name} takes {recipe.say(inside)}: "
                f"{recipe.say(wide.mm - inside.mm)} too wide",
                f"use a {hardware.kind} {recipe.say(wide)} inside, or a strap {recipe.say(wide.mm - inside.mm)} "
                f"narrower",
                beside=beside,
                working=(wide,),
            )
        elif wide.mm < inside.mm - SLACK:
            yield Found(
                at,
                f"{strap.name} is {recipe.say(wide)} wide and slides about in {hardware.name}, "
                f"which takes {recipe.say(inside)}",
                f"use a {hardware.kind} {recipe.say(wide)} inside",
                beside=beside,
                working=(wide,),
                severity="doubt",
            )


@rule(
    why="Each tab takes a ring of its own.",
    mend="List as many rings as there are tabs.",
    trips=TAB.format("1", ""),
    passes=TAB.format("1", ", 2 of"),
)
def too_few_rings(recipe: Recipe) -> Looks:
    needed: dict[Stuff, int] = {}
    first: dict[Stuff, Span] = {}
    for op, strap, hardware, at in passed(recipe):
        if op.verb == "baste":
            needed[hardware] = needed.get(hardware, 0) + strap.count
            first.setdefault(hardware, at)
    for hardware, number in needed.items():
        has = hardware.facts.get("count", 1)
        if number > has:
            yield Found(
                first[hardware],
                f"{number} of {hardware.name} are sewn in, and {has} {'is' if has == 1 else 'are'} listed",
                f"write `{number} of` behind {hardware.name}",
                beside=[(hardware.at, f"{has} {'is' if has == 1 else 'are'} listed here")],
                mends=hardware.listed(number),
            )


RULES = (teeth_in_seam, zip_too_short, cap_too_short, strap_against_ring, too_few_rings)
