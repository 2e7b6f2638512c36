"""Standard output and error, as the commands use them: words out, exit codes, colours."""

from __future__ import annotations

import os
import sys

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from .model.recipe import Recipe
    from .show.findings import Painter

CLEAN, FAULTS, TROUBLE = 0, 1, 2
STANDARD_INPUT = "<standard input>"  # what a text that came from there is called


def say(text: str) -> None:
    """Print to standard output, whatever its encoding can carry."""
    stream = sys.stdout
    try:
        stream.write(text + "\n")
    except UnicodeEncodeError:
        stream.write(text.encode(stream.encoding or "ascii", "replace").decode(stream.encoding or "ascii") + "\n")


def complain(text: str) -> int:
    """One line on standard error; exit code 2."""
    from .ground.text import plain

    sys.stderr.write(f"stitchlang: {plain(text.encode('utf-8', 'replace').decode('utf-8'))}\n")
    return TROUBLE


def painter() -> Painter:
    """Colours on a terminal; NO_COLOR wins over FORCE_COLOR, and both over what the stream is."""
    from .show.findings import Painter

    if os.environ.get("NO_COLOR"):
        return Painter(False)
    return Painter(bool(os.environ.get("FORCE_COLOR")) or sys.stdout.isatty())


def read_recipe(path: str, size: str | None = None) -> Recipe:
    """A recipe worked out from a file, or from standard input; in its first size, or the one named."""
    from .build import build
    from .files import Unreadable, source_of

    recipe: Recipe = build(source_of(path, STANDARD_INPUT if path == "-" else path))
    if size is None:
        return recipe
    from .work.sizes import in_size

    found: Recipe | None = in_size(recipe, size)
    if found is None:
        known = f"there is {', '.join(recipe.sizes)}" if recipe.sizes else "it has one size only"
        raise Unreadable(path, f"no size `{size}`; {known}")
    found.sizes = None  # from here on it is a recipe of one size
    return found


def unread(recipe: Recipe, path: str) -> int:
    """2, with a word, where parts of a recipe could not be read; else 0."""
    if recipe.reading.stumbles or not recipe.reading.statements:
        return complain(f"{path}: parts of this recipe could not be read; run `stitchlang check`")
    return CLEAN


def warned(recipe: Recipe, path: str, what: str) -> int:
    """The exit code once something was made of a recipe: 2 where it could not be read, 1, with a word, for faults."""
    from .work.check import check

    code = unread(recipe, path)
    faults = sum(one.severity == "fault" for one in check(recipe))
    if faults and code == CLEAN:
        sys.stderr.write(
            f"stitchlang: {path} has {faults} fault{'s' if faults > 1 else ''}: run `stitchlang check` before {what}\n"
        )
    return code or (FAULTS if faults else CLEAN)
