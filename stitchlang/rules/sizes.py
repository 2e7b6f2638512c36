"""Family: finished.  The sizes a recipe promises, against those its pieces give."""

from __future__ import annotations

from ..ground.lengths import MM, write
from ..model.joining import outermost, root
from ..model.measures import measure, measures
from .lengths import allowed, remedy
from .rule import Found, rule
from .slips_in_print import slip_words

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from fractions import Fraction

    from ..ground.lengths import Rational
    from ..ground.working import Working
    from ..model.kinds import AnyThing, Claim
    from ..model.measures import Measures
    from ..model.recipe import Op, Recipe
    from ..model.seams import Seam
    from ..model.things import Shell
    from .rule import Edits, Looks, Way

# Where one of these is found, sizes are not known yet, and a claim waits.
UNSETTLED = (
    "edge-without-fate",
    "allowance-wider-than-piece",
    "notch-never-boxed",
    "nothing-to-box",
    "boxing-sides-differ",
    "base-of-nothing",
)
BOXED = """
    piece front, back of sail: 10 x 12
    notch front, back at bottom corners by 2
    join front to back along sides, bottom as bag
    box bag
    hem bag.rim by 1/2
"""


def disputed(recipe: Recipe) -> Iterator[tuple[Claim, Working]]:
    """(claim, measure) wherever the pieces do not give what is claimed."""
    for claim in recipe.claims:
        gives = measure(claim.thing, claim.measure)
        if gives is None:
            continue
        if abs(gives.mm - claim.length.mm) > near_enough(recipe, claim, gives):
            yield claim, gives


def near_enough(recipe: Recipe, claim: Claim, gives: Working) -> Fraction:
    """By how much a claim may differ from what the pieces give."""
    near = allowed(recipe, gives)
    return max(near, claim.within.mm) if claim.within is not None else near


def change(recipe: Recipe, claim: Claim, gives: Working, wanted: Iterable[str]) -> tuple[str, Edits]:
    """The nearest change of one written length that gives the claim: (words, edits)."""
    for factor, leaf in gives.levers(by_place=True):
        if leaf.at is None or not any(word in leaf.says for word in wanted):
            continue
        new = leaf.mm + (claim.length.mm - gives.mm) / factor
        if new <= 0:
            continue
        text, written = write(new, recipe.unit_at(leaf.at)), recipe.source.cut(leaf.at)
        line = recipe.source.line_said(leaf.at.start)
        words = f"make {resized(recipe, leaf, new)} ({line}), and what is sewn to it likewise"
        if text is None or not written[:1].isdigit() or set(written) & set("+*()"):
            return words, []
        return words, [(leaf.at, text)]
    return "", []


def resized(recipe: Recipe, leaf: Working, new: Rational) -> str:
    """`front 11 in wide instead of 10 in`, `the notch across 2 in instead of 1 1/2 in`."""
    name, _, kind = leaf.says.partition(" is ")
    if not kind:
        return f"the {name} {recipe.say(new)} instead of {recipe.say(leaf)}"
    return f"{name} {recipe.say(new)} {kind} instead of {recipe.say(leaf)}"


def told(recipe: Recipe, leaf: Working) -> str:
    """`front is 10 in wide`, `seam allowance: 1/2 in`."""
    name, _, kind = leaf.says.partition(" is ")
    return f"{name} is {recipe.say(leaf)} {kind}" if kind else f"{name}: {recipe.say(leaf)}"


def disagreement(recipe: Recipe, claim: Claim, gives: Working, wanted: Iterable[str]) -> Found:
    """The finding for one claim."""
    gap = gives.mm - claim.length.mm
    more = "more" if gap > 0 else "less"
    words, edits = change(recipe, claim, gives, wanted)
    slip = slip_words(claim, gives, near_enough(recipe, claim, gives))
    true = f"write {recipe.say(gives)} {claim.measure}"
    return Found(
        claim.length.at or claim.at,
        f"{claim.thing.name} is said to be {recipe.say(claim.length)} {claim.measure}, but its pieces give "
        f"{recipe.say(gives)}, {recipe.say(abs(gap))} {more}{slip}",
        f"{true}, or {words}" if words else true,
        beside=[(leaf.at, told(recipe, leaf)) for _, leaf in gives.levers()[:4]],
        working=(gives,),
        mends=[*([(words, edits, False)] if edits else ()), *rewritten(recipe, claim, gives, true)],
    )


def rewritten(recipe: Recipe, claim: Claim, gives: Working, words: str) -> list[Way]:
    """The claim as the pieces give it, where its number can be written so."""
    at, text = claim.length.at, write(gives.mm, recipe.unit_at(claim.length.at))
    if at is None or text is None:
        return []
    written = recipe.source.cut(at)
    return [(words, [(at, text)], False)] if written[:1].isdigit() and written[-1:].isdigit() else []


@rule(
    why="The size on the cover is what a stranger sews towards.",
    mend="Write the size that the pieces give, or change the pieces.",
    trips=BOXED + "    finished bag: 9 wide at top, 10 tall",
    passes=BOXED + "    finished bag: 9 wide at top, 9 tall",
    whole=True,
    waits=UNSETTLED,
)
def finished_size_differs(recipe: Recipe) -> Looks:
    for claim, gives in disputed(recipe):
        if claim.measure != "deep":
            yield disagreement(recipe, claim, gives, (" is ", "trimmed"))


