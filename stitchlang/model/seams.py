"""Edges in a row, and the seams that take them: what a join works with.

A chain of edges is named as one; a seam sews two or more chains in one pass.
"""

from __future__ import annotations

from ..ground.working import NOTHING, total
from .outline import stitched

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..ground.text import Span
    from ..ground.working import Working
    from .kinds import AnyThing
    from .outline import Edge
    from .recipe import Op, Stuff


class Chain:
    """Edges in a row, taken as one: `front.left` may be panel, zip end and panel."""

    __slots__ = ("panel", "name", "links", "at")

    def __init__(self, panel: AnyThing, name: str | None, links: list[Edge], at: Span) -> None:
        self.panel = panel
        self.name = name
        self.links = links
        self.at = at

    @property
    def title(self) -> str:
        return f"{self.panel.name}.{self.panel.shown.get(self.name, self.name)}" if self.name else self.panel.name

    @property
    def in_one_pass(self) -> Chain:
        """The chain as a binding goes along it: of a folded piece, whose layers lie on each other, the one on top."""
        if self.panel.kind != "folded":
            return self
        on_top = [link for link in self.links if link.panel is self.panel.faces[0]]
        return Chain(self.panel, self.name, on_top or self.links, self.at)

    def stitched(self) -> Working:
        """The sum of the links' stitched lengths: a Working; nothing where all edges of the side are sewn away."""
        parts = [stitched(link) for link in self.links] or [NOTHING]
        return parts[0] if len(parts) == 1 else total(f"stitched {self.title}", *((1, p) for p in parts))


class Seam:
    """Two or more chains sewn in one pass."""

    __slots__ = (
        *("op", "name", "sides", "allowance", "kind", "spare", "boxing", "at"),
        *("opening", "opening_at", "opening_for", "gap_name", "closed_by"),
    )

    def __init__(self, op: Op, name: str, sides: list[Chain], allowance: Working, at: Span) -> None:
        self.op = op
        self.name = name
        self.sides = sides
        self.allowance = allowance
        self.at = at
        self.kind = "plain"
        self.spare: Working | None = None  # how far the longer edge runs on past the seam, on purpose
        self.opening: Working | None = None
        self.opening_at: Span | None = None
        self.opening_for: AnyThing | Stuff | None = None
        self.closed_by: Op | None = None
        self.boxing = False
        self.gap_name = name

    @property
    def turning_gap(self) -> bool:
        """Whether it has a gap that is to be turned through and closed; one left for a cord stays."""
        return self.opening is not None and self.opening_for is None

    def names(self) -> list[str]:
        """What the seam, or a part of it, may be called: one sewn round several edges answers to each."""
        return [self.name, *(self.name.split(" + ") if " + " in self.name else ()), *self.round_names()]

    def round_names(self) -> list[str]:
        """The edges of a panel that one long edge is sewn round."""
        return [part for side in self.sides if side.name and " + " in side.name for part in side.name.split(" + ")]

    def gap_edge(self) -> Working:
        """The stitched length of the edge that has the gap: a Working."""
        for side in self.sides:
            for link in side.links:
                if link.name == self.gap_name and len(side.links) > 1:
                    return stitched(link)
        return self.sides[0].stitched()
