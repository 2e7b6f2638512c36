"""Pieces: what is cut, from what, how many, and to which outline."""

from ..bench import span
from ..ground.lengths import root
from ..ground.working import Working, total
from ..model import outline, shapes
from ..model.outline import Fate
from ..model.things import OPPOSITE, SIDES, WOVEN, Piece

FROM = ("cloth", "interfacing", "batting", *WOVEN)
CORNERS = ("rounded", "clipped")


def piece(node, bench):
    """piece front, back of sail: 11 x 12 1/2, cut 2, with crisp"""
    *names, stuff_name = node.words()
    stuff = bench.stuff(stuff_name, FROM, "a cloth or webbing")
    shape = next(part for part in node.parts if part.rule in SHAPES)
    sizes = [bench.length(part, "size") for part in shape.parts if part.rule != "corner"]
    for token in names:
        one = Piece(token.text, span(token), stuff, node)
        if stuff is not None:
            stuff.used_by.append(one)
        if None not in sizes:
            SHAPES[shape.rule](one, sizes, node, bench)
        _facts(one, node, bench)
        if bench.claim_name(token) and one.width is not None:
            bench.recipe.things[token.text] = one
            bench.recipe.pieces.append(one)


def _named(size, says):
    return Working(size.mm, says, size.at)


def _rectangle(one, sizes, node, bench):
    width, height = (_named(size, f"{one.name} is {what}") for size, what in zip(sizes, ("wide", "tall"), strict=True))
    fold = node.first("on_fold")
    if fold is not None:
        side = fold.parts[0]
        if side.text not in SIDES:
            bench.recipe.slip("unknown-edge", span(side), name=side.text, panel=one, known=list(SIDES))
        one.on_fold = side.text
        if side.text in ("left", "right"):
            width = total(f"{one.name} unfolded is wide", (2, width))
        else:
            height = total(f"{one.name} unfolded is tall", (2, height))
    one.width, one.height = width, height
    point = node.first("pointed")
    one.edges = _pointed(one, point, bench) if point is not None else outline.rectangle(one, width, height)
    for part in node.parts:
        if part.rule in CORNERS:
            _corners(one, part, bench)


def _pointed(one, point, bench):
    """The edges of a piece with one side pointed; a plain rectangle, with a slip, where that cannot be."""
    side, length = point.parts
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


def _corners(one, part, bench):
    """Round or clip the two corners at a side."""
    side = part.parts[0]
    edge = next((edge for edge in one.edges if edge.name == side.text), None)
    if edge is None or side.text not in OPPOSITE or (one.point is not None and one.point[0] == side.text):
        bench.recipe.slip("unknown-edge", span(side), name=side.text, panel=one, known=list(SIDES))
    elif not {edge.before.name, edge.after.name} <= set(SIDES):
        bench.recipe.slip("said-twice", span(part), what=f"shape of the {side.text} corners")
    elif part.rule == "clipped":
        _clipped(one, edge, part, bench)
    else:
        _rounded(one, edge, part.parts[1], bench)


def _clipped(one, edge, part, bench):
    sizes = [bench.length(size, f"clipped corner of {one.name}") for size in part.parts[1:]]
    across, up = sizes[0], sizes[-1]
    if across is None or up is None:
        return
    for size, most in ((across, one.width), (up, one.height)):
        if 2 * size.mm >= most.mm:
            bench.recipe.slip("corner-too-large", size.at, piece=one, size=size, most=most)
            return
    one.clipped.append((part.parts[0].text, across, up))
    for before in (edge.before, edge):
        shapes.clip(one.edges, before, across, up)


def _rounded(one, edge, length, bench):
    radius = bench.length(length, f"corner radius of {one.name}")
    if edge is not None:
        radius = radius or Working(min(one.width.mm, one.height.mm) / 4, "unknown radius")
        if 2 * radius.mm > min(one.width.mm, one.height.mm):
            bench.recipe.slip("corner-too-round", span(length), piece=one, radius=radius)
            radius = Working(min(one.width.mm, one.height.mm) / 2, radius.says, radius.at)
        for before in (edge.before, edge):
            outline.round_off(one.edges, before, radius)


def _polygon(one, _, node, bench):
    """Corners in order, clockwise, each with the edge that runs on from it."""
    corners = node.first("polygon").parts
    points = [tuple(bench.coordinate(part) for part in corner.parts[:2]) for corner in corners]
    names, at = [corner.parts[2].text for corner in corners], [span(corner) for corner in corners]
    broken = any(None in point for point in points)
    edges = None if broken or len(points) < 3 else shapes.polygon(one, points, names, at)
    if edges is None or any(shapes.straight(edge.corner_after) for edge in edges):
        if not broken:
            bench.recipe.slip("outline-not-closed", span(node.first("polygon")), piece=one)
        return  # without an outline it is no piece: what names it is told nothing further
    one.edges, one.corners = edges, points
    whole = span(node.first("polygon"))
    for name, number in (("width", 0), ("height", 1)):
        reach = [point[number] for point in points]
        word = "wide" if name == "width" else "tall"
        setattr(one, name, Working(max(reach) - min(reach), f"{one.name} is {word}", whole))


def _circle(one, sizes, node, bench):
    across = _named(sizes[0], f"{one.name} is across")
    one.width = one.height = across
    one.edges = outline.circle(one, across)


def _tapered(one, sizes, node, bench):
    top, bottom, height = (
        _named(size, f"{one.name} is {what}")
        for size, what in zip(sizes, ("wide at top", "wide at bottom", "tall"), strict=True)
    )
    slant = root(height.mm**2 + ((top.mm - bottom.mm) / 2) ** 2)
    side = Working(slant, f"{one.name} slanted side", height.at)
    one.width, one.height = max(top, bottom, key=lambda width: width.mm), height
    one.edges = outline.tapered(one, top, bottom, height, side)


SHAPES = {"rectangle": _rectangle, "circle": _circle, "tapered": _tapered, "polygon": _polygon}


def _facts(one, node, bench):
    one.shape = next(part.rule for part in node.parts if part.rule in SHAPES)
    count = node.first("cut")
    if count is not None:
        one.count = bench.whole_number(count.parts[0]) or 1
    stiffened = node.first("stiffened")
    if one.salvaged:
        for edge in one.edges:
            edge.fates.append(Fate("found", None, None))
    if stiffened is not None:
        fused = stiffened.first("fused")
        one.fused = " ".join(word.text for word in fused.parts) if fused is not None else "net"
        one.stiffening = bench.stuff(stiffened.parts[0], ("interfacing", "batting"), "an interfacing or batting")
        if one.stiffening is not None:
            one.stiffening.used_by.append(one)
