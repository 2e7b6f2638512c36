"""`allow`: a finding that is known and meant does not count, for a reason, in one statement and nowhere else."""

import re
from pathlib import Path

import pytest

import stitchlang
from stitchlang.rules.catalogue import BY_NAME, FAMILIES, RULES
from stitchlang.sequence import in_sequence
from stitchlang.work.check import BREAKING, check_all
from stitchlang.work.fingerprint import statements_of
from stitchlang.work.layout import laid_out

ROOT = Path(__file__).parent.parent
TWINS = sorted((ROOT / "tests" / "broken").glob("*.stitch"))
FLAG = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\npiece flag of sail: 10 x 12\nhem flag edges by 1/2\n'
LAWN = 'cloth lawn: "lawn"\n'  # never used: one doubt
REASON = '"for the next edition"'
NEVER = {rule.name for rule in FAMILIES["reading"]} | set(BREAKING)


def found(text):
    """(rule, whether it is allowed) for every finding."""
    return [(one.rule, one.allowed is not None) for one in check_all(stitchlang.read(text))]


def counting(text):
    """The rules of the findings that count."""
    return [one.rule for one in stitchlang.check(stitchlang.read(text))]


def test_an_allowed_finding_is_kept_and_does_not_count():
    """One doubt, one `allow` above it: nothing counts, and the reason is kept, blanks around it gone."""
    recipe = stitchlang.read(FLAG + 'allow never-used " for the next edition "\n' + LAWN)
    kept = check_all(recipe)

    assert stitchlang.check(recipe) == []
    assert [(one.rule, one.allowed.by, one.allowed.reason) for one in kept] == [
        ("never-used", "recipe", "for the next edition")
    ]


def test_an_allow_speaks_of_the_next_statement_only():
    """The statement after that counts as before; comments, blank lines and other `allow`s may stand between."""
    between = f"# why\n\nallow never-joined {REASON}\n   # set in\n"
    text = FLAG + f"allow never-used {REASON}\n" + between + LAWN + LAWN.replace("lawn:", "silk:")

    assert found(text) == [("nothing-to-allow", False), ("never-used", True), ("never-used", False)]


def test_two_rules_are_allowed_by_two_statements():
    """Stacked, each allows its own: a panel claimed 1 in too wide, in a claim of an unknown measure too."""
    claim = "finished flag: 10 wide, 3 deep\n"  # 10 - 2 x 1/2 = 9 wide; a flag has no depth

    assert counting(FLAG + claim) == ["finished-size-differs", "unknown-measure"]
    assert counting(FLAG + f"allow finished-size-differs {REASON}\nallow unknown-measure {REASON}\n" + claim) == []


@pytest.mark.parametrize(
    "line, tells",
    [
        ("allow never-used", "allowed-without-reason"),
        ('allow never-used ""', "allowed-without-reason"),
        ('allow never-used "  "', "allowed-without-reason"),
        (f"allow never-usd {REASON}", "unknown-rule"),
        (f"allow never_used {REASON}", "unknown-rule"),
        (f"allow used {REASON}", "unknown-rule"),
        (f"allow unknown-name {REASON}", "cannot-be-allowed"),
        (f"allow wrong-mark {REASON}", "cannot-be-allowed"),
        (f"allow said-twice {REASON}", "cannot-be-allowed"),
        (f"allow teeth-in-seam {REASON}", "nothing-to-allow"),
    ],
)
def test_an_allow_that_allows_nothing_is_a_finding(line, tells):
    """It is told, once, and what stands below counts as before."""
    assert sorted(counting(FLAG + line + "\n" + LAWN)) == sorted([tells, "never-used"])


def test_the_nearest_rule_is_offered_for_a_misspelt_one():
    """A letter left out; and where nothing is near, the way to the list."""
    [near, *_] = stitchlang.check(stitchlang.read(FLAG + f"allow teeth-in-seem {REASON}\n" + LAWN))
    [far, *_] = stitchlang.check(stitchlang.read(FLAG + f"allow whatever {REASON}\n" + LAWN))

    assert near.mend == "did you mean `teeth-in-seam`?"
    assert "stitchlang rules" in far.mend


def test_an_allow_at_the_end_of_a_recipe_is_idle():
    """Nothing follows that it could speak of."""
    assert counting(FLAG + f"allow never-used {REASON}\n") == ["nothing-to-allow"]


def test_of_two_alike_one_is_idle():
    """The second of two that allow the same thing is one too many."""
    assert found(FLAG + f"allow never-used {REASON}\n" * 2 + LAWN) == [
        ("nothing-to-allow", False),
        ("never-used", True),
    ]


def test_nothing_is_said_of_idle_ones_while_the_recipe_is_not_understood():
    """A statement that cannot be read stops the rule that would have found it."""
    text = FLAG + f"allow never-used {REASON}\n" + LAWN

    assert counting(text + "pres flag.top open\n") == ["unknown-verb"]


