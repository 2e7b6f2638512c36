"""Files in and out, for the doors: found, decoded, and written whole or not at all."""

from __future__ import annotations

import os
import sys
from stat import S_ISREG

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from .ground.text import Source
    from .reading.using import Opener

ENDING = ".stitch"
SETTINGS = "stitchlang.toml"
SHARED = "pyproject.toml"
# How a line of a shared settings file begins that has a table of ours, or may have, in any of TOML's spellings.
OURS = (b"[tool.stitchlang]", b"[tool.stitchlang.", b"tool.stitchlang.", b"tool.stitchlang=", b"[tool]", b"tool=")
LARGEST = 4_000_000  # bytes; a recipe of 5,000 statements has about 400,000
MOST_LOOKED_THROUGH = 200  # folders, for the file that may have been meant
LONGEST_NAME = 80  # bytes of a piece's name in a file's name; most systems take 255 in all


class Unreadable(Exception):
    """A path that gives no recipe, and why, in words for the reader."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(f"{path}: {why}")
        self.path = path
        self.why = why


def recipe_paths(paths: Iterable[str]) -> Iterator[str | Unreadable]:
    """Every recipe under the given paths, in name order; `-` stands for standard input.

    Yields paths, and Unreadable for a path that is not there.
    """
    for path in paths:
        if path == "-" or not os.path.isdir(path):
            yield path
            continue
        found = []
        for folder, folders, names in os.walk(path):
            folders[:] = sorted(name for name in folders if not name.startswith("."))
            found += [os.path.join(folder, name) for name in sorted(names) if name.endswith(ENDING)]
        if not found:
            yield Unreadable(path, f"no {ENDING} file in this folder")
        yield from found


def settings_path(folder: str) -> str | None:
    """The settings file that counts for a folder: the nearest, looking upward; or None."""
    folder = os.path.abspath(folder)
    while True:
        for name in (SETTINGS, SHARED):
            path = os.path.join(folder, name)
            if os.path.isfile(path) and (name == SETTINGS or names_us(read_bytes(path))):
                return path
        above = os.path.dirname(folder)
        if above == folder:
            return None
        folder = above


def names_us(data: bytes) -> bool:
    """Whether a shared settings file is of interest; if not, the library that reads it need not be loaded."""
    return any(line.translate(None, b" \t\"'").startswith(OURS) for line in data.splitlines())


def read_text(path: str) -> str:
    """The text of a recipe.  Raises Unreadable with a reason a sewer can act on."""
    return decoded(path, read_bytes(path))


def source_of(path: str, name: str) -> Source:
    """The text of a recipe together with those of the files that it uses.  Raises Unreadable."""
    from .ground.text import Source

    source = Source(read_text(path), name)
    if "use" not in source.text:
        return source
    from .reading.using import joined

    return joined(source, beside(path))


def beside(recipe: str) -> Opener:
    """What opens the files that a recipe uses: such as lie in its folder or below, links looked through.

    Of standard input it is the folder in which the command runs.
    """
    from .reading.using import NotUsable

    def opener(words: str, user: str) -> tuple[str, str]:
        path = os.path.join(os.path.dirname(user), below(words))
        top = os.path.realpath(os.path.dirname(recipe))
        try:
            if os.path.commonpath([top, os.path.realpath(path)]) != top:
                raise NotUsable("it lies outside the folder of the recipe")
            return path, read_text(path)
        except Unreadable as trouble:
            raise NotUsable(trouble.why, near_files(words, user)) from None
        except ValueError:
            raise NotUsable("no file can have that name") from None

    return opener


def near_files(words: str, user: str) -> list[str]:
    """The recipes in a file's folder and below that it may have meant by a path: called so, or nearly so."""
    from itertools import islice

    from .ground.nearest import nearest

    top = os.path.dirname(user) or "."
    known = []
    for folder, _, names in islice(os.walk(top), MOST_LOOKED_THROUGH):
        paths = (os.path.join(folder, name) for name in sorted(names) if name.endswith(ENDING))
        known += [os.path.relpath(path, top).replace(os.sep, "/") for path in paths]
    own = os.path.basename(user)
    called = {one: name_in(one) for one in known if one != own}
    near = nearest(name_in(words), called.values())
    if near[:1] == [name_in(words)]:
        del near[1:]
    return [one for name in near for one in called if called[one] == name][:3]


def name_in(path: str) -> str:
    """What a path that a recipe writes calls its file, without the ending."""
    return path.rpartition("/")[2].removesuffix(ENDING)


