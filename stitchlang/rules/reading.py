"""Family: reading.  Statements that cannot be read."""

from __future__ import annotations

from ..ground.nearest import nearest
from ..ground.text import Span
from ..reading.parse import MOST_STATEMENTS
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from ..model.recipe import Recipe
    from ..reading.mending.remedy import Remedy
    from ..reading.parse import Stumble
    from ..reading.tree import Token
    from .rule import Looks

LONGEST_SHOWN = 160  # characters of a mended line that are shown


def stumbles(recipe: Recipe, kind: str) -> Sequence[Stumble]:
    """The recipe's unread statements of one kind of mistake; what tells these apart is loaded where there is one."""
    if not recipe.reading.stumbles:
        return ()
    from ..reading.mistakes import kind_of

    return [stumble for stumble in recipe.reading.stumbles if kind_of(stumble) == kind]


CERTAIN = ("wrong-mark", "missing-mark", "quotes-of-another-kind")  # mended in one way only
PLACEHOLDERS = ("NAME", "CLOTH")  # what the writer alone can fill in


def mended(remedy: Remedy) -> Found:
    """The finding for a statement of which it is known what it was meant to be."""
    left_open = [word for word in PLACEHOLDERS if word in remedy.line.replace(":", " ").split()]
    mend = (
        f"write `{remedy.line}`"
        if len(remedy.line) <= LONGEST_SHOWN
        else f"it was most likely meant as `{remedy.line[:LONGEST_SHOWN]}...`"
    )
    if left_open:
        mend += f" with a name of your own for {left_open[0]}"
    edits = [(Span(remedy.edit[0], remedy.edit[1]), remedy.edit[2])] if remedy.edit and not left_open else []
    return Found(Span(*remedy.at), remedy.says, mend, mends=[(mend, edits, remedy.rule in CERTAIN)] if edits else ())


def told(recipe: Recipe, kind: str, otherwise: Callable[[Stumble], Found] | None = None) -> Looks:
    """A finding for each stumble of a kind: what it was meant to be, or what `otherwise` says where nobody can tell.

    Some kinds are known by what was meant alone.
    """
    for stumble in stumbles(recipe, kind):
        from ..reading.mistakes import remedy_of

        remedy = remedy_of(stumble)
        if remedy is not None:
            yield mended(remedy)
        elif otherwise is not None:
            yield otherwise(stumble)


def here(token: Token) -> Span:
    """The span of a token; the end of a text has one character's place before it."""
    return Span(token.start, token.end) if token.end > token.start else Span(max(token.start - 1, 0), token.start)


@rule(
    why="A file without a statement says nothing about any bag.",
    mend="Write at least a piece and what is done with it.",
    trips="# nothing yet",
    passes="""
        units in
        cloth sail: "sailcloth"
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
    opening="",
)
def nothing_to_check(recipe: Recipe) -> Looks:
    if not recipe.reading.statements and not recipe.reading.stumbles:
        yield Found(
            Span(0, min(1, len(recipe.source.text))),
            "there is no statement in this recipe",
            "write a piece and what is done with it, such as `piece front of sail: 10 x 12`",
        )


@rule(
    why="A statement begins with the verb that says what is done.",
    mend="Begin the line with one of the language's verbs; indent it if it goes on with the line above.",
    trips="""
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
        pres flag.top open
    """,
    passes="""
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
)
def unknown_verb(recipe: Recipe) -> Looks:
    return told(recipe, "unknown-verb", no_statement)


def no_statement(stumble: Stumble) -> Found:
    """A first word that begins no statement."""
    from ..reading.mending.other_words import TOLD
    from ..reading.mistakes import FIRST_WORDS

    word = stumble.token.text
    near = nearest(word, FIRST_WORDS)
    mend = TOLD.get(word.lower()) or (
        "did you mean " + " or ".join(f"`{name}`" for name in near) + "?"
        if near
        else "begin with a verb such as `piece` or `join`, or indent the line to go on with the one above"
    )
    certain = len(near) == 1 and word.lower() not in TOLD
    mends = [(f"write `{near[0]}`", [(here(stumble.token), near[0])], True)] if certain else ()
    return Found(here(stumble.token), f"`{word}` is not a statement", mend, mends=mends)


@rule(
    why="A number with a unit nobody knows could be any size.",
    mend="Write in, cm, mm, m, ft or yd behind the number, or leave the unit out to mean the recipe's own.",
    trips="""
        piece flag of sail: 10 inn x 12
        hem flag edges by 1/2
    """,
    passes="""
        piece flag of sail: 10 in x 12
        hem flag edges by 1/2
    """,
)
def unknown_unit(recipe: Recipe) -> Looks:
    return told(recipe, "unknown-unit", no_unit)


def no_unit(stumble: Stumble) -> Found:
    """A word behind a number that is no unit."""
    number = stumble.before[-1].text
    return Found(
        here(stumble.token),
        f"`{stumble.token.text}` is not a unit of length",
        f"write `{number} in`, `{number} cm` or `{number} mm`, or `{number}` alone for the recipe's own unit",
    )


