"""Expressions: exact values with a dimension, from the nodes the reader made.

A value is (number, power): power 1 for a length in millimetres, 2 for an area,
0 for a plain number.  A plain number where a length is wanted is read in the
recipe's unit, as a sewer means it.
"""

from __future__ import annotations

from functools import lru_cache

from ..ground.lengths import MM, read_length, read_number
from ..ground.text import Span
from ..reading.tree import Token

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from fractions import Fraction
    from typing import Any, TypeAlias

    from ..reading.tree import Node
    from .recipe import Recipe

    Part: TypeAlias = Node | Token
    Value: TypeAlias = tuple[Fraction, int]


class Trouble(Exception):
    """An expression that has no value: the kind of slip, its span and facts.

    Raised and caught within the meaning floor only.
    """

    def __init__(self, kind: str, part: Part, **facts: Any) -> None:  # whatever the rule that speaks of it needs
        super().__init__(kind)
        self.kind = kind
        self.at = Span(part.start, part.end)
        self.facts = facts


def value(part: Part, recipe: Recipe) -> Value:
    """(number, power) of an expression; raises Trouble."""
    if part.rule is None:
        return _word(part, recipe)
    if part.rule == "group":
        return value(part.parts[0], recipe)
    if part.rule == "negative":
        number, power = value(part.parts[1], recipe)
        return -number, power
    return (_sum if part.rule == "sum" else _product)(part, recipe)


def _word(token: Token, recipe: Recipe) -> Value:
    try:
        if token.kind == "LENGTH":
            return read_length(token.text), 1
        if token.kind == "NUMBER":
            return read_number(token.text), 0
    except ValueError:
        raise Trouble("number-too-long", token) from None
    except ZeroDivisionError:
        raise Trouble("division-by-zero", token) from None
    found = recipe.lets.get(token.text)
    if (
        found is None
        and (token.text in recipe.names or token.text in recipe.doubtful)
        and token.text not in recipe.things
    ):
        raise Trouble("broken-name", token)
    if found is None:
        raise Trouble("unknown-name", token, name=token.text, wanted="a length", known=list(recipe.lets))
    found.used = True
    return found.number, found.power


def as_length(number: Fraction, power: int, part: Part, recipe: Recipe) -> Fraction:
    """Millimetres of a value that must be a length; raises Trouble."""
    if power == 1:
        return number
    if power != 0:
        raise Trouble("wrong-kind", part, power=power)
    if recipe.unit is None:
        raise Trouble("length-without-unit", part, number=number)
    return in_millimetres(number, recipe.unit)


@lru_cache(maxsize=4096)
def in_millimetres(number: Fraction, unit: str) -> Fraction:
    """A plain number of a unit, in millimetres: recipes say the same few sizes over and over."""
    return number * MM[unit]


def _sum(node: Node, recipe: Recipe) -> Value:
    values = [(value(part, recipe), part) for part in node.parts[::2]]
    powers = {power for (_, power), _ in values if power}
    if len(powers) > 1:
        raise Trouble("wrong-kind", node, power=None)
    power = powers.pop() if powers else 0
    total: Fraction = 0  # type: ignore[assignment]  # a Fraction as soon as the first term is added
    for at, ((number, own), part) in enumerate(values):
        if power == 1:
            number = as_length(number, own, part, recipe)
        elif own != power:
            raise Trouble("wrong-kind", part, power=own)
        mark = node.parts[2 * at - 1]
        sign = -1 if at and mark.__class__ is Token and mark.kind == "MINUS" else 1
        total += sign * number
    return total, power


def _product(node: Node, recipe: Recipe) -> Value:
    number, power = value(node.parts[0], recipe)
    for at in range(1, len(node.parts), 2):
        other, its = value(node.parts[at + 1], recipe)
        mark = node.parts[at]
        if mark.__class__ is Token and mark.kind == "TIMES":
            number, power = number * other, power + its
        elif other == 0:
            raise Trouble("division-by-zero", node.parts[at + 1])
        else:
            number, power = number / other, power - its
    if max(abs(number.numerator), number.denominator).bit_length() > 512:
        raise Trouble("number-too-long", node)
    return number, power


def measure(part: Part, recipe: Recipe) -> Fraction:
    """Millimetres of an expression that must be a length; raises Trouble."""
    number, power = value(part, recipe)
    return as_length(number, power, part, recipe)
