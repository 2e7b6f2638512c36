"""Family: allowance, boxing.  Notches that meet, and corners that leave a base."""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import write
from ..ground.text import Span
from ..model.measures import measure
from ..model.notches import all_notches, lean
from .allowances import BAG
from .lengths import allowed
from .names import slips
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from typing import TypeAlias

    from ..model.outline import Edge
    from ..model.recipe import Recipe
    from .rule import Looks, Ways

    Sizes: TypeAlias = tuple[Fraction, Fraction, Fraction]  # how far across, how far up, the depth it gives


@rule(
    why="The two arms of a notch are sewn to each other, so their stitch lines must be equally long; "
    "where side and bottom allowances differ, the side leans, or the bottom is a fold, a square notch is wrong.",
    mend="Notch a rectangle: on a fold, c + s across and c up.",
    trips="""
        piece body of sail: 10 x 20
        fold body in half, bottom to top
        notch body at bottom corners by 2
        join body along sides as bag
        box bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece body of sail: 10 x 20
        fold body in half, bottom to top
        notch body at bottom corners by 2 1/2 x 2
        join body along sides as bag
        box bag
        hem bag.rim by 1/2
    """,
    whole=True,
)
def boxing_sides_differ(recipe: Recipe) -> Looks:
    told = set()
    for seam in recipe.seams:
        if not seam.boxing or seam.op in told:
            continue
        across, up = (side.stitched() for side in seam.sides)
        if abs(across.mm - up.mm) <= allowed(recipe, across, up):
            continue
        told.add(seam.op)
        edge = seam.sides[1].links[0]
        on_fold = any(other.fate("folded") for other in (edge.before, edge.after))
        arms = seam.sides[0].links
        width, height = arms[0].cut.mm - lean(arms[0]) * edge.cut.mm, edge.cut.mm
        half = (across.mm - up.mm) / 2
        leans = sum(map(lean, arms), Fraction(0)) / len(arms)
        more = half / (1 - leans) if leans < 1 else -height  # up: where the sides lean the other arm grows with it
        sizes = ((width, height + more, up.mm + 2 * more), (width - half, height, up.mm))
        pairs = [(wide, tall, depth) for wide, tall, depth in sizes if wide > 0 and tall > 0]
        ways = [
            f"notch {recipe.say(wide)} across and {recipe.say(tall)} up for {recipe.say(depth)} of depth"
            for wide, tall, depth in pairs
        ]
        fits = ", or ".join(ways) or "use equal allowances at the sides and the bottom"
        yield Found(
            seam.at,
            f"the boxing seam is {recipe.say(across)} at the side seam and {recipe.say(up)} at the "
            f"{'fold' if on_fold else 'bottom seam'}: the notch's arms are {recipe.say(abs(across.mm - up.mm))} apart",
            fits,
            beside=[(edge.cut.at, "the notch is cut here"), *leaning(arms)],
            working=(across, up),
            mends=notched_otherwise(recipe, edge, pairs),
        )


def leaning(arms: Iterable[Edge]) -> Iterator[tuple[Span, str]]:
    """The panels whose sides lean, so that the arm that runs there is longer or shorter than it was measured."""
    for arm in arms:
        if lean(arm):
            yield arm.panel.at, f"the side of {arm.panel.name} leans {'out' if lean(arm) > 0 else 'in'} at its notch"


def notched_otherwise(recipe: Recipe, edge: Edge, pairs: Iterable[Sizes]) -> Ways:
    """The notch written anew, in each of the ways that close; its statement is the one that gave its size."""
    at, unit = edge.cut.at, recipe.unit_at(edge.cut.at)
    clauses = [clause for op in recipe.ops if (clause := op.node.first("by_square")) is not None]
    clause = next((one for one in clauses if at is not None and one.start <= at.start < one.end), None)
    if clause is None:
        return
    for wide, tall, depth in pairs:
        across, up = write(wide, unit), write(tall, unit)
        if across is not None and up is not None:
            words = f"notch {across} x {up}, for {recipe.say(depth)} of depth"
            yield words, [(Span(clause.start, clause.end), f"by {across} x {up}")], False


