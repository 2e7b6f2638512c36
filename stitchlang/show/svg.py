"""An SVG page: shapes and words put on it, written out with a title and a description for screen readers.

Every mark has a line style of its own, so that no colour carries a meaning alone.  Colours turn with the reader's light
or dark setting.
"""

from __future__ import annotations

import unicodedata
from math import pi
from xml.etree import ElementTree

from ..ground.text import plain

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence
    from xml.etree.ElementTree import Element

    from ..work.shape import Arc, At, Run

SPACE = "http://www.w3.org/2000/svg"
STYLE = """
svg { color: #1b1b1b; background: #fff }
text { font: 13px "DejaVu Sans", Verdana, Arial, sans-serif; fill: currentColor;
  paint-order: stroke; stroke: #fff; stroke-width: 3px; stroke-linejoin: round }
.paper { fill: #fff }
.title { font-size: 18px; font-weight: bold }
.small { font-size: 11px }
.strong { font-weight: bold }
.cut, .stitch, .later, .fold, .grain, .spot, .row, .dim, .line, .box, .seam { fill: none; stroke: currentColor }
.cut { stroke-width: 2.2 }
.stitch { stroke-width: 1.2; stroke-dasharray: 6 4 }
.later { stroke-width: 1.4; stroke-dasharray: 12 3 2 3 2 3 }
.fold { stroke-width: 1.4; stroke-dasharray: 14 4 3 4 }
.grain { stroke-width: 1.6 }
.placed { fill: #fff; stroke: #8a3b00; stroke-width: 1.6; stroke-dasharray: 2 3 }
.rows { fill: none; stroke: #8a3b00; stroke-width: 1; stroke-dasharray: 2 3 }
.seam { stroke-width: 0.9 }
.dim { stroke-width: 0.8 }
.line { stroke-width: 1.2 }
.hidden { fill: none; stroke: currentColor; stroke-width: 1; stroke-dasharray: 3 4 }
.hatched { fill: url(#hatch); stroke: none }
.tip { fill: currentColor; stroke: none }
.disc, .node, .panel { fill: #fff; stroke: currentColor }
.shade { fill: #efefec; stroke: currentColor; stroke-width: 1.6 }
.hatch-line { stroke: currentColor; stroke-width: 0.7; opacity: 0.45 }
@media (prefers-color-scheme: dark) {
  svg { color: #ececec; background: #16181b }
  .paper, .placed, .disc, .node, .panel { fill: #16181b }
  .placed, .rows { stroke: #ffb27a }
  text { stroke: #16181b }
  .shade { fill: #25282c }
}
"""


def wide(words: str, size: float = 13) -> float:
    """About how wide words come out, in pixels: generous, since the reader's fonts are not known."""
    return size * sum(1.0 if unicodedata.east_asian_width(letter) in "WF" else 0.62 for letter in words)


def shortened(words: str, room: float, size: float = 13) -> str:
    """Words cut to what fits in that many pixels, with a mark where something is left out."""
    if wide(words, size) <= room:
        return words
    while words and wide(words, size) + size > room:
        words = words[:-1]
    return words.rstrip() + "…"


def clean(words: str) -> str:
    """Words as XML can hold them: on one line, nothing that moves a cursor or breaks a file."""
    return plain(" ".join(str(words).split()))


def number(value: float) -> str:
    """A coordinate, to a thousandth, without idle noughts."""
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")


def path_of(runs: Sequence[Run], scale: float = 1, across: float = 0, down: float = 0, closed: bool = True) -> str:
    """Runs as path data; arcs stay arcs, those of more than half a turn as two."""

    def place(point: At) -> str:
        return f"{number(point[0] * scale + across)} {number(point[1] * scale + down)}"

    parts, at = [f"M{place(runs[0].start)}"], runs[0].start
    for run in runs:
        if run.start != at:
            parts.append(f"L{place(run.start)}")
        if run.arc:
            radius = number(run.arc[1] * scale)
            parts += [f"A{radius} {radius} 0 0 1 {place(end)}" for end in ends(run.arc, run.end)]
        else:
            parts.append(f"L{place(run.end)}")
        at = run.end
    return "".join(parts) + ("Z" if closed else "")


def ends(arc: Arc, end: At) -> list[At]:
    """Where an arc's parts end, none of them longer than half a turn."""
    from ..work.shape import round_about

    centre, radius, begins, sweep = arc
    parts = 1 if sweep < pi * 0.99 else 2 if sweep < pi * 1.98 else 3
    points = [round_about(centre, radius, begins + sweep * part / parts) for part in range(1, parts)]
    return [*points, end]


