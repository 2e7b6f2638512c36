"""Family: openings.  Slits for zips, overlaps, mouths that are rolled, seams sewn twice, quilted panels."""

from __future__ import annotations

from ..ground.lengths import MM, SAME
from ..model.drawn import gaps
from ..model.measures import measure
from ..model.placing import box_on
from .placing import edge_words, outside, seam_at
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..model.outline import Edge
    from ..model.placing import Box
    from ..model.recipe import Op, Recipe
    from .rule import Looks

# What a pocket bag has beside the opening at each end, and an envelope's back laps over itself, at the least
# (our own thresholds, common practice, no source).
BESIDE = MM["in"] / 2
LEAST_LAP = 2 * MM["in"]
SLIT = """
    zip mouth: coil, {} long
    piece front, back of sail: 12 x 12
    piece pouch of sail: {}
    slit front for mouth, 7 x 1/2, centred, {} below top, faced with pouch
    join front to back along sides, bottom as bag
    hem bag.rim by 1/2
"""
SLITTED = SLIT.format(8, "9 x 12", 3)


def slits(recipe: Recipe) -> Iterator[tuple[Op, Box]]:
    """(statement, rectangle of the opening on its panel) for every slit."""
    for op in recipe.ops:
        if op.verb == "slit" and op.parts["panel"] is not None and op.parts["size"] is not None:
            box = box_on(op.parts["panel"], op.parts["spot"], *op.parts["size"])
            if box is not None:
                yield op, box


@rule(
    why="An opening lies on its panel, clear of the seams round it.",
    mend="Move the opening, or make it smaller.",
    trips=SLIT.format(8, "9 x 4", "11 1/4"),
    passes=SLITTED,
)
def opening_outside_panel(recipe: Recipe) -> Looks:
    for op, box in slits(recipe):
        panel = op.parts["panel"]
        past = outside(panel, box)
        near = max(gaps(panel, box), key=lambda gap: gap.taken - gap.inside)
        by = near.taken - near.inside
        if past is not None or by > SAME:
            yield Found(
                op.parts["spot"].at,
                f"the opening comes {recipe.say(by)} into the seam allowance at {edge_words(near.name)} of "
                f"{panel.name}, or past it",
                f"move it {recipe.say(by)} or more, or make it smaller",
                beside=[(panel.at, f"this is {panel.name}")],
            )


@rule(
    why="A zip fills its opening from end to end, its stops beyond: a shorter one leaves a hole.",
    mend="Use a longer zip, or make the opening shorter.",
    trips=SLIT.format(6, "9 x 12", 3),
    passes=SLITTED,
)
def zip_shorter_than_opening(recipe: Recipe) -> Looks:
    for op, _ in slits(recipe):
        long = op.parts["zip"].stuff.facts.get("long") if op.parts["zip"] is not None else None
        wide = op.parts["size"][0]
        if long is not None and long.mm < wide.mm:
            yield Found(
                long.at,
                f"{op.parts['zip'].name} is {recipe.say(long)} long and its opening {recipe.say(wide)}",
                f"use a zip {recipe.say(wide)} long or longer, or make the opening {recipe.say(long)} wide",
                beside=[(wide.at, "the opening")],
            )


@rule(
    why="The pocket bag is sewn up beside the opening, so it is wider.",
    mend="Cut the bag wider, or make the opening shorter.",
    trips=SLIT.format(8, "7 1/2 x 12", 3),
    passes=SLITTED,
)
def pocket_bag_too_narrow(recipe: Recipe) -> Looks:
    for op, _ in slits(recipe):
        bag, wide = op.parts["bag"], op.parts["size"][0]
        if bag is None:
            continue
        need = wide.mm + 2 * BESIDE
        if bag.width.mm < need:
            yield Found(
                bag.at,
                f"{bag.name} is {recipe.say(bag.width)} wide and the opening {recipe.say(wide)}: "
                f"{recipe.say(need - bag.width.mm)} too little to sew the bag up beside it",
                f"cut {bag.name} {recipe.say(need)} wide",
                beside=[(wide.at, "the opening")],
            )


