"""Family: placing.  What is sewn onto a panel lies on it, clear of seams and notches."""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import MM, SAME
from ..model.drawn import drawn, gaps, reach
from ..model.measures import measure
from ..model.notches import all_notches
from ..model.placing import box_on
from ..model.things import MIRRORED, cut_size
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..ground.working import Working
    from ..model.drawn import Drawn, Gap
    from ..model.kinds import AnyThing
    from ..model.notches import Notch
    from ..model.placing import Box
    from ..model.recipe import Op, Recipe
    from .rule import Looks

LEAST_NEAR = MM["in"] / 128  # nearer than a ruler tells is not too near
POCKET = """
    piece front, back of sail: 10 x 12
    piece patch of sail: 6 x 6
    hem patch.top by 1
    press patch.left, bottom, right under by 1/2
    {}
    notch front, back at bottom corners by 2
    join front to back along sides, bottom as bag
    box bag
    hem bag.rim by 1/2
"""


def pockets(recipe: Recipe) -> list[tuple[Op, AnyThing, Box]]:
    """(statement, panel, rectangle on it) for everything placed: a list, made once."""
    if recipe.placed is None:
        recipe.placed = list(placed(recipe))
    return recipe.placed


def placed(recipe: Recipe) -> Iterator[tuple[Op, AnyThing, Box]]:
    """What is placed where, in the order written."""
    for op in recipe.ops:
        if op.verb != "place" or not op.parts.get("told"):  # where it lies is not known
            continue
        item, panel = op.parts["item"], op.parts["panel"]
        wide, tall = measure(item, "wide"), measure(item, "tall")
        if wide is None or tall is None or hangs_over(item, panel, tall):
            continue
        box = box_on(panel, op.parts["spot"], wide, tall)
        if box is not None:
            yield op, panel, box


def edge_words(name: str) -> str:
    """`the left edge`, `the bottom left corner`; the edge of a circle."""
    if name == "edge":
        return "the edge"
    return f"the {name.replace('_', ' ')} {'corner' if name in MIRRORED else 'edge'}"


def hangs_over(item: AnyThing, panel: AnyThing, long: Working) -> bool:
    """Whether it is a strap or tie longer than the panel: held in the middle, or up the panel and out over its rim."""
    height = cut_size(panel, "left")
    return item.long and height is not None and long.mm > height.mm


def seam_at(panel: AnyThing, side: str) -> tuple[Fraction, Op | None]:
    """The allowance taken at a side of a panel, in millimetres, and the statement that takes it."""
    links = panel.side(side) or ()
    taken = [(link.allowance(), link) for link in links]
    if not taken:
        return Fraction(0), None
    most, link = max(taken, key=lambda pair: pair[0].mm)
    fates = [fate for fate in link.all_fates() if fate.allowance is not None]
    return most.mm, fates[0].op if fates else None


def outside(panel: AnyThing, box: Box) -> Gap | None:
    """The Gap at the edge that a rectangle passes farthest, or None."""
    past = [gap for gap in gaps(panel, box) if gap.inside < -SAME]
    return min(past, key=lambda gap: gap.inside) if past else None


@rule(
    why="A pocket is sewn onto cloth, not onto air.",
    mend="Move the pocket, or make it smaller.",
    trips=POCKET.format("place patch on front, centred, 8 below top, sewn along sides, bottom"),
    passes=POCKET.format("place patch on front, centred, 3 below top, sewn along sides, bottom"),
)
def pocket_outside_panel(recipe: Recipe) -> Looks:
    for op, panel, box in pockets(recipe):
        past = outside(panel, box)
        if past is not None:
            by, item = -past.inside, op.parts["item"]
            yield Found(
                op.parts["spot"].at,
                f"{item.name} reaches {recipe.say(by)} past {edge_words(past.name)} of {panel.name}",
                f"move it by {recipe.say(by)} or more, or make it {recipe.say(by)} smaller",
                beside=[
                    (item.at, f"{item.name} is {size_of(recipe, box)} finished"),
                    (panel.at, f"this is {panel.name}"),
                ],
            )


def size_of(recipe: Recipe, box: Box) -> str:
    """`6 in by 5 in`."""
    return f"{recipe.say(box.right.mm - box.left.mm)} by {recipe.say(box.top.mm - box.bottom.mm)}"


@rule(
    why="A pocket that runs over a seam allowance is sewn into the seam.",
    mend="Move it inside the stitch line, or make it smaller.",
    trips=POCKET.format("place patch on front, 1/4 from left, 3 below top, sewn along sides, bottom"),
    passes=POCKET.format("place patch on front, 1 from left, 3 below top, sewn along sides, bottom"),
)
def pocket_over_allowance(recipe: Recipe) -> Looks:
    for op, panel, box in pockets(recipe):
        if outside(panel, box) is not None:
            continue
        for gap in gaps(panel, box):
            short = gap.taken - gap.inside
            if short > LEAST_NEAR and not caught_there(op.parts["item"], gap.name):
                item, where = op.parts["item"], edge_words(gap.name)
                seam = seam_at(panel, gap.name)[1]
                on_edge = f"; to have the seam catch it, baste {item.name}.{gap.name} to {panel.name}.{gap.name}"
                yield Found(
                    op.parts["spot"].at,
                    f"{item.name} lies {recipe.say(gap.inside)} from {where} of {panel.name}, "
                    f"where {recipe.say(gap.taken)} goes into a seam or hem: {recipe.say(short)} too near",
                    f"move it {recipe.say(short)} away from {where}, or make it that much smaller"
                    + (on_edge if gap.inside == 0 and gap.name not in MIRRORED else ""),
                    beside=[(seam.at if seam else None, f"{recipe.say(gap.taken)} is taken here")],
                )


