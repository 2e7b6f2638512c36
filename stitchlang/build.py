"""From statements to a recipe worked out.

Statements are taken in the order written, except that one which uses a name
given by a later `as` waits for it: what needs what is known from the names.
Sizes are settled at the end, once every edge has its fate.
"""

from __future__ import annotations

from .bench import Bench
from .declares import heading, piece, promises, stuff, tools
from .ground.working import total
from .model.outline import neighbours, square_ended
from .model.recipe import Recipe
from .model.things import cut_size
from .reading.parse import read
from .sequence import in_sequence
from .verbs import VERBS

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from typing import TypeAlias

    from .ground.text import Source
    from .model.recipe import Op
    from .model.seams import Chain
    from .model.things import Strip
    from .reading.parse import Reading
    from .reading.tree import Node
    from .used import Files

    Meaning: TypeAlias = Callable[[Node, Bench], object]  # what a statement does to the recipe being built

DECLARES: dict[str, Meaning] = {
    **{
        name: getattr(heading, name)
        for name in "recipe revision units allowance tolerance accuracy part use note allow let".split()
    },
    **dict.fromkeys(stuff.KINDS, stuff.stuff),
    "zip": stuff.zip,
    "machine": tools.machine,
    "reel": tools.reel,
    "piece": piece.piece,
}
PROMISES: dict[str, Meaning] = {name: getattr(promises, name) for name in ("finished", "made", "holds")}
MEANINGS: dict[str, Meaning] = {**DECLARES, **{name: verb.mean for name, verb in VERBS.items()}}


def build(source: Source, size: int = 0, reading: Reading | None = None) -> Recipe:
    """Read a Source and work it out: a Recipe, whole however broken the text.

    `size` is which of its sizes, where its values have several; `reading` the text as read, if it was read before.
    """
    recipe = Recipe(source)
    recipe.size = size
    reading = recipe.reading = reading or read(source.text)
    bench = Bench(recipe)
    for stumble in reading.stumbles:
        recipe.doubtful.update(token.text for token in stumble.words if token.kind == "NAME")
    statements, files = reading.statements, files_of(bench, reading)
    if files is not None:
        statements = files.together(statements)
    claims = [node for node in statements if node.rule in PROMISES]
    if files is not None:
        claims.sort(key=files.is_shared)
    others = [node for node in statements if node.rule not in PROMISES]
    for node in in_sequence(others, recipe):
        if files is not None:
            files.turn_to(node)
        MEANINGS[node.rule](node, bench)
        doubt_what_was_not_made(node, recipe)
    recipe.ops.sort(key=lambda op: op.at.start)
    for number, op in enumerate(recipe.ops):
        op.number = number
    for node in claims:
        if files is not None:
            files.turn_to(node)
        PROMISES[node.rule](node, bench)
    if files is not None:
        files.turn_back()
    settle_trims(recipe)
    for work_out in recipe.late:
        work_out()
    settle_edges(recipe)
    settle_order(recipe)
    return recipe


def files_of(bench: Bench, reading: Reading) -> Files | None:
    """The files that a recipe is made of; None where it is one."""
    if len(bench.recipe.source.stretches) == 1:
        return None
    from .used import Files

    return Files(bench, reading.statements)


def doubt_what_was_not_made(node: Node, recipe: Recipe) -> None:
    """A join or fold that came to nothing leaves its name in doubt, which is said once, at the statement."""
    given = node.first("as")
    if given is not None:
        name = given.word().text
        if name not in recipe.things:
            recipe.doubtful.add(name)
    elif node.rule in ("fold", "wrap") and node.first("up") is None and recipe.ops[-1].makes is None:
        recipe.doubtful.add(node.word().text)
        recipe.things.pop(node.word().text, None)


def settle_trims(recipe: Recipe) -> None:
    """Work out what each trim takes, in the order written, and take it."""
    for op in sorted(recipe.trims, key=lambda op: op.number):
        parts = op.parts
        for chain in parts["chains"]:
            taken = parts["by"]
            now = cut_size(chain.panel, "left" if parts["along"] == "tall" else "top")
            if taken is None and now is not None:
                taken = total(f"trimmed off {chain.title}", (1, now), (-1, parts["to"]))
            if taken is None:
                continue
            parts.setdefault("off", []).append((chain, taken))
            if taken.mm < 0:
                recipe.slip("trim-adds-cloth", op.at, chain=chain, short=-taken.mm, now=now)
            elif taken.mm and not all(map(square_ended, chain.links)):
                recipe.slip("trim-at-no-square-corner", op.at, chain=chain)
            elif taken.mm:
                for link in chain.links:
                    link.trimmed.append(taken)
                    for side in neighbours(link):
                        side.losses.append(taken)


