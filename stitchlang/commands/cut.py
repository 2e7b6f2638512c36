"""stitchlang cut FILE: the cutting list and the shopping list."""

from __future__ import annotations

from ..terminal import read_recipe, say, warned
from . import SIZE_HELP, UNITS, UNITS_HELP

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Callable

    from ..model.recipe import Recipe
    from ..work.cutting import Lists


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("--size", help=SIZE_HELP)
    parser.add_argument("--units", choices=UNITS, help=UNITS_HELP)
    parser.add_argument("--format", choices=("text", "csv", "json"), default="text")
    parser.add_argument("-o", "--output", metavar="OUT", help="write to this file instead of the terminal")


def run(options: Namespace) -> int:
    from ..work.cutting import cutting_in_sizes

    recipe = read_recipe(options.file, options.size)
    text = shown(options.format)(recipe, cutting_in_sizes(recipe), options.units or recipe.unit or "in")
    if options.output is None:
        say(text)
    else:
        from ..files import write_text

        write_text(options.output, text.encode("utf-8", "replace").decode("utf-8") + "\n")
    return warned(recipe, options.file, "anybody cuts this")


def shown(form: str) -> Callable[[Recipe, list[Lists], str], str]:
    """The function that prints in a format."""
    if form == "text":
        from ..show.cutting import cutting_text

        return cutting_text
    from ..show import cutting_data

    return cutting_data.cutting_csv if form == "csv" else cutting_data.cutting_json
