"""Stuff: what is bought or salvaged, from cloth to rivets."""

from __future__ import annotations

from ..bench import span
from ..ground.lengths import LONGEST_NUMBER, mass_parts, read_number
from ..ground.text import Span
from ..ground.working import Working
from ..model.outline import rectangle
from ..model.recipe import Stuff
from ..model.things import Zip
from .heading import unquoted

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..bench import Bench
    from ..model.kinds import Facts
    from ..reading.tree import Node, Token

LENGTHS = ("thick", "wide", "long", "tape_wide", "tape_long", "across", "inside")


def facts(node: Node, bench: Bench) -> Facts:
    """The facts behind the colon, by name; a slip for one given twice."""
    found: Facts = {}
    for part in node.phrases():
        if part.rule in found:
            bench.recipe.slip("said-twice", span(part), what=part.rule.replace("_", " "))
        if part.rule in LENGTHS:
            found[part.rule] = bench.length(part.parts[0], part.rule.replace("_", " "))
        elif part.rule == "called":
            found["called"] = unquoted(part.word())
        elif part.rule == "kind":
            found["kind"] = part.word().text
        elif part.rule == "count":
            found["count"] = bench.whole_number(part.word())
        elif part.rule == "mass":
            found["mass"] = mass(part.word(), bench)
        else:
            found[part.rule] = True
    return {name: fact for name, fact in found.items() if fact is not None}


def mass(token: Token, bench: Bench) -> str | None:
    """A written mass per area, kept as text until somebody weighs with it; None with a slip."""
    number, _ = mass_parts(token.text)
    if len(number) > LONGEST_NUMBER:
        bench.recipe.slip("number-too-long", span(token))
    elif not read_number(number):
        bench.recipe.slip("length-below-nothing", span(token), says="mass", mm=0)
    else:
        return token.text
    return None


def stuff(node: Node, bench: Bench) -> Stuff:
    """cloth sail: "sailcloth", 0.6 mm thick, 54 wide (and the other kinds alike)."""
    token = node.word()
    one = Stuff(node.rule, token.text, span(token))
    one.facts = facts(node, bench)
    one.ends = Span(node.end, node.end)
    one.count_at = next((span(part.word()) for part in node.every("count")), None)
    one.called = one.facts.get("called", "")
    if bench.claim_name(token):
        bench.recipe.stuff[token.text] = one
    return one


def zip(node: Node, bench: Bench) -> None:
    """zip mouth: metal, 8 long, tape 1 1/4 wide: stuff, and a thing that is sewn."""
    one = stuff(node, bench)
    thing = Zip(one.name, one.at, one)
    overall = thing.overall = one.facts.get("tape_long")
    nothing = Working(0, "unknown", one.at)
    length = overall or one.facts.get("long") or nothing
    thing.edges = rectangle(thing, length, one.facts.get("tape_wide") or nothing)
    bench.recipe.things.setdefault(one.name, thing)


KINDS = (
    *("cloth", "interfacing", "batting", "webbing", "ribbon", "elastic", "binding", "cord"),
    *("snap", "touch", "button", "ring", "slider", "hook", "eyelet", "rivet"),
)
