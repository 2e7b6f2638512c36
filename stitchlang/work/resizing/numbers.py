"""The numbers of a recipe that may change: cut sizes, notches, trims, caps, and the values of `let`."""

from __future__ import annotations

from ...ground.lengths import MM, read_number, unit_of, write
from ...ground.text import Span
from ...reading.tree import Node, Token

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction

    from ...model.recipe import Recipe

# Phrases whose lengths are cut: rule name, and how its parts are called.
CUT = {
    "rectangle": ("wide", "tall"),
    "circle": ("across",),
    "tapered": ("wide at top", "wide at bottom", "tall"),
    "by_square": ("notch across", "notch up"),
    "to_size": ("trimmed to",),
    "overall": ("overall",),
}


class Number:
    """One written number that is a length: its token, its unit, what it is called, and its value in that unit."""

    def __init__(self, token: Token, unit: str, says: str) -> None:
        self.token = token
        self.unit = unit
        self.says = says
        self.was = token.text
        self.value = read_number(token.text.rstrip('"″abcdefghijklmnopqrstuvwxyz').rstrip())

    @property
    def at(self) -> Span:
        """The span of the number with its unit."""
        return Span(self.token.start, self.token.end)

    @property
    def mm(self) -> Fraction:
        """How long it is, in millimetres."""
        return self.value * MM[self.unit]

    def put(self, value: Fraction) -> None:
        """Let the token say another value, exactly."""
        self.token.text = f"{value.numerator}/{value.denominator}{self._unit()}"

    def restore(self) -> None:
        """Let the token say what the writer wrote."""
        self.token.text = self.was

    def spelled(self, value: Fraction) -> str:
        """The value as the writer would write it, with the unit where one stood."""
        text = write(value * MM[self.unit], self.unit) or f"{value.numerator}/{value.denominator}"
        return text + self._unit()

    def _unit(self) -> str:
        return f" {unit_of(self.was)}" if self.token.kind == "LENGTH" else ""


def numbers(recipe: Recipe) -> list[Number]:
    """Every number that may change, in text order: a list of Number.  Those of files that it uses stay as they are."""
    found: list[Number] = []
    for node in recipe.reading.statements:
        if not recipe.source.is_own(node.start):
            continue
        if node.rule == "let":
            found += let_numbers(node, recipe)
        for phrase in phrases(node):
            for part, says in zip(phrase.parts, CUT[phrase.rule], strict=False):
                found += number(part, f"{subject(node)} {says}", recipe)
    return found


def let_numbers(node: Node, recipe: Recipe) -> list[Number]:
    """The number of a `let`, of the size at hand."""
    values = [part for part in node.parts[1:] if part.rule != "sizes_named"]
    return number(values[min(recipe.size, len(values) - 1)], node.word().text, recipe)


def number(part: Node | Token, says: str, recipe: Recipe) -> list[Number]:
    """A part that is a plain number, as a list of one; a sum or a name follows what it is made of."""
    if part.rule is not None or part.kind not in ("LENGTH", "NUMBER"):
        return []
    unit = unit_of(part.text) if part.kind == "LENGTH" else recipe.unit
    return [Number(part, unit, says)] if unit is not None else []


def phrases(node: Node) -> Iterator[Node]:
    """The phrases of a statement that are cut sizes."""
    for part in node.parts:
        if part.rule is not None and part.rule in CUT:
            yield part


def subject(node: Node) -> str:
    """What a statement cuts: the names of its pieces, or of the edge."""
    names: list[str] = []
    for part in node.parts:
        if part.rule == "edge":
            names.append(part.word().text)
        elif part.rule is None and part.kind == "NAME":
            names.append(part.text)
    return ", ".join(dict.fromkeys(names[:-1] if node.rule in ("piece", "cap") else names))
