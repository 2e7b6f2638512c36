"""stitchlang steps FILE: the ordered steps."""

import sys

from ..terminal import CLEAN, FAULTS, read_recipe, say
from . import SIZE_HELP, UNITS, UNITS_HELP

FEWEST_HELP = "in the possible order with the fewest changes of station and machine set-up"


def arguments(parser):
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("--size", help=SIZE_HELP)
    parser.add_argument("--units", choices=UNITS, help=UNITS_HELP)
    parser.add_argument("--fewest-changes", action="store_true", help=FEWEST_HELP)


def run(options):
    from ..show.steps import steps_text
    from ..work.check import check
    from ..work.plan import fewest_changes
    from ..work.steps import steps

    recipe = read_recipe(options.file, options.size)
    order, found = fewest_changes(recipe) if options.fewest_changes else (None, None)
    say(steps_text(recipe, steps(recipe, options.units, order), found))
    faults = [one for one in check(recipe) if one.severity == "fault"]
    if faults:
        sys.stderr.write(
            f"stitchlang: {options.file} has {len(faults)} fault{'s' if len(faults) > 1 else ''}: "
            f"run `stitchlang check` before anybody sews this\n"
        )
    return FAULTS if faults else CLEAN
