"""Types: the floors that say theirs are held to them by mypy, with the settings of pyproject.toml."""

import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest

from stitchlang.ground.working import NOTHING, Working

PROJECT = Path(__file__).parent.parent
SETTINGS = PROJECT / "pyproject.toml"

CALLS = """
from fractions import Fraction

from stitchlang.ground.lengths import show
from stitchlang.ground.working import NOTHING, total

show({length})
total("both", (1, NOTHING), ({factor}, NOTHING))
"""


def mypy(folder, *words):
    """mypy with our settings, what it remembers in another folder: the finished process."""
    command = [sys.executable, "-m", "mypy", "--config-file", SETTINGS, "--cache-dir", folder / "cache", *words]
    return subprocess.run(command, capture_output=True, text=True, cwd=PROJECT, check=False)


def test_the_typed_floors_are_clean(tmp_path):
    """Nothing is reported of any file that pyproject.toml names."""
    run = mypy(tmp_path)

    assert run.returncode == 0, run.stdout + run.stderr


@pytest.mark.parametrize(
    ("length", "factor", "wrong"),
    [
        ("Fraction(1, 2)", "-1", None),
        ("'10 in'", "-1", (7, "arg-type")),
        ("0.5", "-1", (7, "arg-type")),
        ("Fraction(1, 2)", "0.5", (8, "arg-type")),
    ],
)
def test_a_wrong_call_is_reported(tmp_path, length, factor, wrong):
    """A text or a float where an exact length is wanted: one error, in that line; and none for the right call."""
    path = tmp_path / "caller.py"
    path.write_text(CALLS.format(length=length, factor=factor), "utf-8")
    run = mypy(tmp_path, path)
    errors = [line for line in run.stdout.splitlines() if ": error: " in line]

    assert run.returncode == (wrong is not None), run.stdout + run.stderr
    assert len(errors) == (wrong is not None)
    if wrong is not None:
        line, code = wrong
        assert f"caller.py:{line}: " in errors[0]
        assert errors[0].endswith(f"[{code}]")


def test_a_length_of_nothing_halves_exactly():
    """An int divided by an int would be a float, and the next sum no longer exact."""
    for half in (NOTHING.mm / 2, Working(25, "given").mm / 2 - Fraction(25, 2)):
        assert half == 0
        assert isinstance(half, Fraction)


def test_importing_the_package_is_typed_for_others():
    """Without the marker of PEP 561 a checker reads none of our types."""
    assert (PROJECT / "stitchlang" / "py.typed").is_file()
