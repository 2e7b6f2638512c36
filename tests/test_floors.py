"""The house: imports point down the floors, modules are small, each says what it is."""

import ast
from pathlib import Path

import pytest

import stitchlang

PACKAGE = Path(stitchlang.__file__).parent
GENERATED = {"reading/table.py"}

# From the ground up.  A module may import its own floor and those below it.
FLOORS = (
    ("ground",),
    ("reading", "speech", "cautions"),
    ("model", "trade"),
    ("bench",),
    ("declares",),
    ("verbs",),
    ("sequence", "used"),
    ("build",),
    ("rules",),
    ("work",),
    ("show",),
    ("files", "history", "terminal", "checking", "commands", "cli", "__main__", "__init__"),
)
FLOOR_OF = {room: number for number, floor in enumerate(FLOORS) for room in floor}
MODULES = sorted(path.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py"))


def room_of(module):
    """The room a module lies in: its folder, or its own name at the top."""
    return module.split("/")[0].removesuffix(".py")


def imported_rooms(module):
    """The rooms of this package that a module imports, function-local imports included."""
    parts = module.split("/")
    for node in ast.walk(ast.parse((PACKAGE / module).read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom):
            name = node.module or ""
            if node.level == 0 and name.split(".")[0] == "stitchlang":
                yield [*name.split("."), "__init__"][1]
            elif node.level:
                base = parts[: len(parts) - node.level]
                names = [name] if name else [alias.name for alias in node.names]
                for one in names:
                    yield (base + one.split("."))[0]
        elif isinstance(node, ast.Import):
            for alias in node.names:
                if alias.name.split(".")[0] == "stitchlang":
                    yield [*alias.name.split("."), "__init__"][1]


@pytest.mark.parametrize("module", MODULES)
def test_imports_point_down_the_floors(module):
    """No module imports from a floor above its own; the API in __init__ is a door like the command line."""
    here = FLOOR_OF[room_of(module)]
    above = {room for room in imported_rooms(module) if FLOOR_OF.get(room, -1) > here}

    assert not above


@pytest.mark.parametrize("module", [name for name in MODULES if name not in GENERATED])
def test_a_module_is_small_and_says_what_it_is(module):
    """A docstring at the top, and no more than 400 lines."""
    text = (PACKAGE / module).read_text("utf-8")

    assert ast.get_docstring(ast.parse(text))
    assert text.count("\n") <= 400


def test_functions_are_short():
    """No function is longer than forty lines, and half of them no longer than fifteen."""
    lengths = []
    for module in MODULES:
        if module in GENERATED:
            continue
        for node in ast.walk(ast.parse((PACKAGE / module).read_text("utf-8"))):
            if isinstance(node, ast.FunctionDef):
                lengths.append((node.end_lineno - node.lineno + 1, module, node.name))
    lengths.sort()

    assert lengths[-1][0] <= 40, lengths[-3:]
    assert lengths[len(lengths) // 2][0] <= 15


def test_nothing_below_the_doors_prints_or_exits():
    """Only the command line writes to a stream or ends the program."""
    for module in MODULES:
        if room_of(module) in FLOORS[-1] or module == "reading/table_maker.py":
            continue
        for node in ast.walk(ast.parse((PACKAGE / module).read_text("utf-8"))):
            if isinstance(node, ast.Call):
                called = ast.unparse(node.func)

                assert called not in ("print", "exit", "sys.exit", "sys.stdout.write"), module


def test_a_clean_check_loads_neither_attrs_nor_pint_nor_lark():
    """Speed is won by loading the large libraries late."""
    import subprocess
    import sys

    program = (
        "import sys, stitchlang.cli as c; c.main(['check', sys.argv[1]]); "
        "print([m for m in ('attrs', 'attr', 'pint', 'lark', 'typing', 'json') if m in sys.modules])"
    )
    example = PACKAGE.parent / "examples" / "satchel.stitch"
    run = subprocess.run(
        [sys.executable, "-S", "-c", program, str(example)],
        capture_output=True,
        text=True,
        cwd=PACKAGE.parent,
        check=True,
    )

    assert run.stdout.splitlines()[-1] == "[]"


def test_no_verb_is_without_its_grammar_lines():
    """Each verb's module quotes its own lines of the grammar, letter for letter."""
    from stitchlang.reading.table_maker import grammar_path
    from stitchlang.verbs import VERBS

    grammar = " ".join(grammar_path().read_text("utf-8").split())
    for name, verb in VERBS.items():
        lines = [line.strip() for line in verb.__doc__.splitlines() if line.startswith("    ")]

        assert lines[0].startswith(f"{name}:")
        for line in lines:
            assert " ".join(line.split()) in grammar, (name, line)
        assert {"STATION", "mean", "say"} <= set(vars(verb))
