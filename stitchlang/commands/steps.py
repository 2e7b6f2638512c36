"""stitchlang steps FILE: the ordered steps."""

import sys

from ..terminal import CLEAN, FAULTS, read_recipe, say
from . import SIZE_HELP, UNITS, UNITS_HELP


def arguments(parser):
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("--size", help=SIZE_HELP)
    parser.add_argument("--units", choices=UNITS, help=UNITS_HELP)


def run(options):
    from ..show.steps import steps_text
    from ..work.check import check
    from ..work.steps import steps

    recipe = read_recipe(options.file, options.size)
    say(steps_text(recipe, steps(recipe, options.units)))
    faults = [one for one in check(recipe) if one.severity == "fault"]
    if faults:
        sys.stderr.write(
            f"stitchlang: {options.file} has {len(faults)} fault{'s' if len(faults) > 1 else ''}: "
            f"run `stitchlang check` before anybody sews this\n"
        )
    return FAULTS if faults else CLEAN
