"""Put one shell into the other, ready for the rim to be joined.

    slip:       "slip" NAME "into" NAME _named{_slip_clause}*
    _slip_clause: sides

Freshly sewn shells are wrong side out; what must be turned first is worked out.
"""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...model.things import Shell
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "table"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    inner, outer = (bench.thing(word, ("shell",), "a shell") for word in node.words()[:2])
    sides = node.first("sides")
    right = sides is None or sides.word().text.startswith("right")
    op.parts.update(inner=inner, outer=outer, right=right, sides=sides)
    if inner is None or outer is None or not bench.apart(op, inner, outer):
        op.parts.update(inner=None, outer=None)
        return
    bench.use(op, inner, open_for_work=True)
    bench.use(op, outer, open_for_work=True)
    for shell in (inner, outer):
        if shell.slipped is not None:
            bench.recipe.slip("slipped-twice", op.at, shell=shell, first=shell.slipped)
        shell.slipped = op
    # What shows, turned right side out, is the outer one.
    inner.lines = outer


def say(op: Op, speech: Speech) -> str:
    inner, outer = op.parts["inner"], op.parts["outer"]
    if inner is None or outer is None:
        return ""
    how = "right" if op.parts["right"] else "wrong"
    ready = "".join(
        f"Turn {shell.name} {'right' if right_out else 'wrong'} side out. " for shell, right_out in turns_needed(op)
    )
    return (
        f"{ready}Slip {inner.name} into {outer.name}, {how} sides together, "
        f"matching side seams and raw edges at the rim."
    )


def wanted(op: Op) -> tuple[tuple[Shell, bool], tuple[Shell, bool]]:
    """(shell, right side out) as the sides that meet require it."""
    if op.parts["right"]:
        return ((op.parts["inner"], True), (op.parts["outer"], False))
    return ((op.parts["inner"], False), (op.parts["outer"], True))


def turns_needed(op: Op) -> list[tuple[Shell, bool]]:
    """Shells that must be turned first and that no statement has turned."""
    return [(shell, right_out) for shell, right_out in wanted(op) if right_out and not turned_before(shell, op)]


def turned_before(shell: Shell, op: Op) -> list[Op]:
    """The statements that turn the shell before this one."""
    return [turn for turn in shell.turned_by if turn.number < op.number]
