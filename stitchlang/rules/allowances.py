"""Family: allowance.  Every edge has one fate, and the cloth for it."""

from __future__ import annotations

from ..model.outline import neighbours, stitched
from ..speech import edges_of
from .lengths import allowed, has_fate, lever, remedy, whole
from .names import FLAG, slips, this_one
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..ground.working import Working
    from ..model.outline import Edge, Fate
    from ..model.recipe import Op, Recipe
    from ..model.things import Piece, Zip
    from .rule import Looks

BAG = "piece front, back of sail: 10 x 12\njoin front to back along sides, bottom as bag\n"
USUAL = {"in": "1/2", "cm": "1", "mm": "10"}  # an allowance for instance
# What an edge goes into once, and what that is called.
ONE_EACH = {"seam": "a seam", "hem": "a hem", "bound": "a binding", "raw": "a raw edge", "turned": "a turned edge"}


@rule(
    why="Without an allowance nobody knows where to stitch.",
    mend="State the recipe's allowance once, or write `at` and a length behind the join.",
    trips='units in\ncloth sail: "sailcloth"\n' + BAG + "hem bag.rim by 1/2",
    passes='units in\nallowance 1/2\ncloth sail: "sailcloth"\n' + BAG + "hem bag.rim by 1/2",
    opening="",
)
def allowance_unsaid(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "allowance-unsaid"):
        usual = USUAL[recipe.unit_at(slip.at)]
        yield Found(
            slip.at,
            f"this seam has no allowance, and {whole(recipe)} states none",
            f"add a line `allowance {usual}` at the top, or write `at {usual}` here",
        )


def needs_fate(piece: Piece) -> list[Edge]:
    """The edges of a piece that somebody cut: webbing is woven to its width."""
    woven = ("left", "right") if piece.woven else ()
    return [edge for edge in piece.edges if edge.name not in woven and not edge.arm]


@rule(
    why="Every cut edge is sewn, hemmed, bound, caught or left raw on purpose; a forgotten one frays.",
    mend="Join, hem or baste the edge, or write that it is left raw.",
    trips=BAG,
    passes=BAG + "hem bag.rim by 1/2",
    whole=True,
)
def edge_without_fate(recipe: Recipe) -> Looks:
    for piece in recipe.pieces:
        bare = list(dict.fromkeys(edge.name for edge in needs_fate(piece) if not has_fate(edge)))
        if bare and piece.used_by:
            yield Found(
                piece.at,
                f"nothing is said of {edges_of(piece, bare)}",
                f"join, hem or baste {'it' if len(bare) == 1 else 'them'}, "
                f"or write `leave {piece.name}.{', '.join(bare)} raw`",
            )


@rule(
    why="An edge can be taken into one seam or hem only.",
    mend="Take one of the two statements out, or name the edge that was meant.",
    trips=BAG + "hem bag.rim by 1/2\nhem front.top by 1/4",
    passes=BAG + "hem bag.rim by 1/2",
)
def edge_with_two_fates(recipe: Recipe) -> Looks:
    told = set()
    for edge in every_edge(recipe):
        taken: dict[Op, Fate] = {}
        for fate in edge.all_fates():
            if fate.kind in ONE_EACH:
                taken.setdefault(fate.op, fate)
        if len(taken) > 1:
            first, second = sorted(taken, key=lambda op: op.number)[:2]
            if (first, second) not in told:
                told.add((first, second))
                yield Found(
                    second.at,
                    f"{edge.title} goes into two: {ONE_EACH[taken[first].kind]} and {ONE_EACH[taken[second].kind]}",
                    "take one of the two out, or name another edge",
                    beside=[(first.at, f"{edge.title} is taken here first")],
                )


def every_edge(recipe: Recipe) -> Iterator[Edge]:
    """All cut edges, the halves of folded ones in place of the whole."""
    things: list[Piece | Zip] = [*recipe.pieces, *(thing for thing in recipe.things.values() if thing.kind == "zip")]
    for thing in things:
        yield from every_edge_of(thing)


