"""Where things sit: snap halves, pockets and rows, each against a sum worked out by hand beside it."""

import pytest

import stitchlang

HEAD = 'units in\nallowance 1/2\ncloth sail: "sailcloth"\n'
SNAP = "snap clasp: press, 1/2 across, 2 of\n"
BAG = "join front to back along sides, bottom as bag\n"


def told(text):
    """(rule, what it says) of every finding."""
    head = HEAD + (SNAP if "clasp" in text else "")
    return [(one.rule, one.says) for one in stitchlang.check(stitchlang.read(head + text))]


def only(text, rule):
    """The one finding of a recipe, which is of this rule: what it says."""
    found = told(text)
    assert [name for name, _ in found] == [rule], found
    return found[0][1]


def bag(setting, fronts="10 x 12", backs="10 x 12", rims=("1/2", "1/2")):
    """An unlined bag with snaps, its two rims hemmed each by its own amount."""
    front, back = (f"hem {name}.top by {rim}\n" for name, rim in zip(("front", "back"), rims, strict=True))
    return f"piece front of sail: {fronts}\npiece back of sail: {backs}\n{front}{back}{setting}\n{BAG}"


def test_a_pocket_laid_edge_on_edge_is_told_how_the_seam_catches_it():
    """At 0 from the left, 1/2 in of the pocket goes into the side seam: where that is meant, it is basted."""
    text = (
        "piece front, back of sail: 10 x 12\npiece patch of sail: 6 x 6\nhem patch.top by 1\n"
        "press patch.left, right, bottom under by 1/2\nplace patch on front, 0 from left, 3 below top, "
        "sewn along bottom\n" + BAG + "hem bag.rim by 1/2\n"
    )
    found = [one for one in stitchlang.check(stitchlang.read(HEAD + text)) if one.rule == "pocket-over-allowance"]

    assert len(found) == 1
    assert found[0].mend.startswith("move it 1/2 in away from the left edge")
    assert found[0].mend.endswith("baste patch.left to front.left")


@pytest.mark.parametrize(
    "setting",
    [
        "set clasp on front and back, centred, 2 below top",
        "set clasp on front and back, 3 from left, 2 below top, mirrored",
        "set clasp on front, 3 from left, 2 below top\nset clasp on back, 3 from right, 2 below top",
        "set clasp on front and back, centred, 9 above bottom",
    ],
)
def test_halves_that_face_each_other_pass(setting):
    """Opposite panels, one distance from the rim, and left meeting right."""
    assert told(bag(setting)) == []


@pytest.mark.parametrize(
    "setting",
    [
        "set clasp on front and back, 3 from left, 2 below top",
        "set clasp on front, 3 from left, 2 below top\nset clasp on back, 3 from left, 2 below top",
    ],
)
def test_two_halves_from_the_left_lie_apart(setting):
    """3 from the left of 10 lies 2 1/2 inside one seam; on the back that is 10 - 1/2 - 3 = 6 1/2 from it: 4 apart."""
    assert "4 in apart across" in only(bag(setting), "snap-halves-apart")


def test_unequal_hems_set_the_halves_at_unequal_heights():
    """2 below a rim that turns 1/2 sits 1 1/2 down, 2 below one that turns 1 sits 1 down: 1/2 apart."""
    text = bag("set clasp on front and back, centred, 2 below top", backs="10 x 12 1/2", rims=("1/2", "1"))

    assert "1/2 in apart in height" in only(text, "snap-halves-apart")


def test_measured_from_the_bottom_a_higher_panel_is_another_distance_from_the_rim():
    """9 above the bottom of 12 with 1/2 turned sits 2 1/2 down; of 12 1/2 with 1 turned, 2 1/2 down too."""
    text = bag("set clasp on front and back, centred, 9 above bottom", backs="10 x 12 1/2", rims=("1/2", "1"))

    assert told(text) == []


LINED = """piece front, back, front_in, back_in of sail: 10 x 12
set clasp on {}, centred, 2 below top
join front to back along sides, bottom as outer
join front_in to back_in along sides, bottom, leaving 5 open in bottom as inner
slip inner into outer, right sides together
join inner.rim to outer.rim as bag
turn bag through inner.bottom
close inner.bottom
"""


def test_halves_on_two_layers_or_outside_never_meet():
    """A shell lies between its outside and the mouth; a lining panel faces the other lining panel only."""
    for panels in ("front and front_in", "back_in and front"):
        assert "on the lining and one on the shell" in only(LINED.format(panels), "snap-halves-never-meet")
    assert "inner lies between" in only(LINED.format("front and back"), "snap-halves-never-meet")
    assert told(LINED.format("front_in and back_in")) == []