@rule(
    why="Words in quotes end where the quotes end, on the same line.",
    mend="Close the quotes. For an inch mark, put it right behind the number.",
    trips="""
        piece flag of sail: 10 x 12
        hem flag edges by 1/2 "press first
    """,
    passes="""
        piece flag of sail: 10 x 12
        hem flag edges by 1/2 "press first"
    """,
)
def quotes_never_closed(recipe: Recipe) -> Looks:
    for stumble in stumbles(recipe, "quotes-never-closed"):
        yield Found(here(stumble.token), "these quotes are never closed", 'close them with `"` on the same line')


@rule(
    why="A statement that breaks off leaves out what it is done with, or how.",
    mend="Finish the statement.",
    trips="""
        piece flag of sail: 10 x 12
        hem flag edges by
    """,
    passes="""
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
)
def statement_breaks_off(recipe: Recipe) -> Looks:
    return told(recipe, "statement-breaks-off", broken_off)


def broken_off(stumble: Stumble) -> Found:
    """The last word of a statement that wants more."""
    from ..reading.mistakes import expected

    last = stumble.before[-1]
    return Found(here(last), f"the statement breaks off after `{last.text}`", f"go on with {expected(stumble)}")


@rule(
    why="A comma parts items and clauses; a colon parts a name from its facts.",
    mend="Put the mark that the statement wants.",
    trips="""
        piece flag of sail, 10 x 12
    """,
    passes="""
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
)
def wrong_mark(recipe: Recipe) -> Looks:
    return told(recipe, "wrong-mark", another_mark)


def another_mark(stumble: Stumble) -> Found:
    """A mark, or an `and`, in the place of another."""
    from ..reading.mistakes import and_for_to, decimal_comma, in_place_of

    written = stumble.token.text
    decimal, linked = decimal_comma(stumble), and_for_to(stumble)
    if linked is not None:
        mends = [("write `to`", [(here(linked), "to")], True)]
        return Found(here(linked), "edges are not joined by `and`", "write `to` instead", mends=mends)
    if decimal is not None:
        return Found(here(stumble.token), "decimals take a point, not a comma", f"write `{decimal[0]}.{decimal[1]}`")
    mark = in_place_of(stumble) or "another mark"
    spelled = {"a comma": ",", "a colon": ":"}.get(mark)
    mends = [(f"write {mark}", [(here(stumble.token), spelled)], True)] if spelled else []
    says = f"here stands `{written}` where {mark} belongs"
    return Found(here(stumble.token), says, f"write {mark} instead", mends=mends)


@rule(
    why="Each statement takes its words in an order that can be read only one way.",
    mend="See the statement in the reference, or leave the word out.",
    trips="""
        piece flag of sail: 10 x 12
        hem flag edges under 1/2
    """,
    passes="""
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
)
def word_out_of_place(recipe: Recipe) -> Looks:
    return told(recipe, "word-out-of-place", not_here)


def not_here(stumble: Stumble) -> Found:
    """A word that cannot follow those before it."""
    from ..reading.mistakes import expected, missing, near

    after = f" after `{stumble.before[-1].text}`" if stumble.before else ""
    text = stumble.token.text
    shown = text if len(text) <= 30 else text[:27] + "..."
    lacks, alike = missing(stumble), near(stumble)[:1]
    if alike:
        mend = f"did you mean `{alike[0]}`?"
    else:
        mend = f"put {lacks} before `{shown}`" if lacks else f"here can stand {expected(stumble)}"
    return Found(here(stumble.token), f"`{shown}` cannot stand here{after}", mend)


@rule(
    why="A statement or an expression without end is a slip of the paste key, not a bag.",
    mend="Break it up; name parts of a long sum with `let`.",
    trips="let deep = " + "(" * 90 + "1" + ")" * 90,
    passes="""
        let deep = (1 + 1/2) * 2
        piece flag of sail: 10 x 12
        hem flag edges by deep / 6
    """,
)
def statement_too_long(recipe: Recipe) -> Looks:
    for stumble in stumbles(recipe, "statement-too-long"):
        yield Found(
            here(stumble.token),
            "this statement is too long, or nests too deep, to be meant",
            "break it up, or name parts of it with `let`",
        )


@rule(
    why="A text of many hundred statements that cannot be read, or many thousand that can, is no recipe for a bag.",
    mend="Check that this is the right file; split a catalogue into a file for each good.",
    trips='part "Flag"\n' * MOST_STATEMENTS + 'part "Flag"',
    passes="""
        piece flag of sail: 10 x 12
        hem flag edges by 1/2
    """,
)
def no_recipe_at_all(recipe: Recipe) -> Looks:
    rest = recipe.reading.given_up
    if rest is not None:
        yield Found(
            here(rest),
            "the rest of this text was not looked at: it does not look like a recipe",
            "check that this is the right file, or split it into a file for each good",
        )


RULES = (
    nothing_to_check,
    unknown_verb,
    unknown_unit,
    quotes_never_closed,
    statement_breaks_off,
    wrong_mark,
    statement_too_long,
    word_out_of_place,
    no_recipe_at_all,
)
