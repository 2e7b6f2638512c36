"""A finding as text: headline, excerpt with carets, the other places, the sum, the mend."""

from unicodedata import combining, east_asian_width

from ..ground.text import plain
from ..speech import listed

PAINT = {"fault": "31;1", "doubt": "33;1", "hint": "36;1", "dim": "2", "mend": "32"}
WIDEST = 110


class Painter:
    """Colours, or none; the words carry the meaning either way."""

    def __init__(self, colour=False):
        self.colour = colour

    def __call__(self, text, paint):
        return f"\033[{PAINT[paint]}m{text}\033[0m" if self.colour else text


def finding_text(finding, recipe, paint=None, short=False):
    """One finding, ready to print.

    Headline first: `file:line:column: fault rule-name: what is wrong`.
    """
    paint = paint or Painter()
    source = recipe.source
    line, column = source.place(finding.at.start)
    where = f"{plain(source.name)}:{line}:{column}"
    head = f"{where}: {paint(finding.severity, finding.severity)} {finding.rule}: {plain(finding.says)}"
    if finding.sizes:
        head += f" (in {'sizes' if len(finding.sizes) > 1 else 'size'} {listed(map(plain, finding.sizes))})"
    if short:
        return head
    lines = [head, *excerpt(source, finding.at, paint, finding.severity)]
    seen = {line}
    for label in finding.beside:
        at, column = source.place(label.at.start)
        lines.append(paint(f"  line {at}: {plain(label.says)}", "dim"))
        if at not in seen:
            seen.add(at)
            lines += excerpt(source, label.at, paint, "dim")
    lines += [f"  in {plain(size)}: {plain(says)}" for size, says in finding.others]
    for working in finding.working:
        lines += [f"  = {plain(row)}" for row in sum_line(working, recipe)]
    if finding.mend:
        lines.append(f"  {paint('mend:', 'mend')} {plain(finding.mend)}")
    return "\n".join(lines)


def excerpt(source, span, paint, colour):
    """The line of a span, cut from the source, with carets under the span."""
    number, column = source.place(span.start)
    text = source.line(number).replace("\t", " ")
    start = column - 1
    end = min(start + max(span.end - span.start, 1), max(len(text), start + 1))
    shift = 0
    if len(text) > WIDEST:  # a very long line: show the part around the span
        shift = max(0, min(start - 20, len(text) - WIDEST))
        text = text[shift : shift + WIDEST]
        start, end = start - shift, min(end - shift, WIDEST)
    text = plain(text)
    gutter = f"{number:>5} | "
    carets = " " * width(text[:start]) + "^" * max(1, width(text[start:end]))
    return [f"{gutter}{text}", f"      | {paint(carets, colour)}"]


def width(text):
    """How many columns a text takes on a terminal."""
    return sum(0 if combining(letter) else 2 if east_asian_width(letter) in "WF" else 1 for letter in text)


def sum_line(working, recipe):
    """A working's sum in one line, or nothing where it was never a sum."""
    terms = collected(working)
    if not working.terms or not terms:
        return []
    said = "".join(f" {'-' if factor < 0 else '+'} {factor_text(factor)}{recipe.say(leaf)}" for factor, leaf in terms)
    said = said.removeprefix(" + ").strip()
    ending = f" = {recipe.say(working)}" if said != recipe.say(working) else ""
    return [f"{working.says}: {said}{ending}"]


def sum_rows(working, recipe):
    """A row for each term of a working, with the place it was written at."""
    rows = []
    for factor, leaf in collected(working):
        line = f"  (line {recipe.source.place(leaf.at.start)[0]})" if leaf.at is not None else ""
        sign = "-" if factor < 0 else "+"
        rows.append(f"  {sign} {factor_text(factor)}{recipe.say(leaf)}  {leaf.says}{line}")
    return rows


def collected(working):
    """The terms of a sum, added ones first."""
    return sorted(working.levers(), key=lambda term: term[0] < 0)


def factor_text(factor):
    """`2 x `, `1/2 x `, or nothing for one."""
    size = abs(factor)
    if size == 1:
        return ""
    shown = str(size) if getattr(size, "denominator", 1) <= 1000 else f"{float(size):.4f}"
    return f"{shown} x "


def summary(findings, files):
    """The last line: how much was found in how many recipes."""
    counts = {name: sum(one.severity == name for one in findings) for name in ("fault", "doubt", "hint")}
    said = [f"{number} {name}{'' if number == 1 else 's'}" for name, number in counts.items() if number]
    return f"{', '.join(said) or 'nothing found'} in {files} recipe{'' if files == 1 else 's'}"
