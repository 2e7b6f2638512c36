"""Family: length.  Sizes that are none, and edges that do not meet."""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import MM, SAME, write
from ..ground.text import Span
from ..model.things import MIRROR
from .names import FLAG, NOUNS, slips
from .rule import Found, rule
from .slips_in_print import round_slip

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..ground.lengths import Rational
    from ..ground.working import Working
    from ..model.outline import Edge
    from ..model.recipe import Recipe, Slip
    from ..model.seams import Chain, Seam
    from .rule import Edits, Looks, Way

# Where a recipe states no tolerance for curves: a sixteenth of an inch (our own choice).
CURVES = MM["in"] / 16
POWERS = {2: "an area", -1: "one over a length", 3: "a volume", None: "a sum of lengths and areas"}


def allowed(recipe: Recipe, *workings: Working) -> Fraction:
    """By how much these lengths may differ: nothing unless stated, save where pi comes in."""
    stated = recipe.tolerance.mm if recipe.tolerance is not None else Fraction(0)
    if all(working.exact for working in workings):
        return stated + SAME
    curves = recipe.curve_tolerance
    return max(stated, curves.mm if curves is not None else CURVES)


def has_fate(edge: Edge) -> bool:
    """Whether an edge, or each half of it after a fold, has been taken care of."""
    if edge.halves:
        return all(has_fate(half) for half in edge.halves)
    if edge.panel.woven and edge.name in ("left", "right"):
        return True  # woven to its width
    return bool(edge.all_fates())


@rule(
    why="A bare number could be inches or centimetres.",
    mend="State the recipe's units once, or write a unit behind the number.",
    trips='cloth sail: "sailcloth"\npiece flag of sail: 10 x 12 in\nhem flag edges by 1/2 in',
    passes='cloth sail: "sailcloth"\npiece flag of sail: 10 in x 12 in\nhem flag edges by 1/2 in',
    opening="",
)
def length_without_unit(recipe: Recipe) -> Looks:
    by_file: dict[str, list[Slip]] = {}
    for slip in slips(recipe, "length-without-unit"):
        by_file.setdefault(recipe.source.file(slip.at.start), []).append(slip)
    for slip, *others in by_file.values():
        more = f", nor have {len(others)} more" if others else ""
        yield Found(
            slip.at,
            f"this length has no unit{more}, and {whole(recipe)} states none",
            f"add a line `units in`, `units cm` or `units mm` at the top, or write `{recipe.source.cut(slip.at)} in`",
        )


def whole(recipe: Recipe) -> str:
    """What states units and allowance for a statement: of several files its own alone."""
    return "the recipe" if len(recipe.source.stretches) == 1 else "the file"


@rule(
    why="Length times length is an area, and no edge is that long.",
    mend="Check the sum: divide by a plain number, or leave one unit out.",
    trips="let side = 3 in * 4 in\npiece flag of sail: side x 12\nhem flag edges by 1/2",
    passes="let side = 3 in * 4\npiece flag of sail: side x 12\nhem flag edges by 1/2",
)
def wrong_kind(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "wrong-kind"):
        kind = POWERS.get(slip.power, "no length")
        yield Found(
            slip.at,
            f"here belongs a length, and this is {kind}",
            "leave the unit out of the factor that is a plain number",
        )


@rule(
    why="Nothing can be divided by nothing.",
    mend="Divide by something else.",
    trips="piece flag of sail: 10 / (1 - 1) x 12",
    passes=FLAG,
)
def division_by_zero(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "division-by-zero"):
        yield Found(slip.at, "this divides by nothing", "divide by a number that is not 0")


@rule(
    why="No ruler reads a number of that many digits.",
    mend="Write the length to the nearest mark of a ruler.",
    trips="piece flag of sail: 10.1234567890123456789012345 x 12",
    passes=FLAG,
)
def number_too_long(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "number-too-long"):
        yield Found(
            slip.at, "this number has more digits than any ruler shows", "write it to the nearest mark of a ruler"
        )


