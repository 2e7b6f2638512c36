"""Family: stuff.  What the pieces and steps use, against what there is of it."""

from __future__ import annotations

from ..ground.lengths import MM
from ..model.needs import by_length, cut_from, layout_of, least_area, length_in_a_row
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..ground.lengths import Rational
    from ..ground.text import Span
    from ..ground.working import Working
    from ..model.kinds import AnyThing
    from ..model.needs import Cut
    from ..model.recipe import Op, Recipe, Stuff
    from .rule import Looks

PLAIN = "units in\nallowance 1/2\n"


def sheets(recipe: Recipe) -> Iterator[tuple[Stuff, list[Cut], Working | None, Working | None]]:
    """(stuff, what is cut from it, usable width or None, length had or None) for cloth, interfacing and the like."""
    for stuff, cuts in cut_from(recipe).items():
        if stuff is not None and not by_length(stuff):
            cuts = [cut for cut in cuts if not cut.found_whole]
            yield stuff, cuts, stuff.facts.get("wide"), stuff.facts.get("long")


def fits(size: Rational, most: Working | None) -> bool:
    """Whether a size fits where there is so much; what nobody states is enough."""
    return most is None or size <= most.mm


def piece_of(cut: Cut) -> str:
    """`front`, or what is cut to lie behind it."""
    return f"what backs {cut.piece.name}" if cut.backing is not None else cut.piece.name


FLAG = """
    cloth lawn: "lawn", {}
    piece flag of lawn: {}
    hem flag edges by 1/2
"""


@rule(
    why="A piece wider than its cloth cannot be cut with the grain running up it.",
    mend="Use wider cloth, join two widths, or lay the piece across if the grain does not matter.",
    trips=FLAG.format("40 wide", "44 x 42"),
    passes=FLAG.format("45 wide", "44 x 42"),
    whole=True,
    opening=PLAIN,
)
def piece_wider_than_cloth(recipe: Recipe) -> Looks:
    for stuff, cuts, wide, long in sheets(recipe):
        for cut in cuts:
            if wide is None or fits(cut.wide, wide):
                continue
            # Interfacing can be put together from parts, and a piece may lie across where the grain does not matter.
            across = fits(cut.tall, wide) and fits(cut.wide, long)
            over = recipe.say(cut.wide - wide.mm)
            yield Found(
                cut.piece.at,
                f"{piece_of(cut)} is {recipe.say(cut.wide)} wide and {stuff.name} {recipe.say(wide)}: {over} too wide",
                f"use {stuff.kind} {recipe.say(cut.wide)} wide, make the piece {over} narrower"
                + (", or lay it across the grain if that does no harm" if across else ", or join two widths"),
                beside=[(wide.at, "its usable width")],
                severity="doubt" if across or cut.backing is not None else "fault",
            )


# Webbing is sold in round inches and in round millimetres: 25 mm passes for 1 in (our own threshold).
SOLD = MM["in"] / 16
HANDLE = """
    webbing tape: 1 wide
    piece front, back of sail: 10 x 12
    piece handle of tape: {} x 24, cut 2
    baste handle.ends to front.top, back.top
    join front to back along sides, bottom as bag
    hem bag.rim by 1
"""


@rule(
    why="Webbing, ribbon and elastic are used in the width they are woven in: cut along, they ravel.",
    mend="Write the width of the webbing, or use webbing of another width.",
    trips=HANDLE.format(4),
    passes=HANDLE.format(1),
)
def webbing_of_another_width(recipe: Recipe) -> Looks:
    for piece in recipe.pieces:
        stuff = piece.stuff if piece.woven else None
        wide = stuff.facts.get("wide") if stuff is not None else None
        if stuff is None or wide is None:
            continue
        off = piece.width.mm - wide.mm
        # Binding is folded as it is bought: a narrower piece of it may be meant folded.
        if off > SOLD or (off < -SOLD and stuff.kind != "binding"):
            lying = abs(piece.height.mm - wide.mm) <= SOLD
            yield Found(
                piece.at,
                f"{piece.name} is {recipe.say(piece.width)} wide and {stuff.name} is woven {recipe.say(wide)}: "
                f"{recipe.say(abs(off))} too {'wide' if off > 0 else 'narrow'}",
                f"write the width first: {recipe.say(wide)} x {recipe.say(piece.width)}"
                if lying
                else f"write {piece.name} {recipe.say(wide)} wide, or use {stuff.kind} of that width",
                beside=[(wide.at, f"the {stuff.kind} comes in this width")],
            )


