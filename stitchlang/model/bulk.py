"""Bulk: how many layers lie under the needle on each row of stitching, and how thick they are, at its worst places."""

from __future__ import annotations

from .crossings import TURNING, Crossings, flat, turns_of, worst
from .layers import by_stuff, cloth, plies, thickness, times, weight

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from ..ground.working import Working
    from .kinds import Across, AnyThing, Layers
    from .outline import Edge
    from .recipe import Op, Recipe, Stuff
    from .seams import Chain, Seam


class Place:
    """One place of a row of stitching: the statement that sews it, where it is, and the layers there."""

    __slots__ = ("op", "where", "layers")

    def __init__(self, op: Op, where: str, layers: Layers) -> None:
        self.op = op
        self.where = where.strip()
        self.layers = layers

    @property
    def plies(self) -> int:
        """How many layers of cloth, tape or webbing."""
        return plies(self.layers)

    @property
    def thickness(self) -> Working | None:
        """What they come to: a Working, or None where a thickness is not stated."""
        return thickness(self.layers)

    def known(self) -> bool:
        """Whether every layer's thickness is stated."""
        return all(stuff is not None and "thick" in stuff.facts for _, stuff, _, _ in self.layers)

    def by_stuff(self) -> list[tuple[int, Stuff | None]]:
        """(count, stuff) of the layers."""
        return by_stuff(self.layers)


def stated(recipe: Recipe) -> bool:
    """Whether anything is said that bulk could be measured or checked by."""
    return recipe.machine is not None or any("thick" in stuff.facts for stuff in recipe.stuff.values())


def places(recipe: Recipe, opened: bool = False) -> list[Place]:
    """Every place of every row, seams first; `opened` as if every seam were pressed open."""
    crossings = Crossings(recipe, opened)
    found = [place for seam in recipe.seams for place in seam_places(crossings, seam)]
    for op in recipe.ops:
        found += ROWS.get(op.verb, nothing)(crossings, op)
    return [place for place in found if place.layers]


def thickest(found: Iterable[Place]) -> Place | None:
    """The thickest of those places whose thickness is known, or None."""
    return max((place for place in found if place.known()), key=lambda place: weight(place.layers), default=None)


def most_unknown(found: Iterable[Place]) -> Place | None:
    """The place with the most plies of those whose thickness nobody can tell, or None."""
    return max((place for place in found if not place.known()), key=lambda place: place.plies, default=None)


def seam_places(crossings: Crossings, seam: Seam) -> list[Place]:
    """The places of a seam while it is sewn."""
    title = seam.sides[0].title.replace("_", " ") if seam.boxing else seam.sides[0].title
    return [
        Place(seam.op, f"the seam at {title} {spot.where}", crossings.sewn(seam, spot)) for spot in crossings.seam(seam)
    ]


def nothing(_crossings: Crossings, _op: Op) -> list[Place]:
    """Statements that sew no row."""
    return []


def topstitched(crossings: Crossings, op: Op) -> list[Place]:
    """Rows along seams, hems and folds, each once however many edges it runs over."""
    found, seen = [], set()
    for chain in op.parts.get("chains", ()):
        for link in chain.links:
            seam, hem = next((seam for seam, _ in crossings.earlier(link, op)), None), hem_of(link, op)
            row = seam or hem or link
            if row not in seen:
                seen.add(row)
                layers = topstitched_row(crossings, op, chain, link, seam, hem)
                found += [Place(op, f"the row along {chain.title} {where}", one) for where, one in layers]
    return found


def hem_of(link: Edge, op: Op) -> Op | None:
    """The hem of an edge, sewn before a statement."""
    fate = link.fate("hem")
    return fate.op if fate is not None and fate.op.number < op.number else None


def topstitched_row(
    crossings: Crossings, op: Op, chain: Chain, link: Edge, row: Seam | None, hem: Op | None
) -> list[tuple[str, Layers]]:
    """(where, layers) along one seam, hem or fold."""
    if row is None:
        if hem is None:
            return [("", crossings.finished(link, op)), *joins(crossings, link.panel)]
        return [(spot.where, spot.hemmed(turns_of(link, op))) for spot in crossings.spots([chain], hem)]
    at = op.parts.get("at")
    if at is not None and row.allowance is not None and row.allowance.mm < at.mm:
        return []  # beyond the allowances lie the panels alone
    if chain.panel.kind == "shell":
        return [(spot.where, spot.turned()) for spot in crossings.seam(row)]
    number = next(number for seam, number in crossings.earlier(link, op) if seam is row)
    beneath = [crossings.sheets.at(side.links[0]) for side in row.sides[2:] if side.links]
    return [("", crossings.beside(row, number, crossings.sheets.at(link)) + flat(beneath))]


