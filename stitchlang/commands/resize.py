"""stitchlang resize FILE --to SIZES: the cuts that give finished sizes."""

from __future__ import annotations

import sys

from ..files import write_text
from ..terminal import CLEAN, FAULTS, complain, read_recipe, say
from . import SIZE_HELP

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from fractions import Fraction

    from ..model.recipe import Recipe
    from ..work.resizing.resize import Wish


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE")
    parser.add_argument("--to", required=True, metavar="SIZES", help='for example: "12 wide at top, 4 deep"')
    parser.add_argument("--of", metavar="NAME", help="the thing meant; the one that the recipe promises, if not given")
    parser.add_argument("--marks", metavar="LENGTH", help="the ruler's mark that new cuts lie on, such as 1/8 or 1 mm")
    parser.add_argument("--size", help=SIZE_HELP)
    parser.add_argument("-o", "--output", metavar="OUT", help="write the new recipe there; - for standard output")


def run(options: Namespace) -> int:
    from ..work.resizing.asked import Misunderstood, step_of, wishes_of

    recipe = read_recipe(options.file, options.size)
    try:
        wishes = wishes_of(options.to, options.of, recipe)
        step = step_of(options.marks, recipe) if options.marks is not None else None
    except Misunderstood as trouble:
        return complain(f"{options.file}: {trouble}")
    try:
        import highspy  # noqa: F401  # asked only whether it is there
    except ImportError:
        return complain("resizing needs the solver: install stitchlang[resize]")
    return answer(recipe, wishes, step, options)


def answer(recipe: Recipe, wishes: list[Wish], step: Fraction | None, options: Namespace) -> int:
    """Print what moves, write the new text, say what is found in it that was not found before."""
    from ..show.resized import resized_text
    from ..work.check import check
    from ..work.mend import edited, own
    from ..work.resizing.resize import resize

    if recipe.reading.stumbles or any(one.severity == "fault" for one in check(recipe)):
        return complain(f"{options.file}: mend its faults first; run `stitchlang check`")
    resized = resize(recipe, wishes, step)
    report = resized_text(recipe, wishes, resized)
    if options.output == "-":
        sys.stderr.write(report + "\n")
    else:
        say(report)
    if resized.conflict:
        return FAULTS
    text = edited(recipe.source.own_text(), own(recipe.source, resized.edits))
    tell_new_findings(recipe, text, options.file)
    if options.output == "-":
        sys.stdout.write(text)
    elif options.output is not None:
        write_text(options.output, text)
    return CLEAN


def tell_new_findings(recipe: Recipe, text: str, path: str) -> None:
    """What the new sizes bring with them: a pocket that no longer fits, a zip too long."""
    from ..build import build
    from ..files import beside
    from ..ground.text import Source, plain
    from ..reading.using import joined
    from ..work.check import check

    known = {(one.rule, one.says) for one in check(recipe)}
    for finding in check(build(joined(Source(text, recipe.source.name), beside(path)), recipe.size)):
        if (finding.rule, finding.says) not in known:
            sys.stderr.write(plain(f"now to be looked at: {finding.rule}: {finding.says}") + "\n")
