"""Masses and areas, and the door to pint, which is loaded only when cloth is weighed.

Lengths never pass here; see `lengths` for why.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from .lengths import mass_parts

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from pint import UnitRegistry
    from pint.registry import Quantity

    from .lengths import Rational

PINT_UNIT = {
    "g/m2": "gram / meter ** 2",
    "g/m²": "gram / meter ** 2",
    "gsm": "gram / meter ** 2",
    "oz/yd2": "ounce / yard ** 2",
    "oz/yd²": "ounce / yard ** 2",
}
# Exact by definition: the pound of 0.45359237 kg, of 16 ounces, and the yard of 0.9144 m.
GRAMS = {"oz/yd": Fraction(45359237, 100000) / 16 / Fraction(9144, 10000) ** 2}


@lru_cache(maxsize=256)
def per_square_metre(text: str) -> Fraction:
    """A written cloth mass in grams a square metre, exactly; what rules compare, without pint."""
    number, unit = mass_parts(text)
    return Fraction(number) * GRAMS.get(unit[:-1], 1)


@lru_cache(maxsize=1)
def registry() -> UnitRegistry[Fraction]:
    """pint's unit registry over exact fractions."""
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Fraction)


def mass_per_area(text: str) -> Quantity[Fraction]:
    """A written cloth mass such as `350 g/m2` or `10 oz/yd2`: a pint Quantity."""
    number, unit = mass_parts(text)
    return registry().Quantity(Fraction(number), PINT_UNIT[unit])


def cloth_mass(mass: str, square_mm: Rational) -> str:
    """`240 g of 350 g/m2`: what an area of cloth weighs, rounded to a gram."""
    area = registry().Quantity(Fraction(square_mm), "millimeter ** 2")
    grams: Fraction = (mass_per_area(mass) * area).to("gram").magnitude
    metres: Fraction = area.to("meter ** 2").magnitude
    return f"{float(metres):.2f} m2, about {round(grams)} g"
