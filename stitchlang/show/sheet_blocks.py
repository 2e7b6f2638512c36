"""What a sheet of instructions is laid out from: headed sections, and the blocks in them."""

from attrs import field, frozen


@frozen
class Para:
    """A paragraph; `looks` is empty, or `care` for a caution, or `said` for the writer's own words."""

    words: str
    looks: str = ""


@frozen
class Facts:
    """Names with what is to be said of each."""

    rows: tuple = field(converter=tuple)


@frozen
class Line:
    """A step as it is printed: its tags say where it is done and what a standard calls its stitches."""

    number: int
    notes: tuple
    sentence: str
    said: str
    cautions: tuple
    tags: tuple


@frozen
class Steps:
    """The steps of a part, under its title."""

    title: str
    lines: tuple = field(converter=tuple)


@frozen
class Table:
    """Rows of words under a head; `total` is a line beneath that sums them up."""

    caption: str
    head: tuple
    rows: tuple = field(converter=tuple)
    total: str = ""


@frozen
class Picture:
    """A drawing: its name, what it shows in words, and an SVG page in each spelling of the sheet."""

    name: str
    told: str
    pages: tuple = field(converter=tuple)


@frozen
class Section:
    """A headed section: its `key` names it in a page, its blocks follow one another."""

    key: str
    title: str
    blocks: tuple = field(converter=tuple)


def section_words(section):
    """Every text of a section."""
    for block in section.blocks:
        yield from block_words(block)


def block_words(block):
    """Every text of a block."""
    if isinstance(block, Steps):
        for one in block.lines:
            yield from (*one.notes, one.sentence, one.said, *one.cautions, *one.tags)
    elif isinstance(block, Para):
        yield block.words
    elif hasattr(block, "rows"):
        for row in block.rows:
            yield from row


def without_empty(table):
    """A table without the columns that say nothing."""
    kept = [at for at in range(len(table.head)) if any(row[at] for row in table.rows)]
    rows = [[row[at] for at in kept] for row in table.rows]
    return Table(table.caption, [table.head[at] for at in kept], rows, table.total)
