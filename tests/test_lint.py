"""`check` over many recipes: reports to files, settings, baselines, severities, several cores, watching, hooks."""

import io
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
import yaml

from stitchlang.checking import many
from stitchlang.checking.one import Wish, forget, look_at
from stitchlang.checking.watch import watch
from stitchlang.commands import COMMANDS
from stitchlang.commands.completion import SHELLS
from stitchlang.files import recipe_paths
from stitchlang.rules.catalogue import BY_NAME

ROOT = Path(__file__).parent.parent
GOOD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\npiece flag of sail: 10 x 12\nhem flag edges by 1/2\n'
DOUBTFUL = GOOD + 'cloth lawn: "lawn"\n'
HINTED = GOOD + "let wide = 9\n"
FAULTY = GOOD + "finished flag: 8 wide\n"  # 10 - 2 x 1/2 = 9
REASON = "offcuts are listed on purpose"


@pytest.fixture(autouse=True)
def fresh():
    """Nothing is remembered of another test's settings."""
    forget()


def run(folder, *arguments, text="", command="check"):
    """`stitchlang check` in a folder: (exit code, output, complaints)."""
    done = subprocess.run(
        [sys.executable, "-m", "stitchlang", command, *map(str, arguments)],
        input=text, capture_output=True, encoding="utf-8", cwd=folder, check=False, timeout=120,
        env={**os.environ, "PYTHONPATH": str(ROOT), "NO_COLOR": "1"},
    )  # fmt: skip

    assert "Traceback" not in done.stderr, done.stderr
    return done.returncode, done.stdout, done.stderr


@pytest.fixture
def catalogue(tmp_path):
    """A folder of recipes: one good, one with a doubt, one with a fault, one below."""
    (tmp_path / "old").mkdir()
    for name, text in {"a": GOOD, "b": DOUBTFUL, "c": FAULTY, "old/d": FAULTY}.items():
        (tmp_path / f"{name}.stitch").write_text(text)
    return tmp_path


# -- reports ------------------------------------------------------------------


def test_one_run_prints_text_and_writes_reports(catalogue):
    """Four reports of one run: each for its reader, and only text on standard output."""
    code, out, err = run(
        catalogue, ".", "--format", "short", "--format", "sarif:r.sarif", "--format", "junit:r.xml",
        "--format", "json:r.json", "--format", "text:r.txt",
    )  # fmt: skip

    assert (code, err) == (1, "")
    assert [line.split(": ")[1] for line in out.splitlines()[:-1]] == [
        "doubt never-used", "fault finished-size-differs", "fault finished-size-differs",
    ]  # fmt: skip
    assert out.splitlines()[-1] == "2 faults, 1 doubt in 4 recipes"
    assert len(json.loads((catalogue / "r.sarif").read_text())["runs"][0]["results"]) == 3
    assert len(json.loads((catalogue / "r.json").read_text())["findings"]) == 3
    assert (catalogue / "r.xml").read_text().count("<testcase") == 4
    assert "^" in (catalogue / "r.txt").read_text() and (catalogue / "r.txt").read_text().endswith("in 4 recipes\n")


@pytest.mark.parametrize("form", ["json", "sarif", "junit", "github"])
def test_a_report_for_machines_stands_alone_on_standard_output(form, catalogue):
    """Nothing before it and nothing behind; what could not be read is told on standard error and in the report."""
    (catalogue / "bad.stitch").write_bytes(b"\xff")
    code, out, err = run(catalogue, ".", "--format", form)

    assert code == 2
    assert "not UTF-8" in err and "not UTF-8" in out
    assert out[0] == {"json": "{", "sarif": "{", "junit": "<", "github": ":"}[form]
    if form in ("json", "sarif"):
        json.loads(out)


