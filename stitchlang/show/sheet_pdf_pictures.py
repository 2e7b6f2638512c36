"""Our own SVG pages as drawings of the PDF's: lines stay lines and words stay words.

No general reader of SVG: it knows what `svg.Page` puts on a page, and leaves out hatching.
"""

from __future__ import annotations

import re
from math import atan2, cos, pi, sin, sqrt

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from xml.etree.ElementTree import Element

    from reportlab.graphics.shapes import Circle, Drawing, Ellipse, Group, Path, Rect, Shape
    from reportlab.lib.colors import Color

    from ..work.shape import At
    from .svg import Page

# Line width and dashes of each looks, as `svg.STYLE` has them.
LOOKS: dict[str, tuple[float, tuple[float, ...] | None]] = {
    "cut": (2.2, None),
    "stitch": (1.2, (6, 4)),
    "later": (1.4, (12, 3, 2, 3, 2, 3)),
    "fold": (1.4, (14, 4, 3, 4)),
    "grain": (1.6, None),
    "placed": (1.6, (2, 3)),
    "rows": (1, (2, 3)),
    "seam": (0.9, None),
    "dim": (0.8, None),
    "line": (1.2, None),
    "hidden": (1, (3, 4)),
    "shade": (1.6, None),
    "panel": (1, None),
    "disc": (1, None),
}
FILLED = {"shade": "#efefec", "tip": "#1b1b1b", "panel": "#ffffff", "placed": "#ffffff"}
COLOUR = {"placed": "#8a3b00", "rows": "#8a3b00"}
INK = "#1b1b1b"
SIZES = {"small": 11, "title": 18}
LEFT_OUT = ("hatched", "paper")
PARTS = 24  # straight parts that an arc is drawn with


def flowable(page: Page, wide: float, tall: float, written: Callable[[str], str]) -> Drawing:
    """A page of ours as something reportlab lays out, no larger than that; `written` makes words fit its fonts."""
    from reportlab.graphics.shapes import Drawing, Group

    left, top, across, down = map(float, page.root.get("viewBox", "").split())
    scale = min(wide / across, tall / down)
    group = Group(transform=(scale, 0, 0, -scale, -left * scale, (top + down) * scale))
    for element in page.root:
        looks = element.get("class", "").split(" ")[0]
        if looks in LEFT_OUT or element.get("stroke") == "none":
            continue
        if element.tag == "text":
            group.add(text(element, looks, written))
        elif element.tag in SHAPES:
            group.add(shape(element, looks))
    drawing = Drawing(across * scale, down * scale)
    drawing.add(group)
    return drawing


def shape(element: Element, looks: str) -> Shape:
    """A path, circle, ellipse or rectangle in its looks."""
    found = SHAPES[element.tag](element)
    width, dashes = LOOKS.get(looks, (0, None))
    fill = FILLED.get(looks)
    found.strokeWidth, found.strokeDashArray = width, dashes
    found.strokeColor = colour(COLOUR.get(looks, INK)) if width else None
    found.fillColor = colour(fill) if fill else None
    return found


def colour(code: str) -> Color:
    from reportlab.lib.colors import HexColor

    return HexColor(code)


def text(element: Element, looks: str, written: Callable[[str], str]) -> Group:
    """Words, turned back upright: the page's y runs down."""
    from reportlab.graphics.shapes import Group, String

    x, y = numbers(element, "x", "y")
    turned = re.match(r"rotate\((-?[\d.]+)", element.get("transform", ""))
    angle = float(turned[1]) * pi / 180 if turned else 0
    words = String(0, 0, written("".join(element.itertext())), fontSize=SIZES.get(looks, 13), fillColor=colour(INK))
    words.fontName = "Helvetica-Bold" if looks in ("strong", "title") else "Helvetica"
    words.textAnchor = element.get("text-anchor", "start")
    return Group(words, transform=(cos(angle), sin(angle), sin(angle), -cos(angle), x, y))


def numbers(element: Element, *names: str) -> list[float]:
    return [float(element.get(name, 0)) for name in names]


def rectangle(element: Element) -> Rect:
    from reportlab.graphics.shapes import Rect

    return Rect(*numbers(element, "x", "y", "width", "height"))


def circle(element: Element) -> Circle:
    from reportlab.graphics.shapes import Circle

    return Circle(*numbers(element, "cx", "cy", "r"))


def ellipse(element: Element) -> Ellipse:
    from reportlab.graphics.shapes import Ellipse

    return Ellipse(*numbers(element, "cx", "cy", "rx", "ry"))


def path(element: Element) -> Path:
    """The path data that `svg.path_of` and the projections write."""
    from reportlab.graphics.shapes import Path

    found, at = Path(), (0.0, 0.0)
    for letter, given in re.findall(r"([MLHVAZ])([^MLHVAZ]*)", element.get("d", "")):
        values = [float(one) for one in given.split()]
        if letter == "Z":
            found.closePath()
            continue
        end = reached(letter, values, at)
        if letter == "M":
            found.moveTo(*end)
        else:
            for point in arc(at, values, end) if letter == "A" else [end]:
                found.lineTo(*point)
        at = end
    return found


def reached(letter: str, values: Sequence[float], at: At) -> At:
    """Where a part of a path ends that begins at a point."""
    if letter == "H":
        return values[0], at[1]
    return (at[0], values[0]) if letter == "V" else (values[-2], values[-1])


def arc(start: At, values: Sequence[float], end: At) -> Iterator[At]:
    """Points along an arc of no more than half a turn, by its two radii and the way it turns."""
    rx, ry, clockwise = values[0] or 1, values[1] or 1, values[4]
    (x1, y1), (x2, y2) = ((x / rx, y / ry) for x, y in (start, end))  # where it is part of a circle of radius one
    across, down = (x2 - x1) / 2, (y2 - y1) / 2
    half = sqrt(across**2 + down**2) or 1
    away = sqrt(max(0, 1 - half**2)) / half * (1 if clockwise else -1)
    centre = ((x1 + x2) / 2 - down * away, (y1 + y2) / 2 + across * away)
    begins, ends = (atan2(y - centre[1], x - centre[0]) for x, y in ((x1, y1), (x2, y2)))
    turn = (ends - begins) % (2 * pi) if clockwise else -((begins - ends) % (2 * pi))
    reach = max(1, half)
    for part in range(1, PARTS):
        angle = begins + turn * part / PARTS
        yield (centre[0] + reach * cos(angle)) * rx, (centre[1] + reach * sin(angle)) * ry
    yield end


SHAPES = {"rect": rectangle, "circle": circle, "ellipse": ellipse, "path": path}
