"""Family: order.  What must come before what, and what is never reached."""

from __future__ import annotations

from .names import use_moved
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Container, Iterator

    from ..model.kinds import AnyThing
    from ..model.recipe import Op, Recipe
    from ..model.things import Piece
    from .rule import Looks

SAILED = """
    piece front, back of sail: 10 x 12
    piece patch of sail: 4 x 4
    hem patch edges by 1/2
    {}join front to back along sides, bottom as bag
    {}hem bag.rim by 1/2
"""
SET = "place patch on front, centred, 3 below top, sewn along sides, bottom\n    "


def late(recipe: Recipe, reasons: Container[str]) -> Iterator[tuple[Op, Op]]:
    """(statement, the one it must follow) wherever the writer's order has them the wrong way round."""
    for op in recipe.ops:
        for needed, reason in op.after.items():
            if needed.number > op.number and reason in reasons:
                yield op, needed


@rule(
    why="Once a panel is part of a bag its inside is out of reach: pockets, snaps and topstitching come first.",
    mend="Move the step above the one that closes the place.",
    trips=SAILED.format("", SET),
    passes=SAILED.format(SET, ""),
)
def place_sewn_shut(recipe: Recipe) -> Looks:
    told = set()
    for sealing, op in late(recipe, ("sealed",)):
        if op not in told:
            told.add(op)
            yield Found(
                op.at,
                f"{named(op)} cannot be reached any more: "
                f"{recipe.source.line_said(sealing.at.start, op.at.start)} puts "
                f"{'it' if len(op.things) < 2 else 'them'} out of reach",
                f"move this step above `{first_words(recipe, sealing)}`",
                beside=[(sealing.at, "this step closes it")],
            )


def named(op: Op) -> str:
    """What a statement works on, by name."""
    return " and ".join(thing.name for thing in op.things[:2]) or "the place"


def first_words(recipe: Recipe, op: Op) -> str:
    """The beginning of a statement, to point at it in words."""
    text = " ".join(recipe.source.cut(op.at).split())
    return text if len(text) <= 44 else text[:41] + "..."


# Why one statement must follow another, and how to say so.
LATE = {
    "made": "this step needs {what}, made only in {line}",
    "turned": "this is done after turning, which comes only in {line}",
    "trimmed": "this is measured from an edge that is trimmed only in {line}",
    "written": "this folds what {line} still works on",
}


@rule(
    why="Nothing can be sewn that has not been made.",
    mend="Move the step below the one that makes what it needs.",
    trips="""
        piece front, back of sail: 10 x 12
        hem bag.rim by 1/2
        join front to back along sides, bottom as bag
    """,
    passes="""
        piece front, back of sail: 10 x 12
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
)
def used_before_made(recipe: Recipe) -> Looks:
    for op, needed in late(recipe, LATE):
        line = recipe.source.line_said(needed.at.start, op.at.start)
        what = needed.makes.name if needed.makes is not None else "the step"
        yield Found(
            op.at,
            LATE[op.after[needed]].format(what=what, line=line),
            use_moved(recipe, op.at, needed.at) or f"move this step below `{first_words(recipe, needed)}`",
            beside=[(needed.at, "that step is here")],
        )


@rule(
    why="A strap is folded before its ends are basted or caught, or it is sewn in flat.",
    mend="Move the fold above the step that takes its ends.",
    trips="""
        piece front, back of sail: 10 x 12
        piece handle of sail: 4 x 20, cut 2
        baste handle.ends to front.top, back.top
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
        fold handle in quarters
    """,
    passes="""
        piece front, back of sail: 10 x 12
        piece handle of sail: 4 x 20, cut 2
        fold handle in quarters
        baste handle.ends to front.top, back.top
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
)
def folded_after_sewn_in(recipe: Recipe) -> Looks:
    for slip in recipe.slips.get("folded-after-sewn-in", ()):
        line = recipe.source.line_said(slip.first.at.start, slip.at.start)
        yield Found(
            slip.at,
            f"{slip.thing.name} is folded only after {line} has taken its ends",
            f"move this step above `{first_words(recipe, slip.first)}`",
            beside=[(slip.first.at, "its ends are taken here")],
        )


