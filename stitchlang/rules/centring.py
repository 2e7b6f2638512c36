"""Family: placing, centring.  What is called centred is, and compartments add up."""

from itertools import pairwise

from ..ground.lengths import MM, SAME
from ..ground.working import NOTHING
from ..model.drawn import drawn, gaps, reach
from ..model.measures import measure
from ..model.placing import box_on
from .lengths import allowed
from .placing import POCKET, pockets
from .rule import found, rule

# Nearer than this to the middle a thing was meant to be there (our own threshold).
NEARLY = MM["in"] / 4
# Nothing goes into a compartment narrower than this (our own threshold).
NARROWEST = MM["in"] / 2
DIVIDED = POCKET.format("place patch on front, centred, 3 below top, sewn along sides, bottom\n    divide patch {}")


def spotted(recipe):
    """(statement, what is put there, panel, rectangle) for what is placed and what is set."""
    for op, panel, box in pockets(recipe):
        yield op, op.parts["item"].name, panel, box
    for op in recipe.ops:
        if op.verb == "set" and op.parts["snap"] is not None and not op.parts["mirrored"]:
            for panel in op.parts["panels"]:
                box = box_on(panel, op.parts["spot"], NOTHING, NOTHING)
                if box is not None:
                    yield op, op.parts["snap"].name, panel, box


def off_middle(panel, box):
    """How far the middle of a rectangle lies from the middle of the cut panel, at its own height."""
    return abs((box.left.mm + box.right.mm) - sum(reach(drawn(panel), box.top.mm))) / 2


def aslant(panel, box):
    """How far the middle of the finished panel lies from that of the cut one: half of what its sides take apart."""
    taken = {gap.name: gap.taken for gap in gaps(panel, box)}
    return abs(taken.get("left", 0) - taken.get("right", 0)) / 2


@rule(
    why="Whoever writes a spot within a quarter of an inch of the middle means the middle (our own threshold).",
    mend="Write `centred` alone, or a distance that is meant.",
    trips=POCKET.format("place patch on front, 2 3/8 from left, 3 below top, sewn along sides, bottom"),
    passes=POCKET.format("place patch on front, centred, 3 below top, sewn along sides, bottom"),
    severity="doubt",
    waits=("pocket-outside-panel",),
)
def off_centre(recipe):
    for op, name, panel, box in spotted(recipe):
        spot = op.parts["spot"]
        aside = bool({"left", "right"} & set(spot.offsets))
        off = off_middle(panel, box) if aside else aslant(panel, box) if spot.centred else 0
        if off <= allowed(recipe) or not (spot.centred or off < NEARLY):
            continue
        cut = not aside
        yield found(
            spot.at,
            f"{name} comes {recipe.say(off)} off the middle of {'the finished ' if cut else ''}{panel.name}"
            + (", whose sides take unequal allowances" if cut else ""),
            f"measure it {recipe.say(off)} nearer to the side that takes less"
            if cut
            else "write `centred` alone" + (", or the distance alone" if spot.centred else ""),
            beside=[(panel.at, f"this is {panel.name}")],
        )


def divided(recipe):
    """(pocket, its finished width, {where from its left: (statement, span, side)}) for each divided pocket."""
    rows = {}
    for op in recipe.ops:
        pocket = op.parts["pocket"] if op.verb == "divide" else None
        width = measure(pocket, "wide") if pocket is not None else None
        if width is None:
            continue
        _, _, there = rows.setdefault(pocket, (pocket, width, []))
        for side, length in op.parts["rows"]:
            there.append((length.mm if side == "left" else width.mm - length.mm, op, length.at, side))
        parts = op.parts["into"] or 1
        there += [(width.mm * number / parts, op, op.at, "left") for number in range(1, parts)]
    return rows.values()


@rule(
    why="A row from the left and one from the right that pass each other make other compartments than were meant.",
    mend="Measure all rows from one side, or let the two add up to less than the pocket.",
    trips=DIVIDED.format("3 from left, 3 from right"),
    passes=DIVIDED.format("2 from left, 2 from right"),
    severity="doubt",
    waits=("row-outside-pocket",),
)
def compartments_do_not_add_up(recipe):
    for pocket, width, rows in divided(recipe):
        for at, (here, _, _, side) in enumerate(rows):
            for there, _, other_at, other in rows[at + 1 :]:
                over = abs(here - there)
                crossed = side != other and (here > there) == (side == "left")
                if crossed or over <= SAME:
                    how = f"pass each other by {recipe.say(over)}" if over > SAME else "fall on one another"
                    yield found(
                        other_at,
                        f"this row and another on {pocket.name}, {recipe.say(width)} wide finished, {how}",
                        "measure all rows from one side",
                        beside=[(rows[at][2], "the other row")],
                    )


@rule(
    why="Nothing goes into a compartment narrower than half an inch (our own threshold).",
    mend="Space the rows wider.",
    trips=DIVIDED.format("2 from left, 2 1/4 from left"),
    passes=DIVIDED.format("2 from left, 3 from left"),
    severity="doubt",
    waits=("row-outside-pocket", "compartments-do-not-add-up"),
)
def compartment_too_narrow(recipe):
    for pocket, width, rows in divided(recipe):
        stands = sorted(rows, key=lambda row: row[0])
        places = [0, *(row[0] for row in stands), width.mm]
        narrow = [(last - first, number) for number, (first, last) in enumerate(pairwise(places))]
        least, number = min(narrow)
        if least < NARROWEST and stands:
            row = stands[min(number, len(stands) - 1)]
            yield found(
                row[2],
                f"a compartment of {pocket.name} is only {recipe.say(least)} wide",
                f"make it {recipe.say(NARROWEST)} or wider: {pocket.name} is {recipe.say(width)} wide finished",
                beside=[(pocket.at, f"this is {pocket.name}")],
            )


RULES = (off_centre, compartments_do_not_add_up, compartment_too_narrow)
