"""What a finished thing is held against: the sizes promised, the sizes a sample came to, what it is to hold."""

from __future__ import annotations

from ..bench import span
from .heading import unquoted

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..bench import Bench
    from ..ground.text import Span
    from ..ground.working import Working
    from ..model.kinds import AnyThing
    from ..reading.tree import Node


class Claim:
    """One promised measure, or one measured on a sample: which thing, which measure, how long, how near."""

    def __init__(self, thing: AnyThing, measure: str, length: Working, at: Span) -> None:
        self.thing = thing
        self.measure = measure
        self.length = length
        self.at = at
        self.within: Working | None = None


class Content:
    """What a thing is to hold: its name, its sizes (two of something flat), the ease round it."""

    def __init__(self, thing: AnyThing, name: str, sizes: list[Working], ease: Working | None, at: Span) -> None:
        self.thing = thing
        self.name = name
        self.sizes = sizes
        self.ease = ease
        self.at = at


def claims_of(node: Node, thing: AnyThing | None, says: str, bench: Bench) -> list[Claim]:
    """The claims of a statement: one a length and dimension."""
    claims: list[Claim] = []
    for part in node.every("claim"):
        length = bench.length(part.parts[0], says)
        measure = part.phrase(1).word().text
        for rule, at in (("where", "at "), ("state", "")):
            measure += "".join(f" {at}{phrase.word().text}" for phrase in part.every(rule))
        if thing is not None and length is not None:
            claims.append(Claim(thing, measure, length, span(part)))
    if thing is not None:
        thing.used_by.append(node)
    return claims


def finished(node: Node, bench: Bench) -> None:
    """finished bag: 10 1/4 wide at top, 10 1/2 tall, within 1/8"""
    claims = claims_of(node, bench.thing(node.word()), "claimed size", bench)
    within = bench.clause_length(node, "within", "claimed tolerance")
    for claim in claims:
        claim.within = within
    bench.recipe.claims += claims


def made(node: Node, bench: Bench) -> None:
    """made bag: 10 1/8 wide at top, 10 3/8 tall: what a tester measured on a sewn sample"""
    bench.recipe.samples += claims_of(node, bench.thing(node.word()), "measured size", bench)


def holds(node: Node, bench: Bench) -> None:
    """holds bag: "book", 8 x 10 1/2 x 1, ease 1/2"""
    ease = bench.clause_length(node, "ease_of", "ease", nothing=True)
    found = [bench.length(part, "size of what it holds") for part in node.parts[2:] if part.rule != "ease_of"]
    sizes = [size for size in found if size is not None]
    thing = bench.thing(node.word())
    if thing is not None and len(sizes) == len(found):
        thing.used_by.append(node)
        bench.recipe.contents.append(Content(thing, unquoted(node.word(1)), sizes, ease, span(node)))
