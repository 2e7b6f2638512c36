"""The stitch line of an outline: each edge moved inward by its own allowance, and where the moved edges cross.

An arc keeps its centre and loses radius; where the allowance is the radius or more, it closes to a point and its
neighbours cross each other.  Where an arc runs on into an edge with another allowance, the row steps from the one to
the other along the radius.
"""

from __future__ import annotations

from math import cos, pi, sin

from .shape import CLOSE, Run, box, inward, round_about

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from typing import TypeAlias

    from ..model.outline import Edge
    from .shape import Arc, At

    Allowance: TypeAlias = Callable[[Edge], float]  # what an edge gives up, in millimetres
    Line: TypeAlias = tuple[At, float]  # a point and a direction


def taken(edge: Edge) -> float:
    """Millimetres that an edge gives up: its own allowance, or that of its halves where it was folded in two."""
    own = float(edge.allowance().mm)
    return own or max((float(half.allowance().mm) for half in edge.halves), default=0.0)


def diagonal(edge: Edge) -> bool:
    """Whether an edge is sewn corner to corner, across the strip."""
    seam = edge.fate("seam")
    return seam is not None and seam.op.verb == "join" and seam.op.node.first("diagonally") is not None


def stitch_line(runs: Sequence[Run], allowance: Allowance = taken) -> list[Run] | None:
    """The runs of the stitch line inside a closed outline; None where the allowances leave nothing."""
    if len(runs) == 1 and runs[0].arc:
        return round_row(runs[0], runs[0].arc, allowance(runs[0].edge))
    kept = [run for run in runs if not (run.arc and allowance(run.edge) >= run.arc[1] - CLOSE)]
    for _ in runs:
        moved = crossed(kept, runs, allowance)
        if moved is None:
            return None
        lost = backward(kept, moved)
        if lost is None:
            return moved if thickness(moved) > CLOSE else None
        kept.pop(lost)
    return None


def thickness(runs: Sequence[Run]) -> float:
    """The lesser side of the box of runs."""
    left, top, right, bottom = box(runs)
    return min(right - left, bottom - top)


def round_row(run: Run, arc: Arc, by: float) -> list[Run] | None:
    """The stitch line of a circle."""
    centre, radius, begins, sweep = arc
    if by >= radius:
        return None
    at = round_about(centre, radius - by, begins)
    return [Run(run.edge, at, run.heading, at, (centre, radius - by, begins, sweep), run.smooth)]


def crossed(kept: Sequence[Run], runs: Sequence[Run], allowance: Allowance) -> list[Run] | None:
    """The kept runs moved inward, each from its crossing with the one before to that with the next."""
    if len(kept) < 2:
        return None
    lines = [line_of(run, allowance(run.edge)) for run in kept]
    met = [joint(kept, runs, lines, at, allowance) for at in range(len(kept))]
    joints = [one for one in met if one is not None]
    if len(joints) < len(met):
        return None
    found: list[Run] = []
    for at, run in enumerate(kept):
        start, end = joints[at - 1][1], joints[at][0]
        arc = run.arc and (run.arc[0], run.arc[1] - allowance(run.edge), *run.arc[2:])
        found.append(Run(run.edge, start, run.heading, end, arc, run.smooth))
    return found


def line_of(run: Run, by: float) -> Line:
    """(point, direction) of an edge's stitch line; one sewn diagonally leans by half a right angle."""
    if diagonal(run.edge) and by:
        middle, heading = run.middle
        return inward(middle, heading, by), heading + pi / 4
    return inward(run.start, run.heading, by), run.heading


def joint(
    kept: Sequence[Run], runs: Sequence[Run], lines: Sequence[Line], at: int, allowance: Allowance
) -> tuple[At, At] | None:
    """(where a kept run ends, where the next one begins): one point at a corner, two where the allowance changes."""
    run, after = kept[at], kept[(at + 1) % len(kept)]
    neighbour = runs[(runs.index(run) + 1) % len(runs)]
    if neighbour is after and (run.smooth or run.arc or after.arc):
        end = inward(run.end, run.end_heading, allowance(run.edge))
        return end, inward(after.start, after.heading, allowance(after.edge))
    if run.arc or after.arc:
        return None
    point = meeting(*lines[at], *lines[(at + 1) % len(kept)])
    return point and (point, point)


def meeting(one: At, heading: float, other: At, other_heading: float) -> At | None:
    """Where two lines cross; None where they run alongside."""
    turn = sin(other_heading - heading)
    if abs(turn) < CLOSE:
        return None
    across, down = other[0] - one[0], other[1] - one[1]
    along = (across * sin(other_heading) - down * cos(other_heading)) / turn
    return one[0] + along * cos(heading), one[1] + along * sin(heading)


def backward(kept: Sequence[Run], moved: Sequence[Run]) -> int | None:
    """The straight run that its neighbours' allowances have eaten up most, by its place; None where all are left."""
    worst = -CLOSE
    place: int | None = None
    for at, (run, row) in enumerate(zip(kept, moved, strict=True)):
        length = (row.end[0] - row.start[0]) * cos(run.heading) + (row.end[1] - row.start[1]) * sin(run.heading)
        if not run.arc and length < worst:
            worst, place = length, at
    return place
