"""The heading and the frame: recipe, revision, units, allowance, tolerance, part, note, allow, let."""

from __future__ import annotations

from ..bench import span
from ..model.quantity import Trouble, value
from ..model.spread import Accuracy

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from fractions import Fraction

    from ..bench import Bench
    from ..ground.text import Span
    from ..reading.tree import Node, Token


def unquoted(token: Token) -> str:
    """The words between the quotes."""
    return token.text[1:-1]


def recipe(node: Node, bench: Bench) -> None:
    """recipe "Harbour tote": what the good is called; in a used file, what its steps are headed by."""
    if not bench.recipe.source.is_own(node.start):
        bench.part = unquoted(node.word())
        return
    if bench.recipe.title:
        bench.recipe.slip("said-twice", span(node), what="recipe")
    bench.recipe.title = unquoted(node.word())


def revision(node: Node, bench: Bench) -> None:
    """revision "B": which state of the design this is."""
    bench.recipe.revision = unquoted(node.word())


def units(node: Node, bench: Bench) -> None:
    """units in: what a number without a unit is measured in."""
    if bench.recipe.unit is not None:
        bench.recipe.slip("said-twice", span(node), what="units")
    bench.recipe.unit = node.phrase().word().text


def allowance(node: Node, bench: Bench) -> None:
    """allowance 3/8: the seam allowance of every join that states none."""
    if bench.recipe.allowance is not None:
        bench.recipe.slip("said-twice", span(node), what="allowance")
    bench.recipe.allowance = bench.length(node.parts[0], "seam allowance", nothing=True)


def tolerance(node: Node, bench: Bench) -> None:
    """tolerance 1/16, curves 1/8: how far joined edges may differ."""
    bench.recipe.tolerance = bench.length(node.parts[0], "tolerance", nothing=True)
    bench.recipe.curve_tolerance = bench.clause_length(node, "curves", "tolerance for curves", nothing=True)


def accuracy(node: Node, bench: Bench) -> None:
    """accuracy cutting 1 mm, stitching 1 mm: how exactly the recipe is cut and sewn."""
    if bench.recipe.accuracy.stated:
        bench.recipe.slip("said-twice", span(node), what="accuracy")
    usual = bench.recipe.accuracy
    found = [bench.clause_length(node, name, name, nothing=True) for name in ("cutting", "stitching")]
    cutting, stitching = (
        one.mm if one is not None else other for one, other in zip(found, (usual.cutting, usual.stitching), strict=True)
    )
    bench.recipe.accuracy = Accuracy(cutting, stitching, stated=True)


def part(node: Node, bench: Bench) -> None:
    """part "Lining": heads a group of steps."""
    bench.part = unquoted(node.word())
    bench.recipe.parts.append((bench.part, span(node)))


def use(node: Node, bench: Bench) -> None:
    """use "parts/strap.stitch": the lines of that file are read here; `reading/using.py` has put them in."""
    refused, at, file = bench.recipe.source.refused, span(node.word()), unquoted(node.word())
    if refused is None:
        bench.recipe.slip("not-brought-in", at, file=file, why="a text alone has no folder to look in", near=())
    elif node.start in refused:
        bench.recipe.slip("not-brought-in", at, file=file, why=refused[node.start].why, near=refused[node.start].near)


def note(node: Node, bench: Bench) -> None:
    """note "...": printed with the steps, checked for nothing."""
    bench.recipe.notes.append((bench.part, unquoted(node.word()), span(node)))


def allow(node: Node, bench: Bench) -> None:
    """allow never-used "...": a finding in the next statement is known, and why it does not count."""
    bench.recipe.allowed.append(node)


class Let:
    """A named value: a number and its power of length."""

    def __init__(self, number: Fraction, power: int, at: Span) -> None:
        self.number = number
        self.power = power
        self.at = at
        self.used = False


def sizes_of(node: Node, bench: Bench) -> Node | Token:
    """Which of the values counts for the size being worked out; a slip where they are not one for each size."""
    values = [part for part in node.parts[1:] if part.rule != "sizes_named"]
    named = node.first("sizes_named")
    if len(values) == 1 and named is None:
        return values[0]
    recipe, names = bench.recipe, [token.text for token in named.words()] if named is not None else None
    if recipe.sizes is None and names is not None and len(set(names)) == len(names):
        recipe.sizes, recipe.sizes_at = names, span(node)
    known = recipe.sizes
    if known is None or len(values) != len(known) or (names is not None and names != known):
        bench.recipe.slip("sizes-disagree", span(node), values=len(values), names=names)
    return values[min(recipe.size, len(values) - 1)]


def let(node: Node, bench: Bench) -> None:
    """let deep = 2 1/2: a name for a value, or for one value a size."""
    name, expression = node.word(), sizes_of(node, bench)
    found: tuple[Fraction, int] | None = None
    try:
        found = value(expression, bench.recipe)
    except Trouble as trouble:
        bench.recipe.slip(trouble.kind, trouble.at, **trouble.facts)
    if bench.claim_name(name) and found is not None:
        bench.recipe.lets[name.text] = Let(*found, span(name))
