"""The construction graph as a drawing: pieces at the left of what takes them, operations in the order of the steps."""

from __future__ import annotations

from itertools import pairwise

from .layers import layered
from .svg import Page, number, shortened

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..model.recipe import Recipe
    from ..work.graph import Node
    from ..work.shape import At
    from .layers import Slot

BOX, TALL, GAP, ROW, THIN = 148, 40, 44, 54, 14
MARGIN, HEAD, FOOT = 24, 76, 56
KINDS = {
    "piece": "piece",
    "notion": "notion",
    "step": "operation, with its number in the steps",
    "made": "what is made",
}


def graph_drawing(nodes: Sequence[Node], recipe: Recipe) -> str:
    """The SVG text of a graph's nodes."""
    layers, lines = layered(nodes, ROW, THIN)
    deepest = max(slot.y + slot.high / 2 for layer in layers for slot in layer)
    across = max(MARGIN * 2 + len(layers) * (BOX + GAP) - GAP, 900)
    title = f"Construction graph of {recipe.title or 'the recipe'}"
    page = Page(across, HEAD + deepest + FOOT, title, " ".join(told(nodes)))
    page.words((MARGIN, 32), shortened(title, across - 2 * MARGIN, 18), "title")
    page.words((MARGIN, 52), "From left to right: what goes into each operation, and what comes of it.")
    for slots in lines:
        arrow(page, [middle(slot) for slot in slots])
    for layer in layers:
        for slot in layer:
            if slot.node is not None:
                box(page, slot.node, *middle(slot))
    legend(page, HEAD + deepest + 28)
    return page.text()


def told(nodes: Sequence[Node]) -> Iterator[str]:
    """The graph in words."""
    yield "What goes into each operation, and what comes of it."
    for node in nodes:
        if node.sources:
            yield f"{', '.join(source.name for source in node.sources)} to {node.name}."


def middle(slot: Slot) -> At:
    """Where a slot's middle lies on the page."""
    return MARGIN + slot.layer * (BOX + GAP) + BOX / 2, HEAD + slot.y


def arrow(page: Page, points: Sequence[At]) -> None:
    """A line from the right of the first box to the left of the last, bending level through the points between."""
    half = BOX / 2
    stops = [(points[0][0] + half, points[0][1])]
    for x, y in points[1:-1]:
        stops += [(x - half, y), (x + half, y)]
    stops.append((points[-1][0] - half, points[-1][1]))
    data = [f"M{number(stops[0][0])} {number(stops[0][1])}"]
    for (x1, y1), (x2, y2) in pairwise(stops):
        bend = (x1 + x2) / 2
        data.append(" ".join(["C", *(number(one) for one in (bend, y1, bend, y2, x2, y2))]))
    page.path("".join(data), "dim")
    page.tip((stops[-1][0] - 10, stops[-1][1]), stops[-1], 7)


def box(page: Page, node: Node, x: float, y: float, words: bool = True) -> None:
    """A node: pieces square, notions cut at the corners, operations round, what is made with a double line."""
    left, top = x - BOX / 2, y - TALL / 2
    if node.kind == "notion":
        page.path(
            f"M{number(left + 10)} {number(top)}h{BOX - 20}l10 10v{TALL - 20}l-10 10h-{BOX - 20}l-10 -10v-{TALL - 20}z",
            "node",
        )
    else:
        page.rectangle(left, top, BOX, TALL, "node", rx=18 if node.kind == "step" else 0)
    if node.kind == "made":
        page.rectangle(left + 3, top + 3, BOX - 6, TALL - 6, "dim")
    if words:
        name = page.words((x, y - 3), shortened(node.name, BOX - 12, 13), "strong", "middle")
        page.hint(name, node.told or f"{node.name}: {node.below}")
        page.words((x, y + 12), shortened(node.below, BOX - 12, 11), "small", "middle")


def legend(page: Page, y: float) -> None:
    """What the shapes of the boxes mean."""
    x: float = MARGIN
    for kind, words in KINDS.items():
        if kind == "notion":
            page.path(f"M{number(x + 5)} {number(y - 10)}h24l5 5v4l-5 5h-24l-5 -5v-4z", "node")
        else:
            page.rectangle(x, y - 10, 34, 14, "node", rx=7 if kind == "step" else 0)
        if kind == "made":
            page.rectangle(x + 2, y - 8, 30, 10, "dim")
        page.words((x + 42, y + 1), words, "small")
        x += 66 + 7.2 * len(words)
