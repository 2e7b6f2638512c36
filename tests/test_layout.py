"""The layout: settled at once, nothing of a recipe changed by it, files written whole or left alone."""

import os
import re
import shutil
import stat
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

import stitchlang
from stitchlang import files
from stitchlang.rules.catalogue import RULES
from stitchlang.work.layout import Refused, laid_out

ROOT = Path(__file__).parent.parent
EXAMPLES = sorted(ROOT.glob("examples/*.stitch"))
TEXTS = [path.read_text("utf-8") for path in EXAMPLES]
UNTIDY = '# what it is\nrecipe   "Sail"   # a flag\n\n\n\nunits in\npiece flag of sail:10x12-1/2,\n  cut 2\n'
BROKEN = UNTIDY + "piece flag of\n"
# Runs that are one word to a reader: strings, comments, numbers with their fraction and unit, fixed phrases.
ONE_WORD = re.compile(
    r'"[^"\n]*"|#[^\n]*|\d+ \d+/\d+(?: (?:in|cm|mm|m|yd|ft)\b)?|[\d./]+ (?:in|cm|mm|m|yd|ft|g/m2|oz/yd2)(?!\w)'
    r"|(?:right|wrong) sides together|side seams|[^\W\d]\w*|[\d./]+|\S"
)


def said(text):
    """What a recipe comes to: findings by rule and sentence, measures, and the sentences of the steps."""
    recipe = stitchlang.read(text)
    findings = [(one.rule, one.severity, one.says, one.mend) for one in stitchlang.check(recipe)]
    measures = [(one.title, one.working.mm, one.working.exact) for one in stitchlang.measure(recipe)]
    steps = [(one.number, one.part, one.sentence, one.said, one.cautions) for one in stitchlang.steps(recipe)]
    return findings, measures, steps


def comments_of(text):
    """The comments of a text in order, found without the reader."""
    return [one[0].rstrip() for one in re.finditer(r'"[^"\n]*"|(#[^\n]*)', text) if one[1]]


def keeps_all(text):
    """Proves for one text that its layout is settled and changes nothing of what it says; the layout."""
    once = laid_out(text)

    assert laid_out(once) == once
    assert said(once) == said(text)
    assert comments_of(once) == comments_of(text)
    assert re.search(r"\n\n\n|[ \t\r]\n|\t|\n\n\Z", re.sub(r'"[^"\n]*"|#[^\n]*', "q", once)) is None
    return once


# -- texts ------------------------------------------------------------------


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_laid_out_says_what_it_said(path):
    """Twice is once; findings, measures, steps and comments of every example stay."""
    keeps_all(path.read_text("utf-8"))


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_recipe_with_faults_keeps_them(rule):
    """Each rule's examples, laid out, get the same findings with the same mends; the unreadable are refused."""
    for text in (rule.trips, rule.passes):
        if stitchlang.read(text).reading.stumbles:
            with pytest.raises(Refused):
                laid_out(text)
        else:
            keeps_all(text)


@st.composite
def respaced(draw):
    """An example with its white space, line ends and comments changed, and not a word."""
    choose = draw(st.randoms(use_true_random=False))
    chance = draw(st.sampled_from((0.02, 0.2, 0.9)))
    gaps = (" ", "  ", "\t", "   \t ", "\n  ", "\n\t", " # aside\n ", "\n# at the margin\n   ", "\n\n ", "\r\n ")
    lines = []
    for line in draw(st.sampled_from(TEXTS)).split("\n"):
        out = "  " * line.startswith(" ")
        for at, word in enumerate(ONE_WORD.findall(line)):
            gap = choose.choice(gaps) if choose.random() < chance else " "
            out += (gap if at and not word.startswith("#") else "  " * bool(at)) + word
        if choose.random() < chance:
            out += choose.choice(("", " ", "  # beside", "\n", "\n\n\n", "\n# alone", "\n   # set in", "\r", "\n\n#\n"))
        lines.append(out)
    return "\n".join(lines)


QUICK = [phase for phase in Phase if phase is not Phase.explain]


@settings(max_examples=60, deadline=None, phases=QUICK)
@given(respaced())
def test_white_space_and_comments_change_nothing(text):
    """However an example is spaced, broken into lines and commented, its layout keeps all and says the same."""
    keeps_all(text)


@settings(max_examples=40, deadline=None, phases=QUICK)
@given(st.sampled_from(TEXTS), st.integers(1, 5), st.sampled_from(("\n", "\r\n")))
def test_one_recipe_has_one_layout(text, wide, end):
    """Without comments, the layout does not depend on how the spaces and line ends were."""
    bare = re.sub(r'("[^"\n]*")|[ \t]*#[^\n]*', lambda one: one[1] or "", text)
    rows = [(" " if line.startswith(" ") else "", ONE_WORD.findall(line)) for line in bare.split("\n")]
    spaced = end.join(lead + (" " * wide).join(words) for lead, words in rows)

    assert laid_out(spaced) == laid_out(bare)


