"""Family: length, shaped edges.  Gathers, pleats, darts and ease, and what they can ask of an edge."""

from __future__ import annotations

from fractions import Fraction

from .names import slips
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..ground.working import Working
    from ..model.recipe import Op, Recipe
    from ..model.seams import Chain
    from .rule import Looks

# Gathers of 1.5 to 3 times the finished length are usual (stitchcoach.blogspot.com/2017/01); fuller ones bunch.
FULLEST = 3
# More than a twentieth of an edge can hardly be eased in without a pucker (our own threshold; cloth differs).
EASED = Fraction(1, 20)
SHAPED = """
    piece front of sail: {} x 12
    piece back of sail: 10 x 12
    {}
    join front to back along sides, bottom as bag
    hem bag.rim by 1/2
"""


def shaped(recipe: Recipe, *verbs: str) -> Iterator[tuple[Op, Chain, Working, Working]]:
    """(statement, chain, length before, length taken up) for every edge that is shaped."""
    for op in recipe.ops:
        if op.verb in verbs:
            for chain, held in op.parts.get("taken", ()):
                yield op, chain, op.parts["full"][chain], held


@rule(
    why="An edge is gathered to less than it has; what is as short already needs no gathering.",
    mend="Gather to a shorter length, or cut the edge longer.",
    trips=SHAPED.format(10, "gather front.top to 9\n    gather front.bottom to 9"),
    passes=SHAPED.format(20, "gather front.top to 9\n    gather front.bottom to 9"),
    whole=True,
)
def nothing_to_gather(recipe: Recipe) -> Looks:
    for op, chain, full, held in shaped(recipe, "gather"):
        if held.mm <= 0:
            to = op.parts["to"]
            yield Found(
                to.at,
                f"{chain.title} is {recipe.say(full)} on its stitch line and is to be gathered to {recipe.say(to)}",
                f"gather it to less than {recipe.say(full)}, or cut {chain.panel.name} longer there",
                beside=[(chain.panel.at, f"this is {chain.panel.name}")],
                working=(full,),
            )


@rule(
    why="Gathers fuller than three to one bunch up and will not go under the foot.",
    mend="Cut the gathered edge shorter.",
    trips=SHAPED.format(40, "gather front.top to 9\n    gather front.bottom to 9"),
    passes=SHAPED.format(20, "gather front.top to 9\n    gather front.bottom to 9"),
    severity="doubt",
    whole=True,
)
def gathered_too_full(recipe: Recipe) -> Looks:
    for op, chain, full, _ in shaped(recipe, "gather"):
        to = op.parts["to"]
        if full.mm > FULLEST * to.mm:
            yield Found(
                to.at,
                f"{recipe.say(full)} of {chain.title} is gathered into {recipe.say(to)}: "
                f"{float(full.mm / to.mm):.1f} to one",
                f"cut it {recipe.say(full.mm - FULLEST * to.mm)} shorter or more: 1 1/2 to 3 to one is usual",
                beside=[(chain.panel.at, f"this is {chain.panel.name}")],
                working=(full,),
            )


