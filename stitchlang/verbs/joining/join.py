"""Sew two or more edges together in one pass.

    join:       "join" edge _rest{_join_clause}*
    _join_clause: to | along | at | leaving | catching | as | diagonally
    | lapped | felled | enclosed | bound | sides | running_on

The first two edges open out flat, or close into a shell; any further edge lies
in the same seam beneath them.  `along` names sides of whole things laid right
sides together, so a left side meets a right one.  How a seam is made that is not plain: `lapped 1/2`, `felled`,
`enclosed at 1/4 then 3/8` (sewn twice, the raw edges inside), `bound with tape`.  `running on 1` lets the longer edge
run on past the seam by so much, to be cut off.
"""

from __future__ import annotations

from fractions import Fraction

from ...bench import span
from ...ground.working import NOTHING, Working, total
from ...model.joining import lies_flat, sew_flat, sew_shell
from ...model.seams import Chain, Seam
from ...model.things import cut_size, mirrored
from ...speech import listed

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from ...bench import Bench
    from ...model.kinds import AnyThing
    from ...model.recipe import Op
    from ...model.things import Flat, Shell
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"
SEAM_KINDS = ("lapped", "felled", "enclosed", "bound")


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    operands = [bench.chains(node.listed()), *(bench.chains(node.listed(to)) for to in node.every("to"))]
    along = node.first("along")
    if not all(operands):
        return
    seams = seams_along(op, operands, along, bench) if along else seam_between(op, operands, bench)
    if not seams:
        return
    if any(same_edge(seam) for seam in seams):
        bench.recipe.slip("worked-on-with-itself", op.at, name=seams[0].sides[0].title)
        return
    kind, allowance = how_sewn(node, op, bench)
    spare = bench.clause_length(node, "running_on", "running on past the seam")
    for seam in seams:
        seam.spare = spare
        seam.kind = kind
        sew(seam, allowance, op, bench)
    panels = list(dict.fromkeys(chain.panel for seam in seams for chain in seam.sides))
    for panel in panels:
        bench.use(op, panel)
    caught(node, op, seams, bench)
    openings(node, seams, bench)
    make(node, op, seams, panels, bench)


def how_sewn(node: Node, op: Op, bench: Bench) -> tuple[str, Working]:
    """(the kind of seam, what each edge gives up to it)."""
    clauses = [(kind, clause) for kind in SEAM_KINDS if (clause := node.first(kind)) is not None]
    if len(clauses) > 1:
        bench.misplaced(op.at, wanted="one kind of seam: lapped, felled, enclosed or bound")
    kind, clause = clauses[0] if clauses else ("plain", node)
    if kind == "enclosed":
        rows = [bench.length(part, "row of an enclosed seam") or bench.unknown_allowance() for part in clause.parts]
        op.parts["rows"] = rows
        return kind, total("both rows", (1, rows[0]), (1, rows[1]))
    if kind == "lapped":
        lap = op.parts["lap"] = bench.length(clause.parts[0], "lap") or bench.unknown_allowance()
        return kind, total("half the lap", (Fraction(1, 2), lap))
    if kind == "bound":
        bench.binding(node, op, "bound")
        return kind, NOTHING
    return kind, bench.allowance(node, op)


def same_edge(seam: Seam) -> bool:
    """Whether a seam would sew an edge to itself; of a piece cut twice, one edge meets its twin."""
    chains = seam.sides
    return any(
        chain.panel is other.panel and chain.panel.count < 2 and set(map(id, chain.links)) & set(map(id, other.links))
        for at, chain in enumerate(chains)
        for other in chains[at + 1 :]
    )


def seams_along(op: Op, operands: list[list[Chain]], along: Node, bench: Bench) -> list[Seam]:
    """A seam for each side that `along` names."""
    if any(len(chains) != 1 or chains[0].name for chains in operands):
        bench.misplaced(op.at, wanted="whole things before `along`")
        return []
    panels = [chains[0].panel for chains in operands]
    if len(set(panels)) < len(panels) and panels[0].count < 2:
        bench.recipe.slip("worked-on-with-itself", op.at, name=panels[0].name)
        return []
    if len(panels) == 1:
        return closing_seams(op, panels[0], along, bench)
    seams = []
    for item in op.node.listed(along):
        word = item.word().text
        for name in [name for name, _ in panels[0].find(word) or ()] or [word]:
            found = (side_of(panel, mirrored(name) if at else name, item, bench) for at, panel in enumerate(panels))
            sides = [side for side in found if side is not None]
            if len(sides) == len(panels):
                seams.append(Seam(op, name, sides, NOTHING, span(item)))
    return seams


