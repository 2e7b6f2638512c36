"""What a recipe's statements state, spelling left out: by it the statements of two recipes are matched and compared.

A length is what it measures, whatever it is written as and whichever `let` it comes from.  Nothing here knows a
particular verb, fact or clause: what is new in the grammar is compared like the rest.
"""

from __future__ import annotations

from ..ground.lengths import read_number
from ..ground.text import Span
from ..ground.working import Working
from ..model.quantity import Trouble, measure
from .changes import Length, Mass

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction
    from typing import Protocol, TypeAlias

    from ..model.recipe import Recipe, Stuff
    from ..model.things import Piece
    from ..reading.tree import Node, Token
    from .changes import Line, Stated

    Facts: TypeAlias = dict[str, Stated]
    Item: TypeAlias = tuple[str, str, Facts, Line | None]  # kind, name, facts, line

    class Placed(Protocol):
        """Whatever knows where it begins."""

        start: int


SHAPES = ("rectangle", "circle", "tapered", "polygon")
COUNTED = ("cut", "count", "plies", "needle", "tex", "pleats", "times", "equally")  # phrases whose number is no length
SUMS = ("sum", "product", "group", "negative")


def line_of(recipe: Recipe, at: Placed) -> Line:
    """The line that a span begins on: its number, and of which file where that is not the recipe's own."""
    said = recipe.source.line_said(at.start).removeprefix("line ")
    return int(said) if said.isdigit() else said


def words(node: Node, recipe: Recipe) -> tuple[str, ...]:
    """The names in a statement, in order: things, edges and stuff, no `let` values and no numbers."""
    found: list[str] = []
    stack: list[Node | Token] = [node]
    while stack:
        part = stack.pop()
        if part.rule is not None:
            stack.extend(reversed(part.parts))
        elif part.kind == "NAME" and part.text not in recipe.lets:
            found.append(part.text)
    return tuple(found)


def is_length(part: Node | Token, rule: str, recipe: Recipe) -> bool:
    """Whether a part of a phrase is an expression."""
    if part.rule is not None:
        return part.rule in SUMS
    if part.kind == "NUMBER":
        return rule not in COUNTED
    return part.kind == "LENGTH" or (part.kind == "NAME" and part.text in recipe.lets)


def length(part: Node | Token, recipe: Recipe) -> Length | str:
    """A Length for an expression; as written where it has none, of which the rules speak."""
    try:
        return Length(measure(part, recipe))
    except Trouble:
        return recipe.source.cut(Span(part.start, part.end))


def clauses(node: Node, recipe: Recipe) -> list[tuple[str, Stated]]:
    """(name, fact) of a phrase: its own, then those of the phrases in it, named by their words and their rule."""
    said: list[str] = []
    lengths: list[Length | Fraction | str] = []
    inner: list[Node] = []
    for part in node.parts:
        if is_length(part, node.rule, recipe):
            lengths.append(length(part, recipe))
        elif part.rule is not None:
            inner.append(part)
        elif part.kind == "NUMBER":
            lengths.append(number(part.text))
        else:
            said.append(part.text)
    name = " ".join([*said, node.rule.replace("_", " ")])
    own: Stated = lengths[0] if len(lengths) == 1 else tuple(lengths) or True
    found = [(name, own)] if said or not inner else []
    return found + [fact for part in inner for fact in clauses(part, recipe)]


def number(text: str) -> Fraction | str:
    """A written count as a number, or the text where it is none."""
    try:
        return read_number(text)
    except (ValueError, ZeroDivisionError):
        return text


# ------------------------------------------------------------------ pieces and stuff
def piece_facts(piece: Piece, recipe: Recipe) -> Facts:
    """All that says how a piece is cut: name to fact."""
    facts: Facts = {"shape": piece.shape, **sizes(piece), "cut": piece.count}
    facts["of"] = piece.stuff.name if piece.stuff is not None else None
    if piece.stiffening is not None:
        facts["with"] = piece.stiffening.name
        if piece.fused != "net":
            facts["fused"] = piece.fused
    for part in piece.node.parts:
        if part.rule is not None and part.rule not in (*SHAPES[:3], "cut", "stiffened", *SUMS):
            facts.update(clauses(part, recipe))
    return facts


def sizes(piece: Piece) -> Facts:
    """A piece's size in the words of its shape; a polygon's is in its corners."""
    if piece.shape == "circle":
        return {"across": Length(piece.width.mm)}
    if piece.shape == "tapered":
        top, bottom = (side[0].cut.mm for name in ("top", "bottom") if (side := piece.side(name)))
        return {"wide at top": Length(top), "wide at bottom": Length(bottom), "tall": Length(piece.height.mm)}
    return {"wide": Length(piece.width.mm), "long" if piece.long else "tall": Length(piece.height.mm)}


def stuff_facts(stuff: Stuff) -> Facts:
    """All that is stated of a stuff: name to fact."""
    facts = {"kind of stuff": stuff.kind, **stuff.facts}
    return {name: stated(name, fact) for name, fact in facts.items()}


def stated(name: str, fact: Working | Stated) -> Stated:
    """A fact as something that can be compared."""
    if isinstance(fact, Working):
        return Length(fact.mm)
    return Mass(fact) if name == "mass" and isinstance(fact, str) else fact


# ------------------------------------------------------------------ promises and notes
def promises(recipe: Recipe) -> Iterator[Item]:
    """(kind, name, facts, line) of what is promised, was measured on samples, and is to be held."""
    for kind, claims in (("finished", recipe.claims), ("made", recipe.samples)):
        for claim in claims:
            facts: Facts = {"size": Length(claim.length.mm)}
            if claim.within is not None:
                facts["within"] = Length(claim.within.mm)
            yield kind, f"{claim.thing.name} {claim.measure}", facts, line_of(recipe, claim.at)
    for one in recipe.contents:
        facts = {"size": tuple(Length(size.mm) for size in one.sizes)}
        if one.ease is not None:
            facts["ease"] = Length(one.ease.mm)
        yield "holds", f"{one.thing.name}: {one.name}", facts, line_of(recipe, one.at)


def notes(recipe: Recipe) -> Iterator[Item]:
    """(kind, name, facts, line) of the writer's notes."""
    for part, text, at in recipe.notes:
        yield "note", text, {"part": part} if part is not None else {}, line_of(recipe, at)


def heading(recipe: Recipe) -> Facts:
    """What the heading states: name to fact."""
    accuracy = recipe.accuracy
    facts: dict[str, Working | Stated] = {
        "recipe": recipe.title or None,
        "revision": recipe.revision or None,
        "sizes": ", ".join(recipe.sizes) if recipe.sizes else None,
        "tolerance": recipe.tolerance,
        "curves": recipe.curve_tolerance,
    }
    if accuracy.stated:
        facts["accuracy cutting"], facts["accuracy stitching"] = Length(accuracy.cutting), Length(accuracy.stitching)
    return {name: stated(name, fact) for name, fact in facts.items() if fact is not None}
