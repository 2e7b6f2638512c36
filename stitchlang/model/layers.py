"""Layers of cloth at an edge: what of it lies there, counted, each layer with the stuff it is of.

A layer is (count, stuff, says, net).  Interfacing and batting are layers and have a thickness, but are no plies of
cloth; one that is `net` is cut clear of the allowances, so an allowance has none of it.
"""

from __future__ import annotations

from ..ground.lengths import MM
from ..ground.working import Working, total
from .things import OPPOSITE

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from .kinds import AnyThing, Layer, Layers
    from .outline import Edge
    from .recipe import Op, Recipe, Stuff
    from .seams import Chain, Seam
    from .things import Strip

DEEPEST = 64  # things within things
# Layers where an edge was shaped: a pleat lies on itself three deep, a dart's cloth beside its seam.
FULL: dict[str, int | None] = {"pleat": 3, "dart": 3, "gather": None}
BACKING = ("interfacing", "batting")
MOST = 999  # plies: nobody sews more, and a fold of a fold of a fold has no end
# A strip shorter than this whose two ends are sewn in at one place is a loop; a longer one is a handle, and its ends
# lie apart.  Our own threshold: no hand passes under less.
LOOP = 10 * MM["in"]


def times(layers: Iterable[Layer], factor: int, says: str = "") -> Layers:
    """So many of each layer; `says` tells what of it they are, where that was not told yet."""
    if not factor:
        return []
    return [
        (min(count * factor, MOST), stuff, said if " of " in said else f"{says}{said}", net)
        for count, stuff, said, net in layers
    ]


def cloth(layers: Iterable[Layer], factor: int = 1, says: str = "allowance of ") -> Layers:
    """The layers that run into the allowances: what an allowance or a turning is made of."""
    return times([layer for layer in layers if not layer[3]], factor, says)


def backs(stuff: Stuff | None) -> bool:
    """Whether a stuff lies behind cloth and is no ply of its own."""
    return stuff is not None and stuff.kind in BACKING


def plies(layers: Iterable[Layer]) -> int:
    """How many layers of cloth, tape or webbing."""
    return sum(count for count, stuff, _, _ in layers if not backs(stuff))


def by_stuff(layers: Iterable[Layer]) -> list[tuple[int, Stuff | None]]:
    """(count, stuff): layers of one stuff taken together, in the order first met."""
    found: dict[Stuff | None, int] = {}
    for count, stuff, _, _ in layers:
        found[stuff] = found.get(stuff, 0) + count
    return [(count, stuff) for stuff, count in found.items()]


def thickness(layers: Iterable[Layer]) -> Working | None:
    """The sum of what the layers are thick: a Working, or None where one of them is not stated."""
    terms = []
    for count, stuff, says, _ in layers:
        if stuff is None or (thick := stuff.facts.get("thick")) is None:
            return None
        terms.append((count, Working(thick.mm, f"{says} ({stuff.name})", thick.at)))
    return total("layers under the needle", *terms) if terms else None