@rule(
    why="Cloth that has been found is what there is: what does not fit on it cannot be cut.",
    mend="Find more cloth, make pieces smaller, or cut some of them from another cloth.",
    trips=FLAG.format("40 wide, 30 long", "20 x 20, cut 4"),
    passes=FLAG.format("40 wide, 40 long", "20 x 20, cut 4"),
    whole=True,
    opening=PLAIN,
    waits=("piece-wider-than-cloth",),
)
def not_enough_cloth(recipe: Recipe) -> Looks:
    for stuff, cuts, wide, long in sheets(recipe):
        if long is None or not cuts:
            continue
        tallest = max(cuts, key=lambda cut: cut.tall)
        if tallest.tall > long.mm:
            yield too_tall(recipe, stuff, tallest, wide, long)
        elif wide is not None:
            yield from too_little(recipe, stuff, cuts, wide, long)


def too_tall(recipe: Recipe, stuff: Stuff, cut: Cut, wide: Working | None, long: Working) -> Found:
    """A piece that is longer than the cloth."""
    across = fits(cut.tall, wide) and cut.wide <= long.mm
    over = recipe.say(cut.tall - long.mm)
    return Found(
        cut.piece.at,
        f"{piece_of(cut)} is {recipe.say(cut.tall)} tall and there is {recipe.say(long)} of {stuff.name}: "
        f"{over} too tall",
        f"find {over} more, or make the piece smaller"
        + (", or lay it across the grain if that does no harm" if across else ""),
        beside=[(long.at, f"what there is of {stuff.name}")],
        severity="doubt" if across or cut.backing is not None else "fault",
    )


def too_little(recipe: Recipe, stuff: Stuff, cuts: list[Cut], wide: Working, long: Working) -> Looks:
    """More cloth than there is: by the area alone for certain, by a simple layout perhaps."""
    least = least_area(cuts) / wide.mm
    layout = layout_of(cuts, wide.mm)
    names = ", ".join(cut.piece.name for cut in cuts[:4]) + (" and more" if len(cuts) > 4 else "")
    beside = [(cut.piece.at, "cut from it") for cut in cuts[:4]]
    had = f"there is {recipe.say(long)} of {stuff.name}, {recipe.say(wide)} wide"
    if least > long.mm:
        short = recipe.say(least - long.mm)
        yield Found(
            long.at or stuff.at,
            f"{had}; {names} come to {recipe.say(least)} of it without any waste, {short} more",
            f"find {short} more at the least, or make pieces smaller",
            beside=beside,
        )
    elif layout is not None and layout.length > long.mm:
        short = recipe.say(layout.length - long.mm)
        yield Found(
            long.at or stuff.at,
            f"{had}; {names}, laid out simply in strips with the grain kept, take {recipe.say(layout.length)}, "
            f"{short} more",
            f"find {short} more, or a closer layout of your own: try it on the cloth before cutting",
            beside=beside,
            severity="doubt",
        )


def used_by_length(recipe: Recipe) -> Iterator[tuple[Stuff, Rational, list[Span]]]:
    """(stuff, mm of it used, the places) for what is cut to length: webbing and its like, cord in piping."""
    for stuff, cuts in cut_from(recipe).items():
        if stuff is not None and by_length(stuff):
            yield stuff, length_in_a_row(cuts), [cut.piece.at for cut in cuts]
    piped: dict[Stuff, list[Op]] = {}
    for op in recipe.ops:
        if op.verb == "wrap" and None not in (op.parts["cord"], op.parts["source"]):
            piped.setdefault(op.parts["cord"], []).append(op)
    for cord, ops in piped.items():
        yield cord, sum(op.parts["source"].height.mm * op.parts["source"].count for op in ops), [op.at for op in ops]


