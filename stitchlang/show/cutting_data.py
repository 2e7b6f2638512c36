"""The cutting list and the shopping list for other programs: CSV and JSON."""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import decimal
from ..ground.text import plain
from ..speech import Speech, millimetres_of
from .cut_words import described, grain, notes, shape_of, size
from .cutting import strips

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from typing import TypeAlias

    from ..ground.lengths import Rational
    from ..ground.working import Working
    from ..model.recipe import Recipe, Stuff
    from ..work.cutting import Batch, Lists, Notion
    from ..work.stitching import Thread
    from .kinds import Json

    Row: TypeAlias = dict[str, object]  # column to what stands in it

COLUMNS = (
    *("list", "size", "stuff", "kind", "called", "piece", "count", "cut_size", "notes", "grain"),
    *("width_mm", "height_mm", "length_mm", "area_mm2"),
)

# A spreadsheet takes a cell that begins so for a formula (owasp.org/www-community/attacks/CSV_Injection).
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def cell(value: object) -> str:
    """A value for a spreadsheet: one that could be taken for a formula gets an apostrophe before it."""
    text = "" if value is None else decimal(value, 6) if isinstance(value, Fraction) else str(value)
    return plain("'" + text if text.lstrip(" ").startswith(FORMULA) else text)


def cutting_csv(_recipe: Recipe, sizes: Iterable[Lists], unit: str) -> str:
    """One table: a row for each piece to cut, then one for each thing to have, size by size.

    Millimetres are decimals, to a millionth: a spreadsheet would take a fraction for a date.
    """
    import csv
    import io

    speech, stream = Speech(unit), io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(COLUMNS)
    for lists in sizes:
        for row in (*cut_rows(lists, speech), *shopping_rows(lists, speech)):
            row["size"] = lists.size
            writer.writerow([cell(row.get(column)) for column in COLUMNS])
    return stream.getvalue().rstrip("\n")


def of(stuff: Stuff | None) -> Row:
    """The columns that say which stuff is meant."""
    return {"stuff": stuff.name, "kind": stuff.kind, "called": stuff.called} if stuff is not None else {}


def cut_rows(lists: Lists, speech: Speech) -> Iterator[Row]:
    for batch in lists.batches:
        for cut in batch.cuts:
            yield {
                "list": "cut",
                **of(batch.stuff),
                "piece": cut.piece.name,
                "count": cut.count,
                "cut_size": size(cut, speech),
                "notes": "; ".join(notes(cut, speech)),
                "grain": grain(batch.stuff),
                "width_mm": cut.wide,
                "height_mm": cut.tall,
            }


def shopping_rows(lists: Lists, speech: Speech) -> Iterator[Row]:
    for batch in lists.batches:
        shown = speech.length(batch.length) if batch.length is not None else None
        wide = batch.stuff.facts.get("wide") if batch.stuff is not None else None
        yield {
            "list": "buy",
            **of(batch.stuff),
            "cut_size": shown,
            "width_mm": wide and wide.mm,
            "length_mm": batch.length,
            "area_mm2": batch.area,
        }
    for notion in lists.notions:
        facts = described(notion.stuff, speech)
        yield {"list": "buy", **of(notion.stuff), "count": notion.count, "notes": facts, "length_mm": notion.length}
    least = "at least" if lists.thread.missing else "about"
    yield {"list": "buy", "stuff": "thread", "kind": "thread", "notes": least, "length_mm": lists.thread.total}


# ------------------------------------------------------------------ JSON
def cutting_json(recipe: Recipe, sizes: Iterable[Lists], unit: str) -> str:
    """One stable shape: every length as exact millimetres, a fraction in text, and as shown.

    `sizes` has one object for each size; where the recipe has one only, its `size` is null.
    """
    import json

    speech = Speech(unit)
    found = {
        "recipe": recipe.title,
        "revision": recipe.revision,
        "unit": unit,
        "sizes": [size_object(lists, speech) for lists in sizes],
    }
    return escaped(json.dumps(found, indent=2, ensure_ascii=False), json.dumps)


def size_object(lists: Lists, speech: Speech) -> Json:
    """Both lists of one size."""
    return {
        "size": lists.size,
        "cutting": [cut_object(batch, speech) for batch in lists.batches],
        "shopping": [
            *(need_object(batch, speech) for batch in lists.batches),
            *(notion_object(notion, speech) for notion in lists.notions),
        ],
        "thread": thread_object(lists.thread, speech),
    }


def escaped(text: str, dumps: Callable[[str], str]) -> str:
    """Characters that could move a terminal's cursor are written as JSON's own escapes; nothing is lost."""
    if text.replace("\n", "").isprintable():
        return text
    return "".join(letter if letter.isprintable() or letter == "\n" else dumps(letter)[1:-1] for letter in text)


def length_object(length: Working | Rational | None, speech: Speech) -> Json | None:
    """A length exactly and as shown; null for one that is not known."""
    if length is None:
        return None
    mm = millimetres_of(length)
    return {"millimetres": str(Fraction(mm)), "shown": speech.length(mm)}


def stuff_object(stuff: Stuff | None) -> Json:
    return of(stuff) or {"stuff": None, "kind": None, "called": ""}


def cut_object(batch: Batch, speech: Speech) -> Json:
    return {
        **stuff_object(batch.stuff),
        "pieces": [
            {
                "piece": cut.piece.name,
                "count": cut.count,
                "shape": shape_of(cut),
                "wide": length_object(cut.wide, speech),
                "tall": length_object(cut.tall, speech),
                "shown": size(cut, speech),
                "notes": notes(cut, speech),
                "grain": grain(batch.stuff),
            }
            for cut in batch.cuts
        ],
    }


def need_object(batch: Batch, speech: Speech) -> Json:
    wide = batch.stuff.facts.get("wide") if batch.stuff is not None else None
    return {
        **stuff_object(batch.stuff),
        "count": None,
        "facts": "",
        "length": length_object(batch.length, speech),
        "width": length_object(wide, speech),
        "had": length_object(batch.had, speech),
        "square_millimetres": str(batch.area),
        "strips": [{"tall": length_object(tall, speech), "pieces": inside} for tall, inside in strips(batch.layout)],
    }


def notion_object(notion: Notion, speech: Speech) -> Json:
    return {
        **stuff_object(notion.stuff),
        "count": notion.count,
        "facts": described(notion.stuff, speech),
        "length": length_object(notion.length, speech),
        "width": length_object(notion.stuff.facts.get("wide"), speech),
        "had": length_object(notion.stuff.facts.get("long"), speech),
        "square_millimetres": None,
        "strips": [],
    }


def thread_object(needed: Thread, speech: Speech) -> Json:
    return {
        "rows": needed.rows,
        "seam": length_object(needed.seam, speech),
        "seam_by_flat_ratio": length_object(needed.flat, speech),
        "total": length_object(needed.total, speech),
        "needle": length_object(needed.needle, speech),
        "bobbin": length_object(needed.bobbin, speech),
        "stitch": length_object(needed.stitch, speech),
        "reels": [reel.name for reel in needed.reels],
        "at_least": bool(needed.missing),
        "not_counted": list(needed.missing),
    }
