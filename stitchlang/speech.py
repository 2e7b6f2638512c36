"""How the program says lengths, edges and lists: the words shared by every verb's sentence."""

from __future__ import annotations

import re

from .ground.lengths import show

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
    from typing import Protocol

    from .ground.lengths import Rational
    from .ground.working import Working

    class Panel(Protocol):
        """What is said of a thing: the model's things answer to it, which lie a floor above."""

        @property
        def name(self) -> str: ...
        @property
        def kind(self) -> str: ...
        @property
        def count(self) -> int: ...
        @property
        def long(self) -> bool: ...
        @property
        def shown(self) -> Mapping[str, str]: ...

    class Chain(Protocol):
        """Edges in a row; without a name the whole thing."""

        @property
        def panel(self) -> Panel: ...
        @property
        def name(self) -> str | None: ...


COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


class Speech:
    """A way of speaking: the unit (`in`, `cm`, `mm` or `both`) and the ruler's finest mark."""

    def __init__(self, unit: str = "in", ruler: int = 16) -> None:
        self.unit = unit
        self.ruler = ruler

    def length(self, working: Working | Rational) -> str:
        """A Working or a number of millimetres, rounded to the reader's ruler."""
        return show(millimetres_of(working), self.unit, self.ruler)

    def marked(self) -> Speech:
        """The same way of speaking, its lengths between marks that no text has: see `work.sizes`."""
        return MarkedSpeech(self.unit, self.ruler)

    def in_units(self, say: Callable[[str], str]) -> str:
        """What `say(unit)` gives, for words that hang on the unit in more than their lengths."""
        return say(self.unit)

    def edges(self, chains: Iterable[Chain]) -> str:
        """Chains as one phrase: `the left and right sides of front, and the top of cap`."""
        groups: list[tuple[Panel, list[str | None]]] = []
        for chain in chains:
            if groups and groups[-1][0] is chain.panel:
                groups[-1][1].append(chain.name)
            else:
                groups.append((chain.panel, [chain.name]))
        return listed([edges_of(panel, names) for panel, names in groups])


class MarkedSpeech(Speech):
    """Lengths between two control characters, so that the same sentence in two sizes can be laid side by side."""

    def length(self, working: Working | Rational) -> str:
        return f"\x02{super().length(working)}\x03"


class PairedSpeech(Speech):
    """Every length in two units, between control characters: one sentence for readers of either.

    `spellings` takes such a sentence apart.
    """

    def __init__(self, units: tuple[str, str], ruler: int = 16) -> None:
        super().__init__(units[0], ruler)
        self.units = units

    def length(self, working: Working | Rational) -> str:
        mm = millimetres_of(working)
        return self.in_units(lambda unit: show(mm, unit, self.ruler))

    def in_units(self, say: Callable[[str], str]) -> str:
        first, second = (say(unit) for unit in self.units)
        return first if first == second else f"\x0e{first}\x0f{second}\x10"

    def marked(self) -> Speech:
        return MarkedPairs(self.units, self.ruler)


class MarkedPairs(PairedSpeech):
    """Paired lengths between the marks of `MarkedSpeech`."""

    def length(self, working: Working | Rational) -> str:
        return f"\x02{super().length(working)}\x03"


def spellings(text: str) -> Iterator[tuple[str, ...]]:
    """A text of `PairedSpeech` taken apart: (words,) where the spellings agree, (first, second) where they differ."""
    for number, part in enumerate(re.split("\x0e([^\x0e-\x10]*\x0f[^\x0e-\x10]*)\x10", text)):
        if number % 2:
            yield tuple(part.split("\x0f"))
        elif part:
            yield (part,)


def spelt(text: str, number: int = 0) -> str:
    """A text in one of its spellings."""
    return "".join(part[min(number, len(part) - 1)] for part in spellings(text))


def millimetres_of(length: Working | Rational) -> Rational:
    """What is said of a length: its millimetres, whether they come with a sum or alone."""
    return length.mm if hasattr(length, "mm") else length


def edges_of(panel: Panel, names: Sequence[str | None]) -> str:
    """`the left and right sides of front`; the bare name where no edge is meant."""
    known = [name for name in names if name is not None]
    if len(known) < len(names):
        return panel.name
    if names == ["rim"]:
        return f"the rim of {panel.name}"
    if names == ["right"] and getattr(panel, "cord", None) is not None:
        return f"the flange of {panel.name}"
    sides = [part for name in known for part in name.split(" + ")]
    if all_round(sides):
        return f"all edges of {panel.name}"
    if set(sides) == {"left", "right"}:
        return f"both {'ends' if panel.kind == 'zip' else 'sides'} of {panel.name}"
    each = "each " if panel.count > 1 else ""
    if set(sides) == {"top", "bottom"} and (panel.long or each):
        return f"both ends of {each}{panel.name}"
    said = [panel.shown.get(name, name).replace("_", " ") for name in sides]
    word = " edge" if panel.kind == "zip" and sides[0] in ("top", "bottom") else ""
    return f"the {listed(said)}{word} of {each}{panel.name}"


def all_round(names: Iterable[str]) -> bool:
    """Whether names are a panel's four sides, with whatever corners are rounded between them."""
    corners = {f"{level}_{upright}" for level in ("top", "bottom") for upright in ("left", "right")}
    return set(names) - corners == {"top", "right", "bottom", "left"}


def listed(words: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    words = list(words)
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]


def counted(number: int, word: str) -> str:
    """`one cap`, `two caps`."""
    said = COUNTS[number] if number < len(COUNTS) else str(number)
    return f"{said} {word}{'' if number == 1 else 's'}"


def capital(sentence: str) -> str:
    """A sentence with its first letter raised."""
    return sentence[:1].upper() + sentence[1:]
