"""The sheet of instructions as plain text."""

from __future__ import annotations

from ..ground.text import plain
from ..speech import spelt
from .cutting import headed
from .sheet_blocks import Facts, Para, Steps, Table
from .sheet_words import cover, sections, warning
from .steps import title, wrapped

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from ..work.sheet import Sheet

WIDE = 88


def sheet_text(sheet: Sheet) -> str:
    """The whole sheet, wrapped at 88 columns; pictures are left to the other formats."""
    name = one_line(title(sheet))
    lines = [name, "=" * len(name), ""]
    lines += [wrapped("", one_line(warning(sheet))), ""] if sheet.faults else []
    lines += [wrapped(f"{one_line(what)}: ", one_line(words), 4) for what, words in cover(sheet)]
    for note in sheet.notes:
        lines += ["", wrapped("", one_line(note))]
    for section in sections(sheet, drawn=False):
        lines += ["", "", *headed(section.title)]
        for block in section.blocks:
            lines += PRINTED[type(block)](block)
    return "\n".join(lines)


def one_line(text: str) -> str:
    """Words in the sheet's one spelling, on one line, nothing in them that moves a cursor."""
    return plain(" ".join(spelt(text).split()))


def para(block: Para) -> list[str]:
    return ["", wrapped("", one_line(block.words))]


def facts(block: Facts) -> list[str]:
    return ["", *(wrapped(f"{one_line(name)}: ", one_line(words), 4) for name, words in block.rows)]


def table(block: Table) -> list[str]:
    """Rows in columns where they fit; the last column is wrapped under itself."""
    rows = [[one_line(cell) for cell in row] for row in block.rows]
    widths = [min(max(len(row[at]) for row in rows), 34) for at in range(len(block.head) - 1)]
    lines = ["", wrapped("", one_line(block.caption) + ":")]
    for *cells, last in rows:
        lead = "  " + "".join(f"{cell:<{wide}}  " for cell, wide in zip(cells, widths, strict=True))
        lines.append((lead + last).rstrip())
        if len(lines[-1]) > WIDE:
            lines[-1:] = [lead.rstrip(), wrapped("      ", last)]
    return lines + ([wrapped("  ", one_line(block.total), 6)] if block.total else [])


def steps(block: Steps) -> list[str]:
    lines = ["", one_line(block.title) + ":"]
    for one in block.lines:
        lines += [wrapped("     ", one_line(note)) for note in one.notes]
        lines.append(wrapped(f"{one.number:>3}. ", f"{one_line(one.sentence)} [{'; '.join(map(one_line, one.tags))}]"))
        lines += [wrapped("     ", one_line(one.said))] if one.said else []
        lines += [wrapped("     Take care: ", one_line(caution), 16) for caution in one.cautions]
    return lines


# Each takes blocks of its own class, and no other.
PRINTED: dict[type, Callable[[Any], list[str]]] = {Para: para, Facts: facts, Table: table, Steps: steps}
