"""Pi and square roots, to forty places, against Python's decimal at sixty digits and math.isqrt.

Sources: docs.python.org/3/library/decimal.html (square roots are correctly rounded; the recipe section there
computes pi); docs.python.org/3/library/math.html#math.isqrt; Machin's formula of 1706 for pi.
"""

from decimal import Context, Decimal, localcontext
from fractions import Fraction
from math import isqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchlang.ground.lengths import PI, SAME, root

SIXTY = Context(prec=60)
PLACES = Fraction(1, 10**40)

positive = st.fractions(min_value=0, max_value=10**8, max_denominator=10**6)
not_nought = positive.filter(bool)


def arctan_of_one_over(number):
    """The series of arctan(1/n): 1/n - 1/3n^3 + 1/5n^5 and so on, until a term no longer counts."""
    power = result = 1 / number
    step = 1
    while abs(power) > Decimal("1e-62"):
        power, step = -power / number**2, step + 2
        result += power / step
    return result


def machin():
    """pi = 16 arctan(1/5) - 4 arctan(1/239)."""
    with localcontext(SIXTY):
        return 16 * arctan_of_one_over(Decimal(5)) - 4 * arctan_of_one_over(Decimal(239))


def decimal_root(square):
    """The square root of a Fraction, in decimal at sixty digits."""
    return Fraction(SIXTY.sqrt(SIXTY.divide(square.numerator, square.denominator)))


# ------------------------------------------------------------------ pi
def test_pi_against_machins_formula():
    """Ours is within one in the fortieth place of Machin's series summed at sixty digits."""
    assert abs(Fraction(machin()) - PI) <= PLACES


def test_pi_is_far_finer_than_what_counts_as_the_same_length():
    """Round a circle of a kilometre, in mm, the error stays below the step at which two lengths are one."""
    error = abs(Fraction(machin()) - PI)

    assert error * 10**6 < SAME


def test_published_figures_for_a_round_base():
    """Pi times 12 in is 37.699 in and pi times 30 cm 94.248 cm; with 3.14 the page has 37.68 and 94.2.

    Published: sew4home.com/tips-resources/sewing-tips-tricks/make-and-measure-circle-without-pattern.
    """
    assert round(12 * PI, 3) == Fraction(37699, 1000)
    assert round(30 * PI, 3) == Fraction(94248, 1000)
    assert 0 < 12 * PI - Fraction("37.68") < Fraction("0.02")
    assert 0 < 30 * PI - Fraction("94.2") < Fraction("0.05")


# ------------------------------------------------------------------ roots
@pytest.mark.parametrize(
    ("square", "side"),
    [(0, 0), (1, 1), (2025, 45), (Fraction(9, 16), Fraction(3, 4)), (Fraction(25, 4), Fraction(5, 2))],
)
def test_roots_known_by_heart(square, side):
    """3-4-5 and its like need no places at all."""
    assert root(Fraction(square)) == side


@given(positive)
def test_the_root_of_a_square_is_exact(side):
    """Whatever fraction was squared comes back to the last digit."""
    assert root(side * side) == side


@given(positive)
def test_a_root_agrees_with_decimal(square):
    """No irrational root is off by more than the fortieth place."""
    assert abs(root(square) - decimal_root(square)) <= PLACES


@given(not_nought)
def test_a_root_squared_brackets_its_square(square):
    """The root is the last one, at forty places or finer, whose square does not pass the number."""
    side = root(square)

    assert side * side <= square < (side + PLACES) ** 2


@given(st.integers(0, 10**24))
def test_whole_roots_against_isqrt(number):
    """The whole part of a root is math.isqrt's, and the root is whole just where isqrt's square is the number."""
    side = root(Fraction(number))

    assert side.__floor__() == isqrt(number)
    assert (side.denominator == 1) == (isqrt(number) ** 2 == number)


@given(not_nought, not_nought)
def test_a_larger_square_has_no_smaller_root(one, other):
    """Roots keep the order of their squares."""
    low, high = sorted((one, other))

    assert root(low) <= root(high)


@given(not_nought, st.integers(1, 1000))
def test_roots_scale(square, factor):
    """The diagonal of a piece n times as large is n times as long, to the places kept."""
    assert abs(root(square * factor**2) - factor * root(square)) <= factor * PLACES
