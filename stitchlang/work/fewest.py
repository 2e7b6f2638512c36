"""The order with the fewest changes of station and set-up, among all that the needs of the steps allow.

A set-up is (station, setting): where a step is done and, at the one station that is set up for its steps (the machine),
how.  A change counts one for each step that is done at another station than the step before it, and one for each step
that wants the machine set otherwise than it was last left, however long ago that was.

What can be done without a change is done now.  Bringing a step forward to where it needs no change adds none there, and
taking it out of where it stood adds none either: to go from one place to another straight is never more changes than by
way of a third.  So only the sequence of set-ups is searched, and what is done at each follows.

Depth first, each time for one change less than the best found, until there is none: then the best is proven.  What was
learned of a state holds however one came there.  The budget is counted in steps looked at, never in seconds, so that
every machine gives the same order.
"""

from __future__ import annotations

from attrs import frozen

from .states import State, States

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from typing import TypeAlias

    from .setups import Setup
    from .states import Key

    Path: TypeAlias = "tuple[Path | None, State, int]"  # the way to a state, the state, what the step from it took
    Reached: TypeAlias = tuple[int, State, Path | None]  # the changes so far, where one stands, and the way there

BUDGET = 1_000_000  # steps looked at: about a second
WIDEST = 100  # states kept at a time in a first sweep
LONGEST = 10_000  # steps: the sets of a longer recipe's steps would fill the memory, and it keeps its written order


@frozen
class Fewest:
    """An order (numbers of the steps), its changes, those of the written order, and whether fewer are impossible.

    `least` is what no order can go below, as far as that is known.
    """

    order: tuple[int, ...]
    changes: int
    written: int
    proven: bool
    least: int


def each_change(setups: Iterable[Setup | None], at: str) -> Iterator[tuple[bool, bool]]:
    """For each step, whether it changes the station and whether it changes the setting; `at` is where one stands."""
    kept: str | None = None
    for setup in setups:
        station, setting = setup or (at, None)
        yield station != at, setting is not None and setting != kept
        at, kept = station, setting if setting is not None else kept


def changes(setups: Iterable[Setup | None], at: str) -> int:
    """How many changes steps of these set-ups take in this order."""
    return sum(moved + reset for moved, reset in each_change(setups, at))


