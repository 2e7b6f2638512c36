"""The step list as numbered text."""

from textwrap import fill

from ..cautions import AFTERWORD
from ..ground.text import plain


def steps_text(recipe, steps):
    """The whole step list, grouped by part, cautions beneath the steps they belong to."""
    lines = [title(recipe)]
    if recipe.sizes:
        lines.append(f"Sizes: {' / '.join(recipe.sizes)}")
    for part, note, _ in recipe.notes:
        if part is None:
            lines += ["", wrapped("", note)]
    part = None
    for step in steps:
        if step.part != part:
            part = step.part
            lines += ["", part, "-" * len(part)]
        lines += [wrapped("     ", note) for note in step.notes]
        lines.append(wrapped(f"{step.number:>3}. ", step.sentence))
        if step.said:
            lines.append(wrapped("     ", step.said))
        lines += [wrapped("     Take care: ", caution, 16) for caution in step.cautions]
    if any(" mm)" in step.sentence for step in steps):
        lines += ["", "Millimetres in brackets are rounded."]
    lines += ["", wrapped("", AFTERWORD)]
    return plain("\n".join(lines))


def title(recipe):
    """The good's name and revision."""
    name = recipe.title or "Untitled recipe"
    return f"{name}, revision {recipe.revision}" if recipe.revision else name


def wrapped(lead, text, hang=None):
    """Text wrapped at 88 columns, hanging under its lead."""
    indent = " " * (len(lead) if hang is None else hang)
    return fill(text, 88, initial_indent=lead, subsequent_indent=indent, break_long_words=False)
