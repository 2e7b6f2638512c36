"""The command line: arguments in, text and exit codes out.

Exit codes: 0 nothing wrong, 1 faults found, 2 wrong usage or something that
could not be read.  Each command imports what it needs when it runs, so that
`check` starts as fast as the machine allows.
"""

import argparse
import os
import sys

from . import __version__
from .files import Unreadable, read_text, recipe_paths, write_text

CLEAN, FAULTS, TROUBLE = 0, 1, 2


def main(arguments=None):
    """Run one command; the exit code."""
    options = parser().parse_args(arguments)
    try:
        return options.run(options)
    except Unreadable as trouble:
        return complain(f"{trouble.path}: {trouble.why}")
    except BrokenPipeError:  # the reader of our output went away: not our trouble, nor ours to report
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return CLEAN


UNCHECKED = "sizes and what is left undone are checked once all of it is understood"
UNITS = ("in", "cm", "mm", "both")
UNITS_HELP = "the unit to print; the recipe's own if not given"
PATHS_HELP = "a recipe, a folder of recipes, or - for standard input"


def parser():
    """Every command and its options."""
    top = argparse.ArgumentParser(
        prog="stitchlang",
        description="Check, measure and lay out recipes for sewn bags.",
        epilog="Exit codes: 0 nothing wrong, 1 faults found, 2 wrong usage or unreadable.",
    )
    top.add_argument("--version", action="version", version=f"stitchlang {__version__}")
    commands = top.add_subparsers(title="commands", required=True, metavar="COMMAND")

    def command(name, run, text):
        sub = commands.add_parser(name, help=text, description=text)
        sub.set_defaults(run=run)
        return sub

    sub = command("check", check, "Report everything that is wrong with recipes.")
    sub.add_argument("paths", nargs="+", metavar="PATH", help=PATHS_HELP)
    sub.add_argument("--short", action="store_true", help="one line for each finding")
    sub = command("steps", steps, "Print the ordered steps of a recipe.")
    sub.add_argument("file", metavar="FILE")
    sub.add_argument("--units", choices=UNITS, help=UNITS_HELP)
    sub = command("measure", measure, "Print every finished measure of a recipe.")
    sub.add_argument("file", metavar="FILE")
    sub.add_argument("--units", choices=UNITS, help=UNITS_HELP)
    sub.add_argument("--format", choices=("text", "json"), default="text")
    sub = command("why", why, "Print the sum behind one finished measure.")
    sub.add_argument("file", metavar="FILE")
    sub.add_argument("measure", nargs="+", metavar="MEASURE", help='for example: bag deep, or "bag wide at top"')
    sub = command("rules", rules, "Print the rule book, or one rule with its examples.")
    sub.add_argument("name", nargs="?", metavar="NAME")
    sub = command("format", layout, "Lay recipes out in the one way; comments are kept.")
    sub.add_argument("paths", nargs="+", metavar="FILE", help=PATHS_HELP)
    sub.add_argument("--check", action="store_true", help="change nothing; exit 1 if a recipe would change")
    sub.add_argument("--diff", action="store_true", help="change nothing; print what would change")
    return top


def say(text):
    """Print to standard output, whatever its encoding can carry."""
    stream = sys.stdout
    try:
        stream.write(text + "\n")
    except UnicodeEncodeError:
        stream.write(text.encode(stream.encoding or "ascii", "replace").decode(stream.encoding or "ascii") + "\n")


def complain(text):
    """One line on standard error; exit code 2."""
    from .ground.text import plain

    sys.stderr.write(f"stitchlang: {plain(text.encode('utf-8', 'replace').decode('utf-8'))}\n")
    return TROUBLE


def painter():
    """Colours on a terminal; NO_COLOR wins over FORCE_COLOR, and both over what the stream is."""
    from .show.findings import Painter

    if os.environ.get("NO_COLOR"):
        return Painter(False)
    return Painter(bool(os.environ.get("FORCE_COLOR")) or sys.stdout.isatty())


def read_recipe(path):
    """A recipe worked out from a file."""
    from .build import build
    from .ground.text import Source

    return build(Source(read_text(path), "<standard input>" if path == "-" else path))


