"""Texts of other times, for the doors: `REV:path` is read through git, anything else is a file."""

from __future__ import annotations

import os

from .files import LARGEST, Unreadable, below, beside, decoded, read_text
from .reading.using import NotUsable

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from subprocess import CompletedProcess

    from .reading.using import Opener

PATIENCE = 60  # seconds that git may take


def in_revision(argument: str) -> tuple[str, str] | None:
    """(revision, path) of `REV:path`; None of anything else, and of a file of that name."""
    revision, colon, path = argument.partition(":")
    return (revision, path) if colon and path and not os.path.exists(argument) else None


def version_text(argument: str) -> str:
    """The text of a file, or of `REV:path` as git knows it.  A file whose name has a colon and that exists wins."""
    named = in_revision(argument)
    if named is None:
        return read_text(argument)
    revision, path = named
    if revision.startswith("-") or not argument.isprintable():
        raise Unreadable(argument, "not the name of a revision")  # git would take it for an option
    found = git(argument, "cat-file", "blob", f"{revision}:{path}")
    if found.returncode:
        raise Unreadable(argument, reason(argument, revision, path))
    if len(found.stdout) > LARGEST:
        raise Unreadable(argument, f"larger than {LARGEST // 1_000_000} million bytes: no recipe is that long")
    return decoded(argument, found.stdout)


def opener_at(argument: str) -> Opener:
    """What opens the files that a version of a recipe uses: in the same revision, or beside it."""
    named = in_revision(argument)
    if named is None:
        return beside(argument)
    revision, _ = named

    def opener(words: str, user: str) -> tuple[str, str]:
        folder, slash, _ = user.partition(":")[2].rpartition("/")
        name = f"{revision}:{folder}{slash}{below(words)}"
        try:
            return name, version_text(name)
        except Unreadable as trouble:
            raise NotUsable(trouble.why) from None

    return opener


def git(argument: str, *words: str) -> CompletedProcess[bytes]:
    """Run git without a shell, its input closed: the finished process.  Raises Unreadable where there is no git."""
    from subprocess import DEVNULL, TimeoutExpired, run

    try:
        return run(["git", *words], stdin=DEVNULL, capture_output=True, timeout=PATIENCE, check=False)
    except FileNotFoundError:
        raise Unreadable(
            argument, "no such file, and git, which could look for it in a revision, is not there"
        ) from None
    except (OSError, ValueError) as error:
        raise Unreadable(argument, f"git cannot be run: {getattr(error, 'strerror', None) or error}".lower()) from None
    except TimeoutExpired:
        raise Unreadable(argument, f"git took longer than {PATIENCE} seconds") from None


def reason(argument: str, revision: str, path: str) -> str:
    """Why git gave nothing, in words for the reader."""
    if git(argument, "rev-parse", "--git-dir").returncode:
        return "no such file, and this folder is in no git repository that could have it"
    if revision and git(argument, "rev-parse", "--verify", "--quiet", f"{revision}^{{tree}}").returncode:
        return f"git knows no revision `{revision}` here"
    where = f"revision `{revision}`" if revision else "what git is to commit next"
    return f"there is no file `{path}` in {where}; paths run from the top of the repository, or begin with ./"
