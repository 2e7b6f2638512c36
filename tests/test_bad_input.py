"""Bad files: every text and path ends in findings or in one clear line, in bounded time, never in a traceback."""

import os
import random
import re
import string
import subprocess
import sys
import time
from pathlib import Path

import pytest

import stitchlang
from stitchlang.reading.table import WORDS
from stitchlang.rules.catalogue import RULES
from stitchlang.show.cutting import cutting_text
from stitchlang.show.cutting_data import cutting_csv, cutting_json
from stitchlang.show.findings import finding_text
from stitchlang.show.measures import measures_text
from stitchlang.show.steps import steps_text
from stitchlang.work.cutting import cutting_in_sizes
from stitchlang.work.measure import measured_in_sizes
from stitchlang.work.plan import fewest_changes
from stitchlang.work.steps import steps

ROOT = Path(__file__).parent.parent
EXAMPLES = sorted(ROOT.glob("examples/*.stitch"))
SATCHEL = (ROOT / "examples" / "satchel.stitch").read_text("utf-8")
BOUND = 60  # seconds: catches a hang on any machine, measures no speed
MEGABYTES = 3_000_000  # under the limit that files are refused at
CONTROL = re.compile(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]")
FLAG = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\npiece flag of sail: 10 x 12\nhem flag edges by 1/2\n'


def asked(text):
    """Everything that can be asked of a text: (findings, everything printed about it)."""
    recipe = stitchlang.read(text, "bag.stitch")
    findings = stitchlang.check(recipe)
    printed = [finding_text(finding, recipe) for finding in findings]
    printed.append(steps_text(recipe, stitchlang.steps(recipe)))
    order, found = fewest_changes(recipe)
    printed.append(steps_text(recipe, steps(recipe, None, order), found))
    printed.append(measures_text(recipe, list(measured_in_sizes(recipe)), "in"))
    lists = cutting_in_sizes(recipe)
    printed += [show(recipe, lists, "in") for show in (cutting_text, cutting_csv, cutting_json)]
    return findings, "\n".join(printed)


def reported(text):
    """Each finding with its place as line and column, for comparing texts."""
    recipe = stitchlang.read(text, "bag.stitch")
    return [(one.rule, recipe.source.place(one.at.start), one.says) for one in stitchlang.check(recipe)]


def command(*arguments, given=b"", timeout=BOUND, **environment):
    """Run the command line: (exit code, output, error output); a traceback fails the test."""
    run = subprocess.run(
        [sys.executable, "-m", "stitchlang", *map(str, arguments)],
        input=given,
        capture_output=True,
        timeout=timeout,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8", **environment},
    )
    out, err = (stream.decode("utf-8", "replace") for stream in (run.stdout, run.stderr))

    assert "Traceback" not in err, err
    return run.returncode, out, err


def items(text):
    """The items of a list written with ` ~ ` between them."""
    return re.split(r" ~\s", text.strip())


@pytest.fixture
def recipe_file(tmp_path):
    """Write bytes or text to a recipe file; its path."""

    def write(content, name="bag.stitch"):
        path = tmp_path / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
        return path

    return write


# -- texts that are nearly nothing, and texts with other line ends ----------


@pytest.mark.parametrize("text", ["", "\n", " ", "\n \n\t\n", "# only\n# comments", "#", "\r\n", "\f", "\n#\n \n#"])
def test_a_text_without_a_statement_gets_one_finding(text, recipe_file):
    """An empty file, and one of nothing but comments or white space, says that there is nothing to check."""
    code, out, _ = command("check", recipe_file(text))

    assert [one.rule for one in asked(text)[0]] == ["nothing-to-check"]
    assert code == 1 and "bag.stitch:1:1: fault nothing-to-check" in out


def all_texts():
    """The examples, and each rule's tripping example: texts with findings in many places."""
    return [path.read_text("utf-8") for path in EXAMPLES] + [rule.trips for rule in RULES]


