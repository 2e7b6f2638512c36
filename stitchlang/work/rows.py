"""The rows of machine stitching that each verb's statement makes, all copies of a piece counted.

A row has the stitched length of its edge, what it goes through, and its ends.
A verb that is not in ROWS and makes no seam gives none.
"""

from __future__ import annotations

from attrs import frozen

from ..ground.lengths import root
from ..model.measures import measure
from ..model.things import cut_size
from .plies import beside, seam_panels, together

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from ..ground.lengths import Rational
    from ..model.recipe import Op
    from ..model.seams import Chain, Seam
    from .plies import Plies


@frozen
class Row:
    """Stitching of one kind: its length in mm, what it goes through in mm (or None), and how many ends it has."""

    length: Rational
    thick: Rational | None
    ends: int = 2


def rows_of_op(plies: Plies, op: Op, seams: Sequence[Seam]) -> Iterator[Row]:
    """The rows that a statement sews: of its seams, then those its verb makes beside."""
    yield from seam_rows(plies, seams)
    if op.verb in ROWS:
        yield from ROWS[op.verb](plies, op)


# How often each kind of seam is sewn along.
PASSES = {"plain": 1, "lapped": 2, "felled": 2, "enclosed": 2, "bound": 2}


def seam_rows(plies: Plies, seams: Sequence[Seam]) -> Iterator[Row]:
    """A row for each seam, twice for a kind that is sewn twice; a gap left open takes none and makes two ends more."""
    begun = chains_begun([seam.sides[0] for seam in seams])
    for seam in seams:
        first = seam.sides[0]
        length = first.stitched().mm / (2 if len(seam.sides) == 1 and first.panel.kind == "shell" else 1)
        gap = seam.opening.mm if seam.opening is not None else 0
        each = PASSES.get(seam.kind, 1) * copies(seam)
        ends = 2 * ((first in begun) + (gap > 0))
        yield Row((length - gap) * each, plies.through(*seam_panels(seam)), ends * each)


