"""Boxes in layers: the order and the heights at which a graph is drawn with few crossings and short lines.

Long lines run through placeholders, one in each layer they pass.  Layers are ordered by the mean place of their
neighbours, to and fro; then each box is moved as near to its neighbours as the least gap allows.
"""

from __future__ import annotations

from itertools import pairwise

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import TypeAlias

    from ..work.graph import Node

    Layers: TypeAlias = list[list["Slot"]]

SWEEPS = 12


class Slot:
    """A box, or a placeholder where `node` is None, in one layer; `high` is the room it needs, `y` its middle."""

    __slots__ = ("node", "layer", "high", "before", "after", "y")

    def __init__(self, node: Node | None, layer: int, high: float) -> None:
        self.node = node
        self.layer = layer
        self.high = high
        self.before: list[Slot] = []
        self.after: list[Slot] = []
        self.y = 0.0


def layered(nodes: Sequence[Node], high: float, thin: float) -> tuple[Layers, list[list[Slot]]]:
    """(layers of slots from left to right, lines as lists of slots) for nodes with sources and layers."""
    slots = {node: Slot(node, node.layer, high) for node in nodes}
    layers: Layers = [[] for _ in range(max(node.layer for node in nodes) + 1)]
    for slot in slots.values():
        layers[slot.layer].append(slot)
    lines = [line(slots[source], slots[node], layers, thin) for node in nodes for source in node.sources]
    for sweep in range(SWEEPS):
        sort(layers, sweep % 2 == 0)
    for layer in layers:
        settle(layer, [0.0] * len(layer))
    for sweep in range(SWEEPS):
        straighten(layers, sweep % 2 == 0)
    highest = min(slot.y - slot.high / 2 for layer in layers for slot in layer)
    for layer in layers:
        for slot in layer:
            slot.y -= highest
    return layers, lines


def line(start: Slot, end: Slot, layers: Layers, thin: float) -> list[Slot]:
    """The slots that a line passes, placeholders made where it runs past layers."""
    run = [start]
    for layer in range(start.layer + 1, end.layer):
        run.append(Slot(None, layer, thin))
        layers[layer].append(run[-1])
    run.append(end)
    for one, other in pairwise(run):
        one.after.append(other)
        other.before.append(one)
    return run


def sort(layers: Layers, rightward: bool) -> None:
    """Order each layer by the mean place of its neighbours in the layer before (or after) it."""
    for layer in layers if rightward else reversed(layers):
        places = {}
        for slot in layer:
            near = slot.before if rightward else slot.after
            places[slot] = sum(other.y for other in near) / len(near) if near else slot.y
        layer.sort(key=places.__getitem__)
        for at, slot in enumerate(layer):
            slot.y = float(at)


def straighten(layers: Layers, rightward: bool) -> None:
    """Move each layer's slots toward the middle of their neighbours on both sides."""
    for layer in layers if rightward else reversed(layers):
        wanted = []
        for slot in layer:
            near = sorted(other.y for other in (*slot.before, *slot.after))
            wanted.append((near[(len(near) - 1) // 2] + near[len(near) // 2]) / 2 if near else slot.y)
        settle(layer, wanted)


def settle(layer: Sequence[Slot], wanted: Sequence[float]) -> None:
    """Put the slots of a layer as near as possible to where they are wanted, in order and without touching.

    Without the room between them the wanted heights need only not fall: neighbours that would are pooled at their mean.
    """
    reach, offsets = 0.0, []
    for slot in layer:
        offsets.append(reach + slot.high / 2)
        reach += slot.high
    pools: list[tuple[float, int]] = []
    for want, offset in zip(wanted, offsets, strict=True):
        pools.append((want - offset, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (one, many), (other, more) = pools[-2:]
            pools[-2:] = [((one * many + other * more) / (many + more), many + more)]
    flat = [mean for mean, many in pools for _ in range(many)]
    for slot, base, offset in zip(layer, flat, offsets, strict=True):
        slot.y = base + offset