def joins(crossings: Crossings, strip: AnyThing) -> Iterator[tuple[str, Layers]]:
    """(where, layers) where a folded strip was joined; a diagonal join spreads out and is no hump."""
    if strip.kind != "strip" or strip.source.kind != "flat":
        return
    for seam in strip.source.seams:
        if seam.op.node.first("diagonally") is None:
            layers = max(crossings.opened_out(seam).values(), key=weight, default=[])
            yield "where it is joined", times(layers, strip.parts)


def hemmed(crossings: Crossings, op: Op) -> list[Place]:
    """A hem, through all its turnings."""
    turns = max(len(op.parts.get("turns", ())), 1)
    return [
        Place(op, f"the hem at {chain.title} {spot.where}", spot.hemmed(turns))
        for chain in op.parts.get("chains", ())
        for spot in crossings.spots([chain], op)
    ]


def placed(crossings: Crossings, op: Op) -> list[Place]:
    """Rows along the edges of what is laid on a panel, and their ends where a hem or turning crosses."""
    panel, found = op.parts.get("panel"), []
    under = crossings.sheets.of(panel) if panel is not None else []
    for chain in op.parts.get("sewn", ()):
        for link in chain.links:
            layers = crossings.finished(link, op)
            turns = max(turns_of(edge, op) for edge in (link.before, link.after))
            corner = "at its corner" if turns else ""
            found.append(
                Place(op, f"the row along {chain.title} {corner}", layers + cloth(layers, turns, TURNING) + under)
            )
    return found


def bound(crossings: Crossings, op: Op) -> list[Place]:
    """A binding round a raw edge, and over what crosses it, or round a seam's allowances."""
    wrapped, found, seen = crossings.wrapping(op.parts.get("binding")), [], set()
    for chain in op.parts.get("chains", ()):
        title = f"the binding along {chain.title}"
        for seam in (seam for link in chain.links for seam, _ in crossings.earlier(link, op)):
            if seam not in seen:
                seen.add(seam)
                found.append(Place(op, title, cloth(crossings.seam(seam)[0].sewn()) + wrapped))
        if not any(crossings.earlier(link, op) for link in chain.links):
            spots = crossings.spots([chain], op)
            found += [Place(op, f"{title} {spot.where}", spot.sewn() + wrapped) for spot in spots]
    return found


def quilted(crossings: Crossings, op: Op) -> list[Place]:
    """Rows through a panel and its batting."""
    panel = op.parts.get("panel")
    return [Place(op, f"the rows across {panel.name}", crossings.sheets.of(panel))] if panel is not None else []


def divided(crossings: Crossings, op: Op) -> list[Place]:
    """Rows through a pocket and what it lies on."""
    pocket = op.parts.get("pocket")
    if pocket is None or pocket.inside is None:
        return []
    layers = crossings.sheets.of(pocket) + crossings.sheets.of(pocket.inside)
    return [Place(op, f"the rows through {pocket.name}", layers)]


def threaded(crossings: Crossings, op: Op) -> list[Place]:
    """A strap's end turned back on the strap."""
    strap = op.parts.get("strap")
    if strap is None or op.parts.get("turned") is None:
        return []
    return [Place(op, f"the end of {strap.name}, turned back", times(crossings.sheets.of(strap), 2))]


def pinched(crossings: Crossings, op: Op) -> list[Place]:
    """A pinched corner: the side seam on the base seam, or on the fold."""
    shell = op.parts.get("shell")
    if shell is None or op.parts.get("pinch") is None:
        return []
    seams = {name: seam for seam in reversed(shell.all_seams()) for name in seam.names()}
    side = crossings.opened_out(seams["left"] if "left" in seams else next(iter(seams.values())))
    on_fold: Across = {
        None: crossings.sheets.of(getattr(shell.panels[0], "source", shell.panels[0]))
    }  # the cloth runs on
    base = crossings.opened_out(seams["bottom"]) if "bottom" in seams else on_fold
    return [Place(op, f"the pinched corner of {shell.name}", flat(worst([side, base])))]


ROWS: dict[str, Callable[[Crossings, Op], list[Place]]] = {
    "topstitch": topstitched,
    "channel": topstitched,
    "bind": bound,
    "quilt": quilted,
    "hem": hemmed,
    "place": placed,
    "divide": divided,
    "thread": threaded,
    "box": pinched,
}
