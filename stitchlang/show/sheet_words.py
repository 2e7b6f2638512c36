"""The sheet of instructions in words: headed sections of blocks, which each format then lays out in its own way.

Words stay in the sheet's way of speaking; `speech.spelt` and `speech.spellings` take them apart when they are printed.
"""

from __future__ import annotations

from itertools import chain, groupby

from ..cautions import AFTERWORD
from ..speech import listed, spelt
from ..trade.glossary import PRACTICE, used
from .sheet_blocks import Facts, Line, Para, Section, Steps, section_words
from .sheet_lists import cutting_blocks, materials
from .sheet_pictures import bag_pictures, piece_pictures

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..work.sheet import Finished, Sheet
    from .kinds import Fact

ROUNDED = "What is about so long is rounded to the ruler."
IN_BRACKETS = "Millimetres in brackets are rounded."
STATIONS = {"hand": "by hand", "hardware": "setting tools"}


def sections(sheet: Sheet, drawn: bool = True) -> list[Section]:
    """Everything that the sheet says, in the order in which it is read, with pictures or without: a list of Section."""
    bag, pieces = (bag_pictures(sheet), piece_pictures(sheet)) if drawn else ((), ())
    found = [
        Section("finished", "Finished sizes", (*finished_blocks(sheet), *bag)),
        Section("materials", "Materials and notions", (*materials(sheet), *tools(sheet))),
        Section("cutting", "Cutting list", tuple(cutting_blocks(sheet))),
        Section("diagrams", "Cutting diagrams", tuple(pieces)),
        Section("steps", "Steps", tuple(numbered(sheet))),
    ]
    said = list(chain(*map(section_words, found)))
    rounded = [ROUNDED] if any("about " in words for words in said) else []
    rounded += [IN_BRACKETS] if any(" mm)" in words for words in said) else []
    found.append(Section("cautions", "Cautions", tuple(Para(words) for words in (AFTERWORD, *rounded))))
    found.append(Section("glossary", "Words of the trade", tuple(glossary(found))))
    return [section for section in found if section.blocks]


def cover(sheet: Sheet) -> list[Fact]:
    """The facts under the title: (name, words) rows."""
    pieces = sum(cut.count for batch in sheet.lists[0].batches for cut in batch.cuts)
    steps = sum(len(part.steps) for part in sheet.parts)
    rows = [("Revision", sheet.revision), ("Made in", ", ".join(sheet.sizes))]
    rows += [(f"Finished {thing}", words) for thing, words in finished_rows(sheet)[:1]]
    rows += [("Pieces to cut", str(pieces)), ("Steps", str(steps))]
    return [(name, words) for name, words in rows if words]


def warning(sheet: Sheet) -> str:
    """What is said on top where the recipe has faults; empty where it has none."""
    if not sheet.faults:
        return ""
    number = "a fault" if sheet.faults == 1 else f"{sheet.faults} faults"
    return f"This recipe has {number}: it cannot be sewn as it stands. Do not cut from this sheet."


def lengths(one: Finished, sheet: Sheet) -> str:
    """A measure in every size: `10 in / 12 in`."""
    shown = [sheet.speech.length(working) if working is not None else "none" for working in one.lengths]
    return " / ".join(shown if len(set(shown)) > 1 else shown[:1])


def finished_rows(sheet: Sheet) -> list[Fact]:
    """(thing, its measures and what they may be off) for each finished thing."""
    rows = []
    for thing, found in groupby(sheet.finished, lambda one: one.thing):
        measures = list(found)
        words = [f"{lengths(one, sheet)} {one.name}" for one in measures]
        within = [sheet.speech.length(one.within) for one in measures if one.within is not None]
        words += [f"within {' or '.join(dict.fromkeys(within))}"] if within else []
        rows.append((thing, ", ".join(words)))
    return rows


def finished_blocks(sheet: Sheet) -> Iterator[Para | Facts]:
    """What each finished thing measures."""
    if sheet.finished:
        yield Para(f"Along the stitch lines{', ' + ' / '.join(sheet.sizes) if sheet.sizes else ''}.", "small")
        yield Facts(tuple(finished_rows(sheet)))


def tools(sheet: Sheet) -> Iterator[Para]:
    """What it is sewn on, and what published tables suggest."""
    machine, found = sheet.machine, sheet.tools
    if machine is not None and machine.called:
        yield Para(f"The recipe was written for this machine: {machine.called}.")
    if found.sentence:
        yield Para(f"Suggested for it: {found.sentence[:1].lower()}{found.sentence[1:]} Try it on a scrap first.")
        yield Para(f"Ranges from {listed(found.sources)}.", "small")


def numbered(sheet: Sheet) -> Iterator[Steps]:
    """The parts with their steps; how the machine is set is said where it changes."""
    last = None
    for part in sheet.parts:
        lines = []
        for step in part.steps:
            station, setting = step.setup or (step.station, None)
            tags = (STATIONS.get(station, station), setting if setting != last else "", step.classes)
            lines.append(
                Line(step.number, step.notes, step.sentence, step.said, step.cautions, tuple(filter(None, tags)))
            )
            last = setting or last
        yield Steps(part.title, tuple(lines))


def glossary(found: Sequence[Section]) -> list[Para | Facts]:
    """The terms that the sections use."""
    text = "\n".join(spelt(words) for section in found for words in section_words(section))
    terms = used(text)
    rows = [(one.name, one.meaning + (f" ({one.source})" if one.source != PRACTICE else "")) for one in terms]
    return [Para("Common practice, where no source is named.", "small"), Facts(tuple(rows))] if rows else []
