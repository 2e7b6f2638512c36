"""The step list as numbered text."""

from __future__ import annotations

from textwrap import fill

from ..cautions import AFTERWORD
from ..ground.text import plain
from ..work.fewest import each_change
from ..work.plan import START

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..model.recipe import Recipe
    from ..work.fewest import Fewest
    from ..work.sheet import Sheet
    from ..work.steps import Step

AT = {
    "table": "At the table.",
    "machine": "At the machine.",
    "iron": "At the iron.",
    "hand": "By hand.",
    "hardware": "At the setting tools.",
}


def steps_text(recipe: Recipe, steps: Sequence[Step], found: Fewest | None = None) -> str:
    """The whole step list, grouped by part, cautions beneath the steps they belong to.

    With `found`, a `Fewest`, it says at the head how many changes of station and set-up there are, and where each is.
    """
    lines = [title(recipe)]
    if found is not None:
        lines.append(wrapped("", counted_changes(found)))
    if recipe.sizes:
        lines.append(f"Sizes: {' / '.join(recipe.sizes)}")
    for part, note, _ in recipe.notes:
        if part is None:
            lines += ["", wrapped("", note)]
    part = None
    for step, change in zip(steps, said_changes(steps), strict=True):
        if step.part != part:
            part = step.part
            lines += ["", part, "-" * len(part)]
        if found is not None and change:
            lines += [*([] if set(lines[-1]) == {"-"} else [""]), wrapped("     ", change)]
        lines += [wrapped("     ", note) for note in step.notes]
        lines.append(wrapped(f"{step.number:>3}. ", step.sentence))
        if step.said:
            lines.append(wrapped("     ", step.said))
        lines += [wrapped("     Take care: ", caution, 16) for caution in step.cautions]
    if any(" mm)" in step.sentence for step in steps):
        lines += ["", "Millimetres in brackets are rounded."]
    lines += ["", wrapped("", AFTERWORD)]
    return plain("\n".join(lines))


def counted_changes(found: Fewest) -> str:
    """How many changes an order has, and whether another could have fewer."""
    number = f"{found.changes} change{'' if found.changes == 1 else 's'}"
    said = f"{number} of station and set-up ({found.written} in the written order)"
    if found.proven:
        return f"{said}; proven fewest"
    return f"{said}; not proven fewest: too many possible orders to try, and none has fewer than {found.least}"


def said_changes(steps: Sequence[Step]) -> Iterator[str]:
    """For each step, what is changed before it in words, one sentence a change; empty where nothing is."""
    setups = [step.setup for step in steps]
    for setup, (moves, sets) in zip(setups, each_change(setups, START), strict=True):
        station, setting = setup or (START, None)
        said = [AT.get(station, f"At the {station}.")] if moves else []
        said += [f"Set: {setting}."] if sets else []
        yield " ".join(said)


def title(recipe: Recipe | Sheet) -> str:
    """The good's name and revision."""
    name = recipe.title or "Untitled recipe"
    return f"{name}, revision {recipe.revision}" if recipe.revision else name


def wrapped(lead: str, text: str, hang: int | None = None) -> str:
    """Text wrapped at 88 columns, hanging under its lead."""
    indent = " " * (len(lead) if hang is None else hang)
    return fill(text, 88, initial_indent=lead, subsequent_indent=indent, break_long_words=False)
