"""Exact lengths: read as sewers write them, kept as rational millimetres, rounded only when shown.

Pint is not asked to read lengths: it takes `1 1/4 in` for a quarter of an inch.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from math import isqrt

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    Rational = Fraction | int  # exact, but of two ints a quotient is a float: divide Fractions

# 1 in = 25.4 mm exactly, by the international yard of 1959.
MM = {
    "in": Fraction(254, 10),
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "ft": Fraction(3048, 10),
    "yd": Fraction(9144, 10),
}
SPELLINGS = {
    "inch": "in",
    "inches": "in",
    '"': "in",
    "″": "in",
    "foot": "ft",
    "feet": "ft",
    "yard": "yd",
    "yards": "yd",
}
VULGAR = {
    "¼": (1, 4),
    "½": (1, 2),
    "¾": (3, 4),
    "⅐": (1, 7),
    "⅑": (1, 9),
    "⅒": (1, 10),
    "⅓": (1, 3),
    "⅔": (2, 3),
    "⅕": (1, 5),
    "⅖": (2, 5),
    "⅗": (3, 5),
    "⅘": (4, 5),
    "⅙": (1, 6),
    "⅚": (5, 6),
    "⅛": (1, 8),
    "⅜": (3, 8),
    "⅝": (5, 8),
    "⅞": (7, 8),
}
LONGEST_NUMBER = 24  # characters; no sewer writes more, and Python refuses 5,000 digits

# 40 places: what circles and slanted edges are worked out with, never floats.
PLACES = 10**40
# Two lengths nearer than this are one length: what 40 places leave of a root, and far below any thread.
SAME = Fraction(1, 10**9)
PI = Fraction(31415926535897932384626433832795028841971, PLACES)


@lru_cache(maxsize=4096)
def read_number(text: str) -> Fraction:
    """A number as a Fraction: `12`, `12 1/2`, `12-1/2`, `3/8`, `½`, `12½`, `9.5`.

    Raises ValueError for a number too long to mean anything, and
    ZeroDivisionError for one over nothing.
    """
    if len(text) > LONGEST_NUMBER:
        raise ValueError(text)
    if text[-1] in VULGAR:
        ones = text[:-1].rstrip()
        return int(ones or 0) + Fraction(*VULGAR[text[-1]])
    *whole, part = text.replace("-", " ").split()
    over = part.split("/")
    last = Fraction(int(over[0]), int(over[1])) if len(over) == 2 else Fraction(part)
    return int(whole[0]) + last if whole else last


def unit_of(text: str) -> str:
    """The unit that a written length ends in, by its one name (`in` for `"` or `inches`)."""
    number = text.rstrip('"″abcdefghijklmnopqrstuvwxyz')
    unit = text[len(number) :]
    return SPELLINGS.get(unit, unit)


@lru_cache(maxsize=4096)
def read_length(text: str) -> Fraction:
    """A written length with its unit, in millimetres; errors as in `read_number`."""
    number = text.rstrip('"″abcdefghijklmnopqrstuvwxyz')
    return read_number(number.rstrip()) * MM[unit_of(text)]


def mass_parts(text: str) -> tuple[str, str]:
    """A written mass per area as its number and its unit: `350`, `g/m2`."""
    unit = text.lstrip("0123456789.")
    return text[: len(text) - len(unit)], unit.strip()


def root(square: Rational) -> Fraction:
    """The square root of a Fraction: exact where it is rational, else to 40 places."""
    scaled = square.numerator * square.denominator
    exact = isqrt(scaled)
    if exact * exact == scaled:
        return Fraction(exact, square.denominator)
    return Fraction(isqrt(scaled * PLACES * PLACES), square.denominator * PLACES)


def mixed(number: Rational) -> str:
    """A positive Fraction as sewers write it: `10 1/4`, `3/8`, `2`."""
    whole, rest = divmod(number, 1)
    if not rest:
        return str(int(whole))
    return f"{int(whole)} {rest}" if whole else str(rest)


def decimal(number: Rational, places: int) -> str:
    """A Fraction to so many places, idle noughts dropped; rounded half up."""
    scaled = (number * 10**places * 2 + 1).__floor__() // 2
    whole, rest = divmod(scaled, 10**places)
    return f"{whole}.{rest:0{places}d}".rstrip("0").rstrip(".") if places else str(whole)


def show_number(mm: Rational, unit: str, ruler: int = 16) -> tuple[str, bool]:
    """A length in one unit, without the unit, and whether it had to be rounded.

    Inches come to a 1/`ruler` mark, centimetres to a millimetre and
    millimetres to a tenth; a fraction a ruler could carry (up to 1/64, and
    thirds, fifths or sixths that were written so) is shown as it is.
    """
    if mm < 0:
        shown, rounded = show_number(-mm, unit, ruler)
        return "-" + shown, rounded
    value = Fraction(mm) / MM[unit]
    if unit == "in":
        if value.denominator in (1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64):
            return mixed(value), False
        return mixed(Fraction((value * ruler * 2 + 1).__floor__() // 2, ruler)), True
    places = {"cm": 2, "mm": 1, "m": 3}.get(unit, 3)
    return decimal(value, places), 10**places % value.denominator != 0


def show(mm: Rational, unit: str = "in", ruler: int = 16) -> str:
    """A length with its unit, for reading: `10 1/4 in`, `about 39.3 cm`."""
    if unit == "both":
        first = show(mm, "in", ruler)
        number, rounded = show_number(mm, "mm", ruler)
        if rounded or "." in number:
            number = decimal(abs(Fraction(mm)), 0)
        return f"{first} ({number} mm)"
    if unit == "cm" and -10 < mm < 10:
        unit = "mm"  # below a centimetre, metric sewers speak of millimetres
    number, rounded = show_number(mm, unit, ruler)
    return f"{'about ' if rounded else ''}{number} {unit}"


def millimetres(mm: Rational, places: int = 2) -> str:
    """A thickness or a stitch, which are told in millimetres whatever the recipe's unit."""
    return f"{'about ' if mm * 10**places % 1 else ''}{decimal(mm, places)} mm"


def write(mm: Rational, unit: str) -> str | None:
    """A length exactly, to be pasted into a recipe in that unit; None where the unit cannot."""
    number, rounded = show_number(mm, unit, 64)
    return None if rounded else number