@pytest.mark.parametrize(
    "change",
    [
        pytest.param(lambda text: text.replace("\n", "\r\n"), id="CRLF"),
        pytest.param(lambda text: text.rstrip("\n"), id="no newline at the end"),
        pytest.param(lambda text: re.sub(r" (?=[a-z])", "\t", text), id="tabs"),
        pytest.param(lambda text: text.replace("\n", "\f\n"), id="form feeds"),
    ],
)
def test_other_white_space_changes_no_finding_and_no_place(change):
    """With CRLF, tabs, form feeds, or no newline at the end, the same is found on the same lines and columns."""
    for text in all_texts():
        words_kept = re.sub(r'"[^"\n]*"', lambda quoted: quoted[0].replace(" ", "_"), text)

        assert reported(change(words_kept)) == reported(words_kept)


def test_a_byte_order_mark_is_passed_over(recipe_file):
    """A file that begins with a byte-order mark is checked as if it had none, columns included."""
    plain, marked = recipe_file("foo bar", "a.stitch"), recipe_file(b"\xef\xbb\xbffoo bar", "b.stitch")

    assert command("check", recipe_file(b"\xef\xbb\xbf" + SATCHEL.encode(), "c.stitch"))[0] == 0
    assert command("check", marked)[1] == command("check", plain)[1].replace("a.stitch", "b.stitch")


# -- files that are none ----------------------------------------------------


@pytest.mark.parametrize(
    "content, place",
    [
        (b"units in\nallowance 3/8\npiece flag of sail: 4\xbd x 2\n", "line 3, byte 22"),
        (b"\xff\xfeu\x00n\x00i\x00t\x00s\x00", "line 1, byte 1"),
        ("# naïve\n".encode() + b"\xe9t\xe9", "line 2, byte 1"),
        (b"units in \xed\xa0\x80", "line 1, byte 10"),
        (b"units in\r\n\xc3", "line 2, byte 1"),
    ],
)
@pytest.mark.parametrize("verb", ["check", "steps", "cut", "measure", "format"])
def test_bytes_that_are_no_utf8_are_refused_with_their_line(content, place, verb, recipe_file):
    """Latin-1, UTF-16, a surrogate and a broken end: one line that names the place, exit 2, file untouched."""
    path = recipe_file(content)
    code, out, err = command(verb, path)

    assert (code, out) == (2, "")
    assert f"{place}: not UTF-8" in err and err.count("\n") == 1
    assert path.read_bytes() == content


@pytest.mark.parametrize("verb", [("check",), ("steps",), ("cut",), ("measure",), ("why",), ("format",)])
def test_a_path_without_a_recipe_is_refused_in_one_line(verb, tmp_path):
    """A missing file, an empty folder, a loop of links and a device: exit 2, one line that names the path."""
    empty, loop = tmp_path / "empty", tmp_path / "loop.stitch"
    empty.mkdir()
    loop.symlink_to(loop)
    for path in (tmp_path / "missing.stitch", empty, loop, Path("/dev/null")):
        code, out, err = command(*verb, path, *(["bag"] if verb == ("why",) else []))

        assert (code, out) == (2, "")
        assert str(path) in err and err.count("\n") == 1


def test_one_unreadable_file_does_not_hide_the_others(recipe_file, tmp_path):
    """Of a folder with one good and one broken file both are spoken of, and the exit code is the worse."""
    recipe_file(b"\xff", "a.stitch")
    recipe_file("foo", "b.stitch")
    code, out, err = command("check", tmp_path, tmp_path / "gone.stitch")

    assert code == 2
    assert "b.stitch:1:1: fault unknown-verb" in out
    assert "a.stitch: line 1, byte 1" in err and "gone.stitch: no such file" in err


def test_a_pipe_among_the_recipes_is_refused_and_not_waited_for(tmp_path):
    """A named pipe that nobody writes to does not hang the check of its folder."""
    os.mkfifo(tmp_path / "pipe.stitch")
    code, _, err = command("check", tmp_path)

    assert code == 2 and "pipe.stitch" in err


