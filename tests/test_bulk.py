"""Plies and thickness under the needle, counted by hand.

Plain geometry: a seam pressed open has a panel and its own allowance on each side of the line, 2; pressed to one side
a panel and both allowances, 3; a row that crosses such seams goes through all that lies there.  The counts stand
beside each recipe, worked out on paper from folded cloth.
"""

from fractions import Fraction

import pytest

import stitchlang
from stitchlang.model.bulk import places, thickest
from stitchlang.show.measures import measures_text
from stitchlang.work.measure import measured_in_sizes

OPENING = """units in
allowance 1/2
cloth sail: "sailcloth", 0.6 mm thick
cloth lawn: "cotton lawn", 0.2 mm thick
interfacing crisp: "woven fusible", 0.25 mm thick
webbing tape: "cotton webbing", 1 wide, 2 mm thick
ring dee: 1 inside, 2 of
"""
BAG = "piece front, back of sail: 10 x 12\njoin front to back along sides, bottom as bag\n"
NOTCHED = """piece front, back of sail: 10 x 12
notch front, back at bottom corners by 2
join front to back along sides, bottom as bag
{}box bag
hem bag.rim by 1/2
"""
LINED = """piece front, back of sail: 10 x 12
piece front_in, back_in of lawn: 10 x 12{}
join front to back along sides, bottom as outer
join front_in to back_in along sides, bottom, leaving 4 open in bottom as inner
{}slip inner into outer, right sides together
join inner.rim to outer.rim as bag
turn bag through inner.bottom
topstitch bag.rim at 1/8
close inner.bottom
"""
TAB = "piece tab of {}: 4 x 3{}\nfold tab in quarters\n"
PRESSED = "press outer.left, right open\npress inner.left, right open\n"
PATCH = """piece wall of sail: 10 x 12
piece patch of lawn: 6 x 6
{}press patch.left, bottom, right under by 1/2
place patch on wall, 1 from left, 3 below top, sewn along sides, bottom at 1/8
"""
ZIPPED = """zip mouth: coil, 8 long, tape 1 1/4 wide{}
piece front, back of sail: 10 x 8
piece front_in, back_in of lawn: 10 x 8
join front.top to mouth.lower to front_in.top at 1/4
join back.top to mouth.upper to back_in.top at 1/4 as face
topstitch front.top at 1/8
join front to back along sides, bottom, catching mouth.ends as outer
"""
ENCLOSED = """piece front, back of sail: 10 x 12
join front to back along sides, bottom enclosed at 1/4 then 3/8 as bag
"""
FELLED = "piece one, two of sail: 10 x 12\njoin one.right to two.left felled as row\n"
BINDING = "binding edging: 1/2 wide, 0.3 mm thick\n"


def read(text):
    return stitchlang.read(OPENING + text)


def place(text, where):
    """The place of that name in a recipe."""
    found = {one.where: one for one in places(read(text))}
    assert where in found, list(found)
    return found[where]


