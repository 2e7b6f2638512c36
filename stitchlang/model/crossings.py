"""Rows of stitching, and what crosses them: the layers at the places where a row is thickest.

A seam opens out to its first two sides; its allowances lie open or to one side, as `press` says.  Pressed open, a
panel and its own allowance lie on each side of the line: 2 plies.  Pressed to one side, a panel and both allowances:
3.  What no statement presses is taken to lie to one side, and to that which is sewn over: the worst of what may be.
"""

from __future__ import annotations

from .layers import Sheets, cloth, times, weight
from .recipe import Stuff

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from .kinds import Across, AnyThing, Binding, Layer, Layers
    from .outline import Edge
    from .recipe import Op, Recipe
    from .seams import Chain, Seam

TURNING = "turning of "
# Seams that lie flat to one side by how they are made: the layers of their own and of the other allowance there.
# Enclosed, both are folded once; felled, the one is folded round the other; lapped, one panel lies on the other.
FLAT_KINDS = {"enclosed": (2, 2), "felled": (1, 2), "lapped": (0, 1)}
CROSSED = "where a seam crosses it"


class Spot:
    """A place along a row, as its parts: the layers of each side, and what is held there besides."""

    __slots__ = ("where", "sides", "held")

    def __init__(self, where: str, sides: Sequence[Layers], held: Iterable[Layer] = ()) -> None:
        self.where = where
        self.sides = sides
        self.held = list(held)

    def sewn(self) -> Layers:
        """The layers while the seam itself is sewn."""
        return [*flat(self.sides), *self.held]

    def turned(self) -> Layers:
        """The layers of a row along the seam once it is turned: each side, and its allowance."""
        return self.sewn() + cloth(flat(self.sides))

    def hemmed(self, turns: int) -> Layers:
        """The layers of a hem that is turned so often.

        What is caught in it counts once: how a strap's end lies in a hem nobody can tell.
        """
        return self.sewn() + cloth(flat(self.sides), turns, TURNING)