@rule(
    why="A size of nothing, or less, cannot be cut or sewn.",
    mend="Write a size above nothing.",
    trips="piece flag of sail: 10 x (1 - 2)",
    passes=FLAG,
)
def length_below_nothing(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "length-below-nothing"):
        says = "nothing" if slip.mm == 0 else f"{recipe.say(slip.mm)}, less than nothing"
        yield Found(slip.at, f"this {NOUNS.get(slip.says, slip.says)} comes to {says}", "write a length above nothing")


@rule(
    why="A length of more than a kilometre is a slip of the key.",
    mend="Check the number and its unit.",
    trips="piece flag of sail: 10 x 12000 m\nhem flag edges by 1/2",
    passes=FLAG,
)
def longer_than_any_cloth(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "longer-than-any-cloth"):
        yield Found(
            slip.at,
            f"this {NOUNS.get(slip.says, slip.says)} is longer than a kilometre",
            "check the number and its unit",
        )


@rule(
    why="Pieces and hardware come in whole numbers.",
    mend="Write a whole number, 1 to 999.",
    trips="piece flag of sail: 10 x 12, cut 1 1/2\nhem flag edges by 1/2",
    passes=FLAG,
)
def count_not_whole(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "count-not-whole"):
        yield Found(slip.at, f"`{slip.text}` is no count of things", "write a whole number, 1 to 999")


@rule(
    why="A corner can be rounded no farther than half the shorter side.",
    mend="Round it less.",
    trips="piece flag of sail: 10 x 12, bottom corners rounded 6\nhem flag.top by 1/2",
    passes="piece flag of sail: 10 x 12\nhem flag edges by 1/2",
)
def corner_too_round(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "corner-too-round"):
        half = min(slip.piece.width.mm, slip.piece.height.mm) / 2
        yield Found(
            slip.at,
            f"a radius of {recipe.say(slip.radius)} does not fit on {slip.piece.name}",
            f"round by {recipe.say(half)} at most",
        )


@rule(
    why="Edges sewn together flat must be equally long on the stitch line, or one of them puckers.",
    mend="Make the two equal: cut one longer or the other shorter.",
    trips="""
        piece front of sail: 10 x 12
        piece back of sail: 10 x 12 1/2
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece front, back of sail: 10 x 12
        join front to back along sides, bottom as bag
        hem bag.rim by 1/2
    """,
    whole=True,
    waits=("pleats-take-the-whole-edge",),
)
def joined_edges_differ(recipe: Recipe) -> Looks:
    told = set()
    for seam in recipe.seams:
        if seam.boxing:
            continue
        sides = compared(seam)
        for other in sides[1:]:
            first = sides[0]
            one, two = first.stitched(), other.stitched()
            gap = two.mm - one.mm
            if gap > 0 and is_tape(other):
                continue  # the tails of a tape are cut off
            gap = abs(gap) - (seam.spare.mm if seam.spare is not None else 0)
            pair = frozenset([first.panel, other.panel, gap, seam.name in MIRROR])
            if abs(gap) > allowed(recipe, one, two) and not (seam.name in MIRROR and pair in told):
                told.add(pair)  # both side seams of one bag differ alike: say it once
                yield differing(recipe, seam, first, other, gap)


def compared(seam: Seam) -> list[Chain]:
    """The sides of a seam whose lengths are known, cloth before tape, since cloth is what a tape is held to."""
    return sorted(filter(of_known_length, seam.sides), key=is_tape)


def is_tape(chain: Chain) -> bool:
    """Whether a side is the long edge of a zip whose ends are not capped."""
    return chain.panel.kind == "zip" and chain.panel.capped_by is None and chain.name not in MIRROR


