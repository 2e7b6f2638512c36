"""Family: placing, snaps.  Two halves that meet when the mouth is closed."""

from __future__ import annotations

from ..ground.working import NOTHING, Working, total
from ..model.drawn import reach
from ..model.placing import box_on
from ..model.things import MIRROR
from .lengths import allowed
from .placing import outline_under, seam_at
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction
    from typing import TypeAlias

    from ..model.kinds import AnyThing
    from ..model.recipe import Op, Recipe, Stuff
    from ..model.things import Shell
    from .rule import Looks

    Written: TypeAlias = tuple[bool, frozenset[tuple[str, Fraction]], bool]  # centred, how far from what, mirrored

HALVED = ("snap", "touch")  # what is set in two halves
LINED = """
    snap clasp: magnetic, 3/4 across
    piece front, back, front_in, back_in of sail: 10 x 12
    set clasp on {}, centred, 2 below top
    join front to back along sides, bottom as outer
    join front_in to back_in along sides, bottom, leaving 5 open in bottom as inner
    slip inner into outer, right sides together
    join inner.rim to outer.rim as bag
    turn bag through inner.bottom
    close inner.bottom
"""
PLAIN = """
    snap clasp: press, 1/2 across
    piece front, back of sail: 10 x 12
    {}
    join front to back along sides, bottom as bag
    hem bag.rim by 1/2
"""


class Half:
    """One half of a snap: the panel it sits on and the statement that sets it."""

    __slots__ = ("panel", "op")

    def __init__(self, panel: AnyThing, op: Op) -> None:
        self.panel = panel
        self.op = op


def setting(recipe: Recipe) -> list[Op]:
    """Statements that set something that comes in two halves."""
    return [op for op in recipe.ops if op.verb == "set" and op.parts["snap"] and op.parts["snap"].kind in HALVED]


def pairs(recipe: Recipe) -> Iterator[tuple[Half, Half]]:
    """(half, half): both set by one statement, or each by its own at the same spot."""
    alone: dict[tuple[Stuff, Written], list[Half]] = {}
    for op in setting(recipe):
        panels = op.parts["panels"]
        if len(panels) == 2:
            yield Half(panels[0], op), Half(panels[1], op)
        elif len(panels) == 1:
            alone.setdefault((op.parts["snap"], written(op)), []).append(Half(panels[0], op))
    for halves in alone.values():
        if len(halves) == 2 and halves[0].panel is not halves[1].panel:
            yield halves[0], halves[1]


def written(op: Op) -> Written:
    """A spot as something that two statements can have in common."""
    spot = op.parts["spot"]
    offsets = frozenset((side, length.mm) for side, length in spot.offsets.items())
    return spot.centred, offsets, op.parts["mirrored"]


def homes(panel: AnyThing) -> list[tuple[Shell, AnyThing]]:
    """(shell, what of it the panel belongs to) from the innermost shell outward."""
    shells: list[tuple[Shell, AnyThing]] = []
    thing = panel
    while thing.inside is not None and len(shells) < 64:
        if thing.inside.kind == "shell":
            shells.append((thing.inside, thing))
        thing = thing.inside
    return shells


def shared_shell(one: AnyThing, other: AnyThing) -> tuple[Shell, AnyThing, AnyThing] | None:
    """(shell, the part of it with the one, the part with the other); None where no shell holds both."""
    mine = dict(homes(one))
    return next(((shell, mine[shell], part) for shell, part in homes(other) if shell in mine), None)


def lining_of(shell: Shell) -> Shell | None:
    """The shell that was slipped into this one, or None."""
    slipped = shell.slipped
    return slipped.parts["inner"] if slipped is not None and slipped.parts["outer"] is shell else None


def never_meets(one: Half, other: Half) -> tuple[str, str] | None:
    """Why two halves can never meet: (the fact, the mend); or None."""
    home = shared_shell(one.panel, other.panel)
    if home is None or any(shell.rolled is not None for half in (one, other) for shell, _ in homes(half.panel)):
        return None
    shell, *parts = home
    if any(getattr(part, "lines", None) in parts for part in parts):
        return "one is on the lining and one on the shell around it", "set both on panels of the lining"
    lining = lining_of(shell)
    if lining is not None and parts[0] is not parts[1]:
        inside = " and ".join(panel.name for panel in lining.panels)
        return f"both are on the outside, and {lining.name} lies between them", f"set them on {inside}"
    return None


