"""Turn grammar/stitchlang.lark into the tables that the reader runs on.

Run by the people who change the grammar, never by those who use the program:

    python -m stitchlang.reading.table_maker

Lark works out the LALR tables; this module writes them down as plain Python
(`table.py`), so that checking a recipe needs neither Lark nor a second's wait.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path
from pprint import pformat

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Collection

    from lark import Lark
    from lark.grammar import Rule, Symbol
    from lark.lexer import TerminalDef
    from lark.parsers.lalr_analysis import IntParseTable

HERE = Path(__file__).parent
STARTS = ("recipe_file", "statement")
SKIP, KEEP, SPLICE = 0, 1, 2
TYPES = {
    "SCANNER": "list[tuple[str, str]]",
    "WORDS": "dict[str, str]",
    "RULES": "list[tuple[str, int, tuple[int, ...], bool, str]]",
    "START": "int",
    "ACCEPT": "int",
    "ROWS": "tuple[dict[str, int], ...]",
}


def grammar_path() -> Path:
    """Where the grammar lies: beside the package in a wheel, above it in a checkout."""
    for place in (HERE.parent / "grammar", HERE.parent.parent / "grammar"):
        if (place / "stitchlang.lark").is_file():
            return place / "stitchlang.lark"
    raise FileNotFoundError("grammar/stitchlang.lark")


def lark_reader() -> Lark:
    """Plain Lark on the same grammar: what our own reader is held against."""
    from lark import Lark

    return Lark(
        grammar_path().read_text("utf-8"),
        parser="lalr",
        start=list(STARTS),
        propagate_positions=True,
        maybe_placeholders=False,
    )


def scanner_pattern(terminals: Collection[TerminalDef], plain: set[str]) -> list[tuple[str, str]]:
    """One regular expression, a group a terminal, highest priority first."""
    groups = [t for t in terminals if t.name not in plain]
    groups.sort(key=lambda t: (-t.priority, t.name == "NAME", t.name))
    return [(t.name, t.pattern.to_regexp()) for t in groups]


def _keeps(symbol: Symbol, keep_all: bool) -> int:
    from lark.grammar import Terminal

    if not isinstance(symbol, Terminal):
        return SPLICE if symbol.name.startswith("_") else KEEP
    return KEEP if keep_all or not symbol.filter_out else SKIP


def rule_row(rule: Rule) -> tuple[str, int, tuple[int, ...], bool]:
    """(name, how many symbols, what becomes of each, give way to a single child).

    A helper that holds nothing but another helper gives way too: both are opened up by the phrase they stand in.
    """
    keeps = tuple(_keeps(symbol, rule.options.keep_all_tokens) for symbol in rule.expansion)
    name = str(rule.alias or rule.origin.name)
    gives_way = bool(rule.options.expand1 and not rule.alias) or (name.startswith("_") and keeps == (SPLICE,))
    return (name, len(keeps), keeps, gives_way)


def walk(table: IntParseTable) -> list[int]:
    """The states in the order first met from the start; Lark's own numbers change from run to run."""
    order = [table.start_states[name] for name in STARTS]
    for state in order:
        for _, (_, target) in sorted(table.states[state].items()):
            if isinstance(target, int) and target not in order:
                order.append(target)
    order.extend(end for end in table.end_states.values() if end not in order)
    return order


def numbered_rows(table: IntParseTable, order: list[int]) -> tuple[list[dict[str, int]], list[tuple[object, ...]]]:
    """The rows by our own numbers, and the rules they reduce by, as first met."""
    number = {state: at + 1 for at, state in enumerate(order)}
    rules: dict[tuple[object, ...], int] = {}
    rows = []
    for state in order:
        row = {}
        for symbol, (_, target) in sorted(table.states[state].items()):
            if isinstance(target, int):
                row[str(symbol)] = number[target]
            else:
                entry = (*rule_row(target), str(target.origin.name))
                row[str(symbol)] = -1 - rules.setdefault(entry, len(rules))
        rows.append(row)
    return rows, list(rules)


def tables() -> dict[str, object]:
    """Everything the reader needs, as plain data: a dict of names to values.

    In `ROWS`, a positive number shifts to (or goes to) that state; a negative
    one reduces by rule `-1 - number`.  State n is row n - 1.
    """
    reader = lark_reader()
    table = reader.parser.parser._parse_table
    words = {
        t.pattern.value: t.name
        for t in reader.terminals
        if t.pattern.type == "str" and re.fullmatch(r"[a-z]+", t.pattern.value)
    }
    order = walk(table)
    rows, rules = numbered_rows(table, order)
    return {
        "SCANNER": scanner_pattern(reader.terminals, set(words.values())),
        "WORDS": dict(sorted(words.items())),
        "RULES": rules,
        "START": order.index(table.start_states["statement"]) + 1,
        "ACCEPT": order.index(table.end_states["statement"]) + 1,
        "ROWS": rows,
    }


def table_text() -> str:
    """The text of `table.py`."""
    parts = ['"""Made from grammar/stitchlang.lark by table_maker.  Change that file, not this one."""\n']
    parts.append("from __future__ import annotations\n")
    for name, value in tables().items():
        if name == "ROWS":
            assert isinstance(value, list)
            text = "(\n" + "".join(f" {row!r},\n" for row in value) + ")"
        else:
            text = pformat(value, width=110, sort_dicts=False)
        parts.append(f"{name}: {TYPES[name]} = {text}\n")
    return "\n".join(parts)


if __name__ == "__main__":
    target = HERE / "table.py"
    target.write_text(table_text(), "utf-8")
    sys.stdout.write(f"{target.name}: {len(table_text())} characters\n")