def copies(seam: Seam) -> int:
    """How often a seam is sewn: pieces cut twice are joined twice, unless one is joined to its twin."""
    panels = dict.fromkeys(chain.panel for chain in seam.sides)
    if len(panels) > 1:
        return min(panel.count for panel in panels)
    panel = seam.sides[0].panel
    return max(1, panel.count // 2) if panel.kind == "piece" else panel.count


def chains_begun(chains: Sequence[Chain]) -> Sequence[Chain]:
    """The edges at which a row begins: it goes on round a corner where two of them meet."""
    links = {link: chain for chain in chains for link in chain.links}
    begun = [chain for chain in chains if all(links.get(link.before, chain) is chain for link in chain.links)]
    return begun or chains[:1]


def rows_along(chains: Sequence[Chain], thick: Callable[[Chain], Rational | None], times: int = 1) -> Iterator[Row]:
    """A row along each edge, `times` over; `thick` says what an edge's row goes through."""
    begun = chains_begun(chains)
    for chain in chains:
        if chain.links:
            each = times * count_of(chain)
            yield Row(row_length(chain) * each, thick(chain), 2 * each * (chain in begun))


def count_of(chain: Chain) -> int:
    """How many copies of its panel are cut; of a folded piece, of what was folded."""
    return getattr(chain.panel, "source", chain.panel).count


def row_length(chain: Chain) -> Rational:
    """The stitched length of an edge; both layers of a folded piece are sewn as one."""
    length = chain.stitched().mm
    return length / len(chain.links) if chain.panel.kind == "folded" else length


# ------------------------------------------------------------------ along edges
def hem(plies: Plies, op: Op) -> Iterable[Row]:
    """Close to the inner fold; a folded piece is hemmed in each of its layers, and a cord's opening left."""
    chains, gap = op.parts["chains"], op.parts.get("open")
    begun, layers = chains_begun(chains), 1 + len(op.parts["turns"])
    for chain in chains:
        if chain.links:
            hems = len(chain.links) if chain.panel.kind == "folded" else 1
            length = chain.stitched().mm - (gap.mm if gap is not None else 0)
            ends = 2 * hems * ((chain in begun) + (gap is not None))
            thick = plies.through(*[chain.links[0].panel] * layers)
            yield Row(length * count_of(chain), thick, ends * count_of(chain))


def topstitch(plies: Plies, op: Op) -> Iterable[Row]:
    return rows_along(op.parts["chains"], lambda chain: plies.through(*beside(chain)))


def baste(plies: Plies, op: Op) -> Iterable[Row]:
    """What is threaded through a ring is looped, and both its ends are held by one row."""
    chains, onto = op.parts["chains"], op.parts["onto"]
    chains = chains[:1] if op.parts["hardware"] is not None else chains
    hosts = [chain.links[0].panel for chain in onto if chain.links][:1]
    return rows_along(chains, lambda chain: plies.through(chain.panel, *hosts))


def bind(plies: Plies, op: Op) -> Iterable[Row]:
    """Sewn on, and stitched down on the other side; what runs on free is stitched shut."""
    tape = plies.of_binding(op.parts["binding"]) if op.parts["binding"] is not None else None
    yield from rows_along(
        [chain.in_one_pass for chain in op.parts["chains"]],
        lambda chain: together(plies.through(chain.links[0].panel), tape and 2 * tape),
        times=2,
    )
    if op.parts["running_on"] is not None:
        yield Row(op.parts["running_on"].mm, tape and 4 * tape)


def channel(plies: Plies, op: Op) -> Iterable[Row]:
    """Two rows, or one where the edge itself is the other side."""
    times = sum(row.mm > 0 for row in op.parts["rows"])
    return rows_along(op.parts["chains"], lambda chain: plies.through(*beside(chain)), times) if times else ()


def gather(plies: Plies, op: Op) -> Iterable[Row]:
    """Two rows of long stitches along the edge as it is before it is drawn up."""
    full = op.parts.get("full", {})
    for chain in op.parts["chains"]:
        if chain in full and chain.links:
            yield Row(2 * full[chain].mm, plies.through(chain.links[0].panel), 4)


def pleat(plies: Plies, op: Op) -> Iterable[Row]:
    """A row across the folds; tucks are stitched along each fold, and how long those are is not stated."""
    if op.parts["kind"] == "tucks":
        return ()
    return rows_along(op.parts["chains"], lambda chain: plies.through(*[chain.links[0].panel] * 3))


def dart(plies: Plies, op: Op) -> Iterable[Row]:
    """From the edge to nothing, along the fold: the slanted side of each dart."""
    by, long = op.parts["by"], op.parts["long"]
    for chain in op.parts["chains"] if by is not None and long is not None else ():
        count = op.parts["count"] * chain.panel.count
        panel = chain.links[0].panel if chain.links else chain.panel
        yield Row(root(long.mm**2 + (by.mm / 2) ** 2) * count, plies.through(panel, panel), 2 * count)


# ------------------------------------------------------------------ on panels
def place(plies: Plies, op: Op) -> Iterable[Row]:
    panel = op.parts["panel"]
    return rows_along(op.parts["sewn"], lambda chain: plies.through(chain.panel, panel)) if panel else ()


def divide(plies: Plies, op: Op) -> Iterable[Row]:
    """From the pocket's bottom to its mouth, once for each row."""
    pocket = op.parts["pocket"]
    number = len(op.parts["rows"]) + max(0, (op.parts["into"] or 1) - 1)
    tall = measure(pocket, "tall") if pocket is not None else None
    if tall is not None and number:
        behind = [pocket.inside] if pocket.inside is not None else []
        yield Row(tall.mm * number, plies.through(pocket, *behind), 2 * number)


def quilt(plies: Plies, op: Op) -> Iterable[Row]:
    """Rows so far apart over the whole panel: its area over their distance."""
    panel, batting, apart = op.parts["panel"], op.parts["batting"], op.parts["apart"]
    wide, tall = (cut_size(panel, side) if panel is not None else None for side in ("top", "left"))
    if wide is None or tall is None or apart is None:
        return
    thick = batting.facts.get("thick") if batting is not None else None
    number = max(1, int(wide.mm / apart.mm))
    yield Row(
        wide.mm * tall.mm / apart.mm * panel.count,
        together(plies.through(panel), thick.mm if thick is not None else None),
        2 * number * panel.count,
    )


def box(plies: Plies, op: Op) -> Iterable[Row]:
    """Boxing seams are seams; pinched corners are two, stitched straight across."""
    if op.parts.get("pinch") is not None:
        yield Row(2 * op.parts["pinch"].mm, plies.through(op.parts["shell"]), 4)


def cap(plies: Plies, op: Op) -> Iterable[Row]:
    """Each end's cap is stitched down across the zip: two layers of cap on its tape."""
    scrap = op.parts["cap"]
    if scrap is not None and scrap.width is not None:
        yield Row(2 * scrap.width.mm, plies.through(scrap, scrap, op.parts["zip"]), 4)


def slit(plies: Plies, op: Op) -> Iterable[Row]:
    """Round the opening, round the zip behind it, and the three open sides of the bag folded up."""
    parts = op.parts
    if None in (parts["size"], parts["panel"], parts["bag"]):
        return
    around, bag = 2 * sum(side.mm for side in parts["size"]), parts["bag"]
    yield Row(around, plies.through(parts["panel"], bag))
    yield Row(around, plies.through(parts["panel"], bag, parts["zip"]))
    yield Row(bag.width.mm + bag.height.mm, plies.through(bag, bag))


def wrap(plies: Plies, op: Op) -> Iterable[Row]:
    """Close to the cord, all along the strip."""
    source = op.parts["source"]
    long = cut_size(source, "left") if source is not None else None
    if long is not None:
        yield Row(long.mm * source.count, plies.through(source, source), 2 * source.count)


def close(plies: Plies, op: Op) -> Iterable[Row]:
    """A gap closed with a row of stitching; by hand takes none."""
    seam = op.parts["seam"]
    if seam is not None and seam.opening is not None and not op.parts["by_hand"]:
        yield Row(seam.opening.mm, plies.through(*seam_panels(seam) * 2))


# ------------------------------------------------------------------ on hardware
def set_on(_plies: Plies, op: Op) -> Iterator[Row]:
    """Hook-and-loop tape is stitched all round, on each panel."""
    stuff = op.parts["snap"]
    wide, long = (stuff.facts.get(fact) if stuff is not None else None for fact in ("wide", "long"))
    if stuff is not None and stuff.kind == "touch" and wide is not None and long is not None:
        number = sum(panel.count for panel in op.parts["panels"]) * (2 if op.parts["mirrored"] else 1)
        yield Row(2 * (wide.mm + long.mm) * number, None, 2 * number)


def thread(plies: Plies, op: Op) -> Iterable[Row]:
    """Each end turned back is stitched down in a box."""
    strap, turned = op.parts["strap"], op.parts["turned"]
    wide = measure(strap, "wide") if strap is not None else None
    if wide is not None and turned is not None:
        number = 2 * strap.count
        yield Row(2 * (wide.mm + turned.mm) * number, plies.through(strap, strap), 2 * number)


ROWS = {
    "hem": hem, "topstitch": topstitch, "baste": baste, "bind": bind, "channel": channel, "gather": gather,
    "pleat": pleat, "dart": dart, "place": place, "divide": divide, "quilt": quilt, "box": box, "cap": cap,
    "slit": slit, "wrap": wrap, "close": close, "set": set_on, "thread": thread,
}  # fmt: skip
