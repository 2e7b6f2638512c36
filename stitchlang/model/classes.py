"""Stitch types and seam classes that a standard names.

Stitch types are those of ISO 4915:1991 (301 lockstitch, 304 zigzag lockstitch, 101 chainstitch for basting, class 200
for stitches made by hand; seen in a course note, scribd document 49933681).  Seam classes are those of ISO 4916:1991:
1 superimposed, 2 lapped, 3 bound, 4 flat, 6 edge finishing, 7 attached to an edge, 8 on one component (seen in a
translated summary, scribd document 746452830; the wording of 7 and 8 is from memory).  The letters of the forms and the
five-digit numbers were not seen and are not given.
"""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from .recipe import Op

LOCKSTITCH, HAND = "301", "200"
SEAMS = {"plain": 1, "enclosed": 1, "lapped": 2, "felled": 2, "bound": 3}
# Verbs whose stitching a class describes: (stitch type, seam class or None).
ROWS: dict[str, tuple[str, int | None]] = {
    "hem": (LOCKSTITCH, 6),
    "bind": (LOCKSTITCH, 3),
    "box": (LOCKSTITCH, 1),
    "cap": (LOCKSTITCH, 7),
    "slit": (LOCKSTITCH, 1),
    "place": (LOCKSTITCH, 2),
    "wrap": (LOCKSTITCH, 7),
    "topstitch": (LOCKSTITCH, None),
    "channel": (LOCKSTITCH, None),
    "divide": (LOCKSTITCH, None),
    "dart": (LOCKSTITCH, None),
    "gather": (LOCKSTITCH, None),
    "baste": (LOCKSTITCH, None),
    "quilt": (LOCKSTITCH, None),
}


def classes(op: Op) -> tuple[str | None, int | None]:
    """(stitch type, seam class) of a statement's stitching; None for what has none, or none that a standard names."""
    if op.verb == "join":
        seams = op.parts.get("seams") or ()
        kind = seams[0].kind if seams else "plain"
        attached = any(side.panel.kind == "zip" for seam in seams for side in seam.sides)
        return LOCKSTITCH, 7 if attached and kind == "plain" else SEAMS[kind]
    if op.verb == "close":
        return (HAND if op.parts["by_hand"] else LOCKSTITCH), None
    return ROWS.get(op.verb, (None, None))


def spoken(op: Op) -> str:
    """`stitch 301, seam class 1`: as a step carries it; empty where no standard names one."""
    stitch, seam = classes(op)
    words = [f"stitch {'class ' if stitch == HAND else ''}{stitch}"] if stitch else []
    words += [f"seam class {seam}"] if seam else []
    return ", ".join(words)
