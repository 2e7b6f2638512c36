"""What people get wrong with files that recipes share: each slip is told where it lies, and in words that help."""

import pytest
from test_using import BAG, STRAP, opening, run, shelf

import stitchlang
from stitchlang.files import near_files

POCKET = """\
recipe "Pocket"
units cm
allowance 1
cloth duck: "tent duck"
piece outside, inside of duck: 16 x 15
allow gap-never-closed "the row that sews the pocket on closes it"
join outside to inside along edges, leaving 6 open in bottom as pocket
turn pocket through pocket.bottom
finished pocket: 14 wide, 13 tall
"""
PART = 'part "Bag"\n'
SEWN_ON = f"{PART}place pocket on front, centred, 3 below top, sewn along sides, bottom\n"
USE_POCKET = 'use "parts/pocket.stitch"\n'


def found(bag, pocket=POCKET, strap=STRAP):
    """The findings of a bag: (file, line and column, rule, mend) of each."""
    files = {"parts/strap.stitch": strap, "parts/pocket.stitch": pocket}
    recipe = stitchlang.read(bag, "bag.stitch", opening(files))
    source = recipe.source
    return [
        (source.file(one.at.start), source.place(one.at.start), one.rule, one.mend) for one in stitchlang.check(recipe)
    ]


# -- a line that uses a file below what counts on it ----------------------------
def test_a_pocket_brought_in_too_late_is_a_step_too_late():
    """What the pocket is made from was taken for unknown in its own file, where it is cut two lines above."""
    bag = BAG.replace(PART, "").replace("baste", f"{SEWN_ON}baste").replace("10 x 12", "14 x 12")
    bag = bag.replace("9 wide", "13 wide")

    assert found(bag.replace('part "Straps"', f'{USE_POCKET}part "Straps"')) == []
    (told,) = found(bag + USE_POCKET)
    assert told == (
        "bag.stitch",
        (9, 1),
        "used-before-made",
        "move the line that uses parts/pocket.stitch above this one",
    )


def test_a_strap_brought_in_too_late_is_told_as_such():
    """It is a piece, and no step makes it: there is nothing so called so far up."""
    use = 'use "parts/strap.stitch"\n'
    (told,) = found(BAG.replace(use, "") + use)

    assert told[1:] == ((8, 7), "unknown-name", "move the line that uses parts/strap.stitch above this one")


def test_a_used_file_that_counts_on_its_user_wants_to_stand_lower():
    strap = STRAP.replace('cloth duck: "tent duck"\n', "")
    cloth = 'cloth duck: "tent duck"\n'
    (told,) = found(BAG.replace(cloth, "").replace(PART, cloth + PART), strap=strap)

    assert told[0] == "parts/strap.stitch"
    assert told[2:] == ("unknown-name", "move the line that uses parts/strap.stitch further down")


HEAD = 'units in\nallowance 1/2\ncloth duck: "tent duck"\n'


@pytest.mark.parametrize(
    ("text", "rule", "mend"),
    [
        ("hem flag edges by 1/2\npiece flag of duck: 9 x 9\n", "unknown-name", "move this statement below line 5"),
        (
            "piece front, back of duck: 15 x 15\nplace patch on front, centred, 5 below top, sewn along edges\n"
            "join front to back along edges\npiece one, two of duck: 6 x 6\n"
            'allow gap-never-closed "sewn on"\njoin one to two along edges, leaving 2 open in top as patch\n'
            "turn patch through patch.top\n",
            "used-before-made",
            "move this step below `join one to two along edges, leaving 2 op...`",
        ),
    ],
)
def test_in_one_file_likewise(text, rule, mend):
    (told,) = found(HEAD + text)
    assert told[2:] == (rule, mend)


# -- what the recipe itself is about ---------------------------------------------
def test_what_a_recipe_promises_comes_before_what_its_parts_do(tmp_path):
    """The cover told the strap's width, and new sizes were asked of the strap."""
    pytest.importorskip("highspy")
    path = shelf(tmp_path)
    done = run(tmp_path, "resize", path.name, "--to", "11 wide")
    sheet = run(tmp_path, "sheet", path.name, "-o", "-").stdout

    assert done.stdout.startswith("11 in wide:\n  line 8: front, back wide 10 -> 12 (bag 11 in wide)"), done.stdout
    assert "Finished bag: 9 in wide" in sheet
    assert "Finished strap" not in sheet


