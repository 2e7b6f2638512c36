"""The order in which statements are given their meaning: as written, but never before the names they use."""

from __future__ import annotations

from .declares.stuff import KINDS
from .ground.text import Span

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from .model.recipe import Recipe
    from .reading.tree import Node

GIVERS = ("join", "fold", "lap", "wrap")  # statements whose `as` gives a name
NO_THINGS = ("as", "rule_name", "sizes_named")  # phrases whose names are no things
DECLARED = (*KINDS, "units", "allowance", "let", "zip", "reel", "piece")  # what statements below them count on


def in_sequence(nodes: list[Node], recipe: Recipe) -> list[Node]:
    """The statements, each after those that give the names it uses; a slip where they go round."""
    givers: dict[str, Node] = {}
    for node in nodes:
        given = node.first("as") if node.rule in GIVERS else None
        if given is not None:
            givers.setdefault(given.word().text, node)
    for name in declared(nodes):  # given twice: a later `as` says so, and nothing waits for it
        givers.pop(name, None)
    if not givers:
        return nodes
    order = Order(givers, nodes)
    for node in nodes:
        settle(node, order, recipe)
    return order.nodes


class Order:
    """The statements put in order so far, and what there is to put in."""

    def __init__(self, givers: dict[str, Node], nodes: list[Node]) -> None:
        self.givers = givers
        self.nodes: list[Node] = []
        self.done: set[int] = set()
        self.declared = [node for node in reversed(nodes) if node.rule in DECLARED]

    def add(self, node: Node) -> None:
        """Put a statement behind the others, once; one brought forward brings along what is declared above it."""
        while self.declared and self.declared[-1].start <= node.start:
            self.put(self.declared.pop())
        self.put(node)

    def put(self, node: Node) -> None:
        if id(node) not in self.done:
            self.done.add(id(node))
            self.nodes.append(node)

    def waited_for(self, node: Node) -> dict[str, Node]:
        """The statements not yet in order that give names which this one uses: name to statement."""
        return {
            name: self.givers[name]
            for name in names_in(node)
            if name in self.givers and id(self.givers[name]) not in self.done and self.givers[name] is not node
        }


def declared(nodes: Iterable[Node]) -> Iterator[str]:
    """The names that stuff and pieces are given where they are listed."""
    for node in nodes:
        if node.rule == "piece":
            yield from (word.text for word in node.words()[:-1])
        elif node.rule in KINDS or node.rule in ("zip", "reel"):
            yield node.words()[0].text


def settle(node: Node, order: Order, recipe: Recipe) -> None:
    """Put a statement into the order, after all that it waits for.  A stack, since chains may be long."""
    stack = [node]
    while stack:
        top = stack[-1]
        waits = {} if id(top) in order.done else order.waited_for(top)
        ready = [giver for giver in waits.values() if giver not in stack]
        if ready:
            stack.append(ready[0])
            continue
        if waits:
            say_ring(top, next(iter(waits.items())), stack, order.givers, recipe)
        stack.pop()
        order.add(top)


def say_ring(node: Node, waited: tuple[str, Node], stack: list[Node], givers: dict[str, Node], recipe: Recipe) -> None:
    """Note that a statement waits for one that waits for it."""
    name, giver = waited
    others = [Span(other.start, other.end) for other in stack[stack.index(giver) : -1]]
    recipe.slip("steps-go-round", Span(node.start, node.end), others=others, name=name)
    recipe.doubtful.update(given for given, its in givers.items() if its in stack)


def names_in(node: Node) -> Iterator[str]:
    """Every name in a statement that could be a thing; the words of a rule's name are none."""
    for part in node.parts:
        if part.rule is not None:
            if part.rule not in NO_THINGS:
                yield from names_in(part)
        elif part.kind == "NAME":
            yield part.text
