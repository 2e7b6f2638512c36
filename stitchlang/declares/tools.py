"""What it is sewn with: the machine as its maker or owner states it, and reels of thread."""

from __future__ import annotations

from ..bench import span
from ..ground.lengths import read_number
from ..model.recipe import Stuff
from .heading import unquoted

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable
    from fractions import Fraction

    from ..bench import Bench
    from ..ground.text import Span
    from ..ground.working import Working
    from ..reading.tree import Node, Token


def fact(part: Node, bench: Bench) -> Working | Fraction | int | str | None:
    """The value of one fact, or None with a slip."""
    if part.rule == "called":
        return unquoted(part.word())
    if part.rule in ("plies", "needle"):
        return bench.whole_number(part.word())
    if part.rule == "tex":
        return number(part.word(), bench)
    return bench.length(part.parts[0], {"thick": "what the machine sews", "stitch": "stitch length"}[part.rule])


def number(token: Token, bench: Bench) -> Fraction | None:
    """A number above nothing, or None with a slip."""
    try:
        found = read_number(token.text)
    except ValueError:
        bench.recipe.slip("number-too-long", span(token))
    except ZeroDivisionError:
        bench.recipe.slip("division-by-zero", span(token))
    else:
        if found > 0:
            return found
        bench.recipe.slip("length-below-nothing", span(token), says="tex", mm=0)
    return None


def gathered(parts: Iterable[Node], one: Tool, bench: Bench) -> None:
    """Put the facts that parts state into a tool; a slip for one stated twice."""
    for part in parts:
        if part.rule in one.facts:
            bench.recipe.slip("said-twice", span(part), what=part.rule)
        found = fact(part, bench)
        if found is not None:
            one.facts[part.rule] = found
            one.places[part.rule] = span(part)
    one.called = one.facts.get("called", "")


class Tool(Stuff):
    """Stuff whose facts have places of their own: some are plain numbers, which carry none."""

    def __init__(self, kind: str, name: str, at: Span) -> None:
        super().__init__(kind, name, at)
        self.places = {}


def machine(node: Node, bench: Bench) -> None:
    """machine: "domestic", 6 mm thick, needle 90, stitch 2.5 mm: what it sews, as it is stated."""
    one = Tool("machine", "machine", span(node))
    gathered(node.phrases(), one, bench)
    if bench.recipe.machine is not None:
        bench.recipe.slip("said-twice", span(node), what="machine")
    bench.recipe.machine = one


def reel(node: Node, bench: Bench) -> None:
    """reel black: "polyester", tex 40: the sewing thread.  It is used by whatever is sewn."""
    token = node.word()
    one = Tool("reel", token.text, span(token))
    gathered(node.phrases(), one, bench)
    if bench.claim_name(token):
        bench.recipe.stuff[token.text] = one
