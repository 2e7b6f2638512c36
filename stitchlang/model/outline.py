"""Outlines: rings of edges, and where their stitch lines cross.

An edge's stitched length lies between the stitch lines of its two neighbours.
Let an edge with allowance s meet a neighbour with allowance a at an interior
angle t.  Moving both lines inward shortens the edge at that end by

    (a + s cos t) / sin t

which is `a` at a square corner and `-a` at a square corner cut into the cloth:
the depth of a boxed bag needs no formula of its own, it falls out of this one.
"""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import PI
from ..ground.working import NOTHING, Working, total

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Container, Sequence

    from .kinds import Corner, Outlined, Terms
    from .recipe import Op

# A corner is the sine and cosine of its interior angle.
SQUARE = (Fraction(1), Fraction(0))
REFLEX = (Fraction(-1), Fraction(0))
SMOOTH = None  # an arc runs on into its neighbour


class Fate:
    """What becomes of an edge, and the allowance that it takes (None: takes none).

    Kinds: seam, hem, folded, turned, caught, sewn, bound, raw.  `op` is the
    statement that says so.  A caught edge lies in the seam of the edge it is
    held `onto` and gives up what that one gives up.
    """

    __slots__ = ("kind", "allowance", "op", "onto")

    op: Op  # of a found edge alone there is none, and nobody asks it for one

    def __init__(self, kind: str, allowance: Working | None, op: Op | None, onto: Edge | None = None) -> None:
        self.kind = kind
        self.allowance = allowance
        self.op = op  # type: ignore[assignment]  # see above
        self.onto = onto


class Edge:
    """One side of an outline, between two corners.

    `cut` is its length as drawn, `losses` what trims take off it and `notched`
    what notches do.
    `trimmed` is how far trims move the edge itself inward, which is part of its neighbours' losses.
    `taken_up` is what gathers, pleats, darts and ease take off its stitched length and leave on the cloth.
    `arc` is None, or (radius, angle in radians) for an arc bulging outward.
    `parents` are edges whose fates this one shares without owning them (the
    side of a folded piece is half a side of the whole one), `halves` the other
    way round.
    """

    __slots__ = (
        "panel",
        "name",
        "cut",
        "losses",
        "arc",
        "corner_before",
        "corner_after",
        "before",
        "after",
        "fates",
        "parents",
        "halves",
        "notched",
        "trimmed",
        "taken_up",
        "arm",
        "settled",
        "known",
        "taken",
    )

    # Set when its outline is closed: an edge has neighbours before anybody sees it.
    before: Edge
    after: Edge
    corner_before: Corner | None
    corner_after: Corner | None

    def __init__(self, panel: Outlined, name: str, cut: Working, arc: tuple[Working, Fraction] | None = None) -> None:
        self.panel = panel
        self.name = name
        self.cut = cut
        self.arc = arc
        self.losses: list[Working] = []
        self.notched: list[Working] = []
        self.trimmed: list[Working] = []
        self.taken_up: list[Working] = []
        self.arm = False  # one of the two edges that a notch leaves
        self.settled = False  # no fate, trim or notch is still to come: the length may be remembered
        self.known: Working | None = None  # the stitched length, once settled
        self.taken: Working | None = None  # the allowance, once settled
        self.fates: list[Fate] = []
        self.parents: tuple[Edge, ...] = ()
        self.halves: tuple[Edge, ...] = ()

    def __repr__(self) -> str:
        return f"Edge({self.title})"

    @property
    def title(self) -> str:
        """What to call the edge in a sentence: `front.left`."""
        return f"{self.panel.name}.{self.panel.shown.get(self.name, self.name)}"

    def all_fates(self) -> list[Fate]:
        """Fates of its own, then those of its parents."""
        if not self.parents:
            return self.fates
        fates = list(self.fates)
        for parent in self.parents:
            fates.extend(parent.all_fates())
        return fates

    def allowance(self) -> Working:
        """The allowance that the edge's fate takes from the cloth: a Working.

        An end that is hemmed, or turned, and then caught gives up both.
        """
        if not self.settled:
            return self.taken_now()
        if self.taken is None:
            self.taken = self.taken_now()
        return self.taken

    def taken_now(self) -> Working:
        """The allowance by the fates that are known so far."""
        own = next((fate for fate in self.all_fates() if fate.allowance is not None), None)
        caught = self.caught_by()
        taken = own.allowance if own is not None else None
        if own is None or taken is None or own.kind == "caught":
            return taken or caught
        if own.kind in ("hem", "turned") and caught.mm:
            return total(f"{own.kind} and seam", (1, taken), (1, caught))
        return taken

    def caught_by(self) -> Working:
        """What the seam takes that catches this edge; how much a hem does to a strip's end nobody can tell."""
        for fate in self.all_fates():
            if fate.kind == "caught":
                if fate.allowance is not None:
                    return fate.allowance
                if fate.onto is not None and not (self.panel.long and fate.onto.fate("hem")):
                    return fate.onto.allowance() if fate.onto.fate("caught") is None else NOTHING
        return NOTHING

    def fate(self, kind: str) -> Fate | None:
        """The edge's fate of that kind, or None."""
        return next((fate for fate in self.all_fates() if fate.kind == kind), None)