@pytest.mark.parametrize(
    "written, plain",
    [
        ("12-1/2", "12 1/2"),
        ("12   1/2", "12 1/2"),
        ("½", "1/2"),
        ("12½", "12 1/2"),
        ("12 ⅞", "12 7/8"),
        ('3/8"', "3/8 in"),
        ("3/8″", "3/8 in"),
        ('12-1/2"', "12 1/2 in"),
        ('1½"', "1 1/2 in"),
        ("2 inches", "2 in"),
        ("1inch", "1 in"),
        ("9.5cm", "9.5 cm"),
        ("6   mm", "6 mm"),
        ("2 feet", "2 ft"),
        ("1 yard", "1 yd"),
        ("(1+1/2)*2", "(1 + 1/2) * 2"),
        ("3-1", "3 - 1"),
        ("12-1/2-1/2", "12 1/2 - 1/2"),
        ("-  1 - -2", "-1 - -2"),
        ("6/deep", "6 / deep"),
    ],
)
def test_a_number_comes_out_plain_and_keeps_its_value(written, plain):
    """Inch marks, vulgar fractions and hyphens are written as plain fractions and units (expected by hand)."""
    before = f"units in\nlet deep = 2\nlet wide = {written}\npiece flag of sail: 10 x 12\nhem flag.top by wide\n"
    after = keeps_all(before)

    assert f"wide = {plain}\n" in after
    assert stitchlang.read(before).lets["wide"].number == stitchlang.read(after).lets["wide"].number


@pytest.mark.parametrize(
    "written, plain",
    [
        ("piece a of s:10×12,cut 2", "a of s: 10 x 12, cut 2"),
        ('cloth s: "x", 350g/m²', 's: "x", 350 g/m2'),
        ("join a . left,b.right   to c.top", "a.left, b.right to c.top"),
        ("slip a into b, right\tsides  together", "a into b, right sides together"),
        ('hem a.top by 1/2   "so,  and so"', 'a.top by 1/2 "so,  and so"'),
    ],
)
def test_marks_stand_as_they_are_read(written, plain):
    """One space after a comma or colon, none about a full stop; words in quotes are left as they are."""
    verb, rest = laid_out(written).rstrip("\n").split(maxsplit=1)

    assert (verb, rest) == (written.split()[0], plain)


def test_comments_stay_where_they_belong():
    """Above its statement, beside it, inside it and alone: a comment stays there, with at most one blank line."""
    text = '#top\nunits in # beside\n\n\n\n# above\nallowance # inside\n 1\npart "A"\n# end'
    lines = [line.strip() for line in laid_out(text).split("\n")]

    assert laid_out("units in#so\n").split() == ["units", "in", "#so"]
    assert lines[0] == "#top"
    assert re.fullmatch(r"units +in +# beside", lines[1])
    assert lines[2:4] == ["", "# above"]
    assert re.fullmatch(r"allowance +# inside", lines[4]) and lines[5] == "1"
    assert lines[-2:] == ["# end", ""]


def test_a_statement_too_long_for_a_line_is_broken_where_it_may_be():
    """A statement of forty names goes over several lines, none long, and is still one statement."""
    names = ", ".join(f"front_{number}" for number in range(40))
    after = keeps_all(f"units in\npiece {names} of sail: 10 x 12\n")

    assert max(map(len, after.split("\n"))) <= 100
    assert len(stitchlang.read(after).reading.statements) == 2


@pytest.mark.parametrize("line", ["units in # so\n", "units # so\n in\n"])
def test_a_long_commented_recipe_is_laid_out_in_time_that_grows_with_it(line):
    """Sixteen thousand commented statements are laid out by the command line within 20 seconds."""
    run = command("format", "-", given=line * 16_000, timeout=20)

    assert run.returncode == 0


# -- files ------------------------------------------------------------------