# (recipe, place, plies, tenths of a millimetre as summed by hand)
COUNTS = {
    "plain seam: a panel on a panel": (BAG, "the seam at front.left", 2, Fraction(12)),  # 1 + 1; 2 x 0.6
    "single hem: a panel and one turning": (BAG + "hem bag.rim by 1/2", "the hem at bag.rim", 2, Fraction(12)),
    "double hem": (BAG + "hem bag.rim by 1/2, turned twice", "the hem at bag.rim", 3, Fraction(18)),  # 1 + 2
    "double hem over a seam to one side": (
        BAG + "hem bag.rim by 1/2 then 1",
        "the hem at bag.rim where a seam crosses it",
        9,  # 3 at the seam, three times over
        Fraction(54),
    ),
    "double hem over a seam pressed open": (
        BAG + "press bag.left, right open\nhem bag.rim by 1/2 then 1",
        "the hem at bag.rim where a seam crosses it",
        6,  # 2 at the seam, three times over
        Fraction(36),
    ),
    "boxed corner, both seams open": (
        NOTCHED.format("press bag.left, bottom, right open\n"),
        "the seam at bag.bottom left across where a seam crosses it",
        4,  # 2 + 2
        Fraction(24),
    ),
    "boxed corner, both seams to one side, stacked": (
        NOTCHED.format("press bag.left, bottom, right toward back\n"),
        "the seam at bag.bottom left across where a seam crosses it",
        6,  # 3 + 3
        Fraction(36),
    ),
    "boxed corner, seams to opposite sides, nested": (
        NOTCHED.format("press bag.left, right toward back\npress bag.bottom toward front\n"),
        "the seam at bag.bottom left across where a seam crosses it",
        4,  # 3 + 1 on one half, 1 + 3 on the other
        Fraction(24),
    ),
    "boxed corner, nothing pressed: as stacked": (
        NOTCHED.format(""),
        "the seam at bag.bottom left across where a seam crosses it",
        6,
        Fraction(36),
    ),
    "pinched corner, nothing pressed: as stacked": (
        BAG + "box bag pinched 4 across\nhem bag.rim by 1/2",
        "the pinched corner of bag",
        6,
        Fraction(36),
    ),
    "pinched corner on a fold": (
        "piece body of sail: 10 x 24\nfold body in half, bottom to top\njoin body along sides as bag\n"
        "press bag.left, right open\nbox bag pinched 4 across",
        "the pinched corner of bag",
        3,  # the open side seam 2, the cloth at the fold 1
        Fraction(18),
    ),
    "strap folded in four": (TAB.format("lawn", "") + "topstitch tab sides", "the row along tab.left", 4, Fraction(8)),
    "strap folded in four, its end turned back": (
        "piece strap of lawn: 4 x 40\nfold strap in quarters\nthread strap through dee, turned back 1",
        "the end of strap, turned back",
        8,  # 4 on 4
        Fraction(16),
    ),
    "strap folded in four, looped, caught between two panels": (
        TAB.format("lawn", "") + "piece front, back of sail: 10 x 12\n"
        "join front to back along sides, bottom, catching tab.ends as bag",
        "the seam at front.left with tab",
        10,  # 4 + 4 and 1 + 1; 8 x 0.2 + 2 x 0.6
        Fraction(28),
    ),
    "the same with interfaced panels: no more plies, but thicker": (
        TAB.format("lawn", "") + "piece front, back of sail: 10 x 12, with crisp\n"
        "join front to back along sides, bottom, catching tab.ends as bag",
        "the seam at front.left with tab",
        10,
        Fraction(33),  # 2.8 + 2 x 0.25
    ),
    "strip in thirds with one edge turned in first": (
        "piece tab of lawn: 4 x 3\npress tab.left under by 1/4\nfold tab in thirds\ntopstitch tab sides",
        "the row along tab.left",
        4,  # 3 and the turning
        Fraction(8),
    ),
    "strip joined square, then folded in four": (
        "piece one, two of lawn: 4 x 20\njoin one.top to two.bottom as strap\npress one.top open\n"
        "fold strap in quarters\ntopstitch strap sides",
        "the row along strap.left where it is joined",
        8,  # 2 at the open join, four times
        Fraction(16),
    ),
    "rim of shell and lining, side seams unpressed": (
        LINED.format("", ""),
        "the seam at inner.rim where a seam crosses it",
        6,  # 3 + 3; 3 x 0.6 + 3 x 0.2
        Fraction(24),
    ),
    "rim of shell and lining, side seams open": (
        LINED.format("", PRESSED),
        "the seam at inner.rim where a seam crosses it",
        4,
        Fraction(16),
    ),
    "the same rim topstitched after turning: panels and allowances": (
        LINED.format("", PRESSED),
        "the row along bag.rim where a seam crosses it",
        8,  # 2 + 2, and their allowances 2 + 2
        Fraction(32),
    ),
    "topstitched rim, interfaced lining: none of it in the allowances": (
        LINED.format(", with crisp", PRESSED),
        "the row along bag.rim where a seam crosses it",
        8,
        Fraction(345, 10),  # 3.2 mm + 0.25 mm once
    ),
    "topstitched rim with a looped tab at the side seams": (
        LINED.format("", PRESSED + TAB.format("lawn", ", cut 2") + "baste tab with dee to outer.rim at side seams\n"),
        "the row along bag.rim where a seam crosses it, with tab",
        16,  # 8 as above, and 4 + 4 of tab, whose ends lie within the allowance; 3.2 + 8 x 0.2
        Fraction(48),
    ),
    "a handle's one end in a rim": (
        LINED.format("", "piece handle of tape: 1 x 20, cut 2\nbaste handle.ends to outer.rim\n"),
        "the seam at inner.rim with handle",
        3,  # webbing 1 between 1 and 1; 2 + 0.6 + 0.2
        Fraction(28),
    ),
    "patch pocket, edges pressed under": (
        PATCH.format("hem patch.top by 1/4, turned twice\n"),
        "the row along patch.left at its corner",
        7,  # the hem's 3 folded over on themselves 6, and the wall; 6 x 0.2 + 0.6
        Fraction(18),
    ),
    "patch pocket, corner of two edges pressed under": (
        PATCH.format("hem patch.top by 1/4, turned twice\n"),
        "the row along patch.bottom at its corner",
        5,  # 2 folded over on themselves 4, and the wall
        Fraction(14),
    ),
    "panel, zip and lining in one pass": (
        ZIPPED.format(", 0.9 mm thick"),
        "the seam at front.top",
        3,
        Fraction(17),  # 0.6 + 0.9 + 0.2
    ),
    "topstitched beside the zip: panel, its allowance, tape, lining's allowance, lining": (
        ZIPPED.format(", 0.9 mm thick"),
        "the row along front.top",
        5,
        Fraction(25),  # 2 x 0.6 + 0.9 + 2 x 0.2
    ),
    "a side seam over two zip seams": (
        ZIPPED.format(", 0.9 mm thick"),
        "the seam at front.left at its top end",
        8,  # each side: panel, its allowance, tape, lining's allowance
        Fraction(46),  # 2 x (0.6 + 0.6 + 0.9 + 0.2)
    ),
    "enclosed seam, its second row: both panels, and the first row's allowances inside": (
        ENCLOSED,
        "the seam at front.left",
        4,
        Fraction(24),
    ),
    "a double hem over an enclosed seam": (
        ENCLOSED + "hem bag.rim by 1/2, turned twice",
        "the hem at bag.rim where a seam crosses it",
        15,  # the panel 1 and both allowances folded 4, three times over
        Fraction(90),
    ),
    "felled seam, its second row: panel, trimmed allowance, the other folded round it": (
        FELLED,
        "the seam at one.right",
        4,
        Fraction(24),
    ),
    "a hem over a felled seam": (
        FELLED + "hem row.top by 1/2\n",
        "the hem at row.top where a seam crosses it",
        8,  # 1 + 1 + 2, twice
        Fraction(48),
    ),
    "a hem over a lapped seam": (
        FELLED.replace("felled", "lapped 1/2") + "hem row.top by 1/2\n",
        "the hem at row.top where a seam crosses it",
        4,  # one panel on the other 2, twice
        Fraction(24),
    ),
    "a raw edge in a folded binding": (
        BINDING + "piece mat of sail: 10 x 12\nbind mat edges with edging",
        "the binding along mat.top",
        5,  # the strip and its turned edge on both sides 4, and the cloth; 0.6 + 4 x 0.3
        Fraction(18),
    ),
    "the same binding where it goes over a side seam": (
        BINDING + BAG + "bind bag.rim with edging",
        "the binding along bag.rim where a seam crosses it",
        7,  # 3 at the seam, and 4
        Fraction(30),
    ),
    "a seam's allowances bound": (
        BINDING + "piece front, back of sail: 10 x 12\njoin front to back along sides, bottom bound with edging as bag",
        "the seam at front.left",
        6,  # both panels, and the binding's 4
        Fraction(24),
    ),
    "knife pleats sewn to a plain edge": (
        "piece front of sail: 14 x 12\npiece back of sail: 10 x 12\npleat front.top in 2 knife, 1 deep\n"
        "join front.top to back.bottom as face",
        "the seam at front.top",
        4,  # a pleat is three deep, and the plain edge
        Fraction(24),
    ),
    "an edge gathered to less than half": (
        "piece front of sail: 21 x 12\npiece back of sail: 10 x 12\ngather front.top to 9\n"
        "join front.top to back.bottom as face",
        "the seam at front.top",
        4,  # 21 to 9 is more than two to one: three layers at its worst, and the plain edge
        Fraction(24),
    ),
    "quilted panels in a seam: batting runs into it, and is no ply": (
        'batting warm: "cotton batting", 3 mm thick\npiece front, back of sail: 10 x 12\n'
        "quilt front with warm, in rows 2 apart\njoin front to back along sides, bottom as bag",
        "the seam at front.left",
        2,
        Fraction(42),  # 2 x 0.6 + 3
    ),
    "interfacing that runs into the allowances is in them": (
        "piece front, back of sail: 10 x 12, with crisp whole\njoin front to back along sides, bottom as bag\n"
        "hem bag.rim by 1/2",
        "the hem at bag.rim",
        2,
        Fraction(17),  # 2 x 0.6 + 2 x 0.25
    ),
    "a pocket basted flat into a side seam": (
        "piece front, back of sail: 10 x 12\npiece slip of lawn: 10 x 8\nhem slip.top by 1\nleave slip.bottom raw\n"
        "baste slip sides to front sides, at 1/4\njoin front to back along sides, bottom as bag",
        "the seam at front.left",
        3,
        Fraction(14),
    ),
}


