"""stitchlang why FILE MEASURE: the sum behind one finished measure."""

from __future__ import annotations

from ..terminal import complain, read_recipe, say, unread
from . import SIZE_HELP

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("--size", help=SIZE_HELP)
    parser.add_argument("measure", nargs="+", metavar="MEASURE", help='for example: bag deep, or "bag wide at top"')


def run(options: Namespace) -> int:
    from ..ground.text import plain
    from ..show.findings import sum_rows
    from ..work.measure import find

    recipe = read_recipe(options.file, options.size)
    wanted = " ".join(options.measure)
    one, near = find(recipe, wanted)
    if one is None:
        known = "; there is " + ", ".join(near) if near else ""
        return complain(f"{options.file}: no finished measure `{wanted}`{known}")
    say(plain("\n".join([f"{one.title} = {recipe.say(one.working)}", *sum_rows(one.working, recipe)])))
    return unread(recipe, options.file)
