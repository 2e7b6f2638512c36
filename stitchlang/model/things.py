"""The things a recipe names: pieces, flat assemblies, folded pieces, strips and shells.

Each answers two questions: which edges does a word mean on it (`find`), and
which statement made it, sealed it, or worked on it.
"""

from __future__ import annotations

from ..ground.working import total
from .outline import cut_stitched, rectangle

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence
    from fractions import Fraction
    from typing import Literal

    from ..ground.text import Span
    from ..ground.working import Working
    from ..reading.tree import Node
    from .kinds import AnyThing, Known
    from .notches import Notch
    from .outline import Edge
    from .recipe import Op, Stuff
    from .seams import Seam

SIDES = ("top", "right", "bottom", "left")
OPPOSITE = {"top": "bottom", "bottom": "top", "left": "right", "right": "left"}
MIRROR = {"left": "right", "right": "left"}
MIRRORED = {f"{level}_{side}": f"{level}_{other}" for level in ("bottom", "top") for side, other in MIRROR.items()}
WOVEN = ("webbing", "ribbon", "elastic", "binding")  # stuff that comes in its width, edges finished


def mirrored(name: str) -> str:
    """What a side or corner is called on a panel laid face to face with this one."""
    return MIRROR.get(name) or MIRRORED.get(name, name)


class Thing:
    """Anything with a name that statements can work on."""

    kind: str = "thing"
    count = 1
    stuff: Stuff | None = None
    groups: dict[str, tuple[str, ...]] = {"sides": ("left", "right"), "ends": ("top", "bottom"), "edges": SIDES}
    aliases: dict[str, str] = {}
    shown: dict[str, str] = {}
    notches: dict[str, Notch]  # by corner, once there is one
    slits: list[Op]  # what opened it for a zip, once something did

    def __init__(self, name: str, at: Span, made_by: Op | None = None) -> None:
        self.name = name
        self.at = at
        self.made_by = made_by
        self.sealed_by: Op | None = None  # the statement after which it no longer lies open
        self.inside: AnyThing | None = None  # the thing it has become a part of
        self.consumed_by: Op | None = None  # the statement that used it up: no size of its own is left
        self.work: list[Op] = []  # statements that need it open
        self.known: Known | None = None  # once nothing more will happen to it: what was worked out of it, by name
        self.used_by: list[Op | Node] = []

    @property
    def long(self) -> bool:
        """Whether its height is called its length, and its ends are its top and bottom: a strip, or webbing."""
        return self.kind == "strip" or self.woven

    @property
    def woven(self) -> bool:
        """Whether its long edges came finished."""
        return self.stuff is not None and self.stuff.kind in WOVEN

    def side(self, name: str) -> list[Edge] | None:
        """The edges that a plain side name means, or None where there is no such side."""
        raise NotImplementedError

    def side_names(self) -> list[str]:
        """Every word that `find` knows here."""
        raise NotImplementedError

    def find(self, word: str) -> list[tuple[str, list[Edge]]] | None:
        """(name, edges) for each side that a word means, or None for an unknown word."""
        names = self.groups.get(word) or (self.aliases.get(word, word),)
        found = [(name, edges) for name in names if (edges := self.side(name)) is not None]
        return found if len(found) == len(names) else None

    def sealed(self, by_hand: bool = False) -> Op | None:
        """The statement that seals this thing, its own or that of what it is part of.

        What is done `by_hand` still reaches the inside of a bag whose mouth is open.
        """
        thing: Thing | None = self
        seen: set[Thing] = set()
        while thing is not None and thing not in seen:
            mouth = by_hand and thing.inside is not None and thing.inside.kind == "shell" and thing.inside.open
            if thing.sealed_by is not None and not mouth:
                return thing.sealed_by
            seen.add(thing)
            thing = thing.inside
        return None


