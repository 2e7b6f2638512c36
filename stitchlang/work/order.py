"""The order of the steps: the writer's where it can be sewn so, else the possible order nearest to it."""

from __future__ import annotations

from heapq import heapify, heappop, heappush

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..model.recipe import Op, Recipe


def ordered(recipe: Recipe) -> list[Op]:
    """The recipe's statements in an order that can be sewn.

    Of all statements whose needs are met, the one written first comes next:
    the writer's own order wherever it is possible.
    """
    waiting = {op: {need for need in op.after if need is not op} for op in recipe.ops}
    follows: dict[Op, list[Op]] = {op: [] for op in recipe.ops}
    for op, needs in waiting.items():
        for need in needs:
            follows[need].append(op)
    ready = [(op.number, op) for op, needs in waiting.items() if not needs]
    heapify(ready)
    order: list[Op] = []
    done: set[Op] = set()
    while len(order) < len(recipe.ops):
        if not ready:  # a ring of needs, which the rules report: take the first in the writer's order
            stuck = next(op for op in recipe.ops if op not in done)
            heappush(ready, (stuck.number, stuck))
        _, op = heappop(ready)
        if op in done:
            continue
        done.add(op)
        order.append(op)
        for later in follows[op]:
            waiting[later].discard(op)
            if not waiting[later] and later not in done:
                heappush(ready, (later.number, later))
    return order
