"""Pieces: what is cut, from what, how many, and to which outline."""

from __future__ import annotations

from ..bench import span
from ..ground.lengths import root
from ..ground.text import Span
from ..ground.working import Working, total
from ..model import outline, shapes
from ..model.outline import Fate
from ..model.things import OPPOSITE, SIDES, WOVEN, Piece

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from fractions import Fraction
    from typing import TypeAlias

    from ..bench import Bench
    from ..model.outline import Edge
    from ..reading.tree import Node, Token

    Corner: TypeAlias = tuple[Fraction, Fraction]  # across and up
    # Gives a piece its outline, from its sizes and the phrase that says its shape.
    Shaping: TypeAlias = Callable[[Piece, Sequence[Working], Node, Bench], None]

FROM = ("cloth", "interfacing", "batting", *WOVEN)
CORNERS = ("rounded", "clipped")
OF_RECTANGLES = (*CORNERS, "pointed", "on_fold")  # what is said of a piece stated across x up, and of no other


def piece(node: Node, bench: Bench) -> None:
    """piece front, back of sail: 11 x 12 1/2, cut 2, with crisp"""
    *names, stuff_name = node.words()
    stuff = bench.stuff(stuff_name, FROM, "a cloth or webbing")
    shape = next(part for part in node.phrases() if part.rule in SHAPES)
    found = [bench.length(part, "size") for part in shape.parts if part.rule != "corner"]
    sizes = [size for size in found if size is not None]
    for token in names:
        one = Piece(token.text, span(token), stuff, node)
        if stuff is not None:
            stuff.used_by.append(one)
        if len(sizes) == len(found):
            SHAPES[shape.rule](one, sizes, shape, bench)
        one.shape = shape.rule
        _facts(one, bench)
        if shape.rule != "rectangle" and token is names[0]:  # said once, whatever number of pieces it says it of
            for part in (part for part in node.phrases() if part.rule in OF_RECTANGLES):
                bench.recipe.slip("fact-of-a-rectangle", span(part), piece=one)
        if bench.claim_name(token) and one.width is not None:
            bench.recipe.things[token.text] = one
            bench.recipe.pieces.append(one)


def _named(size: Working, says: str) -> Working:
    return Working(size.mm, says, size.at)


def _rectangle(one: Piece, sizes: Sequence[Working], _: Node, bench: Bench) -> None:
    width, height = (_named(size, f"{one.name} is {what}") for size, what in zip(sizes, ("wide", "tall"), strict=True))
    fold = one.node.first("on_fold")
    if fold is not None:
        side = fold.word()
        if side.text not in SIDES:
            bench.recipe.slip("unknown-edge", span(side), name=side.text, panel=one, known=list(SIDES))
        one.on_fold = side.text
        if side.text in ("left", "right"):
            width = total(f"{one.name} unfolded is wide", (2, width))
        else:
            height = total(f"{one.name} unfolded is tall", (2, height))
    one.width, one.height = width, height
    point = one.node.first("pointed")
    one.edges = _pointed(one, point, bench) if point is not None else outline.rectangle(one, width, height)
    for part in one.node.phrases():
        if part.rule in CORNERS:
            _corners(one, part, bench)


def _pointed(one: Piece, point: Node, bench: Bench) -> list[Edge]:
    """The edges of a piece with one side pointed; a plain rectangle, with a slip, where that cannot be."""
    side, length = point.word(), point.parts[1]
    depth = bench.length(length, f"point of {one.name}")
    if side.text not in OPPOSITE:
        bench.recipe.slip("unknown-edge", span(side), name=side.text, panel=one, known=list(SIDES))
    elif depth is not None:
        most = one.height if side.text in ("top", "bottom") else one.width
        if depth.mm < most.mm:
            one.point = (side.text, depth)
            return shapes.pointed(one, one.width, one.height, side.text, depth)
        bench.recipe.slip("corner-too-large", span(length), piece=one, size=depth, most=most)
    return outline.rectangle(one, one.width, one.height)


def _corners(one: Piece, part: Node, bench: Bench) -> None:
    """Round or clip the two corners at a side."""
    side = part.word()
    edge = next((edge for edge in one.edges if edge.name == side.text), None)
    if edge is None or side.text not in OPPOSITE or (one.point is not None and one.point[0] == side.text):
        bench.recipe.slip("unknown-edge", span(side), name=side.text, panel=one, known=list(SIDES))
    elif not {edge.before.name, edge.after.name} <= set(SIDES):
        bench.recipe.slip("said-twice", span(part), what=f"shape of the {side.text} corners")
    elif part.rule == "clipped":
        _clipped(one, edge, part, bench)
    else:
        _rounded(one, edge, part.parts[1], bench)