@rule(
    why="A piece cut once can be sewn on once.",
    mend="Cut another, or sew it on in one place.",
    trips="""
        piece front, back of sail: 10 x 12
        piece patch of sail: 4 x 4
        hem patch edges by 1/2
        place patch on front, centred, sewn along edges
        place patch on back, centred, sewn along edges
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece front, back of sail: 10 x 12
        piece patch of sail: 4 x 4, cut 2
        hem patch edges by 1/2
        place patch on front, centred, sewn along edges
        place patch on back, centred, sewn along edges
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
)
def piece_used_twice(recipe: Recipe) -> Looks:
    placed: dict[AnyThing, list[Op]] = {}
    for op in recipe.ops:
        if op.verb == "place" and op.parts["item"] is not None:
            placed.setdefault(op.parts["item"], []).append(op)
    for item, ops in placed.items():
        if len(ops) > item.count:
            yield Found(
                ops[item.count].at,
                f"{item.name} is cut {item.count} and sewn on {len(ops)} times",
                f"write `cut {len(ops)}`, or sew it on once",
                beside=[(ops[0].at, "it is sewn on here first")],
            )
    for slip in recipe.slips.get("slipped-twice", ()):
        yield Found(
            slip.at,
            f"{slip.shell.name} was slipped already",
            "take one of the two out",
            beside=[(slip.first.at, "here")],
        )


@rule(
    why="A step that joins one thing only joins nothing.",
    mend="Say what it is joined to, or fold it first.",
    trips="""
        piece front, back of sail: 10 x 12
        join front along sides
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece front, back of sail: 10 x 12
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
)
def joined_to_nothing(recipe: Recipe) -> Looks:
    for slip in recipe.slips.get("joined-to-nothing", ()):
        name = slip.panel.name if slip.panel is not None else "it"
        yield Found(slip.at, f"{name} is joined to nothing", "write `to` and the other edge, or fold the piece first")


@rule(
    why="Nothing is sewn, slipped or placed onto itself.",
    mend="Name the other thing.",
    trips="""
        piece front, back of sail: 10 x 12
        place front on front, centred
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece front, back of sail: 10 x 12
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
)
def worked_on_with_itself(recipe: Recipe) -> Looks:
    for slip in recipe.slips.get("worked-on-with-itself", ()):
        yield Found(
            slip.at, f"{slip.name} meets itself, or a part of itself, here", "name the other thing that was meant"
        )


@rule(
    why="What is made and neither joined to the rest nor promised as a good of its own was forgotten.",
    mend="Join it to the rest, or state its finished size.",
    trips="""
        piece front, back of sail: 10 x 12
        piece strap of sail: 4 x 20
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
        fold strap in quarters
        hem strap.ends by 1/2
    """,
    passes="""
        piece front, back of sail: 10 x 12
        piece strap of sail: 4 x 20
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
        fold strap in quarters
        hem strap.ends by 1/2
        finished strap: 1 wide, 19 long
        finished bag: 11 tall
    """,
    severity="doubt",
    whole=True,
)
def never_joined(recipe: Recipe) -> Looks:
    groups = clusters(recipe)
    promised: set[AnyThing | None] = {cluster_of(groups, claim.thing) for claim in recipe.claims}
    sizes: dict[AnyThing, list[Piece]] = {}
    for piece in recipe.pieces:
        if piece.used_by:
            sizes.setdefault(cluster_of(groups, piece), []).append(piece)
    main = promised or {max(sizes, key=lambda root: len(sizes[root]), default=None)}
    for root, pieces in sizes.items():
        if root not in main:
            names = " and ".join(f"`{piece.name}`" for piece in pieces[:3])
            yield Found(
                pieces[0].at,
                f"{names} {'is' if len(pieces) == 1 else 'are'} made and never joined to the rest",
                f"join or place it, or promise its size with `finished {pieces[0].name}: ...`",
            )


def clusters(recipe: Recipe) -> dict[AnyThing, AnyThing]:
    """Things that hang together: a dict from each thing to another of its cluster."""
    leader: dict[AnyThing, AnyThing] = {}
    for op in recipe.ops:
        things = [*op.things, *([op.makes] if op.makes is not None else [])]
        for thing in things[1:]:
            leader[cluster_of(leader, thing)] = cluster_of(leader, things[0])
    return leader


def cluster_of(leader: dict[AnyThing, AnyThing], thing: AnyThing) -> AnyThing:
    """The last thing that a thing's cluster leads to."""
    seen = thing
    while leader.get(seen, seen) is not seen:
        seen = leader[seen]
    return seen


@rule(
    why="Steps that each wait for the other can never be begun.",
    mend="Break the ring: do one of them on the open piece.",
    trips="""
        piece front, back of sail: 10 x 12
        join front to inner along sides, bottom as outer
        join back to outer along sides, bottom as inner
    """,
    passes="""
        piece front, back of sail: 10 x 12
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
)
def steps_go_round(recipe: Recipe) -> Looks:
    for slip in recipe.slips.get("steps-go-round", ()):
        yield Found(
            slip.at,
            f"this step needs `{slip.name}`, and `{slip.name}` is made from what this step makes",
            f"name here what is already there, instead of `{slip.name}`",
            beside=[(other, f"`{slip.name}` is made here") for other in slip.others],
        )


RULES = (
    place_sewn_shut,
    used_before_made,
    folded_after_sewn_in,
    piece_used_twice,
    joined_to_nothing,
    worked_on_with_itself,
    never_joined,
    steps_go_round,
)