def test_new_sizes_are_asked_of_what_is_made_last_where_only_a_part_promises_some(tmp_path):
    pytest.importorskip("highspy")
    path = shelf(tmp_path, BAG.replace("finished bag: 9 wide\n", ""))
    done = run(tmp_path, "resize", path.name, "--to", "11 wide")

    assert "(bag 11 in wide)" in done.stdout


# -- what each file states for itself ----------------------------------------------
CLOTH = 'cloth duck: "tent duck"'


@pytest.mark.parametrize(
    ("before", "after", "mend"),
    [
        (CLOTH, 'cloth duck: "duck"', "state it word for word as there, or call this one `duck_2`, for instance"),
        ("piece strap", "piece strap, front", "call this one `front_2`, for instance"),
        (CLOTH, f"{CLOTH}\npiece duck of duck: 9 x 9", "call this one `duck_2`, for instance"),
    ],
)
def test_a_cloth_stated_in_two_ways_can_be_made_one(before, after, mend):
    told = found(
        BAG.replace('use "parts/strap.stitch"\n', "") + 'use "parts/strap.stitch"\n', strap=STRAP.replace(before, after)
    )
    assert mend in [one[3] for one in told if one[2] == "name-given-twice"]


def test_each_file_that_states_no_units_is_told():
    """The recipe may state its own; that another file states none was told of the first of them alone."""
    bag = BAG.replace('part "Bag"', f'{USE_POCKET}part "Bag"')
    bare = {"pocket": POCKET.replace("units cm\n", ""), "strap": STRAP.replace("units cm\n", "")}
    told = [one[:3] for one in found(bag, **bare)]
    recipe = stitchlang.read(bag, "bag.stitch", opening({f"parts/{one}.stitch": text for one, text in bare.items()}))
    says = [one.says for one in stitchlang.check(recipe)]

    assert told == [
        ("parts/strap.stitch", (2, 11), "length-without-unit"),
        ("parts/pocket.stitch", (2, 11), "length-without-unit"),
    ]
    assert all(one.endswith(" more, and the file states none") for one in says)


def test_a_used_file_without_an_allowance_is_told_in_its_own_unit():
    """The bag's allowance does not count for it, and 1/2 would be half a centimetre there."""
    pocket = POCKET.replace("allowance 1\n", "").replace("finished", "topstitch pocket.top at 3 mm\nfinished")
    (told,) = found(BAG + USE_POCKET, pocket=pocket)

    assert told[0] == "parts/pocket.stitch"
    assert told[2:] == ("allowance-unsaid", "add a line `allowance 1` at the top, or write `at 1` here")


# -- files that are not where they were ---------------------------------------------
@pytest.mark.parametrize(
    ("words", "meant"),
    [
        ("parts/zip-panel.stitch", ["parts/zip_panel.stitch"]),  # and not parts/pocket.stitch, as near on the whole
        ("zip_panel.stitch", ["parts/zip_panel.stitch"]),
        ("shared/zip_panel.stitch", ["parts/zip_panel.stitch"]),
        ("parts/pouch.stitch", []),
    ],
)
def test_a_file_that_was_moved_or_renamed_is_found_by_its_name(tmp_path, words, meant):
    path = shelf(tmp_path)
    for name in ("zip_panel", "pocket"):
        (tmp_path / "parts" / f"{name}.stitch").write_text(STRAP, "utf-8")
    assert near_files(words, str(path)) == meant


# -- what is allowed ------------------------------------------------------------------
def test_an_excuse_at_the_end_of_a_used_file_excuses_nothing_of_its_user():
    """The next line of the text is the bag's, which no strap can excuse.  Told is the idle excuse in its own file."""
    bag = BAG.replace('part "Bag"', 'cloth felt: "felt"')
    told = found(bag, strap=STRAP + 'allow never-used "kept"\n')

    assert [one[:3] for one in told] == [("bag.stitch", (7, 7), "never-used")]


def test_an_excuse_above_a_line_that_uses_a_file_is_that_line_s():
    bag = BAG.replace("use ", 'allow edge-without-fate "its ends are sewn in"\nuse ')
    told = found(bag)

    assert [one[:3] for one in told] == [("bag.stitch", (6, 1), "nothing-to-allow")]
