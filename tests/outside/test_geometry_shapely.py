"""Our stitched lengths against the plane geometry of shapely, on random outlines with unequal allowances.

Shapely knows nothing of sewing.  It is given the cut outline and asked for the
region inside every stitch line: at an outward corner the half-planes inside
the two lines intersect, at a corner cut into the cloth they unite, since the
lines there cross beyond the corner.  What of the region's boundary lies on an
edge's line is that edge's stitched length.

Source of every expected value: GEOS by way of shapely, shapely.readthedocs.io
(Polygon, intersection, union, buffer).
"""

from fractions import Fraction
from itertools import pairwise
from math import ceil
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point, Polygon, box
from shapely.geometry import LineString

from stitchlang.ground.lengths import root
from stitchlang.ground.working import NOTHING, Working
from stitchlang.model import outline

unhurried = settings(deadline=None)
FAR = 1e4  # mm: farther than any piece here
CLOSE = 1e-6
SIDES = ("top", "right", "bottom", "left")
CORNERS = ("bottom_left", "bottom_right")

sizes = st.fractions(100, 600, max_denominator=64)
allowances = st.fractions(0, 10, max_denominator=64)
four_allowances = st.fixed_dictionaries({side: allowances for side in SIDES})
squares = st.fractions(12, 38, max_denominator=64)  # more than any allowance; two and theirs leave some of any side


# ------------------------------------------------------------------ ours
def given_length(mm):
    return Working(mm, "given")


def panel():
    """What an outline asks of its piece: a name."""
    return SimpleNamespace(name="front", shown={})


def our_rectangle(width, height):
    return outline.rectangle(panel(), given_length(width), given_length(height))


def sewn(edges, taken):
    """Give each edge its allowance; an edge that takes None is a fold."""
    for edge in edges:
        mm = taken[edge.name]
        fold = mm is None
        fate = outline.Fate("folded" if fold else "seam", NOTHING if fold else given_length(mm), None)
        edge.fates.append(fate)
    return {edge.name: outline.stitched(edge).mm for edge in edges}


def notched(width, height, cuts):
    """A rectangle with its bottom corners cut: corner to (across, up)."""
    edges = our_rectangle(width, height)
    for corner, (across, up) in cuts.items():
        # Clockwise: right, bottom, left.  An upright edge comes before the right corner, a level one before the left.
        first = next(edge for edge in edges if edge.name == ("right" if corner == "bottom_right" else "bottom"))
        outline.cut_corner(edges, first, given_length(across), given_length(up), corner, corner == "bottom_right")
    return edges


# ------------------------------------------------------------------ shapely's
def line_of(start, end, allowance):
    """The line of a clockwise edge moved inward: a point on it, its direction, its inward normal."""
    start, end = np.array(start, float), np.array(end, float)
    along = (end - start) / np.linalg.norm(end - start)
    inward = np.array([along[1], -along[0]])
    return start + inward * float(allowance or 0), along, inward


def inside(line):
    """The half-plane inside a stitch line, as far as it matters."""
    at, along, inward = line
    near, far = at - FAR * along, at + FAR * along
    return Polygon([near, far, far + FAR * inward, near + FAR * inward])


def region_inside(outer, arms, taken):
    """Inside every outer edge's line, and at each notch inside the one arm's line or the other's."""
    lines = {name: line_of(*ends, taken[name]) for name, ends in {**outer, **arms}.items()}
    region = box(-FAR, -FAR, FAR, FAR)
    for name in outer:
        region = region.intersection(inside(lines[name]))
    for corner in CORNERS:
        if f"{corner}_up" in arms:
            region = region.intersection(inside(lines[f"{corner}_up"]).union(inside(lines[f"{corner}_across"])))
    return region, lines


