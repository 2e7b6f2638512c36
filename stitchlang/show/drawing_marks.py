"""The marks on a drawing: grain, folds, what is placed and where something is set, with dimensions to the cut edges.

Double-ended arrow: grain.  Bent arrow with two heads: place on the fold.  Solid line: cut.  Dashed line within: stitch.
So an open course book of the University of Arkansas has them, in its appendix of pattern symbols:
uark.pressbooks.pub/introapparelproductionworkbook/chapter/c-pattern-symbols/
No international standard for these marks is known to us, so every drawing has a legend.
"""

from __future__ import annotations

from math import cos, sin

from .room import around, words_box
from .svg import shortened, wide

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..model.placing import Spot
    from ..work.shape import At, Run
    from ..work.sketch import Mark, Placed
    from .drawing import Drawing
    from .kinds import Reach


def grain(drawn: Drawing) -> None:
    """A double-ended arrow up the piece, clear of what is placed on it; beside the piece where there is no room."""
    for share in (0.5, 0.25, 0.75, 0.15, 0.85):
        across = drawn.frame[0] + drawn.wide * share
        for low, high in ((0.2, 0.8), (0.62, 0.9), (0.1, 0.3), (0.76, 0.96), (0.03, 0.2)):
            reach = (across - 9, drawn.frame[1] + drawn.tall * low, across + 9, drawn.frame[1] + drawn.tall * high)
            if drawn.room.free(reach) and reach[3] - reach[1] > 30:
                return grain_at(drawn, across, reach)
    across = drawn.frame[0] - 60
    return grain_at(drawn, across, (across - 9, drawn.frame[1], across + 9, drawn.frame[1] + max(drawn.tall, 40)))


def grain_at(drawn: Drawing, across: float, reach: Reach) -> None:
    drawn.room.take(reach)
    drawn.page.arrow((across, reach[1]), (across, reach[3]), "grain", 9)
    drawn.use("grain")


def fold_line(drawn: Drawing, one: At, other: At) -> None:
    """Where the panel is folded."""
    drawn.page.line(one, other, "fold")
    if abs(one[0] - other[0]) < abs(one[1] - other[1]):
        drawn.room.take((one[0] - 3, one[1], other[0] + 3, other[1]))
    drawn.use("fold")


def fold_arrow(drawn: Drawing) -> None:
    """A line along the fold, both ends bent toward it."""
    if drawn.fold is None or drawn.side is None:
        return
    one, other = (drawn.at(point) for point in drawn.fold)
    drawn.page.line(one, other, "fold")
    inward = {"left": (1, 0), "right": (-1, 0), "top": (0, 1), "bottom": (0, -1)}[drawn.side]
    bend, along = 16, 0.15
    feet = [
        (one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share) for share in (along, 1 - along)
    ]
    bends = [(x + inward[0] * bend, y + inward[1] * bend) for x, y in feet]
    drawn.page.line(bends[0], bends[1], "line")
    for foot, corner in zip(feet, bends, strict=True):
        drawn.page.arrow(corner, foot, "line", 8, both=False)
        drawn.room.take(around(foot, corner))
    drawn.room.take(around(bends[0], bends[1], 9))
    drawn.use("on fold")


def pocket_box(drawn: Drawing, placed: Placed) -> Reach:
    """(left, top, right, bottom) of what is placed, on the page."""
    left, top = drawn.at((placed.left, placed.top))
    return left, top, left + placed.wide * drawn.scale, top + placed.tall * drawn.scale


def pocket(drawn: Drawing, placed: Placed) -> None:
    """What is placed on the panel, with the rows that divide it."""
    left, top, right, bottom = pocket_box(drawn, placed)
    drawn.page.rectangle(left, top, right - left, bottom - top, "placed")
    for row in placed.rows:
        x = left + row * drawn.scale
        drawn.page.line((x, top), (x, bottom), "rows")
        drawn.room.take((x - 2, top, x + 2, bottom))
    drawn.use("opening" if placed.opening else "placed")


