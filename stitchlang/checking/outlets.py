"""Where a run's findings go: each report that was asked for, printed as it comes or written at the end."""

from __future__ import annotations

from ..files import write_text
from ..terminal import complain, painter, say
from ..work.outcome import Checked, Trouble

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from typing import TypeAlias

    from ..show.findings import Painter
    from ..work.outcome import Outcome, Run

    Outlets: TypeAlias = "list[Outlet]"

FOR_PEOPLE = ("text", "short")
FORMATS = (*FOR_PEOPLE, "json", "sarif", "junit", "github")


class Outlet:
    """A format, and the file that it goes to; None for standard output."""

    __slots__ = ("format", "path")

    def __init__(self, form: str, path: str | None) -> None:
        self.format = form
        self.path = path


def outlets_of(asked: Iterable[str]) -> Outlets:
    """The outlets for `--format` values such as `sarif:report.sarif`."""
    return [Outlet(name, path or None) for name, _, path in (one.partition(":") for one in asked)]


def wrong_with(outlets: Outlets) -> str:
    """What is wrong with the outlets, in words; or nothing."""
    for outlet in outlets:
        if outlet.format not in FORMATS:
            from ..ground.nearest import meant

            return f"no format `{outlet.format}`; {meant(outlet.format, FORMATS)}"
    if sum(outlet.path is None for outlet in outlets) > 1:
        return "only one report can go to standard output; give the others a file, as in `--format sarif:report.sarif`"
    return ""


def tell(outcome: Outcome, outlets: Outlets, clear: Callable[[], None] = lambda: None) -> None:
    """Say at once what needs no waiting: troubles, and the findings for people; `clear` makes room for them."""
    if isinstance(outcome, Trouble):
        clear()
        complain(f"{outcome.path}: {outcome.why}")
    elif isinstance(outcome, Checked) and outcome.findings:
        for outlet in outlets:
            text = text_of(outcome, painter(), outlet.format) if outlet.path is None else ""
            if text:
                clear()
                say(text)


def text_of(outcome: Checked, paint: Painter, form: str) -> str:
    """A recipe's findings for people, in full with an empty line behind; nothing in another format."""
    if form not in FOR_PEOPLE:
        return ""
    from ..show.findings import recipe_text

    text = recipe_text(outcome, paint, form == "short")
    return text + "\n" if text and form == "text" else text


def finish(run: Run, outlets: Outlets) -> None:
    """What waits for the end: the reports for machines and files, and then the last line."""
    for outlet in sorted(outlets, key=lambda outlet: outlet.path is None):
        if outlet.format not in FOR_PEOPLE:
            from ..show.reports import report

            deliver(report(outlet.format, run), outlet.path)
        elif outlet.path is None:
            deliver(ending(run), None)
        else:
            from ..show.findings import Painter

            texts = [text_of(one, Painter(), outlet.format) for one in run.recipes if one.findings]
            deliver("\n".join(filter(None, [*texts, ending(run)])), outlet.path)


def ending(run: Run) -> str:
    """What is said behind all findings."""
    from ..show.findings import stale_text, summary

    return "\n".join(filter(None, [stale_text(run), summary(run) if run.recipes or run.excluded else ""]))


def deliver(text: str, path: str | None) -> None:
    """Print a report, or write it to its file."""
    if path is not None:
        write_text(path, (text + "\n").encode("utf-8", "replace").decode("utf-8"))
    elif text:
        say(text)
