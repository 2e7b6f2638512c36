"""What is timed: recipes of ours, and as many lines for the programs that ours is held against."""

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BAG = ROOT / "examples" / "satchel.stitch"


def bags(number):
    """Full bags that differ in their sizes: every width of 11 becomes another."""
    text = BAG.read_text("utf-8")
    return [re.sub(r"\b11\b(?! ?/)", f"{11 + at} 1/2", text) for at in range(number)]


def long_recipe(statements):
    """A recipe of so many statements: flags, each cut, hemmed and claimed."""
    lines = ["units in", "allowance 1/2", 'cloth sail: "sailcloth"']
    for at in range(statements // 3):
        lines += [
            f"piece flag_{at} of sail: {10 + at % 7} x 12",
            f"hem flag_{at} edges by 1/2",
            f"finished flag_{at}: {9 + at % 7} wide",
        ]
    return "\n".join(lines) + "\n"


def catalogue(folder, number):
    """A folder of so many recipes, the examples over and over, no two files alike."""
    examples = [path.read_text("utf-8") for path in sorted((ROOT / "examples").glob("*.stitch"))]
    folder.mkdir(parents=True, exist_ok=True)
    for at in range(number):
        (folder / f"recipe_{at:05}.stitch").write_text(f"# {at}\n{examples[at % len(examples)]}", "utf-8")
    return folder


def ledger(lines):
    """A ledger of so many lines: transactions of three lines each, all of which balance."""
    found = ["2020-01-01 open Assets:Cash", "2020-01-01 open Expenses:Cloth"]
    for at in range((lines - 2) // 3):
        found += [f'2020-01-{1 + at % 28:02} * "Shop" "Cloth {at}"', f"  Assets:Cash  -{at}.00 USD", "  Expenses:Cloth"]
    return "\n".join(found) + "\n"


def mapping(lines):
    """A YAML file of so many lines with nothing to find fault with."""
    return "---\n" + "".join(f"flag_{at}: {{cut: {at}, of: sail}}\n" for at in range(lines - 1))
