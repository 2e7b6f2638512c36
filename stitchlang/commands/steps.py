"""stitchlang steps FILE: the ordered steps."""

from __future__ import annotations

from ..terminal import read_recipe, say, warned
from . import SIZE_HELP, UNITS, UNITS_HELP

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

FEWEST_HELP = "in the possible order with the fewest changes of station and machine set-up"


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("--size", help=SIZE_HELP)
    parser.add_argument("--units", choices=UNITS, help=UNITS_HELP)
    parser.add_argument("--fewest-changes", action="store_true", help=FEWEST_HELP)


def run(options: Namespace) -> int:
    from ..show.steps import steps_text
    from ..work.plan import fewest_changes
    from ..work.steps import steps

    recipe = read_recipe(options.file, options.size)
    order, found = fewest_changes(recipe) if options.fewest_changes else (None, None)
    say(steps_text(recipe, steps(recipe, options.units, order), found))
    return warned(recipe, options.file, "anybody sews this")
