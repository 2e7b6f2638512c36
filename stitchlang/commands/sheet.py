"""stitchlang sheet FILE -o OUT: the complete instructions as text, Markdown, one HTML page or a PDF."""

from __future__ import annotations

import sys

from ..terminal import complain, read_recipe, say, warned
from . import SIZE_HELP, UNITS

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from ..model.recipe import Recipe

FORMATS = {
    "txt": "text",
    "text": "text",
    "md": "markdown",
    "markdown": "markdown",
    "html": "html",
    "htm": "html",
    "pdf": "pdf",
}
OUT_HELP = "the file to write, or - for standard output (text, if --format says nothing else)"
FORMAT_HELP = "what to write; told from the ending of OUT if not given"
UNITS_HELP = "the unit to print, or that the page shows first; the recipe's own if not given"
NO_WRITER = 'a PDF needs the library reportlab: pip install "stitchlang[pdf]"'


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("-o", "--output", metavar="OUT", default="-", help=OUT_HELP)
    parser.add_argument("--format", choices=sorted(set(FORMATS.values())), help=FORMAT_HELP)
    parser.add_argument("--size", help=SIZE_HELP)
    parser.add_argument("--units", choices=UNITS, help=UNITS_HELP)
    parser.add_argument("--paper", choices=("a4", "letter"), default="a4", help="the paper of a PDF (a4)")


def run(options: Namespace) -> int:
    form = options.format or FORMATS.get("text" if options.output == "-" else options.output.lower().rpartition(".")[2])
    if form is None:
        return complain(f"{options.output}: which format? End the name in .txt, .md, .html or .pdf, or give --format")
    recipe = read_recipe(options.file, options.size)
    try:
        data = written(recipe, form, options)
    except ImportError as error:
        if error.name is None or error.name.split(".")[0] != "reportlab":
            raise
        return complain(NO_WRITER)
    put(options.output, data)
    return warned(recipe, options.file, "anybody sews this")


def written(recipe: Recipe, form: str, options: Namespace) -> str | bytes:
    """The sheet in a format: its text, or its bytes."""
    from ..speech import PairedSpeech, Speech
    from ..work.sheet import sheet

    unit = options.units or recipe.unit or "in"
    if form == "html":
        from ..show.sheet_html import sheet_html

        made = sheet(recipe, PairedSpeech(("in", "mm" if "mm" in (options.units, recipe.unit) else "cm")))
        return sheet_html(made, unit)
    made = sheet(recipe, Speech(unit))
    if form == "pdf":
        from ..show.sheet_pdf import sheet_pdf

        return sheet_pdf(made, options.paper)
    if form == "markdown":
        from ..show.sheet_markdown import sheet_markdown

        return sheet_markdown(made)
    from ..show.sheet_text import sheet_text

    return sheet_text(made)


def put(output: str, data: str | bytes) -> None:
    """Write text or bytes to a file, or to standard output."""
    from ..files import write_bytes, write_text

    if isinstance(data, str):
        if output == "-":
            say(data)
        else:
            write_text(output, data + "\n")
    elif output == "-":
        sys.stdout.flush()
        sys.stdout.buffer.write(data)
    else:
        write_bytes(output, data)
