"""Lengths and masses against pint over exact fractions, and against the legal definitions.

Sources: pint.readthedocs.io (UnitRegistry, non_int_type=Fraction); the yard is 0.9144 m and the pound
0.45359237 kg exactly, agreement of 1 July 1959 (en.wikipedia.org/wiki/International_yard); the inch is a
thirty-sixth of the yard and the ounce a sixteenth of the pound.
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pint import UnitRegistry

import stitchlang
from stitchlang.ground import lengths, units

YARD = Fraction(9144, 10)  # mm
POUND = Fraction(45359237, 10**5)  # g
PINT = UnitRegistry(non_int_type=Fraction)
PINT_UNITS = ("in", "cm", "mm", "m", "ft", "yd")

wholes = st.integers(0, 9999)
small = st.integers(1, 64)
spaces = st.sampled_from(("", " ", "  "))


def by_pint(text):
    """A length in millimetres, as pint reads it."""
    return PINT.Quantity(text).to("mm").magnitude


def through_the_language(text):
    """The length of a `let` in a whole recipe, in millimetres."""
    return stitchlang.read(f"units in\nlet deep = {text}\n").lets["deep"].number


# ------------------------------------------------------------------ constants
@pytest.mark.parametrize(
    ("unit", "mm"),
    [("in", YARD / 36), ("ft", YARD / 3), ("yd", YARD), ("mm", 1), ("cm", 10), ("m", 1000)],
)
def test_units_are_the_legal_ones(unit, mm):
    """Inch, foot and yard follow from the yard of 1959, the metric units from the metre; pint has the same."""
    assert lengths.MM[unit] == mm
    assert PINT.Quantity(Fraction(1), unit).to("mm").magnitude == mm


def test_an_inch_is_25_4_mm():
    """1 in = 25.4 mm exactly (0.9144 m / 36)."""
    assert lengths.read_length("1 in") == Fraction(254, 10)


# ------------------------------------------------------------------ reading, against pint
@given(wholes, st.text("0123456789", min_size=1, max_size=8), spaces, st.sampled_from(PINT_UNITS))
def test_decimals_read_as_pint_reads_them(whole, places, space, unit):
    """`9.5 cm` and its like are the exact decimal in every unit."""
    text = f"{whole}.{places}{space}{unit}"

    assert lengths.read_length(text) == by_pint(text)


@given(wholes, spaces, st.sampled_from(PINT_UNITS))
def test_whole_numbers_read_as_pint_reads_them(whole, space, unit):
    """`12 in`, `12in`."""
    text = f"{whole}{space}{unit}"

    assert lengths.read_length(text) == by_pint(text)


@given(wholes, small, spaces, st.sampled_from(PINT_UNITS))
def test_plain_fractions_read_as_pint_reads_them(over, under, space, unit):
    """`3/8 in` is three eighths, `1/3 yd` a third exactly."""
    text = f"{over}/{under}{space}{unit}"

    assert lengths.read_length(text) == by_pint(text)


def test_pint_reads_a_mixed_number_as_a_product():
    """Why pint does not read our lengths: to it `1 1/4 in` is 1 times 1/4, a quarter inch."""
    assert by_pint("1 1/4 in") == Fraction(1, 4) * Fraction(254, 10)
    assert lengths.read_length("1 1/4 in") == Fraction(5, 4) * Fraction(254, 10)


# ------------------------------------------------------------------ reading, as sewers write
HALF_PAST_TWELVE = [f"12{way}{unit}" for way in (" 1/2", "-1/2", "½", " ½", ".5") for unit in (" in", "in", '"', "″")]


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        *((text, Fraction(25, 2)) for text in HALF_PAST_TWELVE),
        ("12 1/2 inches", Fraction(25, 2)),
        ("½ inch", Fraction(1, 2)),
        ('½"', Fraction(1, 2)),
        ('3/8"', Fraction(3, 8)),
        (".5 in", Fraction(1, 2)),
        ("⅔ in", Fraction(2, 3)),
        ("1 ⅞ in", Fraction(15, 8)),
        ("1/3 yard", Fraction(12)),
        ("2 yards", Fraction(72)),
        ("1 1/2 ft", Fraction(18)),
        ("2 feet", Fraction(24)),
        ("1 foot", Fraction(12)),
        ("9.5 cm", Fraction(95) / Fraction(254, 10)),
        ("6 mm", Fraction(6) / Fraction(254, 10)),
        ("1.5 m", Fraction(1500) / Fraction(254, 10)),
    ],
)
def test_spellings(text, inches):
    """Every spelling sewers use is the same exact length, alone and within a recipe."""
    assert lengths.read_length(text) == inches * Fraction(254, 10)
    assert through_the_language(text) == inches * Fraction(254, 10)


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("12 1/2", Fraction(25, 2)),
        ("12-1/2", Fraction(25, 2)),
        ("12½", Fraction(25, 2)),
        ("½", Fraction(1, 2)),
        ("3/8", Fraction(3, 8)),
        ("9.5", Fraction(19, 2)),
        ("10", Fraction(10)),
    ],
)
def test_without_a_unit(text, number):
    """A bare number is exact, and a piece given it is that many of the recipe's unit."""
    recipe = stitchlang.read(f'units cm\ncloth sail: "sailcloth"\npiece flap of sail: {text} x 20\n')

    assert lengths.read_number(text) == number
    assert recipe.pieces[0].width.mm == 10 * number


