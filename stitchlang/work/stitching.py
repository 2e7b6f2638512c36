"""The thread that a recipe's machine stitching takes: an estimate, by the rows of `rows`.

A statement that is sewn by machine and gives no row here contributes nothing,
and the total then says `at least`.
"""

from __future__ import annotations

from attrs import frozen

from ..trade import thread
from ..verbs import VERBS
from .plies import Plies
from .rows import rows_of_op

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..ground.lengths import Rational
    from ..model.recipe import Op, Recipe, Stuff
    from ..model.seams import Seam
    from .rows import Row

# Done at the machine, and sewn in the seam that a later statement makes.
SEWN_LATER = ("ease",)


@frozen
class Thread:
    """`seam` mm of stitching in so many `rows`; `needle` and `bobbin` mm of thread, waste and tails in them.

    `flat` is how much of the seam was reckoned with the flat ratio, `missing`
    the verbs of statements whose stitching is not in it, `stitch` how long one
    is in mm as the machine is set, `reels` what the recipe names to sew with.
    """

    rows: int
    seam: Rational
    flat: Rational
    needle: Rational
    bobbin: Rational
    missing: tuple[str, ...]
    stitch: Rational
    reels: tuple[Stuff, ...]

    @property
    def total(self) -> Rational:
        return self.needle + self.bobbin


def thread_needed(recipe: Recipe) -> Thread:
    """The thread that all machine stitching of a recipe takes: a Thread."""
    rows, missing = rows_of(recipe)
    stated = recipe.machine.facts.get("stitch") if recipe.machine is not None else None
    stitch = stated.mm if stated is not None else thread.STITCH
    sewn = [row.length * thread.ratio(row.thick, stitch) for row in rows]
    total = thread.with_waste(sum(sewn)) + thread.tails(sum(row.ends for row in rows))
    bobbin = total * thread.BOBBIN
    return Thread(
        rows=sum(row.ends for row in rows) // 2,
        seam=sum(row.length for row in rows),
        flat=sum(row.length for row in rows if row.thick is None),
        needle=total - bobbin,
        bobbin=bobbin,
        missing=tuple(dict.fromkeys(missing)),
        stitch=stitch,
        reels=tuple(stuff for stuff in recipe.stuff.values() if stuff.kind == "reel"),
    )


def rows_of(recipe: Recipe) -> tuple[list[Row], list[str]]:
    """(every row, verbs of the statements that sew and gave none)."""
    seams: dict[Op, list[Seam]] = {}
    found: list[Row] = []
    missing: list[str] = []
    plies = Plies(recipe)
    for seam in recipe.seams:
        seams.setdefault(seam.op, []).append(seam)
    for op in recipe.ops:
        rows = list(rows_of_op(plies, op, seams.get(op, ())))
        found += [row for row in rows if row.length > 0]
        sews = VERBS[op.verb].STATION == "machine" and op.verb not in SEWN_LATER
        if any(row.length <= 0 for row in rows) or (sews and not rows):
            missing.append(op.verb)
    return found, missing
