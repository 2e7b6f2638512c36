"""The construction graph: pieces and notions, operations, and what they make, in layers from left to right."""

from __future__ import annotations

from ..model.recipe import Stuff
from .order import ordered
from .steps import steps

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import TypeAlias

    from ..model.kinds import AnyThing
    from ..model.recipe import Op, Recipe

    Item: TypeAlias = AnyThing | Stuff  # what an operation takes

MOST = 400  # operations: what one picture can hold


class Node:
    """A box of the graph.  `kind` is piece, notion, step or made; `told` is the whole sentence."""

    __slots__ = ("kind", "name", "below", "told", "sources", "layer")

    def __init__(self, kind: str, name: str, below: str = "", told: str = "") -> None:
        self.kind = kind
        self.name = name
        self.below = below
        self.told = told
        self.sources: list[Node] = []
        self.layer = 0


class Graph:
    """A graph growing, operation by operation; `last` is where each thing stood last."""

    def __init__(self, recipe: Recipe) -> None:
        self.flats = [thing for thing in recipe.made if thing.kind == "flat"]
        self.nodes: list[Node] = []
        self.last: dict[Item, Node] = {}
        self.place: dict[Node, int] = {}

    def add(self, node: Node, sources: Iterable[Node] = ()) -> Node:
        self.place[node] = len(self.nodes)
        self.nodes.append(node)
        node.sources = list(dict.fromkeys(sources))
        node.layer = 1 + max((source.layer for source in node.sources), default=-1)
        return node

    def where(self, thing: Item) -> Node:
        """The node that last had a thing, or whatever it is part of by now."""
        found = [self.last[one] for one in self.held_in(thing) if one in self.last]
        if found:
            return max(found, key=self.place.__getitem__)
        self.last[thing] = self.add(Node("notion" if isinstance(thing, Stuff) else "piece", thing.name, what(thing)))
        return self.last[thing]

    def held_in(self, thing: Item) -> list[Item]:
        """A thing, the flat assemblies it was ever sewn into, and what it has become a part of."""
        flats = [flat for flat in self.flats if thing in flat.members]
        return [thing, *flats, *containers(thing)]

    def moved_on(self, thing: Item, node: Node) -> None:
        """A thing, and what it is part of by now, stand at a node."""
        for one in self.held_in(thing):
            if one in self.last or one is thing:
                self.last[one] = node


def graph(recipe: Recipe) -> list[Node] | None:
    """The nodes of a recipe's graph, each with its sources and its layer; None where no picture could hold them."""
    if len(recipe.ops) > MOST:
        return None
    grown, told = Graph(recipe), {step.at.start: step for step in steps(recipe) if step.at is not None}
    for op in ordered(recipe):
        inputs = [*op.things, *(part for part in op.parts.values() if isinstance(part, Stuff))]
        step = told.get(op.at.start)
        node = Node("step", f"{step.number} {op.verb}" if step else op.verb, names(op), step.sentence if step else "")
        grown.add(node, [grown.where(thing) for thing in inputs])
        if op.makes is not None:
            node = grown.add(Node("made", op.makes.name, what(op.makes)), [node])
            grown.last[op.makes] = node
        for thing in op.things:
            grown.moved_on(thing, node)
    near_their_use(grown.nodes)
    return grown.nodes


def near_their_use(nodes: Iterable[Node]) -> None:
    """Draw each piece right before the first operation that takes it."""
    takers: dict[Node, list[int]] = {}
    for node in nodes:
        for source in node.sources:
            takers.setdefault(source, []).append(node.layer)
    for node in nodes:
        if not node.sources and node in takers:
            node.layer = min(takers[node]) - 1


def containers(thing: Item) -> list[Item]:
    """What a thing has become a part of, from the nearest outward."""
    found: list[Item] = []
    whole: Item | None = thing
    while len(found) < 64:
        whole = getattr(whole, "flat", None) or getattr(whole, "inside", None)
        if whole is None or whole in found:
            break
        found.append(whole)
    return found


def names(op: Op) -> str:
    """What an operation works on, in short."""
    return ", ".join(dict.fromkeys(thing.name for thing in op.things))


def what(thing: Item) -> str:
    """A word for what a node is."""
    if isinstance(thing, Stuff):
        return thing.kind
    if thing.kind == "piece":
        return f"piece, cut {thing.count}" if thing.count > 1 else "piece"
    return {"flat": "flat assembly", "shell": "bag or tube", "folded": "folded piece"}.get(thing.kind, thing.kind)
