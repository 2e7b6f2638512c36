"""Watching recipes: what has changed on the disk is checked again, until somebody ends it."""

from __future__ import annotations

import os
import time
from contextlib import suppress

from ..files import Unreadable, settings_path
from ..work.outcome import Checked, Run
from .one import forget, look_at, name_of, settings_for

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from typing import TypeAlias

    from ..work.outcome import Outcome
    from .one import Wish

    Stamp: TypeAlias = object  # compared, and never looked into
    Find: TypeAlias = Callable[[], Iterable[str | Unreadable]]
    Show: TypeAlias = Callable[[Run, list[Outcome]], None]

PAUSE = 0.3  # seconds


def watch(
    find: Find,
    wish: Wish,
    show: Show,
    pause: Callable[[], None] = lambda: time.sleep(PAUSE),
    stop: Callable[[], bool] = lambda: False,
) -> None:
    """Check what `find()` gives, and again whatever changes; `show(run, changed)` after each round that had something.

    `run` has all recipes as they are now, `changed` the outcomes that are new.  Ends where `stop()` says so.
    """
    outcomes: dict[str, Outcome] = {}
    stamps: dict[str, Stamp] | None = None
    used: dict[str, Stamp] = {}  # when the files that recipes use were last written, when these were last looked at
    while True:
        forget()
        paths = list(find())
        now = {name_of(path): stamp(path, wish) for path in paths}
        moved = {name for name, outcome in outcomes.items() if used.get(name) != used_by(outcome)}
        moved |= {name for name in now if stamps is None or stamps.get(name) != now[name]}
        changed = [path for path in paths if name_of(path) in moved]
        if changed or stamps is None or stamps.keys() - now.keys():
            fresh = {name_of(path): look_at(path, wish) for path in changed}
            outcomes = {name: fresh.get(name) or outcomes[name] for name in now}
            used |= {name: used_by(outcome) for name, outcome in fresh.items()}
            show(gathered(outcomes.values()), list(fresh.values()))
        stamps = now
        if stop():
            return
        pause()


def gathered(outcomes: Iterable[Outcome]) -> Run:
    """A run of outcomes."""
    run = Run()
    for outcome in outcomes:
        run.take(outcome)
    return run


def stamp(path: str | Unreadable, wish: Wish) -> Stamp:
    """All that a recipe's outcome depends on: when it, its settings and its baseline were last written."""
    if isinstance(path, Unreadable):
        return path.why
    settings = baseline = None
    with suppress(Unreadable):
        settings = settings_path(os.path.dirname(path))
        found = settings_for(path)
        baseline = found.baseline if found is not None else None
    return tuple(written(one) for one in (path, settings, wish.baseline or baseline))


def used_by(outcome: Outcome) -> Stamp:
    """When the files that a recipe uses were last written."""
    return tuple(map(written, outcome.source.used())) if isinstance(outcome, Checked) else ()


def written(path: str | None) -> Stamp:
    """When a file was last written, and how long it is."""
    if path is None:
        return None
    try:
        found = os.stat(path)
    except OSError:
        return path
    return path, found.st_mtime_ns, found.st_size