def every_edge_of(piece: Piece | Zip) -> Iterator[Edge]:
    """The edges of a piece; of a folded one, those of its faces, of a strip the strip's own."""
    folded = piece.inside
    yield from (edge for edge in piece.edges if not edge.halves)
    if folded is not None and folded.kind in ("folded", "strip"):
        for face in folded.faces if folded.kind == "folded" else (folded,):
            yield from face.edges


@rule(
    why="Where the allowances take all the cloth, nothing is left to see.",
    mend="Cut the piece larger, or take less.",
    trips="""
        piece front, back of sail: 1 x 12
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes=BAG + "hem bag.rim by 1/2",
    waits=("piping-too-narrow", "overlap-takes-all"),
)
def allowance_wider_than_piece(recipe: Recipe) -> Looks:
    for piece in recipe.pieces:
        for edge in every_edge_of(piece):
            length = None if edge.arm or edge.arc or edge.taken_up else stitched(edge)
            if length is None or length.mm > 0 or not has_fate(edge):
                continue
            taken = recipe.say(edge.cut.mm - length.mm)
            yield Found(
                piece.at,
                f"what is taken at both ends of {edge.title}, {taken}, leaves nothing of its {recipe.say(edge.cut)}",
                least_size(recipe, length),
                working=(length,),
            )
            break


def least_size(recipe: Recipe, length: Working) -> str:
    """How large to cut so that anything is left."""
    found_lever = lever(length)
    if found_lever is None:
        return "cut it larger, or take less"
    factor, leaf = found_lever
    name, _, kind = leaf.says.partition(" is ")
    return f"cut {name} more than {recipe.say(leaf.mm - length.mm / factor)} {kind}, or take less"


@rule(
    why="Topstitching holds down the allowance beneath it; farther out it catches nothing.",
    mend="Stitch nearer to the seam, or take a wider allowance.",
    trips=BAG + "hem bag.rim by 1/2\ntopstitch bag.rim at 3/4",
    passes=BAG + "hem bag.rim by 1/2\ntopstitch bag.rim at 3/8",
    waits=("allowance-unsaid",),
)
def topstitching_beyond_allowance(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        at = op.parts.get("at") if op.verb == "topstitch" else None
        if at is None:
            continue
        for chain in op.parts["chains"]:
            fate = next(
                (
                    fate
                    for link in chain.links
                    for fate in link.all_fates()
                    if fate.kind in ("seam", "hem", "turned") and fate.allowance is not None
                ),
                None,
            )
            if fate is not None and at.mm > fate.allowance.mm:
                most = recipe.say(fate.allowance)
                yield Found(
                    at.at,
                    f"topstitching at {recipe.say(at)} runs {recipe.say(at.mm - fate.allowance.mm)} beyond "
                    f"the {most} of cloth turned beneath {chain.title}",
                    f"stitch at less than {most} from the edge",
                    beside=[(fate.allowance.at or fate.op.at, f"the {fate.kind} allowance is {most}")],
                )


@rule(
    why="Basting beyond the seam line shows on the finished bag.",
    mend="Baste inside the seam allowance.",
    trips="""
        piece front, back of sail: 10 x 12
        piece badge of sail: 10 x 4
        hem badge.top by 1/2
        leave badge.bottom raw
        baste badge sides to front sides, at 3/4
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece front, back of sail: 10 x 12
        piece badge of sail: 10 x 4
        hem badge.top by 1/2
        leave badge.bottom raw
        baste badge sides to front sides, at 1/4
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    severity="doubt",
    waits=("allowance-unsaid",),
)
def basting_beyond_allowance(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        at = op.parts.get("at") if op.verb == "baste" else None
        if at is None:
            continue
        for chain in op.parts["onto"]:
            fate = chain.links[0].fate("seam") if chain.links else None
            bound = fate and fate.op.parts.get("binding") is not None  # the binding covers it
            if fate and not bound and fate.allowance is not None and at.mm > fate.allowance.mm:
                yield Found(
                    at.at,
                    f"basting at {recipe.say(at)} shows beside the seam, which takes {recipe.say(fate.allowance)}",
                    f"baste at less than {recipe.say(fate.allowance)}",
                    beside=[(fate.op.at, "the seam is sewn here")],
                )
                break


@rule(
    why="A layer basted on all round must fit the panel, or it puckers in the seam.",
    mend="Cut the layer to the panel's size.",
    trips="""
        piece front, back of sail: 10 x 12
        piece firm of sail: 11 x 12
        baste firm edges to back edges, at 1/8
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece front, back of sail: 10 x 12
        piece firm of sail: 10 x 12
        baste firm edges to back edges, at 1/8
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    severity="doubt",
    whole=True,
)
def basted_layer_differs(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        pairs = zip(op.parts["chains"], op.parts["onto"], strict=False) if op.verb == "baste" else ()
        for chain, host in pairs:
            edge = chain.links[0] if len(chain.links) == 1 else None
            # Only where both neighbours are caught too is the layer held at both ends of the edge.
            if edge is None or not host.links or not all(other.fate("caught") for other in neighbours(edge)):
                continue
            one, two = chain.stitched(), host.stitched()
            if abs(one.mm - two.mm) > allowed(recipe, one, two):
                gap = abs(one.mm - two.mm)
                words, _ = remedy(recipe, one, gap, -1 if one.mm > two.mm else 1)
                yield Found(
                    chain.at,
                    f"{chain.title} is {recipe.say(one)} between its seams and {host.title} {recipe.say(two)}: "
                    f"they differ by {recipe.say(gap)}",
                    f"make {words}" if words else "cut the layer to the panel's size",
                    beside=[(host.panel.at, f"{host.title} comes to {recipe.say(two)}")],
                    working=(one, two),
                )
                break


@rule(
    why="Scissors take cloth away; they add none.",
    mend="Cut the pieces larger, or trim to a smaller size.",
    trips="piece flag of sail: 10 x 12\ntrim flag.bottom to 12 1/2 tall\nhem flag edges by 1/2",
    passes="piece flag of sail: 10 x 12\ntrim flag.bottom to 11 1/2 tall\nhem flag edges by 1/2",
)
def trim_adds_cloth(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "trim-adds-cloth"):
        words, _ = remedy(recipe, slip.now, slip.short, 1)
        yield Found(
            slip.at,
            f"trimming {slip.chain.title} so would have to add {recipe.say(slip.short)}: "
            f"it is only {recipe.say(slip.now)}",
            f"cut {words or recipe.say(slip.short) + ' more'}, or trim to {recipe.say(slip.now)} or less",
            beside=[(slip.chain.panel.at, this_one(slip.chain.panel))],
            working=(slip.now,),
        )


@rule(
    why="Cut back, a side that ends in a round or a slanted corner is another length: how much is not worked out here.",
    mend="State the piece as it is once it is trimmed.",
    trips="piece flag of sail: 10 x 12, bottom corners rounded 2\ntrim flag.bottom by 1\nhem flag edges by 1/2",
    passes="piece flag of sail: 10 x 11, bottom corners rounded 2\nhem flag edges by 1/2",
    severity="doubt",
)
def trim_at_no_square_corner(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "trim-at-no-square-corner"):
        panel = slip.chain.panel
        yield Found(
            slip.at,
            f"{slip.chain.title} does not end in square corners: what a trim leaves of its neighbours is not known",
            f"state {panel.name} as it is once it is trimmed, and take this step out",
            beside=[(panel.at, this_one(panel))],
        )


@rule(
    why="Only a seam can be pressed open or to one side.",
    mend="Press after the seam is sewn, or write `under by` to press an edge under.",
    trips=FLAG + "press flag.top open",
    passes=FLAG,
)
def no_seam_to_press(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "no-seam-to-press"):
        yield Found(slip.at, f"{slip.chain.title} lies in no seam", "sew the seam first, or press the edge `under by`")


RULES = (
    allowance_unsaid,
    edge_without_fate,
    edge_with_two_fates,
    allowance_wider_than_piece,
    topstitching_beyond_allowance,
    basting_beyond_allowance,
    basted_layer_differs,
    trim_adds_cloth,
    trim_at_no_square_corner,
    no_seam_to_press,
)
