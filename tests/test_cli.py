"""The command line: what each command prints, and its exit code."""

import json
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest

import stitchlang
from stitchlang import cli

ROOT = Path(__file__).parent.parent
BAG = str(ROOT / "examples" / "satchel.stitch")
GOOD = 'units in\ncloth sail: "sailcloth"\npiece flag of sail: 10 x 12\nhem flag edges by 1/2\n'
FAULTY = GOOD.replace("edges", "sides")
DOUBTFUL = GOOD + 'cloth lawn: "lawn"\n'


def run(*arguments, text=""):
    return subprocess.run(
        [sys.executable, "-m", "stitchlang", *arguments],
        input=text, capture_output=True, text=True, cwd=ROOT, check=False,
    )  # fmt: skip


@pytest.mark.parametrize(("text", "code"), [(GOOD, 0), (FAULTY, 1), (DOUBTFUL, 0), ("", 1), ("pres", 1)])
def test_check_exits_by_what_was_found(text, code):
    """0 where nothing, or only doubts, were found; 1 for faults."""
    assert run("check", "-", text=text).returncode == code


@pytest.mark.parametrize("arguments", [(), ("sew",), ("check",), ("check", "nowhere.stitch"), ("steps", "nowhere"),
                                       ("why", BAG, "bag", "weight"), ("rules", "no-rule-of-that-name")])  # fmt: skip
def test_wrong_usage_exits_2_and_says_why(arguments):
    """Wrong usage and unreadable paths are told apart from faults."""
    done = run(*arguments)

    assert done.returncode == 2
    assert done.stderr.strip()
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("command", [("steps",), ("cut",), ("measure",), ("sheet",)])
def test_a_recipe_read_in_part_exits_2(command):
    """Whatever is printed of a recipe that could not be read to its end is not whole, and the exit code says so."""
    done = run(*command, "-", text=GOOD + "pres\n")

    assert done.returncode == 2
    assert "parts of this recipe could not be read" in done.stderr


def test_check_takes_folders_and_goes_on_past_an_unreadable_file(tmp_path):
    """Every recipe below a folder is checked; one that cannot be read hides no other."""
    (tmp_path / "inner").mkdir()
    (tmp_path / "inner" / "flag.stitch").write_text(FAULTY)
    (tmp_path / "bad.stitch").write_bytes(b"units in\n\xff\xfe\n")
    (tmp_path / "notes.txt").write_text("not a recipe")
    done = run("check", str(tmp_path))

    assert done.returncode == 2
    assert "edge-without-fate" in done.stdout
    assert "line 2, byte 1: not UTF-8" in done.stderr
    assert "in 1 recipe" in done.stdout


def test_check_short_gives_a_line_a_finding():
    """The first line is the whole finding."""
    done = run("check", "--short", "-", text=FAULTY)

    assert done.stdout.splitlines()[0].startswith("<standard input>:3:7: fault edge-without-fate: ")
    assert len(done.stdout.splitlines()) == 2


def test_measure_json_is_exact():
    """Millimetres come as fractions in text: a 10 x 12 flag hemmed by 1/2 is 9 x 11 in, 228.6 x 279.4 mm."""
    found = json.loads(run("measure", "--format", "json", "-", text=GOOD).stdout)
    sizes = {(row["thing"], row["measure"]): Fraction(row["millimetres"]) for row in found["measures"]}

    assert sizes == {("flag", "wide"): Fraction("228.6"), ("flag", "tall"): Fraction("279.4")}
    assert all(row["exact"] for row in found["measures"])


def test_measure_weighs_cloth_whose_mass_is_stated():
    """A 1 m x 1 m piece of 350 g/m2 weighs 350 g (arithmetic)."""
    text = 'units cm\ncloth sail: "sail", 350 g/m2\npiece flag of sail: 100 x 100\nhem flag edges by 1\n'

    assert "sail: 1.00 m2, about 350 g" in run("measure", "-", text=text).stdout


def test_why_gives_each_term_with_its_line():
    """9 in = 10 in (line 3) - 2 x 1/2 in (line 4)."""
    done = run("why", "-", "flag", "wide", text=GOOD)

    assert done.returncode == 0
    assert done.stdout.splitlines() == [
        "flag wide = 9 in", "  + 10 in  flag is wide  (line 3)", "  - 2 x 1/2 in  hem  (line 4)",
    ]  # fmt: skip


def test_why_names_the_near_measures():
    """A measure misspelt is answered with those there are."""
    assert "flag wide" in run("why", "-", "flag", "wid", text=GOOD).stderr


def test_why_names_the_measures_of_the_thing_where_none_is_near():
    """The thing asked about is known: its own measures are named, and no other thing's."""
    text = (Path(__file__).parent.parent / "examples" / "satchel.stitch").read_text("utf-8")
    said = run("why", "-", "strap", "sturdiness", text=text).stderr

    assert "strap wide" in said and "strap long" in said
    assert "pouch" not in said


def test_rules_prints_a_rule_with_both_examples():
    """`rules NAME` shows why, mend, what trips it and what passes."""
    said = run("rules", "joined-edges-differ").stdout

    assert all(word in said for word in ("Mend:", "Trips:", "Passes:", "piece back of sail: 10 x 12 1/2"))


def test_steps_of_a_faulty_recipe_come_with_a_warning():
    """The steps are printed, and standard error says that nobody should sew them yet."""
    done = run("steps", "-", text=FAULTY)

    assert done.returncode == 1
    assert "Hem both sides of flag" in done.stdout
    assert "stitchlang check" in done.stderr


def test_steps_in_both_units():
    """1/2 in is 12.7 mm, shown as 13 mm."""
    assert "press 1/2 in (13 mm)" in " ".join(run("steps", "--units", "both", "-", text=GOOD).stdout.split())


def test_colour_is_for_terminals_unless_asked_for(monkeypatch, capsys):
    """NO_COLOR wins over FORCE_COLOR; a pipe gets none."""
    for names, coloured in (((), False), (("FORCE_COLOR",), True), (("FORCE_COLOR", "NO_COLOR"), False)):
        for name in ("FORCE_COLOR", "NO_COLOR"):
            monkeypatch.delenv(name, raising=False)
        for name in names:
            monkeypatch.setenv(name, "1")
        cli.main(["check", str(ROOT / "tests" / "field" / "c22.stitch")])

        assert ("\033[" in capsys.readouterr().out) is coloured


def test_version_is_the_packages():
    """One version, said in one place."""
    assert run("--version").stdout.strip() == f"stitchlang {stitchlang.__version__}"