def test_a_flap_meets_the_front():
    """A lined flap caught in the rim comes down over the outside of the front."""
    flap = "piece flap, flap_in of sail: 8 x 6\nset clasp on flap_in and front, centred, 4 above bottom\n"
    flap += "join flap to flap_in along sides, bottom as cover\nturn cover\n"
    text = LINED.replace("set clasp on {}, centred, 2 below top\n", flap).replace(
        "slip", "baste cover.top to outer.rim, at 1/4\nslip"
    )

    assert not [rule for rule, _ in told(text) if rule.startswith("snap")]


def test_a_half_alone_has_no_other_half():
    """One half on one panel in the whole recipe."""
    assert "the other half nowhere" in only(bag("set clasp on front, centred, 2 below top"), "snap-half-alone")


def test_a_mirrored_pair_wants_a_pair_to_face_it():
    """Two halves on the front, one on the back: once told by nobody."""
    pair = "set clasp on front, 2 from left, 2 below top, mirrored\nset clasp on back, "
    says = only(bag(pair + "centred, 2 below top"), "snap-half-alone")

    assert says.startswith("3 halves of clasp are set in all, the last on back")
    assert told(bag(pair + "2 from right, 2 below top, mirrored")) == []


def placed(panel, patch, spot, rest=""):
    """A patch turned under all round, placed on a panel whose own edges stay raw."""
    return (
        f"piece front of sail: {panel}\npiece patch of sail: {patch}\npress patch edges under by 1/2\n"
        f"{rest}place patch on front, {spot}, sewn along edges\nleave front edges raw\n"
    )


def pocket_findings(text):
    """What is said of placing alone."""
    return [(rule, says) for rule, says in told(text) if rule.startswith("pocket")]


TAPERED = "18 at top, 14 at bottom, 15 tall"


def test_a_pocket_passes_the_slanted_side_of_a_tapered_panel():
    """11 below the top the panel is 18 - 4 x 11 / 15 = 15 1/15 wide: 16 passes it by 7/15 (about 7/16) a side."""
    recipe = stitchlang.read(HEAD + placed(TAPERED, "17 x 12", "centred, 0 below top"))
    (finding,) = [one for one in stitchlang.check(recipe) if one.rule == "pocket-outside-panel"]

    assert "about 7/16 in past the" in finding.says
    assert [rule for rule, _ in pocket_findings(placed(TAPERED, "16 x 12", "centred, 0 below top"))] == []


def test_the_overhang_on_a_slant_is_exact():
    """7/15 of an inch, to the last place."""
    from stitchlang.ground.lengths import MM
    from stitchlang.rules.placing import outside, pockets

    recipe = stitchlang.read(HEAD + placed(TAPERED, "17 x 12", "centred, 0 below top"))
    ((_, panel, box),) = pockets(recipe)

    assert outside(panel, box).inside == -MM["in"] * 7 / 15


@pytest.mark.parametrize(
    "panel, patch, spot, wrong",
    [
        # A corner of radius 4, centre at (4, 4): the patch's at (1, 1) lies root 18 = 4.24 from it, at (1 1/4, 1 1/4)
        # root 15.125 = 3.89.
        ("10 x 12, bottom corners rounded 4", "9 x 6", "centred, 1 above bottom", "bottom right corner"),
        ("10 x 12, bottom corners rounded 4", "8 1/2 x 6", "centred, 1 1/4 above bottom", None),
        # Clipped 3 by 3: x + y is 3 along the cut; the patch's corner at 1 + 1 lies outside, at 1 1/2 + 1 1/2 on it.
        ("10 x 12, bottom corners clipped 3", "9 x 6", "centred, 1 above bottom", "bottom left corner"),
        ("10 x 12, bottom corners clipped 3", "8 x 6", "centred, 1 1/2 above bottom", None),
        # A point 3 deep on 10: the edge stands 3 x 3 / 5 = 1 4/5 up where the patch ends, 3 from the middle.
        ("10 x 12, bottom pointed 3", "7 x 6", "centred, 1 above bottom", "bottom edge"),
        ("10 x 12, bottom pointed 3", "7 x 6", "centred, 1 13/16 above bottom", None),
        # A circle 10 across: corners at (3, 4) lie on it, at (3, 4 1/2) outside.
        ("circle 10 across", "7 x 9", "centred", None),
        ("circle 10 across", "7 x 10", "centred", "the edge of front"),
        # An L: the notch takes the upper right 5 x 6.
        (
            "polygon 0 x 12 top, 5 x 12 inner, 5 x 6 step, 10 x 6 right, 10 x 0 bottom, 0 x 0 left",
            "6 x 5",
            "1 from left, 1 below top",
            "inner edge",
        ),
        (
            "polygon 0 x 12 top, 5 x 12 inner, 5 x 6 step, 10 x 6 right, 10 x 0 bottom, 0 x 0 left",
            "6 x 5",
            "1 from left, 1 above bottom",
            None,
        ),
    ],
)
def test_a_pocket_on_any_outline(panel, patch, spot, wrong):
    """A rectangle against rounded, clipped, pointed, round and stepped panels: the edge that it passes is named."""
    if "circle" in panel:
        text = placed(panel, patch, spot).replace("front edges", "front.edge")
    else:
        text = placed(panel, patch, spot)
    found = [says for rule, says in pocket_findings(text) if rule == "pocket-outside-panel"]

    assert bool(found) is (wrong is not None)
    assert wrong is None or wrong in found[0]