@pytest.mark.parametrize(
    "arguments, said",
    [
        (("--format", "sarf"), "did you mean `sarif`?"),
        (("--format", "json", "--format", "text"), "only one report"),
        (("--jobs", "0"), "--jobs"),
        (("--watch", "--write-baseline", "x"), "--watch"),
        (("--baseline", "x", "--write-baseline", "x"), "--baseline"),
        (("--baseline", "none.json"), "none.json: no such file"),
        (("--format", "json:nowhere/r.json"), "nowhere/r.json: not written"),
        (("--fail-on", "error"), "--fail-on"),
    ],
)
def test_what_cannot_be_done_is_said(arguments, said, catalogue):
    """Exit code 2 and a line that says why."""
    code, _, err = run(catalogue, "a.stitch", *arguments)

    assert code == 2 and said in err


@pytest.mark.parametrize("umask, mode", [(0o022, 0o644), (0o077, 0o600)])
def test_a_new_report_has_the_permissions_of_a_new_file(umask, mode, catalogue):
    """0o666 less the mask, as POSIX's open gives it; an old one keeps its own."""
    before = os.umask(umask)
    try:
        run(catalogue, "a.stitch", "--format", "json:r.json")
    finally:
        os.umask(before)

    assert (catalogue / "r.json").stat().st_mode & 0o777 == mode


# -- severities ---------------------------------------------------------------


@pytest.mark.parametrize(
    "text, fails_from", [(GOOD, "nothing"), (HINTED, "hint"), (DOUBTFUL, "doubt"), (FAULTY, "fault")]
)
@pytest.mark.parametrize("fail_on", ["fault", "doubt", "hint", "never", None])
def test_the_exit_code_goes_by_the_severity_chosen(text, fails_from, fail_on, tmp_path):
    """1 from the chosen severity up; a fault where none is chosen."""
    up = {"fault": ["fault"], "doubt": ["fault", "doubt"], "hint": ["fault", "doubt", "hint"], "never": []}
    asked = ("--fail-on", fail_on) if fail_on else ()

    assert run(tmp_path, "-", *asked, text=text)[0] == (1 if fails_from in up[fail_on or "fault"] else 0)


# -- settings -----------------------------------------------------------------


@pytest.mark.parametrize("shared", [False, True])
def test_settings_are_read_from_either_file(shared, catalogue):
    """The severity, what is allowed, and what is left out; a recipe is measured by the nearest settings above it."""
    table = f'fail-on = "doubt"\nexclude = ["old"]\n{{}}allow]\nnever-used = "{REASON}"\n'
    if shared:
        text = "[project]\nname = 'bags'\n[tool.stitchlang]\n" + table.format("[tool.stitchlang.")
        (catalogue / "pyproject.toml").write_text(text)
    else:
        (catalogue / "stitchlang.toml").write_text(table.format("["))
    code, out, _ = run(
        catalogue.parent, f"{catalogue.name}/a.stitch", f"{catalogue.name}/b.stitch", f"{catalogue.name}/old"
    )

    assert (code, out) == (0, "nothing found in 2 recipes (1 allowed, 1 recipe excluded)\n")


def test_the_nearest_settings_count_and_the_command_line_goes_before_them(catalogue):
    """An inner file hides the outer; `stitchlang.toml` goes before a shared file beside it."""
    (catalogue / "stitchlang.toml").write_text('fail-on = "never"\n')
    (catalogue / "pyproject.toml").write_text('[tool.stitchlang]\nfail-on = "hint"\n')

    assert run(catalogue, ".")[0] == 0
    assert run(catalogue, ".", "--fail-on", "fault")[0] == 1

    (catalogue / "old" / "pyproject.toml").write_text("[tool.stitchlang]\n")

    assert run(catalogue, ".")[0] == 1
    assert run(catalogue, "a.stitch", "b.stitch", "c.stitch")[0] == 0