class Ringed(Thing):
    """A thing with one outline of its own."""

    edges: list[Edge] = ()  # type: ignore[assignment]  # of a thing without an outline, to which nobody adds

    def find(self, word: str) -> list[tuple[str, list[Edge]]] | None:
        if word != "edges":
            return super().find(word)
        names = dict.fromkeys(edge.name for edge in self.edges if not edge.arm)
        return [(name, self.side(name) or []) for name in names]

    def side(self, name: str) -> list[Edge] | None:
        found = [edge for edge in self.edges if edge.name == name]
        return found or None

    def side_names(self) -> list[str]:
        return [edge.name for edge in self.edges]


class Piece(Ringed):
    """Cut from one stuff, `count` times."""

    kind: Literal["piece"] = "piece"
    quilted_by: Op

    def __init__(self, name: str, at: Span, stuff: Stuff | None, node: Node) -> None:
        super().__init__(name, at)
        self.stuff = stuff
        self.node = node
        self.count = 1
        self.stiffening: Stuff | None = None
        self.fused = "net"  # or `whole`, or `before cutting`
        self.point: tuple[str, Working] | None = None  # (side, how deep) of a pointed piece
        self.clipped: list[tuple[str, Working, Working]] = []  # (side, across, up) of corners cut off
        self.corners: Sequence[tuple[Fraction, Fraction]] = ()  # (across, up) in mm of a polygon's corners
        self.on_fold: str | None = None
        self.shape = "rectangle"
        # A piece whose size could not be read is given no name: whatever a statement can work on has both.
        self.width: Working = None  # type: ignore[assignment]  # see above
        self.height: Working = None  # type: ignore[assignment]  # see above
        self.flat: Flat | None = None

    @property
    def salvaged(self) -> bool:
        """Whether it is found whole, and not cut."""
        return self.node.first("salvaged") is not None


class Zip(Ringed):
    """A zip's tape with its teeth: edges upper, lower and two ends."""

    kind: Literal["zip"] = "zip"
    groups = {"ends": ("left", "right"), "sides": ("top", "bottom"), "edges": SIDES}
    aliases = {"upper": "top", "lower": "bottom"}
    shown = {"top": "upper", "bottom": "lower"}

    def __init__(self, name: str, at: Span, stuff: Stuff) -> None:
        super().__init__(name, at)
        self.stuff: Stuff = stuff
        self.flat: Flat | None = None
        self.capped_by: Op | None = None
        self.overall: Working | None = None  # tape end to tape end, where known


class Strip(Ringed):
    """A strip folded to a half, a third or a quarter of its width: two folded sides, two raw ends."""

    kind: Literal["strip"] = "strip"
    made_by: Op

    def __init__(self, name: str, at: Span, op: Op, source: Piece | Flat, parts: int) -> None:
        super().__init__(name, at, op)
        self.source = source
        self.parts = parts
        self.flat: Flat | None = None
        self.count = source.count


class Flat(Thing):
    """Pieces sewn edge to edge that still lie flat.

    `members` maps each panel to the quarter turns it has made.  While no shell
    has been made from it, further flat seams let it grow.
    """

    kind: Literal["flat"] = "flat"
    made_by: Op
    quilted_by: Op

    def __init__(self, name: str, at: Span, op: Op) -> None:
        super().__init__(name, at, op)
        self.members: dict[Piece | Zip | Strip, int] = {}
        self.layers: list[AnyThing] = []
        self.seams: list[Seam] = []

    def glued(self) -> set[Edge]:
        """The edges that lie in a seam inside the assembly."""
        return {edge for seam in self.seams for chain in seam.sides for edge in chain.links}

    def side(self, name: str) -> list[Edge] | None:
        if name not in SIDES:
            return None
        glued = self.glued()
        here = SIDES.index(name)
        sides = (panel.side(SIDES[(here - turns) % 4]) or () for panel, turns in self.members.items())
        return [edge for side in sides for edge in side if edge not in glued]

    def side_names(self) -> list[str]:
        return list(SIDES)


class Face(Ringed):
    """One of the two layers of a piece folded in half."""

    kind: Literal["face"] = "face"

    def __init__(self, whole: Folded, number: int, width: Working, height: Working) -> None:
        super().__init__(whole.name, whole.at)
        self.number = number
        self.whole = whole
        self.edges = rectangle(self, width, height)

    def as_laid(self, name: str) -> list[Edge]:
        """The side that lies at a side of the first face: the second face is seen from behind."""
        return self.side(MIRROR.get(name, name) if self.number else name) or []