def test_the_allowance_of_a_slant_is_wider_across():
    """A slant of 8 by 15 is 17 long: an allowance of 15/17 across its line takes 1 straight across."""
    from stitchlang.ground.lengths import MM
    from stitchlang.model.drawn import gaps
    from stitchlang.rules.placing import pockets

    text = placed("30 at top, 14 at bottom, 15 tall", "5 x 4", "centred, 1 below top")
    recipe = stitchlang.read(HEAD + text.replace("leave front edges raw", "hem front sides by 15/17"))
    ((_, panel, box),) = pockets(recipe)
    taken = {gap.name: gap.taken for gap in gaps(panel, box) if gap.taken}

    assert taken == {"left": MM["in"], "right": MM["in"]}


def test_a_row_close_to_the_inner_fold_runs_over_a_snap():
    """Turned 1/2 then 1, the row lies 1 below the fold; a snap 2 1/2 below the cut edge is 1 below it: dead on.

    Its rim reaches from 3/4 to 1 1/4, so the row is 1/4 inside it.
    """
    text = "piece front, back of sail: 10 x 12\nset clasp on front and back, centred, 2 1/2 below top\n"
    text += "hem front.top, back.top by 1/2 then 1\n" + BAG

    assert "1/4 in past its rim" in only(text, "row-over-snap")
    later = text.replace("set clasp on front and back, centred, 2 1/2 below top\n", "").replace(
        BAG, "set clasp on front and back, centred, 2 1/2 below top\n" + BAG
    )
    assert told(later) == []
    assert told(text.replace("2 1/2 below", "2 3/4 below")) == []  # its rim reaches from 1 to 1 1/2: the row passes by


def test_two_pockets_side_by_side_touch_but_do_not_overlap():
    """Two of 4 finished from 1 and from 5 share an edge; from 4 1/2 they lie 1/2 over one another."""
    text = "piece front of sail: 10 x 12\npiece one, two of sail: 5 x 5\npress one edges, two edges under by 1/2\n"
    text += "place one on front, 1 from left, 2 below top, sewn along edges\n"
    text += "place two on front, {} from left, 2 below top, sewn along edges\nleave front edges raw\n"

    assert pocket_or_overlap(text.format("5")) == []
    assert "two lies 1/2 in over one" in pocket_or_overlap(text.format("4 1/2"))[0]


def pocket_or_overlap(text):
    return [says for rule, says in told(text) if rule.startswith("pocket") or rule == "things-overlap"]


def test_a_snap_beneath_a_pocket():
    """A snap 4 below the top, 1/2 across, under a pocket from 3 to 8: doubted by its whole breadth."""
    text = "piece front, back of sail: 10 x 12\npiece patch of sail: 6 x 6\npress patch edges under by 1/2\n"
    text += "set clasp on front and back, centred, 4 below top\n"
    text += "place patch on front, centred, 3 below top, sewn along edges\nhem front.top, back.top by 1/2\n" + BAG

    assert "patch lies 1/2 in over clasp" in only(text, "things-overlap")


def on_body(spot, fold="bottom to top", sewn="sides, bottom", rest=""):
    """A pocket, 5 by 4 1/2 finished, on a body 24 tall that is folded in the middle, 12 from either end."""
    return (
        "piece body of sail: 10 x 24\npiece patch of sail: 6 x 6\nhem patch.top by 1\n"
        f"press patch.left, bottom, right under by 1/2\nplace patch on body, centred, {spot}, sewn along {sewn}\n"
        f"fold body in half, {fold}\njoin body along sides as bag\n{rest}hem bag.rim by 1/2\n"
    )