def closing_seams(op: Op, panel: AnyThing, along: Node, bench: Bench) -> list[Seam]:
    """Seams that close one thing on itself: a folded piece, a strip through its layers, a tube laid flat."""
    if panel.kind not in ("folded", "strip", "shell"):
        doubtful = panel.name in bench.recipe.doubtful  # its fold could not be read
        bench.recipe.slip("broken-name" if doubtful else "joined-to-nothing", op.at, panel=panel)
        return []
    seams = []
    for item in op.node.listed(along):
        for chain in bench.sides(panel, item.word()):
            faces, name = panel.faces if panel.kind == "folded" else (), chain.name or ""
            sides = [Chain(panel, name, face.as_laid(name), chain.at) for face in faces] or [chain]
            seams.append(Seam(op, name, sides, NOTHING, chain.at))
    return seams


def side_of(panel: AnyThing, name: str, item: Node, bench: Bench) -> Chain | None:
    """The chain of a panel's side; None, with a slip, where it has none."""
    found = panel.find(name)
    if not found:
        bench.recipe.slip("unknown-edge", span(item), name=name, panel=panel, known=panel.side_names())
        return None
    return Chain(panel, found[0][0], found[0][1], span(item))


def seam_between(op: Op, operands: list[list[Chain]], bench: Bench) -> list[Seam]:
    """One seam between explicit edges; several edges of one operand make one chain."""
    sides = []
    for chains in operands:
        names = [chain.name for chain in chains if chain.name is not None]
        if len(names) < len(chains):
            bench.misplaced(op.at, wanted="an edge, such as front.top, or `along`")
            return []
        links = [link for chain in chains for link in chain.links]
        sides.append(Chain(chains[0].panel, " + ".join(names), links, chains[0].at))
    if len(sides) < 2:
        bench.recipe.slip("joined-to-nothing", op.at, panel=sides[0].panel)
        return []
    name = sides[0].name or ""
    if sides[0].panel.kind == "shell" and name == "top":
        name = "rim"
    return [Seam(op, name, sides, NOTHING, op.at)]


def sew(seam: Seam, allowance: Working, op: Op, bench: Bench) -> None:
    """Give every edge of a seam its fate."""
    seam.allowance = allowance
    for chain in seam.sides:
        taken = allowance
        if op.node.first("diagonally") is not None:
            # At 45 degrees the two ends overlap by one strip's width between them.
            width = cut_size(chain.panel, chain.name or "")
            if width is not None:
                taken = Working(width.mm / 2, "half the strip's width, lost in a diagonal join", seam.at)
        bench.fate(chain.links, "seam", taken, op)
    bench.recipe.seams.append(seam)


def caught(node: Node, op: Op, seams: list[Seam], bench: Bench) -> None:
    """Edges of other things that the seam catches."""
    op.parts["caught"] = []
    for clause in node.every("catching"):
        chains = bench.chains(node.listed(clause))
        for chain in chains:
            bench.fate(chain.links, "caught", seams[0].allowance, op)
            bench.use(op, chain.panel)
        op.parts["caught"] += chains


def openings(node: Node, seams: list[Seam], bench: Bench) -> None:
    """Gaps left for turning."""
    for clause in node.every("leaving"):
        length = bench.length(clause.parts[0], "gap")
        name = clause.word(1)
        seam = next((seam for seam in seams if name.text in seam.names()), None)
        if seam is None:
            called = next((seam.name for seam in seams if name.text in [side.name for side in seam.sides]), None)
            known = [part for seam in seams for part in seam.names() if " + " not in part]
            facts = {"name": name.text, "panel": seams[0].sides[0].panel, "known": [called] if called else known}
            bench.recipe.slip("unknown-edge", span(name), **facts, called=called)
        else:
            seam.opening, seam.opening_at, seam.gap_name = length, span(clause), name.text
            seam.opening_for = bench.drawn(clause)


def make(node: Node, op: Op, seams: list[Seam], panels: list[AnyThing], bench: Bench) -> None:
    """The flat assembly or shell that comes of it."""
    as_name = node.first("as")
    token = as_name.word() if as_name is not None else None
    name, at = (token.text, span(token)) if token is not None else (None, op.at)
    flat = lies_flat(seams)
    made: Flat | Shell = sew_flat(seams[0], name, at, op) if flat else sew_shell(seams, panels, name, at, op)
    op.parts.update(seams=seams, flat=flat)
    for panel in getattr(made, "panels", ()):
        bench.use(op, panel)
    bench.make(made, op, token)


