"""Claims: the finished sizes that the recipe promises."""

from ..bench import span


class Claim:
    """One promised measure: which thing, which measure, how long, how near."""

    def __init__(self, thing, measure, length, at):
        self.thing = thing
        self.measure = measure
        self.length = length
        self.at = at
        self.within = None


def finished(node, bench):
    """finished bag: 10 1/4 wide at top, 10 1/2 tall, within 1/8"""
    thing = bench.thing(node.parts[0])
    claims = []
    for part in node.every("claim"):
        length = bench.length(part.parts[0], "claimed size")
        measure = part.parts[1].parts[0].text
        for word in part.parts[2:]:
            measure += f" {'at ' if word.rule == 'where' else ''}{word.parts[0].text}"
        if thing is not None and length is not None:
            claims.append(Claim(thing, measure, length, span(part)))
    within = bench.clause_length(node, "within", "claimed tolerance")
    for claim in claims:
        claim.within = within
    bench.recipe.claims += claims
    if thing is not None:
        thing.used_by.append(node)