@pytest.mark.parametrize(
    "text, rule, words",
    [
        (on_body("8 below top"), "pocket-across-fold", "1/2 in from its edge"),  # from 8 to 12 1/2
        (on_body("11 below top"), "pocket-across-fold", "1 in from its edge"),  # from 11 to 15 1/2
        (on_body("3 above bottom"), "pocket-upside-down", "bottom half"),
        (on_body("3 below top", sewn="sides, top"), "pocket-upside-down", "top half"),
        (on_body("3 above bottom", "top to bottom"), "pocket-upside-down", "bottom half"),
        # The base is half of 4 from the fold, 10 from the top: from 6 the pocket reaches 10 1/2, from 5 1/2 just 10.
        (on_body("6 below top", rest="box bag pinched 4 across\n"), "pocket-on-folded-base", "1/2 in below"),
    ],
)
def test_a_pocket_on_a_folded_body(text, rule, words):
    """Across the fold, upside down, or on the base: each by the sum beside it."""
    assert words in only(text, rule)


@pytest.mark.parametrize(
    "text",
    [
        on_body("7 1/2 below top"),  # to 12: it touches the fold
        on_body("3 above bottom", sewn="sides, top"),
        on_body("3 below top", "top to bottom"),
        on_body("5 1/2 below top", rest="box bag pinched 4 across\n"),
        on_body("8 below top", sewn="edges"),  # a patch over the base has no mouth
    ],
)
def test_a_pocket_that_a_fold_leaves_alone(text):
    """On one half, its mouth to the bag's, clear of the base."""
    assert told(text) == []


def with_pocket(spot, divide="", sides=""):
    """A pocket 5 wide on a front 10 wide: centred it begins 2 1/2 from the left."""
    return (
        "piece front, back of sail: 10 x 12\npiece patch of sail: 6 x 6\nhem patch.top by 1\n"
        "press patch.left, bottom, right under by 1/2\n"
        f"place patch on front, {spot}, 3 below top, sewn along sides, bottom\n"
        f"{divide}{sides or BAG}hem bag.rim by 1/2\n"
    )


@pytest.mark.parametrize(
    "spot, words",
    [
        ("2 3/8 from left", "1/8 in off the middle of front"),
        ("2 5/8 from right", "1/8 in off"),
        ("centred, 1 1/2 from left", "1 in off"),  # 2 1/2 - 1 1/2
    ],
)
def test_off_centre_is_doubted(spot, words):
    assert words in only(with_pocket(spot), "off-centre")


@pytest.mark.parametrize(
    "spot", ["centred", "2 1/2 from left", "centred, 2 1/2 from left", "2 1/4 from left", "1 from left"]
)
def test_centred_or_plainly_aside_passes(spot):
    """A quarter of an inch or more from the middle is meant."""
    assert told(with_pocket(spot)) == []


def test_centred_on_the_cut_panel_is_not_centred_on_the_finished_one():
    """1/2 taken at the left and 1 at the right: the finished middle lies (1 - 1/2) / 2 = 1/4 to the left."""
    sides = "join front.left to back.right as flat\nhem front.right, back.left by 1\n"
    sides += "leave front.bottom, back.bottom raw\nhem front.top, back.top by 1/2\n"
    text = with_pocket("centred", sides=sides).replace("hem bag.rim by 1/2\n", "")

    assert "1/4 in off the middle of the finished front" in only(text, "off-centre")


@pytest.mark.parametrize(
    "divide, rule, words",
    [
        ("3 from left, 3 from right", "compartments-do-not-add-up", "pass each other by 1 in"),  # at 3, and 5 - 3 = 2
        ("3 from left, 2 from right", "compartments-do-not-add-up", "fall on one another"),
        ("into 2\ndivide patch 2 1/2 from left", "compartments-do-not-add-up", "fall on one another"),
        ("2 from left, 2 3/8 from left", "compartment-too-narrow", "only 3/8 in wide"),
        ("4 5/8 from left", "compartment-too-narrow", "only 3/8 in wide"),  # 5 - 4 5/8
        ("into 11", "compartment-too-narrow", "only about 7/16 in wide"),
    ],
)
def test_compartments(divide, rule, words):
    """Rows on a pocket 5 wide finished."""
    assert words in only(with_pocket("centred", f"divide patch {divide}\n"), rule)


@pytest.mark.parametrize("divide", ["2 from left, 2 from right", "into 10", "1/2 from left, 1 from left"])
def test_compartments_that_add_up(divide):
    assert told(with_pocket("centred", f"divide patch {divide}\n")) == []