def test_what_is_allowed_keeps_no_other_rule_from_looking():
    """`opening-outside-panel` makes `zip-shorter-than-opening` wait, but not where it is allowed."""
    waiting = [rule for rule in RULES if rule.waits & set(BY_NAME) - NEVER]
    first = BY_NAME["opening-outside-panel"]
    [finding] = stitchlang.check(stitchlang.read(first.trips))
    start = first.trips.rfind("\n", 0, finding.at.start) + 1
    text = f"{first.trips[:start]}allow opening-outside-panel {REASON}\n{first.trips[start:]}"
    told = []

    assert any("opening-outside-panel" in rule.waits for rule in waiting)
    for rule in waiting:
        if "opening-outside-panel" in rule.waits:
            look, rule.look = rule.look, lambda _, rule=rule: told.append(rule.name) or ()
            try:
                stitchlang.check(stitchlang.read(first.trips))
                before = list(told)
                stitchlang.check(stitchlang.read(text))
            finally:
                rule.look = look

            assert before == [] and told == [rule.name]


def above(text, finding):
    """The text with an `allow` for a finding put above its statement."""
    starts = [one.start for one in statements_of(stitchlang.read(text)) if one.start <= finding.at.start]
    return f"{text[: starts[-1]]}allow {finding.rule} {REASON}\n{text[starts[-1] :]}"


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule not in FAMILIES["allowing"]], ids=lambda one: one.name)
def test_every_rule_can_be_allowed_where_it_is_found_or_says_that_it_cannot(rule):
    """Faults too: the example that trips the rule is clean with an `allow` above each of its statements."""
    text = rule.trips if rule.name != "no-recipe-at-all" else ""
    seen = set()
    while text:
        recipe = stitchlang.read(text)
        open_ones = [one for one in stitchlang.check(recipe) if one.rule == rule.name]
        if rule.name in NEVER or not open_ones:
            break
        assert len(seen) < 5, "the finding stays, however often it is allowed"
        seen.add(open_ones[0].at.start)
        text = above(text, open_ones[0])
    rest = counting(text) if text else []

    if rule.name in NEVER:
        assert rule.name in rest or not text
    else:
        assert rule.name not in rest and "nothing-to-allow" not in rest


@pytest.mark.parametrize("path", TWINS, ids=lambda path: path.stem)
def test_the_layout_keeps_what_is_allowed(path):
    """Laid out, a recipe has the same findings, and the same of them are allowed; a second layout changes nothing."""
    text = path.read_text("utf-8")
    recipe = stitchlang.read(text)
    if recipe.reading.stumbles:
        return
    for finding in stitchlang.check(recipe)[:1]:
        text = above(text, finding)
    once = laid_out(text)

    assert found(once) == found(text)
    assert laid_out(once) == once
    assert re.findall(r"^allow +(\S+) \"", once, re.M) == re.findall(r"^allow +(\S+) \"", text, re.M) != []


def test_a_rule_name_is_written_as_one_word_however_it_was_spaced():
    """Blanks around its hyphens, line ends and comments within the statement."""
    assert laid_out('allow strap - against- ring "so"\nunits in\n') == (
        'allow     strap-against-ring "so"\nunits     in\n'
    )
    assert found(laid_out(FLAG + f"allow never # aside\n  -used {REASON}\n" + LAWN)) == [("never-used", True)]


def test_differences_of_lengths_are_read_as_before():
    """`a-b` in a sum is still a difference: 12 - 2 = 10."""
    recipe = stitchlang.read("units in\nlet high = 12\nlet hem_top = 2\nlet rest = high-hem_top\n")

    assert recipe.lets["rest"].number == 10


def test_sizes_share_an_allow():
    """A claim that is wrong in one of two sizes is allowed, and not idle in the other."""
    text = FLAG.replace("10 x 12", "wide x 12").replace("piece", "let wide = 10, 11 for small, large\npiece")
    claim = "finished flag: 9 wide\n"  # right in size small only: 11 - 2 x 1/2 = 10

    assert counting(text + claim) == ["finished-size-differs"]
    assert found(text + f"allow finished-size-differs {REASON}\n" + claim) == [("finished-size-differs", True)]


def test_the_words_of_a_rule_s_name_are_no_things():
    """`pocket-bag-below-base` above the pocket bag was taken to need the bag, sewn up before its front."""
    text = BY_NAME["pocket-bag-below-base"].trips
    recipe = stitchlang.read(text.replace("piece pouch", f"allow pocket-bag-below-base {REASON}\npiece pouch"))

    assert [op.verb for op in in_the_order_of_meaning(recipe)] == [op.verb for op in recipe.ops]


def in_the_order_of_meaning(recipe):
    """The steps as they were given their meaning: what an edge goes into stands with the first of them first."""
    order = in_sequence(recipe.reading.statements, stitchlang.read(""))
    return [op for node in order for op in recipe.ops if op.node is node]