@rule(
    why="The two halves of a snap face each other inside the mouth: on the outside, or one on each layer, "
    "they never touch.",
    mend="Set the halves on the two panels that face each other inside the mouth.",
    trips=LINED.format("front and front_in"),
    passes=LINED.format("front_in and back_in"),
)
def snap_halves_never_meet(recipe: Recipe) -> Looks:
    for one, other in pairs(recipe):
        why_not = never_meets(one, other)
        if why_not is not None:
            fact, mend = why_not
            snap = one.op.parts["snap"]
            yield Found(
                other.op.at,
                f"the halves of {snap.name} on {one.panel.name} and {other.panel.name} never meet: {fact}",
                mend,
                beside=[(panel.at, f"this is {panel.name}") for panel in dict.fromkeys((one.panel, other.panel))],
            )


def facing(one: Half, other: Half) -> Shell | None:
    """The shell whose two panels carry the halves, one on each; None where they are no plain pair."""
    home = shared_shell(one.panel, other.panel)
    if home is None or home[1:] != (one.panel, other.panel) or one.panel is other.panel:
        return None
    return home[0] if home[0].rolled is None and len(home[0].panels) == 2 else None


def from_rim(half: Half) -> Fraction | None:
    """How far a half sits below the finished rim, in millimetres; None where the spot does not say."""
    spot = half.op.parts["spot"]
    box = box_on(half.panel, spot, NOTHING, NOTHING) if {"top", "bottom"} & set(spot.offsets) else None
    if box is None:
        return None
    return outline_under(half.panel).height - box.top.mm - seam_at(half.panel, "top")[0]


def from_seam(half: Half, side: str) -> list[Fraction] | None:
    """How far a half sits from the stitch line at a side: a sorted list, two where it is mirrored; None: unsaid."""
    spot = half.op.parts["spot"]
    box = box_on(half.panel, spot, NOTHING, NOTHING)
    if box is None or not (spot.centred or {"left", "right"} & set(spot.offsets)):
        return None
    left, right = reach(outline_under(half.panel), box.top.mm)
    along = {box.left.mm, left + right - box.left.mm} if half.op.parts["mirrored"] else {box.left.mm}
    taken = seam_at(half.panel, side)[0]
    return sorted((at - left if side == "left" else right - at) - taken for at in along)


def meets_mirrored(shell: Shell, one: AnyThing) -> bool:
    """Whether the left of one panel lies on the right of the other: so they do, seen each from its right side."""
    for seam in shell.seams:
        names = {chain.name for chain in seam.sides[:2] if chain.name in MIRROR}
        if len(seam.sides) > 1 and any(chain.panel is one for chain in seam.sides) and len(names) == 1:
            return False
    return True


def apart(shell: Shell, one: Half, other: Half) -> Iterator[tuple[str, Fraction]]:
    """(how, by how much) the halves miss each other in height, then across."""
    below, its_below = from_rim(one), from_rim(other)
    if below is not None and its_below is not None:
        yield "in height", abs(below - its_below)
    far = "right" if meets_mirrored(shell, one.panel) else "left"
    across, its_across = from_seam(one, "left"), from_seam(other, far)
    if across is not None and its_across is not None and len(across) == len(its_across):
        yield "across", max(abs(a - b) for a, b in zip(across, its_across, strict=True))


@rule(
    why="The halves of a snap meet only at the same distance below the finished rim, and from the same side seam: "
    "the left of one panel lies on the right of the other.",
    mend="Measure both halves from the stitched rim, and from the left on one panel and the right on the other.",
    trips=PLAIN.format("set clasp on front and back, 3 from left, 2 below top"),
    passes=PLAIN.format("set clasp on front and back, centred, 2 below top"),
    whole=True,
    waits=("snap-halves-never-meet",),
)
def snap_halves_apart(recipe: Recipe) -> Looks:
    for one, other in pairs(recipe):
        shell = facing(one, other)
        for how, gap in apart(shell, one, other) if shell is not None else ():
            if gap > allowed(recipe):
                yield Found(
                    other.op.parts["spot"].at,
                    f"the halves of {one.op.parts['snap'].name} on {one.panel.name} and {other.panel.name} "
                    f"lie {recipe.say(gap)} apart {how} when the mouth is closed",
                    mending(recipe, other.panel, how, gap),
                    beside=[(panel.at, f"this is {panel.name}") for panel in (one.panel, other.panel)],
                )
    for op, both, lap in lapped_halves(recipe):
        by = lap.parts["by"]
        if abs(both.mm - by.mm) > allowed(recipe):
            yield Found(
                op.parts["spot"].at,
                f"from the two finished edges the halves of {op.parts['snap'].name} lie {recipe.say(both)} in all, and "
                f"the overlap is {recipe.say(by)}: they miss each other by {recipe.say(abs(both.mm - by.mm))}",
                f"set this one {recipe.say(abs(both.mm - by.mm))} {'farther in' if both.mm < by.mm else 'nearer'}",
                beside=[(by.at, "the overlap")],
                working=(both,),
            )


