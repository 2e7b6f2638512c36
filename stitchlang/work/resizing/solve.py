"""The fewest cuts changed by as little as possible, such that all that is asked holds: a mixed-integer program.

HiGHS (highspy) finds which numbers change; the numbers themselves are then worked out exactly, in fractions.
"""

from __future__ import annotations

from fractions import Fraction

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from typing import TypeAlias

    from highspy import Highs, highs_linear_expression, highs_var

    from ...ground.lengths import Rational

    Marks: TypeAlias = Sequence[tuple[Fraction, Fraction]]  # of each number its value, and the step of its ruler

FARTHEST = 2000.0  # millimetres that a cut may change by
SMALL = 1e-5  # what a millimetre of change costs against one cut more


class Row:
    """`low` <= sum of coefficient x change <= `high`; coefficients by column, all in millimetres; None for no limit."""

    __slots__ = ("coefficients", "high", "low", "says", "soft")

    def __init__(
        self,
        coefficients: Mapping[int, Fraction],
        low: Rational | None,
        high: Rational | None,
        says: str,
        soft: bool = False,
    ) -> None:
        self.coefficients = coefficients
        self.low = low
        self.high = high
        self.says = says
        self.soft = soft

    def holds(self) -> bool:
        """Whether it holds if nothing changes."""
        return (self.low is None or self.low <= 0) and (self.high is None or self.high >= 0)


def solve(rows: Sequence[Row], least: Sequence[Rational], marks: Marks | None) -> tuple[list[float], list[Row]] | None:
    """The change of each number in millimetres, and the soft rows given up; None where no answer exists.

    `least` is how small each number may become (a change, below nothing); `marks` None, or what each number is
    to lie on if it changes.
    """
    if not least:  # the solver knows no sum of nothing
        return ([], []) if all(row.soft or row.holds() for row in rows) else None
    import highspy

    program = quiet()
    up = [program.addVariable(lb=0, ub=FARTHEST) for _ in least]
    down = [program.addVariable(lb=0, ub=max(0.0, -float(low))) for low in least]
    moved = [program.addBinary() for _ in least]
    for one, other, flag in zip(up, down, moved, strict=True):
        program.addConstr(one + other <= FARTHEST * flag)
    given_up = put_rows(program, rows, up, down)
    if marks is not None:
        for at, (value, step) in enumerate(marks):
            put_on_mark(program, up[at] - down[at], float(value), float(step), moved[at])
    cost = sum(moved) + SMALL * (sum(up) + sum(down)) + 100 * sum(given_up.values())
    program.minimize(cost)
    if program.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    changes = [program.val(one) - program.val(other) for one, other in zip(up, down, strict=True)]
    used = [program.val(flag) > 0.5 and abs(change) > 1e-6 for flag, change in zip(moved, changes, strict=True)]
    lost = [row for row in rows if row in given_up and program.val(given_up[row]) > 0.5]
    return [change if one else 0.0 for change, one in zip(changes, used, strict=True)], lost


def quiet() -> Highs:
    """A program that prints nothing, not even who wrote the solver."""
    from highspy import Highs

    class Quiet(Highs):
        def enableCallbacks(self) -> None:
            self.silent()
            super().enableCallbacks()  # type: ignore[no-untyped-call]  # highspy does not say

    return Quiet()  # type: ignore[no-untyped-call]  # highspy does not say


def put_rows(
    program: Highs, rows: Iterable[Row], up: Sequence[highs_var], down: Sequence[highs_var]
) -> dict[Row, highs_var]:
    """Add every row; a soft one may be given up, at a price: row to its binary."""
    given_up: dict[Row, highs_var] = {}
    for row in rows:
        total = 0 * up[0]
        for at, factor in row.coefficients.items():
            total += float(factor) * (up[at] - down[at])
        spare: highs_linear_expression | float = 1e-7
        if row.soft:
            given_up[row] = program.addBinary()
            spare = 10 * FARTHEST * given_up[row]
        if row.high is not None:
            program.addConstr(total <= float(row.high) + spare)
        if row.low is not None:
            program.addConstr(total >= float(row.low) - spare)
    return given_up


def put_on_mark(program: Highs, change: highs_linear_expression, value: float, step: float, moved: highs_var) -> None:
    """A number that changes comes to lie on a mark of the ruler."""
    mark = program.addIntegral(lb=0, ub=1e7)
    program.addConstr(value + change - step * mark <= FARTHEST * (1 - moved))
    program.addConstr(value + change - step * mark >= -FARTHEST * (1 - moved))


def exactly(rows: Iterable[Row], changes: Sequence[float]) -> list[Fraction]:
    """The same changes as exact fractions: equal rows solved by elimination, what they leave free taken as found."""
    columns = [at for at, change in enumerate(changes) if change]
    matrix = [
        [Fraction(row.coefficients.get(at, 0)) for at in columns] + [Fraction(row.high)]
        for row in rows
        if row.high is not None and row.low == row.high
    ]
    pivots = eliminated(matrix, len(columns))
    exact = [Fraction(0)] * len(changes)
    free = [at for number, at in enumerate(columns) if number not in pivots.values()]
    for at in free:
        exact[at] = Fraction(changes[at]).limit_denominator(1000)
    for row, column in pivots.items():
        rest = sum(matrix[row][columns.index(at)] * exact[at] for at in free)
        exact[columns[column]] = matrix[row][-1] - rest
    return exact


def eliminated(matrix: list[list[Fraction]], width: int) -> dict[int, int]:
    """Gauss-Jordan in place: which row leads which column."""
    pivots: dict[int, int] = {}
    top = 0
    for column in range(width):
        lead = next((row for row in range(top, len(matrix)) if matrix[row][column]), None)
        if lead is None:
            continue
        matrix[top], matrix[lead] = matrix[lead], matrix[top]
        head = matrix[top][column]
        matrix[top] = [value / head for value in matrix[top]]
        for row, values in enumerate(matrix):
            if row != top and values[column]:
                factor = values[column]
                matrix[row] = [one - factor * other for one, other in zip(values, matrix[top], strict=True)]
        pivots[top] = column
        top += 1
    return pivots
