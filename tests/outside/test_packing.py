"""The layout on cloth, against published counts, a brute-force search and a proven bound.

Sources: docsbay.net/number-of-squares-from-a-fat-quarter (squares from 18 x 22 in); Coffman, Garey, Johnson and Tarjan,
"Performance bounds for level-oriented two-dimensional packing algorithms", SIAM J. Comput. 9 (1980) 808-826: first fit
by falling height never takes more than 1.7 of the least length and the tallest rectangle on top (bound from memory).
"""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchlang.model.packing import MOST, Rectangle, lay_out

SIZES = ("2", "5/2", "3", "7/2", "4", "9/2", "5", "11/2", "6", "13/2")
SQUARES = (99, 56, 42, 30, 20, 16, 12, 12, 9, 6)


def laid(sizes, width, turns=False):
    return lay_out([Rectangle(*size, turns=turns) for size in sizes], width)


def how_many(width, length, side):
    """How many squares the layout gets out of a cloth."""
    number = 0
    while laid([(side, side)] * (number + 1), width).length <= length:
        number += 1
    return number


@pytest.mark.parametrize(("side", "squares"), list(zip(SIZES, SQUARES, strict=True)))
def test_squares_from_eighteen_by_twenty_two(side, squares):
    """The published counts, 2 in to 6 1/2 in."""
    assert how_many(18, 22, Fraction(side)) == squares


@pytest.mark.parametrize(("width", "strips"), [(Fraction(3, 2), 24), (2, 18), (3, 12), (5, 7), (8, 4)])
def test_strips_from_a_yard(width, strips):
    """Strips across the cloth from 36 in of it: as many as go into 36 (arithmetic)."""
    assert laid([(40, width)] * strips, 40).length <= 36 < laid([(40, width)] * (strips + 1), 40).length


def test_a_layout_worked_by_hand():
    """44 wide: four of 11 make one strip 14 tall; 8 + 4 + 4 + 1 1/4 + 1 1/4 = 18 1/2 the next, 7 tall."""
    sizes = [(11, 14), (8, 7), (11, Fraction(25, 2)), (11, Fraction(25, 2)), (11, 13)]
    layout = laid([*sizes, (4, 3), (4, 3), (Fraction(5, 4), 3), (Fraction(5, 4), 3)], 44)

    assert layout.length == 21
    assert layout.strips == [(0, 14), (14, 7)]


def test_what_is_left_above_a_short_piece_is_used():
    """10 wide: a 4 x 9 strip piece leaves 6 x 9 beside it, where 6 x 5 and, above it, 6 x 4 fit."""
    assert laid([(4, 9), (6, 5), (6, 4)], 10).length == 9


def test_only_what_may_turn_is_turned():
    """12 x 5 on cloth 6 wide: too wide as it stands, 12 long turned."""
    assert laid([(12, 5)], 6) is None
    assert laid([(12, 5)], 6, turns=True).length == 12


def test_nothing_to_lay_out_takes_nothing_and_too_much_is_refused():
    """No rectangle, no length; and no recipe can make the layout run on without end."""
    assert laid([], 10).length == 0
    assert laid([(1, 1)] * (MOST + 1), 10) is None


lengths = st.fractions(min_value=Fraction(1, 64), max_value=60, max_denominator=64)
rectangles = st.lists(st.tuples(lengths, lengths), min_size=1, max_size=25)


def overlap(one, other):
    return (
        one.x < other.x + other.wide
        and other.x < one.x + one.wide
        and one.y < other.y + other.tall
        and other.y < one.y + one.tall
    )


@given(rectangles, lengths, st.booleans())
@settings(max_examples=200)
def test_a_layout_can_be_cut(sizes, extra, turns):
    """Nothing overlaps or leaves the cloth; every rectangle lies there once, the right way up unless it may turn."""
    width = max(wide for wide, _ in sizes) + extra
    layout = laid(sizes, width, turns)
    as_laid = [(one.wide, one.tall) for one in layout.laid]
    upright = (lambda size: tuple(sorted(size))) if turns else tuple

    assert sorted(map(upright, as_laid)) == sorted(map(upright, sizes))
    assert all(one.x >= 0 and one.y >= 0 and one.x + one.wide <= width for one in layout.laid)
    assert layout.length == max(one.y + one.tall for one in layout.laid)
    assert not any(overlap(one, other) for at, one in enumerate(layout.laid) for other in layout.laid[:at])


@given(rectangles, lengths)
@settings(max_examples=200)
def test_a_layout_is_never_shorter_than_it_can_be(sizes, extra):
    """At least the area over the width, at least the tallest, at most one behind the other."""
    width = max(wide for wide, _ in sizes) + extra
    layout = laid(sizes, width)

    assert layout.length >= sum(wide * tall for wide, tall in sizes) / width
    assert max(tall for _, tall in sizes) <= layout.length <= sum(tall for _, tall in sizes)


@given(rectangles, st.fractions(min_value=Fraction(1, 16), max_value=16, max_denominator=16))
def test_a_layout_does_not_depend_on_the_unit(sizes, factor):
    """All sizes times so much: the length times so much."""
    width = max(wide for wide, _ in sizes) * 2
    scaled = [(wide * factor, tall * factor) for wide, tall in sizes]

    assert laid(scaled, width * factor).length == laid(sizes, width).length * factor


def shortest(sizes, width):
    """The least length there is for whole sizes, by trying: each empty square is left or begins a rectangle."""
    length = max(max(tall for _, tall in sizes), -(-sum(wide * tall for wide, tall in sizes) // width))
    while not possible(sizes, width, length):
        length += 1
    return length


def possible(sizes, width, length):
    """Whether whole rectangles go on a grid of squares, filled from its first corner on."""
    taken = [[False] * width for _ in range(length)]

    def fill(at, left, spare):
        while at < width * length and taken[at // width][at % width]:
            at += 1
        if not left:
            return True
        if at == width * length:
            return False
        y, x = divmod(at, width)
        for size in set(left):
            wide, tall = size
            squares = [(y + up, x + over) for up in range(tall) for over in range(wide)]
            if x + wide <= width and y + tall <= length and not any(taken[up][over] for up, over in squares):
                for up, over in squares:
                    taken[up][over] = True
                rest = list(left)
                rest.remove(size)
                if fill(at + wide, rest, spare):
                    return True
                for up, over in squares:
                    taken[up][over] = False
        return spare > 0 and fill(at + 1, left, spare - 1)

    return fill(0, sizes, width * length - sum(wide * tall for wide, tall in sizes))


@given(st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4)), min_size=1, max_size=5), st.integers(4, 6))
@settings(max_examples=60, deadline=None)
def test_against_every_layout_there_is(sizes, width):
    """Never shorter than the best of all layouts, and within the bound proven for first fit by falling height."""
    least, ours = shortest(sizes, width), laid(sizes, width).length

    assert least <= ours <= Fraction(17, 10) * least + max(tall for _, tall in sizes)


def test_the_search_itself():
    """Sizes that fill 4 x 5 without a gap are found to; one more square takes one more row."""
    assert shortest([(2, 3), (2, 3), (4, 2)], 4) == 5
    assert shortest([(2, 3), (2, 3), (4, 2), (1, 1)], 4) == 6
