"""Pleats, gathers, overlaps, enclosed seams and shaped outlines, against published figures and plane geometry.

The numbers are those of the page named beside each check; where a check is geometry, shapely (GEOS) gives the value.
"""

from fractions import Fraction
from itertools import pairwise
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

import stitchlang
from stitchlang.ground.lengths import MM
from stitchlang.model.outline import stitched

HEAD = 'units {}\nallowance {}\ntolerance 1/64 in\ncloth sail: "old sailcloth"\n'


def read(statements, unit="in", allowance="1/2"):
    return stitchlang.read(HEAD.format(unit, allowance) + statements)


def rules(recipe):
    return [one.rule for one in stitchlang.check(recipe)]


def measured(recipe, unit="in"):
    """Every finished measure by its title, in the unit; the recipe must be clean."""
    assert rules(recipe) == []
    return {one.title: one.working.mm / MM[unit] for one in stitchlang.measure(recipe)}


def test_full_knife_pleats_take_three_times_the_finished_width():
    """brushesandthread.wordpress.com/2013/02/13: 1 in pleats that meet, 34 in finished, take 102 in of cloth."""
    skirt = "piece skirt of sail: 102 x 12\npiece band of sail: 34 x 3\n"
    pleated = "pleat skirt.top in 34 knife, 1 deep\njoin skirt.top to band.bottom at 0 as all\nleave all edges raw\n"
    recipe = read(skirt + pleated + "leave skirt sides, bottom raw\nleave band sides, top raw\n")

    assert "joined-edges-differ" not in rules(recipe)
    assert stitched(recipe.things["skirt"].side("top")[0]).mm == 34 * MM["in"]


def test_box_pleats_take_twice_what_knife_pleats_do():
    """Plane geometry: a box pleat is two knife pleats back to back, n (v + 4 f) of cloth against n (v + 2 f)."""
    edge = "piece skirt of sail: 50 x 12\npleat skirt.top in {}, 1 deep\nleave skirt edges raw\n"
    box, knife = (read(edge.format(kind)) for kind in ("3 box", "3 knife"))

    assert [stitched(one.things["skirt"].side("top")[0]).mm / MM["in"] for one in (box, knife)] == [38, 44]


@pytest.mark.parametrize(("ratio", "clean"), [(Fraction(3, 2), True), (Fraction(5, 2), True), (3, True), (4, False)])
def test_gathers_up_to_three_to_one(ratio, clean):
    """stitchcoach.blogspot.com/2017/01: 1.5 to 3 times the finished length; 15 in at 2.5 to one takes 37.5 in."""
    frill = f"piece frill of sail: {float(15 * ratio)} x 4\ngather frill.top to 15\npiece band of sail: 15 x 3\n"
    sewn = (
        "join frill.top to band.bottom as all\nleave frill.left, right, bottom raw\nleave band.left, top, right raw\n"
    )

    assert rules(read(frill + sewn)) == ([] if clean else ["gathered-too-full"])


def test_an_enclosed_seam_takes_both_its_rows():
    """themaven.net/craftbits/patterns/small-squared-bottom-tote: 36 x 38.5 cm, 4 cm squares, 1.5 cm in all (a seam sewn
    twice, 0.5 and 1) everywhere.  By hand: depth 2 x 4 = 8, front 36 - 3 - 8 = 25."""
    panels = "piece front, back of sail: 36 x 38.5\nnotch front, back at bottom corners by 4\n"
    sewn = "join front to back along sides, bottom, enclosed at 0.5 then 1 as bag\nbox bag at 1.5\nhem bag.rim by 2\n"
    found = measured(read(panels + sewn, "cm", "1.5"), "cm")

    assert (found["bag deep"], found["bag wide at base"]) == (8, 25)


@pytest.mark.parametrize("size, cut", [(14, "15 x 36"), (16, "17 x 40"), (18, "19 x 44"), (20, "21 x 48")])
def test_envelope_cover_of_four_sizes(size, cut):
    """bluesusanmakes.com/2012/02/heart-pillow-quick-pillow-cover.html: cut sizes published.  By hand: hems of 1/4 and
    1/2 at both ends leave the length less 1 1/2; twice the size from that leaves 6 1/2 of overlap, for all four."""
    cover = f"piece cover of sail: {cut}\nhem cover.top, bottom by 1/4 then 1/2, at 3/8\n"
    sewn = "lap cover.top over cover.bottom by 6 1/2 as case\njoin case along sides as pillow\nturn pillow\n"
    found = measured(read(cover + sewn))

    assert (found["pillow wide"], found["pillow tall"]) == (size, size)


def test_the_stated_overlap_makes_the_cover_an_inch_too_wide():
    """The same page states an overlap of about 4 1/2: then the 16 in cover comes to (40 - 1 1/2 - ... ) / 2 = 17."""
    cover = "piece cover of sail: 17 x 40\nhem cover.top, bottom by 1/4 then 1/2, at 3/8\n"
    sewn = "lap cover.top over cover.bottom by 4 1/2 as case\njoin case along sides as pillow\nturn pillow\n"

    assert measured(read(cover + sewn))["pillow tall"] == 17


