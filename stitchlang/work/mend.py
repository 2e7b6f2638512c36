"""Mending a text: edits put into it, and the findings that can be mended without asking."""


def edited(text, edits):
    """The text with each (span, new words) put in; edits must not overlap, later ones that do are left out."""
    result, end = [], 0
    for span, words in sorted(edits, key=lambda edit: (edit[0].start, edit[0].end)):
        if span.start < end:
            continue
        result += [text[end : span.start], words]
        end = span.end
    return "".join([*result, text[end:]])