@pytest.mark.parametrize(
    "text, said",
    [
        ('fail_on = "doubt"', "no setting `fail_on`; did you mean `fail-on`?"),
        ('colour = "red"', "no setting `colour`; there is `fail-on`, `allow`, `baseline`, `exclude`"),
        ('fail-on = "error"', "`fail-on` is one of fault, doubt, hint, never"),
        ("fail-on = []", "`fail-on` is one of"),
        ("exclude = 'old'", "`exclude` is a list"),
        ("exclude = [1]", "`exclude` is a list"),
        ("baseline = 3", "`baseline` is the path"),
        ("allow = ['never-used']", "`allow` is a table"),
        ("allow = { never-used = true }", "`allow` is a table"),
        ("allow = { never-used = ' ' }", "no reason for `never-used`"),
        ("allow = { never-usd = 'so' }", "did you mean `never-used`?"),
        ("allow = { unknown-name = 'so' }", "`unknown-name` cannot be allowed"),
        ("fail-on = ", "not TOML"),
        ("a = " + "[" * 5000, "not TOML"),
    ],
)
def test_wrong_settings_are_said_once_and_exit_2(text, said, catalogue):
    """Whatever many recipes they count for."""
    (catalogue / "stitchlang.toml").write_text(text + "\n")
    code, out, err = run(catalogue, ".")

    assert (code, out) == (2, "")
    assert said in err and err.count("\n") == 1


@pytest.mark.parametrize(
    "text, counts",
    [
        ('[tool.stitchlang]\nfail-on = "doubt"\n', True),
        ('  [ tool . "stitchlang" ]\nfail-on = "doubt"\n', True),
        ('[tool]\nstitchlang = { fail-on = "doubt" }\n', True),
        ('tool.stitchlang.fail-on = "doubt"\n', True),
        ('tool = { stitchlang = { fail-on = "doubt" } }\n', True),
        ('[tool.stitchlangs]\nfail-on = "doubt"\n', False),
        ('[project.scripts]\nstitchlang = "stitchlang.cli:run"\n', False),
        ("[tool.ruff]\nline-length = 120\n", False),
    ],
)
def test_a_shared_file_counts_where_toml_has_our_table_in_it(text, counts, tmp_path):
    """Every way that TOML 1.0 has to spell it; other tools' tables are nothing to us."""
    (tmp_path / "pyproject.toml").write_text(text)
    (tmp_path / "b.stitch").write_text(DOUBTFUL)

    assert run(tmp_path, "b.stitch")[0] == (1 if counts else 0)


@pytest.mark.parametrize(
    "pattern, left_out",
    [
        ("old", True),
        ("old/", True),
        ("./old", True),
        ("old/*", True),
        ("*/d.stitch", True),
        ("d.stitch", False),
        ("ol", False),
    ],
)
def test_patterns_are_seen_from_the_settings_folder(pattern, left_out, catalogue):
    """A folder takes out all that lies in it; named by itself or found, a recipe is left out alike, and said so."""
    (catalogue / "stitchlang.toml").write_text(f'exclude = ["{pattern}"]\n')

    for folder, path in ((catalogue, "old"), (catalogue, "old/d.stitch"), (catalogue / "old", "d.stitch")):
        code, out, _ = run(folder, path)

        assert code == (0 if left_out else 1)
        assert ("nothing found in 0 recipes (1 recipe excluded)" in out) is left_out


def test_toml_is_read_only_where_there_are_settings(tmp_path):
    """The library that reads TOML is not loaded for a project whose shared file has no table of ours."""
    (tmp_path / "pyproject.toml").write_text("[project]\nname = 'stitchlang'\n")
    (tmp_path / "a.stitch").write_text(GOOD)
    program = "import sys, stitchlang.cli as c; c.main(['check', 'a.stitch']); print('tomllib' in sys.modules)"

    def loaded():
        env = {**os.environ, "PYTHONPATH": str(ROOT)}
        done = subprocess.run([sys.executable, "-c", program], cwd=tmp_path, env=env, capture_output=True, text=True)
        return done.stdout.split()[-1]

    assert loaded() == "False"

    (tmp_path / "stitchlang.toml").write_text("")

    assert loaded() == "True"