class Page:
    """One drawing under way."""

    def __init__(self, wide: float, tall: float, title: str, told: str, unit: str = "", style: str = STYLE) -> None:
        self.root = ElementTree.Element(
            "svg",
            {
                "xmlns": SPACE,
                "role": "img",
                "aria-labelledby": "title desc",
                "width": f"{number(wide)}{unit}",
                "height": f"{number(tall)}{unit}",
                "viewBox": f"0 0 {number(wide)} {number(tall)}",
            },
        )
        for name, words in (("title", title), ("desc", told)):
            ElementTree.SubElement(self.root, name, {"id": name}).text = clean(words)
        ElementTree.SubElement(self.root, "style").text = style
        hatch = ElementTree.SubElement(ElementTree.SubElement(self.root, "defs"), "pattern", HATCH)
        ElementTree.SubElement(hatch, "path", {"d": "M0 0V6", "class": "hatch-line"})
        self.paper = self.rectangle(0, 0, wide, tall, "paper")
        self.wide, self.unit = wide, unit

    def reach(self, tall: float) -> None:
        """Give the page another height, once it is known how far down it goes."""
        self.root.set("height", f"{number(tall)}{self.unit}")
        self.root.set("viewBox", f"0 0 {number(self.wide)} {number(tall)}")
        self.paper.set("height", number(tall))

    def crop(self, left: float, top: float, right: float, bottom: float) -> None:
        """Show no more than this part of the page."""
        wide, tall = number(right - left), number(bottom - top)
        self.root.set("viewBox", f"{number(left)} {number(top)} {wide} {tall}")
        self.root.set("width", f"{wide}{self.unit}")
        self.root.set("height", f"{tall}{self.unit}")

    def put(self, name: str, looks: str, **facts: str | float) -> Element:
        """Put a shape on the page."""
        given = {key.replace("_", "-"): number(it) if isinstance(it, (int, float)) else it for key, it in facts.items()}
        return ElementTree.SubElement(self.root, name, {"class": looks, **given})

    def rectangle(
        self, left: float, top: float, across: float, down: float, looks: str, **facts: str | float
    ) -> Element:
        return self.put("rect", looks, x=left, y=top, width=across, height=down, **facts)

    def line(self, one: At, other: At, looks: str) -> Element:
        return self.put("path", looks, d=f"M{number(one[0])} {number(one[1])}L{number(other[0])} {number(other[1])}")

    def path(self, data: str, looks: str, **facts: str | float) -> Element:
        return self.put("path", looks, d=data, **facts)

    def circle(self, at: At, radius: float, looks: str) -> Element:
        return self.put("circle", looks, cx=at[0], cy=at[1], r=radius)

    def words(self, at: At, text: str, looks: str = "", anchor: str = "start", turn: int = 0) -> Element:
        """Words whose baseline begins (or has its middle, or end) at a point."""
        facts = {"text_anchor": anchor} if anchor != "start" else {}
        if turn:
            facts["transform"] = f"rotate({turn} {number(at[0])} {number(at[1])})"
        put = self.put("text", looks, x=at[0], y=at[1], **facts)
        put.text = clean(text)
        return put

    def hint(self, shape: Element, words: str) -> None:
        """What is shown when the reader points at a shape; its own words come after it."""
        told = ElementTree.SubElement(shape, "title")
        told.text, told.tail, shape.text = clean(words), shape.text, None

    def arrow(self, one: At, other: At, looks: str = "dim", size: float = 7, both: bool = True) -> None:
        """A line with a filled tip at its end, or at both."""
        self.line(one, other, looks)
        self.tip(one, other, size)
        if both:
            self.tip(other, one, size)

    def tip(self, tail: At, head: At, size: float = 7) -> None:
        """An arrow's tip at `head`, seen from `tail`."""
        across, down = head[0] - tail[0], head[1] - tail[1]
        length = (across * across + down * down) ** 0.5 or 1
        across, down = across / length * size, down / length * size
        points = [
            head,
            (head[0] - across - down * 0.4, head[1] - down + across * 0.4),
            (head[0] - across + down * 0.4, head[1] - down - across * 0.4),
        ]
        self.path("M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + "Z", "tip")

    def text(self) -> str:
        """The page as a file's text."""
        ElementTree.indent(self.root, " ")
        return ElementTree.tostring(self.root, encoding="unicode") + "\n"


HATCH = {
    "id": "hatch",
    "width": "6",
    "height": "6",
    "patternUnits": "userSpaceOnUse",
    "patternTransform": "rotate(45)",
}
