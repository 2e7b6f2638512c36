"""How fast, as ratios within one run: seconds drift with the machine, ratios hold.

    python tests/bench/bench.py

1. `stitchlang check` on the full bag, cold, against `python -c "import lark"`.
2. Checking 1,000 different full bags in one process against Lark parsing the same texts.
3. Time for each statement at 50, 500 and 5,000 statements.
"""

import re
import statistics
import subprocess
import sys
import time
from pathlib import Path

import stitchlang
from stitchlang.reading.table_maker import lark_reader

ROOT = Path(__file__).parent.parent.parent
BAG = ROOT / "examples" / "satchel.stitch"


def wall(command):
    """Seconds that a command takes, as a whole process."""
    start = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, check=False)
    return time.perf_counter() - start


def cold(runs=15):
    """Both commands in turn, A B A B ..., so that a slow minute strikes both."""
    check = [sys.executable, "-m", "stitchlang", "check", str(BAG)]
    lark = [sys.executable, "-c", "import lark"]
    bare = [sys.executable, "-c", "pass"]
    times = [(wall(check), wall(lark), wall(bare)) for _ in range(runs + 1)][1:]
    ratio = statistics.median(one / two for one, two, _ in times)
    check_ms, lark_ms, bare_ms = (1000 * statistics.median(column) for column in zip(*times, strict=True))
    print(f"cold check of the full bag: {check_ms:.0f} ms; import lark {lark_ms:.0f} ms; bare Python {bare_ms:.0f} ms")
    print(f"  ratio to import lark {ratio:.2f} (goal: at most 3)")


def bags(number):
    """Full bags that differ in their sizes: every width of 11 becomes another."""
    text = BAG.read_text("utf-8")
    return [re.sub(r"\b11\b(?! ?/)", f"{11 + at} 1/2", text) for at in range(number)]


def warm(number=1000):
    """The whole check of many recipes in one process, against Lark's parse alone."""
    texts = bags(number)
    reader = lark_reader()
    start = time.perf_counter()
    for text in texts:
        reader.parse(text, start="recipe_file")
    parsed = time.perf_counter() - start
    start = time.perf_counter()
    for text in texts:
        stitchlang.check(stitchlang.read(text))
    checked = time.perf_counter() - start
    print(f"{number} full bags: checked in {checked:.2f} s; Lark parses them in {parsed:.2f} s")
    print(f"  ratio {checked / parsed:.2f} (goal: at most 3)")


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


def growth():
    """Time for each statement, as the recipe grows."""
    for statements in (50, 500, 5000):
        text = long_recipe(statements)
        best = min(timed(text) for _ in range(3))
        print(f"{statements:>5} statements: {1e6 * best / statements:.0f} microseconds each")


def timed(text):
    """Seconds for one check."""
    start = time.perf_counter()
    stitchlang.check(stitchlang.read(text))
    return time.perf_counter() - start


if __name__ == "__main__":
    cold()
    warm()
    growth()
