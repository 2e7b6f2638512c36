"""The rule book, printed from the rules themselves."""

from __future__ import annotations

from textwrap import fill, indent

from ..rules.catalogue import FAMILIES

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..rules.rule import Rule


def book_text() -> str:
    """Every rule by family: its name and why."""
    lines = []
    for family, rules in FAMILIES.items():
        lines += [family, "-" * len(family)]
        for rule in rules:
            lines += [
                f"{rule.name} ({rule.severity})",
                fill(rule.why, 88, initial_indent="    ", subsequent_indent="    "),
            ]
        lines.append("")
    lines.append("`stitchlang rules NAME` prints a rule with an example that trips it and one that passes.")
    return "\n".join(lines)


def shortened(text: str, most: int = 15) -> str:
    """An example's first lines; one rule is about texts without end."""
    lines = text.rstrip().splitlines()
    more = [f"... and {len(lines) - most} lines more"] if len(lines) > most else []
    return "\n".join(lines[:most] + more)


def rule_text(rule: Rule) -> str:
    """One rule whole: why, mend, the example that trips it, the one that passes."""
    return "\n".join(
        [
            f"{rule.name} ({rule.severity})",
            "",
            fill(rule.why, 88),
            "",
            fill(f"Mend: {rule.mend}", 88),
            "",
            "Trips:",
            indent(shortened(rule.trips), "    "),
            "",
            "Passes:",
            indent(rule.passes.rstrip(), "    "),
        ]
    )