@pytest.mark.parametrize("sign", sorted(lengths.VULGAR))
def test_vulgar_fractions(sign):
    """Each fraction sign is worth what its own name in Unicode's data says (unicode.org, field numeric value)."""
    from unicodedata import numeric

    assert float(lengths.read_number(sign)) == numeric(sign)


@given(wholes, small, small, st.sampled_from((" ", "-", "  ")), st.sampled_from(("in", "cm", "yd")))
def test_mixed_numbers_are_their_parts_together(whole, over, under, between, unit):
    """`12 1/2 in` is `12 in` and `1/2 in`, whatever the fraction and however it is tied on."""
    mixed = lengths.read_length(f"{whole}{between}{over}/{under} {unit}")

    assert mixed == by_pint(f"{whole} {unit}") + by_pint(f"{over}/{under} {unit}")


# ------------------------------------------------------------------ writing
@given(st.fractions(0, 5000, max_denominator=1000), st.sampled_from(PINT_UNITS))
def test_what_is_written_reads_back_exactly(mm, unit):
    """Text made to be pasted into a recipe is that length to the last digit, or is not made at all."""
    text = lengths.write(mm, unit)

    assert text is None or lengths.read_length(f"{text} {unit}") == mm


@given(st.integers(0, 64 * 400), st.sampled_from((2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64)))
def test_what_a_ruler_carries_can_be_written(parts, of):
    """Thirds, fifths, sixths and every binary mark down to 1/64 in come back as they went, and through a recipe."""
    mm = Fraction(parts, of) * Fraction(254, 10)
    text = lengths.write(mm, "in")

    assert lengths.read_length(f"{text} in") == mm
    assert by_pint(f"{Fraction(parts, of)} in") == mm


@given(st.integers(0, 50_000))
def test_tenths_of_a_millimetre_can_be_written(tenths):
    """Metric text comes back exactly in mm and in cm, and means to pint what it means to us."""
    mm = Fraction(tenths, 10)

    for unit in ("mm", "cm"):
        text = f"{lengths.write(mm, unit)} {unit}"

        assert lengths.read_length(text) == by_pint(text) == mm


# ------------------------------------------------------------------ masses
def test_an_ounce_per_square_yard():
    """1 oz/yd2 is 33.9057475 g/m2: exact from pound and yard, 3.390575 E-02 kg/m2 in NIST SP 811, Appendix B."""
    grams = units.mass_per_area("1 oz/yd2").to("gram / meter ** 2").magnitude

    assert grams == POUND / 16 / (YARD / 1000) ** 2
    assert round(grams, 7) == Fraction(339057475, 10**7)
    assert round(grams / 1000, 8) == Fraction(3390575, 10**8)


@pytest.mark.parametrize("text", ["350 g/m2", "350 g/m²", "350 gsm", "350g/m2", "350.0 gsm"])
def test_grams_per_square_metre(text):
    """All the spellings of a metric mass are one mass."""
    assert units.mass_per_area(text).to("gram / meter ** 2").magnitude == 350


@given(st.integers(1, 99), st.sampled_from(("oz/yd2", "oz/yd²")))
def test_ounces_keep_their_ratio(ounces, unit):
    """A cloth of n oz/yd2 is n times an ounce's worth, with no rounding between."""
    grams = units.mass_per_area(f"{ounces} {unit}").to("gram / meter ** 2").magnitude

    assert grams == ounces * POUND / 16 / (YARD / 1000) ** 2


@pytest.mark.parametrize(
    ("mass", "square_mm", "says"),
    [
        ("350 g/m2", 10**6, "1.00 m2, about 350 g"),
        ("350 g/m2", 11 * 25 * Fraction(645_16, 100), "0.18 m2, about 62 g"),  # 275 in2 = 0.17742 m2; 62.10 g
        ("10 oz/yd2", YARD**2, "0.84 m2, about 283 g"),  # ten ounces are 283.495 g
    ],
)
def test_what_cloth_weighs(mass, square_mm, says):
    """Area times mass, by hand."""
    assert units.cloth_mass(mass, square_mm) == says
