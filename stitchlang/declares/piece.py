"""Pieces: what is cut, from what, how many, and to which outline."""

from ..bench import span
from ..ground.lengths import root
from ..ground.working import Working, total
from ..model import outline
from ..model.things import OPPOSITE, SIDES, Piece
from .stuff import whole_number

FROM = ("cloth", "webbing", "interfacing")


def piece(node, bench):
    """piece front, back of sail: 11 x 12 1/2, cut 2, with crisp"""
    *names, stuff_name = node.words()
    stuff = bench.stuff(stuff_name, FROM, "a cloth or webbing")
    shape = next(part for part in node.parts if part.rule in SHAPES)
    sizes = [bench.length(part, "size") for part in shape.parts]
    for token in names:
        one = Piece(token.text, span(token), stuff, node)
        if stuff is not None:
            stuff.used_by.append(one)
        if None not in sizes:
            SHAPES[shape.rule](one, sizes, node, bench)
        _facts(one, node, bench)
        if bench.claim_name(token) and None not in sizes:
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
    one.edges = outline.rectangle(one, width, height)
    for rounding in node.every("rounded"):
        _rounded(one, rounding, bench)


def _rounded(one, rounding, bench):
    side, length = rounding.parts
    radius = bench.length(length, f"corner radius of {one.name}")
    edge = next((edge for edge in one.edges if edge.name == side.text), None)
    if edge is None or side.text not in OPPOSITE:
        bench.recipe.slip("unknown-edge", span(side), name=side.text, panel=one, known=list(SIDES))
    else:
        radius = radius or Working(min(one.width.mm, one.height.mm) / 4, "unknown radius")
        if 2 * radius.mm > min(one.width.mm, one.height.mm):
            bench.recipe.slip("corner-too-round", span(length), piece=one, radius=radius)
            radius = Working(min(one.width.mm, one.height.mm) / 2, radius.says, radius.at)
        for before in (edge.before, edge):
            outline.round_off(one.edges, before, radius)


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


SHAPES = {"rectangle": _rectangle, "circle": _circle, "tapered": _tapered}


def _facts(one, node, bench):
    one.shape = next(part.rule for part in node.parts if part.rule in SHAPES)
    count = node.first("cut")
    if count is not None:
        one.count = whole_number(count.parts[0], bench) or 1
    stiffened = node.first("stiffened")
    if stiffened is not None:
        one.stiffening = bench.stuff(stiffened.parts[0], ("interfacing",), "an interfacing")
        if one.stiffening is not None:
            one.stiffening.used_by.append(one)
