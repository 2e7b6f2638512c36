"""Whether a thing goes into a bag: boxes, and cloth that wraps round them.

A box of w x d with height h goes into a flat pouch whose mouth is W wide where the cloth of both faces reaches round
it: 2 (w + d) is at most 2 W, and its height with half its depth (the floor that the flat bottom has to make) at most
the pouch's.  A boxed or gusseted bag has a floor: the box stands on it, w by d.  A round one holds what its circle
holds.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations

from ..ground.lengths import root
from .measures import measures

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import TypeAlias

    from ..ground.lengths import Rational
    from .kinds import AnyThing

    Room: TypeAlias = dict[str, Fraction | None]  # wide, tall, deep, across

# What is left round a thing on each side so that it goes in and out (our own choice, common practice, no source).
USUAL_EASE = 6  # millimetres in all


def room(thing: AnyThing) -> Room:
    """What a thing offers: a dict of wide, tall, deep, across in millimetres, as far as they are known."""
    found = {name: working.mm for name, working in measures(thing).items()}
    base, top = found.get("wide at base"), found.get("wide at top", found.get("wide"))
    wide = min(size for size in (base, top) if size is not None) if top is not None or base is not None else None
    deep, tall = found.get("deep"), found.get("tall", found.get("long"))
    return {"wide": wide, "tall": tall, "deep": deep, "across": found.get("across")}


def shortfall(offered: Room, sizes: Sequence[Fraction], ease: Rational) -> Rational | None:
    """By how much something is too large for a room, laid the best way: millimetres; None where that is unknown."""
    box = [*sizes, Fraction(0)] if len(sizes) == 2 else list(sizes)  # half of it is taken: no int, which makes a float
    ways = [short(offered, one, ease) for one in permutations(box)]
    known = [way for way in ways if way is not None]
    return min(known) if known else None


def short(offered: Room, box: Sequence[Fraction], ease: Rational) -> Rational | None:
    """What is missing for one way of putting a box in: the largest lack in any direction."""
    wide, deep, tall = box
    if offered["tall"] is None:
        return None
    if offered["across"] is not None:
        across = root(wide * wide + deep * deep)
        lacks = [across + ease - offered["across"], tall - offered["tall"]]
    elif offered["wide"] is None:
        return None
    elif offered["deep"] is not None:
        lacks = [wide + ease - offered["wide"], deep + ease - offered["deep"], tall - offered["tall"]]
    else:
        lacks = [wide + deep + ease - offered["wide"], tall + deep / 2 - offered["tall"]]
    lacking: Rational = max(lacks)
    return max(lacking, 0)
