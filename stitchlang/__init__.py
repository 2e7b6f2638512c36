"""stitchlang: a plain-text language for sewn construction, and its checker.

Four verbs do everything; the command line is a thin door to them.

    recipe = stitchlang.read(text, name="satchel.stitch")   # never raises for bad text
    stitchlang.check(recipe)      # list of Finding, in text order
    stitchlang.measure(recipe)    # list of Measure, each with the sum behind it
    stitchlang.steps(recipe)      # list of Step, in an order that can be sewn
"""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from .ground.finding import Finding
    from .model.recipe import Recipe
    from .reading.using import Opener
    from .work.measure import Measure
    from .work.steps import Step

__version__ = "0.1.0"
__all__ = ["check", "measure", "read", "steps"]


def read(text: str, name: str = "<recipe>", opener: Opener | None = None) -> Recipe:
    """Read a recipe's text and work it out: a Recipe, whole however broken the text.

    `opener` opens the files that the recipe uses, as `files.beside(path)` does; without one none is brought in.
    """
    from .build import build
    from .ground.text import Source

    source = Source(text, name)
    if opener is not None:
        from .reading.using import joined

        source = joined(source, opener)
    return build(source)


def check(recipe: Recipe) -> list[Finding]:
    """Every finding of every rule, in text order: a list of `ground.finding.Finding`."""
    from .work.check import check

    return check(recipe)


def measure(recipe: Recipe) -> list[Measure]:
    """Every finished measure: a list of `work.measure.Measure`."""
    from .work.measure import measured

    return measured(recipe)


def steps(recipe: Recipe, unit: str | None = None, fewest: bool = False) -> list[Step]:
    """The ordered steps: a list of `work.steps.Step`.  `unit`: in, cm, mm or both.

    With `fewest` in the possible order with the fewest changes of station and machine set-up.
    """
    from .work.plan import fewest_changes
    from .work.steps import steps

    return steps(recipe, unit, fewest_changes(recipe)[0] if fewest else None)
