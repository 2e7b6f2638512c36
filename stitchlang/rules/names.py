"""Family: names.  What is called what, and whether it is there."""

from __future__ import annotations

from ..ground.nearest import meant, nearest
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from ..ground.text import Span
    from ..model.kinds import AnyThing
    from ..model.recipe import Recipe, Slip
    from .rule import Looks, Way

KINDS = {
    "flat": "a flat assembly",
    "folded": "a folded piece",
    "strip": "a folded strip",
    "shell": "sewn up already",
    "interfacing": "an interfacing",
    "elastic": "an elastic",
    "eyelet": "an eyelet",
    "touch": "hook-and-loop tape",
    "reel": "a reel of thread",
}
SIDE_WORDS = ("top", "bottom", "left", "right")
# Facts by what they measure.
NOUNS = {
    "thick": "thickness",
    "wide": "width",
    "long": "length",
    "tape wide": "tape width",
    "tape long": "tape length",
    "across": "width across",
    "inside": "width inside",
}
FLAG = "\npiece flag of sail: 10 x 12\nhem flag edges by 1/2\n"


def this_one(thing: AnyThing) -> str:
    """What is said at the place where a thing is made: `front is this flat assembly`."""
    kind = thing.kind if thing.kind == "shell" else KINDS.get(thing.kind, thing.kind).removeprefix("a ")
    return f"{thing.name} is this {kind}"


def spelled(at: Span, name: str, known: Iterable[str]) -> list[Way]:
    """The one mend of a name misspelled, where one known name is near and no other."""
    near = nearest(name, known)
    return [(f"write `{near[0]}`", [(at, near[0])], True)] if len(near) == 1 else []


def slips(recipe: Recipe, kind: str) -> Sequence[Slip]:
    """The recipe's slips of one kind."""
    return recipe.slips.get(kind, ())


@rule(
    why="What stands in another file is not in the recipe while that file cannot be read.",
    mend="Write the path from the folder of this file downward, or take the line out.",
    trips='use "strap.stitch"' + FLAG,
    passes=FLAG,
)
def not_brought_in(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "not-brought-in"):
        ways: list[Way] = [
            (f'write `use "{near}"`', [(slip.at, f'"{near}"')], len(slip.near) == 1) for near in slip.near
        ]
        yield Found(
            slip.at,
            f"`{slip.file}` is not brought in: {slip.why}",
            " or ".join(says for says, _, _ in ways) or "write a path from the folder of this file downward",
            mends=ways,
        )


@rule(
    why="A name that nothing was given cannot be sewn.",
    mend="Spell the name as it was given, or give it.",
    trips="piece flag of sail: 10 x 12\nhem flagg edges by 1/2",
    passes=FLAG,
    waits=("not-brought-in",),
)
def unknown_name(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "unknown-name"):
        if slip.facts.get("actual") is None:
            says = f"nothing is called `{slip.name}`; here belongs {slip.wanted}"
            given = recipe.names.get(slip.name)
            if given is not None and given.start > slip.at.start:
                yield named_too_soon(recipe, slip, given)
                continue
            mends = spelled(slip.at, slip.name, slip.known)
            yield Found(slip.at, says, meant(slip.name, slip.known) or measured_from(slip), mends=mends)


def named_too_soon(recipe: Recipe, slip: Slip, given: Span) -> Found:
    """The finding for a name that is given further down."""
    return Found(
        slip.at,
        f"nothing is called `{slip.name}` so far up",
        use_moved(recipe, slip.at, given)
        or f"move this statement below {recipe.source.line_said(given.start, slip.at.start)}",
        beside=[(given, "it is given here")],
    )


def use_moved(recipe: Recipe, at: Span, first: Span) -> str:
    """Which `use` to move, where a place and what has to stand above it lie in two files; nothing where in one."""
    source = recipe.source
    here, there = source.file(at.start), source.file(first.start)
    if here == there:
        return ""
    if there == source.name:
        return f"move the line that uses {here} further down"
    return f"move the line that uses {there} above this one"


def measured_from(slip: Slip) -> str:
    """Where a side stands in a length's place: how a distance from it is written."""
    if slip.wanted != "a length" or slip.name not in SIDE_WORDS:
        return ""
    between = {"top": "below top", "bottom": "above bottom"}.get(slip.name, f"from {slip.name}")
    return f"a distance from a side has a length before it: `, 2 {between}`, or `, 0 {between}` for edge on edge"


@rule(
    why="A statement works on things of one kind: only a piece can be folded, only a shell turned.",
    mend="Name a thing of that kind, or move the step to where the name still means one.",
    trips="""
        piece body of sail: 10 x 24
        fold body in half, bottom to top
        fold body in half, bottom to top
        join body along sides as bag
        hem bag.rim by 1/2
    """,
    passes="""
        piece body of sail: 10 x 24
        fold body in half, bottom to top
        join body along sides as bag
        hem bag.rim by 1/2
    """,
)
def not_that_kind_of_thing(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "unknown-name"):
        actual = slip.facts.get("actual")
        if actual is None:
            continue
        made_by, mend = getattr(actual, "made_by", None), meant(slip.name, slip.known)
        if made_by is not None:
            line = recipe.source.line_said(made_by.at.start, slip.at.start)
            mend = f"move this step above {line}, where that is done" + (f", or: {mend}" if mend else "")
        yield Found(
            slip.at,
            f"`{slip.name}` is {KINDS.get(actual.kind, 'a ' + actual.kind)}, and here belongs {slip.wanted}",
            mend,
            beside=[(actual.at, f"{slip.name} is named here")],
        )