def _clipped(one: Piece, edge: Edge, part: Node, bench: Bench) -> None:
    sizes = [(bench.length(size, f"clipped corner of {one.name}"), span(size)) for size in part.parts[1:]]
    (across, first), (up, last) = sizes[0], sizes[-1]
    if across is None or up is None:
        return
    for size, at, most in ((across, first, one.width), (up, last, one.height)):
        if 2 * size.mm >= most.mm:
            bench.recipe.slip("corner-too-large", at, piece=one, size=size, most=most)
            return
    one.clipped.append((part.word().text, across, up))
    for before in (edge.before, edge):
        shapes.clip(one.edges, before, across, up)


def _rounded(one: Piece, edge: Edge, length: Node | Token, bench: Bench) -> None:
    least = min(one.width.mm, one.height.mm)
    radius = bench.length(length, f"corner radius of {one.name}") or Working(least / 4, "unknown radius")
    if 2 * radius.mm > least:
        bench.recipe.slip("corner-too-round", span(length), piece=one, radius=radius)
        radius = Working(least / 2, radius.says, radius.at)
    for before in (edge.before, edge):
        outline.round_off(one.edges, before, radius)


def _polygon(one: Piece, _: Sequence[Working], shape: Node, bench: Bench) -> None:
    """Corners in order, clockwise, each with the edge that runs on from it."""
    corners = [*shape.phrases(), *one.node.every("corner")]
    whole = Span(shape.start, corners[-1].end)
    points = [point for corner in corners if (point := _corner(corner, bench)) is not None]
    names, at = [corner.word(2).text for corner in corners], [span(corner) for corner in corners]
    broken = len(points) < len(corners)
    edges = None if broken or len(points) < 3 else shapes.polygon(one, points, names, at)
    if edges is None or any(shapes.straight(edge.corner_after) for edge in edges):
        if not broken:
            bench.recipe.slip("outline-not-closed", whole, piece=one)
        return  # without an outline it is no piece: what names it is told nothing further
    one.edges, one.corners = edges, points
    across, up = zip(*points, strict=True)
    one.width = Working(max(across) - min(across), f"{one.name} is wide", whole)
    one.height = Working(max(up) - min(up), f"{one.name} is tall", whole)


def _corner(corner: Node, bench: Bench) -> Corner | None:
    """Where a corner of a polygon lies; None, with a slip, where that cannot be read."""
    across, up = (bench.coordinate(part) for part in corner.parts[:2])
    return (across, up) if across is not None and up is not None else None


def _circle(one: Piece, sizes: Sequence[Working], _: Node, bench: Bench) -> None:
    across = _named(sizes[0], f"{one.name} is across")
    one.width = one.height = across
    one.edges = outline.circle(one, across)


def _tapered(one: Piece, sizes: Sequence[Working], _: Node, bench: Bench) -> None:
    top, bottom, height = (
        _named(size, f"{one.name} is {what}")
        for size, what in zip(sizes, ("wide at top", "wide at bottom", "tall"), strict=True)
    )
    slant = root(height.mm**2 + ((top.mm - bottom.mm) / 2) ** 2)
    side = Working(slant, f"{one.name} slanted side", height.at)
    one.width, one.height = max(top, bottom, key=lambda width: width.mm), height
    one.edges = outline.tapered(one, top, bottom, height, side)


SHAPES: dict[str, Shaping] = {"rectangle": _rectangle, "circle": _circle, "tapered": _tapered, "polygon": _polygon}


def _facts(one: Piece, bench: Bench) -> None:
    node = one.node
    one.count = bench.count(node, "cut")
    stiffened = node.first("stiffened")
    if one.salvaged:
        for edge in one.edges:
            edge.fates.append(Fate("found", None, None))
    if stiffened is not None:
        fused = stiffened.first("fused")
        one.fused = " ".join(word.text for word in fused.words()) if fused is not None else "net"
        one.stiffening = bench.stuff(stiffened.word(), ("interfacing", "batting"), "an interfacing or batting")
        if one.stiffening is not None:
            one.stiffening.used_by.append(one)
