"""One recipe looked at, as the settings above it and the command line ask for."""

from __future__ import annotations

import os

from ..files import Unreadable, settings_path
from ..terminal import read_recipe
from ..work.check import check_all, partly_understood
from ..work.outcome import Checked, Excluded, Trouble

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..model.recipe import Recipe
    from ..work.outcome import Outcome
    from .settings import Settings


class Wish:
    """What the command line says, over the settings: `writing` while a baseline is being made."""

    __slots__ = ("fail_on", "baseline", "writing")

    def __init__(self, fail_on: str | None = None, baseline: str | None = None, writing: bool = False) -> None:
        self.fail_on = fail_on
        self.baseline = baseline
        self.writing = writing


_settings_of: dict[str, str | None] = {}  # folder to the path of its settings, or None


def forget() -> None:
    """Look for settings and baselines anew, since the files may have changed."""
    from . import baseline, settings

    _settings_of.clear()
    settings.read.cache_clear()
    baseline.read.cache_clear()


def look_at(path: str | Unreadable, wish: Wish) -> Outcome:
    """A recipe's outcome: Checked, Excluded or Trouble.  Never raises, so that one recipe cannot end a run."""
    try:
        if isinstance(path, Unreadable):
            raise path
        return checked(path, wish)
    except Unreadable as trouble:
        return Trouble(trouble.path, trouble.why)
    except Exception as error:
        said = f"{type(error).__name__}: {error}"[:200]
        return Trouble(
            name_of(path), f"stitchlang itself fell over ({said}); please report it together with the recipe"
        )


def name_of(path: str | Unreadable) -> str:
    """What a path is called, also where nothing is there."""
    return path.path if isinstance(path, Unreadable) else path


def checked(path: str, wish: Wish) -> Outcome:
    """A recipe's outcome under the settings that count for it."""
    settings, baseline, excuses = settings_for(path), wish.baseline, []
    if settings is not None:
        if settings.excludes(path):
            return Excluded(path)
        baseline = baseline or settings.baseline
        excuses += settings.excuses()
    if wish.writing:
        from .baseline import excuse_all

        excuses.append(excuse_all)
    elif baseline is not None:
        from .baseline import read

        excuses.append(read(baseline).excuse(path))
    recipe = read_recipe(path)
    findings = check_all(recipe, excuses)
    fail_on = wish.fail_on or (settings and settings.fail_on) or "fault"
    outcome = Checked(recipe, findings, partly=partly_understood(recipe), fail_on=fail_on)
    if findings or baseline is not None:
        hold_against(outcome, recipe, path, None if wish.writing else baseline)
    return outcome


def hold_against(outcome: Checked, recipe: Recipe, path: str, baseline: str | None) -> None:
    """Give the findings their fingerprints, and say what a baseline has that is found no more."""
    from ..work.fingerprint import fingerprints

    outcome.prints = fingerprints(outcome.findings, recipe)
    if baseline is not None:
        from .baseline import read

        outcome.baseline = baseline
        if not outcome.partly:  # else what is not found may only be waiting
            outcome.stale = read(baseline).gone(path, outcome.prints)


def settings_for(path: str) -> Settings | None:
    """The settings that count for a recipe, or None."""
    folder = "" if path == "-" else os.path.dirname(path)
    if folder not in _settings_of:
        _settings_of[folder] = settings_path(folder)
    found = _settings_of[folder]
    if found is None:
        return None
    from .settings import read

    return read(found)
