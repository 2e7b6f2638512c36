"""The command line: arguments in, text and exit codes out.

Exit codes: 0 nothing wrong, 1 faults found, 2 wrong usage or something that
could not be read.  Only the module of the command that runs is imported, and
it imports what it needs when it needs it, so that `check` starts as fast as
the machine allows.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys

from . import __version__
from .commands import COMMANDS
from .files import Unreadable
from .terminal import CLEAN, complain

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from typing import NoReturn

# How many new objects, and looks at the newest, before Python looks through them for rubbish.  A recipe makes many that
# stay; to look through them again and again is time for nothing.
LOOKED_THROUGH = (50_000, 20, 50)
EPILOG = "Exit codes: 0 nothing wrong, 1 faults found, 2 wrong usage or unreadable."


def main(arguments: list[str] | None = None) -> int:
    """Run one command; the exit code."""
    arguments = sys.argv[1:] if arguments is None else arguments
    if arguments and arguments[0] in COMMANDS:
        options = parser_of(arguments[0]).parse_args(arguments[1:])
    else:
        options = parser().parse_args(arguments)
    try:
        code: int = options.run(options)
        return code
    except Unreadable as trouble:
        return complain(f"{trouble.path}: {trouble.why}")
    except BrokenPipeError:  # the reader of our output went away: not our trouble, nor ours to report
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return CLEAN


class Help(argparse.HelpFormatter):
    """Help as wide as the terminal.

    argparse would ask shutil, and so load every archive library at each start: it makes a formatter for each option.
    """

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=columns() - 2)


def columns() -> int:
    """How wide the terminal is; 80 where there is none."""
    try:
        return int(os.environ.get("COLUMNS", "")) or 80
    except ValueError:
        pass
    try:
        if sys.__stdout__ is not None:
            return os.get_terminal_size(sys.__stdout__.fileno()).columns or 80
    except (ValueError, OSError):
        pass
    return 80


def fill(parser: argparse.ArgumentParser, name: str) -> argparse.ArgumentParser:
    """Give a parser a command's options."""
    from importlib import import_module

    module = import_module(f"{__package__}.commands.{name}")
    module.arguments(parser)
    parser.set_defaults(run=module.run)
    return parser


def parser_of(name: str) -> argparse.ArgumentParser:
    """The parser of one command, made without loading the others."""
    one = argparse.ArgumentParser(
        prog=f"stitchlang {name}", description=COMMANDS[name], epilog=EPILOG, formatter_class=Help
    )
    return fill(one, name)


def parser() -> argparse.ArgumentParser:
    """Every command and its options."""
    top = argparse.ArgumentParser(
        prog="stitchlang",
        description="Check, measure and lay out recipes for sewn bags.",
        epilog=EPILOG,
        formatter_class=Help,
    )
    top.add_argument("--version", action="version", version=f"stitchlang {__version__}")
    commands = top.add_subparsers(title="commands", required=True, metavar="COMMAND")
    for name, text in COMMANDS.items():
        fill(commands.add_parser(name, help=text, description=text, formatter_class=Help), name)
    return top


def run() -> NoReturn:
    """The `stitchlang` command."""
    gc.set_threshold(*LOOKED_THROUGH)
    try:
        code = main()
        sys.stdout.flush()
    except KeyboardInterrupt:
        code = 130
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = CLEAN
    gc.freeze()  # nor is there a point in a last look through what goes with the process
    sys.exit(code)


if __name__ == "__main__":
    run()