def of_known_length(chain: Chain) -> bool:
    """A length beside an edge without a fate is not known yet; a zip of unstated tape length fits anything."""
    if not all(has_fate(link.before) and has_fate(link.after) for link in chain.links):
        return False
    return chain.panel.kind != "zip" or chain.panel.overall is not None or chain.name in MIRROR


def differing(recipe: Recipe, seam: Seam, first: Chain, other: Chain, gap: Fraction) -> Found:
    """The finding for a seam whose sides are not equally long, `gap` apart beyond what is to run on."""
    one, two = first.stitched(), other.stitched()
    long, short = (first, other) if one.mm > two.mm else (other, first)
    way, size, spare = (1 if gap > 0 else -1), abs(gap), seam.spare
    less, more = remedy(recipe, long.stitched(), size, -way), remedy(recipe, short.stitched(), size, way)
    slip = round_slip(first, other, allowed(recipe, two)) or round_slip(other, first, allowed(recipe, one))
    runs_on = f", {recipe.say(spare)} of which is to run on" if spare is not None else ""
    return Found(
        seam.at,
        f"{first.title} is {recipe.say(one)} on the stitch line and {other.title} is {recipe.say(two)}{runs_on}: "
        f"{long.title} is {recipe.say(size)} too {'long' if gap > 0 else 'short'}{slip}",
        f"make {' or '.join(words for words, _ in (less, more) if words)}",
        beside=[
            (chain.panel.at, f"{chain.title} comes to {recipe.say(length)}")
            for chain, length in ((first, one), (other, two))
        ],
        working=(one, two),
        mends=[
            *((f"make {words}", edits, False) for words, edits in (less, more) if edits),
            *eased(seam, long, size, recipe),
        ],
    )


def eased(seam: Seam, long: Chain, gap: Fraction, recipe: Recipe) -> list[Way]:
    """Where the gap is no more than a twentieth of the longer edge it can be eased in: a line above the join."""
    text = write(gap, recipe.unit_at(seam.op.at))
    one_edge = long.panel.kind in ("piece", "flat") and " + " not in (long.name or "")
    if text is None or not one_edge or gap * 20 > long.stitched().mm:
        return []
    line = f"ease {long.title} by {text}"
    return [(f"write `{line}` above this step", [(Span(seam.op.at.start, seam.op.at.start), f"{line}\n")], False)]


MORE = {"wide": ("narrower", "wider"), "tall": ("shorter", "taller"), "across": ("smaller across", "larger across")}


def lever(working: Working, words: Sequence[str] = (" is ",)) -> tuple[Rational, Working] | None:
    """The first written size that a length hangs on: (factor, leaf), or None.

    What is written at one place counts once for every time it enters.
    """
    for factor, leaf in working.levers(by_place=True):
        if leaf.at is not None and factor > 0 and any(word in leaf.says for word in words):
            return factor, leaf
    return None


def remedy(recipe: Recipe, working: Working, gap: Fraction, sign: int) -> tuple[str, Edits]:
    """By how much to change the size that a length hangs on, to make it so much longer (or shorter): (words, edits).

    A side that counts twice is changed by half, the diameter of a circle by the gap over pi.
    """
    found_lever = lever(working)
    if found_lever is None:
        return "", []
    factor, leaf = found_lever
    name, _, kind = leaf.says.partition(" is ")
    new = leaf.mm + sign * gap / factor
    way = MORE.get(kind.split()[0], ("less", "more"))[sign > 0]
    words, text = f"{name} {recipe.say(gap / factor)} {way}", write(new, recipe.unit_at(leaf.at))
    if text is None or leaf.at is None or new <= 0 or not recipe.source.cut(leaf.at)[:1].isdigit():
        return words, []
    return words, [(leaf.at, text)]


RULES = (
    length_without_unit,
    wrong_kind,
    division_by_zero,
    number_too_long,
    length_below_nothing,
    longer_than_any_cloth,
    count_not_whole,
    corner_too_round,
    joined_edges_differ,
)