# -- baselines ----------------------------------------------------------------


def test_what_a_baseline_knows_does_not_count_and_what_is_new_does(catalogue):
    """Written once, all is quiet; lines that move change nothing; one more of the same rule is new."""
    code, out, err = run(catalogue, ".", "--write-baseline", "base.json")

    assert (code, out) == (0, "nothing found in 4 recipes (3 in the baseline)\n")
    assert err == "stitchlang: base.json: 3 findings written\n"
    assert run(catalogue, ".", "--baseline", "base.json", "--fail-on", "hint")[:2] == (0, out)

    (catalogue / "c.stitch").write_text("# moved\n\n" + FAULTY + "finished flag: 20 tall\n")
    code, out, _ = run(catalogue, ".", "--baseline", "base.json", "--format", "short")

    assert code == 1
    assert out.splitlines()[0].startswith("./c.stitch:9:16: fault finished-size-differs: flag is said to be 20 in tall")
    assert out.splitlines()[-1] == "1 fault in 4 recipes (3 in the baseline)"


def test_one_mended_and_one_new_of_a_rule_do_not_cancel_out(catalogue):
    """As many findings as before, one of them another: the cloth that went is stale, the one that came counts."""
    run(catalogue, ".", "--write-baseline", "base.json")
    (catalogue / "b.stitch").write_text(GOOD + 'cloth silk: "silk"\n')
    code, out, _ = run(catalogue, ".", "--baseline", "base.json", "--format", "short", "--fail-on", "doubt")

    assert code == 1
    assert "never-used: the cloth `silk`" in out
    assert "b.stitch: gone since the baseline: never-used (cloth lawn)" in out


def test_stale_entries_are_told_and_taken_out_when_it_is_written_anew(catalogue):
    """Mended findings and recipes that are no more; those of a recipe that was not asked for stay."""
    run(catalogue, ".", "--write-baseline", "base.json")
    (catalogue / "c.stitch").write_text(GOOD)
    (catalogue / "old" / "d.stitch").unlink()
    code, out, _ = run(catalogue, "a.stitch", "c.stitch", "--baseline", "base.json", "--format", "json")
    stale = {(row["path"], row["rule"]) for row in json.loads(out)["stale"]}

    assert code == 0
    assert stale == {("c.stitch", "finished-size-differs"), (os.path.join("old", "d.stitch"), "finished-size-differs")}

    run(catalogue, "c.stitch", "--write-baseline", "base.json")
    kept = json.loads((catalogue / "base.json").read_text())["findings"]

    assert [(row["recipe"], row["rule"]) for row in kept] == [("b.stitch", "never-used")]


def test_nothing_is_stale_in_a_recipe_that_is_understood_in_part(catalogue):
    """A broken statement keeps rules from looking; what they would find is not gone."""
    run(catalogue, ".", "--write-baseline", "base.json")
    (catalogue / "b.stitch").write_text(DOUBTFUL + "pres flag.top open\n")

    assert "gone since" not in run(catalogue, ".", "--baseline", "base.json")[1]


def test_a_baseline_is_seen_from_its_own_folder_and_can_stand_in_the_settings(catalogue):
    """From another working folder the same recipes are known; one finding a line, sorted, so that branches merge."""
    run(catalogue, ".", "--write-baseline", "base.json")
    (catalogue / "stitchlang.toml").write_text('baseline = "base.json"\n')
    lines = (catalogue / "base.json").read_text().splitlines()

    assert run(catalogue / "old", ".", "../c.stitch")[:2] == (0, "nothing found in 2 recipes (2 in the baseline)\n")
    assert len(lines) == 3 + 2 and lines[1:-1] == sorted(lines[1:-1])