@rule(
    why="A notch is cut to be boxed; left alone it is a hole in the corner.",
    mend="Box the bag, and notch both panels alike.",
    trips="""
        piece front, back of sail: 10 x 12
        notch front, back at bottom corners by 2
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece front, back of sail: 10 x 12
        notch front, back at bottom corners by 2
        join front to back along sides, bottom as bag
        box bag
        hem bag.rim by 1/2
    """,
    whole=True,
)
def notch_never_boxed(recipe: Recipe) -> Looks:
    told = set()
    for thing in [*recipe.pieces, *recipe.made]:
        for notch in all_notches(thing).values():
            if notch.op not in told and not (notch.across.all_fates() and notch.up.all_fates()):
                told.add(notch.op)
                yield Found(
                    notch.op.at,
                    f"the notch in {thing.name} is never boxed",
                    "write `box` and the bag's name after its sides and bottom are joined, and notch both panels alike",
                )


@rule(
    why="There is something to box only where corners were notched, or are pinched.",
    mend="Notch the corners first, or write `pinched` and the length of the line across.",
    trips=BAG + "box bag\nhem bag.rim by 1/2",
    passes=BAG + "box bag pinched 4 across\nhem bag.rim by 1/2",
    whole=True,
    waits=("joined-to-nothing",),
)
def nothing_to_box(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "nothing-to-box"):
        yield Found(
            slip.at,
            f"{slip.shell.name} has no notched corners that meet",
            f"notch both panels, or write `box {slip.shell.name} pinched 4 across`",
            beside=[(slip.shell.at, f"{slip.shell.name} is made here")],
        )


@rule(
    why="A corner must lie between two free sides to be notched.",
    mend="Notch before the sides are joined, and only corners that are there.",
    trips="piece mat of sail: circle 9 across\nhem mat.edge by 1/4\nnotch mat at bottom corners by 1",
    passes="piece mat of sail: circle 9 across\nhem mat.edge by 1/4",
)
def nothing_to_notch(recipe: Recipe) -> Looks:
    told = set()
    for slip in slips(recipe, "nothing-to-notch"):
        if (slip.at, slip.thing) not in told:
            told.add((slip.at, slip.thing))
            yield Found(
                slip.at,
                f"{slip.thing.name} has no {slip.corner.replace('_', ' ')} corner to notch",
                "name corners that the piece has",
                beside=[(slip.thing.at, "this is the piece")],
            )


@rule(
    why="A corner pinched as deep as the bag is wide leaves no base to stand on.",
    mend="Pinch less, or make the bag wider.",
    trips="""
        piece front, back of sail: 6 x 12
        join front to back along sides, bottom as bag
        box bag pinched 8 across
        hem bag.rim by 1/2
    """,
    passes="""
        piece front, back of sail: 12 x 12
        join front to back along sides, bottom as bag
        box bag pinched 8 across
        hem bag.rim by 1/2
    """,
    whole=True,
)
def base_of_nothing(recipe: Recipe) -> Looks:
    for thing in recipe.made:
        if thing.kind != "shell" or thing.pinch is None:
            continue
        base = measure(thing, "wide at base")
        if base is not None and base.mm <= 0:
            yield Found(
                thing.pinch.at or thing.at,
                f"pinched {recipe.say(thing.pinch)} across, the base of {thing.name} comes to {recipe.say(base)}",
                f"pinch less than {recipe.say(base.mm + thing.pinch.mm)} across, or make {thing.name} wider",
                beside=[(thing.at, f"{thing.name} is made here")],
                working=(base,),
            )


RULES = (boxing_sides_differ, notch_never_boxed, nothing_to_box, nothing_to_notch, base_of_nothing)
