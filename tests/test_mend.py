"""Mends: certain ones are made without asking, alternatives are offered, and nothing is made worse."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import stitchlang
from stitchlang.rules.catalogue import RULES
from stitchlang.work.mend import edited, mended, weight

ROOT = Path(__file__).parent.parent
TWINS = sorted(ROOT.glob("tests/broken/*.stitch"))
HEAD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\n'
BAG = HEAD + "piece front, back of sail: 10 x 12\njoin front to back along sides, bottom as bag\nhem bag.rim by 1/2\n"


def findings(text):
    return stitchlang.check(stitchlang.read(text))


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("join front", "jion front"),
        ("sides, bottom", "sides, botom"),
        ("bag.rim", "bga.rim"),
        ("cloth sail:", "cloth sail,"),
        ("front to back", "front and back"),
    ],
)
def test_a_slip_of_the_pen_is_put_right(right, wrong):
    """One name misspelled, one mark for another: the text comes back as it was meant, letter for letter."""
    assert BAG.count(right) == 1

    assert mended(BAG.replace(right, wrong)).text == BAG


def test_several_slips_one_hiding_another_are_put_right_in_rounds():
    """The verb hides the edge, the edge hides the rest: round after round until nothing certain is left."""
    result = mended(
        BAG.replace("join", "jion").replace("botom", "bottom").replace("rim", "rmi").replace("sail:", "sail,")
    )

    assert result.text == BAG
    assert len(result.done) == 4  # the colon twice


def test_counts_follow_from_the_rest():
    """Two tabs need two rings: the list is put right, the clause added or the number changed."""
    tabs = (
        "piece tab of sail: 4 x 3, cut 2\nfold tab in quarters\n"
        "baste tab with dee to bag.rim at side seams\nhem bag.rim by 1/2\n"
    )
    for listed in ("ring dee: 1 inside", "ring dee: 1 inside, 1 of"):
        text = BAG.replace("piece front", listed + "\npiece front", 1).replace("hem bag.rim by 1/2\n", tabs)

        assert "ring dee: 1 inside, 2 of\n" in mended(text).text
        assert mended(text).left == ()


def test_joined_edges_get_three_ways_and_none_is_chosen():
    """1/4 in too long: cut one shorter, cut the other taller, or ease it in; each leaves nothing to find."""
    text = BAG.replace(
        "piece front, back of sail: 10 x 12", "piece front of sail: 10 x 12\npiece back of sail: 10 x 12 1/4"
    )
    (finding,) = findings(text)

    assert mended(text).text == text
    assert len(finding.mends) == 3
    for mend in finding.mends:
        rest = findings(edited(text, [(edit.at, edit.text) for edit in mend.edits]))
        # Both sides differ: what is eased on the one side is still to be eased on the other.
        assert [one.rule for one in rest] in ([], ["joined-edges-differ"])


def test_a_disputed_size_gets_two_ways():
    """Write what the pieces give, or change the pieces: both leave nothing to find."""
    text = BAG + "finished bag: 9 1/2 wide\n"
    (finding,) = findings(text)

    assert [findings(edited(text, [(edit.at, edit.text) for edit in mend.edits])) for mend in finding.mends] == [[], []]


def test_a_notch_on_a_fold_gets_two_ways():
    """A square of 2 on a fold: 2 1/2 x 2 for 5 deep, or 2 x 1 1/2 for 4 (craftbuds.com/tote-bag-tutorial: a fold takes
    the notch without its allowance)."""
    text = HEAD + (
        "piece body of sail: 10 x 20\nfold body in half, bottom to top\nnotch body at bottom corners by 2\n"
        "join body along sides as bag\nbox bag\nhem bag.rim by 1/2\n"
    )
    (finding,) = findings(text)
    texts = [edited(text, [(edit.at, edit.text) for edit in mend.edits]) for mend in finding.mends]

    assert sorted(line for one in texts for line in one.splitlines() if line.startswith("notch")) == [
        "notch body at bottom corners by 2 1/2 x 2",
        "notch body at bottom corners by 2 x 1 1/2",
    ]
    assert [findings(one) for one in texts] == [[], []]


@pytest.mark.parametrize("path", TWINS, ids=lambda path: path.stem)
def test_mending_never_makes_a_recipe_worse(path):
    """Of every broken example what is left is no more than there was, and a second mending changes nothing."""
    text = path.read_text("utf-8")
    result = mended(text)

    assert weight(result.left) <= weight(findings(text))
    assert mended(result.text).text == result.text


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_certain_mends_of_the_rule_book_help(rule):
    """Where a rule's own example can be mended for certain, the mended text has less to find."""
    if len(rule.trips) > 10_000:
        pytest.skip("a text without end")
    result = mended(rule.trips)

    assert weight(result.left) < weight(findings(rule.trips)) or result.text == rule.trips


@settings(deadline=None, max_examples=60)
@given(
    st.sampled_from([BAG, TWINS[0].read_text("utf-8")]), st.integers(0, 10_000), st.characters(categories=["L", "P"])
)
def test_a_letter_put_anywhere_is_mended_or_left(text, at, letter):
    """One wrong letter anywhere: mending ends within its rounds and leaves no more to find."""
    at %= len(text)
    broken = text[:at] + letter + text[at:]

    assert weight(mended(broken).left) <= weight(findings(broken))


def test_edits_that_overlap_do_not_garble():
    """Of two edits at one place the first is taken; insertions at one place keep their order."""
    from stitchlang.ground.text import Span

    assert edited("abcdef", [(Span(1, 4), "X"), (Span(2, 3), "Y"), (Span(5, 5), "-")]) == "aXe-f"


def test_the_command_mends_files_and_says_what_it_did(tmp_path, capsys):
    """`check --mend` writes the mended text over the file, and checks it; what has two ways it leaves alone."""
    from stitchlang import cli

    slip, choice = tmp_path / "slip.stitch", tmp_path / "choice.stitch"
    slip.write_text(BAG.replace("join front", "jion front"), "utf-8")
    choice.write_text(BAG + "finished bag: 9 1/2 wide\n", "utf-8")

    assert cli.main(["check", "--mend", str(slip)]) == 0
    assert slip.read_text("utf-8") == BAG
    assert "mended: `jion` is not a statement: write `join`" in capsys.readouterr().err
    assert cli.main(["check", "--mend", str(choice)]) == 1
    assert choice.read_text("utf-8") == BAG + "finished bag: 9 1/2 wide\n"
    assert cli.main(["check", "--mend", "-"]) == 2


def test_a_lining_too_large_is_cut_smaller():
    """Cut 13 tall instead of 12: the one way known, left to the writer, puts the number right."""
    text = next(rule.trips for rule in RULES if rule.name == "lining-does-not-fit")
    (finding,) = findings(text)
    (mend,) = finding.mends

    assert (mend.says, mend.certain) == ("make front_in 1 in shorter", False)
    assert findings(edited(text, [(edit.at, edit.text) for edit in mend.edits])) == []


def test_a_gap_misspelt_is_one_finding_and_one_mend():
    """It was also said that nothing is said of the gap, and both mends made `through mat.bottom through mat.bottom`."""
    text = (
        'units in\nallowance 1/2\ncloth sail: "sailcloth"\npiece face, lining of sail: 10 x 8\n'
        "join face to lining along edges, leaving 4 open in bottom as mat\n"
        "turn mat through mat.bottom\nclose mat.bottom\n"
    )
    wrong = text.replace("through mat.bottom", "through mat.botom")

    assert [one.rule for one in stitchlang.check(stitchlang.read(wrong))] == ["unknown-edge"]
    assert mended(wrong).text == text