def below(words: str) -> str:
    """A path as a recipe writes it, with `/` and from its own folder downward.  Raises NotUsable."""
    from .reading.using import NotUsable

    parts = words.split("/")
    if not words.endswith(ENDING) or not words.isprintable():
        raise NotUsable(f"what is used is a recipe, and its name ends in {ENDING}")
    if ".." in parts or "" in parts or any(letter in words for letter in '\\:*?"<>|'):
        raise NotUsable("the path runs from the folder of this file downward, as in `parts/strap.stitch`")
    return os.path.join(*(part for part in parts if part != "."))


def read_bytes(path: str) -> bytes:
    """What a file holds, or standard input."""
    try:
        if path == "-":
            if sys.stdin is None:
                raise Unreadable(path, "there is no standard input")
            data = sys.stdin.buffer.read(LARGEST + 1)
        else:
            if not S_ISREG(os.stat(path).st_mode):  # asked before opening: a pipe would wait for ever
                raise Unreadable(path, "not a file")
            with open(path, "rb") as file:
                data = file.read(LARGEST + 1)
    except OSError as error:
        raise Unreadable(path, (error.strerror or "cannot be read").lower()) from None
    if len(data) > LARGEST:
        raise Unreadable(path, f"larger than {LARGEST // 1_000_000} million bytes: no recipe is that long")
    return data


def decoded(path: str, data: bytes) -> str:
    """UTF-8 text without its byte-order mark; Unreadable says where the first wrong byte is."""
    if data.startswith(b"\xef\xbb\xbf"):
        data = data[3:]
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        column = error.start - (data.rfind(b"\n", 0, error.start) + 1) + 1
        raise Unreadable(path, f"line {line}, byte {column}: not UTF-8 text; save the file as UTF-8") from None
    return text if "\n" in text else text.replace("\r", "\n")  # line ends of very old machines


def mode_of(path: str) -> int:
    """A file's permissions; what the system gives a new file where there is none yet."""
    try:
        return os.stat(path).st_mode & 0o7777
    except FileNotFoundError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask


def write_text(path: str, text: str) -> None:
    """Write a text file whole: see `write_bytes`."""
    write_bytes(path, text.encode("utf-8", "replace"))


def write_bytes(path: str, data: bytes) -> None:
    """Write a file whole: to a temporary file beside it, then renamed over it; a new file is made likewise.

    Links are followed, permissions and owner kept; what is protected against writing stays as it is.  Raises
    Unreadable with the reason.
    """
    try:
        target = os.path.realpath(path)
        if os.path.exists(target) and not os.path.isfile(target):  # a folder, or a device: never renamed over
            raise Unreadable(path, "not written: there is something there that is not a file")
        if os.path.exists(target) and not os.access(target, os.W_OK):  # a renaming would not ask
            raise Unreadable(path, "not written: the file is protected against writing")
        rename_over(target, data)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "unknown trouble"
        raise Unreadable(path, f"not written: {why.lower()}") from None


def rename_over(target: str, data: bytes) -> None:
    """Put a new file in a file's place.  Nothing is left lying, whatever comes between, but where we are killed."""
    from contextlib import suppress
    from tempfile import mkstemp

    handle, spare = mkstemp(prefix=".stitchlang-", dir=os.path.dirname(target))
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        with suppress(OSError, AttributeError):  # not ours to give away, or a system without owners
            os.chown(spare, os.stat(target).st_uid, os.stat(target).st_gid)
        os.chmod(spare, mode_of(target))
        os.replace(spare, target)
    except BaseException:
        with suppress(OSError):
            os.unlink(spare)
        raise


def make_folder(path: str) -> None:
    """Make a folder, and those above it, unless it is there.  Raises Unreadable with the reason."""
    try:
        os.makedirs(path, exist_ok=True)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "unknown trouble"
        raise Unreadable(path, f"no such folder can be made: {why.lower()}") from None


def file_names(titles: Iterable[tuple[str, str]], ending: str) -> list[str]:
    """A file name for each (kind, name): letters, digits, `-` and `_` alone, no two alike on any system.

    The kind stands first, so that no name is one that a system keeps for itself; systems that do not tell capitals,
    or accents written in two ways, apart are thought of.
    """
    from unicodedata import normalize

    taken, found = set(), []
    for kind, name in titles:
        kept = "".join(letter if letter.isalnum() or letter == "_" else "-" for letter in normalize("NFC", name))
        kept = kept.encode("utf-8", "replace")[:LONGEST_NAME].decode("utf-8", "ignore").strip("-")
        stem = base = f"{kind}-{kept}" if kept else kind
        number = 1
        while normalize("NFKD", stem).casefold() in taken:
            number += 1
            stem = f"{base}-{number}"
        taken.add(normalize("NFKD", stem).casefold())
        found.append(stem + ending)
    return found
