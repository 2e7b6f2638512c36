"""Many recipes: over several cores where that pays, in the order given, whatever happens to one of them."""

from __future__ import annotations

import os
import sys
import time
from contextlib import suppress

from ..work.outcome import Trouble
from .one import look_at, name_of

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from typing import TextIO, TypeAlias

    from ..files import Unreadable
    from ..work.outcome import Outcome
    from .one import Wish

    Paths: TypeAlias = list[str | Unreadable]

WORTH_SPREADING = 200  # recipes; below, starting processes takes longer than it saves
LARGEST_CHUNK = 25


def jobs_for(recipes: int, asked: int | None = None) -> int:
    """How many processes to use."""
    if asked is not None:
        return max(1, min(asked, recipes))
    return cores() if recipes > WORTH_SPREADING else 1


def cores() -> int:
    """How many cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def outcomes(paths: Paths, wish: Wish, jobs: int) -> Iterable[Outcome]:
    """The outcome of each path, in order."""
    if jobs == 1:
        return (look_at(path, wish) for path in paths)
    return spread(paths, wish, jobs)


def look_at_all(paths: Paths, wish: Wish) -> list[Outcome]:
    """The outcomes of a handful of recipes: what a process is given to do at a time."""
    return [look_at(path, wish) for path in paths]


def spread(paths: Paths, wish: Wish, jobs: int) -> Iterator[Outcome]:
    """The outcomes, from several processes.  Where one of these dies, what it had in hand is tried again alone."""
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool

    size = max(1, min(LARGEST_CHUNK, len(paths) // (4 * jobs)))
    chunks = [paths[at : at + size] for at in range(0, len(paths), size)]
    pool = ProcessPoolExecutor(jobs, initializer=leave_interrupts_to_the_parent)
    try:
        # Standard input belongs to this process.
        given = [None if "-" in chunk else pool.submit(look_at_all, chunk, wish) for chunk in chunks]
        for chunk, future in zip(chunks, given, strict=True):
            try:
                yield from future.result() if future is not None else look_at_all(chunk, wish)
            except BrokenProcessPool:
                yield from again(chunk, wish)
    finally:
        pool.shutdown(cancel_futures=True)  # waited for: a pool left to the end of the process may complain there


def again(paths: Paths, wish: Wish) -> list[Outcome]:
    """The outcomes of recipes whose process died, together in a new one, or else each in one of its own."""
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool

    with suppress(BrokenProcessPool), ProcessPoolExecutor(1) as pool:
        return pool.submit(look_at_all, paths, wish).result()
    if len(paths) == 1:
        return [
            Trouble(name_of(paths[0]), "the process that checked it came to an end; nothing is known of this recipe")
        ]
    return [outcome for path in paths for outcome in again([path], wish)]


def leave_interrupts_to_the_parent() -> None:
    """Ctrl-C reaches every process of a terminal; the parent's word ends the run."""
    import signal

    signal.signal(signal.SIGINT, signal.SIG_IGN)


class Progress:
    """How far it has come, on one line of a terminal, once that takes more than a second."""

    def __init__(self, total: int, stream: TextIO | None = None, clock: Callable[[], float] = time.monotonic) -> None:
        self.total = total
        self.stream = stream or sys.stderr
        self.clock = clock
        self.wanted = total > 1 and self.stream.isatty()
        self.start = self.last = clock()
        self.shown = ""

    def over(self, outcomes: Iterable[Outcome]) -> Iterator[Outcome]:
        """The same outcomes, the line kept up to date between them."""
        for done, outcome in enumerate(outcomes, 1):
            yield outcome
            now = self.clock()
            if self.wanted and now - self.start > 1 and now - self.last > 0.1:
                self.last = now
                self.write(f"checked {done} of {self.total}")
        self.clear()

    def clear(self) -> None:
        """Take the line away, before anything else is printed."""
        if self.shown:
            self.write("")

    def write(self, text: str) -> None:
        """Put a text in the place of the line."""
        self.stream.write("\r" + text.ljust(len(self.shown)) + ("\r" if not text else ""))
        self.stream.flush()
        self.shown = text
