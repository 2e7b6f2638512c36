"""A comparison for other programs: JSON, every length as exact millimetres and as shown."""

from fractions import Fraction

from ..speech import Speech
from .compare_words import titles
from .cutting_data import escaped, length_object


def compare_json(comparison, old, new, unit):
    """One stable shape: the names of the fields are those of the values in `work.changes`."""
    import json

    speech, sides = Speech(unit, 64), zip(("old", "new"), (old, new), titles(old, new), strict=True)
    found = {side: {"name": one.source.name, "title": title} for side, one, title in sides}
    found |= {"unit": unit, "differs": comparison.differs, **data(comparison, speech)}
    return escaped(json.dumps(found, indent=2, ensure_ascii=False), json.dumps)


def data(value, speech):
    """A value as JSON knows it."""
    from attrs import fields, has

    if isinstance(value, tuple):
        return [data(one, speech) for one in value]
    if isinstance(value, Fraction):
        return str(value)
    if not has(type(value)):
        return value
    if hasattr(value, "mm"):
        return length_object(value, speech)
    if hasattr(value, "written"):
        return value.written
    found = {field.name: data(getattr(value, field.name), speech) for field in fields(type(value))}
    if hasattr(value, "difference"):
        found["difference"] = length_object(value.difference, speech)
    return found
