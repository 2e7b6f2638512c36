"""Where one can stand while a good is made: what is done, what can be done next, at which station, the machine set how.

Steps are numbers, and sets of steps are the bits of one whole number.
"""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from typing import TypeAlias

    from .setups import Setup

    Key: TypeAlias = tuple[int, str, str | None]  # what is done, where one stands, how the machine is set
    Here: TypeAlias = tuple[str, str | None]
    # ((0, station) or (1, setting), table for standing there, table for elsewhere)
    Bound: TypeAlias = tuple[tuple[int, str], list[int], list[int]]


class State:
    """What is done, what can be done next, where one stands and how the machine is set; steps are bits."""

    __slots__ = ("done", "ready", "station", "setting", "key")

    def __init__(self, done: int, ready: int, station: str, setting: str | None) -> None:
        self.done = done
        self.ready = ready
        self.station = station
        self.setting = setting
        self.key: Key = (done, station, setting)


class States:
    """The ways from state to state, and a bound from below on the changes that are still to come.

    `left` is what remains of a budget of steps looked at; `least` the best bound known of each state.
    """

    def __init__(self, setups: Sequence[Setup | None], needs: Sequence[Iterable[int]], budget: int) -> None:
        self.setups = setups
        self.needs = [mask(numbers) for numbers in needs]
        self.follows: list[list[int]] = [[] for _ in setups]
        for number, earlier in enumerate(needs):
            for need in set(earlier):
                self.follows[need].append(number)
        self.kinds = list(dict.fromkeys(setup for setup in setups if setup))
        self.at: dict[Setup | None, int] = {
            kind: mask(n for n, setup in enumerate(setups) if setup == kind) for kind in [*self.kinds, None]
        }
        self.left, self.toll = budget, 8 + len(setups) // 250  # what a state costs beside its steps
        self.least: dict[Key, int] = {}
        self.chosen: dict[Here, list[list[int]]] = {}
        self.free: dict[Here, int] = {}
        self.bounds = bounds(setups, self.follows)

    # -- moving ------------------------------------------------------------

    def begin(self, at: str) -> State:
        """Nothing done yet."""
        return State(0, mask(number for number, need in enumerate(self.needs) if not need), at, None)

    def cost(self, state: State, kind: Setup | None) -> int:
        """The changes that a step of this set-up takes now."""
        station, setting = kind or (state.station, None)
        return (station != state.station) + (setting is not None and setting != state.setting)

    def go(self, state: State, kind: Setup | None) -> State:
        """The state after changing to a set-up and doing all that can be done there."""
        station, setting = kind or (state.station, None)
        return self.stay(State(state.done, state.ready, station, setting if setting is not None else state.setting))

    def stay(self, state: State) -> State:
        """The state after doing all that takes no change."""
        done, ready, here = state.done, state.ready, self.done_here(state)
        while todo := ready & here:
            for number in numbers(todo):
                done, ready = self.do(done, ready, number)
            self.left -= todo.bit_count()
        return State(done, ready, state.station, state.setting)

    def done_here(self, state: State) -> int:
        """The steps that take no change as one stands now."""
        here = (state.station, state.setting)
        if here not in self.free:
            kinds = (kind for kind in self.at if not self.cost(state, kind))
            self.free[here] = sum(self.at[kind] for kind in kinds)  # no step is in two of them
        return self.free[here]

    def do(self, done: int, ready: int, number: int) -> tuple[int, int]:
        """(done, ready) after one more step."""
        done, ready = done | 1 << number, ready ^ 1 << number
        for later in self.follows[number]:
            if not self.needs[later] & ~done:
                ready |= 1 << later
        return done, ready

    # -- bounds ------------------------------------------------------------

    def bound(self, state: State) -> int:
        """What no order can go below from here: proven by search, or the sum over stations and settings."""
        known = self.least.get(state.key)
        if known is None:
            ready = list(numbers(state.ready))
            self.left -= self.toll + len(ready)
            known = sum(max(map(table.__getitem__, ready), default=0) for table in self.tables(state))
            self.least[state.key] = known
        return known

    def tables(self, state: State) -> list[list[int]]:
        """For each station and setting, how often each step's chain still goes to it, as one stands now."""
        here = (state.station, state.setting)
        if here not in self.chosen:
            self.chosen[here] = [
                inside if value == here[place] else outside for (place, value), inside, outside in self.bounds
            ]
        return self.chosen[here]


def bounds(setups: Sequence[Setup | None], follows: Sequence[Sequence[int]]) -> list[Bound]:
    """For each station and setting: how often a chain from each step on goes to it, standing there and elsewhere."""
    values = dict.fromkeys((place, setup[place]) for setup in setups if setup for place in (0, 1))
    found: list[Bound] = []
    for place, value in values:
        if value is None:
            continue
        inside, outside = [0] * len(setups), [0] * len(setups)
        for number in reversed(range(len(setups))):
            there = max((inside[later] for later in follows[number]), default=0)
            away = max((outside[later] for later in follows[number]), default=0)
            setup = setups[number]
            wants = setup[place] if setup else None
            if wants is None:
                inside[number], outside[number] = there, away
            elif wants == value:
                inside[number], outside[number] = there, there + 1
            else:
                inside[number] = outside[number] = away
        found.append(((place, value), inside, outside))
    return found


def mask(some: Iterable[int]) -> int:
    """Numbers as bits."""
    found = 0
    for number in some:
        found |= 1 << number
    return found


def numbers(bits: int) -> Iterator[int]:
    """The numbers of the bits that are set, from the lowest."""
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low
