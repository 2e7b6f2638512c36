"""Family: placing, overlaps.  Two things on one panel keep clear of one another, and metal of the needle."""

from __future__ import annotations

from ..ground.lengths import SAME
from ..ground.working import NOTHING, Working
from ..model.drawn import gaps
from ..model.placing import Box, box_on
from .placing import POCKET, outline_under, pockets
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction

    from ..ground.lengths import Rational
    from ..model.kinds import AnyThing
    from ..model.outline import Edge
    from ..model.recipe import Op, Recipe
    from .rule import Looks

LAYERS = ("batting", "interfacing")
THROUGH = ("rivet", "eyelet")
HARD = ("snap", "button", "rivet", "eyelet")
SNAPPED = """
    snap clasp: press, 1/2 across
    piece front, back of sail: 10 x 12
    set clasp on front and back, centred, {} below top
    hem front.top, back.top by 1/2 then 1
    join front to back along sides, bottom as bag
"""


class Held:
    """Something that covers a rectangle of a panel: what, where, and by which statement.

    `through` is what goes over or through others on purpose: straps that hide the edges of a pocket, and rivets.
    """

    __slots__ = ("name", "op", "panel", "box", "through")

    def __init__(self, name: str, op: Op, panel: AnyThing, box: Box, through: bool = False) -> None:
        self.name = name
        self.op = op
        self.panel = panel
        self.box = box
        self.through = through


def sewn_on(recipe: Recipe) -> Iterator[Held]:
    """What is placed on panels, layers that fill the whole panel left out."""
    for op, panel, box in pockets(recipe):
        item = op.parts["item"]
        layer = item.stuff is not None and item.stuff.kind in LAYERS
        if not layer and any(gap.inside > gap.taken + SAME for gap in gaps(panel, box)):
            yield Held(item.name, op, panel, box, item.long)


def fitted(recipe: Recipe) -> Iterator[Held]:
    """What is set on panels: its middle at the spot, as wide as it is across, and its mirror image."""
    for op in recipe.ops:
        thing = op.parts["snap"] if op.verb == "set" else None
        if thing is None or thing.kind not in HARD:
            continue
        across = thing.facts.get("across", NOTHING).mm
        for panel in op.parts["panels"]:
            middle = box_on(panel, op.parts["spot"], NOTHING, NOTHING)
            if middle is None:
                continue
            for x in middles(panel, op, middle):
                yield Held(thing.name, op, panel, round_about(x, middle.top.mm, across), thing.kind in THROUGH)


def middles(panel: AnyThing, op: Op, middle: Box) -> set[Fraction]:
    """Where across the panel a fitting sits: at one place, or at two where it is mirrored."""
    x = middle.left.mm
    return {x, outline_under(panel).width - x} if op.parts["mirrored"] else {x}


def round_about(x: Fraction, y: Fraction, across: Fraction) -> Box:
    """The square that a round thing covers."""
    half = across / 2
    return Box(*(Working(value, "fitting") for value in (x - half, x + half, y - half, y + half)))


def overlap(one: Box, other: Box) -> Fraction:
    """How far two rectangles lie over one another, the lesser way; nothing or less where they are clear."""
    across = min(one.right.mm, other.right.mm) - max(one.left.mm, other.left.mm)
    up = min(one.top.mm, other.top.mm) - max(one.bottom.mm, other.bottom.mm)
    return min(across, up)


@rule(
    why="One of two things at the same place is sewn shut, hidden or pierced by the other.",
    mend="Move one of them, or place it on the other and not on the panel.",
    trips=POCKET.format(
        "place patch on front, centred, 3 below top, sewn along sides, bottom\n"
        "    piece badge of sail: 4 x 4\n    press badge edges under by 1/2\n"
        "    place badge on front, 1 from left, 4 below top, sewn along edges"
    ),
    passes=POCKET.format(
        "place patch on front, centred, 3 below top, sewn along sides, bottom\n"
        "    piece badge of sail: 4 x 4\n    press badge edges under by 1/2\n"
        "    place badge on patch, centred, 2 below top, sewn along edges"
    ),
    severity="doubt",
)
def things_overlap(recipe: Recipe) -> Looks:
    held = sorted([*sewn_on(recipe), *fitted(recipe)], key=lambda one: one.op.number)
    for at, other in enumerate(held):
        for one in held[:at]:
            by = overlap(one.box, other.box) if one.panel is other.panel and one.op is not other.op else 0
            if by > SAME and not other.through:
                yield Found(
                    other.op.parts["spot"].at,
                    f"{other.name} lies {recipe.say(by)} over {one.name} on {one.panel.name}",
                    f"move it {recipe.say(by)} or more, or place one on the other",
                    beside=[(one.op.at, f"{one.name} is put on {one.panel.name} here")],
                )


def rows_along(recipe: Recipe) -> Iterator[tuple[Op, Edge, Working]]:
    """(statement, edge, how far from the finished edge) for each row stitched along an edge."""
    for op in recipe.ops:
        rows = []
        if op.verb == "hem" and op.parts["turns"]:
            rows = [op.parts["at"] or op.parts["turns"][-1]]
        elif op.verb == "topstitch" and op.parts.get("at") is not None:
            rows = [op.parts["at"]]
        elif op.verb == "channel":
            rows = [row for row in op.parts["rows"] if row.mm]
        links = (link for chain in op.parts["chains"] for link in chain.links) if rows else ()
        for edge in dict.fromkeys(edge for link in links for edge in sewn_with(recipe, link)):
            yield from ((op, edge, away) for away in rows)


def sewn_with(recipe: Recipe, edge: Edge) -> list[Edge]:
    """An edge, and the edges that lie in one seam with it."""
    together = [edge]
    for seam in recipe.seams:
        if any(edge in chain.links for chain in seam.sides):
            together += [link for chain in seam.sides for link in chain.links]
    return together


@rule(
    why="A needle that meets a snap breaks: a row runs clear of what is set before it.",
    mend="Set it farther from the edge, or after the row is stitched.",
    trips=SNAPPED.format("2 1/2"),
    passes=SNAPPED.format("3"),
    severity="doubt",
    waits=("snap-too-near-edge",),
)
def row_over_snap(recipe: Recipe) -> Looks:
    rows = list(rows_along(recipe))
    told = set()
    for held in fitted(recipe):
        for op, edge, away in rows:
            beside = edge.panel is held.panel and op.number > held.op.number
            by = across_row(held, edge, away) if beside else 0
            if by > SAME and (held.op, op) not in told:
                told.add((held.op, op))
                yield Found(
                    held.op.parts["spot"].at,
                    f"the row {recipe.say(away)} from the {edge.name} edge of {held.panel.name} runs over "
                    f"{held.name}, {recipe.say(by)} past its rim",
                    "set it midway between the rows of the channel"
                    if op.verb == "channel"
                    else f"set it {recipe.say(by)} farther from that edge, or after the row is stitched",
                    beside=[(op.at, "the row is stitched here")],
                )


def across_row(held: Held, edge: Edge, away: Working) -> Rational:
    """How far a row along an edge runs inside the rim of what is set: nothing where it passes clear of it."""
    box, outline = held.box, outline_under(held.panel)
    spans = {
        "top": (outline.height - box.top.mm, outline.height - box.bottom.mm),
        "bottom": (box.bottom.mm, box.top.mm),
        "left": (box.left.mm, box.right.mm),
        "right": (outline.width - box.right.mm, outline.width - box.left.mm),
    }
    near, far = (at - edge.allowance().mm for at in spans.get(edge.name, (0, 0)))
    return away.mm - near if near < away.mm < far else 0


RULES = (things_overlap, row_over_snap)
