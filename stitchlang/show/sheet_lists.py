"""The materials and the cutting list of a sheet, as tables in words."""

from __future__ import annotations

from ..ground.lengths import decimal
from ..model.needs import by_length
from ..speech import counted, listed
from .cut_words import area, described, long_length, name_of, notes, size
from .cutting import NOTES, of_reels, strips
from .sheet_blocks import Para, Table, without_empty

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import TypeAlias

    from ..speech import Speech
    from ..work.cutting import Batch, Lists, Notion
    from ..work.sheet import Sheet
    from ..work.stitching import Thread

    Had: TypeAlias = tuple[str, str, str]  # what, how much, more about it


def materials(sheet: Sheet) -> Iterator[Table]:
    """What to have, one table for each size."""
    for lists in sheet.lists:
        rows = [have(batch, sheet.speech) for batch in lists.batches]
        rows += [notion(one, sheet.speech) for one in lists.notions]
        rows += [thread(lists.thread, sheet.speech)] if lists.thread.rows else []
        if rows:
            head = ("what", "how much", "more about it")
            yield without_empty(Table(f"What to have{of_size(lists)}", head, tuple(rows)))


def of_size(lists: Lists) -> str:
    return f", size {lists.size}" if lists.size is not None else ""


def have(batch: Batch, speech: Speech) -> Had:
    """A stuff that pieces are cut from: name, how much, what else is known."""
    stuff = batch.stuff
    facts = stuff.facts if stuff is not None else {}
    more = [described(stuff, speech)] if stuff is not None else []
    more.append(f"the recipe has {speech.length(batch.had)}" if batch.had is not None else "")
    name = name_of(stuff) + (f", {stuff.kind}" if stuff is not None else "")
    if not batch.area:
        return name, "found whole", "; ".join(filter(None, more))
    if batch.length is not None:
        much = speech.length(batch.length)
    else:
        much = flat_area(batch, speech)
        more.append("" if "wide" in facts else "its width is not stated, so no length can be told")
    return name, much, "; ".join(filter(None, more))


def flat_area(batch: Batch, speech: Speech) -> str:
    return f"{speech.in_units(lambda unit: area(batch.area, unit))} in boxes"


def notion(one: Notion, speech: Speech) -> Had:
    """What is bought ready: `ring dee`, `2`, `1 in inside`."""
    stuff = one.stuff
    used = f"{speech.length(one.length)} is used of it" if one.length is not None else ""
    called = f" ({stuff.called})" if stuff.called else ""
    more = "; ".join(filter(None, [described(stuff, speech), used]))
    return f"{stuff.kind} {stuff.name}{called}", str(one.count), more


def thread(needed: Thread, speech: Speech) -> Had:
    """The thread, and what it was reckoned from."""
    least = "at least " if needed.missing else "about "
    much = least + speech.in_units(lambda unit: long_length(needed.total, unit))
    seam = speech.in_units(lambda unit: long_length(needed.seam, unit))
    missing = f"; not counted: {', '.join(needed.missing)}" if needed.missing else ""
    rows = f"{counted(needed.rows, 'row')}, {decimal(needed.stitch, 2)} mm a stitch"
    more = f"half of it on the bobbin, for {seam} in {rows}"
    return f"thread{of_reels(needed)}", much, more + missing


def cutting_blocks(sheet: Sheet) -> list[Table | Para]:
    """A table for each stuff of each size, and how the grain runs."""
    tables = [cut_table(batch, lists, sheet.speech) for lists in sheet.lists for batch in lists.batches]
    return [*tables, *map(Para, NOTES)] if tables else []


def cut_table(batch: Batch, lists: Lists, speech: Speech) -> Table:
    """The pieces of one stuff, and what they come to."""
    kind = f", {batch.stuff.kind}" if batch.stuff is not None else ""
    rows = tuple(
        (cut.piece.name, str(cut.count), size(cut, speech), "; ".join(notes(cut, speech))) for cut in batch.cuts
    )
    head = ("piece", "cut", "across x up", "how")
    return without_empty(Table(f"From {name_of(batch.stuff)}{kind}{of_size(lists)}", head, rows, total(batch, speech)))


def total(batch: Batch, speech: Speech) -> str:
    """How many pieces, how much cloth, and the strips it is cut in."""
    many = sum(cut.count for cut in batch.cuts)
    found = [counted(many, "piece")]
    if batch.area and not (batch.stuff is not None and by_length(batch.stuff)):
        found.append(flat_area(batch, speech))
    if batch.length is not None:
        found.append(f"from a length of {speech.length(batch.length)}")
    found += [f"a strip of {speech.length(tall)} for {listed(inside)}" for tall, inside in strips(batch.layout)]
    return f"In all {'; '.join(found)}."
