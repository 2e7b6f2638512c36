"""Family: placing, snaps.  A flap comes down over the bag, and its half of a snap with it."""

from __future__ import annotations

from ..ground.lengths import MM
from ..model.measures import measure
from .rule import Found, rule
from .snaps import Half, from_rim, setting, shared_shell

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..model.kinds import AnyThing
    from ..model.recipe import Recipe, Stuff
    from ..model.things import Shell
    from .rule import Looks

# By how much a flap can be drawn out to reach, and how much cloth and contents may take of it (our own thresholds).
STRETCHES, TAKEN = MM["in"] / 4, MM["in"]
FLAPPED = """
    snap clasp: magnetic, 3/4 across
    piece front, back of sail: 10 x 12
    piece flap, flap_in of sail: 8 x 6
    set clasp on flap_in, centred, 2 above bottom
    set clasp on front, centred, {} below top
    join flap to flap_in along sides, bottom as cover
    turn cover
    baste cover.top to back.top, at 1/4
    join front to back along sides, bottom as bag
    hem bag.rim by 1/2
"""


def flaps(recipe: Recipe) -> Iterator[tuple[Shell, AnyThing]]:
    """(flap, the panel whose top it hangs from) for each flap basted to a top edge before that is sewn."""
    for op in recipe.ops:
        if op.verb == "baste" and len(op.parts["onto"]) == 1 and op.parts["onto"][0].name == "top":
            for chain in op.parts["chains"]:
                if chain.panel.kind == "shell" and chain.name in ("top", "rim"):
                    yield chain.panel, op.parts["onto"][0].panel


def by_snap(recipe: Recipe) -> dict[Stuff, list[Half]]:
    """Every half that is set, by its snap."""
    found: dict[Stuff, list[Half]] = {}
    for op in setting(recipe):
        found.setdefault(op.parts["snap"], []).extend(Half(panel, op) for panel in op.parts["panels"])
    return found


def over_the_mouth(recipe: Recipe) -> Iterator[tuple[Half, Half, Shell]]:
    """(half on a flap, half on the panel that it comes down over, the bag) where a snap has these two."""
    for flap, back in flaps(recipe):
        for halves in by_snap(recipe).values():
            for one, other in (halves, halves[::-1]) if len(halves) == 2 else ():
                home = shared_shell(back, other.panel)
                if one.panel in flap.panels and other.panel not in (*flap.panels, back) and home is not None:
                    yield one, other, home[0]


@rule(
    why="A flap goes over the mouth and comes down on the front: its half of the snap lies as far from where it hangs "
    "as the other from the rim, and as much farther as the bag is deep.",
    mend="Set one of the halves higher or lower, or cut the flap longer.",
    trips=FLAPPED.format("5"),
    passes=FLAPPED.format("4"),
    severity="doubt",
    whole=True,
)
def flap_misses_its_snap(recipe: Recipe) -> Looks:
    for one, other, bag in over_the_mouth(recipe):
        reaches, below, deep = from_rim(one), from_rim(other), measure(bag, "deep")
        if reaches is None or below is None:
            continue
        crosses = deep.mm if deep is not None else 0
        if below - STRETCHES <= reaches <= below + crosses + TAKEN:
            continue
        short = reaches < below
        over = f", with up to {recipe.say(crosses)} of depth to cross" if crosses else ""
        gap = below - reaches if short else reaches - below - crosses
        yield Found(
            one.op.parts["spot"].at,
            f"{one.op.parts['snap'].name} lies {recipe.say(reaches)} down the flap, and its other half "
            f"{recipe.say(below)} below the rim on {other.panel.name}{over}: {recipe.say(gap)} too "
            f"{'short' if short else 'far'}",
            f"set the one on {other.panel.name} {recipe.say(gap)} {'higher' if short else 'lower'}, or this one "
            f"{'nearer to' if short else 'farther from'} the flap's end",
            beside=[(other.op.at, "the other half is set here")],
        )


RULES = (flap_misses_its_snap,)