@rule(
    why="A pocket bag that hangs lower than its panel is caught in the bottom seam.",
    mend="Cut the bag shorter, or set the opening higher.",
    trips=SLIT.format(8, "9 x 20", 3),
    passes=SLITTED,
    waits=("opening-outside-panel",),
)
def pocket_bag_too_long(recipe: Recipe) -> Looks:
    for op, box in slits(recipe):
        bag, panel = op.parts["bag"], op.parts["panel"]
        if bag is None or outside(panel, box) is not None:
            continue
        hangs = bag.height.mm / 2  # folded up behind the opening
        free = box.top.mm - seam_at(panel, "bottom")[0]
        if hangs > free:
            yield Found(
                bag.at,
                f"folded up, {bag.name} hangs {recipe.say(hangs)} from its opening; to the seam below there are "
                f"{recipe.say(free)}",
                f"cut {bag.name} {recipe.say(2 * free)} tall or less, or set the opening "
                f"{recipe.say(hangs - free)} higher",
                beside=[(op.at, "the opening is made here")],
            )


COVER = """
    piece cover of sail: 17 x {}
    hem cover.top, bottom by 1/4 then 1/2
    lap cover.top over cover.bottom by {} as case
    join case along sides as pillow
    turn pillow
"""


@rule(
    why="Ends that hardly overlap gape as soon as the thing is filled.",
    mend="Let them overlap by 2 in or more, or close them with a snap.",
    trips=COVER.format(40, 1),
    passes=COVER.format(40, 4),
    severity="doubt",
)
def overlap_gapes(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        by = op.parts.get("by") if op.verb == "lap" else None
        if by is not None and by.mm < LEAST_LAP:
            yield Found(
                by.at,
                f"an overlap of {recipe.say(by)} gapes when the thing is filled",
                f"let it overlap by {recipe.say(LEAST_LAP)} or more",
                beside=[(op.at, "lapped here")],
            )


@rule(
    why="What laps over itself cannot overlap by more than it has.",
    mend="Cut the piece longer, or let it overlap less.",
    trips=COVER.format(10, 12),
    passes=COVER.format(40, 4),
)
def overlap_takes_all(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        made = op.parts.get("made") if op.verb == "lap" else None
        if made is None:
            continue
        face = made.faces[0]
        reach = face.edges[1].cut if made.fold in ("top", "bottom") else face.edges[0].cut
        if reach.mm <= 0 or 2 * reach.mm < op.parts["by"].mm:
            yield Found(
                op.parts["by"].at,
                f"an overlap of {recipe.say(op.parts['by'])} leaves nothing of {made.name} beside it",
                "let it overlap less than half of what the piece has, or cut it longer",
                beside=[(op.parts["source"].at, "this is the piece")],
                working=(reach,),
            )


ROLLED = """
    piece front, back of sail: 10 x {}
    join front to back along sides, bottom as bag
    hem bag.rim by 1/2
    roll bag.rim by 1 1/2, 3 times
"""


@rule(
    why="A mouth can be rolled down only as far as there is bag above what it holds.",
    mend="Roll it less often, or make the bag taller.",
    trips=ROLLED.format(5),
    passes=ROLLED.format(14),
    whole=True,
)
def rolled_away(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        by = op.parts.get("by") if op.verb == "roll" else None
        for chain in op.parts["chains"] if by is not None else ():
            rolled, tall = measure(chain.panel, "tall rolled"), measure(chain.panel, "tall")
            if rolled is not None and tall is not None and rolled.mm <= 0:
                yield Found(
                    op.at,
                    f"{chain.panel.name} is {recipe.say(tall)} tall, and {recipe.say(tall.mm - rolled.mm)} is rolled",
                    f"roll up less than {recipe.say(tall)}, or make {chain.panel.name} taller",
                    beside=[(chain.panel.at, "this is the bag")],
                    working=(rolled,),
                )


FOLDED_UP = """
    piece face, lining of sail: 9 x 21
    join face to lining along edges, leaving 4 open in bottom as clutch
    turn clutch through clutch.bottom
    close clutch.bottom
    fold clutch up {}
"""


@rule(
    why="What is folded up is the front; what is left above the back comes down over it, and not below it.",
    mend="Fold it up by more than a third of its height, and by less than half.",
    trips=FOLDED_UP.format(11),
    passes=FOLDED_UP.format(7),
    whole=True,
)
def folded_up_amiss(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        shell, up = (op.parts.get("shell"), op.parts.get("by")) if op.verb == "fold" else (None, None)
        flap = measure(shell, "tall at flap") if shell is not None else None
        if shell is None or up is None or flap is None or 0 <= flap.mm <= up.mm:
            continue
        tall = flap.mm + 2 * up.mm
        if flap.mm < 0:
            says, mend = f"its front stands {recipe.say(-flap.mm)} above its back", f"{recipe.say(tall / 2)} or less"
        else:
            says = f"its flap of {recipe.say(flap)} hangs {recipe.say(flap.mm - up.mm)} below the fold"
            mend = f"{recipe.say(tall / 3)} or more"
        yield Found(
            up.at or op.at,
            f"{shell.name} is {recipe.say(tall)} tall: folded up by {recipe.say(up)}, {says}",
            f"fold it up by {mend}",
            beside=[(shell.at, "it is made here")],
            working=(flap,),
            severity="fault" if flap.mm < 0 else "doubt",
        )


QUILT = """
    batting warm: "cotton batting"
    piece mat of sail: 11 x 13
    quilt mat with warm, in rows 2 apart
    {}hem mat edges by 1/2
"""


@rule(
    why="Quilting draws a panel up, unevenly; only after it can the panel be cut to its size.",
    mend="Cut the panel larger and trim it after quilting.",
    trips=QUILT.format(""),
    passes=QUILT.format("trim mat.top, right by 1/2\n    "),
    severity="doubt",
    whole=True,
)
def quilted_and_never_trimmed(recipe: Recipe) -> Looks:
    trimmed = {id(chain.panel) for op in recipe.trims for chain in op.parts["chains"]}
    for op in recipe.ops:
        panel = op.parts.get("panel") if op.verb == "quilt" else None
        if panel is not None and id(panel) not in trimmed:
            yield Found(
                op.at,
                f"{panel.name} is quilted and not trimmed after: it comes out smaller than it was cut",
                f"cut {panel.name} larger, and add `trim {panel.name}.top, right by 1/2` after this step",
                beside=[(panel.at, f"this is {panel.name}")],
            )


TWICE = """
    piece front, back of sail: 10 x 12
    join front to back along sides, bottom, enclosed at {} then {} as bag
    hem bag.rim by 1/2
"""


@rule(
    why="In a seam sewn twice the second row encloses the first one's raw edges; nearer the fold than they are long, "
    "it lets them through.",
    mend="Make the second row farther from the fold than the first was from the edge.",
    trips=TWICE.format("3/8", "1/4"),
    passes=TWICE.format("1/4", "3/8"),
    severity="doubt",
)
def raw_edge_through_the_seam(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        rows = op.parts.get("rows") if op.verb == "join" else None
        # A row of nothing has no place; its own rule speaks of it.
        if rows and all(row.at is not None for row in rows) and rows[1].mm < rows[0].mm:
            yield Found(
                rows[1].at,
                f"the second row, {recipe.say(rows[1])} from the fold, does not enclose the {recipe.say(rows[0])} of "
                f"the first",
                f"sew the second row {recipe.say(rows[0])} or more from the fold, or trim the first allowance below it",
                beside=[(rows[0].at, "the first row")],
            )


@rule(
    why="A zip cut from the roll has no stops: an end that nothing catches lets its slider run off.",
    mend="Catch both ends in a seam, or cap them.",
    trips="""
        zip mouth: coil, 10 long, off the roll
        piece front, back of sail: 10 x 8
        join front.top to mouth.lower at 1/4
        join back.top to mouth.upper at 1/4 as face
        hem face sides by 1/2
        hem face.top, bottom by 1/2
    """,
    passes="""
        zip mouth: coil, 8 long, off the roll
        piece front, back of sail: 10 x 8
        piece cap of sail: 1 1/4 x 3, cut 2
        cap mouth ends with cap, to 10 overall
        join front.top to mouth.lower at 1/4
        join back.top to mouth.upper at 1/4 as face
        hem face sides by 1/2
        hem face.top, bottom by 1/2
    """,
    whole=True,
)
def slider_runs_off(recipe: Recipe) -> Looks:
    for thing in recipe.things.values():
        if thing.kind != "zip" or not thing.stuff.facts.get("rolled") or thing.capped_by is not None:
            continue
        bare = [edge for edge in thing.edges if edge.name in ("left", "right") and not held(edge)]
        if bare and thing.used_by:
            yield Found(
                thing.at,
                f"{thing.name} comes off the roll, and nothing catches its ends",
                f"write `catching {thing.name}.ends` where the sides are joined, or cap its ends",
            )


def held(edge: Edge) -> bool:
    """Whether a zip's end is caught, or lies in a side that is seamed or bound."""
    return any(fate.kind in ("caught", "seam", "bound") for fate in edge.all_fates())


RULES = (
    opening_outside_panel,
    zip_shorter_than_opening,
    pocket_bag_too_narrow,
    pocket_bag_too_long,
    overlap_gapes,
    overlap_takes_all,
    rolled_away,
    folded_up_amiss,
    quilted_and_never_trimmed,
    raw_edge_through_the_seam,
    slider_runs_off,
)
