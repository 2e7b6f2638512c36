"""stitchlang format FILE...: the one layout, comments kept."""

from __future__ import annotations

import sys

from ..files import Unreadable, read_text, recipe_paths, write_text
from ..terminal import CLEAN, FAULTS, complain, say
from . import PATHS_HELP

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("paths", nargs="+", metavar="FILE", help=PATHS_HELP)
    parser.add_argument("--check", action="store_true", help="change nothing; exit 1 if a recipe would change")
    parser.add_argument("--diff", action="store_true", help="change nothing; print what would change")


def run(options: Namespace) -> int:
    from ..work.layout import Refused, laid_out

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


def settle(path: str, text: str, changed: str, options: Namespace) -> int:
    """Show or write one laid-out text; the exit code for it."""
    if options.diff and text != changed:
        from difflib import unified_diff

        from ..ground.text import plain

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
