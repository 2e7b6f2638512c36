"""Notches in corners, and which notches meet when a shell is boxed."""

from __future__ import annotations

from ..ground.working import later, total
from . import outline
from .things import MIRRORED

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from fractions import Fraction

    from ..ground.working import Working
    from .kinds import AnyThing
    from .outline import Edge
    from .recipe import Op
    from .things import Shell


class Notch:
    """A rectangle cut out of one corner: the two edges it left, and the statement that cut it."""

    __slots__ = ("corner", "across", "up", "op", "sizes")

    def __init__(self, corner: str, across: Edge, up: Edge, op: Op, sizes: tuple[Working, Working]) -> None:
        self.corner = corner
        self.across = across
        self.up = up
        self.op = op
        self.sizes = sizes


def cut_notch(thing: AnyThing, corner: str, across: Working, up: Working, op: Op) -> bool:
    """Cut a corner of a piece, a flat assembly or both layers of a folded piece.  False: no such corner."""
    if thing.kind == "folded":
        # Both layers are cut at once; seen from behind, left is right.
        return cut_notch(thing.faces[0], corner, across, up, op) and cut_notch(
            thing.faces[1], MIRRORED[corner], across, up, op
        )
    level, upright = corner.split("_")
    levels, uprights = thing.side(level) or (), thing.side(upright) or ()
    for edge in levels:
        for other, first in ((edge.after, edge), (edge.before, edge.before)):
            if other in uprights:
                edges = outline.cut_corner(edge.panel.edges, first, across, up, corner, first is other)
                notches_of(thing)[corner] = Notch(corner, *edges, op, (across, up))
                return True
    return False


def notch_from_seams(thing: AnyThing, corner: str, across: Working, up: Working, op: Op) -> bool:
    """Cut a corner by sizes measured from the seam lines: what the seams take is added once it is known."""
    held = [later(size.says, size.at) for size in (across, up)]
    for one, size in zip(held, (across, up), strict=True):
        one.becomes(size)
    return cut_notch(thing, corner, held[0], held[1], op)


def add_allowances(things: Iterable[AnyThing], op: Op) -> None:
    """Add to each notch of a statement what the seams beside it take."""
    done = set()
    for thing in things:
        for notch in all_notches(thing).values():
            if notch.op is not op or notch.across in done:
                continue
            done.add(notch.across)
            for size, arm in zip(notch.sizes, (notch.across, notch.up), strict=True):
                size.becomes(total(size.says, *size.terms, (1, beside(arm).allowance())))
            for held in (notch.across.cut, *beside(notch.across).notched):
                if held.terms:  # where the side leans these are sums of the sizes
                    held.becomes(total(held.says, *held.terms))


def beside(arm: Edge) -> Edge:
    """The side that an arm of a notch runs to."""
    return arm.after if arm.before.arm else arm.before


def lean(arm: Edge) -> Fraction:
    """How far the side that a notch's arm runs to leans out for each millimetre up; below 0 where it leans in."""
    sine, cosine = (arm.corner_after if arm.before.arm else arm.corner_before) or outline.SQUARE
    return -cosine / sine


def notches_of(thing: AnyThing) -> dict[str, Notch]:
    """A thing's own notches by corner: a dict kept on the thing."""
    if not hasattr(thing, "notches"):
        thing.notches = {}
    return thing.notches


def all_notches(thing: AnyThing) -> dict[str, Notch]:
    """The notches of a thing by corner, those of its members and layers included."""
    found = dict(notches_of(thing))
    for panel in (*getattr(thing, "members", ()), *getattr(thing, "faces", ())):
        for corner, notch in notches_of(panel).items():
            found.setdefault(corner, notch)
    return found


def corner_pairs(shell: Shell) -> list[tuple[str, list[Edge], list[Edge], list[Op]]]:
    """(corner, edges across, edges up, statements) for each corner that can be boxed.

    Corners are named as seen from the first panel; the second lies on it mirrored.
    """
    panels: Sequence[AnyThing] = shell.panels
    if len(panels) == 1 and panels[0].kind == "folded":
        panels = panels[0].faces
    if any(panel.kind == "shell" for panel in panels):
        return [pair for panel in panels if panel.kind == "shell" for pair in corner_pairs(panel)]
    if len(panels) < 2:
        return []
    first, second = all_notches(panels[0]), all_notches(panels[1])
    pairs = []
    for corner, notch in first.items():
        other = second.get(MIRRORED[corner])
        if other is not None:
            pairs.append((corner, [notch.across, other.across], [notch.up, other.up], [notch.op, other.op]))
    return pairs