def say(op: Op, speech: Speech) -> str:
    seams = op.parts.get("seams")
    if not seams:
        return ""
    first = seams[0]
    words = [f"{joined(op, seams, speech)}, {how_said(op, first, speech)}"]
    if op.node.first("diagonally") is not None:
        words = [crossed(first, speech)]
    words += [at_corners(chain) for chain in first.sides if " + " in (chain.name or "")][:1]
    if first.spare is not None:
        words.append(f"letting the longer edge run on by {speech.length(first.spare)}, to be cut off")
    if op.parts["caught"]:
        words.append(f"catching {speech.edges(op.parts['caught'])} in the seam")
    words += [
        f"leaving {speech.length(seam.opening)} open in the {seam.gap_name} for {opening_use(seam)}"
        for seam in seams
        if seam.opening
    ]
    name = op.node.first("as")
    ending = f". This makes the {name.word().text}" if name is not None else ""
    return ", ".join(words) + ending + "."


def at_corners(chain: Chain) -> str:
    """How a long edge is sewn round several: rounded corners are run through, square ones turned at."""
    if any(link.arc for link in chain.links):
        return "clipping the other edge where it goes round the corners"
    return "stopping at each corner with the needle down to turn, and clipping the other edge there"


def opening_use(seam: Seam) -> str:
    """What a gap is left for."""
    return f"the cord ({seam.opening_for.name})" if seam.opening_for is not None else "turning"


def how_said(op: Op, seam: Seam, speech: Speech) -> str:
    """Which sides meet, and how the seam is made."""
    said = op.node.first("sides")
    sides = " ".join(said.word().text.split()) if said is not None else "right sides together"
    if seam.kind == "enclosed":
        one, two = (speech.length(row) for row in op.parts["rows"])
        return (
            f"as an enclosed seam: wrong sides together {one} from the edge, trim and turn, then right sides together "
            f"{two} from the fold"
        )
    if seam.kind == "lapped":
        return f"laid over one another by {speech.length(op.parts['lap'])}, and stitched close to both edges"
    if seam.kind == "bound":
        binding = op.parts["binding"]
        return f"wrong sides together, raw edges even, basted, and bound with {binding.name if binding else 'binding'}"
    if seam.sides[0].panel.kind == "strip" and len(seam.sides) == 1:
        sides = "through all layers"
    felled = "; trim one allowance, fold the other over it and stitch it down flat" if seam.kind == "felled" else ""
    return f"{sides}, with a seam allowance of {speech.length(seam.allowance)}{felled}"


def crossed(seam: Seam, speech: Speech) -> str:
    """A diagonal join, told as it is sewn."""
    one, other = (chain.panel.name for chain in seam.sides[:2])
    return (
        f"Lay the end of {one} across the end of {other} at a right angle, right sides together, stitch from corner to "
        f"corner, trim to {speech.length(seam.allowance)} from the stitching and press open"
    )


def joined(op: Op, seams: list[Seam], speech: Speech) -> str:
    """`Join front to back along the sides and bottom`, or edge to edge."""
    if op.node.first("along") is not None:
        panels = list(dict.fromkeys(chain.panel.name for chain in seams[0].sides))
        where = along_words([seam.name for seam in seams])
        if len(panels) == 1:
            how = "the folded " if seams[0].sides[0].panel.kind == "folded" else ""
            return f"Sew {how}{panels[0]} shut {where}"
        return f"Join {panels[0]} to {listed(panels[1:])} {where}"
    first, *others = [speech.edges([chain]) for chain in seams[0].sides]
    return f"Join {first} to {listed(others)}"


def along_words(names: Sequence[str]) -> str:
    """`the sides and bottom`, `all round`."""
    if {"top", "right", "bottom", "left"} <= set(names):
        return "all round"
    names = [name.replace("_", " ") for name in names]
    if {"left", "right"} <= set(names):
        names = ["sides", *(name for name in names if name not in ("left", "right"))]
    return f"along the {listed(names)}"


def cautions(op: Op) -> tuple[str, ...]:
    zips = [chain.panel for seam in op.parts.get("seams", ()) for chain in seam.sides]
    zips += [chain.panel for chain in op.parts.get("caught", ())]
    metal = any(one.kind == "zip" and one.stuff.facts.get("kind") == "metal" for one in zips)
    return ("teeth",) if metal else ()
