"""stitchlang measure FILE: every finished measure."""

from __future__ import annotations

from ..terminal import read_recipe, say, unread
from . import SIZE_HELP, UNITS, UNITS_HELP

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("--size", help=SIZE_HELP)
    parser.add_argument("--units", choices=UNITS, help=UNITS_HELP)
    parser.add_argument("--spread", action="store_true", help="how far each measure and each seam may be off")
    parser.add_argument("--format", choices=("text", "json"), default="text")


def run(options: Namespace) -> int:
    from ..show.measures import measures_json, measures_text
    from ..work.measure import measured_in_sizes

    recipe = read_recipe(options.file, options.size)
    found = list(measured_in_sizes(recipe))
    if options.spread and options.format == "text":
        from ..show.spread import spread_text
        from ..work.spread import spreads

        say(spread_text(recipe, spreads(recipe), options.units or recipe.unit or "in"))
        return unread(recipe, options.file)
    show = measures_json if options.format == "json" else measures_text
    say(show(recipe, found, options.units or recipe.unit or "in"))
    return unread(recipe, options.file)