@pytest.mark.parametrize("verb", ["check", "steps", "cut", "measure", "format"])
def test_ten_megabytes_of_noise_are_refused(verb, recipe_file):
    """A file over the limit is refused by its size, whatever is in it, in one line."""
    noise = random.Random(7).randbytes(10_000_000)
    code, out, err = command(verb, recipe_file(noise))

    assert (code, out) == (2, "")
    assert "million bytes" in err and err.count("\n") == 1


def test_a_closed_input_and_a_reader_gone_away_are_no_traceback(recipe_file):
    """`check -` with standard input closed exits 2; output cut short by `head` is nobody's fault."""
    shell = "exec " + " ".join((sys.executable, "-m", "stitchlang", "check"))
    closed = subprocess.run(["sh", "-c", f"{shell} - <&-"], capture_output=True, text=True, cwd=ROOT, check=False)
    path = recipe_file("foo\n" * 20_000)
    cut = subprocess.run(
        ["sh", "-c", f"({shell} {path}) | head -n 1"], capture_output=True, text=True, cwd=ROOT, check=False
    )

    assert "Traceback" not in closed.stderr and closed.returncode == 2
    assert cut.stderr == "" and cut.stdout.count("\n") == 1


def test_an_output_that_cannot_carry_a_letter_gets_another(recipe_file):
    """On a terminal of plain ASCII a finding about `é½` is still printed."""
    code, out, _ = command("check", recipe_file("é½ piece"), PYTHONIOENCODING="ascii")

    assert code == 1 and "bag.stitch:1:1: fault unknown-verb: `??` is not a statement" in out


# -- noise ------------------------------------------------------------------


def of_noise(letters, seed=11):
    """So many megabytes of random letters."""
    return "".join(random.Random(seed).choices(letters, k=MEGABYTES))