@rule(
    why="Ease is what the feed and the fingers can hide; more of it puckers.",
    mend="Ease less, or gather, or cut the edges nearer to each other.",
    trips="""
        piece front of sail: 10 x 12
        piece back of sail: 10 x 13
        ease back sides by 1
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece front of sail: 10 x 12
        piece back of sail: 10 x 12 1/4
        ease back sides by 1/4
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    severity="doubt",
    whole=True,
)
def eased_too_much(recipe: Recipe) -> Looks:
    told = set()
    for op, chain, full, held in shaped(recipe, "ease"):
        if held.mm > EASED * full.mm and op not in told:
            told.add(op)
            yield Found(
                op.parts["by"].at,
                f"{recipe.say(held)} eased into {chain.title}, {recipe.say(full)} long: more than a twentieth of it",
                f"ease {recipe.say(EASED * full.mm)} at most, or gather it",
                beside=[(chain.panel.at, f"this is {chain.panel.name}")],
            )


@rule(
    why="Pleats and darts take cloth from an edge, and something must be left of it.",
    mend="Make fewer, or shallower ones, or cut the edge longer.",
    trips=SHAPED.format(10, "pleat front.top in 5 knife, 1 deep\n    pleat front.bottom in 5 knife, 1 deep"),
    passes=SHAPED.format(14, "pleat front.top in 2 knife, 1 deep\n    pleat front.bottom in 2 knife, 1 deep"),
    whole=True,
)
def pleats_take_the_whole_edge(recipe: Recipe) -> Looks:
    for op, chain, full, held in shaped(recipe, "pleat", "dart", "ease"):
        if held.mm >= full.mm:
            yield Found(
                op.at,
                f"{chain.title} is {recipe.say(full)} on its stitch line, and {recipe.say(held)} of it is taken up",
                f"take up less than {recipe.say(full)}, or cut {chain.panel.name} longer there",
                beside=[(chain.panel.at, f"this is {chain.panel.name}")],
                working=(full, held),
            )


@rule(
    why="A pleat hides behind what lies beside it; deeper than that it lies on the next pleat, three layers more.",
    mend="Make them shallower, or fewer, or cut the edge longer.",
    trips=SHAPED.format(30, "pleat front.top in 2 knife, 5 deep\n    pleat front.bottom in 4 knife, 2 1/2 deep"),
    passes=SHAPED.format(14, "pleat front.top in 2 knife, 1 deep\n    pleat front.bottom in 1 box, 1 deep"),
    severity="doubt",
    whole=True,
)
def pleats_overlap(recipe: Recipe) -> Looks:
    for op, chain, full, held in shaped(recipe, "pleat"):
        width = {"box": 2, "inverted": 2}.get(op.parts["kind"], 1) * op.parts["count"] * op.parts["deep"].mm
        left = full.mm - held.mm
        if 0 < left < width:
            yield Found(
                op.parts["deep"].at,
                f"the pleats lie {recipe.say(width)} wide behind {chain.title}, and {recipe.say(left)} of it is left",
                f"make them {recipe.say(left / (width / op.parts['deep'].mm))} deep or less",
                beside=[(chain.panel.at, f"this is {chain.panel.name}")],
                working=(full, held),
            )


@rule(
    why="A dart ends inside the panel; a longer one runs out at the other side.",
    mend="Make the dart shorter.",
    trips="""
        piece front, back of sail: 12 x 5
        dart front.bottom by 1, 6 long
        dart back.bottom by 1, 3 long
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece front, back of sail: 12 x 5
        dart front.bottom by 1, 3 long
        dart back.bottom by 1, 3 long
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
)
def dart_longer_than_panel(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        long = op.parts.get("long") if op.verb == "dart" else None
        if long is None:
            continue
        for chain in op.parts["chains"]:
            panel = chain.panel
            size = getattr(panel, "height" if chain.name in ("top", "bottom") else "width", None)
            if size is not None and long.mm >= size.mm:
                yield Found(
                    long.at,
                    f"the dart is {recipe.say(long)} long and {panel.name} {recipe.say(size)}",
                    f"make it shorter than {recipe.say(size)}",
                    beside=[(panel.at, f"this is {panel.name}")],
                )


@rule(
    why="An outline is closed, and runs clockwise, so that its inside lies on the right.",
    mend="Name at least three corners, clockwise, none twice, and no corner in the middle of a straight side.",
    trips="piece flag of sail: polygon 0 x 0 left, 10 x 0 bottom, 10 x 8 right, 0 x 8 top\nhem flag edges by 1/2",
    passes="piece flag of sail: polygon 0 x 8 top, 10 x 8 right, 10 x 0 bottom, 0 x 0 left\nhem flag edges by 1/2",
)
def outline_not_closed(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "outline-not-closed"):
        yield Found(
            slip.at,
            f"these corners are no outline of {slip.piece.name}: they run the wrong way round, pass one place twice, "
            f"lie in one line, or the sides cross",
            "name the corners clockwise, beginning at the top left, y counted upward",
        )


@rule(
    why="A corner cut off, or a point, takes from the sides beside it, and something must be left of them.",
    mend="Take less.",
    trips="piece flag of sail: 10 x 12, bottom pointed 12\nhem flag edges by 1/2",
    passes="piece flag of sail: 10 x 12, bottom pointed 3\nhem flag edges by 1/4",
)
def corner_too_large(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "corner-too-large"):
        yield Found(
            slip.at,
            f"{recipe.say(slip.size)} taken at the corners leaves nothing of {slip.piece.name}, "
            f"which is {recipe.say(slip.most)}",
            f"take less than {recipe.say(slip.most)}; of two corners, less than half of it each",
        )


@rule(
    why="Corners are rounded, clipped or pointed, and halves drawn on a fold, of a piece stated across x up: another "
    "stays as it is.",
    mend="State the outline as a polygon, or leave it out.",
    trips="piece flag of sail: 12 at top, 9 at bottom, 10 tall, bottom corners clipped 2\nhem flag edges by 1/2",
    passes="piece flag of sail: 12 x 10, bottom corners clipped 2\nhem flag edges by 1/2",
)
def fact_of_a_rectangle(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "fact-of-a-rectangle"):
        shape, said = slip.piece.shape, " ".join(recipe.source.cut(slip.at).split())
        what = "tapered" if shape == "tapered" else f"a {shape}"
        yield Found(
            slip.at,
            f"`{said}` goes with a piece stated across x up; {slip.piece.name} is {what}, and nothing comes of it",
            "leave this out" if shape == "circle" else "state the outline as a polygon, or leave this out",
            beside=[(slip.piece.at, f"this is {slip.piece.name}")],
        )


RULES = (
    nothing_to_gather,
    gathered_too_full,
    eased_too_much,
    pleats_take_the_whole_edge,
    pleats_overlap,
    dart_longer_than_panel,
    outline_not_closed,
    corner_too_large,
    fact_of_a_rectangle,
)
