"""Family: bulk.  What lies under the needle, against what the machine sews."""

from __future__ import annotations

from ..ground.lengths import millimetres
from ..model.bulk import places, stated, thickest
from ..model.layers import backs
from ..speech import counted
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..ground.lengths import Rational
    from ..ground.text import Span
    from ..model.bulk import Place
    from ..model.recipe import Recipe, Stuff
    from ..model.things import Flat, Piece
    from .rule import Looks

# Where no machine is stated: more than a usual domestic machine sews.  Our own threshold; machine manuals give a lift
# of the foot of about 6 mm, and a user's report has 1/4 in sewn, slowly (damask-raven.com, 2019/8/27).
USUAL = 6
# From here on it is sewn with care, whatever the machine.  Our own threshold.
CARE = 4
# Four layers of cloth like this neither crease nor turn.  Our own thresholds: common practice, no source.
STIFF_MASS, STIFF_MM = 500, 0.8


def limits(recipe: Recipe) -> tuple[Rational | None, int | None, bool]:
    """(most millimetres, most plies) as the machine's maker states them; without either, a usual machine's."""
    facts = recipe.machine.facts if recipe.machine is not None else {}
    if "thick" in facts or "plies" in facts:
        return facts["thick"].mm if "thick" in facts else None, facts.get("plies"), True
    return USUAL, None, False


def too_much(recipe: Recipe) -> tuple[Place, str, str] | None:
    """(the worst place that is beyond the machine, what is said of the limit, severity), or None."""
    most_mm, most_plies, said = limits(recipe)
    every = places(recipe)
    worst = thickest(every)
    deepest = worst.thickness if worst is not None else None
    if worst is not None and deepest is not None and most_mm is not None and deepest.mm > most_mm:
        if said:
            return worst, f"the machine is stated to sew {millimetres(most_mm)}", "fault"
        return worst, f"a usual domestic machine sews {USUAL} mm at most (our own threshold: none is stated)", "doubt"
    many = max(every, key=lambda place: place.plies, default=None)
    if many is not None and most_plies is not None and many.plies > most_plies:
        return many, f"the machine is stated to sew {most_plies} plies", "fault"
    return None


HEMMED = """
    machine: "domestic", 6 plies
    piece front, back of sail: 10 x 12
    join front to back along sides, bottom as bag
    {}hem bag.rim by 1/2, turned twice
"""


@rule(
    why="Where seams cross, plies add up: a machine that cannot lift its foot over them stalls, skips or breaks its "
    "needle.",
    mend="Press the seams open before they are crossed, trim the allowances back in steps, or sew that place by hand.",
    trips=HEMMED.format(""),
    passes=HEMMED.format("press bag.left, right open\n    "),
    whole=True,
)
def too_thick_for_the_machine(recipe: Recipe) -> Looks:
    beyond = too_much(recipe) if stated(recipe) else None
    if beyond is None:
        return
    place, limit, severity = beyond
    come_to = f", {millimetres(place.thickness.mm)}" if place.thickness is not None else ""
    plies = "one ply lies" if place.plies == 1 else f"{place.plies} plies lie"
    if any(stuff is not None and stuff.kind == "batting" for _, stuff in place.by_stuff()):
        # Batting gives under the foot, and by how much nobody can say.
        limit, severity = f"{limit}; the batting gives under the foot", "doubt" if severity == "fault" else "hint"
    yield Found(
        place.op.at,
        f"{place.where}: {plies} under the needle{come_to}, and {limit}",
        mend_of(recipe, place),
        beside=[*machine_at(recipe), *(layer_label(count, stuff) for count, stuff in place.by_stuff() if stuff)],
        severity=severity,
    )


def machine_at(recipe: Recipe) -> list[tuple[Span, str]]:
    """Where the machine is stated."""
    machine = recipe.machine
    stated_at = [machine.places[fact] for fact in ("thick", "plies") if fact in machine.facts] if machine else []
    return [(at, "the machine, as stated") for at in stated_at]


def layer_label(count: int, stuff: Stuff) -> tuple[Span, str]:
    """Where a layer's stuff is stated, and how much of it lies there."""
    one = stuff.facts.get("thick")
    each = f", {millimetres(one.mm)}{' each' if count > 1 else ''}" if one is not None else ""
    layers = counted(count, "layer" if backs(stuff) else "ply").replace("plys", "plies")
    return stuff.at, f"{layers} of {stuff.name}{each}"


def mend_of(recipe: Recipe, place: Place) -> str:
    """Press open what crosses, where that helps; else take plies away, or sew it otherwise."""
    opened = next(
        (one for one in places(recipe, opened=True) if one.op is place.op and one.where == place.where), place
    )
    otherwise = "trim the allowances there back in steps, or sew this place by hand or on a machine that sews more"
    if opened.plies >= place.plies:
        return otherwise
    left = f"{opened.plies} plies" + (f", {millimetres(opened.thickness.mm)}" if opened.thickness is not None else "")
    return f"press the seams that meet there open, which leaves {left}; {otherwise}"


QUARTERS = """
    cloth stiff: "{}", {}
    piece strap of stiff: 4 x 20
    fold strap in quarters
    topstitch strap sides at 1/8
    leave strap.ends raw
"""


@rule(
    why="Four layers of stiff cloth will not crease, turn or lie flat; a strap of it is folded otherwise.",
    mend="Fold it in thirds or in half with the edges turned in, face it with a thinner cloth, or use webbing.",
    trips=QUARTERS.format("heavy duck", "610 g/m2"),
    passes=QUARTERS.format("light duck", "390 g/m2"),
    severity="doubt",
    whole=True,
    opening="units in\n",
)
def stiff_cloth_in_quarters(recipe: Recipe) -> Looks:
    for strip in recipe.made:
        if strip.kind != "strip" or strip.parts < 4:
            continue
        stuff, heavy = next(((one, heavy) for one in stuffs(strip.source) if (heavy := stiffness(one))), (None, ""))
        if stuff is not None:
            yield Found(
                strip.made_by.at,
                f"{strip.name} is folded in quarters, and {stuff.name} is {heavy} (our own threshold: "
                f"{STIFF_MASS} g/m2 or {STIFF_MM} mm)",
                "fold it in thirds, or in half with its long edges pressed under first; or use webbing",
                beside=[(stuff.at, f"{stuff.name} is described here")],
            )


def stuffs(thing: Piece | Flat) -> list[Stuff]:
    """What a piece, or the pieces of a flat assembly, are cut from."""
    return [one.stuff for one in getattr(thing, "members", (thing,)) if one.stuff is not None]


def stiffness(stuff: Stuff) -> str:
    """How heavy or thick a stiff cloth is, in words; empty where it is neither."""
    from ..ground.units import per_square_metre

    mass, one = stuff.facts.get("mass"), stuff.facts.get("thick")
    if mass is not None and per_square_metre(mass) >= STIFF_MASS:
        return " ".join(mass.split())
    return f"{millimetres(one.mm)} thick" if one is not None and one.mm * 10 >= 8 else ""


RULES = (too_thick_for_the_machine, stiff_cloth_in_quarters)