def weight(layers: Iterable[Layer]) -> tuple[int, int]:
    """What layers are compared by: what is known of their thickness, in nanometres, then the plies."""
    known = number = 0
    for count, stuff, _, _ in layers:
        thick = stuff.facts.get("thick") if stuff is not None else None
        if thick is not None:
            known += count * (thick.mm.numerator * 1_000_000 // thick.mm.denominator)
        if not backs(stuff):
            number += count
    return known, number


class Sheets:
    """The layers of each thing, worked out once: of a piece, of a fold, of what is caught on an edge."""

    def __init__(self, recipe: Recipe) -> None:
        self.known: dict[AnyThing, Layers] = {}
        self.depth = 0
        self.at_edge: dict[Edge, Layers] = {}
        self.onto: dict[int, list[tuple[Edge, Op]]] = {}  # the fates of an edge, by id: the edges caught onto it
        self.seams: dict[
            int, list[tuple[Seam, int]]
        ] = {}  # the fates of an edge, by id: (seam, number of the side) it lies in
        for seam in recipe.seams:
            for number, side in enumerate(seam.sides):
                for link in side.links:
                    self.seams.setdefault(id(link.fates), []).append((seam, number))
        self.fullness = {
            id(link.fates): fullness(op, chain)
            for op in recipe.ops
            if op.verb in FULL
            for chain in op.parts.get("chains", ())
            for link in chain.links
        }
        self.find_caught(recipe)

    def find_caught(self, recipe: Recipe) -> None:
        """What is held onto each edge.  A folded strip shares its fates with the cloth it was folded from."""
        seen = set()
        for thing in (*reversed(recipe.made), *recipe.things.values(), *recipe.pieces):
            for face in (thing, *getattr(thing, "faces", ())):
                for edge in getattr(face, "edges", ()):
                    if id(edge.fates) in seen:
                        continue
                    seen.add(id(edge.fates))
                    for fate in edge.fates:
                        if fate.kind == "caught" and fate.onto is not None:
                            self.onto.setdefault(id(fate.onto.fates), []).append((edge, fate.op))

    def seams_of(self, edge: Edge) -> Sequence[tuple[Seam, int]]:
        """(seam, number of the side) for each seam that an edge, or what it was folded from, lies in."""
        found: Sequence[tuple[Seam, int]] = self.seams.get(id(edge.fates), ())
        for parent in edge.parents:
            found = (*found, *self.seams_of(parent))
        return found

    def of(self, thing: AnyThing) -> Layers:
        """The layers of a thing, where nothing crosses and nothing is turned.

        Nothing that can be sewn is made of things within things deeper than DEEPEST.
        """
        if thing not in self.known:
            self.depth += 1
            self.known[thing] = self.work_out(thing) if self.depth <= DEEPEST else []
            self.depth -= 1
        return self.known[thing]

    def work_out(self, thing: AnyThing) -> Layers:
        """The layers of a piece, zip, strip, folded piece, flat assembly or shell."""
        if thing.kind == "strip":
            return times(self.of(thing.source), thing.parts + turned_in(thing), "folds of ")
        if thing.kind == "face":
            return self.of(thing.whole.source)
        if thing.kind == "folded":
            return times(self.of(thing.source), 2)
        if thing.kind == "flat":
            return max((self.of(panel) for panel in thing.members), key=weight, default=[])
        if thing.kind == "shell":
            one = thing.panels[0] if len(thing.panels) == 1 else None
            if one is not None:
                return times(self.of(one), 1 if one.kind in ("folded", "strip") else 2)
            return [layer for panel in thing.panels[:2] for layer in self.of(panel)]
        name = f"tape of {thing.name}" if thing.kind == "zip" else thing.name
        return [(1, thing.stuff, name, False), *backing(thing)]

    def at(self, edge: Edge) -> Layers:
        """The layers at an edge: its own panel, with what is folded into it there, and what is basted flat onto it."""
        if edge not in self.at_edge:
            full = times(self.of(edge.panel), self.fullness.get(id(edge.fates), 1))
            self.at_edge[edge] = full + [layer for _, layers in self.basted(edge) for layer in layers]
        return self.at_edge[edge]

    def at_end(self, edge: Edge, row: Edge) -> Layers:
        """The layers at the end of an edge, where a row along the next edge crosses it.

        What is basted onto the edge is there only if it reaches that far; what is basted along the row is there.
        """
        reach = [(one, layers) for one, layers in self.basted(edge) if self.reaches(one, edge)]
        panels = {one.panel for one, _ in reach}
        reach += [(one, layers) for one, layers in self.basted(row) if one.panel not in panels]
        return self.of(edge.panel) + [layer for _, layers in reach for layer in layers]

    def basted(self, edge: Edge) -> Iterator[tuple[Edge, Layers]]:
        """(edge, layers) of each thing that is basted flat onto an edge."""
        for other, _ in self.onto.get(id(edge.fates), ()):
            if not small(other):
                yield other, times(self.of(other.panel), 2 if self.hangs_double(other) else 1)

    def reaches(self, edge: Edge, host: Edge) -> bool:
        """Whether a thing basted onto an edge runs to its ends: a shorter one, or a bag hung from a zip, does not."""
        return edge.cut.mm >= host.cut.mm and not self.hangs_double(edge)

    def hangs_double(self, edge: Edge) -> bool:
        """Whether a panel hangs folded between the two edges of one zip, as a pocket bag does: its sides are double."""
        zips = [
            {side.panel for seam, _ in self.seams_of(end) for side in seam.sides if side.panel.kind == "zip"}
            for end in (edge.before, edge.after)
        ]
        return edge.before is not edge.after and bool(zips[0] & zips[1])

    def held(self, op: Op, sides: list[Chain]) -> list[tuple[AnyThing, Layers, bool]]:
        """What lies in a row at one place of it: (thing, layers, whether that is at the side seams) for each."""
        found: dict[AnyThing, tuple[Op, set[str]]] = {}
        for edge, by in self.caught_in(op, sides):
            found.setdefault(edge.panel, (by, set()))[1].add(edge.name)
        return [
            (panel, times(self.of(panel), 2 if looped(panel, by, ends) else 1), by.parts.get("at_seams") is not None)
            for panel, (by, ends) in found.items()
        ]

    def caught_in(self, op: Op, sides: list[Chain]) -> Iterator[tuple[Edge, Op]]:
        """(edge, statement that holds it) for each end that was basted to a row's edges, or that the row catches."""
        for side in sides:
            for link in side.links:
                yield from (one for one in self.onto.get(id(link.fates), ()) if small(one[0]))
        seams = op.parts.get("seams") or ()
        if seams and sides is seams[0].sides:  # which of its seams catches them is not said: one stands for all
            for chain in op.parts.get("caught", ()):
                yield from ((edge, op) for edge in chain.links)


def backing(piece: AnyThing) -> Iterator[Layer]:
    """The layers that back a piece: what it is cut `with`, and what it is quilted with."""
    stiffening, fused = getattr(piece, "stiffening", None), getattr(piece, "fused", "net")
    if stiffening is not None:
        yield 1, stiffening, f"{stiffening.name} in {piece.name}", fused == "net"
    quilted = getattr(piece, "quilted_by", None) or getattr(getattr(piece, "flat", None), "quilted_by", None)
    batting = quilted.parts["batting"] if quilted is not None else None
    if batting is not None:
        yield 1, batting, f"{batting.name} in {piece.name}", False


def fullness(op: Op, chain: Chain) -> int:
    """How many layers of an edge lie on one another where fullness was taken up in it: whole layers, at the worst."""
    layers = FULL[op.verb]
    if layers is not None:
        return layers
    full, to = op.parts.get("full", {}).get(chain), op.parts.get("to")
    return min(-(-full.mm // to.mm), MOST) if full is not None and to else 1


def turned_in(strip: Strip) -> int:
    """How many long edges of a strip were turned in before it was folded: each is a ply more."""
    edges = [edge for side in ("left", "right") for edge in strip.source.side(side) or ()]
    return sum(any(fate.kind == "turned" and fate.op is not strip.made_by for fate in edge.fates) for edge in edges)


def small(edge: Edge) -> bool:
    """Whether a caught edge is the end of a strip, webbing or zip: it lies at one place of a seam, not all along it."""
    return edge.panel.kind == "zip" or (edge.panel.long and edge.name in ("top", "bottom"))


def looped(panel: AnyThing, op: Op, ends: Iterable[str]) -> bool:
    """Whether the thing lies double where it is caught: a loop's two ends, or a zip's tape folded along its teeth."""
    if panel.kind == "zip":
        return True
    if op.parts.get("hardware") is not None:
        return True
    end = next(iter(ends))
    side = next(iter(panel.side("left") or ()), None)
    return panel.long and OPPOSITE.get(end, "") in ends and side is not None and side.cut.mm <= LOOP
