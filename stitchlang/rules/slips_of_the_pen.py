"""Family: reading.  Statements that cannot be read, but that say what was meant."""

from __future__ import annotations

from .reading import told
from .rule import rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..model.recipe import Recipe
    from .rule import Looks


@rule(
    why="A colon parts a name from its facts, an `x` the two sizes of a piece, a comma one item from the next.",
    mend="Put the mark in.",
    trips="""
        piece flag of sail: 10 12
        hem flag edges by 1/2
    """,
    passes="""
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
)
def missing_mark(recipe: Recipe) -> Looks:
    return told(recipe, "missing-mark")


@rule(
    why="Words stand in straight double quotes; a word processor puts others in their place.",
    mend='Type `"`, or switch off the quotes that a word processor sets.',
    trips="""
        part “The flag”
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
    passes="""
        part "The flag"
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
)
def quotes_of_another_kind(recipe: Recipe) -> Looks:
    return told(recipe, "quotes-of-another-kind")


@rule(
    why="Names are words of the recipe; titles and descriptions are the writer's own and stand in quotes.",
    mend="Put the description in quotes.",
    trips="""
        part The flag
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
    passes="""
        part "The flag"
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
)
def words_without_quotes(recipe: Recipe) -> Looks:
    return told(recipe, "words-without-quotes")


@rule(
    why="A length stands ahead of its dimension, `10 tall`; a cut piece has none: it is across x up.",
    mend="Write the length first, and a piece's two sizes across x up.",
    trips="""
        piece flag of sail: 12 tall x 10 wide
        hem flag edges by 1/2
    """,
    passes="""
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
        finished flag: 9 wide, 11 tall
    """,
)
def dimension_out_of_place(recipe: Recipe) -> Looks:
    return told(recipe, "dimension-out-of-place")


@rule(
    why="A statement begins with what is done, so that the eye finds it down the margin.",
    mend="Put the verb first; clauses follow what it works on, and lines need no numbers.",
    trips="""
        piece flag of sail: 10 x 12
        by 1/2 hem flag edges
    """,
    passes="""
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
)
def verb_not_first(recipe: Recipe) -> Looks:
    return told(recipe, "verb-not-first")


@rule(
    why="Whatever is cut or bought has a name, and a name is one word: the rest of the recipe calls it by that.",
    mend="Give it a name, with `_` between its words.",
    trips="""
        piece big flag of sail: 10 x 12
    """,
    passes="""
        piece big_flag of sail: 10 x 12
        hem big_flag edges by 1/2
    """,
)
def name_lacking(recipe: Recipe) -> Looks:
    return told(recipe, "name-lacking")


RULES = (
    missing_mark,
    quotes_of_another_kind,
    words_without_quotes,
    dimension_out_of_place,
    verb_not_first,
    name_lacking,
)