ZIPPED = """zip mouth: coil, 10 long, tape 1 wide, tape 12 long
piece high of sail: 12 x 3
piece low of sail: 12 x 9
piece back of sail: 12 x 12
piece pouch of sail: 12 x {}
join low.top to mouth.lower to pouch.top at 1/4
join high.bottom to mouth.upper to pouch.bottom at 1/4 as front
baste pouch sides to front sides
join front to back along sides, bottom, catching mouth.ends as bag
{}hem bag.rim by 1/2
"""
PINCHED = "box bag pinched 3 across\n"


@pytest.mark.parametrize(
    "tall, box, words",
    [
        # Below the zip 9 - 1/4; the base takes 1/2 and half of 3: 6 3/4 are left.  Of 18 the loop is 18 - 1/2, less
        # the zip's 1 - 1/2 between its ends, halved: 8 1/2.
        (18, PINCHED, "hangs 8 1/2 in below its opening in front; down to the base there are 6 3/4 in"),
        (15, PINCHED, "hangs 7 in"),
        (18, "", "down to the base there are 8 1/4 in"),  # 9 - 1/4 - 1/2
    ],
)
def test_a_pocket_bag_hangs_into_the_base(tall, box, words):
    assert words in only(ZIPPED.format(tall, box), "pocket-bag-below-base")


@pytest.mark.parametrize("tall, box", [("14 1/2", PINCHED), ("17 1/2", "")])
def test_a_pocket_bag_that_just_reaches_the_base(tall, box):
    """(14 1/2 - 1/2 - 1/2) / 2 = 6 3/4, and (17 1/2 - 1) / 2 = 8 1/4."""
    assert told(ZIPPED.format(tall, box)) == []


@pytest.mark.parametrize("low", ["polygon 0 x 9 top, 12 x 9 east, 12 x 0 bottom, 0 x 0 west", "12 x 9, left pointed 2"])
def test_how_far_down_it_is_beside_no_upright_side_is_not_known(low):
    """The piece below the zip has no one edge called its left: nothing is said of where its bag ends, nor raised."""
    text = ZIPPED.format(18, "").replace("low of sail: 12 x 9", f"low of sail: {low}")

    assert "pocket-bag-below-base" not in dict(told(text))


def test_the_satchel_s_pocket_bag_stays_above_its_base():
    """14 - 1/2 - 3/4 of zip, halved, is 6 3/8; below the zip 8 3/4 - 1/4 - 1 1/4 - 3/8 = 6 7/8."""
    from pathlib import Path

    text = (Path(__file__).parent.parent / "examples" / "satchel.stitch").read_text("utf-8")

    def longer(tall):
        changed = text.replace("pouch of cotton: 11 x 14", f"pouch of cotton: 11 x {tall}")
        return [one.rule for one in stitchlang.check(stitchlang.read(changed))]

    assert longer("15") == []  # 6 7/8
    assert longer("15 1/4") == ["pocket-bag-below-base"]


FLAP = """\
piece front, back of sail: 10 x 12
piece flap, flap_in of sail: 8 x 6
set clasp on flap_in, centred, 2 above bottom
set clasp on front, centred, {} below top
join flap to flap_in along sides, bottom as cover
turn cover
baste cover.top to back.top, at 1/4
{}
hem bag.rim by 1/2
"""
DEEP = """\
piece gusset of sail: 4 x 32
join front.left, bottom, right to gusset.left as half
join back.right, bottom, left to gusset.right as bag"""


@pytest.mark.parametrize(
    ("below", "sewn", "found"),
    [
        # 6 - 2 - 1/2 is 3 1/2 down the flap; the rim takes 1/2 of what is measured below the top.
        ("4", BAG.strip(), []),
        ("4 1/4", BAG.strip(), []),
        ("4 5/16", BAG.strip(), ["flap-misses-its-snap"]),  # 3 13/16 below the rim: 5/16 too short
        ("3", BAG.strip(), []),  # an inch for what is in the bag
        ("2 15/16", BAG.strip(), ["flap-misses-its-snap"]),
        ("1 1/2", DEEP, []),  # the flap crosses 4 - 2 x 1/2 of gusset: 1 + 3 is more than 3 1/2
        ("4 5/16", DEEP, ["flap-misses-its-snap"]),
    ],
)
def test_a_flap_comes_down_to_its_snap(below, sewn, found):
    assert [rule for rule, _ in told(FLAP.format(below, sewn)) if rule.startswith("flap")] == found