def lengths_on_lines(region, ends, lines):
    """How much of a region's boundary lies on each edge's line; of two edges in one line, on the nearer."""
    found = dict.fromkeys(lines, 0.0)
    points = np.array(region.exterior.coords)
    for start, end in pairwise(points):
        on = [
            name
            for name, (at, _, inward) in lines.items()
            if abs((start - at) @ inward) < CLOSE and abs((end - at) @ inward) < CLOSE
        ]
        if on:
            middle = Point((start + end) / 2)
            owner = min(on, key=lambda name: LineString(ends[name]).distance(middle))
            found[owner] += float(np.linalg.norm(end - start))
    return found


def shapely_lengths(outer, taken, arms=None):
    arms = arms or {}
    region, lines = region_inside(outer, arms, taken)
    return lengths_on_lines(region, {**outer, **arms}, lines)


def corners_of(width, height, top=None):
    """The four edges of a panel, clockwise from its top left corner; `top` where it is not as wide."""
    width, height = float(width), float(height)
    lean = 0 if top is None else (width - float(top)) / 2
    points = [(lean, height), (width - lean, height), (width, 0), (0, 0)]
    return {side: (points[at], points[(at + 1) % 4]) for at, side in enumerate(SIDES)}


def with_notches(width, height, cuts):
    """The outer edges shortened by the notches, and the arms of each notch: the cut outline itself."""
    outer, arms = corners_of(width, height), {}
    w = float(width)
    for corner, (across, up) in cuts.items():
        c, u = float(across), float(up)
        if corner == "bottom_left":
            outer["bottom"], outer["left"] = (outer["bottom"][0], (c, 0)), ((0, u), outer["left"][1])
            arms["bottom_left_up"], arms["bottom_left_across"] = ((c, 0), (c, u)), ((c, u), (0, u))
        else:
            outer["right"], outer["bottom"] = (outer["right"][0], (w, u)), ((w - c, 0), outer["bottom"][1])
            arms["bottom_right_across"], arms["bottom_right_up"] = ((w, u), (w - c, u)), ((w - c, u), (w - c, 0))
    return outer, arms


def agree(ours, theirs):
    """The same edges, and the same length on each within a millionth."""
    return ours.keys() == theirs.keys() and all(
        float(ours[name]) == pytest.approx(theirs[name], rel=CLOSE, abs=CLOSE) for name in ours
    )


# ------------------------------------------------------------------ straight outlines
@unhurried
@given(sizes, sizes, four_allowances)
def test_rectangle(width, height, taken):
    """Each side of a rectangle loses the allowances of its two neighbours."""
    ours = sewn(our_rectangle(width, height), taken)

    assert agree(ours, shapely_lengths(corners_of(width, height), taken))


@st.composite
def leaning(draw):
    """(top, bottom, height): the sides lean at most 45 degrees, so that no edge is used up."""
    top, bottom = draw(sizes), draw(sizes)
    return top, bottom, draw(st.fractions(max(100, ceil(abs(top - bottom) / 2)), 600, max_denominator=64))


@unhurried
@given(leaning(), four_allowances)
def test_tapered_panel(shape, taken):
    """A tapered panel is measured between the crossings of its moved lines, whichever end is wider."""
    top, bottom, height = shape
    slant = root(height**2 + ((top - bottom) / 2) ** 2)
    ours = sewn(outline.tapered(panel(), *map(given_length, (top, bottom, height, slant))), taken)

    assert agree(ours, shapely_lengths(corners_of(bottom, height, top), taken))


cuts_of_bottom = st.dictionaries(st.sampled_from(CORNERS), st.tuples(squares, squares), min_size=1)
CLOCKWISE = "top right bottom_right_across bottom_right_up bottom bottom_left_up bottom_left_across left".split()
ARMS = [f"{corner}_{arm}" for corner in CORNERS for arm in ("across", "up")]


@unhurried
@given(sizes, sizes, cuts_of_bottom, four_allowances, st.fixed_dictionaries(dict.fromkeys(ARMS, allowances)))
def test_notched_rectangle(width, height, cuts, sides, arms):
    """One or two notched corners, all allowances unlike: at the reflex corner each arm gains the other's allowance."""
    taken = {**sides, **arms}
    ours = sewn(notched(width, height, cuts), taken)
    outer, cut_arms = with_notches(width, height, cuts)

    assert agree(ours, shapely_lengths(outer, taken, cut_arms))