class Crossings:
    """The places of one recipe's rows; `opened` as if every seam were pressed open."""

    def __init__(self, recipe: Recipe, opened: bool = False) -> None:
        self.sheets = Sheets(recipe)
        self.opened = opened
        self.pressed: dict[Seam, Op] = {}
        self.known: dict[Seam, list[Spot]] = {}
        self.bound: dict[Seam, Binding] = {
            seam: seam.op.parts.get("binding") for seam in recipe.seams if seam.kind == "bound"
        }
        for op in recipe.ops:
            if op.verb == "press" and op.parts.get("under") is None:
                self.pressed.update((seam, op) for seam in self.seams_in(op))
            elif op.verb == "bind":
                self.bound.update((seam, op.parts.get("binding")) for seam in self.seams_in(op))

    def seams_in(self, op: Op) -> Iterator[Seam]:
        """The seams that a statement's edges lie in."""
        for chain in op.parts.get("chains", ()):
            for link in chain.links:
                yield from (seam for seam, _ in self.sheets.seams_of(link))

    def beside(self, seam: Seam, number: int, panel: Layers) -> Layers:
        """The layers on one side of an opened-out seam: `panel`'s there, and the allowances that lie there."""
        others = [(at, self.sheets.of(side.links[0].panel)) for at, side in enumerate(seam.sides) if side.links]
        others = [(at, layers) for at, layers in others if at != number]
        if seam.kind in FLAT_KINDS:
            own, folds = FLAT_KINDS[seam.kind]
            return panel + cloth(panel, own) + cloth(flat(layers for _, layers in others), folds)
        press = self.pressed.get(seam)
        is_open = self.opened or (press is not None and press.parts.get("open"))
        if not is_open and press is not None and not goes_to(press.parts.get("toward"), seam, number):
            return panel
        # Open, an allowance lies on its own side; a third layer's goes with either.
        lying = [layers for at, layers in others if at > 1 or not is_open]
        return panel + cloth(panel) + cloth(flat(lying)) + self.wrapping(self.bound.get(seam))

    def sewn(self, seam: Seam, spot: Spot) -> Layers:
        """The layers under the last row of a seam."""
        if seam.kind in ("enclosed", "felled"):
            return spot.turned()
        return spot.sewn() + self.wrapping(self.bound.get(seam) if seam.kind == "bound" else None)

    def wrapping(self, binding: Binding) -> Layers:
        """The layers of a binding round an edge: on either side of it the strip and its turned edge."""
        if binding is None:
            return []
        if isinstance(binding, Stuff):
            return [(4, binding, binding.name, False)]
        return times(self.sheets.of(binding), 1 if binding.kind == "strip" else 4)

    def crossing(self, edge: Edge, row: Edge, op: Op) -> tuple[Seam | None, Layers] | None:
        """What an edge's fate, sewn before the statement, lays across a row that ends there: (seam, layers) or None."""
        for seam, number in self.earlier(edge, op):
            return seam, self.beside(seam, number, self.sheets.at_end(edge, row))
        bound = next(
            (fate.op for fate in edge.all_fates() if fate.kind == "bound" and fate.op.number < op.number), None
        )
        if bound is not None:
            return None, self.sheets.at_end(edge, row) + self.wrapping(bound.parts.get("binding"))
        turns = turns_of(edge, op)
        return (None, turned_in(self.sheets.at_end(edge, row), turns)) if turns else None

    def earlier(self, edge: Edge, op: Op) -> list[tuple[Seam, int]]:
        """(seam, number of the side) for each seam sewn on an edge before a statement."""
        return [(seam, side) for seam, side in self.sheets.seams_of(edge) if seam.op.number < op.number]

    def along(self, side: Chain, op: Op) -> tuple[Layers, dict[str, Across]]:
        """(plain layers, crossings) of one side of a row.

        Crossings are kept by where they are: at a seam that two edges of the row meet, or at an end of it.  Each maps
        the panels there to their layers.
        """
        plain: Layers = []
        met: dict[Seam | Edge, list[tuple[str, AnyThing, Layers]]] = {}
        for link in side.links:
            plain = max(plain, self.sheets.at(link), key=weight)
            for edge in (link.before, link.after):
                found = self.crossing(edge, link, op) if edge is not link else None
                if found is not None:
                    met.setdefault(found[0] or edge, []).append((edge.name, link.panel, found[1]))
        crossings: dict[str, Across] = {}
        for hits in met.values():
            where = CROSSED if len(hits) > 1 else f"at its {hits[0][0].replace('_', ' ')} end"
            across = crossings.setdefault(where, {})
            for _, panel, layers in hits:
                across[panel] = max(across.get(panel, []), layers, key=weight)
        return plain, crossings

    def spots(self, sides: list[Chain], op: Op) -> list[Spot]:
        """The places of a row: plain, wherever something crosses it, and where something is held in it."""
        walked = [self.along(side, op) for side in sides]
        found = [Spot("", [plain for plain, _ in walked])]
        for where in dict.fromkeys(where for _, crossings in walked for where in crossings):
            found.append(Spot(where, worst([crossings.get(where) or {None: plain} for plain, crossings in walked])))
        held = []
        for panel, layers, at_seams in self.sheets.held(op, sides):
            crossed = next((spot for spot in found if spot.where == CROSSED), None) if at_seams else None
            base = crossed or found[0]
            where = f"{base.where}, with {panel.name}" if base.where else f"with {panel.name}"
            held.append(Spot(where, base.sides, layers))
        return found + held

    def seam(self, seam: Seam) -> list[Spot]:
        """The places of a seam, worked out once."""
        if seam not in self.known:
            self.known[seam] = self.spots(seam.sides, seam.op)
        return self.known[seam]

    def opened_out(self, seam: Seam) -> Across:
        """The layers of a seam that something crosses, by the panels on its sides."""
        return {
            side.links[0].panel: self.beside(seam, number, self.sheets.of(side.links[0].panel))
            for number, side in enumerate(seam.sides[:2])
            if side.links
        }

    def finished(self, edge: Edge, op: Op) -> Layers:
        """The layers just inside an edge that was seamed and turned, hemmed, pressed under or folded."""
        for seam, _ in self.earlier(edge, op):
            return self.seam(seam)[0].turned()
        layers = turned_in(self.sheets.at(edge), turns_of(edge, op))
        return times(layers, 2) if edge.panel.kind == "face" else layers


def turned_in(layers: Layers, turns: int) -> Layers:
    """Layers, and as much of their cloth again as is turned in."""
    return layers + cloth(layers, turns, TURNING)


def flat(sides: Iterable[Layers]) -> Layers:
    """The layers of all sides in one row."""
    return [layer for side in sides for layer in side]


def worst(across: Sequence[Across]) -> list[Layers]:
    """The layers of each side where they are worst; `across` maps panels to layers, a side each.

    Where the same panels meet themselves, as at a boxed corner, each half lies on its own half: seams pressed to
    different sides nest there.  Else the heavy halves are taken to meet.
    """
    if len(across) > 1 and len({frozenset(side) for side in across}) == 1:
        halves = [[side[panel] for side in across] for panel in across[0]]
        return max(halves, key=lambda half: weight(flat(half)))
    return [max(side.values(), key=weight) for side in across]


def turns_of(edge: Edge, op: Op) -> int:
    """How often an edge was turned in before a statement: once where pressed under, a hem as often as it says."""
    for fate in edge.all_fates():
        if fate.kind in ("hem", "turned") and fate.op.number < op.number and fate.op.verb != "fold":
            return max(len(fate.op.parts.get("turns", ())), 1)
    return 0


def goes_to(thing: AnyThing | None, seam: Seam, number: int) -> bool:
    """Whether a seam pressed toward a thing has its allowances on that side; so too where nobody can tell."""
    sides = [at for at, side in enumerate(seam.sides) if any(belongs(link.panel, thing) for link in side.links)]
    return not sides or number in sides


def belongs(panel: AnyThing, thing: AnyThing | None) -> bool:
    """Whether a panel is a thing, or a part of it."""
    return panel is thing or getattr(panel, "whole", panel) is thing or panel in getattr(thing, "members", ())
