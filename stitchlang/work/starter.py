"""A starter recipe: a chosen form with its cuts worked out from the finished sizes asked for.

The recipe keeps the sizes as `let` values and its cuts as sums over them, so
that whoever goes on with it changes one number.
"""

from __future__ import annotations

from ..ground.lengths import MM, read_length, read_number, unit_of
from ..reading.parse import read
from ..speech import listed
from .check import check
from .layout import laid_out
from .starter_forms import FORMS, SIZES

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping, Sequence
    from fractions import Fraction
    from typing import TypeAlias

    from .starter_forms import Form

    Value: TypeAlias = tuple[str, str, str]  # the recipe's name for it, what it says there, the length as written

# What is taken where nothing is said; common practice, no source.
USUAL = {"in": ("1/2", "1", "1/4"), "cm": ("1", "2.5", "0.6"), "mm": ("10", "25", "6")}


class Senseless(Exception):
    """What was asked for gives no recipe, and why."""


def starter(
    kind: str,
    sizes: Mapping[str, str | None],
    unit: str = "in",
    seam: str | None = None,
    hem: str | None = None,
    lined: bool = False,
    title: str | None = None,
) -> str:
    """The text of a starter recipe that checks clean.  Raises Senseless.

    `sizes` maps `wide`, `tall`, `deep` and `across` to lengths as a sewer
    writes them, in `unit` where they carry none; `seam` and `hem` likewise.
    """
    form = FORMS[kind]
    given = {name: text for name, text in sizes.items() if text is not None}
    fits(form, given)
    usual_seam, usual_hem, zip_seam = USUAL[unit]
    if hem is not None and (lined or form.always_lined):
        raise Senseless("a lined bag has no hem: its mouth is sewn to the lining")
    values = [(SIZES[name][0], form.says.get(name, SIZES[name][1]), sized(given[name], name)) for name in form.needs]
    seams: list[Value] = [("seam", "each seam, from the cut edge", sized(seam or usual_seam, "allowance"))]
    if form.always_lined:
        seams.append(("zip_seam", "the seams at the zip", zip_seam))
    elif not lined:
        seams.append(("hem", "the hem, under a first turn as wide as a seam", sized(hem or usual_hem, "hem")))
        if length(seams[-1][-1], unit) >= length(given["tall"], unit):
            raise Senseless("the hem would reach below the base: ask for a smaller --hem, or for --lined")
    text = laid_out("\n".join(lines(form, values, seams, unit, lined or form.always_lined, titled(title, form))))
    proven(text)
    return text


def fits(form: type[Form], sizes: Collection[str]) -> None:
    """Whether the sizes are those that the form has; Senseless says which are missing or too many."""
    lacking = [f"--{name}" for name in form.needs if name not in sizes]
    if lacking:
        raise Senseless(f"{form.called} needs {listed(lacking)}: its finished size")
    beside = [name for name in sizes if name not in form.needs]
    if beside:
        others = [name for name, other in FORMS.items() if set(sizes) <= set(other.needs)]
        hint = f"; try {' or '.join(others)}" if others else ""
        raise Senseless(f"{form.called} has no size `{beside[0]}`, only {listed(form.needs)}{hint}")


def sized(text: str, what: str) -> str:
    """A length as written, made sure of: one length above nothing."""
    reading = read(f"let size = {text}")
    word = reading.statements[0].parts[-1] if len(reading.statements) == 1 and not reading.comments else None
    if reading.stumbles or word is None or word.rule is not None or word.kind not in ("NUMBER", "LENGTH"):
        raise Senseless(f"{what}: `{text}` is no length above nothing, such as `10`, `10 1/2` or `26.5 cm`")
    try:
        nothing = length(word.text, "mm") <= 0
    except (ValueError, ZeroDivisionError):
        nothing = True
    if nothing:
        raise Senseless(f"{what}: `{text}` is no length above nothing")
    return word.text


def length(text: str, unit: str) -> Fraction:
    """A written length in millimetres, in `unit` where it carries none."""
    return read_length(text) if unit_of(text) else read_number(text) * MM[unit]


def titled(title: str | None, form: type[Form]) -> str:
    """The title, made sure of: it goes between quotes, on one line."""
    title = form.title if title is None else title.strip()
    if not title or not title.isprintable() or '"' in title:
        raise Senseless("a title is words on one line, without the mark that closes quotes")
    return title


def lines(
    form: type[Form], values: Sequence[Value], seams: Sequence[Value], unit: str, lined: bool, title: str
) -> Iterator[str]:
    """The recipe's lines, before they are laid out."""
    yield f"# {form.called[0].upper()}{form.called[1:]}{', lined' if lined and not form.always_lined else ''}."
    yield "# Change a size, and every cut follows; `stitchlang check` says what no longer fits."
    yield from (f'recipe "{title}"', 'revision "A"', f"units {unit}", "")
    yield "# The finished sizes."
    yield from (f"let {name} = {text} # {says}" for name, says, text in values)
    yield from ("", "# What seams take.")
    yield from (f"let {name} = {text} # {says}" for name, says, text in seams)
    if form is FORMS["round"]:
        yield "let pi = 3.14159265358979 # once round a circle, for each length across it"
    yield from ("allowance seam", "", "# What it is sewn from; add what you know, such as `0.6 mm thick, 54 wide`.")
    yield 'cloth main: "cloth for the outside"'
    if lined:
        yield 'cloth lining: "cloth for the lining"'
    yield from form.stuff
    yield from ("", f"# The cuts: {form.sum}.")
    yield from cuts(form, lined)
    yield from (form.steps_lined if lined else form.steps)
    yield from ("", "# What comes of it; the checker holds the cuts above against this.")
    claims = (f"{SIZES[name][0]} {form.measures.get(name, name)}" for name in form.needs)
    yield f"finished {form.makes}: {', '.join(claims)}"


def cuts(form: type[Form], lined: bool) -> Iterator[str]:
    """The pieces, and those of the lining after them."""
    ends, mouths = form.ends_lined if lined else form.ends
    for suffix, stuff in (("", "main"), ("_in", "lining"))[: 1 + lined]:
        for names, outline in form.cuts.items():
            called = ", ".join(name + suffix for name in names.split())
            yield f"piece {called} of {stuff}: {outline.format(ends=ends, mouths=mouths)}"


def proven(text: str) -> None:
    """Make sure that the recipe checks clean; Senseless with what is found where sizes are out of all measure."""
    from ..build import build
    from ..ground.text import Source

    findings = check(build(Source(text, "starter")))
    if findings:
        raise Senseless(f"these sizes make no bag: {findings[0].says}")
