"""stitchlang measure FILE: every finished measure."""

from ..terminal import read_recipe, say, unread
from . import SIZE_HELP, UNITS, UNITS_HELP


def arguments(parser):
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("--size", help=SIZE_HELP)
    parser.add_argument("--units", choices=UNITS, help=UNITS_HELP)
    parser.add_argument("--format", choices=("text", "json"), default="text")


def run(options):
    from ..show.measures import measures_json, measures_text
    from ..work.measure import measured_in_sizes

    recipe = read_recipe(options.file, options.size)
    found = list(measured_in_sizes(recipe))
    show = measures_json if options.format == "json" else measures_text
    say(show(recipe, found, options.units or recipe.unit or "in"))
    return unread(recipe, options.file)