@pytest.mark.parametrize("name", COUNTS)
def test_plies_and_thickness_as_counted_by_hand(name):
    """The count of layers, and the sum of what they are thick."""
    text, where, count, tenths = COUNTS[name]
    found = place(text, where)

    assert found.plies == count
    assert found.thickness.mm == tenths / 10


def test_a_pocket_that_ends_below_the_rim_is_not_in_it():
    """A pocket basted into the side seams, shorter than the panel, does not reach the rim where the seams cross it."""
    slip = (
        "piece slip of lawn: 10 x 8\nhem slip.top by 1\nleave slip.bottom raw\nbaste slip sides to front sides, at 1/4"
    )
    bare = "piece front, back of sail: 10 x 12\n{}\njoin front to back along sides, bottom as bag\nhem bag.rim by 1/2"
    rims = [place(bare.format(pocket), "the hem at bag.rim where a seam crosses it").plies for pocket in ("", slip)]

    assert rims == [6, 6]  # 3 at the seam, twice


def test_a_thickness_that_is_not_stated_leaves_the_plies():
    """Where the tape's thickness is not stated, the layers are counted and not summed."""
    found = place(ZIPPED.format(""), "the seam at front.top")

    assert found.plies == 3
    assert found.thickness is None


def test_the_sum_has_its_reasons():
    """Each layer stands in the sum with the place where its stuff's thickness was written."""
    text = LINED.format("", "")
    recipe = read(text)
    found = next(one for one in places(recipe) if one.where == "the seam at inner.rim where a seam crosses it")
    written = {recipe.source.text[leaf.at.start : leaf.at.end] for _, leaf in found.thickness.leaves()}

    assert sum(factor * leaf.mm for factor, leaf in found.thickness.leaves()) == found.thickness.mm
    assert written == {"0.6 mm", "0.2 mm"}


