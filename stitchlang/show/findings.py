"""A finding as text: headline, excerpt with carets, the other places, the sum, the mend."""

from __future__ import annotations

from ..ground.text import plain
from ..speech import listed

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from typing import TypeAlias

    from ..ground.finding import Finding
    from ..ground.lengths import Rational
    from ..ground.text import Source, Span
    from ..ground.working import Working
    from ..model.recipe import Recipe
    from ..work.outcome import Checked, Run

    Found: TypeAlias = Recipe | Checked  # what a finding was found in

PAINT = {"fault": "31;1", "doubt": "33;1", "hint": "36;1", "dim": "2", "mend": "32"}
WIDEST = 110
UNCHECKED = "sizes and what is left undone are checked once all of it is understood"


class Painter:
    """Colours, or none; the words carry the meaning either way."""

    def __init__(self, colour: bool = False) -> None:
        self.colour = colour

    def __call__(self, text: str, paint: str) -> str:
        return f"\033[{PAINT[paint]}m{text}\033[0m" if self.colour else text


def finding_text(finding: Finding, recipe: Found, paint: Painter | None = None, short: bool = False) -> str:
    """One finding, ready to print.

    Headline first: `file:line:column: fault rule-name: what is wrong`.
    """
    paint = paint or Painter()
    source = recipe.source
    line, column = source.place(finding.at.start)
    where = f"{plain(source.file(finding.at.start))}:{line}:{column}"
    head = f"{where}: {paint(finding.severity, finding.severity)} {finding.rule}: {headline(finding)}"
    if short:
        return head
    lines = [head, *excerpt(source, finding.at, paint, finding.severity)]
    seen = {source.line_said(finding.at.start)}
    for label in finding.beside:
        said = source.line_said(label.at.start, finding.at.start)
        lines.append(paint(f"  {said}: {plain(label.says)}", "dim"))
        at = source.line_said(label.at.start)
        if at not in seen:
            seen.add(at)
            lines += excerpt(source, label.at, paint, "dim")
    lines += [f"  in {plain(size)}: {plain(says)}" for size, says in finding.others]
    for working in finding.working:
        lines += [f"  = {plain(row)}" for row in sum_line(working, recipe)]
    if finding.mend:
        lines.append(f"  {paint('mend:', 'mend')} {plain(finding.mend)}")
    return "\n".join(lines)


def headline(finding: Finding) -> str:
    """What is wrong, and in which sizes, in one line."""
    if not finding.sizes:
        return plain(finding.says)
    sizes = "sizes" if len(finding.sizes) > 1 else "size"
    return f"{plain(finding.says)} (in {sizes} {listed(map(plain, finding.sizes))})"


def excerpt(source: Source, span: Span, paint: Painter, colour: str) -> list[str]:
    """The line of a span, cut from the source, with carets under the span."""
    number, column = source.place(span.start)
    text = source.line_at(span.start).replace("\t", " ")
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


def width(text: str) -> int:
    """How many columns a text takes on a terminal."""
    from unicodedata import combining, east_asian_width  # a library of its own: not for a recipe without findings

    return sum(0 if combining(letter) else 2 if east_asian_width(letter) in "WF" else 1 for letter in text)


def sum_line(working: Working, recipe: Found) -> list[str]:
    """A working's sum in one line, or nothing where it was never a sum."""
    terms = collected(working)
    if not working.terms or not terms:
        return []
    said = "".join(f" {'-' if factor < 0 else '+'} {factor_text(factor)}{recipe.say(leaf)}" for factor, leaf in terms)
    said = said.removeprefix(" + ").strip()
    ending = f" = {recipe.say(working)}" if said != recipe.say(working) else ""
    return [f"{working.says}: {said}{ending}"]


def sum_rows(working: Working, recipe: Recipe) -> list[str]:
    """A row for each term of a working, with the place it was written at."""
    rows = []
    for factor, leaf in collected(working):
        line = f"  ({recipe.source.line_said(leaf.at.start)})" if leaf.at is not None else ""
        sign = "-" if factor < 0 else "+"
        rows.append(f"  {sign} {factor_text(factor)}{recipe.say(leaf)}  {leaf.says}{line}")
    return rows


def collected(working: Working) -> list[tuple[Rational, Working]]:
    """The terms of a sum, added ones first."""
    return sorted(working.levers(), key=lambda term: term[0] < 0)


def factor_text(factor: Rational) -> str:
    """`2 x `, `1/2 x `, or nothing for one."""
    size = abs(factor)
    if size == 1:
        return ""
    shown = str(size) if getattr(size, "denominator", 1) <= 1000 else f"{float(size):.4f}"
    return f"{shown} x "


def recipe_text(checked: Checked, paint: Painter | None = None, short: bool = False) -> str:
    """A recipe's findings, those left out that are allowed; nothing where there is none to tell."""
    between = "\n" if short else "\n\n"
    parts = [finding_text(finding, checked, paint, short) for finding in checked.counting()]
    if parts and checked.partly:
        parts.append(f"{plain(checked.name)}: {UNCHECKED}")
    return between.join(parts)


def stale_text(run: Run) -> str:
    """What a baseline has and the run did not find again."""
    lines = [f"{plain(path)}: gone since the baseline: {mark.rule} ({plain(mark.names)})" for path, mark in run.stale]
    return "\n".join([*lines, "write the baseline anew to take these out of it"] if lines else [])


def counts(run: Run) -> dict[str, int]:
    """How much was found in a run: what counts by its severity, and what does not."""
    found = {"fault": 0, "doubt": 0, "hint": 0, "allowed": 0, "known": 0}
    for checked in run.recipes:
        for at, finding in enumerate(checked.findings):
            if at in checked.echoes:
                continue
            allowed = finding.allowed
            found[finding.severity if allowed is None else "known" if allowed.by == "baseline" else "allowed"] += 1
    return found


def summary(run: Run) -> str:
    """The last line: how much was found in how many recipes, and how much of it does not count."""
    found, recipes = counts(run), len(run.recipes)
    said = [
        f"{found[name]} {name}{'' if found[name] == 1 else 's'}" for name in ("fault", "doubt", "hint") if found[name]
    ]
    aside = [f"{found['allowed']} allowed"] * bool(found["allowed"])
    aside += [f"{found['known']} in the baseline"] * bool(found["known"])
    unclear = sum(checked.partly and not checked.counting() for checked in run.recipes)
    aside += [f"{unclear} recipe{'' if unclear == 1 else 's'} understood in part"] * bool(unclear)
    aside += [f"{run.excluded} recipe{'' if run.excluded == 1 else 's'} excluded"] * bool(run.excluded)
    behind = f" ({', '.join(aside)})" if aside else ""
    return f"{', '.join(said) or 'nothing found'} in {recipes} recipe{'' if recipes == 1 else 's'}{behind}"
