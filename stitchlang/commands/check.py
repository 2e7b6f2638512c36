"""stitchlang check PATH...: everything that is wrong with recipes."""

from __future__ import annotations

from ..checking.one import Wish, look_at
from ..checking.outlets import FORMATS, finish, outlets_of, tell, wrong_with
from ..files import recipe_paths
from ..terminal import CLEAN, FAULTS, TROUBLE, complain
from ..work.outcome import FAILING, Run
from . import PATHS_HELP

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Callable, Iterable

    from ..checking.outlets import Outlets
    from ..files import Unreadable
    from ..work.outcome import Outcome

FORMAT_HELP = f"{', '.join(FORMATS[:-1])} or {FORMATS[-1]}; printed, or written to a file; may be given several times"


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("paths", nargs="+", metavar="PATH", help=PATHS_HELP)
    parser.add_argument("--format", action="append", metavar="FORMAT[:FILE]", help=FORMAT_HELP)
    parser.add_argument("--short", action="append_const", dest="format", const="short", help="as --format short")
    parser.add_argument("--fail-on", choices=tuple(FAILING), help="the severity from which to exit 1 (fault)")
    parser.add_argument("--baseline", metavar="FILE", help="findings listed in this file do not count")
    parser.add_argument("--write-baseline", metavar="FILE", help="list in this file all that is found")
    parser.add_argument(
        "--jobs", type=int, metavar="N", help="processes to use (one a core, if there are many recipes)"
    )
    parser.add_argument("--mend", action="store_true", help="first put right what can be put right in one way only")
    parser.add_argument("--watch", action="store_true", help="go on, and check again what changes")


def run(options: Namespace) -> int:
    outlets = outlets_of(options.format or ["text"])
    wrong = wrong_with(outlets) or at_odds(options)
    if wrong:
        return complain(wrong)
    wish = Wish(options.fail_on, options.baseline, options.write_baseline is not None)
    if options.mend:
        for path in recipe_paths(options.paths):
            mend(path)
    if options.watch:
        return watched(options.paths, wish, outlets)
    found = checked(list(recipe_paths(options.paths)), wish, outlets, options.jobs)
    if options.write_baseline is not None:
        write_baseline(found, options.write_baseline)
    conclude(found, outlets)
    return code_of(found)


def mend(path: str | Unreadable) -> None:
    """Put a file right where that can be done in one way only, and say on standard error what was done."""
    from ..files import Unreadable, beside, read_text, write_text
    from ..work.mend import mended

    if isinstance(path, Unreadable):
        return  # the check that follows says so
    try:
        text = read_text(path)
        result = mended(text, path, beside(path))
        if result.text != text:
            write_text(path, result.text)
            for done in result.done:
                complain(f"{path}: mended: {done}")
    except Unreadable as trouble:
        complain(f"{trouble.path}: {trouble.why}")


def at_odds(options: Namespace) -> str:
    """Which options cannot be had together, or at all; in words, or nothing."""
    if options.jobs is not None and options.jobs < 1:
        return "--jobs takes a number of 1 or more"
    if options.mend and "-" in options.paths:
        return "--mend writes files, and standard input is none"
    if options.watch and ("-" in options.paths or options.write_baseline is not None):
        return "--watch looks at files, and writes no baseline"
    if options.baseline is not None and options.write_baseline is not None:
        return "--baseline reads one and --write-baseline makes one: give either"
    return ""


def checked(paths: list[str | Unreadable], wish: Wish, outlets: Outlets, jobs: int | None) -> Run:
    """A run over all recipes, its findings told as they come."""
    if len(paths) == 1:
        return told([look_at(paths[0], wish)], outlets)
    from ..checking.many import Progress, jobs_for, outcomes

    progress = Progress(len(paths))
    return told(progress.over(outcomes(paths, wish, jobs_for(len(paths), jobs))), outlets, progress.clear)


def told(outcomes: Iterable[Outcome], outlets: Outlets, clear: Callable[[], None] = lambda: None) -> Run:
    """A run of the outcomes, each told as it comes; `clear` makes room for it."""
    found = Run()
    for outcome in outcomes:
        if found.take(outcome):
            tell(outcome, outlets, clear)
    return found


def watched(paths: list[str], wish: Wish, outlets: Outlets) -> int:
    """Check until somebody presses Ctrl-C, which `cli.run` turns into exit code 130."""
    from ..checking.watch import gathered, watch

    def show(found: Run, changed: list[Outcome]) -> None:
        fresh = gathered(changed)
        told([*fresh.troubles, *fresh.recipes], outlets)
        conclude(found, outlets)

    watch(lambda: recipe_paths(paths), wish, show)
    return CLEAN


def write_baseline(found: Run, path: str) -> None:
    """List all that was found, and say so."""
    from ..checking.baseline import write

    number = write(path, found)
    complain(f"{path}: {number} finding{'' if number == 1 else 's'} written")


def conclude(found: Run, outlets: Outlets) -> None:
    """Print and write what waits for the end of a run."""
    import sys

    if found.against:
        from ..checking.baseline import orphans

        found.stale += orphans(found)
    finish(found, outlets)
    sys.stdout.flush()


def code_of(found: Run) -> int:
    """The exit code for all that was found."""
    return TROUBLE if found.troubles else FAULTS if found.fails() else CLEAN
