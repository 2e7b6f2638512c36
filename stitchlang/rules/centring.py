"""Family: placing, centring.  What is called centred is, and compartments add up."""

from __future__ import annotations

from itertools import pairwise

from ..ground.lengths import MM, SAME
from ..ground.working import NOTHING
from ..model.drawn import gaps, reach
from ..model.measures import measure
from ..model.placing import box_on
from .lengths import allowed
from .placing import POCKET, outline_under, pockets
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from fractions import Fraction
    from typing import TypeAlias

    from ..ground.text import Span
    from ..ground.working import Working
    from ..model.kinds import AnyThing
    from ..model.placing import Box
    from ..model.recipe import Op, Recipe
    from .rule import Looks

    Row: TypeAlias = tuple[Fraction, Op, Span, str]  # where from the pocket's left, the statement, its place, the side

# Nearer than this to the middle a thing was meant to be there (our own threshold).
NEARLY = MM["in"] / 4
# Nothing goes into a compartment narrower than this (our own threshold).
NARROWEST = MM["in"] / 2
DIVIDED = POCKET.format("place patch on front, centred, 3 below top, sewn along sides, bottom\n    divide patch {}")


def spotted(recipe: Recipe) -> Iterator[tuple[Op, str, AnyThing, Box]]:
    """(statement, what is put there, panel, rectangle) for what is placed and what is set."""
    for op, panel, box in pockets(recipe):
        yield op, op.parts["item"].name, panel, box
    for op in recipe.ops:
        if op.verb == "set" and op.parts["snap"] is not None and not op.parts["mirrored"]:
            for panel in op.parts["panels"]:
                middle = box_on(panel, op.parts["spot"], NOTHING, NOTHING)
                if middle is not None:
                    yield op, op.parts["snap"].name, panel, middle


def off_middle(panel: AnyThing, box: Box) -> Fraction:
    """How far the middle of a rectangle lies from the middle of the cut panel, at its own height."""
    left, right = reach(outline_under(panel), box.top.mm)
    return abs((box.left.mm + box.right.mm) - (left + right)) / 2


def aslant(panel: AnyThing, box: Box) -> Fraction:
    """How far the middle of the finished panel lies from that of the cut one: half of what its sides take apart."""
    taken = {gap.name: gap.taken for gap in gaps(panel, box)}
    return abs(taken.get("left", NOTHING.mm) - taken.get("right", NOTHING.mm)) / 2


@rule(
    why="Whoever writes a spot within a quarter of an inch of the middle means the middle (our own threshold).",
    mend="Write `centred` alone, or a distance that is meant.",
    trips=POCKET.format("place patch on front, 2 3/8 from left, 3 below top, sewn along sides, bottom"),
    passes=POCKET.format("place patch on front, centred, 3 below top, sewn along sides, bottom"),
    severity="doubt",
    waits=("pocket-outside-panel",),
)
def off_centre(recipe: Recipe) -> Looks:
    for op, name, panel, box in spotted(recipe):
        spot = op.parts["spot"]
        aside = bool({"left", "right"} & set(spot.offsets))
        off = off_middle(panel, box) if aside else aslant(panel, box) if spot.centred else 0
        if off <= allowed(recipe) or not (spot.centred or off < NEARLY):
            continue
        cut = not aside
        yield Found(
            spot.at,
            f"{name} comes {recipe.say(off)} off the middle of {'the finished ' if cut else ''}{panel.name}"
            + (", whose sides take unequal allowances" if cut else ""),
            f"measure it {recipe.say(off)} nearer to the side that takes less"
            if cut
            else "write `centred` alone" + (", or the distance alone" if spot.centred else ""),
            beside=[(panel.at, f"this is {panel.name}")],
        )


def divided(recipe: Recipe) -> Iterable[tuple[AnyThing, Working, list[Row]]]:
    """(pocket, its finished width, its rows) for each divided pocket."""
    rows: dict[AnyThing, tuple[AnyThing, Working, list[Row]]] = {}
    for op in recipe.ops:
        pocket = op.parts["pocket"] if op.verb == "divide" else None
        width = measure(pocket, "wide") if pocket is not None else None
        if pocket is None or width is None:
            continue
        _, _, there = rows.setdefault(pocket, (pocket, width, []))
        for side, length in op.parts["rows"]:
            there.append((length.mm if side == "left" else width.mm - length.mm, op, length.at, side))
        parts = op.parts["into"] or 1
        there += [(width.mm * number / parts, op, op.at, "left") for number in range(1, parts)]
    return rows.values()


def compartments(width: Working, rows: Iterable[Row]) -> list[Fraction]:
    """How wide each compartment of a divided pocket is, from the left."""
    places = sorted([NOTHING.mm, *(row[0] for row in rows), width.mm])
    return [last - first for first, last in pairwise(places)]


@rule(
    why="A row from the left and one from the right that pass each other make other compartments than were meant.",
    mend="Measure all rows from one side, or let the two add up to less than the pocket.",
    trips=DIVIDED.format("3 from left, 3 from right"),
    passes=DIVIDED.format("2 from left, 2 from right"),
    severity="doubt",
    waits=("row-outside-pocket",),
)
def compartments_do_not_add_up(recipe: Recipe) -> Looks:
    for pocket, width, rows in divided(recipe):
        for at, (here, _, _, side) in enumerate(rows):
            for there, _, other_at, other in rows[at + 1 :]:
                over = abs(here - there)
                crossed = side != other and (here > there) == (side == "left")
                if crossed or over <= SAME:
                    how = f"pass each other by {recipe.say(over)}" if over > SAME else "fall on one another"
                    yield Found(
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
def compartment_too_narrow(recipe: Recipe) -> Looks:
    for pocket, width, rows in divided(recipe):
        stands = sorted(rows, key=lambda row: row[0])
        least, number = min((wide, number) for number, wide in enumerate(compartments(width, stands)))
        if least < NARROWEST and stands:
            row = stands[min(number, len(stands) - 1)]
            yield Found(
                row[2],
                f"a compartment of {pocket.name} is only {recipe.say(least)} wide",
                f"make it {recipe.say(NARROWEST)} or wider: {pocket.name} is {recipe.say(width)} wide finished",
                beside=[(pocket.at, f"this is {pocket.name}")],
            )


RULES = (off_centre, compartments_do_not_add_up, compartment_too_narrow)
