"""Settings of a project: `stitchlang.toml`, or `[tool.stitchlang]` in `pyproject.toml`, the nearest above a recipe.

fail-on     fault, doubt, hint or never: what ends a run with exit code 1
allow       a table, rule to reason: findings that do not count in any recipe
baseline    the file of findings that were there before; seen from the settings' folder, as is
exclude     recipes and folders to leave out; `*` stands for any letters, slashes too
"""

from __future__ import annotations

import os
import tomllib
from functools import cache

from ..files import SHARED, Unreadable, decoded, read_bytes
from ..ground.nearest import meant
from ..work.allow import by_settings, trouble_with
from ..work.check import BREAKING
from ..work.outcome import FAILING

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from ..work.allow import Excuse

KNOWN = ("fail-on", "allow", "baseline", "exclude")
WRONG_ALLOWED = {
    "no reason": "`allow` gives no reason for `{}`",
    "unknown": "`allow` names the rule `{}`, and there is none of that name; {}",
    "never": "`{}` cannot be allowed: while it stands, not all of a recipe is checked",
}


class Settings:
    """What a settings file says."""

    def __init__(self, path: str, table: dict[str, Any]) -> None:
        self.folder = os.path.dirname(path)
        self.fail_on = table.get("fail-on")
        self.allow = table.get("allow", {})
        self.exclude = [pattern.strip("/").removeprefix("./") for pattern in table.get("exclude", [])]
        baseline = table.get("baseline")
        self.baseline = os.path.join(self.folder, baseline) if baseline is not None else None

    def excuses(self) -> list[Excuse]:
        """What excuses findings, for `work/allow.py`."""
        return [by_settings(self.allow)] if self.allow else []

    def excludes(self, path: str) -> bool:
        """Whether a recipe, or a folder that it lies in, is to be left out."""
        if path == "-" or not self.exclude:
            return False
        from fnmatch import fnmatchcase

        part = os.path.relpath(path, self.folder).replace(os.sep, "/")
        while part:
            if any(fnmatchcase(part, pattern) for pattern in self.exclude):
                return True
            part = part.rpartition("/")[0]
        return False


@cache
def read(path: str) -> Settings:
    """The settings in a file.  Raises Unreadable with what is wrong with them."""
    try:
        table = tomllib.loads(decoded(path, read_bytes(path)))
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise Unreadable(path, f"not TOML: {error}") from None
    if os.path.basename(path) == SHARED:
        tool = table.get("tool")
        table = tool.get("stitchlang", {}) if isinstance(tool, dict) else {}
    for wrong in troubles(table):
        raise Unreadable(path, wrong)
    return Settings(path, table)


def troubles(table: object) -> Iterator[str]:
    """What is wrong with a table of settings, in words."""
    if not isinstance(table, dict):
        yield "`tool.stitchlang` is no table"
        return
    for key, value in table.items():
        if key not in KNOWN:
            yield f"no setting `{key}`; {meant(key, KNOWN)}"
        elif key == "fail-on" and value not in list(FAILING):
            yield f"`fail-on` is one of {', '.join(FAILING)}"
        elif key == "baseline" and not isinstance(value, str):
            yield "`baseline` is the path of a file, in quotes"
        elif key == "exclude" and not (isinstance(value, list) and all(isinstance(one, str) for one in value)):
            yield "`exclude` is a list of paths, each in quotes"
        elif key == "allow":
            yield from allow_troubles(value)


def allow_troubles(value: object) -> Iterator[str]:
    """What is wrong with the rules that are allowed everywhere."""
    from ..rules.catalogue import BY_NAME

    if not isinstance(value, dict) or not all(isinstance(reason, str) for reason in value.values()):
        yield '`allow` is a table of rules with reasons: { never-used = "offcuts are listed on purpose" }'
        return
    for rule, reason in value.items():
        wrong = trouble_with(rule, reason, BREAKING)
        if wrong is not None:
            yield WRONG_ALLOWED[wrong].format(rule, meant(rule, BY_NAME))