def test_what_rules_wait_for_is_in_the_baseline_too(tmp_path):
    """`finished-size-differs` waits for `boxing-sides-differ`: written together, the whole recipe is quiet."""
    twin = ROOT / "tests" / "broken" / "lunch_sack--boxing-sides-differ.stitch"
    shutil.copy(twin, tmp_path / "sack.stitch")

    assert run(tmp_path, "sack.stitch", "--format", "short")[1].count(": fault ") == 1

    run(tmp_path, "sack.stitch", "--write-baseline", "base.json")

    assert run(tmp_path, "sack.stitch", "--baseline", "base.json", "--fail-on", "hint")[0] == 0


@pytest.mark.parametrize(
    "text",
    ["", "[]", "{}", '{"version": 2, "findings": []}', '{"version": 1, "findings": [3]}', "[" * 100_000, "\ufeff{",
     '{"version": 1, "findings": [{"recipe": "a", "rule": "b", "names": "c"}]}'],
)  # fmt: skip
def test_a_file_that_is_no_baseline_is_refused(text, catalogue):
    """One line, exit 2."""
    (catalogue / "base.json").write_text(text, "utf-8")
    code, _, err = run(catalogue, ".", "--baseline", "base.json")

    assert code == 2 and "not a baseline" in err and err.count("\n") == 1


# -- several cores ------------------------------------------------------------


def test_several_processes_say_what_one_says(catalogue):
    """The same bytes in the same order, however many processes; one file is unreadable and one is missing."""
    (catalogue / "bad.stitch").write_bytes(b"\xff")
    shutil.copytree(ROOT / "tests" / "broken", catalogue / "broken")
    outputs = {run(catalogue, ".", "nowhere.stitch", "--jobs", jobs, "--format", form)
               for jobs in (1, 2, 3) for form in ("text",)}  # fmt: skip

    assert len(outputs) == 1
    code, out, err = outputs.pop()
    assert code == 2 and err.count("\n") == 2 and "edge-without-fate" in out


def test_standard_input_can_be_one_of_many(catalogue):
    """It belongs to the first process, wherever it stands."""
    code, out, _ = run(catalogue, ".", "-", "--jobs", 2, "--format", "short", text=FAULTY)

    assert code == 1 and "<standard input>:6:16: fault" in out and "in 5 recipes" in out


@pytest.mark.skipif(sys.platform == "win32" or sys.version_info >= (3, 14), reason="the slip is made by forking")
def test_a_recipe_that_ends_its_process_ends_nothing_else(monkeypatch, catalogue):
    """A process that dies outright, as for want of memory: its recipe is told, every other is checked."""
    honest = many.look_at
    monkeypatch.setattr(
        many, "look_at", lambda path, wish: os._exit(9) if path.endswith("c.stitch") else honest(path, wish)
    )
    paths = list(recipe_paths([str(catalogue)]))
    outcomes = list(many.spread(paths, Wish(), 2))

    assert [type(one).__name__ for one in outcomes] == ["Checked", "Checked", "Trouble", "Checked"]
    assert "came to an end" in outcomes[2].why


def test_a_slip_of_our_own_is_told_and_ends_nothing(monkeypatch, catalogue):
    """A rule that falls over: its recipe is told as trouble, with what to do."""

    def look(_):
        raise ZeroDivisionError("so")

    monkeypatch.setattr(BY_NAME["never-used"], "look", look)
    outcome = look_at(str(catalogue / "a.stitch"), Wish())

    assert "ZeroDivisionError: so" in outcome.why and "report" in outcome.why


def test_many_recipes_take_all_cores_and_few_take_one():
    """More than 200, or what is asked for; never more processes than recipes."""
    assert many.jobs_for(200) == 1
    assert many.jobs_for(201) == many.cores() >= 1
    assert many.jobs_for(3, 8) == 3
    assert many.jobs_for(1000, 4) == 4


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self):
        return True


