"""How much of a small slip in the program the tests would see: slips made on purpose, one at a time.

    python tests/bench/mutants.py --number 150 --seed 0

Each slip changes one place in `ground`, `model` or `rules`: a comparison turned, a plus made a minus, a number one
more or less, a `not` left out, an `and` made an `or`.  The quick tests then run over a copy of the project, in which
nothing else is changed, until the first that fails.  What no test sees is listed: it is either a hole in the tests or
no slip at all.
"""

import argparse
import ast
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
FLOORS = ("ground", "model", "rules")
QUICK = ("rules", "examples", "broken", "field", "bulk", "placing", "cutting", "order")
TURNED = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
SWAPPED = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.And: ast.Or, ast.Or: ast.And, ast.Mult: ast.Div, ast.Div: ast.Mult}


def slips(tree):
    """(line, what it is, what makes it) for every slip that could be made in a tree."""
    for node in ast.walk(tree):
        line = getattr(node, "lineno", 0)
        if isinstance(node, ast.Compare) and type(node.ops[0]) in TURNED:
            new = TURNED[type(node.ops[0])]
            yield line, f"{type(node.ops[0]).__name__} to {new.__name__}", setter(node.ops, 0, new())
        elif isinstance(node, (ast.BinOp, ast.BoolOp)) and type(node.op) in SWAPPED:
            new = SWAPPED[type(node.op)]
            yield line, f"{type(node.op).__name__} to {new.__name__}", attribute(node, "op", new())
        elif isinstance(node, ast.Constant) and type(node.value) is int:
            for step in (1, -1):
                yield line, f"{node.value} to {node.value + step}", attribute(node, "value", node.value + step)
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
            yield line, "not left out", attribute(node, "op", ast.UAdd())


def setter(items, at, new):
    """What puts something in a list's place."""
    return lambda: items.__setitem__(at, new)


def attribute(node, name, new):
    """What gives a node another attribute; `not x` becomes `bool(x)`, told as a plus."""
    return lambda: setattr(node, name, new)


class Truth(ast.NodeTransformer):
    """`+x` in place of `not x` made `bool(x)`, since not everything has a plus."""

    def visit_UnaryOp(self, node):
        self.generic_visit(node)
        if isinstance(node.op, ast.UAdd):
            return ast.Call(ast.Name("bool", ast.Load()), [node.operand], [])
        return node


def every_slip():
    """(module, number of the slip in it, line, what) over all modules."""
    for floor in FLOORS:
        for path in sorted((ROOT / "stitchlang" / floor).glob("*.py")):
            for number, (line, what, _) in enumerate(slips(ast.parse(path.read_text("utf-8")))):
                yield path.relative_to(ROOT), number, line, what


def spoilt(path, number):
    """A module's text with its so-manieth slip made."""
    tree = ast.parse((ROOT / path).read_text("utf-8"))
    list(slips(tree))[number][2]()
    return ast.unparse(ast.fix_missing_locations(Truth().visit(tree)))


def caught(copy, quick):
    """Whether a test fails in the copy; one that hangs is caught too."""
    tests = [str(copy / "tests" / f"test_{name}.py") for name in quick]
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests]
    env = {**os.environ, "PYTHONPATH": str(copy), "PYTHONDONTWRITEBYTECODE": "1"}
    try:
        return subprocess.run(command, cwd=copy, env=env, capture_output=True, timeout=240, check=False).returncode != 0
    except subprocess.TimeoutExpired:
        return True


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--number", type=int, default=150)
    parser.add_argument("--seed", type=int, default=0)
    options = parser.parse_args()
    possible = list(every_slip())
    chosen = random.Random(options.seed).sample(possible, min(options.number, len(possible)))
    tally = Counter()
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "copy"
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".git", "__pycache__", ".hypothesis", "*_cache"))
        if caught(copy, QUICK):
            sys.exit("the tests fail as it is: nothing can be said")
        for path, number, line, what in chosen:
            (copy / path).write_text(spoilt(path, number), "utf-8")
            seen = caught(copy, QUICK)
            shutil.copy(ROOT / path, copy / path)
            tally[seen] += 1
            if not seen:
                print(f"{tally[True]} of {sum(tally.values())} seen; not {path}:{line}: {what}", flush=True)
    print(f"{tally[True]} of {sum(tally.values())} slips seen ({len(possible)} could be made)")


if __name__ == "__main__":
    main()