@unhurried
@given(sizes, sizes, squares, four_allowances, allowances)
def test_boxing_seam_length(width, height, square, sides, boxing):
    """Both panels' arms together are the depth, 2 (c + b - s) with the side's s one way and the bottom's the other."""
    cuts = {corner: (square, square) for corner in CORNERS}
    taken = {**sides, **dict.fromkeys(ARMS, boxing)}
    outer, arms = with_notches(width, height, cuts)
    theirs = shapely_lengths(outer, taken, arms)
    ours = sewn(notched(width, height, cuts), taken)

    for arm, neighbour in zip(ARMS, ("left", "bottom", "right", "bottom"), strict=True):
        depth = 2 * (square + boxing - sides[neighbour])

        assert 2 * ours[arm] == depth
        assert float(depth) == pytest.approx(2 * theirs[arm], rel=CLOSE)


@unhurried
@given(sizes, sizes, cuts_of_bottom, st.fractions(0, 10, max_denominator=64))
def test_equal_allowance_is_a_mitred_inset(width, height, cuts, taken):
    """With one allowance all round, shapely's own mitred buffer gives the same stitch line, reflex corners and all."""
    outer, arms = with_notches(width, height, cuts)
    ends = {**outer, **arms}
    cut = Polygon([ends[name][0] for name in CLOCKWISE if name in ends])
    region = cut.buffer(-float(taken), join_style="mitre", mitre_limit=10)
    lines = {name: line_of(*edge, taken) for name, edge in ends.items()}
    ours = sewn(notched(width, height, cuts), dict.fromkeys(ends, taken))

    assert agree(ours, lengths_on_lines(region, ends, lines))
    assert float(sum(ours.values())) == pytest.approx(region.length, rel=CLOSE)


# ------------------------------------------------------------------ folded halves
@unhurried
@given(sizes, sizes, four_allowances)
def test_folded_half(width, height, sides):
    """Half a piece on a fold has half the whole piece's stitch line: the fold gives up nothing."""
    taken = {**sides, "bottom": None}
    whole_edges = corners_of(width, 2 * height)
    region, lines = region_inside(whole_edges, {}, sides)
    upper = region.intersection(box(-FAR, float(height), FAR, FAR))
    fold = ((float(width), float(height)), (0.0, float(height)))
    lines["bottom"], whole_edges["bottom"] = line_of(*fold, 0), fold
    ours = sewn(our_rectangle(width, height), taken)

    assert agree(ours, lengths_on_lines(upper, whole_edges, lines))


@unhurried
@given(sizes, sizes, squares, squares, four_allowances, allowances)
def test_notch_on_a_fold(width, height, across, up, sides, boxing):
    """Beside a fold the upright arm gives up nothing at its foot, the level arm still gives up the side's allowance."""
    cuts = {corner: (across, up) for corner in CORNERS}
    taken = {**sides, "bottom": None, **dict.fromkeys(ARMS, boxing)}
    outer, arms = with_notches(width, height, cuts)
    ours = sewn(notched(width, height, cuts), taken)

    assert ours["bottom_left_up"] == up + boxing
    assert agree(ours, shapely_lengths(outer, taken, arms))


# ------------------------------------------------------------------ arcs
# Chords for a quarter of a circle.  More would not be better: shapely's buffer simplifies what it is given, by up to
# a hundredth of its distance, and would drop some of them.  (For the same reason rounded corners are not buffered.)
QUADRANT = 32
CHORD = np.pi / 2 / QUADRANT  # the angle of one