@pytest.mark.parametrize(
    "stream, seconds, shown", [(Terminal, 0.5, True), (io.StringIO, 0.5, False), (Terminal, 0.01, False)]
)
def test_progress_is_for_terminals_and_for_those_who_wait(stream, seconds, shown):
    """Nothing in the first second, nothing in a log; the line is gone at the end."""
    now = [0.0]
    progress = many.Progress(20, stream(), lambda: now[0])
    for _ in progress.over(range(20)):
        now[0] += seconds
    text = progress.stream.getvalue()

    assert bool(text) is shown
    if shown:
        assert text.split("\r")[1] == "checked 3 of 20"  # the first after more than a second: 3 x 0.5 s
        assert text.endswith("\r" + " " * len("checked 20 of 20") + "\r")


# -- watching -----------------------------------------------------------------


def test_watching_checks_again_what_changes_and_nothing_else(catalogue):
    """A changed recipe, a new one, one that went, settings that came: told by an injected clock."""
    rounds, steps = [], []

    def touch(name, text):
        path = catalogue / name
        path.write_text(text)
        os.utime(path, ns=(len(steps), len(steps)))  # a time of its own, whatever the disk's clock can tell

    def pause():
        steps.append(1)
        changes = {1: ("c.stitch", GOOD), 3: ("e.stitch", DOUBTFUL), 5: ("stitchlang.toml", 'exclude = ["old"]\n')}
        if len(steps) in changes:
            touch(*changes[len(steps)])
        if len(steps) == 4:
            (catalogue / "b.stitch").unlink()

    def show(found, changed):
        rounds.append((len(steps), len(found.recipes), found.excluded, len(changed)))

    watch(lambda: recipe_paths([str(catalogue)]), Wish(), show, pause, lambda: len(steps) == 6)

    assert rounds == [(0, 4, 0, 4), (1, 4, 0, 1), (3, 5, 0, 1), (4, 4, 0, 0), (5, 3, 1, 4)]


@pytest.mark.skipif(sys.platform == "win32", reason="there is no SIGINT to send")
def test_watching_from_the_shell_ends_cleanly(catalogue):
    """The first round, another after a change, and 130 upon Ctrl-C, as the shell has it (128 + 2, SIGINT)."""
    watcher = subprocess.Popen(
        [sys.executable, "-m", "stitchlang", "check", "a.stitch", "--watch", "--short", "--format", "json:r.json"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, encoding="utf-8", cwd=catalogue,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    try:
        first = watcher.stdout.readline()
        (catalogue / "a.stitch").write_text(FAULTY)
        second = watcher.stdout.readline()
        third = watcher.stdout.readline()
        watcher.send_signal(signal.SIGINT)
        _, err = watcher.communicate(timeout=20)
    finally:
        watcher.kill()

    assert first == "nothing found in 1 recipe\n"
    assert "finished-size-differs" in second and third == "1 fault in 1 recipe\n"
    assert (watcher.returncode, err) == (130, "")
    assert len(json.loads((catalogue / "r.json").read_text())["findings"]) == 1


# -- shells and hooks -----------------------------------------------------------


@pytest.mark.parametrize("shell", SHELLS)
def test_a_completion_script_is_one_that_its_shell_reads(shell, tmp_path):
    """Every command, option and rule is in it; the shell itself, where there is one here, finds no fault with it."""
    code, out, _ = run(tmp_path, shell, command="completion")
    (tmp_path / "script").write_text(out)

    assert code == 0
    assert all(word in out for word in (*COMMANDS, "write-baseline", "sarif", "teeth-in-seam"))
    if shutil.which(shell):
        subprocess.run([shell, "-n", str(tmp_path / "script")], check=True)


@pytest.mark.skipif(shutil.which("bash") is None, reason="bash is not here")
@pytest.mark.parametrize(
    "line, offered",
    [
        ("stitchlang che", {"check"}),
        ("stitchlang check --fail-on ''", {"fault", "doubt", "hint", "never"}),
        ("stitchlang check --format s", {"short", "sarif"}),
        ("stitchlang rules teeth", {"teeth-in-seam"}),
        ("stitchlang check t", {"tote.stitch"}),
    ],
)
def test_bash_completes_a_line(line, offered, tmp_path):
    """Asked of bash itself, in the way its completion asks."""
    (tmp_path / "script").write_text(run(tmp_path, "bash", command="completion")[1])
    (tmp_path / "tote.stitch").write_text(GOOD)
    asks = (
        f". ./script; COMP_WORDS=({line}); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); "
        '_shtab_stitchlang; echo "${COMPREPLY[@]}"'
    )
    done = subprocess.run(["bash", "-c", asks], cwd=tmp_path, capture_output=True, text=True, check=True)

    assert set(done.stdout.split()) == offered


def hooks():
    """The hooks that pre-commit finds in this repository."""
    return yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))


