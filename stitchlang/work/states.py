"""Where one can stand while a good is made: what is done, what can be done next, at which station, the machine set how.

Steps are numbers, and sets of steps are the bits of one whole number.
"""


class State:
    """What is done, what can be done next, where one stands and how the machine is set; steps are bits."""

    __slots__ = ("done", "ready", "station", "setting", "key")

    def __init__(self, done, ready, station, setting):
        self.done = done
        self.ready = ready
        self.station = station
        self.setting = setting
        self.key = (done, station, setting)


class States:
    """The ways from state to state, and a bound from below on the changes that are still to come.

    `left` is what remains of a budget of steps looked at; `least` the best bound known of each state.
    """

    def __init__(self, setups, needs, budget):
        self.setups = setups
        self.needs = [mask(numbers) for numbers in needs]
        self.follows = [[] for _ in setups]
        for number, earlier in enumerate(needs):
            for need in set(earlier):
                self.follows[need].append(number)
        self.kinds = list(dict.fromkeys(setup for setup in setups if setup))
        self.at = {kind: mask(n for n, setup in enumerate(setups) if setup == kind) for kind in [*self.kinds, None]}
        self.left, self.toll = budget, 8 + len(setups) // 250  # what a state costs beside its steps
        self.least, self.chosen, self.free = {}, {}, {}
        self.bounds = bounds(setups, self.follows)

    # -- moving ------------------------------------------------------------

    def begin(self, at):
        """Nothing done yet."""
        return State(0, mask(number for number, need in enumerate(self.needs) if not need), at, None)

    def cost(self, state, kind):
        """The changes that a step of this set-up takes now."""
        station, setting = kind or (state.station, None)
        return (station != state.station) + (setting is not None and setting != state.setting)

    def go(self, state, kind):
        """The state after changing to a set-up and doing all that can be done there."""
        setting = kind[1] if kind[1] is not None else state.setting
        return self.stay(State(state.done, state.ready, kind[0], setting))

    def stay(self, state):
        """The state after doing all that takes no change."""
        done, ready, here = state.done, state.ready, self.done_here(state)
        while todo := ready & here:
            for number in numbers(todo):
                done, ready = self.do(done, ready, number)
            self.left -= todo.bit_count()
        return State(done, ready, state.station, state.setting)

    def done_here(self, state):
        """The steps that take no change as one stands now."""
        here = (state.station, state.setting)
        if here not in self.free:
            kinds = (kind for kind in self.at if not self.cost(state, kind))
            self.free[here] = sum(self.at[kind] for kind in kinds)  # no step is in two of them
        return self.free[here]

    def do(self, done, ready, number):
        """(done, ready) after one more step."""
        done, ready = done | 1 << number, ready ^ 1 << number
        for later in self.follows[number]:
            if not self.needs[later] & ~done:
                ready |= 1 << later
        return done, ready

    # -- bounds ------------------------------------------------------------

    def bound(self, state):
        """What no order can go below from here: proven by search, or the sum over stations and settings."""
        known = self.least.get(state.key)
        if known is None:
            ready = list(numbers(state.ready))
            self.left -= self.toll + len(ready)
            known = sum(max(map(table.__getitem__, ready), default=0) for table in self.tables(state))
            self.least[state.key] = known
        return known

    def tables(self, state):
        """For each station and setting, how often each step's chain still goes to it, as one stands now."""
        here = (state.station, state.setting)
        if here not in self.chosen:
            self.chosen[here] = [
                inside if value == here[place] else outside for (place, value), inside, outside in self.bounds
            ]
        return self.chosen[here]


def bounds(setups, follows):
    """For each station and setting: how often a chain from each step on goes to it, standing there and elsewhere.

    A list of ((0, station) or (1, setting), table for standing there, table for elsewhere).
    """
    values = dict.fromkeys((place, setup[place]) for setup in setups if setup for place in (0, 1))
    found = []
    for place, value in values:
        if value is None:
            continue
        inside, outside = [0] * len(setups), [0] * len(setups)
        for number in reversed(range(len(setups))):
            there = max((inside[later] for later in follows[number]), default=0)
            away = max((outside[later] for later in follows[number]), default=0)
            wants = setups[number][place] if setups[number] else None
            if wants is None:
                inside[number], outside[number] = there, away
            elif wants == value:
                inside[number], outside[number] = there, there + 1
            else:
                inside[number] = outside[number] = away
        found.append(((place, value), inside, outside))
    return found


def mask(some):
    """Numbers as bits."""
    found = 0
    for number in some:
        found |= 1 << number
    return found


def numbers(bits):
    """The numbers of the bits that are set, from the lowest."""
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low
