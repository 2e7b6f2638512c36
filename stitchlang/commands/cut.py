"""stitchlang cut FILE: the cutting list and the shopping list."""

import sys

from ..terminal import CLEAN, FAULTS, read_recipe, say, unread
from . import SIZE_HELP, UNITS, UNITS_HELP


def arguments(parser):
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("--size", help=SIZE_HELP)
    parser.add_argument("--units", choices=UNITS, help=UNITS_HELP)
    parser.add_argument("--format", choices=("text", "csv", "json"), default="text")
    parser.add_argument("-o", "--output", metavar="OUT", help="write to this file instead of the terminal")


def run(options):
    from ..work.check import check
    from ..work.cutting import cutting_in_sizes

    recipe = read_recipe(options.file, options.size)
    text = shown(options.format)(recipe, cutting_in_sizes(recipe), options.units or recipe.unit or "in")
    if options.output is None:
        say(text)
    else:
        from ..files import write_text

        write_text(options.output, text.encode("utf-8", "replace").decode("utf-8") + "\n")
    code = unread(recipe, options.file)
    faults = sum(one.severity == "fault" for one in check(recipe))
    if faults and code == CLEAN:
        sys.stderr.write(
            f"stitchlang: {options.file} has {faults} fault{'s' if faults > 1 else ''}: run `stitchlang check` before "
            f"anybody cuts this\n"
        )
    return code or (FAULTS if faults else CLEAN)


def shown(form):
    """The function that prints in a format."""
    if form == "text":
        from ..show.cutting import cutting_text

        return cutting_text
    from ..show import cutting_data

    return cutting_data.cutting_csv if form == "csv" else cutting_data.cutting_json
