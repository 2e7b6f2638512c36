"""Names for types that several modules write down: read by checkers, never loaded at run time."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, Protocol, TypeAlias, TypedDict

from ..ground.lengths import Rational
from ..ground.text import Span
from ..ground.working import Working
from .drawn import Drawn
from .recipe import Stuff
from .things import Face, Flat, Folded, Piece, Shell, Strip, Zip

# `kind` tells which of them a thing is, to a checker too.
Outlined: TypeAlias = Piece | Zip | Strip | Face
AnyThing: TypeAlias = Outlined | Flat | Folded | Shell

Point: TypeAlias = tuple[Rational, Rational]
Terms: TypeAlias = list[tuple[Rational, Working]]
Corner: TypeAlias = tuple[Fraction, Fraction]  # the sine and cosine of its interior angle

# A fact's name tells what it is, and whoever asks for one by name knows: its type is not written down again.
Facts: TypeAlias = dict[str, Any]

# Of a layer of cloth: how often it lies there, of what it is, what of it, and whether it is clear of the allowances.
Layer: TypeAlias = tuple[int, Stuff | None, str, bool]
Layers: TypeAlias = list[Layer]
Across: TypeAlias = dict[AnyThing | None, Layers]  # what crosses one side of a row, by the panel it lies on
Binding: TypeAlias = AnyThing | Stuff | None


class Known(TypedDict, total=False):
    """What is remembered of a thing, once it is worked out."""

    measures: dict[str, Working]
    drawn: Drawn | None


class Let(Protocol):
    """A name for a value, as declared: power 1 for millimetres, 2 for an area, 0 for a plain number."""

    number: Fraction
    power: int
    at: Span
    used: bool


class Claim(Protocol):
    """A promised measure, or one taken of a sample."""

    thing: AnyThing
    measure: str
    length: Working
    at: Span
    within: Working | None


class Content(Protocol):
    """What a thing is to hold."""

    thing: AnyThing
    name: str
    sizes: list[Working]
    ease: Working | None
    at: Span