def command(*arguments, given="", timeout=60, before=""):
    """Run the command line, behind a shell command where one is given."""
    words = [sys.executable, "-m", "stitchlang", *map(str, arguments)]
    words = ["sh", "-c", f'{before}; exec "$@"', "sh", *words] if before else words
    run = subprocess.run(words, input=given, capture_output=True, encoding="utf-8", timeout=timeout, check=False,
                         env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8"})  # fmt: skip

    assert "Traceback" not in run.stderr, run.stderr
    return run


@pytest.fixture
def untidy(tmp_path):
    """A recipe file that the layout would change."""
    path = tmp_path / "bag.stitch"
    path.write_text(UNTIDY, "utf-8")
    return path


def test_format_writes_the_layout_and_then_has_nothing_to_do(untidy):
    """The file holds the layout; a second run leaves even its time alone; no other file is left behind."""
    first = command("format", untidy)
    os.utime(untidy, (1, 1))
    second = command("format", untidy)

    assert (first.returncode, second.returncode) == (0, 0)
    assert untidy.read_text("utf-8") == laid_out(UNTIDY)
    assert untidy.stat().st_mtime == 1
    assert os.listdir(untidy.parent) == ["bag.stitch"]


def test_check_tells_by_its_exit_code_and_changes_nothing(untidy):
    """`--check` is 1 where the file would change, naming it, 0 where not; the file stays."""
    dirty = command("format", "--check", untidy)
    kept = untidy.read_text("utf-8")
    command("format", untidy)
    clean = command("format", "--check", untidy)

    assert (dirty.returncode, clean.returncode, clean.stdout) == (1, 0, "")
    assert str(untidy) in dirty.stdout
    assert kept == UNTIDY


@pytest.mark.skipif(shutil.which("patch") is None, reason="the outside judge, patch, is not here")
def test_the_diff_is_one_that_patch_can_apply(untidy):
    """`--diff` exits 0 and changes nothing; its output, given to patch, turns the file into the layout."""
    diff = command("format", "--diff", untidy)
    kept = untidy.read_text("utf-8")
    subprocess.run(["patch", "-s", str(untidy)], input=diff.stdout, text=True, check=True, capture_output=True)

    assert diff.returncode == 0
    assert kept == UNTIDY
    assert untidy.read_text("utf-8") == laid_out(UNTIDY)


@pytest.mark.parametrize("options", [(), ("--check",), ("--diff",)])
def test_a_text_that_cannot_be_read_is_left_untouched(options, untidy):
    """One line that says so, exit 2, and not a byte changed; the other files are still laid out."""
    broken = untidy.with_name("broken.stitch")
    broken.write_bytes(BROKEN.replace("\n", "\r\n").encode())
    run = command("format", *options, broken, untidy)

    assert run.returncode == 2
    assert "broken.stitch" in run.stderr and run.stderr.count("\n") == 1
    assert broken.read_bytes() == BROKEN.replace("\n", "\r\n").encode()
    assert untidy.read_text("utf-8") == (UNTIDY if options else laid_out(UNTIDY))


def test_standard_input_comes_out_laid_out_or_not_at_all():
    """`format -` writes the layout and nothing else; a text that cannot be read gives no output and exit 2."""
    good, bad = command("format", "-", given=UNTIDY), command("format", "-", given=BROKEN)

    assert (good.returncode, good.stdout, good.stderr) == (0, laid_out(UNTIDY), "")
    assert (bad.returncode, bad.stdout) == (2, "")


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o755, 0o444])
def test_permissions_are_kept(mode, untidy):
    """Whoever could read, write or run the file before can do so after."""
    untidy.chmod(mode)
    run = command("format", untidy)

    assert run.returncode == 0 and untidy.read_text("utf-8") == laid_out(UNTIDY)
    assert stat.S_IMODE(untidy.stat().st_mode) == mode


def test_a_link_stays_a_link(untidy, tmp_path):
    """Through links, relative and in other folders, the file they point to is laid out; the links stay."""
    (tmp_path / "far").mkdir()
    link, second = tmp_path / "far" / "link.stitch", tmp_path / "second.stitch"
    link.symlink_to("../bag.stitch")
    second.symlink_to(link)
    run = command("format", second)

    assert run.returncode == 0
    assert link.is_symlink() and second.is_symlink() and not untidy.is_symlink()
    assert untidy.read_text("utf-8") == laid_out(UNTIDY)


def test_a_write_that_fails_leaves_the_old_text_whole(untidy):
    """Where the system lets no byte be written (a file size limit of nothing), one line, exit 2, the old text."""
    run = command("format", untidy, before="ulimit -f 0")

    assert run.returncode == 2
    assert "not written" in run.stderr and run.stderr.count("\n") == 1
    assert untidy.read_text("utf-8") == UNTIDY
    assert os.listdir(untidy.parent) == ["bag.stitch"]


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write in any folder")
def test_a_folder_that_may_not_be_written_in_is_said_so(untidy):
    """In a read-only folder: one line, exit 2, the old text."""
    untidy.parent.chmod(0o555)
    run = command("format", untidy)
    untidy.parent.chmod(0o755)

    assert run.returncode == 2 and "permission denied" in run.stderr
    assert untidy.read_text("utf-8") == UNTIDY


def test_a_file_whose_folder_is_gone_cannot_be_written(tmp_path):
    """Writing into a folder that does not exist is refused with the reason."""
    with pytest.raises(files.Unreadable, match="no such file or directory"):
        files.write_text(str(tmp_path / "gone" / "bag.stitch"), "units in\n")

    assert not (tmp_path / "gone").exists()