@rule(
    why="An edge is named as seen from the right side with the top up.",
    mend="Name one of the edges that the piece or assembly has.",
    trips="piece flag of sail: 10 x 12\nhem flag.botom by 1/2",
    passes=FLAG,
)
def unknown_edge(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "unknown-edge"):
        beside = [(slip.panel.at, this_one(slip.panel))]
        called = slip.facts.get("called")
        if called is None:
            says, mends = f"{slip.panel.name} has no edge `{slip.name}`", spelled(slip.at, slip.name, slip.known)
            yield Found(slip.at, says, meant(slip.name, slip.known), beside=beside, mends=mends)
        else:
            says = f"a seam is called by its first edge, so this one is `{called}` and not `{slip.name}`"
            yield Found(
                slip.at,
                says,
                f"write `{called}`",
                beside=beside,
                mends=[(f"write `{called}`", [(slip.at, called)], True)],
            )


@rule(
    why="One name, one thing: a second thing of that name would be sewn in place of the first.",
    mend="Give one of the two another name.",
    trips=FLAG + "piece flag of sail: 9 x 9",
    passes=FLAG,
)
def name_given_twice(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "name-given-twice"):
        yield Found(
            slip.at,
            f"`{slip.name}` is a name already",
            f"{one_for_both(recipe, slip)}call this one `{slip.name}_2`, for instance",
            beside=[(slip.first, "given here first")],
        )


def one_for_both(recipe: Recipe, slip: Slip) -> str:
    """What is said of a cloth or a value that two files state in two ways."""
    from ..used import SHARED

    source = recipe.source
    if source.file(slip.at.start) == source.file(slip.first.start):
        return ""
    spots = (slip.at.start, slip.first.start)
    verbs = {node.rule for node in recipe.reading.statements if any(node.start < spot < node.end for spot in spots)}
    return "state it word for word as there, or " if len(verbs) == 1 and verbs <= set(SHARED) else ""


@rule(
    why="The words that begin a clause cannot be told from a name after a comma.",
    mend="Choose another name.",
    trips="piece at of sail: 10 x 12",
    passes=FLAG,
)
def name_is_a_word_of_the_language(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "name-is-a-word-of-the-language"):
        yield Found(
            slip.at,
            f"`{slip.name}` is a word of the language and no name",
            f"call it, for instance, `{slip.name}_piece`",
        )


@rule(
    why="What is listed and never used is cut or bought for nothing, or a step was forgotten.",
    mend="Use it or take it out.",
    trips=FLAG + 'cloth lawn: "cotton lawn"',
    passes=FLAG,
    severity="doubt",
    whole=True,
)
def never_used(recipe: Recipe) -> Looks:
    for stuff in recipe.stuff.values():
        if stuff.kind == "reel":
            continue  # every seam uses it
        thing = recipe.things.get(stuff.name)
        if not stuff.used_by and not (stuff.kind == "zip" and thing is not None and thing.used_by):
            yield Found(stuff.at, f"the {stuff.kind} `{stuff.name}` is never used", "use it or take it out")
    for piece in recipe.pieces:
        if not piece.used_by and not piece.work:
            yield Found(piece.at, f"`{piece.name}` is cut and never used", "join it, place it, or take it out")
    for name, let in recipe.lets.items():
        if not let.used:
            yield Found(let.at, f"the value `{name}` is never used", "use it or take it out", severity="hint")


@rule(
    why="Said twice, differently or not, a thing leaves the reader to choose.",
    mend="Take one of the two out.",
    trips=FLAG + "allowance 3/8",
    passes=FLAG,
)
def said_twice(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "said-twice"):
        yield Found(slip.at, f"the {NOUNS.get(slip.what, slip.what)} is stated already", "take one of the two out")


@rule(
    why="A recipe made in several sizes has one value for each of them, in the same order everywhere.",
    mend="Name the sizes once, and give each `let` one value, or as many as there are sizes.",
    trips="let wide = 9, 10, 12 for small, middle, large\nlet tall = 11, 12\n"
    "piece flag of sail: wide x tall\nhem flag edges by 1/2",
    passes="let wide = 9, 10, 12 for small, middle, large\nlet tall = 11, 12, 13\n"
    "piece flag of sail: wide x tall\nhem flag edges by 1/2",
)
def sizes_disagree(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "sizes-disagree"):
        known = recipe.sizes
        if known is None:
            says, mend = "these values have no sizes", "write `for small, large` behind them, or give one value"
        elif slip.names is not None and slip.names != known:
            says = f"these sizes are {', '.join(slip.names)}, and the recipe's are {', '.join(known)}"
            mend = "name the same sizes in the same order, each once, or leave them out here"
        else:
            says = f"{slip.values} values for {len(known)} sizes"
            mend = f"give one value, or one each for {', '.join(known)}"
        yield Found(slip.at, says, mend, beside=[(recipe.sizes_at, "the sizes are named here")])


@rule(
    why="A clause speaks of certain things only; another kind of thing there says nothing.",
    mend="Put what the statement wants.",
    trips="piece flag of sail: 10 x 12\nhem flag by 1/2",
    passes=FLAG,
)
def misplaced(recipe: Recipe) -> Looks:
    for slip in slips(recipe, "misplaced"):
        yield Found(slip.at, f"this statement wants {slip.wanted}", slip.mend)


RULES = (
    not_brought_in,
    unknown_name,
    not_that_kind_of_thing,
    unknown_edge,
    name_given_twice,
    name_is_a_word_of_the_language,
    said_twice,
    sizes_disagree,
    misplaced,
    never_used,
)