def ring(edges: list[Edge], corners: Sequence[Corner | None]) -> list[Edge]:
    """Tie edges into a closed outline, clockwise; corners[i] follows edges[i]."""
    for at, edge in enumerate(edges):
        after = edges[(at + 1) % len(edges)]
        edge.after, after.before = after, edge
        edge.corner_after = after.corner_before = corners[at]
    return edges


def cut_length(edge: Edge, notched: bool = True) -> Working:
    """The edge's length on the cut piece, trims taken off, and notches unless told otherwise."""
    losses = edge.losses + edge.notched if notched else edge.losses
    if not losses:
        return edge.cut
    return total(f"cut {edge.title}", (1, edge.cut), *((-1, loss) for loss in losses))


def shortening(own: Working, other: Working, corner: Corner) -> Terms:
    """What an edge loses at one end: terms of (factor, allowance)."""
    sine, cosine = corner
    terms: Terms = [(1 / sine if sine != 1 else 1, other)] if other.mm else []
    if cosine and own.mm:
        terms.append((cosine / sine, own))
    return terms


def square_ended(edge: Edge) -> bool:
    """Whether a straight edge meets both its neighbours at square corners: only then it can move without turning."""
    return edge.arc is None and edge.corner_before == SQUARE == edge.corner_after


def neighbours(edge: Edge) -> tuple[Edge, Edge]:
    """The sides that meet this one, notches between them passed over."""
    before, after = edge.before, edge.after
    while before.arm:
        before = before.before
    while after.arm:
        after = after.after
    return before, after


def arc_stitched(edge: Edge, arc: tuple[Working, Fraction]) -> Working:
    """(r - s) times the angle; nothing where the allowance closes the corner to a point."""
    radius, angle = arc
    own = edge.allowance()
    if own.mm >= radius.mm:
        return Working(0, f"stitched {edge.title}", exact=False)
    return Working(
        angle * (radius.mm - own.mm),
        f"stitched {edge.title}",
        None,
        ((angle, radius), (-angle, own)),
        exact=False,
    )


def beside_arc(arc_edge: Edge) -> Terms:
    """What a straight edge gains where the arc next to it has closed to a point: r less s."""
    radius, _ = arc_edge.arc  # type: ignore[misc]  # what runs on smoothly into a straight edge is an arc
    own = arc_edge.allowance()
    return [(1, own), (-1, radius)] if own.mm > radius.mm else []


def stitched(edge: Edge) -> Working:
    """The edge's length between its neighbours' stitch lines: a Working.

    Worked out once, when the recipe has been read to its end.
    """
    if edge.known is None:
        length = (
            arc_stitched(edge, edge.arc) if edge.arc else between(edge, cut_length(edge), (edge.before, edge.after))
        )
        if edge.taken_up:
            length = total(f"stitched {edge.title}", (1, length), *((-1, taken) for taken in edge.taken_up))
        if not edge.settled:
            return length
        edge.known = length
    return edge.known


def cut_stitched(edge: Edge, glued: Container[Edge]) -> Working:
    """The edge's length between those neighbours' stitch lines that are `glued`, and the cut edge elsewhere.

    Runs over any notch: what the cut height of a flat assembly is made of.
    """
    return arc_stitched(edge, edge.arc) if edge.arc else between(edge, cut_length(edge, notched=False), glued)


