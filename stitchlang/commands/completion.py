"""stitchlang completion SHELL: a script that lets a shell complete our commands, options and paths.

The script is made once, by shtab, from the parsers themselves; pressing the tab key then starts no Python.
"""

from __future__ import annotations

from ..terminal import CLEAN, complain, say

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Mapping
    from typing import TypeAlias

    Completer: TypeAlias = Mapping[str, object]  # what shtab runs, by the shell; what exactly is its own affair

SHELLS = ("bash", "zsh", "fish")


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("shell", choices=SHELLS, metavar="SHELL", help="bash, zsh or fish")


def run(options: Namespace) -> int:
    try:
        import shtab
    except ImportError:
        return complain("the library shtab makes these scripts, and it is not here: pip install shtab")
    from ..cli import parser

    say(shtab.complete(completable(parser(), shtab.FILE), options.shell).rstrip("\n"))
    return CLEAN


def completable(parser: ArgumentParser, files: Completer) -> ArgumentParser:
    """The parsers, with what can follow said for arguments where argparse does not know it."""
    from ..checking.outlets import FORMATS
    from ..rules.catalogue import BY_NAME

    for action in parser._actions:
        if isinstance(action.choices, dict):  # the commands
            for command in action.choices.values():
                completable(command, files)
        elif action.metavar in ("PATH", "FILE"):
            action.complete = files  # type: ignore[attr-defined]  # where shtab looks for it
        elif action.dest == "format" and action.choices is None and action.const is None:
            action.choices, action.metavar = FORMATS, "FORMAT"  # a colon would end the description in zsh
        elif action.dest == "name":
            action.choices = tuple(BY_NAME)
    return parser
