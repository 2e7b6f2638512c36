"""How fast, as ratios within one run: seconds drift with the machine, ratios hold.

    python tests/bench/bench.py             # some minutes; --recipes 1000 for a smaller folder

1. Cold: `stitchlang check` of the full bag against bare Python, `import lark` and, where they are installed (they are
   no dependency: `pip install beancount yamllint`), bean-check and yamllint on as many lines.
2. A recipe of 5,000 statements, whole process, against the same and against Lark parsing the same text.
3. 1,000 different full bags in one process against Lark parsing them.
4. Time for each statement from 50 to 5,000 of them, and the exponent of the growth.
5. A folder of 10,000 recipes on one core and on two; peak memory.

Run it on an installed and byte-compiled copy, on a machine that does nothing else.
"""

import argparse
import gc
import math
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from texts import BAG, bags, catalogue, ledger, long_recipe, mapping

import stitchlang
from stitchlang.cli import LOOKED_THROUGH
from stitchlang.reading.table_maker import lark_reader

CHECK = [sys.executable, "-m", "stitchlang", "check"]
PARSE = (
    "import sys, time; from stitchlang.reading.table_maker import lark_reader; reader = lark_reader();"
    "text = open(sys.argv[1]).read(); start = time.perf_counter(); reader.parse(text, start='recipe_file');"
    "print(time.perf_counter() - start)"
)
QUIET = {**os.environ, "BEANCOUNT_DISABLE_LOAD_CACHE": "1"}  # a second run is to do the work again


def wall(command):
    """Seconds that a command takes, as a whole process."""
    start = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False, env=QUIET)
    return time.perf_counter() - start


def in_turn(commands, runs):
    """{name: median seconds}; A B C A B C ..., so that a slow minute strikes all; the first round warms the disk."""
    rounds = [{name: wall(command) for name, command in commands.items()} for _ in range(runs + 1)][1:]
    return {name: statistics.median(one[name] for one in rounds) for name in commands}


def others(folder, lines):
    """Commands of the other checkers that are installed, each on a file of so many lines of its own kind."""
    files = {"bean-check": ("ledger.beancount", ledger), "yamllint": ("mapping.yaml", mapping)}
    for name, (file, text) in files.items():
        program = shutil.which(name)
        if program is not None:
            (folder / file).write_text(text(lines), "utf-8")
            yield f"{name}, {lines} lines", [program, str(folder / file)]


def told(title, times, goals):
    """Print times, and each against the first of them."""
    (name, ours), *rest = times.items()
    print(f"{title}: {1000 * ours:.0f} ms ({name})")
    for other, seconds in rest:
        goal = next((f" (goal: at most {goal})" for start, goal in goals.items() if other.startswith(start)), "")
        print(f"  {ours / seconds:5.2f} x {other}, {1000 * seconds:.0f} ms{goal}")


def cold(folder):
    """The full bag, cold."""
    lines = len(BAG.read_text("utf-8").splitlines())
    commands = {f"check, {lines} lines": [*CHECK, str(BAG)], "bare Python": [sys.executable, "-c", "pass"]}
    commands |= {"import lark": [sys.executable, "-c", "import lark"], **dict(others(folder, lines))}
    told("cold check of the full bag", in_turn(commands, 15), {"import lark": 1.2, "bean-check": 1})


def long(folder, statements=5000):
    """One very long recipe, as a whole process."""
    path = folder / "long.stitch"
    path.write_text(long_recipe(statements), "utf-8")
    lines = len(path.read_text("utf-8").splitlines())
    times = in_turn({f"check, {lines} lines": [*CHECK, str(path)], **dict(others(folder, lines))}, 5)
    parse = [sys.executable, "-c", PARSE, str(path)]
    parsed = [float(subprocess.run(parse, capture_output=True, check=True, text=True).stdout) for _ in range(5)]
    times["Lark's parse alone"] = statistics.median(parsed)
    told(f"{statements} statements", times, {"bean-check": 2, "Lark": 1})


def warm(number=1000):
    """The whole check of many recipes in one process, against Lark's parse alone."""
    texts, reader = bags(number), lark_reader()
    start = time.perf_counter()
    for text in texts:
        reader.parse(text, start="recipe_file")
    parsed = time.perf_counter() - start
    checked = sum(timed(text) for text in texts)
    print(f"{number} full bags in one process: {checked:.2f} s, {checked / parsed:.2f} x Lark's parse alone (goal: 3)")


def growth():
    """Time for each statement as the recipe grows, and the exponent between the ends."""
    sizes = (50, 500, 5000)
    best = {size: min(timed(long_recipe(size)) for _ in range(5000 // size + 4)) for size in sizes}
    for size in sizes:
        print(f"{size:>5} statements: {1e6 * best[size] / size:.0f} microseconds each")
    exponent = math.log(best[sizes[-1]] / best[sizes[0]], sizes[-1] / sizes[0])
    print(f"  grows with the power {exponent:.3f} (goal: at most 1.05)")


def timed(text):
    """Seconds for one check; the rubbish of the one before is cleared away first, and not counted."""
    gc.collect()
    start = time.perf_counter()
    stitchlang.check(stitchlang.read(text))
    return time.perf_counter() - start


def many(folder, number):
    """A folder of recipes on one core and on two."""
    catalogue(folder / "catalogue", number)
    times, most = {}, 0
    for jobs in (1, 2):
        start = time.perf_counter()
        child = subprocess.Popen([*CHECK, str(folder / "catalogue"), "--jobs", str(jobs)], stdout=subprocess.DEVNULL)
        _, _, used = os.wait4(child.pid, 0)
        times[jobs], most = time.perf_counter() - start, max(most, used.ru_maxrss / 1024)
    print(f"{number} recipes: {times[1]:.1f} s on one core, {times[2]:.1f} s on two")
    print(f"  two are {times[1] / times[2]:.2f} x as fast as one (goal: at least 1.7)")
    print(f"  at most {most:.0f} MiB in a process (goal: at most 120)")


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--recipes", type=int, default=10_000, help="how many recipes the folder has")
    options = parser.parse_args()
    gc.set_threshold(*LOOKED_THROUGH)  # as the command line does
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        cold(folder)
        long(folder)
        warm()
        growth()
        many(folder, options.recipes)


if __name__ == "__main__":
    main()
