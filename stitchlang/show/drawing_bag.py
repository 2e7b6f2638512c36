"""A finished bag in a simple projection, with its measures: a flat bag, a box, one with a flat mouth, a drum."""

from __future__ import annotations

from ..model.measures import measures
from .svg import Page, number, shortened

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from typing import TypeAlias

    from ..model.measures import Measures
    from ..model.recipe import Recipe
    from ..model.things import Shell
    from ..speech import Speech
    from ..work.shape import At

    Form: TypeAlias = "Callable[[Page, Bag], float]"  # draws a bag, and says how far down the page it reaches

SIZE = 330  # pixels: the longest measure drawn
LEFT, TOP, ACROSS = 150, 130, 720
SLANT = 0.354  # depth runs up to the right at 45 degrees, drawn half as long


class Bag:
    """A shell's measures, scaled: what the projections are made of."""

    def __init__(self, shell: Shell, found: Measures, speech: Speech) -> None:
        self.name = shell.name
        self.found = found
        self.speech = speech
        self.flat_mouth = bool(shell.boxings) or shell.pinch is not None or "wide at top" in found
        sizes = {name: float(working.mm) for name, working in found.items()}
        longest = max([sizes[name] for name in sizes if name != "around"], default=1) or 1
        self.px = {name: max(size, 0) * SIZE / longest for name, size in sizes.items()}

    def size(self, *names: str) -> tuple[str | None, float]:
        """(the first of these measures there is, its pixels), or (None, 0)."""
        for name in names:
            if name in self.px:
                return name, self.px[name]
        return None, 0

    def says(self, name: str) -> str:
        """`wide at top 10 1/4 in`."""
        return f"{name} {self.speech.length(self.found[name])}"


def bags(recipe: Recipe) -> Iterator[tuple[Shell, Measures]]:
    """(shell, its measures) for every bag, pouch or tube that became no part of another."""
    for thing in recipe.made:
        if thing.kind == "shell" and thing.inside is None and recipe.things.get(thing.name) is thing:
            yield thing, measures(thing)


def bag_drawing(shell: Shell, found: Measures, recipe: Recipe, speech: Speech) -> str:
    """The SVG text of a finished bag."""
    bag = Bag(shell, found, speech)
    told = ", ".join(bag.says(name) for name in found) or "no finished measure is known"
    page = Page(ACROSS, 600, f"{shell.name}, finished", f"A simple projection. Finished: {told}.")
    page.words((24, 32), shortened(f"{shell.name}, finished", ACROSS - 48, 18), "title")
    page.words((24, 52), shortened(f"{recipe.title}", ACROSS - 48), "small")
    page.words((24, 70), "A simple projection, not a likeness; finished measures, along the stitch lines.", "small")
    bottom = form_of(bag)(page, bag)
    for at, name in enumerate(found):
        page.words((24, bottom + 40 + 18 * at), bag.says(name), "small")
    page.reach(bottom + 60 + 18 * len(found))
    return page.text()


def form_of(bag: Bag) -> Form:
    """Which projection suits the measures that a bag has."""
    if "across" in bag.found:
        return drum
    if "tall folded" in bag.found:
        return folded_up
    if "deep" not in bag.found:
        return flat
    return flat_mouthed if bag.flat_mouth else block


