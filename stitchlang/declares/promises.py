"""What a finished thing is held against: the sizes promised, the sizes a sample came to, what it is to hold."""

from ..bench import span
from .heading import unquoted


class Claim:
    """One promised measure, or one measured on a sample: which thing, which measure, how long, how near."""

    def __init__(self, thing, measure, length, at):
        self.thing = thing
        self.measure = measure
        self.length = length
        self.at = at
        self.within = None


class Content:
    """What a thing is to hold: its name, its three sizes (the third None for something flat), the ease round it."""

    def __init__(self, thing, name, sizes, ease, at):
        self.thing = thing
        self.name = name
        self.sizes = sizes
        self.ease = ease
        self.at = at


def claims_of(node, thing, says, bench):
    """The claims of a statement: one a length and dimension."""
    claims = []
    for part in node.every("claim"):
        length = bench.length(part.parts[0], says)
        measure = part.phrase(1).word().text
        for word in part.parts[2:]:
            measure += f" {'at ' if word.rule == 'where' else ''}{word.parts[0].text}"
        if thing is not None and length is not None:
            claims.append(Claim(thing, measure, length, span(part)))
    if thing is not None:
        thing.used_by.append(node)
    return claims


def finished(node, bench):
    """finished bag: 10 1/4 wide at top, 10 1/2 tall, within 1/8"""
    claims = claims_of(node, bench.thing(node.parts[0]), "claimed size", bench)
    within = bench.clause_length(node, "within", "claimed tolerance")
    for claim in claims:
        claim.within = within
    bench.recipe.claims += claims


def made(node, bench):
    """made bag: 10 1/8 wide at top, 10 3/8 tall: what a tester measured on a sewn sample"""
    bench.recipe.samples += claims_of(node, bench.thing(node.parts[0]), "measured size", bench)


def holds(node, bench):
    """holds bag: "book", 8 x 10 1/2 x 1, ease 1/2"""
    thing, name, *rest = node.parts
    ease = bench.clause_length(node, "ease_of", "ease", nothing=True)
    sizes = [bench.length(part, "size of what it holds") for part in rest if getattr(part, "rule", "") != "ease_of"]
    thing = bench.thing(thing)
    if thing is not None and None not in sizes:
        thing.used_by.append(node)
        bench.recipe.contents.append(Content(thing, unquoted(name), sizes, ease, span(node)))