def chord_error(radius, angle):
    """How far a line of chords may be from its arc, at any inset.

    The chords lie up to r d^2 / 8 inside the arc and cut d^2 / 24 of its length, d their angle; inset, they
    stand round a circle and add d^2 / 12.  No more than r d^2 / 4 for each radian.
    """
    return float(radius) * angle * CHORD**2 / 4


@unhurried
@given(st.fractions(100, 500, max_denominator=64), st.fractions(0, 40, max_denominator=64))
def test_circle(across, taken):
    """A circle's stitch line is shapely's disc buffered inward by the allowance."""
    ours = sewn(outline.circle(panel(), given_length(across)), {"edge": taken})
    disc = Point(0, 0).buffer(float(across) / 2, quad_segs=QUADRANT).buffer(-float(taken))

    assert float(ours["edge"]) == pytest.approx(disc.length, abs=chord_error(across / 2, 2 * np.pi))


ROUND = {  # corner: the edge it follows, its place in units of the size, the angle its arc sets out from, clockwise
    "top_right": ("top", (1, 1), np.pi / 2),
    "bottom_right": ("right", (1, 0), 0.0),
    "bottom_left": ("bottom", (0, 0), -np.pi / 2),
    "top_left": ("left", (0, 1), np.pi),
}


def rounded_polygon(width, height, radius, corners):
    """A rectangle, clockwise, with an arc of many chords at each of these corners."""
    points = []
    for corner, (_, (right, up), out) in ROUND.items():
        if corner in corners:
            centre = np.array([radius + right * (width - 2 * radius), radius + up * (height - 2 * radius)])
            angles = out - np.linspace(0, np.pi / 2, QUADRANT + 1)
            points += list(centre + radius * np.column_stack([np.cos(angles), np.sin(angles)]))
        else:
            points.append(np.array([right * width, up * height]))
    return Polygon(points)


def inset(convex, taken):
    """Inside every moved line of a convex outline, those of its chords too."""
    region = convex
    for start, end in pairwise(convex.exterior.coords):
        region = region.intersection(inside(line_of(start, end, taken)))
    return region


@unhurried
@given(
    sizes,
    sizes,
    st.fractions(2, 45, max_denominator=64),
    st.fractions(0, 20, max_denominator=64),
    st.sets(st.sampled_from(sorted(ROUND)), min_size=1),
)
def test_rounded_corners(width, height, radius, taken, corners):
    """(r - s) times the angle at each arc; where s outgrows r the corner is a point and the straight edges meet."""
    edges = our_rectangle(width, height)
    for corner in corners:
        before = next(edge for edge in edges if edge.name == ROUND[corner][0])
        outline.round_off(edges, before, given_length(radius))
    ours = sewn(edges, {edge.name: taken for edge in edges})
    region = inset(rounded_polygon(float(width), float(height), float(radius), corners), taken)
    ends = corners_of(width, height)
    straight = lengths_on_lines(region, ends, {side: line_of(*ends[side], taken) for side in SIDES})
    per_end = float(taken) * CHORD / 2 + CLOSE  # where a straight edge meets the first chord

    assert float(sum(ours.values())) == pytest.approx(
        region.length, abs=chord_error(radius, len(corners) * np.pi / 2) + CLOSE
    )
    for side in SIDES:
        assert float(ours[side]) == pytest.approx(straight[side], abs=2 * per_end)


def test_allowance_as_wide_as_the_radius():
    """A 10 mm corner sewn at 10 mm is a square corner on the stitch line: 100 by 80 gives 80 by 60."""
    edges = our_rectangle(Fraction(100), Fraction(80))
    for side in SIDES:
        outline.round_off(edges, next(edge for edge in edges if edge.name == side), given_length(Fraction(10)))
    ours = sewn(edges, {edge.name: Fraction(10) for edge in edges})
    region = inset(rounded_polygon(100.0, 80.0, 10.0, set(ROUND)), 10)

    assert [ours[side] for side in SIDES] == [80, 60, 80, 60]
    assert sum(ours.values()) == 280
    assert region.length == pytest.approx(280, rel=CHORD**2)