def shape(page: Page, *points: At, looks: str = "shade") -> None:
    page.path("M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + "Z", looks)


def level(page: Page, bag: Bag, name: str | None, left: float, right: float, y: float) -> None:
    """A dimension below or above: from left to right at that height."""
    if name is not None:
        page.arrow((left, y), (right, y))
        page.words(((left + right) / 2, y - 6), bag.says(name), anchor="middle")


def upright(page: Page, bag: Bag, name: str | None, x: float, top: float, bottom: float) -> None:
    """A dimension at the left."""
    if name is not None:
        page.arrow((x, top), (x, bottom))
        page.words((x - 8, (top + bottom) / 2), bag.says(name), anchor="middle", turn=-90)


def flat(page: Page, bag: Bag) -> float:
    """Two panels lying flat."""
    (top_name, top), (base_name, base) = bag.size("wide at top", "wide"), bag.size("wide at base", "wide")
    tall_name, tall = bag.size("tall", "long")
    top, base, tall = top or base or SIZE / 2, base or top or SIZE / 2, tall or SIZE / 2
    centre, low = LEFT + max(top, base) / 2, TOP + tall
    half, foot = top / 2, base / 2
    shape(page, (centre - half, TOP), (centre + half, TOP), (centre + foot, low), (centre - foot, low))
    level(page, bag, top_name, centre - half, centre + half, TOP - 16)
    if base_name != top_name:
        level(page, bag, base_name, centre - foot, centre + foot, low + 34)
    upright(page, bag, tall_name, LEFT - 24, TOP, low)
    return low + 34


def folded_up(page: Page, bag: Bag) -> float:
    """A front folded up over its back, and the flap above it, open."""
    wide_name, wide = bag.size("wide", "wide at top")
    wide, front, flap = wide or SIZE / 2, bag.px["tall folded"], bag.px["tall at flap"]
    left, right, fold, low = LEFT, LEFT + wide, TOP + flap, TOP + flap + front
    shape(page, (left, TOP), (right, TOP), (right, fold), (left, fold), looks="panel")
    shape(page, (left, fold), (right, fold), (right, low), (left, low))
    level(page, bag, wide_name, left, right, low + 30)
    upright(page, bag, "tall folded", left - 24, fold, low)
    if flap:
        page.arrow((right + 24, TOP), (right + 24, fold))
        page.words((right + 34, TOP + flap / 2), bag.says("tall at flap"))
    return low + 36


def block(page: Page, bag: Bag) -> float:
    """A box as deep at its mouth as at its base, seen obliquely."""
    wide_name, wide = bag.size("wide", "wide at base")
    tall_name, tall = bag.size("tall")
    wide, tall, slant = wide or SIZE / 2, tall or SIZE / 2, bag.px["deep"] * SLANT
    top, left = TOP + slant, LEFT
    right, low = left + wide, top + tall
    shape(page, (left, top), (right, top), (right, low), (left, low))
    shape(page, (right, top), (right + slant, top - slant), (right + slant, low - slant), (right, low))
    shape(page, (left, top), (left + slant, top - slant), (right + slant, top - slant), (right, top), looks="panel")
    level(page, bag, wide_name, left, right, low + 30)
    upright(page, bag, tall_name, left - 24, top, low)
    page.arrow((right + 14, low + 6), (right + slant + 14, low - slant + 6))
    page.words((right + slant / 2 + 26, low - slant / 2 + 22), bag.says("deep"))
    return low + 36


def flat_mouthed(page: Page, bag: Bag) -> float:
    """A boxed bag, its mouth held flat: a line above the middle of its base; side seams run down to the base."""
    (top_name, top), (base_name, base) = (
        bag.size("wide at top", "wide"),
        bag.size("wide at base", "wide at top", "wide"),
    )
    tall_name, tall = bag.size("tall")
    tall, slant = tall or SIZE / 2, bag.px["deep"] * SLANT
    left = LEFT + max(0, (top - base) / 2)
    low = TOP + tall + slant / 2
    front, back = [(left, low), (left + base, low)], [(left + base + slant, low - slant), (left + slant, low - slant)]
    centre = left + base / 2 + slant / 2
    mouth = [(centre - top / 2, TOP), (centre + top / 2, TOP)]
    shape(page, mouth[1], front[1], back[0])
    shape(page, mouth[0], mouth[1], front[1], front[0])
    page.line(front[0], back[1], "hidden")
    page.line(back[1], back[0], "hidden")
    page.line(mouth[0], back[1], "hidden")
    seam = (left + base + slant / 2, low - slant / 2)
    page.line(mouth[1], seam, "stitch")
    level(page, bag, top_name, mouth[0][0], mouth[1][0], TOP - 16)
    if base_name != top_name:
        level(page, bag, base_name, left, left + base, low + 30)
    upright(page, bag, tall_name, min(mouth[0][0], left) - 24, TOP, low - slant / 2)
    page.arrow((front[1][0] + 14, low + 6), (back[0][0] + 14, low - slant + 6))
    page.words((seam[0] + 28, seam[1] + 20), bag.says("deep"))
    return low + 36


def drum(page: Page, bag: Bag) -> float:
    """A round bag: its base is a circle."""
    name, across = bag.size("across")
    tall_name, tall = bag.size("tall")
    tall = tall or across / 8
    tilt = across * 0.16
    left, top = LEFT, TOP + tilt
    right, low = left + across, top + tall
    rx, ry = number(across / 2), number(tilt)
    page.path(
        f"M{number(left)} {number(top)}V{number(low)}A{rx} {ry} 0 0 0 {number(right)} {number(low)}V{number(top)}Z",
        "shade",
    )
    page.path(f"M{number(left)} {number(low)}A{rx} {ry} 0 0 1 {number(right)} {number(low)}", "hidden")
    page.put("ellipse", "panel", cx=(left + right) / 2, cy=top, rx=across / 2, ry=tilt)
    level(page, bag, name, left, right, low + tilt + 34)
    upright(page, bag, tall_name, left - 24, top, low)
    return low + tilt + 36
