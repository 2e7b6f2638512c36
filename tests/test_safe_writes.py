"""A file that is written is the old one or the new one, whole, whatever happens in between.

What the system promises: a rename within one folder puts the new file in the place of the old in one go (POSIX.1-2017,
rename), SIGKILL cannot be caught (POSIX.1-2017, signal.h), and a write beyond RLIMIT_FSIZE fails with EFBIG where
SIGXFSZ is ignored, as Python does (POSIX.1-2017, setrlimit; docs.python.org/3/library/signal.html).
"""

import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import pytest

import stitchlang.commands.cut
import stitchlang.commands.format
import stitchlang.files
from stitchlang.cli import main
from stitchlang.work.layout import laid_out

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork and signals")

ROOT = Path(__file__).parent.parent
UNTIDY = (ROOT / "examples" / "satchel.stitch").read_text("utf-8").replace("baste     ", "baste  ")
TIDY = laid_out(UNTIDY)
KILLS = 200
NOBODY = 65534


@pytest.fixture
def folder():
    """A folder that anybody may enter, as pytest's own are not."""
    with tempfile.TemporaryDirectory() as name:
        os.chmod(name, 0o777)
        yield Path(name)


@pytest.fixture
def recipe(folder):
    """An untidy recipe, in a folder of its own."""
    path = folder / "bag.stitch"
    path.write_text(UNTIDY, "utf-8")
    path.chmod(0o640)
    return path


def start(arguments, before=lambda: None):
    """A child process that runs a command without the time that Python takes to start; its number."""
    child = os.fork()
    if child:
        return child
    try:
        sys.stdout = sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115 - closed with the process
        before()
        code = main([str(word) for word in arguments])
        sys.stderr.flush()
        os._exit(code)
    finally:
        os._exit(99)


def ended(child):
    """The exit code of a child; below nothing, the signal that killed it."""
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def spares(folder):
    """What lies in a folder beside its recipes and outputs."""
    return [path for path in folder.iterdir() if path.suffix not in (".stitch", ".txt", ".hard")]


# ------------------------------------------------------------------ killed
def test_killed_at_any_moment_it_leaves_the_old_file_or_the_new_one(folder, recipe):
    """Two hundred times at a random moment; then a last run over the whole folder lays out what is left."""
    chance = random.Random(0)
    begun = time.monotonic()
    assert ended(start(["format", recipe])) == 0
    takes = time.monotonic() - begun
    codes = []
    for _ in range(KILLS):
        recipe.write_text(UNTIDY, "utf-8")
        child = start(["format", recipe])
        time.sleep(chance.random() * takes)
        os.kill(child, signal.SIGKILL)
        codes.append(ended(child))

        assert recipe.read_text("utf-8") in (UNTIDY, TIDY)
    recipe.write_text(UNTIDY, "utf-8")

    assert set(codes) <= {0, -signal.SIGKILL}
    assert -signal.SIGKILL in codes
    assert ended(start(["format", folder])) == 0
    assert recipe.read_text("utf-8") == TIDY
    assert ended(start(["check", folder])) == 0  # nothing that a kill left behind is taken for a recipe


def kill_at_line(number):
    """From now on, die in front of the so-manieth line run in the module that writes."""
    left = [number]

    def trace(frame, event, _):
        if frame.f_code.co_filename != stitchlang.files.__file__:
            return None
        if event == "line":
            left[0] -= 1
            if left[0] == 0:
                os.kill(os.getpid(), signal.SIGKILL)
        return trace

    sys.settrace(trace)


def test_killed_before_each_line_that_writes_it_leaves_the_old_file_or_the_new_one(recipe):
    """No moment is left out: once before each line that runs, until one run gets through."""
    seen, code, number = set(), -signal.SIGKILL, 0
    while code == -signal.SIGKILL:
        number += 1
        recipe.write_text(UNTIDY, "utf-8")
        code = ended(start(["format", recipe], lambda at=number: kill_at_line(at)))
        seen.add(recipe.read_text("utf-8"))

        assert seen <= {UNTIDY, TIDY}
        assert recipe.stat().st_mode & 0o777 == 0o640
    assert code == 0
    assert seen == {UNTIDY, TIDY}
    assert number > 15


def test_interrupted_by_the_keyboard_it_leaves_nothing_lying(folder, recipe, monkeypatch):
    """Ctrl-C between writing and renaming: the old file, and no other."""

    def interrupt(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "replace", interrupt)
    with pytest.raises(KeyboardInterrupt):
        main(["format", str(recipe)])

    assert recipe.read_text("utf-8") == UNTIDY
    assert list(folder.iterdir()) == [recipe]


