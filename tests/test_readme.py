"""Everything that README shows is run, and what it shows is what comes out.

    python tests/test_readme.py

writes the outputs anew; read the difference before committing it.
"""

import contextlib
import io
import os
import re
import subprocess
import sys
from pathlib import Path
from shutil import copytree

import pytest

from stitchlang.rules.catalogue import FAMILIES

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"
CONSOLE = re.compile(r"```console\n\$ stitchlang ([^\n]*)\n(.*?)```", re.DOTALL)
PYTHON = re.compile(r"```python\n(.*?)```\n\nprints\n\n```text\n(.*?)```", re.DOTALL)
TABLE = re.compile(r"(?<=## What is checked\n\n).*?(?=\n\n## )", re.DOTALL)
LONGEST = 24  # lines of an output that README shows


def page():
    return README.read_text("utf-8")


def recipe_text():
    """The recipe that README shows."""
    return re.search(r"```stitch\n(.*?)```", page(), re.DOTALL)[1]


def recipes(folder):
    """README's recipe, and its revision made by the command that README gives."""
    (folder / "tote.stitch").write_text(recipe_text(), "utf-8")
    copytree(ROOT / "examples" / "camp", folder / "camp")
    subprocess.run(re.search(r"^sed .*", page(), re.MULTILINE)[0], shell=True, cwd=folder, check=True)


def output(arguments, folder):
    """What a command prints, cut where README cuts it."""
    run = subprocess.run(
        [sys.executable, "-m", "stitchlang", *arguments.split()],
        cwd=folder,
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT), "NO_COLOR": "1"},
        check=False,
    )
    lines = run.stdout.rstrip("\n").split("\n")
    return "\n".join([*lines[:LONGEST], "..."] if len(lines) > LONGEST else lines) + "\n"


def printed(program, folder):
    """What a Python program prints, run in that folder."""
    stream = io.StringIO()
    with contextlib.chdir(folder), contextlib.redirect_stdout(stream):
        exec(compile(program, "README", "exec"), {})
    return stream.getvalue()


def rules_table():
    """The rules by family, as README lists them."""
    rows = [f"| {family} | {', '.join(f'`{rule.name}`' for rule in rules)} |" for family, rules in FAMILIES.items()]
    return "\n".join(["| family | rules |", "| --- | --- |", *rows])


@pytest.fixture
def folder(tmp_path):
    recipes(tmp_path)
    return tmp_path


@pytest.mark.parametrize(("arguments", "shown"), CONSOLE.findall(page()), ids=lambda value: value[:30])
def test_a_command_prints_what_readme_shows(arguments, shown, folder):
    """Each command of README, run on README's own recipe."""
    assert output(arguments, folder) == shown


def test_the_python_example_prints_what_readme_shows(folder):
    """The program under `From Python`, run."""
    program, shown = PYTHON.search(page()).groups()

    assert printed(program, folder) == shown


def test_the_main_job_is_clean_on_the_full_bag():
    """The first of the two commands ends in a check that finds nothing."""
    command = re.search(r"```sh\n.*(stitchlang check examples/satchel.stitch)\n```", page())[1]

    assert output(command.removeprefix("stitchlang "), ROOT) == "nothing found in 1 recipe\n"


def test_the_test_command_is_the_one_that_ci_runs():
    """`.ci/run` takes its command from README; it must find exactly one."""
    found = re.findall(r"^python3 -m venv .*pytest$", page(), re.MULTILINE)

    assert len(found) == 1
    assert "grep -m1 -E '^python3 -m venv .*pytest$' README.md" in (ROOT / ".ci" / "run").read_text("utf-8")


def test_the_rules_table_is_the_rule_book():
    """README lists every rule, and no other."""
    assert TABLE.search(page())[0] == rules_table()


def test_every_command_is_in_the_table():
    """The command table names each command of the program."""
    from stitchlang.cli import parser

    commands = parser()._subparsers._group_actions[0].choices

    assert set(re.findall(r"^\| `stitchlang (\w+)", page(), re.MULTILINE)) == set(commands)


def written_anew(folder):
    """README with every output as it is now."""
    text = CONSOLE.sub(lambda m: f"```console\n$ stitchlang {m[1]}\n{output(m[1], folder)}```", page())
    text = PYTHON.sub(lambda m: f"```python\n{m[1]}```\n\nprints\n\n```text\n{printed(m[1], folder)}```", text)
    return TABLE.sub(lambda _: rules_table(), text)


if __name__ == "__main__":
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as name:
        recipes(Path(name))
        README.write_text(written_anew(Path(name)), "utf-8")
