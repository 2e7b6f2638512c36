"""Names that look as if they had been changed: one gone and one new, with the same facts and used in the same way."""

from __future__ import annotations

from ..model.recipe import Stuff
from ..model.things import SIDES
from ..reading.parse import Reading
from ..reading.tree import Node, Token
from .changes import Renamed
from .stated import line_of, piece_facts, stuff_facts, words

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Container, Iterator, Mapping, Sequence

    from ..model.kinds import AnyThing
    from ..model.recipe import Recipe
    from .stated import Facts

ITSELF, OTHER = "@", "?"  # stand for the name in question, and for any other that is not in both recipes
NOT_NAMES = {*SIDES, "sides", "ends", "edges", "edge", "all", "rim", "upper", "lower"}


def renamed(old: Recipe, new: Recipe) -> list[Renamed]:
    """The names that look renamed, in the old recipe's order: a list of Renamed."""
    before, after = named(old), named(new)
    gone = {name: one for name, one in before.items() if name not in after}
    come = {name: one for name, one in after.items() if name not in before}
    waiting: dict[object, list[str]] = {}
    for name, likeness in likenesses(new, come).items():
        waiting.setdefault(likeness, []).append(name)
    found = []
    for name, likeness in likenesses(old, gone).items():
        if waiting.get(likeness):
            other = waiting[likeness].pop(0)
            lines = (line_of(old, gone[name].at), line_of(new, come[other].at))
            found.append(Renamed(gone[name].kind, name, other, lines))
    return found


def named(recipe: Recipe) -> dict[str, AnyThing | Stuff]:
    """Every name of a piece, a stuff or something made: name to what it names."""
    made = {thing.name: thing for thing in recipe.made if thing.name}
    return {**recipe.stuff, **made, **{piece.name: piece for piece in recipe.pieces}}


def likenesses(recipe: Recipe, free: Mapping[str, AnyThing | Stuff]) -> dict[str, object]:
    """For each of these names all that is said of it, with names that may have changed left out."""
    uses: dict[str, list[tuple[str, ...]]] = {name: [] for name in free}
    for said in sayings(recipe):
        shown = [OTHER if word in free else word for word in said]
        for name in dict.fromkeys(word for word in said if word in free):
            own = [ITSELF if word == name else other for word, other in zip(said, shown, strict=True)]
            uses[name].append(tuple(own))
    return {name: (facts(one, recipe, free), tuple(sorted(uses[name]))) for name, one in free.items()}


def sayings(recipe: Recipe) -> Iterator[Sequence[str]]:
    """The words of every statement; of one that states pieces, those of each piece, since lists are but spelling."""
    for node in recipe.reading.statements:
        if node.rule != "piece":
            yield (node.rule, *words(node, recipe))
    for piece in recipe.pieces:
        backing = (piece.stiffening.name,) if piece.stiffening is not None else ()
        yield ("piece", piece.name, *((piece.stuff.name,) if piece.stuff is not None else ()), *backing)


def facts(one: AnyThing | Stuff, recipe: Recipe, free: Container[str]) -> tuple[str, frozenset[object]]:
    """A thing's kind and facts, ready to be compared."""
    found: Facts = {}
    if isinstance(one, Stuff):
        found = stuff_facts(one)
    elif one.kind == "piece":
        found = piece_facts(one, recipe)
    said = ((name, OTHER if isinstance(fact, str) and fact in free else fact) for name, fact in found.items())
    return one.kind, frozenset(said)


# ------------------------------------------------------------------ the old recipe in the new one's names
def in_new_names(old: Recipe, new: Recipe, renames: Sequence[Renamed]) -> Reading:
    """The old recipe's reading with each changed name as the new recipe has it, so that nothing else differs for it.

    A name that is also an edge's cannot be told from it in every statement, and stays.
    """
    reading, edges = old.reading, NOT_NAMES | edge_names(old) | edge_names(new)
    names = {one.before: one.after for one in renames if not {one.before, one.after} & edges}
    if not names:
        return reading
    other = Reading()
    other.stumbles, other.comments, other.given_up = reading.stumbles, reading.comments, reading.given_up
    other.statements = [written_anew(node, names) for node in reading.statements]
    return other


def edge_names(recipe: Recipe) -> set[str]:
    """The names of edges that pieces have."""
    return {edge.name for piece in recipe.pieces for edge in piece.edges}


def written_anew(node: Node, names: Mapping[str, str]) -> Node:
    """A phrase, names changed."""
    parts: list[Node | Token] = []
    for part in node.parts:
        if part.rule is not None:
            parts.append(written_anew(part, names))
        elif part.kind == "NAME" and part.text in names:
            parts.append(Token(part.kind, names[part.text], part.start, part.end))
        else:
            parts.append(part)
    return Node(node.rule, parts, node.start, node.end)
