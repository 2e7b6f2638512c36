"""The cutting list and the shopping list as text."""

from __future__ import annotations

from ..ground.lengths import decimal, mixed
from ..ground.text import plain
from ..speech import Speech, counted, listed
from ..trade import thread
from .cut_words import area, described, long_length, name_of, notes, size
from .steps import title, wrapped

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from fractions import Fraction

    from ..ground.working import Working
    from ..model.packing import Layout
    from ..model.recipe import Recipe
    from ..work.cutting import Batch, Lists, Notion
    from ..work.stitching import Thread

NOTES = (
    "The grain runs lengthwise, up each piece.",
    "Lengths of cloth come from a simple layout in strips, pieces laid as boxes with the grain kept: enough, and often "
    "not the least there could be. Nothing is added for shrinking, squaring up or matching a pattern.",
)


def cutting_text(recipe: Recipe, sizes: Iterable[Lists], unit: str) -> str:
    """Both lists, what to cut first; one behind the other where there are several sizes."""
    speech, lines = Speech(unit), [title(recipe)]
    for lists in sizes:
        lines += ["", *size_lines(lists, speech)]
    rounded = any("about " in line and not line.startswith("thread") for line in lines)
    lines += ["", *(wrapped("", note) for note in NOTES)]
    lines += ["What is about so long is rounded to the ruler."] if rounded else []
    return plain("\n".join(lines))


def size_lines(lists: Lists, speech: Speech) -> list[str]:
    """Both lists of one size."""
    named = f", size {lists.size}" if lists.size is not None else ""
    lines = headed(f"Cutting list{named}")
    for batch in lists.batches:
        lines += ["", *cut_lines(batch, speech)]
    if not lists.batches:
        lines.append("nothing to cut")
    lines += ["", *headed(f"Shopping list{named}"), ""]
    for batch in lists.batches:
        lines += need_lines(batch, speech)
    lines += [wrapped("", notion_line(notion, speech), 2) for notion in lists.notions]
    return [*lines, wrapped("", thread_line(lists.thread, speech.unit), 2)]


def headed(text: str) -> list[str]:
    return [text, "-" * len(text)]


def cut_lines(batch: Batch, speech: Speech) -> list[str]:
    """A stuff's pieces in columns, notes beneath."""
    kind = batch.stuff.kind if batch.stuff is not None else ""
    lines = [f"From {name_of(batch.stuff)}{', ' + kind if kind else ''}:"]
    rows = [(cut.piece.name, str(cut.count), size(cut, speech), notes(cut, speech)) for cut in batch.cuts]
    name, many = (max(len(row[column]) for row in rows) for column in (0, 1))
    for piece, count, shown, more in rows:
        lead = f"  {count:>{many}} x {piece:<{name}}  "
        lines.append(wrapped(lead, "; ".join([shown, *more])))
    return lines


def need_lines(batch: Batch, speech: Speech) -> list[str]:
    """How much of a stuff to have."""
    stuff = batch.stuff
    wide = stuff.facts.get("wide") if stuff is not None else None
    across = f", {speech.length(wide)} wide" if wide is not None else ""
    boxes = f"{area(batch.area, speech.unit)} in boxes"
    if not batch.area:
        return [wrapped("", f"{name_of(stuff)}: found whole", 2)]
    if batch.length is None:
        return [wrapped("", f"{name_of(stuff)}{across}: {boxes}; {why(batch, wide, speech)}{had(batch, speech)}", 2)]
    of = f" ({boxes})" if batch.layout is not None else ""
    lines = [wrapped("", f"{name_of(stuff)}{across}: {speech.length(batch.length)}{of}{had(batch, speech)}", 2)]
    return lines + strip_lines(batch.layout, speech)


def why(batch: Batch, wide: Working | None, speech: Speech) -> str:
    """Why no length is given."""
    if wide is None:
        usual = "112 cm" if speech.unit in ("cm", "mm") else "44 in"
        return f"state its usable width, such as `{usual} wide`, for a length"
    if any(cut.wide > wide.mm for cut in batch.cuts):
        return "no length, since a piece is wider than it"
    return "no length, since these are too many pieces to lay out"


def had(batch: Batch, speech: Speech) -> str:
    """How the length needed stands against the one the recipe states."""
    if batch.had is None:
        return ""
    said = f"; the recipe has {speech.length(batch.had)}"
    if batch.length is None:
        return said
    over = batch.had.mm - batch.length
    if not over:
        return f"{said}, just enough"
    if over > 0:
        return f"{said}, {speech.length(over)} to spare"
    return f"{said}, {speech.length(-over)} too little{' for this layout' if batch.layout is not None else ''}"


def strip_lines(layout: Layout | None, speech: Speech) -> list[str]:
    """The strips across the cloth, and what each is cut into."""
    return [wrapped("    ", f"strip {speech.length(tall)}: {', '.join(inside)}", 6) for tall, inside in strips(layout)]


def strips(layout: Layout | None) -> Iterator[tuple[Fraction, list[str]]]:
    """(how tall it is, what lies in it) for each strip of a layout; none where there is no layout."""
    if layout is not None:
        for number, (_, tall) in enumerate(layout.strips):
            yield tall, names_in(layout, number)


def names_in(layout: Layout, number: int) -> list[str]:
    """What lies in a strip: `front`, `2 x tab`."""
    found: dict[str, int] = {}
    for laid in layout.laid:
        if laid.strip == number and laid.item is not None:
            found[laid.item.piece.name] = found.get(laid.item.piece.name, 0) + 1
    return [f"{many} x {name}" if many > 1 else name for name, many in found.items()]


def notion_line(notion: Notion, speech: Speech) -> str:
    """`2 x ring dee: 1 in inside`."""
    stuff, facts = notion.stuff, described(notion.stuff, speech)
    used = f"{speech.length(notion.length)} is used of it" if notion.length is not None else ""
    called = f" ({stuff.called})" if stuff.called else ""
    says = "; ".join(part for part in (facts, used) if part)
    return f"{notion.count} x {stuff.kind} {stuff.name}{called}{': ' + says if says else ''}"


def thread_line(needed: Thread, unit: str) -> str:
    """How much thread, and what it rests on."""
    if not needed.rows:
        return "thread: no machine stitching"
    least = "at least " if needed.missing else "about "
    flat = f", {mixed(thread.FLAT)} times the seam where one is not stated" if needed.flat else ""
    missing = f"; not counted: {', '.join(needed.missing)}" if needed.missing else ""
    how = f"lockstitch, {decimal(needed.stitch, 2)} mm long, by the thickness of the plies{flat}"
    more = f"{int(thread.WASTE * 100)} % for waste, and {thread.TAIL // 10} cm of both threads at every start and stop"
    return (
        f"thread{of_reels(needed)}: {least}{long_length(needed.total, unit)}, half of it on the bobbin, for "
        f"{long_length(needed.seam, unit)} of stitching in {counted(needed.rows, 'row')} ({how}; {more}){missing}"
    )


def of_reels(needed: Thread) -> str:
    """What the recipe names to sew with."""
    return f", {listed(name_of(reel) for reel in needed.reels)}" if needed.reels else ""