@rule(
    why="The depth of a boxed bag is twice what its notch and seams leave, whatever the cover says.",
    mend="Write the depth that the notch gives, or change the notch.",
    trips=BOXED + "    finished bag: 5 deep",
    passes=BOXED + "    finished bag: 4 deep",
    whole=True,
    waits=UNSETTLED,
)
def depth_against_notch(recipe: Recipe) -> Looks:
    for claim, gives in disputed(recipe):
        if claim.measure == "deep":
            yield disagreement(recipe, claim, gives, ("notch across", "pinch"))


@rule(
    why="A claim about a measure that a thing does not have can never be checked.",
    mend="Claim a measure that it has.",
    trips="piece flag of sail: 10 x 12\nhem flag edges by 1/2\nfinished flag: 4 deep",
    passes="piece flag of sail: 10 x 12\nhem flag edges by 1/2\nfinished flag: 11 tall",
    whole=True,
    waits=UNSETTLED,
)
def unknown_measure(recipe: Recipe) -> Looks:
    for claim in recipe.claims:
        if measure(claim.thing, claim.measure) is None:
            known = ", ".join(f"{recipe.say(length)} {name}" for name, length in measures(claim.thing).items())
            yield Found(
                claim.at,
                f"{claim.thing.name} has no measure `{claim.measure}`",
                f"it is {known}" if known else "",
                beside=[(claim.thing.at, "this is made here")],
            )


# A lining a little smaller than its shell lies smooth (common practice, no source: about 1/8 in);
# more than half an inch smaller it pulls (our own threshold).
SMALLER = MM["in"] / 2
LINED = """
    piece front, back of sail: 10 x 12
    piece front_in, back_in of sail: 10 x {}
    join front to back along sides, bottom as outer
    join front_in to back_in along sides, bottom, leaving 4 open in bottom as inner
    slip inner into outer, right sides together
    join inner.rim to outer.rim as bag
    turn bag through inner.bottom
    close inner.bottom
"""


@rule(
    why="A lining larger than its shell bags inside it; one much smaller pulls at the seams.",
    mend="Cut the lining to the shell's size, or up to half an inch smaller.",
    trips=LINED.format(13),
    passes=LINED.format("11 3/4"),
    severity="doubt",
    whole=True,
    waits=(*UNSETTLED, "joined-edges-differ"),
)
def lining_does_not_fit(recipe: Recipe) -> Looks:
    for op, inner, outer in lined(recipe):
        misfits = [
            (abs(gap), gap, name, lining, shell)
            for name, lining, shell in shared(measures(inner), measures(outer))
            if not -SMALLER <= (gap := lining.mm - shell.mm) <= allowed(recipe, lining)
        ]
        if misfits:  # one slip shows in several measures: say the worst
            size, gap, name, lining, shell = max(misfits, key=lambda misfit: misfit[0])
            words, edits = remedy(recipe, lining, size, -1 if gap > 0 else 1)
            yield Found(
                inner.at,
                f"{inner.name} is {recipe.say(lining)} {name} and {outer.name} {recipe.say(shell)}: "
                f"the lining is {recipe.say(size)} too {'large' if gap > 0 else 'small'}",
                f"make {words}" if words else "cut, notch and box the lining as the shell",
                beside=[
                    (outer.at, f"{outer.name} is made here"),
                    (
                        op.at,
                        "the lining is slipped in here" if op.verb == "slip" else "it is turned into its lining here",
                    ),
                ],
                working=(lining, shell),
                mends=[(f"make {words}", edits, False)] if edits else (),
            )


def lined(recipe: Recipe) -> Iterator[tuple[Op, Shell, Shell]]:
    """(statement, lining, shell): slipped in, or joined by the zip and turned out through the lining's gap."""
    for op in recipe.ops:
        if op.verb == "slip" and op.parts["inner"] is not None and op.parts["outer"] is not None:
            yield op, op.parts["inner"], op.parts["outer"]
        elif op.verb == "turn" and op.parts["shell"] is not None and op.parts["through"] is not None:
            outer, inner = op.parts["shell"], op.parts["through"].panel
            if inner.kind == "shell" and inner is not outer and share_a_seam(recipe, inner, outer):
                yield op, inner, outer


def share_a_seam(recipe: Recipe, one: Shell, other: Shell) -> bool:
    """Whether panels of two shells lie in one seam, as a lining's and a shell's do beside their zip."""
    return any({one, other} <= shells_in(seam) for seam in recipe.seams)


def shells_in(seam: Seam) -> set[AnyThing]:
    """The shells whose panels lie in a seam, each panel taken by itself or by the flat assembly it is in."""
    panels = [chain.panel for chain in seam.sides]
    return {outermost(thing) for panel in panels for thing in (panel, root(panel))}


def shared(one: Measures, other: Measures) -> list[tuple[str, Working, Working]]:
    """(name, measure, measure) for the measures that two things have in common."""
    return [(name, length, other[name]) for name, length in one.items() if name in other]


RULES = (finished_size_differs, depth_against_notch, unknown_measure, lining_does_not_fit)