@rule(
    why="Webbing and cord come by length: what is used of them is what there must be.",
    mend="Have more of it, or use shorter pieces.",
    trips="""
        webbing tape: 1 wide, 40 long
        piece front, back of sail: 10 x 12
        piece handle of tape: 1 x 24, cut 2
        join front to back along sides, bottom as bag
        baste handle.ends to bag.rim
        hem bag.rim by 1/2
    """,
    passes="""
        webbing tape: 1 wide, 48 long
        piece front, back of sail: 10 x 12
        piece handle of tape: 1 x 24, cut 2
        join front to back along sides, bottom as bag
        baste handle.ends to bag.rim
        hem bag.rim by 1/2
    """,
    whole=True,
)
def not_enough_length(recipe: Recipe) -> Looks:
    for stuff, used, places in used_by_length(recipe):
        long = stuff.facts.get("long")
        if long is None:
            continue
        had = long.mm * stuff.facts.get("count", 1)
        if used > had:
            short = recipe.say(used - had)
            yield Found(
                long.at,
                f"there is {recipe.say(had)} of {stuff.name}, and {recipe.say(used)} is used: {short} too little",
                f"have {recipe.say(used)} of it, or use {short} less",
                beside=[(place, "used here") for place in places[:4]],
            )


# One of these goes through all the panels that a statement names.
THROUGH = ("rivet",)


def times_used(recipe: Recipe) -> Iterator[tuple[Stuff, int, Op]]:
    """(stuff, how many of it are used, the last statement that uses it) for hardware."""
    halves: dict[Stuff, int] = {}
    straps: dict[Stuff, dict[AnyThing, None]] = {}
    last: dict[Stuff, Op] = {}
    for op in recipe.ops:
        parts = op.parts
        if op.verb == "thread" and parts["strap"] is not None:
            for stuff in parts["hardware"]:
                if stuff.kind in ("hook", "slider"):  # a ring joins straps, so several pass it
                    straps.setdefault(stuff, {})[parts["strap"]] = None
                    last[stuff] = op
            continue
        stuff = parts["snap"] if op.verb == "set" else parts["hardware"] if op.verb == "baste" else None
        if stuff is not None:
            halves[stuff] = halves.get(stuff, 0) + halves_of(op, stuff)
            last[stuff] = op
    for stuff, op in last.items():
        passed = sum(strap.count for strap in straps.get(stuff, ()))
        yield stuff, max((halves.get(stuff, 0) + 1) // 2, passed), op  # what a tab holds, another strap may pass


def halves_of(op: Op, stuff: Stuff) -> int:
    """How many a statement uses, in halves: a snap has a half on each of two panels."""
    if op.verb == "baste":
        tabs: dict[AnyThing, None] = dict.fromkeys(chain.panel for chain in op.parts["chains"])
        return 2 * sum(panel.count for panel in tabs)
    panels: list[int] = [panel.count for panel in op.parts["panels"]]
    number = max(panels, default=0) if stuff.kind in THROUGH else sum(panels)
    return number * (2 if op.parts["mirrored"] else 1) * (1 if stuff.kind == "snap" else 2)


@rule(
    why="Whoever shops by the list comes home with as many as it says.",
    mend="List as many as are used.",
    trips="""
        rivet stud: 9 mm across
        piece front, back of sail: 10 x 12
        set stud on front, 2 from left, 3 below top, mirrored
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes="""
        rivet stud: 9 mm across, 2 of
        piece front, back of sail: 10 x 12
        set stud on front, 2 from left, 3 below top, mirrored
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    whole=True,
    waits=("too-few-rings",),
)
def more_used_than_listed(recipe: Recipe) -> Looks:
    for stuff, number, op in times_used(recipe):
        has = stuff.facts.get("count", 1)
        if stuff.kind != "touch" and number > has:
            yield Found(
                op.at,
                f"{number} of {stuff.name} are used, and {has} {'is' if has == 1 else 'are'} listed",
                f"write `{number} of` behind {stuff.name}",
                beside=[(stuff.at, f"{has} {'is' if has == 1 else 'are'} listed here")],
                mends=stuff.listed(number),
            )


RULES = (piece_wider_than_cloth, webbing_of_another_width, not_enough_cloth, not_enough_length, more_used_than_listed)
