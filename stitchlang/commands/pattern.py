"""stitchlang pattern FILE -o OUT: the pieces at true scale, as a PDF tiled over pages or as one SVG sheet."""

from __future__ import annotations

from ..terminal import complain, read_recipe, say, warned
from . import SIZE_HELP

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from ..model.recipe import Recipe
    from ..work.pattern import Pattern

PAPERS = ("a4", "letter")
NO_WRITER = 'a PDF needs the library reportlab: pip install "stitchlang[pdf]"; an OUT that ends in .svg needs nothing'


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("-o", "--output", metavar="OUT", required=True, help="a file that ends in .pdf or .svg")
    parser.add_argument("--paper", choices=PAPERS, default="a4", help="what a PDF is tiled over (a4)")
    parser.add_argument("--piece", metavar="NAME", help="one piece; all of them if not given")
    parser.add_argument("--size", help=SIZE_HELP)


def run(options: Namespace) -> int:
    from ..work.pattern import patterns

    ending = options.output.lower().rpartition(".")[2]
    if ending not in ("pdf", "svg"):
        return complain(f"{options.output}: the file to write must end in .pdf or .svg")
    recipe = read_recipe(options.file, options.size)
    found = patterns(recipe, options.piece)
    if not found:
        return complain(f"{options.file}: {nothing(recipe, options.piece)}")
    trouble = (write_svg if ending == "svg" else write_pdf)(found, recipe, options)
    return trouble or warned(recipe, options.file, "anybody cuts from this pattern")


def nothing(recipe: Recipe, name: str | None) -> str:
    """Why there is no pattern."""
    from ..ground.nearest import meant

    if name is None:
        return "no piece to make a pattern of"
    return f"no piece `{name}`; {meant(name, [piece.name for piece in recipe.pieces])}"


def write_svg(found: list[Pattern], recipe: Recipe, options: Namespace) -> int:
    from ..files import write_text
    from ..show.pattern_svg import pattern_svg

    write_text(options.output, pattern_svg(found, recipe))
    say(f"{count(found)} on one sheet written to {options.output}")
    return 0


def write_pdf(found: list[Pattern], recipe: Recipe, options: Namespace) -> int:
    from ..files import write_bytes
    from ..work.tiles import MOST, pages

    many = 1 + sum(rows * columns for rows, columns in (pages(one, options.paper) for one in found))
    if many > MOST:
        return complain(f"{options.file}: {many} pages, more than {MOST}; choose a piece with --piece, or write .svg")
    try:
        from ..show.pattern_pdf import pattern_pdf

        data = pattern_pdf(found, recipe, options.paper)
    except ImportError:
        return complain(NO_WRITER)
    write_bytes(options.output, data)
    say(f"{count(found)} on {many} pages written to {options.output}")
    return 0


def count(found: list[Pattern]) -> str:
    return f"{len(found)} piece{'' if len(found) == 1 else 's'}"