def fewest(setups: Sequence[Setup | None], needs: Sequence[Iterable[int]], at: str, budget: int = BUDGET) -> Fewest:
    """The order with the fewest changes; of several, the one that follows the written order as far as it can.

    `setups` has a (station, setting) for each step as written, None for one that is done anywhere; `needs` the
    numbers of the steps that each needs, all of them below its own: the written order is possible.
    """
    written = changes(setups, at)
    if len(setups) > LONGEST:
        least = len({(place, setup[place]) for setup in setups if setup for place in (0, 1)} - {(0, at), (1, None)})
        return Fewest(tuple(range(len(setups))), written, written, written <= least, least)
    search = Search(setups, needs, budget)
    start = search.stay(search.begin(at))
    search.follow(start, range(len(setups)))
    search.sweep(start, 1)
    search.sweep(start, min(WIDEST, search.left // 2 // (budget - search.left + 1)))
    search.improve(start)
    best, order = search.enough(start), list(range(len(setups)))
    if best < written:
        search.left = budget // 2
        order = search.nearest(search.begin(at), best)
        best = changes([setups[number] for number in order], at)  # fewer, where something was found on the way
    least = search.bound(start)
    return Fewest(tuple(order), min(best, written), written, best <= least, least)


class Search(States):
    """What is known of each state met so far: changes that are enough from there (`most`), and needed (`least`)."""

    def __init__(self, setups: Sequence[Setup | None], needs: Sequence[Iterable[int]], budget: int) -> None:
        super().__init__(setups, needs, budget)
        self.most: dict[Key, int] = {}

    def ways(self, state: State, limit: int) -> list[tuple[int, State]]:
        """(changes, state) for each set-up to go to next within a limit, the most promising last."""
        found: list[tuple[int, int, int, int, State]] = []
        for kind in self.kinds:
            if state.ready & self.at[kind]:
                cost = self.cost(state, kind)
                after = self.go(state, kind)
                bound = cost + self.bound(after)
                if bound <= limit:
                    found.append((-bound, after.done.bit_count(), -len(found), cost, after))
        found.sort(key=lambda way: way[:3])
        return [(cost, after) for *_, cost, after in found]

    def follow(self, state: State, order: Iterable[int]) -> None:
        """Note how many changes an order of steps takes, if all is done that can be done wherever it goes."""
        path: list[tuple[State, int]] = []
        for number in order:
            if not state.done >> number & 1:
                kind = self.setups[number]
                path.append((state, self.cost(state, kind)))
                state = self.go(state, kind)
        self.learn(path, 0)

    def sweep(self, start: State, width: int) -> None:
        """Note what going on from the most promising states brings: so many of them after each change of set-up."""
        layer: list[Reached] = [(0, start, None)]
        while layer:
            found: dict[Key, Reached] = {}
            for spent, state, path in layer:
                if not state.ready:
                    self.learn(unrolled(path), 0)
                    continue
                for cost, after in reversed(self.ways(state, self.enough(start) - spent - 1)):
                    if after.key not in found or spent + cost < found[after.key][0]:
                        found[after.key] = (spent + cost, after, (path, state, cost))
            layer = sorted(found.values(), key=self.promise)[:width]

    def promise(self, reached: Reached) -> tuple[int, int]:
        """The fewest changes first that an order through a state can have, then the most steps done."""
        spent, state, _ = reached
        return spent + self.bound(state), -state.done.bit_count()

    def learn(self, path: Sequence[tuple[State, int]], count: int) -> None:
        """Note for each state of a path what is enough from there on."""
        for state, cost in reversed(path):
            count = self.most[state.key] = min(count + cost, self.enough(state))

    def enough(self, state: State) -> int:
        """How many changes are known to be enough from here: two a step always are."""
        return self.most.get(state.key, 2 * len(self.setups)) if state.ready else 0

    def improve(self, start: State) -> None:
        """Look for one change less, until there is none or the budget is spent."""
        while self.within(start, self.enough(start) - 1):
            pass

    def within(self, start: State, limit: int) -> bool | None:
        """Whether so many changes are enough from here; None where the budget ran out first."""
        known = self.known(start, limit)
        if known is not None:
            return known
        path = [(start, limit, self.ways(start, limit), 0)]
        while path:
            state, limit, ways, _ = path[-1]
            if not ways:
                self.least[state.key] = max(limit + 1, self.least[state.key])
                path.pop()
                continue
            cost, after = ways.pop()
            known = self.known(after, limit - cost)
            if known:
                costs = [*(one[3] for one in path[1:]), cost]
                self.learn([(one[0], paid) for one, paid in zip(path, costs, strict=True)], self.enough(after))
                return True
            if known is None:
                if self.left <= 0:
                    return None
                path.append((after, limit - cost, self.ways(after, limit - cost), cost))
        return False

    def known(self, state: State, limit: int) -> bool | None:
        """Whether so many changes are enough, where that is known."""
        if self.bound(state) > limit:
            return False
        return True if self.enough(state) <= limit else None

    def nearest(self, state: State, best: int) -> list[int]:
        """Of all orders with so many changes the one that does the step written first wherever it can."""
        order: list[int] = []
        while state.ready:
            number, cost = self.next_step(state, best)
            best -= cost
            order.append(number)
            station, setting = self.setups[number] or (state.station, None)
            setting = setting if setting is not None else state.setting
            state = State(*self.do(state.done, state.ready, number), station, setting)
        return order

    def next_step(self, state: State, best: int) -> tuple[int, int]:
        """The first written of the steps after which so many changes are still enough, and what it costs."""
        first = [(low & -low).bit_length() - 1 for kind in self.at if (low := state.ready & self.at[kind])]
        staying = any(not self.cost(state, self.setups[number]) for number in first)
        for number in sorted(first):
            kind = self.setups[number]
            cost = self.cost(state, kind)
            if not cost or ((self.left > 0 or not staying) and self.within(self.go(state, kind), best - cost)):
                return number, cost
        raise AssertionError("a state was reached from which the best order cannot be finished")


def unrolled(path: Path | None) -> list[tuple[State, int]]:
    """A path as a list of (state, changes), from its beginning."""
    found: list[tuple[State, int]] = []
    while path is not None:
        path, state, cost = path
        found.append((state, cost))
    return found[::-1]
