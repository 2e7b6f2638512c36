"""Where a finding stands, as machines want it: paths from here with forward slashes, lines, columns."""

import os


def path_from_here(name):
    """A recipe's path as seen from the working folder, with forward slashes; as it is where there is no way to it."""
    try:
        near = os.path.relpath(name) if os.path.isabs(name) else os.path.normpath(name)
    except ValueError:  # on another drive
        near = name
    return near.replace(os.sep, "/")


def region(source, span, column_of=None):
    """(line, column, last line, column behind the last character), from 1, of a span.

    Columns count code points, or whatever `column_of` makes of the line's text ahead of the place.
    """
    found = []
    for offset in (span.start, span.end):
        line, column = source.place(offset)
        if column_of is not None:
            column = column_of(source.text[offset - column + 1 : offset]) + 1
        found += [line, column]
    return tuple(found)


def utf16_units(text):
    """How many UTF-16 code units a text takes."""
    return len(text.encode("utf-16-le", "replace")) // 2