def lapped_halves(recipe: Recipe) -> Iterator[tuple[Op, Working, Op]]:
    """(statement of the second half, how far both lie from the edges they are near, the overlap) on one lapped piece.

    They meet where both distances, from the finished edges, add up to the overlap.
    """
    for lap in recipe.ops:
        made = lap.parts.get("made") if lap.verb == "lap" else None
        ends = [chain.name for chain in lap.parts["chains"]] if made is not None else []
        halves: dict[Stuff, dict[str, Op]] = {}
        for op in setting(recipe) if made is not None else ():
            for side in ends if op.parts["panels"] == [lap.parts["source"]] else ():
                if side in op.parts["spot"].offsets:
                    halves.setdefault(op.parts["snap"], {})[side] = op
        for by_side in halves.values():
            if len(by_side) == 2:
                away = [op.parts["spot"].offsets[side] for side, op in by_side.items()]
                taken = [Working(seam_at(lap.parts["source"], side)[0], f"taken at the {side}") for side in by_side]
                sides = zip(away, taken, strict=True)
                yield by_side[ends[1]], total("from both edges", *(p for a, t in sides for p in ((1, a), (-1, t)))), lap


def mending(recipe: Recipe, panel: AnyThing, how: str, gap: Fraction) -> str:
    """What puts halves that miss each other right."""
    if how == "across":
        return (
            f"measure the one on {panel.name} from the other side in a statement of its own, "
            f"or write `centred`, or `mirrored` for a pair"
        )
    return f"in a statement of its own, set the one on {panel.name} {recipe.say(gap)} higher or lower"


@rule(
    why="A snap closes with two halves; one alone holds nothing.",
    mend="Set the other half on the panel that faces it.",
    trips=PLAIN.format("set clasp on front, centred, 2 below top"),
    passes=PLAIN.format("set clasp on front and back, centred, 2 below top"),
    severity="doubt",
    whole=True,
)
def snap_half_alone(recipe: Recipe) -> Looks:
    halves: dict[Stuff, list[tuple[Op, AnyThing]]] = {}
    for op in setting(recipe):
        each = 2 if op.parts["mirrored"] else 1
        halves.setdefault(op.parts["snap"], []).extend(
            (op, panel) for panel in op.parts["panels"] for _ in range(each * panel.count)
        )
    for snap, places in halves.items():
        if len(places) % 2:
            op, panel = places[-1]
            mend = f"write `and` and the panel that faces {panel.name}, or set the other half in a statement of its own"
            if len({place.parts["mirrored"] for place, _ in places}) > 1:
                mend = "write `mirrored` in both statements, or in neither"
            yield Found(
                op.at,
                one_alone(snap, panel, len(places)),
                mend,
                beside=[(snap.at, f"this {snap.kind} has two halves")],
            )


def one_alone(snap: Stuff, panel: AnyThing, number: int) -> str:
    """That a half has no other, where so many are set in all."""
    if number == 1:
        return f"one half of {snap.name} is set on {panel.name}, and the other half nowhere"
    return f"{number} halves of {snap.name} are set in all, the last on {panel.name}: one of them has none to meet"


@rule(
    why="A snap set in the seam allowance, or half over the edge, cannot be closed or sewn around.",
    mend="Set it lower: at least half its own width inside the stitch line.",
    trips="""
        snap clasp: magnetic, 3/4 across
        piece front, back of sail: 10 x 12
        set clasp on front and back, centred, 3/4 below top
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes="""
        snap clasp: magnetic, 3/4 across
        piece front, back of sail: 10 x 12
        set clasp on front and back, centred, 1 1/2 below top
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
)
def snap_too_near_edge(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        if op.verb != "set" or op.parts["snap"] is None:
            continue
        snap = op.parts["snap"]
        for side, away in op.parts["spot"].offsets.items():
            across = extent(snap, side)
            if across is None:
                continue
            for panel in op.parts["panels"]:
                taken, seam = seam_at(panel, side)
                least = taken + across.mm / 2
                if away.mm < least:
                    yield Found(
                        away.at,
                        f"{snap.name} is {recipe.say(across)} across and sits {recipe.say(away)} from the {side} "
                        f"cut edge of {panel.name}, where {recipe.say(taken)} goes into the seam: "
                        f"{recipe.say(least - away.mm)} too near",
                        f"set it {recipe.say(least)} from the {side} or farther, and more to leave room for the foot",
                        beside=[(seam.at if seam else None, f"the {side} edge is taken in here")],
                    )
                    break


def extent(snap: Stuff, side: str) -> Working | None:
    """How far a snap reaches toward a side and away from it: its width across; of tape its width, or its length."""
    if snap.kind != "touch":
        return snap.facts.get("across")
    return snap.facts.get("long" if side in ("left", "right") else "wide")


RULES = (snap_too_near_edge, snap_halves_never_meet, snap_halves_apart, snap_half_alone)
