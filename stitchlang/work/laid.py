"""Pieces and flat assemblies laid on a page: each panel's cut line and stitch line, where it lies."""

from __future__ import annotations

from attrs import frozen

from .shape import CLOSE, as_cut, box, gap, outline, trimmed_off
from .stitch_line import stitch_line, taken

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping, Sequence
    from typing import TypeAlias

    from ..model.notches import Notch
    from ..model.outline import Edge
    from ..model.recipe import Recipe
    from ..model.things import Flat, Piece, Strip, Zip
    from .shape import At, Run

    Member: TypeAlias = Piece | Zip | Strip


@frozen
class Laid:
    """A panel as it lies: its cut line as it will be in the end, and its stitch line (None: nothing is left).

    `raw` is the cut line as first cut, where trims or later notches change it.  `glued` are edges in a seam inside an
    assembly, where the cut line given is the seam.  `trouble` says what cannot be drawn.
    """

    name: str
    cut: Sequence[Run]
    stitch: Sequence[Run] | None
    raw: Sequence[Run] | None = None
    glued: frozenset[Edge] = frozenset()
    trouble: str = ""

    def moved(self, across: float, down: float) -> Laid:
        """The same, moved."""
        cut, stitch = ([run.moved(across, down) for run in runs or ()] for runs in (self.cut, self.stitch))
        return Laid(self.name, cut, stitch or None, self.raw, self.glued, self.trouble)


def laid_piece(piece: Piece, recipe: Recipe) -> tuple[Laid, list[list[Run]]]:
    """(a piece laid down, what is cut from its layers once it is folded)."""
    late = late_notches(piece, recipe)
    raw = as_cut(piece, late) if late or any(edge.trimmed for edge in piece.edges) else None
    left, top = trimmed_off(piece)
    cut = [run.moved(left, top) for run in outline(piece)]
    stitch, trouble = stitched_or_why(piece, cut)
    return Laid(piece.name, cut, stitch, raw, trouble=trouble), list(layers_cut(piece, recipe))


def stitched_or_why(panel: Member, cut: Sequence[Run]) -> tuple[list[Run] | None, str]:
    """(the stitch line, or None; why there is none)."""
    if gap(cut) > CLOSE:
        return None, f"the outline of {panel.name} does not close, so it has no stitch line here"
    if not any(taken(run.edge) for run in cut):
        return None, ""
    stitch = stitch_line(cut)
    return stitch, "" if stitch else f"the allowances leave nothing of {panel.name}, so it has no stitch line"


def late_notches(piece: Piece, recipe: Recipe) -> list[Notch]:
    """The notches that are cut out of a piece after it was cut itself: once it was sewn to others, or trimmed."""
    arms = {edge for edge in piece.edges if edge.arm}
    trimmed = any(edge.trimmed for edge in piece.edges)
    found: list[Notch] = []
    for thing in [*recipe.pieces, *recipe.made] if arms else ():
        for notch in getattr(thing, "notches", {}).values():
            if notch.across in arms and (thing is not piece or trimmed):
                found.append(notch)
    return found


def layers_cut(piece: Piece, recipe: Recipe) -> Iterator[list[Run]]:
    """What is cut from the two layers of a folded piece, where it lies on the piece: the arms of notches."""
    for thing in recipe.made:
        if thing.kind != "folded" or thing.source is not piece:
            continue
        if not any(edge.arm for face in thing.faces for edge in face.edges):
            continue
        first, second = (outline(face) for face in thing.faces)
        wide, tall = box(first)[2:]
        layers = {
            "bottom": (first, [run.moved(wide, 2 * tall, 2) for run in second]),
            "top": ([run.moved(0, tall) for run in first], [run.moved(wide, tall, 2) for run in second]),
            "left": ([run.moved(wide, 0) for run in first], second),
            "right": (first, [run.moved(wide, 0) for run in second]),
        }[thing.fold]
        yield from ([run] for layer in layers for run in layer if run.edge.arm)


def laid_flat(flat: Flat) -> list[Laid]:
    """The panels of a flat assembly as they lie, seam on seam, their common box at the origin."""
    glued = flat.glued()
    panels = [panel for panel in flat.members if panel.edges]
    laid = {panel: laid_member(panel, flat.members[panel], glued) for panel in panels}
    group = {panel: {panel} for panel in panels}
    for seam in flat.seams:
        first, second = (middle_of(side.links, laid) for side in seam.sides[:2])
        if first is None or second is None:
            continue
        across, down = first[1][0] - second[1][0], first[1][1] - second[1][1]
        for panel in group[second[0]]:
            laid[panel] = laid[panel].moved(across, down)
        if group[first[0]] is not group[second[0]]:
            group[first[0]] |= group[second[0]]
            for panel in group[second[0]]:
                group[panel] = group[first[0]]
    left, top, _, _ = box([run for one in laid.values() for run in one.cut])
    return [one.moved(-left, -top) for one in laid.values()]


def laid_member(panel: Member, turns: int, glued: Collection[Edge]) -> Laid:
    """One panel of an assembly, turned as it lies in it: seams inside, cut edges outside."""
    cut = outline(panel)
    stitch, trouble = stitched_or_why(panel, cut)
    shown = stitch_line(cut, lambda edge: taken(edge) if edge in glued else 0.0) or cut
    own = frozenset(edge for edge in panel.edges if edge in glued)
    turned, row = ([run.moved(0, 0, turns) for run in runs or ()] for runs in (shown, stitch))
    return Laid(panel.name, turned, row or None, glued=own, trouble=trouble)


def middle_of(links: Collection[Edge], laid: Mapping[Member, Laid]) -> tuple[Member, At] | None:
    """(a panel of these edges, the middle of the edges as they lie), or None where none of them is drawn."""
    runs = [(panel, run) for panel in laid for run in laid[panel].cut if run.edge in links]
    if not runs:
        return None
    left, top, right, bottom = box([run for _, run in runs])
    return runs[0][0], ((left + right) / 2, (top + bottom) / 2)