@pytest.mark.parametrize("name", COUNTS)
def test_pressing_everything_open_never_adds_a_ply(name):
    """An allowance that is laid to the other side is gone from this one."""
    recipe = read(COUNTS[name][0])
    closed, opened = places(recipe), places(recipe, opened=True)

    assert [one.where for one in closed] == [one.where for one in opened]
    assert all(one.plies >= other.plies for one, other in zip(closed, opened, strict=True))


def test_thickness_grows_with_the_cloth():
    """Cloth twice as thick makes a stack of that cloth alone twice as thick."""
    hemmed = 'units in\nallowance 1/2\ncloth sail: "s", {} thick\n' + BAG + "hem bag.rim by 1/2 then 1\n"
    one, two = (thickest(places(stitchlang.read(hemmed.format(mm)))).thickness.mm for mm in ("0.7 mm", "1.4 mm"))

    assert one == Fraction(63, 10)  # 9 x 0.7
    assert two == 2 * one


# -- what is said ---------------------------------------------------------------


def findings(text):
    return [one for one in stitchlang.check(read(text)) if one.rule == "too-thick-for-the-machine"]


def test_one_finding_names_the_worst_place_and_its_layers():
    """Several places are too thick; one is told, with every stuff in it."""
    hemmed = 'machine: "domestic", 2 mm thick\n' + BAG + "hem bag.rim by 1/2 then 1\n"
    (finding,) = findings(hemmed)

    assert finding.severity == "fault"
    assert "9 plies lie under the needle, 5.4 mm" in finding.says
    assert "stated to sew 2 mm" in finding.says
    assert "6 plies, 3.6 mm" in finding.mend  # what pressing open leaves
    assert any("nine plies of sail, 0.6 mm each" in label.says for label in finding.beside)


