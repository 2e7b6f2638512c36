"""stitchlang draw FILE -o FOLDER: pieces, flat assemblies, the finished bag and the construction graph, as SVG."""

from __future__ import annotations

import os

from ..terminal import read_recipe, say, warned
from . import SIZE_HELP, UNITS, UNITS_HELP

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Iterator

    from ..model.recipe import Recipe
    from ..speech import Speech


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("-o", "--output", metavar="FOLDER", required=True, help="the folder to write to")
    parser.add_argument("--size", help=SIZE_HELP)
    parser.add_argument("--units", choices=UNITS, help=UNITS_HELP)


def run(options: Namespace) -> int:
    from ..files import file_names, make_folder, write_text
    from ..speech import Speech

    recipe = read_recipe(options.file, options.size)
    drawn = list(drawings(recipe, Speech(options.units or recipe.unit or "in")))
    make_folder(options.output)
    names = file_names([(kind, name) for kind, name, _ in drawn], ".svg")
    for name, (_, _, text) in zip(names, drawn, strict=True):
        write_text(os.path.join(options.output, name), text)
    say(f"{len(drawn)} drawing{'' if len(drawn) == 1 else 's'} written to {options.output}")
    return warned(recipe, options.file, "anybody cuts or sews from these drawings")


def drawings(recipe: Recipe, speech: Speech) -> Iterator[tuple[str, str, str]]:
    """(kind, name, SVG text) for everything that can be drawn."""
    from ..show.drawing import drawing
    from ..show.drawing_bag import bag_drawing, bags
    from ..show.drawing_graph import graph_drawing
    from ..work.graph import graph
    from ..work.sketch import sketches

    for sketch in sketches(recipe):
        yield sketch.kind, sketch.name, drawing(sketch, recipe, speech)
    for shell, found in bags(recipe):
        yield "bag", shell.name, bag_drawing(shell, found, recipe, speech)
    nodes = graph(recipe)
    if nodes:
        yield "graph", "", graph_drawing(nodes, recipe)
