"""What a recipe cuts from each stuff, and how much of the stuff that takes.

Sizes are those of the box round a piece, grain up the piece; one on the fold
counts unfolded.  Interfacing and batting are cut to their piece without what
seams and hems take, unless they go into the allowances.
"""

from __future__ import annotations

from ..ground.lengths import PI
from .outline import stitched
from .things import SIDES, WOVEN, cut_size

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from fractions import Fraction

    from ..ground.lengths import Rational
    from .kinds import AnyThing
    from .outline import Edge
    from .packing import Layout
    from .recipe import Recipe, Stuff
    from .things import Piece


class Cut:
    """A piece to cut from a stuff: how often, and its box.

    `backing` says how it lies on the piece where it is interfacing or batting
    for it: `net`, `whole`, `before cutting`, `quilted` or `quilted, trimmed`.
    """

    __slots__ = ("piece", "count", "wide", "tall", "backing")

    def __init__(self, piece: AnyThing, wide: Fraction, tall: Fraction, backing: str | None = None) -> None:
        self.piece = piece
        self.count = piece.count
        self.wide = wide
        self.tall = tall
        self.backing = backing

    @property
    def net(self) -> bool:
        """Whether it is cut clear of the allowances."""
        return self.backing == "net"

    @property
    def found_whole(self) -> bool:
        """Whether the piece is salvaged as it is, and not cut from a length of cloth."""
        return self.backing is None and self.piece.kind == "piece" and self.piece.salvaged

    @property
    def box(self) -> Fraction:
        """Square millimetres of its boxes."""
        return self.wide * self.tall * self.count


def cut_from(recipe: Recipe) -> dict[Stuff | None, list[Cut]]:
    """Stuff to its Cuts, in the order the stuff is declared; pieces of unknown stuff stand under None."""
    found: dict[Stuff | None, list[Cut]] = {stuff: [] for stuff in recipe.stuff.values()}
    for piece in recipe.pieces:
        if piece.width is None or piece.height is None:
            continue
        found.setdefault(piece.stuff, []).append(Cut(piece, piece.width.mm, piece.height.mm))
        if piece.stiffening is not None:
            net = piece.fused == "net"
            wide, tall = clear_of_allowances(piece) if net else (piece.width.mm, piece.height.mm)
            if wide > 0 and tall > 0:  # else the allowances leave nothing, of which a rule speaks
                found.setdefault(piece.stiffening, []).append(Cut(piece, wide, tall, piece.fused))
    for stuff, cut in quilted(recipe):
        found.setdefault(stuff, []).append(cut)
    return {stuff: cuts for stuff, cuts in found.items() if cuts}


def quilted(recipe: Recipe) -> Iterator[tuple[Stuff, Cut]]:
    """(batting, its Cut) for every panel that is quilted: as large as the panel, a piece as it is before any trim."""
    for op in recipe.ops:
        panel, batting = (op.parts["panel"], op.parts["batting"]) if op.verb == "quilt" else (None, None)
        if panel is None or batting is None:
            continue
        whole = panel.kind == "piece"
        wide, tall = (panel.width, panel.height) if whole else (cut_size(panel, "top"), cut_size(panel, "left"))
        if wide is not None and tall is not None:
            yield batting, Cut(panel, wide.mm, tall.mm, "quilted" if whole else "quilted, trimmed")


def clear_of_allowances(piece: Piece) -> tuple[Fraction, Fraction]:
    """(wide, tall) of a piece without what its edges give up; whole, where its sides are not the plain four."""
    taken = {edge.name: edge.allowance().mm for edge in piece.edges if not edge.arm}
    if piece.shape == "circle":
        return piece.width.mm - 2 * taken["edge"], piece.height.mm - 2 * taken["edge"]
    if not set(SIDES) <= set(taken):
        return piece.width.mm, piece.height.mm
    tall = piece.height.mm - taken["top"] - taken["bottom"]
    if piece.shape == "tapered":
        return max(stitched(edge).mm for edge in piece.edges if edge.name in ("top", "bottom")), tall
    return piece.width.mm - taken["left"] - taken["right"], tall


def by_length(stuff: Stuff) -> bool:
    """Whether a stuff is as wide as what is cut from it, so that only its length counts: webbing and its like."""
    return stuff.kind in WOVEN


def length_in_a_row(cuts: Iterable[Cut]) -> Rational:
    """The length of pieces cut one behind the other."""
    return sum(cut.tall * cut.count for cut in cuts)


def layout_of(cuts: list[Cut], width: Fraction) -> Layout | None:
    """The pieces in a simple layout on cloth of that width: a packing.Layout, or None where there is none."""
    from .packing import MOST, Rectangle, lay_out

    if sum(cut.count for cut in cuts) > MOST:
        return None
    return lay_out([Rectangle(cut.wide, cut.tall, cut) for cut in cuts for _ in range(cut.count)], width)


def least_area(cuts: Iterable[Cut]) -> Rational:
    """Square millimetres that no layout can do without: the pieces themselves, not their boxes."""
    return sum(own_area(cut) * cut.count for cut in cuts)


def own_area(cut: Cut) -> Rational:
    """The area of one piece, or a little less; nothing, where its shape is not one whose area is known here."""
    piece = cut.piece
    if piece.kind != "piece":
        return cut.wide * cut.tall
    if piece.shape == "circle":
        return PI * cut.wide**2 / 4
    if piece.shape == "rectangle":
        # Of interfacing the whole corner is taken off, which is a little too much, and right for a least area.
        return cut.wide * cut.tall - sum(cut_off(edge) for edge in piece.edges) - pointed_off(piece)
    if piece.shape == "tapered" and not cut.net:
        top, bottom = (edge.cut.mm for edge in piece.edges if edge.name in ("top", "bottom"))
        return (top + bottom) / 2 * cut.tall
    return 0


def cut_off(edge: Edge) -> Rational:
    """What a rounded corner takes off its square, or the most that a clipped one can."""
    if edge.arc:
        return edge.arc[0].mm ** 2 * (1 - PI / 4)
    return edge.cut.mm**2 / 4 if "_" in edge.name and not edge.arm else 0


def pointed_off(piece: Piece) -> Rational:
    """The two triangles beside a point."""
    if piece.point is None:
        return 0
    side, depth = piece.point
    return (piece.width.mm if side in ("top", "bottom") else piece.height.mm) * depth.mm / 2
