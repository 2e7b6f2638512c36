"""What each step wants set up, and which steps must stay in order: what the search for the fewest changes works on.

A step's set-up is its station and, at the machine, the foot and the stitch that can be told from the recipe: a foot
with one toe beside a zip's teeth or a piping's cord; short stitches for seams, longer ones for rows that are seen
(2.8 to 3 mm and 3.5 to 4 mm on denim: patternemporium.com, tips for sewing denim), the longest for what is basted or
drawn up (common practice, no source).
"""

from __future__ import annotations

from ..verbs import VERBS

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence
    from types import ModuleType
    from typing import TypeAlias

    from ..model.kinds import AnyThing
    from ..model.recipe import Op, Recipe, Stuff
    from ..model.seams import Chain, Seam

    Setup: TypeAlias = tuple[str, str | None]
    Leader: TypeAlias = dict[AnyThing, AnyThing]

ROWS = ("topstitch", "hem", "place", "set", "divide", "channel", "bind", "quilt")  # stitching that is seen
LOOSE = ("baste", "gather", "pleat")
# Sewn by machine, each edge for itself: things named in one such statement are not sewn to one another.
APART = ("topstitch", "hem", "channel", "gather", "pleat", "dart", "ease", "bind", "quilt")


def setup_of(op: Op) -> Setup | None:
    """(station, setting) of a statement, or None for one that takes no work; a verb's own `setup` comes first."""
    verb = VERBS[op.verb]
    if hasattr(verb, "setup"):
        own: Setup | None = verb.setup(op)
        return own
    if op.verb == "leave":
        return None
    station = station_of(op, verb)
    if station != "machine":
        return station, None
    foot = "zip foot" if beside_ridge(op) else "plain foot"
    stitch = "topstitch" if op.verb in ROWS else "long stitch" if op.verb in LOOSE else "seam stitch"
    return station, f"{foot}, {stitch}"


def station_of(op: Op, verb: ModuleType) -> str:
    """The verb's station; what is set by sewing is sewn: tape by machine, buttons by hand."""
    stuff = op.parts.get("snap")
    sewn = {"touch": "machine", "button": "hand"}
    station: str = verb.STATION
    return sewn.get(stuff.kind, station) if stuff is not None else station


def beside_ridge(op: Op) -> bool:
    """Whether the row runs beside a zip's teeth or a cord, where a plain foot cannot."""
    if op.verb in ("wrap", "slit"):
        return True
    if any(corded(chain.panel) for chain in op.parts.get("caught", ())):
        return True
    seams = [seam for chain in op.parts.get("chains", ()) for seam in seams_at(chain)] if op.verb == "topstitch" else ()
    sides = [side for seam in (*op.parts.get("seams", ()), *seams) for side in seam.sides]
    return any(corded(side.panel) or (side.panel.kind == "zip" and side.name in ("top", "bottom")) for side in sides)


def corded(panel: AnyThing) -> bool:
    """Whether a thing is piping: cloth folded round a cord."""
    return getattr(panel, "cord", None) is not None


def seams_at(chain: Chain) -> list[Seam]:
    """The seams that an edge lies in."""
    links = set(chain.links)
    ops = {fate.op: None for link in chain.links for fate in link.all_fates() if fate.kind == "seam"}
    seams = [seam for op in ops for seam in op.parts.get("seams", ())]
    return [seam for seam in seams if any(links.intersection(side.links) for side in seam.sides)]


def needs_of(ops: Sequence[Op], recipe: Recipe) -> list[list[int]]:
    """For each step of a possible order, the numbers of the earlier ones that must come before it.

    These are its own needs, and whatever was done before to the things that it works on: a language does not know
    all that a sewer does (a seam is pressed before the next one crosses it), so work on one thing, or on things sewn to
    one another that still lie flat, keeps the order written.  Between things not yet sewn together all is free.
    """
    place = {op: number for number, op in enumerate(ops)}
    leader: Leader = {}
    latest: dict[AnyThing, int] = {}
    found = threaded_after(ops, recipe)
    for number, (op, own) in enumerate(zip(ops, found, strict=True)):
        touched = dict.fromkeys(lead(leader, thing) for thing in op.things)
        own.update(place[need] for need in op.after if place.get(need, number) < number)
        own.update(latest[thing] for thing in touched if thing in latest)
        made = [lead(leader, op.makes)] if op.makes is not None else []
        latest.update(dict.fromkeys([*touched, *made], number))
        if sewn_flat(op):
            things = [lead(leader, thing) for thing in (*op.things, *made)]
            leader.update((thing, things[0]) for thing in things if thing is not things[0])
    return [sorted(own) for own in found]


def threaded_after(ops: Sequence[Op], recipe: Recipe) -> list[set[int]]:
    """For each step the earlier ones that it needs for its hardware: what is threaded goes through what is in place."""
    uses: dict[object, list[Stuff]] = {}
    for stuff in recipe.stuff.values():
        for op in stuff.used_by:
            uses.setdefault(op, []).append(stuff)
    waiting: dict[Stuff, list[int]] = {}
    found: list[set[int]] = [set() for _ in ops]
    for number, op in enumerate(ops):
        for stuff in uses.get(op, ()):
            if op.verb == "thread":
                found[number].update(waiting.get(stuff, ()))
                waiting[stuff] = []
            waiting.setdefault(stuff, []).append(number)
    return found


def sewn_flat(op: Op) -> bool:
    """Whether a statement sews its things to one another and leaves them flat."""
    shell = op.makes is not None and op.makes.kind == "shell"
    return VERBS[op.verb].STATION == "machine" and op.verb not in APART and not shell


def lead(leader: Leader, thing: AnyThing) -> AnyThing:
    """The thing that stands for all that a thing is sewn to."""
    while thing in leader:
        leader[thing] = leader.get(leader[thing], leader[thing])  # the way is half as long the next time
        thing = leader[thing]
    return thing
