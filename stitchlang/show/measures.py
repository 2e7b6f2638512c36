"""Finished measures as text and as JSON."""

from ..ground.text import plain
from ..speech import Speech


def measures_text(recipe, measured, unit):
    """A table: thing, measure, length; exact unless it says about."""
    speech = Speech(unit, 64)
    rows = [(one.thing, one.name, speech.length(one.working)) for one in measured]
    if not rows:
        return "nothing to measure"
    wide = [max(len(row[column]) for row in rows) for column in (0, 1)]
    lines, last = [], None
    for thing, name, length in rows:
        shown = thing if thing != last else ""
        last = thing
        lines.append(f"{shown:<{wide[0]}}  {name:<{wide[1]}}  {length}")
    return plain("\n".join(lines + cloth_lines(recipe)))


def cloth_lines(recipe):
    """What is cut from each cloth: area, and mass where the cloth's is stated."""
    areas = {}
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


def measures_json(recipe, measured, unit):
    """One stable shape: exact millimetres as a fraction in text, and the number rounded to read."""
    import json

    speech = Speech(unit, 64)
    rows = [
        {
            "thing": one.thing,
            "measure": one.name,
            "millimetres": str(one.working.mm),
            "exact": one.working.exact,
            "shown": speech.length(one.working),
        }
        for one in measured
    ]
    return json.dumps(
        {"recipe": recipe.title, "revision": recipe.revision, "measures": rows}, indent=2, ensure_ascii=False
    )