@pytest.mark.parametrize(("machine", "severities"), [
    ("", []),  # 5.4 mm is below our own 6 mm
    ('machine: "domestic", needle 90\n', []),  # states neither thickness nor plies: as none
    ('machine: "domestic", 5.4 mm thick\n', []),  # no more than it sews
    ('machine: "domestic", 5.3 mm thick\n', ["fault"]),
    ('machine: "domestic", 9 plies\n', []),
    ('machine: "domestic", 8 plies\n', ["fault"]),
    ('machine: "domestic", 9 mm thick, 8 plies\n', ["fault"]),  # each limit counts
])  # fmt: skip
def test_the_machine_decides(machine, severities):
    """A double hem over a side seam of 0.6 mm cloth: 9 plies, 5.4 mm."""
    assert [one.severity for one in findings(machine + BAG + "hem bag.rim by 1/2 then 1\n")] == severities


@pytest.mark.parametrize(("thick", "severities"), [("0.66 mm", []), ("0.67 mm", ["doubt"])])
def test_without_a_machine_six_millimetres_are_doubted(thick, severities):
    """9 x 0.66 = 5.94 mm passes, 9 x 0.67 = 6.03 mm is doubted; the threshold is said to be our own."""
    hemmed = f'units in\nallowance 1/2\ncloth sail: "s", {thick} thick\n' + BAG + "hem bag.rim by 1/2 then 1\n"
    found = stitchlang.check(stitchlang.read(hemmed))

    assert [one.severity for one in found] == severities
    assert all("our own threshold" in one.says for one in found)


def test_batting_gives_under_the_foot():
    """A stack with batting in it is doubted, not refused."""
    quilt = (
        'batting warm: "cotton batting", 3 mm thick\nmachine: "domestic", 6 mm thick\n'
        "piece front, back of sail: 11 x 13\nquilt front with warm, in rows 2 apart\n"
        "quilt back with warm, in rows 2 apart\njoin front to back along sides, bottom as bag\n"
    )
    (finding,) = findings(quilt)

    assert finding.severity == "doubt"
    assert "7.2 mm" in finding.says  # 2 x 0.6 + 2 x 3


def test_measure_tells_the_thickest_place_and_what_is_not_known():
    """The last paragraph: the place, its line, its sum; and a fuller stack whose thickness nobody can tell."""
    recipe = read(ZIPPED.format(""))
    text = measures_text(recipe, measured_in_sizes(recipe), "in")

    assert "thickest place: " in text
    assert "8 plies; how thick mouth is, is not stated" in text


def test_measure_says_nothing_of_thickness_where_none_is_stated():
    """A recipe without thicknesses prints as before."""
    recipe = stitchlang.read('units in\ncloth sail: "s"\npiece flag of sail: 10 x 12\nhem flag edges by 1/2\n')

    assert "thick" not in measures_text(recipe, measured_in_sizes(recipe), "in")


def test_a_step_above_four_millimetres_carries_its_caution():
    """The hem of 5.4 mm does, the seam of 1.2 mm does not."""
    steps = stitchlang.steps(read(BAG + "hem bag.rim by 1/2 then 1\n"))
    warned = [step.sentence.split()[0] for step in steps if any("Thick here" in one for one in step.cautions)]

    assert warned == ["Hem"]


def test_folds_of_folds_come_to_an_end():
    """A strip of strips without end is counted up to 999 plies, and neither hangs nor falls over."""
    lines = ["piece p0 of lawn: 4 x 40", "piece q of lawn: 1 x 40"]
    for at in range(200):
        lines.append(f"fold p{at} in quarters as s{at}")
        lines.append(f"join s{at}.top to q.bottom as p{at + 1}")
    found = places(read("\n".join(lines) + "\n"))

    assert all(one.plies <= 999 * len(one.layers) for one in found)


@pytest.mark.parametrize("facts", [
    '"x", needle 0', '"x", needle 90.5', "0 mm thick", "0 plies", "stitch 0 mm", "needle 90, needle 100",
    "needle 1/0", "9999999999999999999999999 mm thick",
])  # fmt: skip
def test_nonsense_about_the_machine_is_found_at_its_place(facts):
    """A bad number is a fault, and never falls over."""
    found = stitchlang.check(read(f"machine: {facts}\n" + BAG + "hem bag.rim by 1/2\n"))

    assert "fault" in {one.severity for one in found}


@pytest.mark.parametrize("tex", ["0", "1/0", "99999999999999999999999999"])
def test_nonsense_about_thread_is_found_at_its_place(tex):
    """A thread that weighs nothing, or without end, is no thread."""
    found = stitchlang.check(read(f'reel black: "x", tex {tex}\n' + BAG + "hem bag.rim by 1/2\n"))

    assert "fault" in {one.severity for one in found}
