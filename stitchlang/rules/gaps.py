"""Family: order, gaps.  A bag sewn shut is turned through a gap, and the gap is closed."""

from __future__ import annotations

from fractions import Fraction

from ..ground.lengths import MM
from ..ground.text import Span
from ..ground.working import total
from ..model.measures import measure
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ..ground.working import Working
    from ..model.kinds import AnyThing
    from ..model.outline import Edge
    from ..model.recipe import Op, Recipe
    from ..model.seams import Chain, Seam
    from ..model.things import Shell
    from .rule import Looks, Way

ENVELOPE = """
    piece face, lining of sail: 10 x 8
    join face to lining along sides, top, bottom{} as mat
    {}
"""
WHOLE = ENVELOPE.format(", leaving 4 open in bottom", "turn mat through mat.bottom\n    close mat.bottom")


def turns(recipe: Recipe) -> list[Op]:
    """Turning statements whose shell is known."""
    return [op for op in recipe.ops if op.verb == "turn" and op.parts["shell"] is not None]


def open_sides(shell: Shell, op: Op) -> list[tuple[str, list[Edge]]]:
    """Edges of a shell still open when a statement comes to it: (name, edges)."""
    return [
        (name, edges)
        for name, edges in shell.open.items()
        if not any(fate.kind == "seam" and fate.op.number < op.number for edge in edges for fate in edge.all_fates())
    ]


@rule(
    why="What is sewn shut all round can be turned only through a gap.",
    mend="Leave a gap in a seam that does not show.",
    trips=ENVELOPE.format("", "turn mat through mat.bottom"),
    passes=WHOLE,
)
def no_gap_to_turn_through(recipe: Recipe) -> Looks:
    for op in turns(recipe):
        shell, seam, through = op.parts["shell"], op.parts["seam"], op.parts["through"]
        if through is not None and (seam is None or seam.opening is None) and not opens(through):
            yield Found(
                through.at,
                f"{through.title} was sewn without a gap",
                f"write `leaving {recipe.say(a_third(shell))} open in {through.name}` where it is joined",
                beside=[(seam.at if seam else None, "the seam is sewn here")],
            )
        elif op.parts["said_through"] is None and not open_sides(shell, op):
            says, mends = through_nothing(shell, op)
            mend = mends[0][0] if mends else "leave a gap in a seam, and say `turn ... through` it"
            yield Found(op.at, says, mend, beside=[(shell.at, "it is closed here")], mends=mends)


def through_nothing(shell: Shell, op: Op) -> tuple[str, list[Way]]:
    """What is said of a shell that is turned through nothing, and the mend where it has one gap that may be meant."""
    gaps = [f"{shell.name}.{seam.gap_name}" for seam in shell.all_seams() if seam.turning_gap]
    if len(gaps) != 1:
        return f"{shell.name} is closed all round: there is nothing to turn it through", []
    mend = f"write `turn {shell.name} through {gaps[0]}`"
    name = op.node.words()[0]
    return f"it is not said that {shell.name} is turned through its gap, {gaps[0]}", [
        (mend, [(Span(name.start, name.end), f"{name.text} through {gaps[0]}")], True)
    ]


def owner(seam: Seam) -> AnyThing:
    """What a seam made; where nothing came of it, the panel that it is sewn to."""
    return seam.op.makes if seam.op.makes is not None else seam.sides[0].panel