def check(options):
    """stitchlang check PATH..."""
    from .ground.text import plain
    from .work.check import check, partly_understood

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
        from .show.findings import summary

        say(summary(found, count))
    return code or (FAULTS if any(one.severity == "fault" for one in found) else CLEAN)


def report(findings, recipe, paint, short):
    """Print a recipe's findings."""
    from .show.findings import finding_text

    for finding in findings:
        say(finding_text(finding, recipe, paint, short) + ("" if short else "\n"))


def steps(options):
    """stitchlang steps FILE"""
    from .show.steps import steps_text
    from .work.check import check
    from .work.steps import steps

    recipe = read_recipe(options.file)
    say(steps_text(recipe, steps(recipe, options.units)))
    faults = [one for one in check(recipe) if one.severity == "fault"]
    if faults:
        sys.stderr.write(
            f"stitchlang: {options.file} has {len(faults)} fault{'s' if len(faults) > 1 else ''}: "
            f"run `stitchlang check` before anybody sews this\n"
        )
    return FAULTS if faults else CLEAN


def measure(options):
    """stitchlang measure FILE"""
    from .show.measures import measures_json, measures_text
    from .work.measure import measured

    recipe = read_recipe(options.file)
    found = measured(recipe)
    show = measures_json if options.format == "json" else measures_text
    say(show(recipe, found, options.units or recipe.unit or "in"))
    return unread(recipe, options.file)


def unread(recipe, path):
    """2, with a word, where parts of a recipe could not be read; else 0."""
    if recipe.reading.stumbles or not recipe.reading.statements:
        return complain(f"{path}: parts of this recipe could not be read; run `stitchlang check`")
    return CLEAN


def why(options):
    """stitchlang why FILE MEASURE"""
    from .ground.text import plain
    from .show.findings import sum_rows
    from .work.measure import find

    recipe = read_recipe(options.file)
    wanted = " ".join(options.measure)
    one, near = find(recipe, wanted)
    if one is None:
        known = "; there is " + ", ".join(near) if near else ""
        return complain(f"{options.file}: no finished measure `{wanted}`{known}")
    say(plain("\n".join([f"{one.title} = {recipe.say(one.working)}", *sum_rows(one.working, recipe)])))
    return unread(recipe, options.file)


def rules(options):
    """stitchlang rules [NAME]"""
    from .ground.nearest import meant
    from .rules.catalogue import BY_NAME
    from .show.rule_book import book_text, rule_text

    if options.name is None:
        say(book_text())
    elif options.name in BY_NAME:
        say(rule_text(BY_NAME[options.name]))
    else:
        return complain(f"no rule `{options.name}`; {meant(options.name, BY_NAME)}")
    return CLEAN


def layout(options):
    """stitchlang format FILE..."""
    from .work.layout import Refused, laid_out

    code = CLEAN
    for path in recipe_paths(options.paths):
        try:
            if isinstance(path, Unreadable):
                raise path
            text = read_text(path)
            changed = laid_out(text)
        except Unreadable as trouble:
            code = complain(f"{trouble.path}: {trouble.why}")
            continue
        except Refused:
            code = complain(f"{path}: left as it is, since parts of it cannot be read; run `stitchlang check`")
            continue
        code = max(code, settle(path, text, changed, options))
    return code


def settle(path, text, changed, options):
    """Show or write one laid-out text; the exit code for it."""
    if options.diff and text != changed:
        from difflib import unified_diff

        from .ground.text import plain

        say(plain("".join(unified_diff(text.splitlines(True), changed.splitlines(True), path, path)).rstrip("\n")))
    if options.check or options.diff:
        if options.check and text != changed:
            say(f"{path}: would be laid out anew")
        return FAULTS if options.check and text != changed else CLEAN
    if path == "-":
        sys.stdout.write(changed)
    elif text != changed:
        write_text(path, changed)
        say(f"{path}: laid out")
    return CLEAN


def run():
    """The `stitchlang` command."""
    try:
        code = main()
        sys.stdout.flush()
    except KeyboardInterrupt:
        code = 130
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = CLEAN
    sys.exit(code)


if __name__ == "__main__":
    run()