def between(edge: Edge, cut: Working, neighbours: Container[Edge]) -> Working:
    """A cut length less what each of these neighbours takes at its end."""
    terms: Terms = [(1, cut)]
    own = edge.allowance()
    for corner, other in ((edge.corner_before, edge.before), (edge.corner_after, edge.after)):
        if other in neighbours:
            lost = beside_arc(other) if corner is SMOOTH else shortening(own, other.allowance(), corner)
            terms += [(-factor, working) for factor, working in lost]
    if len(terms) == 1:
        return cut
    return total(f"stitched {edge.title}", *terms)


def rectangle(
    panel: Outlined, width: Working, height: Working, names: Sequence[str] = ("top", "right", "bottom", "left")
) -> list[Edge]:
    """The four edges of a rectangle."""
    sizes = (width, height, width, height)
    edges = [Edge(panel, name, size) for name, size in zip(names, sizes, strict=True)]
    return ring(edges, [SQUARE] * 4)


def tapered(panel: Outlined, top: Working, bottom: Working, height: Working, side: Working) -> list[Edge]:
    """A panel with its top and bottom centred on one another; `side` is its slanted length."""
    lean = (bottom.mm - top.mm) / 2 / side.mm
    rise = height.mm / side.mm
    wide, narrow = (rise, lean), (rise, -lean)  # the wider end has the sharper corner
    edges = [
        Edge(panel, "top", top),
        Edge(panel, "right", side),
        Edge(panel, "bottom", bottom),
        Edge(panel, "left", side),
    ]
    return ring(edges, [narrow, wide, wide, narrow])


def circle(panel: Outlined, across: Working) -> list[Edge]:
    """One edge, called `edge`, all the way round."""
    radius = Working(across.mm / 2, across.says, across.at, ((Fraction(1, 2), across),))
    edge = Edge(
        panel,
        "edge",
        Working(PI * across.mm, f"{panel.name} round the cut edge", None, ((PI, across),), exact=False),
        (radius, 2 * PI),
    )
    return ring([edge], [SMOOTH])


def round_off(edges: list[Edge], before: Edge, radius: Working) -> None:
    """Put a quarter arc at the corner that follows `before`; the straight edges lose r each."""
    after = before.after
    quarter = PI / 2
    name = "_".join(sorted((before.name, after.name), key=("top", "bottom", "left", "right").index))
    arc = Edge(
        before.panel,
        name,
        Working(quarter * radius.mm, f"arc {name}", None, ((quarter, radius),), exact=False),
        (radius, quarter),
    )
    before.losses.append(radius)
    after.losses.append(radius)
    insert(edges, before, [arc], [SMOOTH, SMOOTH])


def insert(edges: list[Edge], before: Edge, new: list[Edge], corners: Sequence[Corner | None]) -> None:
    """Let new edges follow `before`; corners lie before the first, between, and after the last."""
    after = before.after
    at = edges.index(before) + 1
    edges[at:at] = new
    run = [before, *new, after]
    for one, other, corner in zip(run, run[1:], corners, strict=False):
        one.after, other.before = other, one
        one.corner_after = other.corner_before = corner


def cut_corner(
    edges: list[Edge], before: Edge, across: Working, up: Working, name: str, upright_first: bool
) -> tuple[Edge, Edge]:
    """Cut a rectangle out of the corner that follows `before`: two new edges.

    `across` runs along the horizontal neighbour, `up` along the upright one;
    `upright_first` tells which of the two `before` is.  Where the upright one
    leans the arm that runs to it is longer, and so is what it loses.  Returns
    the new edges as (across edge, up edge).
    """
    after = before.after
    upright, level = (before, after) if upright_first else (after, before)
    sine, cosine = corner = before.corner_after or SQUARE
    level.notched.append(across)
    upright.notched.append(up if sine == 1 else total(up.says, (1 / sine, up)))
    arm = total(across.says, (1, across), (-cosine / sine, up)) if cosine else across
    edge_across = Edge(before.panel, f"{name}_across", arm)
    edge_up = Edge(before.panel, f"{name}_up", up)
    edge_across.arm = edge_up.arm = True
    # Going round, an upright edge ends in the cut that runs across, and the other way about.
    new = [edge_across, edge_up] if upright_first else [edge_up, edge_across]
    insert(edges, before, new, [corner, REFLEX, SQUARE] if upright_first else [SQUARE, REFLEX, corner])
    return edge_across, edge_up
