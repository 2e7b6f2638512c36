"""The words of the trade that a sheet of instructions uses, each said in our own words.

Where a source was read it is named; all others are common practice, no source.  `found` is how a text shows that it
uses a term: a regular expression, matched without regard to capitals.
"""

from __future__ import annotations

import re
from collections import namedtuple

ISO = "ISO 4915:1991 and ISO 4916:1991"
PRACTICE = "common practice"


class Term(namedtuple("Term", "name meaning found source", defaults=(PRACTICE,))):
    """A word of the trade."""

    __slots__ = ()
    name: str
    meaning: str
    found: str
    source: str


TERMS = (
    Term(
        "backstitch", "Sew a few stitches back over the row at its ends, so that it cannot come undone.", r"backstitch"
    ),
    Term(
        "baste",
        "Hold layers together with long stitches that a later seam covers, or that are pulled out.",
        r"bast(e|ing)",
    ),
    Term("batting", "The soft layer between two cloths that pads and warms.", r"batting"),
    Term("bind", "Close a raw edge in a folded strip that wraps over it.", r"\bb(ind|ound|inding)\b"),
    Term("bodkin", "A blunt, thick needle that pulls a cord through a casing.", r"bodkin"),
    Term("box", "Stitch across a corner so that a flat bag gains depth.", r"\bbox (?!round)\w+(:| at)|pinched"),
    Term("casing", "A tube of cloth that a cord or a strap runs in.", r"casing|channel"),
    Term("dart", "A wedge folded out of the cloth and stitched, so that a flat piece rounds.", r"\bdarts?\b"),
    Term("ease", "Work a slightly longer edge onto a shorter one without a fold showing.", r"\bease (?!the seams)"),
    Term(
        "felled seam",
        "A seam whose allowances are folded under and stitched flat, so that no raw edge is left.",
        r"trim one allowance, fold the other over it|\bfelled\b",
    ),
    Term("fuse", "Stick interfacing to cloth with the heat of an iron.", r"\bfuse"),
    Term("gather", "Draw an edge up along long stitches until it is as short as its neighbour.", r"\bgather"),
    Term("grain", "The way the lengthwise threads of the cloth run; across them it gives more.", r"\bgrain\b"),
    Term("gusset", "A strip between two panels that gives a bag its depth.", r"gusset"),
    Term("hem", "Turn an edge under and stitch it down.", r"\bhem\b"),
    Term("interfacing", "Cloth fused or sewn to the wrong side of another, to stiffen it.", r"interfacing"),
    Term(
        "lapped seam",
        "Two edges laid over one another and stitched from the right side.",
        r"laid over one another|lapped",
    ),
    Term("lengthwise", "Along the longer side of a strip.", r"lengthwise"),
    Term(
        "lockstitch",
        "The usual machine stitch: one thread above, one below, locked in the cloth.",
        r"stitch 301|lockstitch",
        ISO,
    ),
    Term(
        "notch, as a cut corner",
        "Cloth cut out of a corner, which the boxing seam closes.",
        r"square out of|at each notch|rectangle out of",
    ),
    Term(
        "on the fold",
        "Laid against the fold of doubled cloth, so that the piece comes out twice as large.",
        r"on the fold\b",
    ),
    Term("overall", "From one end to the other, all that is attached included.", r"\boverall\b"),
    Term("pleat", "A fold that is stitched down and takes up width.", r"\bpleat|tuck"),
    Term("ply, plies", "A layer of cloth under the needle.", r"\bpl(y|ies)\b"),
    Term("press", "Put the iron down and lift it again, without sliding it over the cloth.", r"\bpress\b"),
    Term("quilt", "Stitch through several layers in rows, so that they stay together.", r"\bquilt"),
    Term("raw edge", "An edge as it was cut, not yet hemmed, bound or sewn.", r"raw (edge|end)"),
    Term(
        "right side, wrong side",
        "The side of the cloth that is seen in the end, and the other one.",
        r"(right|wrong) sides?\b",
    ),
    Term("rim", "The open edge of a bag.", r"\brim\b"),
    Term("seam allowance", "The strip of cloth between the row of stitching and the raw edge.", r"seam allowance"),
    Term(
        "seam class",
        "A number by which a standard tells seams apart by how their layers lie: 1 layers upon each other, 2 lapped, "
        "3 bound, 6 a finished edge, 7 something attached to an edge.",
        r"seam class",
        ISO,
    ),
    Term("slip stitch", "A hand stitch through the folds on either side, hardly seen.", r"slip stitch"),
    Term("stitch class 200", "Stitches made by hand.", r"stitch class 200", ISO),
    Term("topstitch", "Sew a row that is seen, from the right side, beside an edge or a seam.", r"topstitch"),
    Term(
        "turn right side out",
        "Pull the work through an opening so that its right side comes to lie outside.",
        r"turn \w+ right side out",
    ),
    Term("zip foot", "A presser foot with one toe, which lets the needle run close beside a ridge.", r"zip foot"),
)


def used(text: str) -> list[Term]:
    """The terms that a text uses, in the order of the alphabet."""
    return [term for term in TERMS if re.search(term.found, text, re.IGNORECASE)]
