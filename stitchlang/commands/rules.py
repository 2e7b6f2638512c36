"""stitchlang rules [NAME]: the rule book, or one rule with its examples."""

from __future__ import annotations

from ..terminal import CLEAN, complain, say

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def arguments(parser: ArgumentParser) -> None:
    parser.add_argument("name", nargs="?", metavar="NAME")


def run(options: Namespace) -> int:
    from ..ground.nearest import meant
    from ..rules.catalogue import BY_NAME
    from ..show.rule_book import book_text, rule_text

    if options.name is None:
        say(book_text())
    elif options.name in BY_NAME:
        say(rule_text(BY_NAME[options.name]))
    else:
        return complain(f"no rule `{options.name}`; {meant(options.name, BY_NAME)}")
    return CLEAN
