"""The forms that a starter recipe can have: their cuts as sums over the finished sizes, and their steps.

Allowances as in the design of any bag: a stitched length is the cut length
less what the two neighbouring seams take, so a cut is the finished length and
those two.  A cut square of half the depth boxes to the depth, where all three
seams at the corner are equal.
"""

from __future__ import annotations

# The words of the command line, the recipe's name for the value, and what it says there.
SIZES = {
    "wide": ("width", "from side to side"),
    "across": ("diameter", "across the base"),
    "tall": ("height", "from the base to the finished mouth"),
    "deep": ("depth", "from front to back"),
}
CLOSING = (
    "",
    'part "Closing up"',
    "slip inner into outer, right sides together",
    "join inner.rim to outer.rim as bag",
    "turn bag through inner.{gap}",
    "topstitch bag.rim at seam / 2",
    "close inner.{gap} by hand",
)
HEMMING = ("", 'part "Mouth"', "turn bag", "hem bag.rim by seam then hem")


class Form:
    """One form: what it is called, the sizes it needs, its cuts and its steps, unlined and lined."""

    called: str
    title: str
    needs: tuple[str, ...]  # sizes, by their names on the command line
    cuts: dict[str, str]  # the pieces of one outline, and the outline
    makes = "bag"
    stuff: tuple[str, ...] = ()
    measures: dict[str, str] = {}  # where the finished measure has another name than the option
    says: dict[str, str] = {}
    always_lined = False
    steps: tuple[str, ...] = ()
    steps_lined: tuple[str, ...]
    # What the bottom seam and the mouth take together: its first turn and the hem, or the seam to the lining;
    # and what the mouth takes at both ends of a strip that runs from mouth to mouth.
    ends = ("2 * seam + hem", "2 * (seam + hem)")
    ends_lined = ("2 * seam", "2 * seam")
    sum = "the finished size, and what the seams and the mouth take"


class Flat(Form):
    called = "a flat bag"
    title = "Flat bag"
    needs = ("wide", "tall")
    cuts = {"front back": "width + 2 * seam x height + {ends}"}
    steps = (
        "",
        'part "Bag"',
        "join front to back along sides, bottom as bag",
        *HEMMING,
    )
    steps_lined = (
        "",
        'part "Outside"',
        "join front to back along sides, bottom as outer",
        "",
        'part "Lining"',
        "join front_in to back_in along sides, bottom, leaving width / 2 open in bottom as inner",
        *(line.format(gap="bottom") for line in CLOSING),
    )


class Boxed(Form):
    called = "a boxed bag that stands on its base"
    title = "Boxed bag"
    needs = ("wide", "tall", "deep")
    measures = {"wide": "wide at base"}
    says = {"wide": "from side to side of the base"}
    sum = "the base and half its depth at every side, and what the seams and the mouth take"
    cuts = {"front back": "width + depth + 2 * seam x height + depth / 2 + {ends}"}
    steps = (
        "",
        'part "Bag"',
        "notch front, back at bottom corners by depth / 2",
        "join front to back along sides, bottom as bag",
        "box bag",
        *HEMMING,
    )
    steps_lined = (
        "",
        'part "Outside"',
        "notch front, back at bottom corners by depth / 2",
        "join front to back along sides, bottom as outer",
        "box outer",
        "",
        'part "Lining"',
        "notch front_in, back_in at bottom corners by depth / 2",
        "join front_in to back_in along sides, bottom, leaving width * 2 / 3 open in bottom as inner",
        "box inner",
        *(line.format(gap="bottom") for line in CLOSING),
    )


class Gusseted(Form):
    called = "a bag with a gusset: one strip round the sides and the bottom"
    title = "Gusseted bag"
    needs = ("wide", "tall", "deep")
    sum = "the finished size, and what the seams and the mouth take; the gusset runs down, along and up"
    cuts = {
        "front back": "width + 2 * seam x height + {ends}",
        "gusset": "2 * height + width + {mouths} x depth + 2 * seam",
    }
    steps = (
        "",
        'part "Bag"',
        "join gusset.bottom to front.left, bottom, right",
        "join gusset.top to back.right, bottom, left as bag",
        *HEMMING,
    )
    steps_lined = (
        "",
        'part "Outside"',
        "join gusset.bottom to front.left, bottom, right",
        "join gusset.top to back.right, bottom, left as outer",
        "",
        'part "Lining"',
        "join gusset_in.bottom to front_in.left, bottom, right",
        "join gusset_in.top to back_in.right, bottom, left, leaving width * 2 / 3 open in bottom as inner",
        *(line.format(gap="bottom") for line in CLOSING),
    )


class Round(Form):
    called = "a round bag: a wall and a base"
    title = "Round bag"
    needs = ("across", "tall")
    sum = "the finished size, and what the seams and the mouth take; the wall runs once round the base"
    cuts = {
        "wall": "pi * diameter + 2 * seam x height + {ends}",
        "base": "circle diameter + 2 * seam across",
    }
    steps = (
        "",
        'part "Bag"',
        "join wall.left to wall.right as tube",
        'join tube.bottom to base.edge as bag "Mark both in quarters and match the marks; clip the wall."',
        *HEMMING,
    )
    steps_lined = (
        "",
        'part "Outside"',
        "join wall.left to wall.right as tube",
        'join tube.bottom to base.edge as outer "Mark both in quarters and match the marks; clip the wall."',
        "",
        'part "Lining"',
        "join wall_in.left to wall_in.right, leaving height * 2 / 3 open in left as tube_in",
        "join tube_in.bottom to base_in.edge as inner",
        *(line.format(gap="left") for line in CLOSING),
    )


class ZipPouch(Form):
    called = "a lined pouch with a zip along its top"
    title = "Zip pouch"
    needs = ("wide", "tall")
    makes = "outer"
    always_lined = True
    stuff = ("zip mouth: coil, off the roll # or `width - 1 in long`: its teeth stop clear of the seams",)
    ends_lined = ("seam + zip_seam", "2 * zip_seam")
    sum = "the finished size, and what the seams take; the zip itself adds to the height"
    cuts = {"front back": "width + 2 * seam x height + {ends}"}
    steps_lined = (
        "",
        'part "Zip"',
        "join front.top to mouth.lower to front_in.top at zip_seam",
        "join back.top to mouth.upper to back_in.top at zip_seam as face",
        "topstitch front.top, back.top at zip_seam / 2",
        "",
        'part "Pouch"',
        "join front to back along sides, bottom, catching mouth.ends as outer",
        '      "Open the zip halfway first."',
        "join front_in to back_in along sides, bottom, leaving width / 2 open in bottom as inner",
        "turn outer through inner.bottom",
        "close inner.bottom by hand",
    )


FORMS: dict[str, type[Form]] = {
    "flat": Flat,
    "boxed": Boxed,
    "gusseted": Gusseted,
    "round": Round,
    "zip-pouch": ZipPouch,
}