def test_pointed_flap_of_an_envelope():
    """bhg.com/crafts/sewing/accessories/push-the-envelope: 12 x 21 1/2, the corners of one end folded to meet (a point
    6 deep at 45 degrees), 1/2 in seams.  By hand: 12 - 1 = 11 wide; the tip lies 1/2 x root 2 inside the cut tip, so
    21 1/2 - 1/2 - 0.7071 = 20.2929 long."""
    found = measured(
        read(
            "piece out, in_ of sail: 12 x 21 1/2, top pointed 6\n"
            "join out to in_ along edges, leaving 4 open in bottom as clutch\n"
            "turn clutch through clutch.bottom\nclose clutch.bottom\n"
        )
    )

    assert found["clutch wide"] == 11
    assert abs(found["clutch tall"] - (21 - Fraction(2**0.5) / 2)) < Fraction(1, 10**12)


def test_piping_strip_wraps_half_round_its_cord():
    """Plane geometry: a strip round a cord loses the cord's half girth from each half; 2 in round 1/2 in leaves
    (2 - pi / 2) / 2 beside it."""
    recipe = read(
        "cord filler: 1/2 across\npiece front, back of sail: 12 x 12\npiece welt of sail: 2 x 40\n"
        "wrap welt round filler\n"
        "join front to back along sides, bottom, at 1/8, catching welt.right as bag\nleave welt.ends raw\n"
        "hem bag.rim by 1/2\n"
    )
    flange = recipe.things["welt"].faces[0].edges[0].cut

    assert abs(flange.mm / MM["in"] - Fraction((2 - pi / 2) / 2)) < Fraction(1, 10**12)
    assert not flange.exact


sizes = st.fractions(100, 600, max_denominator=8)
quarters = st.fractions(Fraction(1, 8), Fraction(2, 5), max_denominator=16)
allowances = st.fractions(1, 10, max_denominator=8)
unhurried = settings(deadline=None, max_examples=80)


def sides_of(recipe, name):
    """The stitched lengths of a piece's edges, in order."""
    return [float(stitched(edge).mm) for edge in recipe.things[name].edges]


def inside(points, allowance):
    """The side lengths of an outline moved inward all round: shapely's buffer with mitred corners."""
    inner = Polygon(points).buffer(-float(allowance), join_style="mitre", mitre_limit=1e6)
    ring = list(inner.exterior.coords)
    return sorted(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5 for (x1, y1), (x2, y2) in pairwise(ring))


def mm(value):
    """A length as a recipe writes it: an exact quotient."""
    return f"({Fraction(value).numerator} mm / {Fraction(value).denominator})"


@unhurried
@given(sizes, sizes, quarters, allowances)
def test_pointed_and_clipped_pieces_against_shapely(width, height, part, allowance):
    """A point, or two clipped corners, with one allowance all round: every stitched side is shapely's."""
    deep = min(width, height) * part
    text = f"allowance {mm(allowance)}\n" + 'cloth sail: "sail"\n'
    text += f"piece flap of sail: {mm(width)} x {mm(height)}, bottom pointed {mm(deep)}\n"
    text += f"piece tab of sail: {mm(width)} x {mm(height)}, bottom corners clipped {mm(deep)}\n"
    text += f"hem flap edges by {mm(allowance)}\nhem tab edges by {mm(allowance)}\n"
    recipe = stitchlang.read("units mm\n" + text)
    w, h, d = float(width), float(height), float(deep)

    assert not recipe.slips
    for name, points in (
        ("flap", [(0, h), (w, h), (w, d), (w / 2, 0), (0, d)]),
        ("tab", [(0, h), (w, h), (w, d), (w - d, 0), (d, 0), (0, d)]),
    ):
        assert sorted(sides_of(recipe, name)) == pytest.approx(inside(points, allowance), abs=1e-6)


@unhurried
@given(sizes, sizes, quarters, quarters, allowances)
def test_polygons_against_shapely(width, height, one, other, allowance):
    """Any convex outline by its corners: every stitched side is shapely's."""
    points = [(0, height), (width, height), (width, height * one), (width * (1 - other), 0), (width * other / 2, 0)]
    corners = ", ".join(f"{mm(x)} x {mm(y)} side{n}" for n, (x, y) in enumerate(points))
    recipe = stitchlang.read(
        f'units mm\ncloth sail: "sail"\npiece flap of sail: polygon {corners}\nhem flap edges by {mm(allowance)}\n'
    )

    assert not recipe.slips
    floats = [(float(x), float(y)) for x, y in points]
    assert sorted(sides_of(recipe, "flap")) == pytest.approx(inside(floats, allowance), abs=1e-6)