def test_the_hooks_have_what_pre_commit_asks_for():
    """id, name, entry and language are required (pre-commit.com, creating new hooks); recipes are their files."""
    assert [hook["id"] for hook in hooks()] == ["stitchlang-check", "stitchlang-format"]
    for hook in hooks():
        assert {"id", "name", "entry", "language"} <= set(hook)
        assert re.search(hook["files"], "bags/tote.stitch") and not re.search(hook["files"], "tote.stitch.orig")


@pytest.mark.parametrize("name, code", [("a", 0), ("c", 1)])
def test_a_hooks_entry_works_on_what_pre_commit_hands_it(name, code, catalogue):
    """The check fails where a fault is; the layout exits 0, and leaves the recipe laid out."""
    for hook in hooks():
        program, command, *rest = hook["entry"].split()
        done = run(catalogue, *rest, f"{name}.stitch", command=command)

        assert program == "stitchlang"
        assert done[0] == (code if command == "check" else 0)
    assert run(catalogue, "--check", f"{name}.stitch", command="format")[0] == 0


def test_readmes_workflow_is_one_that_can_run(catalogue):
    """README's job parses, uploads the file that its own check writes, and that check works here."""
    readme = (ROOT / "README.md").read_text("utf-8")
    job = yaml.safe_load(re.search(r"```yaml\n(name: .*?)```", readme, re.DOTALL)[1])
    [job] = job["jobs"].values()
    [check] = [step["run"] for step in job["steps"] if "stitchlang check" in step.get("run", "")]
    [upload] = [step for step in job["steps"] if "upload-sarif" in step.get("uses", "")]
    line = next(line for line in check.splitlines() if line.startswith("stitchlang check"))
    code, out, _ = run(catalogue, *line.split()[2:])

    assert job["permissions"]["security-events"] == "write"  # GitHub's documentation of the upload
    assert upload["if"] == "always()"
    assert code == 1 and out.startswith("::error file=")
    assert len(json.loads((catalogue / upload["with"]["sarif_file"]).read_text())["runs"][0]["results"]) == 3


def test_readmes_settings_are_settings(catalogue):
    """The file that README shows is read, and its four keys are all there are."""
    import tomllib

    from stitchlang.checking.settings import KNOWN, read

    text = re.search(r"```toml\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), re.DOTALL)[1]
    (catalogue / "stitchlang.toml").write_text(text)
    settings = read(str(catalogue / "stitchlang.toml"))

    assert set(tomllib.loads(text)) == set(KNOWN)
    assert settings.fail_on == "doubt" and settings.allow == {"never-used": REASON}
    assert settings.baseline == str(catalogue / "known.json")
    for path, left_out in {"drafts/a.stitch": True, "b/scratch.stitch": True, "a.stitch": False}.items():
        assert settings.excludes(str(catalogue / path)) is left_out


def test_time_is_told_by_a_clock_that_never_goes_back():
    """The progress line does not depend on the machine's date."""
    assert many.Progress(1).clock is time.monotonic