def a_third(shell: AnyThing) -> Fraction:
    """A gap that turns easily, to an eighth of an inch: a third of the width."""
    wide = lying_flat(shell)
    step = MM["in"] / 8
    return max(wide.mm / 3 // step, 8) * step if wide is not None else 40 * step


def lying_flat(shell: AnyThing) -> Working | None:
    """How wide a shell is, lying flat: a round one half its girth."""
    around = measure(shell, "around")
    flat = total("lying flat, half the girth", (Fraction(1, 2), around)) if around is not None else None
    return measure(shell, "wide") or flat


def opens(chain: Chain) -> bool:
    """Whether a chain is an edge still free, a mouth rather than a seam, or a zip that can be opened."""
    return chain.panel.kind == "zip" or (
        chain.panel.kind == "shell"
        and chain.name in ("rim", *chain.panel.open)
        and not any(link.fate("seam") for link in chain.links)
    )


@rule(
    why="A gap for turning that nobody closes is a hole.",
    mend="Close it, by hand or by machine.",
    trips=ENVELOPE.format(", leaving 4 open in bottom", "turn mat through mat.bottom"),
    passes=WHOLE,
    whole=True,
    waits=("no-gap-to-close",),
)
def gap_never_closed(recipe: Recipe) -> Looks:
    for seam in recipe.seams:
        if seam.turning_gap and seam.closed_by is None and not stitched_over(recipe, seam):
            name = owner(seam).name
            yield Found(
                seam.opening_at or seam.at,
                f"the gap in the {seam.gap_name} of {name} is never closed",
                f"add `close {name}.{seam.gap_name}` after it is turned",
                beside=[(seam.at, "the seam is sewn here")],
            )


def stitched_over(recipe: Recipe, seam: Seam) -> bool:
    """Whether the edge with the gap is later sewn onto something, or topstitched, which closes it."""
    for op in recipe.ops:
        chains = op.parts.get("sewn") or (op.parts.get("chains") if op.verb == "topstitch" else None) or ()
        if op.number > seam.op.number and any(
            chain.panel is seam.op.makes and chain.name == seam.gap_name for chain in chains
        ):
            return True
    return False


@rule(
    why="A gap is left so that the bag can be turned; never turned, it stays inside out.",
    mend="Turn it through the gap before the gap is closed.",
    trips=ENVELOPE.format(", leaving 4 open in bottom", "close mat.bottom"),
    passes=WHOLE,
    whole=True,
    waits=("no-gap-to-turn-through",),
)
def never_turned(recipe: Recipe) -> Looks:
    used = {op.parts["seam"] for op in turns(recipe)}
    for seam in recipe.seams:
        if seam.turning_gap and seam not in used:
            name = owner(seam).name
            yield Found(
                seam.opening_at or seam.at,
                f"a gap is left in the {seam.gap_name} of {name}, and nothing is turned through it",
                f"add `turn {name} through {name}.{seam.gap_name}` before the gap is closed",
                beside=[(seam.closed_by.at if seam.closed_by else None, "the gap is closed here")],
            )


@rule(
    why="A gap longer than its seam leaves no seam.",
    mend="Leave a shorter gap.",
    trips=ENVELOPE.format(", leaving 11 open in bottom", "turn mat through mat.bottom\n    close mat.bottom"),
    passes=WHOLE,
)
def gap_longer_than_seam(recipe: Recipe) -> Looks:
    for seam in recipe.seams:
        if seam.opening is not None:
            length = seam.gap_edge()
            if seam.opening.mm >= length.mm:
                yield Found(
                    seam.opening_at or seam.at,
                    f"a gap of {recipe.say(seam.opening)} leaves nothing of a seam {recipe.say(length)} long",
                    f"leave less than {recipe.say(length)}",
                    working=(length,),
                )


@rule(
    why="The whole bag must pass the gap: common practice leaves a hand's breadth, less on small goods; "
    "below a fifth of the width it tears (our own threshold; published gaps run from 2 in 9 upward).",
    mend="Leave a longer gap.",
    trips=ENVELOPE.format(", leaving 1 open in bottom", "turn mat through mat.bottom\n    close mat.bottom"),
    passes=WHOLE,
    severity="doubt",
)
def gap_too_small(recipe: Recipe) -> Looks:
    for op in turns(recipe):
        seam = op.parts["seam"]
        wide = lying_flat(op.parts["shell"])
        if seam is not None and seam.opening is not None and wide is not None and seam.opening.mm < wide.mm / 5:
            yield Found(
                seam.opening_at or seam.at,
                f"{op.parts['shell'].name} is {recipe.say(wide)} wide and must pass a gap of "
                f"{recipe.say(seam.opening)}",
                f"leave {recipe.say(a_third(op.parts['shell']))}, or {recipe.say(wide.mm / 5)} at least",
                beside=[(op.at, "it is turned here")],
            )


@rule(
    why="Through a gap one turns what is closed; what still has an open mouth is turned through that.",
    mend="Join the rim before turning, or turn through the mouth.",
    trips="""
        piece front, back of sail: 10 x 8
        join front to back along sides, bottom, leaving 4 open in bottom as bag
        turn bag through bag.bottom
        close bag.bottom
        hem bag.rim by 1/2
    """,
    passes="""
        piece front, back of sail: 10 x 8
        join front to back along sides, bottom as bag
        turn bag
        hem bag.rim by 1/2
    """,
    severity="doubt",
    waits=("unknown-edge",),
)
def turned_while_open(recipe: Recipe) -> Looks:
    for op in turns(recipe):
        shell, seam = op.parts["shell"], op.parts["seam"]
        left = open_sides(shell, op) if seam is not None and seam.opening is not None else []
        if left:
            yield Found(
                op.at,
                f"{shell.name} is turned through a gap while its "
                f"{' and '.join(name for name, _ in left)} is still open",
                "join the rim first, or leave no gap and turn it through its mouth",
                beside=[(seam.opening_at, "the gap is left here")],
            )


@rule(
    why="Only a gap that was left can be closed.",
    mend="Name the seam that has the gap.",
    trips=WHOLE.rstrip() + "\n    close mat.top",
    passes=WHOLE,
)
def no_gap_to_close(recipe: Recipe) -> Looks:
    for slip in recipe.slips.get("no-gap-to-close", ()):
        panel = slip.chain.panel
        gaps = [seam for seam in panel.all_seams() if seam.opening is not None] if panel.kind == "shell" else []
        if gaps:
            says = f"no gap was left in {slip.chain.title}; the gap is in {panel.name}.{gaps[0].gap_name}"
            mend = f"write `close {panel.name}.{gaps[0].gap_name}`"
        else:
            says, mend = f"no gap was left in {slip.chain.title}", "write `leaving` and a length where it is joined"
        yield Found(slip.at, says, mend, beside=[(gap.opening_at, "the gap is left here") for gap in gaps])


RULES = (
    no_gap_to_turn_through,
    no_gap_to_close,
    gap_never_closed,
    never_turned,
    gap_longer_than_seam,
    gap_too_small,
    turned_while_open,
)