def caught_there(item: AnyThing, side: str) -> bool:
    """Whether the item's own edge on that side is meant to lie in the seam."""
    return any(edge.fate("caught") for edge in item.side(side) or ())


@rule(
    why="A pocket over a notch loses its corner to the boxing seam.",
    mend="Raise the pocket, or make it narrower.",
    trips=POCKET.format("place patch on front, 1 from left, 5 1/2 below top, sewn along sides, bottom"),
    passes=POCKET.format("place patch on front, 1 from left, 3 below top, sewn along sides, bottom"),
)
def pocket_over_notch(recipe: Recipe) -> Looks:
    for op, panel, box in pockets(recipe):
        if outside(panel, box) is not None:
            continue
        for corner, notch in all_notches(panel).items():
            across, up = (size.mm + notch.across.allowance().mm for size in notch.sizes)
            level = corner.split("_")[0]
            aside, over = from_corner(panel, corner, box)
            if aside < across and over < up:
                item = op.parts["item"]
                yield Found(
                    op.parts["spot"].at,
                    f"{item.name} runs {recipe.say(up - over)} over the boxed "
                    f"{corner.replace('_', ' ')} corner of {panel.name}",
                    f"move it {recipe.say(up - over)} {'up' if level == 'bottom' else 'down'}, or make it narrower",
                    beside=[(notch.op.at, "the corner is notched here")],
                )
                break


@rule(
    why="Below the line where the base begins a pocket lies under the bag.",
    mend="Raise the pocket above the base.",
    trips="""
        piece front, back of sail: 10 x 12
        piece patch of sail: 4 x 6
        hem patch.top by 1
        press patch.left, bottom, right under by 1/2
        place patch on front, centred, 2 above bottom, sewn along sides, bottom
        notch front, back at bottom corners by 2
        join front to back along sides, bottom as bag
        box bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece front, back of sail: 10 x 12
        piece patch of sail: 4 x 6
        hem patch.top by 1
        press patch.left, bottom, right under by 1/2
        place patch on front, centred, 3 above bottom, sewn along sides, bottom
        notch front, back at bottom corners by 2
        join front to back along sides, bottom as bag
        box bag
        hem bag.rim by 1/2
    """,
    severity="doubt",
)
def pocket_below_base(recipe: Recipe) -> Looks:
    for op, panel, box in pockets(recipe):
        base = base_line(panel)
        if base is None or box.bottom.mm >= base[0] or outside(panel, box) is not None:
            continue
        if any(aside_of(panel, notch, box) for notch in all_notches(panel).values()):
            continue
        item = op.parts["item"]
        yield Found(
            op.parts["spot"].at,
            f"{item.name} reaches {recipe.say(base[0] - box.bottom.mm)} below the line "
            f"where the base of the bag begins",
            f"raise it by {recipe.say(base[0] - box.bottom.mm)}",
            beside=[(base[1].at, "the base is made here")],
        )


def base_line(panel: AnyThing) -> tuple[Fraction, Op] | None:
    """How high above the cut bottom edge the base begins, and the statement that makes it."""
    for notch in all_notches(panel).values():
        if notch.corner.startswith("bottom"):
            return notch.sizes[1].mm + notch.across.allowance().mm, notch.op
    shell = panel.inside
    if shell is not None and shell.kind == "shell" and shell.pinch is not None:
        return seam_at(panel, "bottom")[0] + shell.pinch.mm / 2, shell.made_by
    return None


def outline_under(panel: AnyThing) -> Drawn:
    """The outline of a panel with a rectangle on it: where there is none, no rectangle was found."""
    outline = drawn(panel)
    assert outline is not None, panel
    return outline


def from_corner(panel: AnyThing, corner: str, box: Box) -> tuple[Fraction, Fraction]:
    """How far a rectangle lies from the uncut corner of a panel, across and up, in millimetres."""
    outline = outline_under(panel)
    level, upright = corner.split("_")
    left, right = reach(outline, Fraction(0) if level == "bottom" else outline.height)
    aside = box.left.mm - left if upright == "left" else right - box.right.mm
    return aside, box.bottom.mm if level == "bottom" else outline.height - box.top.mm


def aside_of(panel: AnyThing, notch: Notch, box: Box) -> bool:
    """Whether a rectangle comes as near the side as the notch reaches."""
    return from_corner(panel, notch.corner, box)[0] < notch.sizes[0].mm + notch.across.allowance().mm


@rule(
    why="Compartments are stitched on the pocket, so they add up to its width.",
    mend="Move the row inside the pocket.",
    trips=POCKET.format(
        "place patch on front, centred, 3 below top, sewn along sides, bottom\n    divide patch 7 from left"
    ),
    passes=POCKET.format(
        "place patch on front, centred, 3 below top, sewn along sides, bottom\n    divide patch 2 from left"
    ),
)
def row_outside_pocket(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        pocket = op.parts["pocket"] if op.verb == "divide" else None
        width = measure(pocket, "wide") if pocket is not None else None
        if pocket is None or width is None:
            continue
        for side, length in op.parts["rows"]:
            if length.mm >= width.mm:
                over = length.mm - width.mm
                how = f"misses it by {recipe.say(over)}" if over else "runs along its other side"
                wide = f"{pocket.name}, {recipe.say(width)} wide finished"
                yield Found(
                    length.at,
                    f"a row {recipe.say(length)} from the {side} of {wide}, {how}",
                    f"stitch at less than {recipe.say(width)}",
                    beside=[(pocket.at, f"this is {pocket.name}")],
                )


RULES = (
    pocket_outside_panel,
    pocket_over_allowance,
    pocket_over_notch,
    pocket_below_base,
    row_outside_pocket,
)
