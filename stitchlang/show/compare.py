"""A comparison as text and as Markdown: what changed, heading by heading."""

from __future__ import annotations

import re

from ..cautions import AFTERWORD
from ..ground.text import plain
from .compare_words import CARE, Manner, provisos, sections, titles
from .cutting import headed
from .steps import wrapped

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..model.recipe import Recipe
    from ..work.changes import Comparison
    from .compare_words import Told

SAME = "No difference in the bag."
ROUNDED = "What is about so long is rounded to the ruler."


# ------------------------------------------------------------------ text
def compare_text(comparison: Comparison, old: Recipe, new: Recipe, unit: str) -> str:
    """For the terminal, with the line of the recipe that each change stands on."""
    told = sections(comparison, Manner(unit))
    lines = [one_line(headline(*titles(old, new)))]
    lines += [wrapped("", one_line(said)) for said in provisos(comparison, names(old, new))]
    for heading, phrases in told:
        lines += ["", *headed(heading), *(wrapped("", one_line(phrase), 4) for phrase in phrases)]
    lines += [] if told else [SAME]
    lines += [line for ending in endings(told) for line in ("", wrapped("", ending))]
    return plain("\n".join(lines))


def headline(before: str | None, after: str | None) -> str:
    """What is compared with what."""
    if before is None or after is None:
        return f"{after or before or 'Nothing to read'}: {'new' if before is None else 'gone'}"
    return before if before == after else f"{before} -> {after}"


def names(old: Recipe, new: Recipe) -> tuple[str, str]:
    """What to call the two texts; told apart where both have one name."""
    one, other = old.source.name, new.source.name
    both = one == other and None not in titles(old, new)
    return (f"{one}, the old", f"{other}, the new") if both else (one, other)


def one_line(text: str) -> str:
    """A text without line ends of any kind: a file's name may have them."""
    return plain(text.replace("\n", " "))


def endings(told: Sequence[Told]) -> list[str]:
    """What is said beneath: the usual word on cautions, and that numbers are rounded."""
    phrases = [phrase for _, its in told for phrase in its]
    lines = [AFTERWORD] if told and told[-1][0] == CARE else []
    return lines + ([ROUNDED] if any("about " in phrase for phrase in phrases) else [])


# ------------------------------------------------------------------ Markdown
# Marks that Markdown, or HTML in it, would take for more than themselves; a backslash makes each a plain mark again.
MARKS = re.compile(r"([\\`*_{}\[\]<>#|~!$@&^])")
# Addresses that a reader of Markdown makes links of, unasked: they are broken where it looks for them.
LINKS = re.compile(r"(?i)(?<=\b[a-z])(?=[a-z]*://)|(?<=\bwww)(?=\.)")


def compare_markdown(comparison: Comparison, old: Recipe, new: Recipe, unit: str) -> str:
    """A change note to publish: the same headings and phrases, without the recipe's line numbers."""
    told = sections(comparison, Manner(unit, arrow="→", places=False))
    before, after = titles(old, new)
    lines = [f"# What changed: {harmless(after or before or 'nothing to read')}", ""]
    if before != after:
        lines += [f"Against {harmless(before)}." if before and after else "New." if after else "Gone.", ""]
    for said in provisos(comparison, names(old, new)):
        lines += [f"**{harmless(said)}.**", ""]
    for heading, phrases in told:
        lines += [f"## {heading}", "", *(f"- {harmless(phrase)}" for phrase in phrases), ""]
    lines += [] if told else [SAME, ""]
    return "\n".join(lines + [line for ending in endings(told) for line in (ending, "")]).rstrip("\n")


def harmless(text: str) -> str:
    """A text whose marks stand for themselves, whatever its writer put in."""
    return LINKS.sub("\N{ZERO WIDTH NON-JOINER}", MARKS.sub(r"\\\1", one_line(text)))