class Folded(Thing):
    """A piece folded in half: two faces that share a fold."""

    kind: Literal["folded"] = "folded"
    made_by: Op
    cord: Working  # how far the cord is across that it was folded about
    overlap: Working  # how far its ends lie over one another, where it was folded round

    def __init__(self, name: str, at: Span, op: Op, source: Piece | Flat, fold: str) -> None:
        super().__init__(name, at, op)
        self.source = source
        self.count = source.count
        self.fold = fold  # which side the fold has become
        self.faces: tuple[Face, ...] = ()

    def side(self, name: str) -> list[Edge] | None:
        if name not in SIDES:
            return None
        return [edge for face in self.faces for edge in face.as_laid(name)]

    def side_names(self) -> list[str]:
        return list(SIDES)


class Shell(Thing):
    """Sewn so that it no longer lies flat: `panels`, the `seams` made, and the edges left open."""

    kind: Literal["shell"] = "shell"
    made_by: Op
    lines: Shell  # the shell that it was slipped into
    folded_up: Working | None = None  # how far its bottom is folded up over its front

    def __init__(self, name: str, at: Span, op: Op, panels: list[AnyThing]) -> None:
        super().__init__(name, at, op)
        self.panels = panels
        if len(panels) == 1 and panels[0].kind in ("folded", "strip", "shell"):  # two of a piece make one bag
            self.count = panels[0].count
        self.seams: list[Seam] = []
        self.open: dict[str, list[Edge]] = {}
        self.boxings: list[Seam] = []
        self.pinch: Working | None = None
        self.rolled: Working | None = None  # how much shorter it is when rolled shut
        self.turned_by: list[Op] = []
        self.slipped: Op | None = None  # the statement that put it into another, or another into it

    def side(self, name: str) -> list[Edge] | None:
        if name == "rim":
            name = "top" if "top" in self.open else next(iter(self.open), "rim")
        if name in self.open:
            return self.open[name]
        for seam in self.all_seams():
            if name in seam.names():
                return seam.sides[0].links
        return None

    def all_seams(self) -> list[Seam]:
        """Seams made here, then those of the shells it was made from."""
        seams = list(self.seams)
        for panel in self.panels:
            if panel.kind == "shell":
                seams += panel.all_seams()
        return seams

    def seam(self, name: str) -> Seam | None:
        """The seam of that name, an open one first."""
        named = [seam for seam in self.all_seams() if name in seam.names()]
        gaps = [seam for seam in named if seam.opening is not None and seam.gap_name == name]
        return next(iter(gaps or named), None)

    def side_names(self) -> list[str]:
        names = [*self.open, *(seam.name for seam in self.all_seams())]
        return ["rim", *names] if self.open else names


def coated(thing: AnyThing) -> bool:
    """Whether a thing is, or is made from, coated cloth."""
    parts: list[AnyThing] = [thing]
    for part in parts:  # which grows by what each is made from
        if part.stuff is not None and part.stuff.facts.get("coated"):
            return True
        source = [part.source] if hasattr(part, "source") else ()
        made_from = [*getattr(part, "members", ()), *getattr(part, "panels", ()), *source]
        parts += [one for one in made_from if one not in parts]
    return False


def cut_size(panel: AnyThing, name: str) -> Working | None:
    """The length of a side cut to cut: raw edges outside, stitch lines inside.  A Working or None."""
    links = panel.side(name)
    if not links:
        return None
    if panel.kind == "flat":
        glued = panel.glued()
        parts = [cut_stitched(link, glued) for link in links]
    elif panel.kind == "folded":
        parts = [cut_stitched(links[0], ())]
    else:
        parts = [cut_stitched(link, ()) for link in links]
    return parts[0] if len(parts) == 1 else total(f"{panel.name} cut {name}", *((1, p) for p in parts))
