"""Family: tools.  Needle, thread and stitch length, against what is published; only where the machine states them.

The tables are loaded late: few recipes state a needle.
"""

from __future__ import annotations

from ..ground.lengths import decimal, millimetres
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from ..ground.lengths import Rational
    from ..ground.text import Span
    from ..model.recipe import Recipe, Stuff
    from ..trade.needles import Range
    from .rule import Looks

NEEDLE = """
    machine: "domestic", needle {}
    {}
    piece flag of {}: 10 x 12
    hem flag edges by 1/2
"""


def stated(recipe: Recipe, fact: str) -> tuple[Any, Span] | None:
    """What the machine states of one thing, and where: (value, span), or None."""
    machine = recipe.machine
    if machine is None or fact not in machine.facts:
        return None
    return machine.facts[fact], machine.places[fact]


def sized(recipe: Recipe) -> tuple[int, Span] | None:
    """The needle and its place, where it is a size that there is."""
    needle = stated(recipe, "needle")
    if needle is None:
        return None
    from ..trade.needles import SIZES

    return needle if needle[0] in SIZES else None


def rows(ranges: Range, shown: Callable[[Rational], str]) -> str:
    """What each source gives, and whether they disagree."""
    from ..trade.needles import disagree

    each = "; ".join(
        f"{shown(row.low)}{'' if row.low == row.high else f' to {shown(row.high)}'} for {row.of} ({row.source})"
        for row in ranges.rows
    )
    return f"{each}{'; they disagree' if disagree(ranges) else ''}"


def tenths(mm: Rational) -> str:
    """A stitch length, to a tenth."""
    return millimetres(mm, 1)


def written(cloth: Stuff) -> str:
    """A cloth's mass as it is written."""
    return " ".join(cloth.facts["mass"].split())


@rule(
    why="Needles are sold by the blade in hundredths of a millimetre; the other number on the packet is another count.",
    mend="Write the metric size, the larger of the two numbers on the packet.",
    trips=NEEDLE.format(14, "", "sail"),
    passes=NEEDLE.format(90, "", "sail"),
    severity="doubt",
)
def no_such_needle(recipe: Recipe) -> Looks:
    known = stated(recipe, "needle")
    if known is None:
        return
    from ..trade.needles import OTHER_NUMBER, SIZES

    needle, at = known
    if needle not in SIZES:
        nearest = min(SIZES, key=lambda size: abs(size - needle))
        meant = OTHER_NUMBER.get(needle, nearest)
        other = f"{needle} is the other number of size {meant}" if needle in OTHER_NUMBER else f"the nearest is {meant}"
        yield Found(at, f"no needle is sold as metric size {needle}; {other}", f"write `needle {meant}`")


@rule(
    why="The thread must pass the needle's eye freely and lie in its groove: too fine a needle frays it, too thick a "
    "one leaves holes that it does not fill.",
    mend="Change the needle, or the thread.",
    trips=NEEDLE.format(70, 'reel black: "polyester", tex 40', "sail"),
    passes=NEEDLE.format(90, 'reel black: "polyester", tex 40', "sail"),
    severity="doubt",
    whole=True,
)
def needle_against_thread(recipe: Recipe) -> Looks:
    known = sized(recipe)
    if known is None:
        return
    from ..model.stuff import reels
    from ..trade.needles import MEMORY, THREAD, ranged, ticket

    needle, at = known
    for reel in reels(recipe):
        tex = reel.facts["tex"]
        fits = ranged(THREAD, tex)
        if fits is None or fits.low <= needle <= fits.high:
            continue
        yield Found(
            at,
            f"needle {needle} is too {'fine' if needle < fits.low else 'thick'} for {reel.name}, tex "
            f"{decimal(tex, 1)} (metric ticket {decimal(ticket(tex), 0)}): {rows(fits, str)}",
            f"use a needle of {fits.low} to {fits.high}, or thread for needle {needle}",
            beside=[(reel.places["tex"], "the thread's size")],
            severity="hint" if all(row.source is MEMORY for row in fits.rows) else None,
        )


@rule(
    why="A fine needle bends or breaks in heavy cloth, and a bent one strikes the plate; a thick one leaves holes in "
    "fine cloth.",
    mend="Change the needle for the heaviest cloth it must pass.",
    trips=NEEDLE.format(70, 'cloth duck: "tent duck", 350 g/m2', "duck"),
    passes=NEEDLE.format(100, 'cloth duck: "tent duck", 350 g/m2', "duck"),
    severity="doubt",
    whole=True,
    opening="units in\n",
)
def needle_against_cloth(recipe: Recipe) -> Looks:
    known = sized(recipe)
    if known is None:
        return
    from ..model.stuff import heaviest, reels
    from ..trade.needles import CLOTH, THREAD, ranged

    needle, at = known
    cloth, mass = heaviest(recipe)
    fits = ranged(CLOTH, mass) if mass is not None else None
    if cloth is None or fits is None or fits.low <= needle <= fits.high:
        return
    by_thread = [ranged(THREAD, reel.facts["tex"]) for reel in reels(recipe)]
    if needle > fits.high and any(one is not None and one.low <= needle <= one.high for one in by_thread):
        return  # the thread asks for the thicker needle
    yield Found(
        at,
        f"needle {needle} is too {'fine' if needle < fits.low else 'thick'} for {cloth.name}, "
        f"{written(cloth)}: {rows(fits, str)}",
        f"use a needle of {fits.low} to {fits.high}; try it on a scrap of as many layers",
        beside=[(cloth.at, "the heaviest cloth with a mass stated")],
    )


STITCHED = """
    machine: "domestic", stitch {} mm
    cloth duck: "tent duck", {}
    piece flag of duck: 10 x 12
    hem flag edges by 1/2
"""


@rule(
    why="Close stitches perforate heavy or coated cloth like a stamp's edge; long ones gape in light cloth.",
    mend="Set the stitch length for the heaviest cloth.",
    trips=STITCHED.format("1.5", "350 g/m2"),
    passes=STITCHED.format(3, "350 g/m2"),
    severity="doubt",
    whole=True,
    opening="units in\n",
)
def stitch_length_against_cloth(recipe: Recipe) -> Looks:
    known = stated(recipe, "stitch")
    if known is None:
        return
    from ..model.stuff import coated, heaviest
    from ..trade.needles import COATED, STITCH, ranged

    stitch, at = known
    cloth, mass = heaviest(recipe)
    fits, skin = ranged(STITCH, mass) if mass is not None else None, coated(recipe)
    if cloth is not None and fits is not None and not fits.low <= stitch.mm <= fits.high:
        yield Found(
            at,
            f"a stitch of {millimetres(stitch.mm)} is too {'short' if stitch.mm < fits.low else 'long'} for "
            f"{cloth.name}, {written(cloth)}: {rows(fits, tenths)}",
            f"set it to between {tenths(fits.low)} and {tenths(fits.high)}",
            beside=[(cloth.at, "the heaviest cloth with a mass stated")],
        )
    elif skin is not None and stitch.mm < COATED:
        yield Found(
            at,
            f"a stitch of {millimetres(stitch.mm)} is short for coated cloth, where holes stay and tear in a row: "
            f"{millimetres(COATED)} or more (common practice, no source)",
            f"set it to {millimetres(COATED)} or more",
            beside=[(skin.at, f"{skin.name} is coated")],
        )


RULES = (no_such_needle, needle_against_thread, needle_against_cloth, stitch_length_against_cloth)