# ------------------------------------------------------------------ kept
def test_permissions_and_links_are_kept(folder, recipe):
    """A link stays a link to the same file; another name of the old file keeps the old text."""
    link, chain = folder / "link.stitch", folder / "chain.stitch"
    link.symlink_to("bag.stitch")
    chain.symlink_to(link)
    os.link(recipe, folder / "other.hard")
    owner = recipe.stat().st_uid, recipe.stat().st_gid

    assert ended(start(["format", chain])) == 0
    assert os.readlink(link) == "bag.stitch"
    assert chain.is_symlink()
    assert recipe.read_text("utf-8") == TIDY
    assert recipe.stat().st_mode & 0o7777 == 0o640
    assert (recipe.stat().st_uid, recipe.stat().st_gid) == owner
    assert (folder / "other.hard").read_text("utf-8") == UNTIDY
    assert not spares(folder)


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root can give files away")
def test_a_file_of_somebody_else_stays_theirs(recipe):
    """Whoever runs it, the file has its owner and its group as before."""
    os.chown(recipe, NOBODY, NOBODY)

    assert ended(start(["format", recipe])) == 0
    assert (recipe.read_text("utf-8"), recipe.stat().st_uid, recipe.stat().st_gid) == (TIDY, NOBODY, NOBODY)


def test_a_link_to_nothing_gets_its_file(folder):
    """An output whose name is a link to a file not yet made makes that file."""
    (folder / "link.txt").symlink_to("list.txt")

    assert ended(start(["cut", ROOT / "examples" / "satchel.stitch", "-o", folder / "link.txt"])) == 0
    assert (folder / "link.txt").is_symlink()
    assert "awning" in (folder / "list.txt").read_text("utf-8")
    assert not spares(folder)


# ------------------------------------------------------------------ refused
def told(arguments, **options):
    """(exit code, what stands on standard error) of a command in a process of its own."""
    command = [sys.executable, "-m", "stitchlang", *map(str, arguments)]
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    run = subprocess.run(command, capture_output=True, text=True, env=env, timeout=60, check=False, **options)
    return run.returncode, run.stderr


def outputs(recipe):
    """Each command that writes a file, with its output beside the recipe."""
    return [
        (["format", recipe], recipe),
        (["cut", recipe, "-o", recipe.with_name("list.txt")], recipe.with_name("list.txt")),
        (["resize", recipe, "--to", "3 deep", "-o", recipe.with_name("new.txt")], recipe.with_name("new.txt")),
    ]


@pytest.mark.parametrize("which", range(3), ids=["format", "cut", "resize"])
def test_on_a_full_disk_the_old_file_stays(folder, recipe, which):
    """No file may grow beyond 100 bytes: said in one line, exit code 2, nothing lost and nothing left lying."""
    resource = pytest.importorskip("resource")
    if which == 2:
        pytest.importorskip("highspy")
    arguments, output = outputs(recipe)[which]
    if output != recipe:
        output.write_text("old\n")
    before = output.read_bytes()
    code, error = told(arguments, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100)))

    assert code == 2
    assert error.splitlines()[-1] == f"stitchlang: {output}: not written: file too large"
    assert "Traceback" not in error
    assert output.read_bytes() == before
    assert not spares(folder)


def as_nobody(arguments):
    """The exit code and the complaint of a command run by somebody who may do only what permissions let them."""
    out, into = os.pipe()

    def before():
        sys.stderr = open(into, "w", encoding="utf-8")  # noqa: SIM115 - closed with the process
        if os.geteuid() == 0:
            os.setgroups([])
            os.setgid(NOBODY)
            os.setuid(NOBODY)

    child = start(arguments, before)
    os.close(into)
    with open(out, encoding="utf-8") as stream:
        said = stream.read()
    return ended(child), said


def test_in_a_read_only_folder_the_old_file_stays(folder, recipe):
    """No file can be put there: said in one line, exit code 2."""
    recipe.chmod(0o666)
    folder.chmod(0o555)
    arguments = [["format", recipe], ["cut", recipe, "-o", folder / "list.txt"]]
    answers = [as_nobody(words) for words in arguments]
    folder.chmod(0o777)

    assert answers[0] == (2, f"stitchlang: {recipe}: not written: permission denied\n")
    assert answers[1] == (2, f"stitchlang: {folder / 'list.txt'}: not written: permission denied\n")
    assert recipe.read_text("utf-8") == UNTIDY
    assert list(folder.iterdir()) == [recipe]


def test_a_protected_file_is_left_alone(folder, recipe):
    """A rename asks only the folder; we ask the file too."""
    recipe.chmod(0o444)

    assert as_nobody(["format", recipe]) == (
        2,
        f"stitchlang: {recipe}: not written: the file is protected against writing\n",
    )
    assert recipe.read_text("utf-8") == UNTIDY
    assert list(folder.iterdir()) == [recipe]


def test_what_is_no_file_is_not_renamed_over(folder, recipe):
    """A folder, and a pipe, in the output's place stay what they are."""
    (folder / "deep.txt").mkdir()
    os.mkfifo(folder / "pipe.txt")
    for name in ("deep.txt", "pipe.txt"):
        code, error = told(["cut", recipe, "-o", folder / name])

        assert (code, error) == (
            2,
            f"stitchlang: {folder / name}: not written: there is something there that is not a file\n",
        )
    assert (folder / "deep.txt").is_dir()
    assert (folder / "pipe.txt").is_fifo()
