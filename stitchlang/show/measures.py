"""Finished measures as text and as JSON."""

from ..ground.text import plain
from ..speech import Speech


def measures_text(recipe, measured, unit):
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
    names = recipe.sizes or [None]
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
    return json.dumps(
        {"recipe": recipe.title, "revision": recipe.revision, "measures": rows}, indent=2, ensure_ascii=False
    )
