"""stitchlang check PATH...: everything that is wrong with recipes."""

from ..files import Unreadable, recipe_paths
from ..terminal import CLEAN, FAULTS, complain, painter, read_recipe, say
from . import PATHS_HELP

UNCHECKED = "sizes and what is left undone are checked once all of it is understood"


def arguments(parser):
    parser.add_argument("paths", nargs="+", metavar="PATH", help=PATHS_HELP)
    parser.add_argument("--short", action="store_true", help="one line for each finding")


def run(options):
    from ..ground.text import plain
    from ..work.check import check, partly_understood

    found, count, code, paint = [], 0, CLEAN, painter()
    for path in recipe_paths(options.paths):
        try:
            if isinstance(path, Unreadable):
                raise path
            recipe = read_recipe(path)
        except Unreadable as trouble:
            code = complain(f"{trouble.path}: {trouble.why}")
            continue
        count += 1
        findings = check(recipe)
        if findings:
            report(findings, recipe, paint, options.short)
            if partly_understood(recipe):
                say(f"{plain(recipe.source.name)}: {UNCHECKED}\n")
            found += findings
    if count:
        from ..show.findings import summary

        say(summary(found, count))
    return code or (FAULTS if any(one.severity == "fault" for one in found) else CLEAN)


def report(findings, recipe, paint, short):
    """Print a recipe's findings."""
    from ..show.findings import finding_text

    for finding in findings:
        say(finding_text(finding, recipe, paint, short) + ("" if short else "\n"))
