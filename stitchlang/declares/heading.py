"""The heading and the frame: recipe, revision, units, allowance, tolerance, part, note, allow, let."""

from ..bench import span
from ..model.quantity import Trouble, value
from ..model.spread import Accuracy


def unquoted(token):
    """The words between the quotes."""
    return token.text[1:-1]


def recipe(node, bench):
    """recipe "Harbour tote": what the good is called; in a used file, what its steps are headed by."""
    if bench.recipe.source.file(node.start) != bench.recipe.source.name:
        bench.part = unquoted(node.parts[0])
        return
    if bench.recipe.title:
        bench.recipe.slip("said-twice", span(node), what="recipe")
    bench.recipe.title = unquoted(node.parts[0])


def revision(node, bench):
    """revision "B": which state of the design this is."""
    bench.recipe.revision = unquoted(node.parts[0])


def units(node, bench):
    """units in: what a number without a unit is measured in."""
    if bench.recipe.unit is not None:
        bench.recipe.slip("said-twice", span(node), what="units")
    bench.recipe.unit = node.parts[0].parts[0].text


def allowance(node, bench):
    """allowance 3/8: the seam allowance of every join that states none."""
    if bench.recipe.allowance is not None:
        bench.recipe.slip("said-twice", span(node), what="allowance")
    bench.recipe.allowance = bench.length(node.parts[0], "seam allowance", nothing=True)


def tolerance(node, bench):
    """tolerance 1/16, curves 1/8: how far joined edges may differ."""
    bench.recipe.tolerance = bench.length(node.parts[0], "tolerance", nothing=True)
    bench.recipe.curve_tolerance = bench.clause_length(node, "curves", "tolerance for curves", nothing=True)


def accuracy(node, bench):
    """accuracy cutting 1 mm, stitching 1 mm: how exactly the recipe is cut and sewn."""
    if bench.recipe.accuracy.stated:
        bench.recipe.slip("said-twice", span(node), what="accuracy")
    usual = bench.recipe.accuracy
    found = [bench.clause_length(node, name, name, nothing=True) for name in ("cutting", "stitching")]
    cutting, stitching = (
        one.mm if one is not None else other for one, other in zip(found, (usual.cutting, usual.stitching), strict=True)
    )
    bench.recipe.accuracy = Accuracy(cutting, stitching, stated=True)


def part(node, bench):
    """part "Lining": heads a group of steps."""
    bench.part = unquoted(node.parts[0])
    bench.recipe.parts.append((bench.part, span(node)))


def use(node, bench):
    """use "parts/strap.stitch": the lines of that file are read here; `reading/using.py` has put them in."""
    source = bench.recipe.source
    why = "a text alone has no folder to look in" if source.refused is None else source.refused.get(node.start)
    if why is not None:
        bench.recipe.slip("not-brought-in", span(node.parts[0]), file=unquoted(node.parts[0]), why=why)


def note(node, bench):
    """note "...": printed with the steps, checked for nothing."""
    bench.recipe.notes.append((bench.part, unquoted(node.parts[0]), span(node)))


def allow(node, bench):
    """allow never-used "...": a finding in the next statement is known, and why it does not count."""
    bench.recipe.allowed.append(node)


class Let:
    """A named value: a number and its power of length."""

    def __init__(self, number, power, at):
        self.number = number
        self.power = power
        self.at = at
        self.used = False


def sizes_of(node, bench):
    """Which of the values counts for the size being worked out; a slip where they are not one for each size."""
    values = [part for part in node.parts[1:] if getattr(part, "rule", None) != "sizes_named"]
    named = node.first("sizes_named")
    if len(values) == 1 and named is None:
        return values[0]
    recipe, names = bench.recipe, [token.text for token in named.parts] if named is not None else None
    if recipe.sizes is None and names is not None and len(set(names)) == len(names):
        recipe.sizes, recipe.sizes_at = names, span(node)
    known = recipe.sizes
    if known is None or len(values) != len(known) or (names is not None and names != known):
        bench.recipe.slip("sizes-disagree", span(node), values=len(values), names=names)
    return values[min(recipe.size, len(values) - 1)]


def let(node, bench):
    """let deep = 2 1/2: a name for a value, or for one value a size."""
    name, expression = node.parts[0], sizes_of(node, bench)
    try:
        number, power = value(expression, bench.recipe)
    except Trouble as trouble:
        bench.recipe.slip(trouble.kind, trouble.at, **trouble.facts)
        number, power = 0, None
    if bench.claim_name(name) and power is not None:
        bench.recipe.lets[name.text] = Let(number, power, span(name))
