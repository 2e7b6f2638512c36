"""Finished measures as text and as JSON."""

from __future__ import annotations

from ..ground.lengths import millimetres
from ..ground.text import plain
from ..model.bulk import most_unknown, places, stated, thickest
from ..speech import Speech, listed

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from typing import TypeAlias

    from ..ground.lengths import Rational
    from ..ground.working import Working
    from ..model.bulk import Place
    from ..model.recipe import Recipe, Stuff
    from .kinds import Json

    Rows: TypeAlias = Iterable[tuple[str, str, list[Working | None]]]  # thing, measure, its length in each size


def measures_text(recipe: Recipe, measured: Rows, unit: str) -> str:
    """A table: thing, measure, length in each size; exact unless it says about.  `measured`: `measured_in_sizes`."""
    speech = Speech(unit, 64)
    rows = [
        (thing, name, *(speech.length(one) if one is not None else "" for one in workings))
        for thing, name, workings in measured
    ]
    if not rows:
        return "nothing to measure"
    if recipe.sizes:
        rows.insert(0, ("", "", *recipe.sizes))
    wide = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    lines, last = [], None
    for thing, *cells in rows:
        shown, last = thing if thing != last else "", thing
        lines.append("  ".join(f"{cell:<{size}}" for cell, size in zip((shown, *cells), wide, strict=True)).rstrip())
    return plain("\n".join(lines + cloth_lines(recipe) + thick_lines(recipe)))


def cloth_lines(recipe: Recipe) -> list[str]:
    """What is cut from each cloth: area, and mass where the cloth's is stated."""
    areas: dict[Stuff, Rational] = {}
    for piece in recipe.pieces:
        if piece.shape == "rectangle" and piece.stuff is not None and piece.stuff.kind == "cloth":
            area = piece.width.mm * piece.height.mm * piece.count
            areas[piece.stuff] = areas.get(piece.stuff, 0) + area
    weighed = [(stuff, area) for stuff, area in areas.items() if "mass" in stuff.facts]
    if not weighed:
        return []
    from ..ground.units import cloth_mass  # pint, and only for this

    return [
        "",
        *(f"{stuff.name}: {cloth_mass(stuff.facts['mass'], area)}, as cut, in rectangles" for stuff, area in weighed),
    ]


def thick_lines(recipe: Recipe) -> list[str]:
    """The thickest place of the bag with the sum of its layers, where thicknesses are stated."""
    found = places(recipe) if stated(recipe) else []
    place, other = thickest(found), most_unknown(found)
    thick = place.thickness if place is not None else None
    if place is None or thick is None:
        return []
    layers = " + ".join(
        f"{count} x {millimetres(stuff.facts['thick'].mm)} of {stuff.name}"
        for count, stuff in place.by_stuff()
        if stuff is not None
    )
    lines = [
        "",
        f"thickest place: {where(recipe, place)}: {plies(place)}, {millimetres(thick.mm)}",
        f"  = {layers}",
    ]
    if other is not None and other.plies > place.plies:
        stuffs = [stuff for _, stuff in other.by_stuff()]
        silent = listed(
            stuff.name if stuff else "something" for stuff in stuffs if not stuff or "thick" not in stuff.facts
        )
        lines.append(f"not known: {where(recipe, other)}: {plies(other)}; how thick {silent} is, is not stated")
    return lines


def where(recipe: Recipe, place: Place) -> str:
    """A place, and the line that sews it."""
    return f"{place.where} ({recipe.source.line_said(place.op.at.start)})"


def plies(place: Place) -> str:
    """`9 plies`."""
    return f"{place.plies} {'ply' if place.plies == 1 else 'plies'}"


def measures_json(recipe: Recipe, measured: Rows, unit: str) -> str:
    """One stable shape: exact millimetres as a fraction in text, and the number rounded to read."""
    import json

    speech = Speech(unit, 64)
    names: Sequence[str | None] = recipe.sizes or [None]
    rows = [
        {
            "thing": thing,
            "measure": name,
            **({"size": size} if size is not None else {}),
            "millimetres": str(one.mm),
            "exact": one.exact,
            "shown": speech.length(one),
        }
        for thing, name, workings in measured
        for size, one in zip(names, workings, strict=True)
        if one is not None
    ]
    shape: Json = {"recipe": recipe.title, "revision": recipe.revision, "measures": rows}
    place = thickest(places(recipe)) if stated(recipe) else None
    thick = place.thickness if place is not None else None
    if place is not None and thick is not None:
        shape["thickest"] = {
            "place": place.where,
            "plies": place.plies,
            "millimetres": str(thick.mm),
            "shown": millimetres(thick.mm),
        }
    return json.dumps(shape, indent=2, ensure_ascii=False)
