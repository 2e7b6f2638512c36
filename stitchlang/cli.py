"""The command line: arguments in, text and exit codes out.

Exit codes: 0 nothing wrong, 1 faults found, 2 wrong usage or something that
could not be read.  Only the module of the command that runs is imported, and
it imports what it needs when it needs it, so that `check` starts as fast as
the machine allows.
"""

import argparse
import os
import sys

from . import __version__
from .commands import COMMANDS
from .files import Unreadable
from .terminal import CLEAN, complain

EPILOG = "Exit codes: 0 nothing wrong, 1 faults found, 2 wrong usage or unreadable."


def main(arguments=None):
    """Run one command; the exit code."""
    arguments = sys.argv[1:] if arguments is None else arguments
    if arguments and arguments[0] in COMMANDS:
        options = parser_of(arguments[0]).parse_args(arguments[1:])
    else:
        options = parser().parse_args(arguments)
    try:
        return options.run(options)
    except Unreadable as trouble:
        return complain(f"{trouble.path}: {trouble.why}")
    except BrokenPipeError:  # the reader of our output went away: not our trouble, nor ours to report
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return CLEAN


def fill(parser, name):
    """Give a parser a command's options."""
    from importlib import import_module

    module = import_module(f"{__package__}.commands.{name}")
    module.arguments(parser)
    parser.set_defaults(run=module.run)
    return parser


def help_formatter(prog):
    """Help of a fixed width: asking the terminal for its own costs the import of `shutil` at every start."""
    return argparse.HelpFormatter(prog, width=96)


def parser_of(name):
    """The parser of one command, made without loading the others."""
    parser = argparse.ArgumentParser(
        prog=f"stitchlang {name}", description=COMMANDS[name], epilog=EPILOG, formatter_class=help_formatter
    )
    return fill(parser, name)


def parser():
    """Every command and its options."""
    top = argparse.ArgumentParser(
        prog="stitchlang", description="Check, measure and lay out recipes for sewn bags.", epilog=EPILOG
    )
    top.add_argument("--version", action="version", version=f"stitchlang {__version__}")
    commands = top.add_subparsers(title="commands", required=True, metavar="COMMAND")
    for name, text in COMMANDS.items():
        fill(commands.add_parser(name, help=text, description=text), name)
    return top


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
