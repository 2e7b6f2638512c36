"""What must still hold when sizes change: edges that are joined, notches that meet, linings that fit, layers, trims."""

from __future__ import annotations

from ...model.measures import measure, measures
from ...rules.lengths import allowed

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction
    from typing import TypeAlias

    from ...ground.lengths import Rational
    from ...model.recipe import Op, Recipe
    from ...model.seams import Seam

    Key: TypeAlias = tuple[str | int, ...]  # what a relation, or a measure, is known by whatever the numbers are
    Keyed: TypeAlias = "Iterator[tuple[Key, Relation]]"


class Relation:
    """A length that must stay within `slack` of nothing (or, where `floor`, not fall below it): a difference.

    `says` is why, in words for the report.  A `loose` one binds only what is within its slack now.
    """

    __slots__ = ("floor", "loose", "mm", "says", "slack")

    def __init__(self, mm: Fraction, says: str, slack: Rational = 0, floor: bool = False, loose: bool = False) -> None:
        self.mm = mm
        self.says = says
        self.slack = slack
        self.floor = floor
        self.loose = loose


def relations(recipe: Recipe) -> dict[Key, Relation]:
    """Every relation of a recipe by a key that stays the same when only numbers change: a dict of Relation."""
    found: dict[Key, Relation] = {}
    for at, seam in enumerate(recipe.seams):
        found.update(of_seam(at, seam, recipe))
    for op in recipe.ops:
        if op.verb == "baste":
            found.update(of_layers(op, recipe))
        elif op.verb == "slip" and op.parts["inner"] is not None:
            found.update(of_lining(op))
        elif op.verb == "trim":
            found.update(of_trim(op))
    return found


def of_seam(at: int, seam: Seam, recipe: Recipe) -> Keyed:
    """The sides of a seam against the first."""
    first, *others = seam.sides
    for number, other in enumerate(others):
        one, two = first.stitched(), other.stitched()
        tapes = [side.panel for side in (first, other) if side.panel.kind == "zip"]
        if tapes and tapes[0].capped_by is None:
            continue  # the tails of a tape are cut off
        says = f"{other.title} is sewn to {first.title}"
        yield ("seam", at, number), Relation(two.mm - one.mm, says, allowed(recipe, one, two))


def of_layers(op: Op, recipe: Recipe) -> Keyed:
    """Edges basted to others, and layers held at both sides, follow what they lie on."""
    yield from of_width(op)
    for number, (chain, host) in enumerate(zip(op.parts["chains"], op.parts["onto"], strict=False)):
        if len(chain.links) == 1 and host.links and not chain.panel.long:
            one, two = chain.stitched(), host.stitched()
            slack, says = allowed(recipe, one, two), f"{chain.title} lies on {host.title}"
            yield ("layer", op.number, number), Relation(one.mm - two.mm, says, slack, loose=True)


def of_width(op: Op) -> Keyed:
    """A layer whose two sides are basted to the two sides of one panel."""
    sides = {chain.name for chain in op.parts["chains"]}
    layers, hosts = ({chain.panel for chain in op.parts[part]} for part in ("chains", "onto"))
    if sides == {"left", "right"} and len(layers) == len(hosts) == 1:
        layer, host = layers.pop(), hosts.pop()
        one, two = measure(layer, "wide"), measure(host, "wide")
        if one is not None and two is not None and not layer.long:
            yield ("width", op.number), Relation(one.mm - two.mm, f"{layer.name} lies across {host.name}")


def of_lining(op: Op) -> Keyed:
    """A lining stays as much smaller than its shell as it is."""
    inner, outer = measures(op.parts["inner"]), measures(op.parts["outer"])
    for name in inner:
        if name in outer:
            says = f"{op.parts['inner'].name} lines {op.parts['outer'].name}"
            yield ("lining", op.number, name), Relation(inner[name].mm - outer[name].mm, says)


def of_trim(op: Op) -> Keyed:
    """A trim takes something away, or nothing."""
    for number, (chain, taken) in enumerate(op.parts.get("off", ())):
        yield ("trim", op.number, number), Relation(taken.mm, f"{chain.title} is trimmed", floor=True)
