"""Family: binding and piping.  What runs along an edge is as long as the edge, and fits it."""

from __future__ import annotations

from ..ground.working import total
from ..model.measures import measure
from ..model.things import cut_size
from .rule import Found, rule

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..ground.working import Working
    from ..model.recipe import Op, Recipe
    from ..model.seams import Chain, Seam
    from ..model.things import Folded
    from .casings import Drawn
    from .rule import Looks

BOUND = """
    binding tape: 1/2 wide, {} long
    piece mat of sail: 10 x 12
    bind mat edges with tape
"""


def strips(recipe: Recipe) -> Iterator[tuple[Drawn, Working, Working, list[Op]]]:
    """(what is bound with, what is had of it, what is needed of it, the statements) for every binding."""
    used: dict[Drawn, list[Op]] = {}
    for op in recipe.ops:
        binding = op.parts.get("binding")
        if binding is not None:
            used.setdefault(binding, []).append(op)
    for binding, ops in used.items():
        terms = [(1, chain.stitched()) for op in ops for chain in bound_edges(op)]
        terms += [(1, op.parts["running_on"]) for op in ops if op.parts.get("running_on") is not None]
        had = length_had(binding)
        if terms and had is not None:
            yield binding, had, total("bound edges", *terms), ops


def bound_edges(op: Op) -> list[Chain]:
    """The chains that a statement binds."""
    chains = op.parts["chains"] if op.verb == "bind" else [seam.sides[0] for seam in op.parts.get("seams", ())]
    return [chain.in_one_pass for chain in chains]


def length_had(binding: Drawn) -> Working | None:
    """How much there is of a binding: as bought, or as cut, so many strips of it."""
    if not hasattr(binding, "facts"):
        tall = measure(binding, "tall") or cut_size(binding, "left")
        return total(f"{binding.name}, all of it", (binding.count, tall)) if tall is not None else None
    return binding.facts.get("long")


@rule(
    why="Binding runs along every edge that it binds, and on past it where it is a strap.",
    mend="Cut or buy more of it.",
    trips=BOUND.format("40"),
    passes=BOUND.format("50"),
    whole=True,
)
def binding_too_short(recipe: Recipe) -> Looks:
    for binding, had, needed, ops in strips(recipe):
        if had.mm < needed.mm:
            yield Found(
                binding.at,
                f"{recipe.say(needed)} of edges are bound with {binding.name}, and there is {recipe.say(had)} of it: "
                f"{recipe.say(needed.mm - had.mm)} too little",
                f"cut or buy {recipe.say(needed.mm - had.mm)} more, and a little to join its ends",
                beside=[(op.at, "bound here") for op in ops[:4]],
                working=(needed,),
            )


PIPED = """
    cord filler: {} across, 60 long
    piece front, back of sail: 12 x 12
    piece welt of sail: 2 x {}
    wrap welt round filler
    join front to back along sides, bottom, catching welt.right as bag
    leave welt.ends raw
    hem bag.rim by 1/2
"""


def piping(recipe: Recipe) -> Iterator[tuple[list[Seam], Folded, Op]]:
    """(seams, piping, statement) wherever piping is caught."""
    for op in recipe.ops:
        for chain in op.parts.get("caught", ()) if op.verb == "join" else ():
            if getattr(chain.panel, "cord", None) is not None and op.parts.get("seams"):
                yield op.parts["seams"], chain.panel, op


@rule(
    why="What is left of the strip beside the cord lies in the allowance; narrower than that, the row runs over the "
    "cord.",
    mend="Cut the strip wider, by half as much again as the flange wants, or use a thinner cord.",
    trips=PIPED.format("10 mm", 36),
    passes=PIPED.format("5 mm", 36),
    whole=True,
)
def piping_too_narrow(recipe: Recipe) -> Looks:
    for seams, welt, op in piping(recipe):
        flange, allowance = welt.faces[0].edges[0].cut, seams[0].allowance
        if flange.mm < allowance.mm:
            short = allowance.mm - flange.mm
            yield Found(
                welt.at,
                f"beside the cord {recipe.say(flange)} of {welt.name} is left; the seam takes {recipe.say(allowance)}",
                f"cut {welt.name} {recipe.say(2 * short)} wider, or use a thinner cord",
                beside=[(op.at, "the piping is caught here"), (welt.cord.at, "the cord's width")],
                working=(flange,),
            )


@rule(
    why="Piping lies in the whole of the seam that catches it.",
    mend="Cut the strip longer, or join two.",
    trips=PIPED.format("5 mm", 24),
    passes=PIPED.format("5 mm", 36),
    whole=True,
)
def piping_too_short(recipe: Recipe) -> Looks:
    for seams, welt, op in piping(recipe):
        long = cut_size(welt, "left")
        run = total("piped seams", *((1, seam.sides[0].stitched()) for seam in seams))
        if long is not None and long.mm * welt.source.count < run.mm:
            yield Found(
                op.at,
                f"the piping {welt.name} is {recipe.say(long)} long, and {recipe.say(run)} of seam catches it",
                f"cut it {recipe.say(run)} long or more",
                beside=[(welt.at, "this is the piping")],
                working=(run,),
            )


RULES = (binding_too_short, piping_too_narrow, piping_too_short)
