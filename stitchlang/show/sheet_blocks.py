"""What a sheet of instructions is laid out from: headed sections, and the blocks in them."""

from __future__ import annotations

from attrs import frozen

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import TypeAlias

    from .kinds import Fact
    from .svg import Page

    Block: TypeAlias = "Para | Facts | Steps | Table | Picture"


@frozen
class Para:
    """A paragraph; `looks` is empty, or `care` for a caution, or `said` for the writer's own words."""

    words: str
    looks: str = ""


@frozen
class Facts:
    """Names with what is to be said of each."""

    rows: tuple[Fact, ...]


@frozen
class Line:
    """A step as it is printed: its tags say where it is done and what a standard calls its stitches."""

    number: int
    notes: tuple[str, ...]
    sentence: str
    said: str
    cautions: tuple[str, ...]
    tags: tuple[str, ...]


@frozen
class Steps:
    """The steps of a part, under its title."""

    title: str
    lines: tuple[Line, ...]


@frozen
class Table:
    """Rows of words under a head; `total` is a line beneath that sums them up."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    total: str = ""


@frozen
class Picture:
    """A drawing: its name, what it shows in words, and an SVG page in each spelling of the sheet."""

    name: str
    told: str
    pages: tuple[Page, ...]


@frozen
class Section:
    """A headed section: its `key` names it in a page, its blocks follow one another."""

    key: str
    title: str
    blocks: tuple[Block, ...]


def section_words(section: Section) -> Iterator[str]:
    """Every text of a section."""
    for block in section.blocks:
        yield from block_words(block)


def block_words(block: Block) -> Iterator[str]:
    """Every text of a block."""
    if isinstance(block, Steps):
        for one in block.lines:
            yield from (*one.notes, one.sentence, one.said, *one.cautions, *one.tags)
    elif isinstance(block, Para):
        yield block.words
    elif isinstance(block, (Facts, Table)):
        for row in block.rows:
            yield from row


def without_empty(table: Table) -> Table:
    """A table without the columns that say nothing."""
    kept = [at for at in range(len(table.head)) if any(row[at] for row in table.rows)]
    head, *rows = (tuple(row[at] for at in kept) for row in (table.head, *table.rows))
    return Table(table.caption, head, tuple(rows), table.total)