NOISE = {
    "printable text": lambda: of_noise(string.printable),
    "any characters": lambda: of_noise([chr(code) for code in range(0x20, 0x30000, 37) if not 0xD800 <= code < 0xE000])[
        : MEGABYTES // 4
    ],
    "marks and numbers": lambda: of_noise(' ,.:()+-*/="1x½\n'),
    "words of the language": lambda: " ".join(random.Random(3).choices([*WORDS, "\n"], k=MEGABYTES // 6)),
    "only quotes": lambda: '"' * MEGABYTES,
    "only parentheses": lambda: "(" * MEGABYTES,
    "only newlines": lambda: "\n" * MEGABYTES,
    "only comments": lambda: "#\n" * (MEGABYTES // 2),
    "one long sum": lambda: "let a = " + "1+" * (MEGABYTES // 2) + "1",
    "one long name": lambda: "a" * MEGABYTES,
    "a long name given": lambda: "piece " + "a" * MEGABYTES + " of sail: 1 x 2",
    "one long number": lambda: "let a = " + "7" * MEGABYTES,
    "one long list": lambda: "piece " + "a, " * (MEGABYTES // 3) + "b of c: 1 x 2",
    "spaces": lambda: "let a = 1" + " " * MEGABYTES + "1",
    "one letter a line": lambda: "a\n" * (MEGABYTES // 2),
    "one quote a line": lambda: '"\n' * (MEGABYTES // 2),
    "many values": lambda: "".join(f"let a{number} = {number}\n" for number in range(MEGABYTES // 20)),
    "many pieces": lambda: FLAG + "".join(f"piece a{number} of sail: 1 x 2\n" for number in range(20_000)),
    "joined over and over": lambda: FLAG + "join flag to flag along top\n" * 5_000,
}


@pytest.mark.parametrize("kind", NOISE)
def test_megabytes_of_noise_end_within_the_bound(kind, recipe_file):
    """However a large file is filled, the check ends in time with findings or one clear line."""
    code, out, err = command("check", "--short", recipe_file(NOISE[kind]()))

    assert code in (1, 2)
    assert out.startswith(str(recipe_file("").parent)) or err.count("\n") == 1
    assert max(map(len, out.split("\n"))) < 2_000


@pytest.mark.parametrize("verb", ["steps", "steps --fewest-changes", "cut", "measure", "format"])
@pytest.mark.parametrize("kind", ["one letter a line", "words of the language"])
def test_the_other_commands_end_on_noise_too(verb, kind, recipe_file):
    """Steps, measures and layout of a large senseless file end in time, with exit 1 or 2."""
    code, _, _ = command(*verb.split(), recipe_file(NOISE[kind]()))

    assert code in (1, 2)


# -- what reaches the terminal ----------------------------------------------

NASTY = "\x1b[31m\x07\x9b2J\x7f\x08\u202e"
NASTY_LINES = """
recipe "{}" ~ revision "{}" ~ part "{}" ~ note "{}" ~ cloth drill: "{}" ~ {} ~ piece {} of sail: 1 x 2 ~ piece {} ~
piece a{}b of sail: 1 x 2 ~ hem flag.top by 1/2 "{}" ~ hem flag.top by 1/2 "{}" foo ~ hem flag.top by "{}" ~ # {} ~
hem flag.top by "{} ~ let a = 1 {} ~ let a = {} ~ join flag.{} to flag.top ~ units {} ~ flag{} ~ foo "{}"
"""


@pytest.mark.parametrize("line", items(NASTY_LINES))
def test_no_control_character_of_a_recipe_is_printed(line, recipe_file):
    """Escapes, bells, C1 codes and marks that turn the writing round stay in the file; what is printed has none."""
    text = FLAG + line.format(NASTY) + "\n"
    path = recipe_file(text)
    outputs = [
        command(*verb, path)
        for verb in (
            ("check",),
            ("check", "--short"),
            ("steps",),
            ("measure",),
            ("format", "--check"),
            ("format", "--diff"),
        )
    ]
    outputs.append(command("why", path, "flag", NASTY))

    assert [CONTROL.findall(out + err) for _, out, err in outputs] == [[]] * len(outputs)
    assert not CONTROL.search(asked(text)[1])


def test_no_control_character_of_a_name_on_disk_is_printed(recipe_file):
    """A file name is as untrusted as the file."""
    code, out, err = command("check", recipe_file("foo", "a\x1b[31m.stitch"), "gone\x1b[2J.stitch")

    assert code == 2 and "a" in out
    assert not CONTROL.search(out + err)


LONG_LINES = """
recipe "{}" ~ note "{}" ~ hem flag.top by 1/8 "{}" ~ hem flag.top by "{}" ~ foo "{}" ~ {} ~ piece new of sail: 3 {} ~
piece flag{} of sail, 3 x 4 ~ hem {} by 1/8 ~ hem flag.{} by 1/8 ~ cloth {}: {}
"""


@pytest.mark.parametrize("line", items(LONG_LINES))
def test_a_very_long_word_is_cut_short_in_findings(line):
    """A million letters in quotes or in a name are not copied into a finding; its text stays readable."""
    recipe = stitchlang.read(FLAG + line.replace("{}", "ab" * 500_000) + "\n")
    findings = stitchlang.check(recipe)

    assert all(len(finding_text(one, recipe)) < 2_000 for one in findings)
    assert stitchlang.steps(recipe)


def test_the_time_of_a_large_recipe_grows_with_its_size():
    """Eight times as many broken lines take less than thirty times as long: no square is hidden in the reading."""

    def seconds(count):
        start = time.perf_counter()
        findings = stitchlang.check(stitchlang.read(FLAG + "piece new of sail 3 x 4\n" * count))
        assert findings
        return time.perf_counter() - start

    seconds(100)

    assert seconds(4_000) < 30 * max(seconds(500), 0.005)
