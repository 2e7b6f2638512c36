"""Family: placing, folded panels.  A pocket sewn onto cloth that is then folded in half."""

from __future__ import annotations

from ..ground.lengths import SAME
from ..model.notches import all_notches
from ..model.outline import square_ended
from ..model.things import OPPOSITE
from .placing import outline_under, pockets
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction

    from ..model.recipe import Op, Recipe
    from ..model.things import Flat, Folded, Piece
    from .rule import Looks

BODY = """
    piece body of sail: 10 x 24
    piece patch of sail: 6 x 6
    hem patch.top by 1
    press patch.left, bottom, right under by 1/2
    place patch on body, centred, {}, sewn along sides, bottom
    fold body in half, {}
    join body along sides as bag
    {}
    hem bag.rim by 1/2
"""
LEVEL = ("top", "bottom")


def mouth(op: Op) -> str | None:
    """The side left open of a pocket that is sewn on, its top or its bottom.  A label or a strap has none."""
    names = {chain.name for chain in op.parts["sewn"]}
    if op.parts["item"].long or not {"left", "right"} & names or {"top", "bottom"} <= names:
        return None
    return "bottom" if "top" in names else "top"


def on_folded(recipe: Recipe) -> Iterator[tuple[Op, Folded, list[Fraction]]]:
    """(statement, folded thing, how far the pocket reaches from the fold: from, to) where a panel is folded later.

    What lies on the half that the fold is named for counts below nothing.
    """
    for op, panel, box in pockets(recipe):
        folded = panel.inside
        if folded is None or folded.kind != "folded" or hasattr(folded, "overlap") or mouth(op) is None:
            continue
        outline = outline_under(panel)
        if folded.fold in LEVEL:
            middle, ends = outline.height / 2, (box.bottom.mm, box.top.mm)
        else:
            middle, ends = outline.width / 2, (box.left.mm, box.right.mm)
        away = 1 if folded.fold in ("bottom", "left") else -1
        yield op, folded, sorted(away * (end - middle) for end in ends)


@rule(
    why="A pocket across a fold is creased, and on a bag its lower part lies under the base.",
    mend="Move the pocket onto one half.",
    trips=BODY.format("8 below top", "bottom to top", ""),
    passes=BODY.format("4 below top", "bottom to top", ""),
    severity="doubt",
)
def pocket_across_fold(recipe: Recipe) -> Looks:
    for op, folded, (first, last) in on_folded(recipe):
        over = min(-first, last)
        if over > SAME:
            item = op.parts["item"]
            yield Found(
                op.parts["spot"].at,
                f"{folded.source.name} is folded across {item.name}, {recipe.say(over)} from its edge",
                f"move it {recipe.say(over)} or more away from the fold",
                beside=[(folded.made_by.at, "it is folded here")],
            )


@rule(
    why="Folded, one half of the cloth hangs the other way up: a pocket there opens downward and empties itself.",
    mend="Place it with its mouth toward the bag's, on the other half, or cut the bag in two panels.",
    trips=BODY.format("3 above bottom", "bottom to top", ""),
    passes=BODY.format("3 below top", "bottom to top", ""),
    severity="doubt",
    waits=("pocket-across-fold",),
)
def pocket_upside_down(recipe: Recipe) -> Looks:
    for op, folded, (first, last) in on_folded(recipe):
        if folded.fold not in LEVEL or first < 0 < last:
            continue
        moved = first + last < 0
        if (moved != mouth_at_bottom(folded)) == (mouth(op) == "top"):
            item, half = op.parts["item"], folded.fold if moved else OPPOSITE[folded.fold]
            yield Found(
                op.parts["spot"].at,
                f"{item.name} lies on the {half} half of {folded.source.name}: once that is folded its mouth "
                f"points down",
                f"place it on the other half, or sew it along its sides and {mouth(op)}, its mouth the other way",
                beside=[(folded.made_by.at, "it is folded here")],
            )


def mouth_at_bottom(folded: Folded) -> bool:
    """Whether a thing folded at its top became a bag that is open at what is called its bottom."""
    shell = folded.inside
    return folded.fold == "top" and shell is not None and shell.kind == "shell" and "bottom" in shell.open


def base_from_fold(folded: Folded) -> tuple[Fraction, Op] | None:
    """How far from the fold the base reaches, in millimetres, and the statement that makes it; None without one."""
    for notch in all_notches(folded).values():
        if notch.corner.startswith(folded.fold):
            return notch.sizes[1].mm + notch.across.allowance().mm, notch.op
    shell = folded.inside
    if shell is not None and shell.kind == "shell" and shell.pinch is not None:
        return shell.pinch.mm / 2, shell.made_by
    return None


@rule(
    why="Beside the fold of a boxed bag lies its base: a pocket there is under the bag.",
    mend="Move the pocket away from the fold.",
    trips=BODY.format("6 below top", "bottom to top", "box bag pinched 4 across"),
    passes=BODY.format("4 below top", "bottom to top", "box bag pinched 4 across"),
    severity="doubt",
    waits=("pocket-across-fold", "pocket-upside-down"),
)
def pocket_on_folded_base(recipe: Recipe) -> Looks:
    for op, folded, (first, last) in on_folded(recipe):
        base = base_from_fold(folded) if folded.fold in LEVEL else None
        near = min(abs(first), abs(last))
        if base is not None and base[0] - near > SAME and not first < 0 < last:
            item, by = op.parts["item"], base[0] - near
            yield Found(
                op.parts["spot"].at,
                f"{item.name} reaches {recipe.say(by)} below the line where the base of the bag begins, "
                f"{recipe.say(base[0])} from the fold",
                f"move it {recipe.say(by)} away from the fold",
                beside=[(base[1].at, "the base is made here")],
            )


HALVED = """
    piece body of sail: {}
    fold body in half, bottom to top
    join body along sides as bag
    hem bag.rim by 1/2
"""


@rule(
    why="The halves of a fold lie on one another: what is worked out of them holds for a piece with square corners.",
    mend="State each half as a piece of its own, and join them where the fold would be.",
    trips=HALVED.format("12 at top, 9 at bottom, 24 tall"),
    passes=HALVED.format("12 x 24"),
    severity="doubt",
)
def folded_out_of_square(recipe: Recipe) -> Looks:
    for op in recipe.ops:
        made = op.parts.get("made") if op.verb in ("fold", "lap") else None
        pieces = cut_pieces(made.source) if made is not None and made.kind == "folded" else ()
        for piece in pieces:
            if not all(square_ended(edge) for edge in piece.edges if not edge.arm):
                yield Found(
                    op.at,
                    f"{piece.name} is not a rectangle, and what comes of folding it is worked out as if it were one",
                    "state each half as a piece of its own, and join them where the fold would be",
                    beside=[(piece.at, f"{piece.name} is cut here")],
                )


def cut_pieces(source: Piece | Flat) -> Iterator[Piece]:
    """The pieces that a flat thing is made of."""
    for one in source.members if source.kind == "flat" else (source,):
        if one.kind == "piece":
            yield one


RULES = (pocket_across_fold, pocket_upside_down, pocket_on_folded_base, folded_out_of_square)
