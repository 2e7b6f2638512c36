"""Slips that published sizes show again and again, tried on a size that the pieces do not give.

Each is a sum of what could have been left out, or taken twice.  One is named only where it gives the size claimed.
"""

from __future__ import annotations

from ..ground.lengths import PI
from ..model.measures import measures

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import TypeAlias

    from ..ground.lengths import Rational
    from ..ground.working import Working
    from ..model.kinds import AnyThing, Claim
    from ..model.seams import Chain

    Tried: TypeAlias = tuple[Rational, str]  # a size, or what it is off by, and what it would be

FAR = {"across": "far across", "around": "far round"}


def slip_words(claim: Claim, gives: Working, within: Rational) -> str:
    """What the size claimed is instead, ready to follow the finding: the slip that gives it, or nothing.

    Of several that come equally near the first is named: one thing left out before two.
    """
    tried = deep_slips(gives) if claim.measure == "deep" else size_slips(claim, gives)
    near = [(abs(claim.length.mm - size), words) for size, words in tried]
    off, words = min(near, key=lambda one: one[0], default=(0, ""))
    return f"; {words}" if words and off <= within else ""


def taken(gives: Working, *words: str) -> Rational:
    """How much of a sum is taken off by what is called so: millimetres."""
    return -sum(factor * leaf.mm for factor, leaf in gives.leaves() if any(word in leaf.says for word in words))


def size_slips(claim: Claim, gives: Working) -> Iterator[Tried]:
    """(size, what it would be) for widths and heights: one thing left out, then two."""
    name = claim.measure.split()[0]
    hems, seams = taken(gives, "hem"), taken(gives, "seam allowance")
    boxing = boxed_off(claim.thing, claim.measure), "before the boxing is taken off"
    single = [
        (hems, "before the hems are taken off"),
        (seams, "before the seam allowances are taken off"),
    ]
    double = [*uneven(gives, seams), (hems + seams if hems and seams else 0, "before any hem or seam is taken off")]
    with_boxing = [(boxing[0] + more, f"{boxing[1]}, and {words}") for more, words in (*single, *double) if more]
    for more, words in (boxing, *single, *double, *(with_boxing if boxing[0] else ())):
        if more:
            yield gives.mm + more, f"that is how {FAR.get(name, name)} it is {words}"


def uneven(gives: Working, seams: Rational) -> Iterator[Tried]:
    """Of two seam allowances one forgotten; of one, two taken."""
    each = {leaf.mm for factor, leaf in gives.leaves() if "seam allowance" in leaf.says and factor == -1}
    one = next(iter(each)) if len(each) == 1 else 0
    if one and seams == 2 * one:
        yield one, "with one of its two seam allowances taken off"
    elif one and seams == one:
        yield -one, "with a seam allowance taken off at both ends where only one is sewn"


def boxed_off(thing: AnyThing, measure: str) -> Rational:
    """What boxing takes off a height or a base: half the depth, or all of it."""
    depth = measures(thing).get("deep") if is_boxed(thing) else None
    if depth is None:
        return 0
    return {"tall": depth.mm / 2, "wide at base": depth.mm}.get(measure, 0)


def is_boxed(thing: AnyThing) -> bool:
    """Whether corners were boxed, here or in a shell that it was made from."""
    if thing.kind != "shell":
        return False
    return bool(thing.boxings or thing.pinch) or any(is_boxed(panel) for panel in thing.panels)


def deep_slips(gives: Working) -> Iterator[Tried]:
    """(depth, what it would be) for notched and for pinched corners."""
    leaves = [leaf for _, leaf in gives.leaves()]
    seam = max((leaf.mm for leaf in leaves if "seam allowance" in leaf.says), default=0)
    for leaf in leaves:
        if leaf.says == "notch across":
            yield leaf.mm, "that is the side of the notch, and two make the depth"
            yield 2 * leaf.mm, "that is twice the notch, as it is where all three allowances are equal"
            yield (
                2 * (leaf.mm - seam),
                "that is the depth of a notch without the seam allowance that was added to this one, "
                "and where all allowances are equal it needs none",
            )
            yield 2 * (leaf.mm + seam), "that is the depth of a notch measured from the seam lines"
        elif "from the tip" in leaf.says:
            yield leaf.mm, "that is the distance from the tip, and the depth is twice that"
        elif "line across" in leaf.says:
            yield 2 * leaf.mm, "that is twice the line across, and the line is the depth"
            yield leaf.mm / 2, "that is half the line across, and the line is the depth"


def round_slip(wall: Chain, base: Chain, within: Rational) -> str:
    """What was given to a wall instead of the stitch line's girth of its round base, or nothing."""
    if not base.links or not base.links[0].arc or len(base.links) > 1 or wall.links[0].arc:
        return ""
    length, radius = wall.stitched(), base.links[0].arc[0].mm
    cut = sum(factor * leaf.mm for factor, leaf in length.leaves() if " is " in leaf.says)
    girth, stitched = 2 * PI * radius, base.stitched().mm
    tried = (
        (cut - girth, "cut to the girth of the cut circle, which is not the girth of its stitch line with allowances"),
        (length.mm - girth, "sewn to the girth of the cut circle, and its stitch line is shorter"),
        (cut - stitched, "cut to the girth of the stitch line, without seam allowances of its own"),
    )
    off, words = min(((abs(off), words) for off, words in tried))
    return f"; {wall.title} is {words}" if off <= within else ""
