"""Watching recipes: what has changed on the disk is checked again, until somebody ends it."""

import os
import time
from contextlib import suppress

from ..files import Unreadable, settings_path
from ..work.outcome import Run
from .one import forget, look_at, settings_for

PAUSE = 0.3  # seconds


def watch(find, wish, show, pause=lambda: time.sleep(PAUSE), stop=lambda: False):
    """Check what `find()` gives, and again whatever changes; `show(run, changed)` after each round that had something.

    `run` has all recipes as they are now, `changed` the outcomes that are new.  Ends where `stop()` says so.
    """
    stamps, outcomes = None, {}
    while True:
        forget()
        paths = list(find())
        now = {key(path): stamp(path, wish) for path in paths}
        changed = [path for path in paths if stamps is None or stamps.get(key(path)) != now[key(path)]]
        if changed or stamps is None or stamps.keys() - now.keys():
            fresh = {key(path): look_at(path, wish) for path in changed}
            outcomes = {name: fresh.get(name) or outcomes[name] for name in now}
            show(gathered(outcomes.values()), list(fresh.values()))
        stamps = now
        if stop():
            return
        pause()


def key(path):
    """A path as a name, also where nothing is there."""
    return path.path if isinstance(path, Unreadable) else path


def gathered(outcomes):
    """A run of outcomes."""
    run = Run()
    for outcome in outcomes:
        run.take(outcome)
    return run


def stamp(path, wish):
    """All that a recipe's outcome depends on: when it, its settings and its baseline were last written."""
    if isinstance(path, Unreadable):
        return path.why
    settings = baseline = None
    with suppress(Unreadable):
        settings = settings_path(os.path.dirname(path))
        baseline = settings and settings_for(path).baseline
    return tuple(written(one) for one in (path, settings, wish.baseline or baseline))


def written(path):
    """When a file was last written, and how long it is."""
    if path is None:
        return None
    try:
        found = os.stat(path)
    except OSError:
        return path
    return path, found.st_mtime_ns, found.st_size
