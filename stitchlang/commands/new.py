"""stitchlang new FORM -o OUT: a starter recipe, its cuts worked out from finished sizes."""

from __future__ import annotations

import os
import sys
from stat import S_ISREG

from ..files import write_text
from ..terminal import CLEAN, complain, say
from ..work.starter_forms import FORMS

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

SIZES = {
    "wide": "finished width (of a boxed bag: of its base)",
    "tall": "finished height",
    "deep": "finished depth (boxed, gusseted)",
    "across": "finished diameter (round)",
}


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("form", choices=tuple(FORMS), metavar="FORM", help=", ".join(FORMS))
    parser.add_argument("-o", "--output", default="-", metavar="OUT", help="the file to write; standard output if none")
    for name, text in SIZES.items():
        parser.add_argument(f"--{name}", nargs="+", metavar="LENGTH", help=text)
    parser.add_argument("--units", choices=("in", "cm", "mm"), default="in", help="the recipe's unit; in if not given")
    parser.add_argument("--allowance", nargs="+", metavar="LENGTH", help="what each seam takes; 1/2 in or 1 cm")
    parser.add_argument("--hem", nargs="+", metavar="LENGTH", help="the hem of an unlined mouth; 1 in or 2.5 cm")
    parser.add_argument("--lined", action="store_true", help="with a lining, turned through a gap")
    parser.add_argument("--title", help="what the good is called")
    parser.add_argument("--force", action="store_true", help="write over a file that is there")


def run(options: Namespace) -> int:
    from ..work.starter import Senseless, starter

    sizes = {name: written(getattr(options, name)) for name in SIZES}
    seam, hem = written(options.allowance), written(options.hem)
    try:
        text = starter(options.form, sizes, options.units, seam, hem, options.lined, options.title)
    except Senseless as trouble:
        return complain(f"new {options.form}: {trouble}")
    if options.output == "-":
        sys.stdout.write(text)
        return CLEAN
    why = in_the_way(options.output, options.force)
    if why is not None:
        return complain(f"{options.output}: {why}")
    write_text(options.output, text)
    say(f"{options.output}: a starter recipe, checked clean; `stitchlang steps` prints how it is made")
    return CLEAN


def written(words: list[str] | None) -> str | None:
    """A length given as one word or, without quotes, as several: `10 1/2`."""
    return None if words is None else " ".join(words)


def in_the_way(path: str, force: bool) -> str | None:
    """Why nothing may be written there, or None."""
    if not os.path.lexists(path):
        return None
    if not force:
        return "is there already; --force writes over it"
    if os.path.exists(path) and not S_ISREG(os.stat(path).st_mode):
        return "not a file"
    return None
