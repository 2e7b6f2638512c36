"""stitchlang diff OLD NEW: what changed in the bag, not in the text.

Git calls it too, for a file in two states, with seven words: path, old file, hash and mode, new file, hash and mode; or
nine, where the file was renamed.  The exit code is then 0, or git would stop.
"""

from __future__ import annotations

from ..files import Unreadable
from ..terminal import CLEAN, FAULTS, TROUBLE, complain, say, unread
from . import UNITS

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Callable

    from ..model.recipe import Recipe
    from ..work.changes import Comparison

FROM_GIT = (7, 9)
ABSENT = "/dev/null"  # what git names, on every system, where a file is not there
USAGE = "%(prog)s [-h] [--units {in,cm,mm,both}] [--format {text,markdown,json}] OLD NEW"
WORDS_HELP = "two recipes: files, - for standard input, or REVISION:PATH of a git repository"
NO_COMPARISON = "not merged yet: nothing to compare"


def arguments(parser: ArgumentParser) -> None:
    parser.usage = USAGE
    parser.epilog = "Exit codes: 0 no difference, 1 some difference, 2 wrong usage or unreadable."
    parser.add_argument("words", nargs="+", metavar="OLD NEW", help=WORDS_HELP)
    parser.add_argument("--units", choices=UNITS, help="the unit to print; the new recipe's if not given")
    parser.add_argument("--format", choices=("text", "markdown", "json"), default="text")
    parser.set_defaults(parser=parser)


def run(options: Namespace) -> int:
    words = options.words
    if len(words) in FROM_GIT:
        return run_for_git(words, options)
    if len(words) == 1 and asked_by_git():
        say(f"{shown_name(words[0])}: {NO_COMPARISON}")
        return CLEAN
    if len(words) != 2:
        options.parser.error("OLD and NEW are wanted")
    old, new = (read_version(word) for word in words)
    comparison = show(old, new, options)
    codes = [unread(one, one.source.name) for one in (old, new)]
    return TROUBLE if any(codes) else FAULTS if comparison.differs else CLEAN


def read_version(argument: str) -> Recipe:
    """A recipe worked out from a file, from standard input, or from a revision that git knows."""
    from ..build import build
    from ..ground.text import Source
    from ..history import opener_at, version_text
    from ..reading.using import joined

    source = Source(version_text(argument), "<standard input>" if argument == "-" else argument)
    return build(joined(source, opener_at(argument)))


def show(old: Recipe, new: Recipe, options: Namespace) -> Comparison:
    """Compare two recipes and print what changed; the Comparison."""
    from ..work.compare import compare

    comparison: Comparison = compare(old, new, options.units)
    unit = options.units or new.unit or old.unit or "in"
    say(shower(options.format)(comparison, old, new, unit))
    return comparison


def shower(form: str) -> Callable[[Comparison, Recipe, Recipe, str], str]:
    """The function that prints in a format."""
    if form == "json":
        from ..show.compare_data import compare_json

        return compare_json
    from ..show import compare

    return compare.compare_markdown if form == "markdown" else compare.compare_text


# ------------------------------------------------------------------ for git
def run_for_git(words: list[str], options: Namespace) -> int:
    """One file of git's list.  Whatever happens the code is 0: git goes on with its next file."""
    path, before, _, _, after, _, _ = words[:7]
    name = words[7] if len(words) > 7 else path
    say(f"{shown_name(path)} -> {shown_name(name)}" if name != path else shown_name(path))
    try:
        show(of_git(before, path), of_git(after, name), options)
    except Unreadable as trouble:
        complain(f"{shown_name(name)}: {trouble.why}")
    say("")
    return CLEAN


def of_git(file: str, name: str) -> Recipe:
    """A recipe from a file that git names, called by its path; an empty one where there is none.

    What it uses is read from the working tree in both states: git says nothing of other files.
    """
    from ..build import build
    from ..files import beside, read_text
    from ..ground.text import Source
    from ..reading.using import joined

    return build(joined(Source("" if file == ABSENT else read_text(file), name), beside(name)))


def asked_by_git() -> bool:
    """Whether git runs us: it says how many files it has."""
    import os

    return "GIT_DIFF_PATH_TOTAL" in os.environ


def shown_name(path: str) -> str:
    """A path in one line, nothing in it that moves a cursor."""
    from ..ground.text import plain

    return plain(path.replace("\n", " "))