def pocket_words(drawn: Drawing, placed: Placed) -> None:
    """The name and the size of what is placed; how far it lies from the cut edges."""
    left, top, right, bottom = reach = pocket_box(drawn, placed)
    size = " x ".join(drawn.speech.length(one) for one in placed.size)
    for words, looks, points in ((placed.name, "strong", 13), (size, "small", 11)):
        room = max(right - left - 8, 60)
        if words == size and wide(size, points) > room:
            continue  # a number cut short would be another number
        words = shortened(words, room, points)
        downs = (0.45, 0.3, 0.7, 0.15) if points == 13 else (0.62, 0.8, 0.35, 0.92)
        shares = [(across, down) for down in downs for across in (0.5, 0.3, 0.7)]
        places = [(left + (right - left) * across, top + (bottom - top) * down) for across, down in shares]
        places += [((left + right) / 2, at) for at in (bottom + 15, top - 7, bottom + 31, top - 23)]
        chosen = drawn.room.place(words_box(place, words, size=points) for place in places)
        drawn.page.words(places[chosen], words, looks, "middle")
    offsets(drawn, placed.spot, reach)
    drawn.room.take(reach)


def offsets(drawn: Drawing, spot: Spot, reach: Reach) -> None:
    """Dimension lines from the cut edges that a spot is measured from."""
    edges = dict(zip(("left", "top", "right", "bottom"), drawn.frame, strict=True))
    near = dict(zip(edges, reach, strict=True))
    for side, length in spot.offsets.items():
        words = drawn.speech.length(length)
        upright = side in ("top", "bottom")
        low, high = (reach[0], reach[2]) if upright else (reach[1], reach[3])
        half_word = wide(words, 11) / 2 + 6
        tried = []
        for along in (0.5, 0.3, 0.7, 0.15, 0.85):
            for share in (0.5, 0.3, 0.7, 0.15, 0.85):
                aside, middle = low + (high - low) * share, edges[side] + (near[side] - edges[side]) * along
                for move in (half_word, -half_word, half_word + 30, -half_word - 30) if upright else (-5, 14, -21, 30):
                    place = (aside + move, middle + 4) if upright else (middle, aside + move)
                    tried.append((aside, place))
        chosen = drawn.room.place(words_box(place, words, size=11) for _, place in tried)
        aside, place = tried[chosen]
        one, other = ((aside, at) if upright else (at, aside) for at in (edges[side], near[side]))
        drawn.page.arrow(one, other)
        drawn.page.words(place, words, "small", "middle")
        drawn.room.take(around(one, other, 3))


def spot(drawn: Drawing, mark: Mark, told: bool = True) -> None:
    """A cross where something is set, with a circle as wide as it is; `told` is its name and where it stands."""
    at = drawn.at((mark.left, mark.top))
    reach = float(mark.across.mm) * drawn.scale / 2 if mark.across is not None else 5
    drawn.page.circle(at, reach, "line")
    arm = reach + 4
    drawn.page.line((at[0] - arm, at[1]), (at[0] + arm, at[1]), "line")
    drawn.page.line((at[0], at[1] - arm), (at[0], at[1] + arm), "line")
    drawn.room.take((at[0] - arm, at[1] - arm, at[0] + arm, at[1] + arm))
    drawn.use("set")
    if not told:
        return
    aside = arm + 6
    places = [
        (at[0] + aside, at[1] + 5, "start"),
        (at[0] - aside, at[1] + 5, "end"),
        (at[0], at[1] + aside + 9, "middle"),
        (at[0], at[1] - aside, "middle"),
        *((at[0] + across, at[1] + down, "start") for across in (aside, aside + 24) for down in (20, -12, 36, -28)),
        *((at[0] - across, at[1] + down, "end") for across in (aside, aside + 24) for down in (20, -12, 36, -28)),
    ]
    chosen = drawn.room.place(words_box(place[:2], mark.name, place[2]) for place in places)
    drawn.page.words(places[chosen][:2], mark.name, "strong", places[chosen][2])
    offsets(drawn, mark.spot, (*at, *at))


def outside(drawn: Drawing, run: Run, by: float, along: float = 0) -> At:
    """A point so far outside the middle of a run, and so far along it, on the page."""
    point, heading = run.middle
    at = drawn.at(point)
    return at[0] + by * sin(heading) + along * cos(heading), at[1] - by * cos(heading) + along * sin(heading)
