"""The sheet of instructions as Markdown: headings, tables, numbered steps; what a writer put in stays plain words."""

from __future__ import annotations

import re

from ..speech import spelt
from .compare import harmless
from .sheet_blocks import Facts, Para, Steps, Table
from .sheet_words import cover, sections, warning
from .steps import title

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from typing import Any

    from ..work.sheet import Sheet

# What begins a list, a heading or a rule where it stands first in a line.
FIRST = re.compile(r"^(\d+(?=[.)](?:\s|$))|(?=[-+=]))(.)")


def sheet_markdown(sheet: Sheet) -> str:
    """The whole sheet; pictures are left to the page and the PDF."""
    lines = [f"# {said(title(sheet))}", ""]
    lines += [f"**{said(warning(sheet))}**", ""] if sheet.faults else []
    lines += facts(Facts(tuple(cover(sheet))))
    for note in sheet.notes:
        lines += [said(note), ""]
    for section in sections(sheet, drawn=False):
        lines += [f"## {said(section.title)}", ""]
        for block in section.blocks:
            lines += PRINTED[type(block)](block)
    return "\n".join(lines).rstrip("\n")


def said(text: str) -> str:
    """Words in the sheet's one spelling, none of whose marks mean anything."""
    return FIRST.sub(r"\1\\\2", harmless(" ".join(spelt(text).split())))


def para(block: Para) -> list[str]:
    return [said(block.words), ""]


def facts(block: Facts) -> list[str]:
    return [*(f"- **{said(name)}:** {said(words)}" for name, words in block.rows), ""]


def table(block: Table) -> list[str]:
    lines = [f"**{said(block.caption)}**", "", row(block.head), row(["---"] * len(block.head), str)]
    return [*lines, *map(row, block.rows), "", *([said(block.total), ""] if block.total else [])]


def row(cells: Iterable[str], shown: Callable[[str], str] = said) -> str:
    return f"| {' | '.join(map(shown, cells))} |"


def steps(block: Steps) -> list[str]:
    lines = [f"### {said(block.title)}", ""]
    for one in block.lines:
        lead = f"{one.number}. "
        inner = [said(note) for note in one.notes] + [f"{said(one.sentence)} *{said('; '.join(one.tags))}*"]
        inner += [said(one.said)] if one.said else []
        inner += [f"**Take care:** {said(caution)}" for caution in one.cautions]
        lines += [(lead if not at else " " * len(lead)) + text for at, text in enumerate(inner)]
        lines[-len(inner) :] = "  \n".join(lines[-len(inner) :]).split("\n")  # each on a line of its own
    return [*lines, ""]


# Each takes blocks of its own class, and no other.
PRINTED: dict[type, Callable[[Any], list[str]]] = {Para: para, Facts: facts, Table: table, Steps: steps}
