"""What the lines of used files come to in the recipe that uses them.

They read as they read alone: a file's own units, seam allowance and parts count for its lines.  What heads a file as a
whole is left behind, and what two files say word for word, a cloth or a value, is one thing.
"""

from __future__ import annotations

from .bench import span
from .reading.tree import Node

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from .bench import Bench
    from .ground.working import Working

    Frame = tuple[str | None, Working | None, str | None]

LEFT_BEHIND = ("units", "revision", "tolerance", "accuracy", "machine")
SHARED = ("cloth", "interfacing", "batting", "webbing", "ribbon", "elastic", "binding", "reel", "let")


class Files:
    """The files that a recipe is made of, and what counts in each: units, seam allowance and part."""

    def __init__(self, bench: Bench, nodes: list[Node]) -> None:
        self.bench = bench
        self.source = bench.recipe.source
        self.units = {self.source.file(node.start): node.phrase().word().text for node in nodes if node.rule == "units"}
        self.here = self.source.name
        self.frames: dict[str, Frame] = {}

    def together(self, nodes: list[Node]) -> list[Node]:
        """The statements that count in the recipe."""
        first: dict[tuple[str, str | None], str] = {}  # what is said, in which unit where that matters: in which file
        found = []
        for node in nodes:
            file = self.source.file(node.start)
            if node.rule in SHARED:
                said = " ".join(self.source.cut(span(node)).split())
                unit = self.units.get(file) if counts(node) else None
                if first.setdefault((said, unit), file) != file:
                    continue
            if node.rule not in LEFT_BEHIND or not self.is_shared(node):
                found.append(node)
        return found

    def is_shared(self, node: Node) -> bool:
        """Whether a statement lies in a used file: what the recipe promises itself comes before what those do."""
        return not self.source.is_own(node.start)

    def turn_to(self, node: Node) -> None:
        """Go over to the file that a statement lies in."""
        file, bench, recipe = self.source.file(node.start), self.bench, self.bench.recipe
        if file != self.here:
            self.frames[self.here] = (recipe.unit, recipe.allowance, bench.part)
            anew = (self.units.get(file), None, bench.part)
            recipe.unit, recipe.allowance, bench.part = self.frames.get(file, anew)
            self.here = file

    def turn_back(self) -> None:
        """Go over to the recipe's own file, and leave with the recipe in which unit each file measures."""
        recipe, bench = self.bench.recipe, self.bench
        recipe.units = self.units
        if self.here != self.source.name:
            recipe.unit, recipe.allowance, bench.part = self.frames[self.source.name]
            self.here = self.source.name


def counts(node: Node) -> bool:
    """Whether a number stands in a statement that is measured in the unit of its file."""
    return any(counts(part) if isinstance(part, Node) else part.kind == "NUMBER" for part in node.parts)
