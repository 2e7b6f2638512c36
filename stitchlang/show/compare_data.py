"""A comparison for other programs: JSON, every length as exact millimetres and as shown."""

from __future__ import annotations

from fractions import Fraction

from ..speech import Speech
from ..work.changes import Cause, Length, Mass
from .compare_words import titles
from .cutting_data import escaped, length_object

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from attrs import AttrsInstance

    from ..model.recipe import Recipe
    from ..work.changes import Comparison
    from .kinds import Json


def compare_json(comparison: Comparison, old: Recipe, new: Recipe, unit: str) -> str:
    """One stable shape: the names of the fields are those of the values in `work.changes`."""
    import json

    speech, sides = Speech(unit, 64), zip(("old", "new"), (old, new), titles(old, new), strict=True)
    found: Json = {side: {"name": one.source.name, "title": title} for side, one, title in sides}
    found |= {"unit": unit, "differs": comparison.differs}
    found |= members(comparison, type(comparison), speech)
    return escaped(json.dumps(found, indent=2, ensure_ascii=False), json.dumps)


def data(value: object, speech: Speech) -> object:
    """A value as JSON knows it."""
    from attrs import has

    if isinstance(value, tuple):
        return [data(one, speech) for one in value]
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, Length):
        return length_object(value.mm, speech)
    if isinstance(value, Mass):
        return value.written
    kind = type(value)
    return members(value, kind, speech) if has(kind) else value


def members(value: object, kind: type[AttrsInstance], speech: Speech) -> Json:
    """The fields of a value of that kind by name; of a cause also what it adds to a measure."""
    from attrs import fields

    found = {field.name: data(getattr(value, field.name), speech) for field in fields(kind)}
    if isinstance(value, Cause):
        found["difference"] = length_object(value.difference, speech)
    return found