def settle_edges(recipe: Recipe) -> None:
    """Nothing more will happen to any edge or thing: from here on what is worked out of it may be remembered."""
    for thing in [*recipe.things.values(), *recipe.pieces, *recipe.made]:
        for face in (thing, *getattr(thing, "faces", ())):
            face.known = {}
            for edge in getattr(face, "edges", ()):
                edge.settled = True


# What is measured from a cut edge waits until that edge is trimmed.
MEASURED_FROM_EDGE = ("notch", "place", "set")


def settle_order(recipe: Recipe) -> None:
    """Say what must come before what, now that all is known."""
    things = [*recipe.pieces, *recipe.made]
    for thing in things:
        seal, seal_by_hand = thing.sealed(), thing.sealed(by_hand=True)
        trims = [op for op in thing.work if op.verb == "trim"]
        for op in thing.work:
            closing = seal_by_hand if op.verb == "set" else seal
            if closing is not None and closing is not op:
                closing.after.setdefault(op, "sealed")
            if op.verb in MEASURED_FROM_EDGE:
                for trim in trims:
                    op.after.setdefault(trim, "trimmed")
    for op in recipe.ops:
        for chain, _ in op.parts.get("taken", ()):
            before_its_seam(op, [chain])
        SETTLE.get(op.verb, _nothing)(op)
    settle_turns(recipe)


def _nothing(op: Op) -> None:
    pass


def _slip(op: Op) -> None:
    for shell in (op.parts["inner"], op.parts["outer"]):
        for other in shell.work if shell is not None else ():
            if other.verb in ("box", "place", "set", "divide"):
                op.after.setdefault(other, "sealed")
        for panel in shell.panels if shell is not None else ():
            for other in panel.work:
                if other.verb == "set":  # by hand it reached the inside until now
                    op.after.setdefault(other, "sealed")


def settle_turns(recipe: Recipe) -> None:
    """A gap is closed after the turning it was left for, and corners are boxed before."""
    turns = [op for op in recipe.ops if op.verb == "turn" and op.parts["shell"] is not None]
    for op in recipe.ops:
        seam = op.parts["seam"] if op.verb == "close" else None
        for turn in turns:
            if seam is not None and turn.parts["seam"] is seam:
                op.after.setdefault(turn, "turned")
    for turn in turns:
        through = turn.parts["through"]
        shells = [turn.parts["shell"], *([through.panel] if through is not None else [])]
        inner = [panel for shell in shells for panel in getattr(shell, "panels", ())]
        for thing in (*shells, *inner):
            for other in thing.work:
                if other.verb == "box":
                    turn.after.setdefault(other, "sealed")


def _topstitch(op: Op) -> None:
    for chain in op.parts["chains"]:
        for turn in getattr(chain.panel, "turned_by", ()):
            if chain.panel is turn.parts["shell"]:
                op.after.setdefault(turn, "turned")
        if chain.panel.kind == "strip":
            for seam_op in sewn_in(chain.panel):
                if seam_op is not op:
                    seam_op.after.setdefault(op, "sealed")


def sewn_in(strip: Strip) -> Iterator[Op]:
    """The seams that take in a strip's ends."""
    fates = [fate for _, edges in strip.find("ends") or () for edge in edges for fate in edge.all_fates()]
    for fate in fates:
        seam = fate.onto.fate("seam") if fate.onto is not None else None
        if seam is not None:
            yield seam.op
        elif fate.kind == "caught" and fate.op.verb == "join":
            yield fate.op


def _baste(op: Op) -> None:
    """What is basted to an edge is there before the edge is sewn."""
    before_its_seam(op, op.parts["onto"])


def before_its_seam(op: Op, chains: Iterable[Chain]) -> None:
    """What is done to an edge is done before it is sewn or bound."""
    for chain in chains:
        for link in chain.links:
            for fate in link.all_fates():
                if fate.kind in ("seam", "bound") and fate.op is not op:
                    fate.op.after.setdefault(op, "sealed")


SETTLE = {"baste": _baste, "slip": _slip, "topstitch": _topstitch}
