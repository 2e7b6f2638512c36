"""Rectangles on a length of cloth: a simple layout in strips, exact.

First fit by falling height (Coffman, Garey, Johnson and Tarjan, 1980): each
rectangle goes into the first strip across the cloth that has room for it, and a
new strip begins where none has.  What a strip has left, beside a rectangle or
above it, is room for smaller ones, so that everything can be cut with straight
cuts from edge to edge.  A few orders are tried and the shortest layout kept.
It is long enough, and hardly ever the shortest there is: an upper bound.
"""

from __future__ import annotations

from fractions import Fraction
from math import lcm

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from typing import TypeAlias

    from .needs import Cut

    Size: TypeAlias = "tuple[int, int, Rectangle]"
    Way: TypeAlias = tuple[int, int]
    Room: TypeAlias = tuple[int, int, int, int, int]  # x, y, across, up, and the strip it lies in
    Strips: TypeAlias = list[tuple[int, int]]
    Places: TypeAlias = "list[tuple[tuple[int, int, int, int], Rectangle, int]]"

MOST = 600  # rectangles; more than any bag, and laid out in a moment


class Rectangle:
    """`wide` across the cloth and `tall` along it; `turns` if it may lie the other way; `item` is whose it is."""

    __slots__ = ("wide", "tall", "item", "turns")

    def __init__(self, wide: Fraction, tall: Fraction, item: Cut | None = None, turns: bool = False) -> None:
        self.wide = wide
        self.tall = tall
        self.item = item
        self.turns = turns


class Laid:
    """A rectangle in its place: `x` from the cloth's edge, `y` from its start, `wide` and `tall` as it lies."""

    __slots__ = ("x", "y", "wide", "tall", "item", "strip")

    def __init__(self, x: Fraction, y: Fraction, wide: Fraction, tall: Fraction, item: Cut | None, strip: int) -> None:
        self.x = x
        self.y = y
        self.wide = wide
        self.tall = tall
        self.item = item
        self.strip = strip


class Layout:
    """The cloth's width, the length it takes, and what lies where; `strips` are (start, height)."""

    __slots__ = ("width", "length", "laid", "strips")

    def __init__(
        self, width: Fraction, length: Fraction, laid: list[Laid], strips: list[tuple[Fraction, Fraction]]
    ) -> None:
        self.width = width
        self.length = length
        self.laid = laid
        self.strips = strips


# The orders tried, each by what is laid first; ties stay as written.
ORDERS: tuple[Callable[[Size], tuple[int, ...]], ...] = (
    lambda size: (-size[1], -size[0]),
    lambda size: (-size[0], -size[1]),
    lambda size: (-size[0] * size[1],),
    lambda size: (-max(size[:2]),),
)


def lay_out(rectangles: Iterable[Rectangle], width: Fraction) -> Layout | None:
    """The shortest of a few simple layouts; None where a rectangle is too wide, or there are more than MOST."""
    rectangles = list(rectangles)
    if len(rectangles) > MOST:
        return None
    # Whole numbers of a common part: exact, and many times faster than fractions.
    lengths = [Fraction(length) for one in rectangles for length in (one.wide, one.tall)]
    parts = lcm(Fraction(width).denominator, *(length.denominator for length in lengths))
    sizes = [(int(one.wide * parts), int(one.tall * parts), one) for one in rectangles]
    tries = [in_strips(sorted(sizes, key=order), int(width * parts)) for order in ORDERS]
    known = [one for one in tries if one is not None]
    if len(known) < len(tries):
        return None
    laid, strips = min(known, key=lambda found: length_of(found[1]))
    return Layout(
        width,
        Fraction(length_of(strips), parts),
        [
            Laid(Fraction(x, parts), Fraction(y, parts), Fraction(wide, parts), Fraction(tall, parts), one.item, strip)
            for (x, y, wide, tall), one, strip in laid
        ],
        [(Fraction(start, parts), Fraction(tall, parts)) for start, tall in strips],
    )


def length_of(strips: Strips) -> int:
    """How far the last strip reaches."""
    return sum(strips[-1]) if strips else 0


def in_strips(sizes: Iterable[Size], width: int) -> tuple[Places, Strips] | None:
    """Lay sizes out in their order: (places, strips), or None where one is too wide for the cloth."""
    rooms: list[Room] = []
    laid: Places = []
    strips: Strips = []
    for wide, tall, one in sizes:
        ways = [(wide, tall), (tall, wide)] if one.turns else [(wide, tall)]
        found = first_room(rooms, ways) or new_strip(rooms, strips, ways, width)
        if found is None:
            return None
        at, (wide, tall) = found
        x, y, across, up, strip = rooms[at]
        beside = (x + wide, y, across - wide, up, strip)
        above = (x, y + tall, wide, up - tall, strip)
        rooms[at : at + 1] = [room for room in (beside, above) if room[2] and room[3]]
        laid.append(((x, y, wide, tall), one, strip))
    return laid, strips


def first_room(rooms: list[Room], ways: list[Way]) -> tuple[int, Way] | None:
    """(which room, how it lies) for the first room that takes one of these sizes."""
    for at, (_, _, across, up, _) in enumerate(rooms):
        for wide, tall in ways:
            if wide <= across and tall <= up:
                return at, (wide, tall)
    return None


def new_strip(rooms: list[Room], strips: Strips, ways: list[Way], width: int) -> tuple[int, Way] | None:
    """Begin a strip as low as the rectangle can lie."""
    ways = [way for way in ways if way[0] <= width]
    if not ways:
        return None
    way = min(ways, key=lambda way: way[1])
    start = length_of(strips)
    rooms.append((0, start, width, way[1], len(strips)))
    strips.append((start, way[1]))
    return len(rooms) - 1, way
