"""Bulk: how many layers lie under the needle on each row of stitching, and how thick they are, at its worst places."""

from .crossings import TURNING, Crossings, flat, turns_of, worst
from .layers import by_stuff, cloth, plies, thickness, times, weight


class Place:
    """One place of a row of stitching: the statement that sews it, where it is, and the layers there."""

    __slots__ = ("op", "where", "layers")

    def __init__(self, op, where, layers):
        self.op = op
        self.where = where.strip()
        self.layers = layers

    @property
    def plies(self):
        """How many layers of cloth, tape or webbing."""
        return plies(self.layers)

    @property
    def thickness(self):
        """What they come to: a Working, or None where a thickness is not stated."""
        return thickness(self.layers)

    def known(self):
        """Whether every layer's thickness is stated."""
        return all(stuff is not None and "thick" in stuff.facts for _, stuff, _, _ in self.layers)

    def by_stuff(self):
        """(count, stuff) of the layers."""
        return by_stuff(self.layers)


def stated(recipe):
    """Whether anything is said that bulk could be measured or checked by."""
    return recipe.machine is not None or any("thick" in stuff.facts for stuff in recipe.stuff.values())


def places(recipe, opened=False):
    """Every place of every row, seams first; `opened` as if every seam were pressed open."""
    crossings = Crossings(recipe, opened)
    found = [place for seam in recipe.seams for place in seam_places(crossings, seam)]
    for op in recipe.ops:
        found += ROWS.get(op.verb, nothing)(crossings, op)
    return [place for place in found if place.layers]


def thickest(found):
    """The thickest of those places whose thickness is known, or None."""
    return max((place for place in found if place.known()), key=lambda place: weight(place.layers), default=None)


def most_unknown(found):
    """The place with the most plies of those whose thickness nobody can tell, or None."""
    return max((place for place in found if not place.known()), key=lambda place: place.plies, default=None)


def seam_places(crossings, seam):
    """The places of a seam while it is sewn."""
    title = seam.sides[0].title.replace("_", " ") if seam.boxing else seam.sides[0].title
    return [
        Place(seam.op, f"the seam at {title} {spot.where}", crossings.sewn(seam, spot)) for spot in crossings.seam(seam)
    ]


def nothing(_crossings, _op):
    """Statements that sew no row."""
    return []


def topstitched(crossings, op):
    """Rows along seams, hems and folds, each once however many edges it runs over."""
    found, seen = [], set()
    for chain in op.parts.get("chains", ()):
        for link in chain.links:
            row = next((seam for seam, _ in crossings.earlier(link, op)), None) or hem_of(link, op) or link
            if row not in seen:
                seen.add(row)
                layers = topstitched_row(crossings, op, chain, link, row)
                found += [Place(op, f"the row along {chain.title} {where}", one) for where, one in layers]
    return found


def hem_of(link, op):
    """The hem of an edge, sewn before a statement."""
    fate = link.fate("hem")
    return fate.op if fate is not None and fate.op.number < op.number else None


def topstitched_row(crossings, op, chain, link, row):
    """(where, layers) along one seam, hem or fold."""
    if row is link:
        return [("", crossings.finished(link, op)), *joins(crossings, link.panel)]
    if row is hem_of(link, op):
        return [(spot.where, spot.hemmed(turns_of(link, op))) for spot in crossings.spots([chain], row)]
    at = op.parts.get("at")
    if at is not None and row.allowance is not None and row.allowance.mm < at.mm:
        return []  # beyond the allowances lie the panels alone
    if chain.panel.kind == "shell":
        return [(spot.where, spot.turned()) for spot in crossings.seam(row)]
    number = next(number for seam, number in crossings.earlier(link, op) if seam is row)
    beneath = [crossings.sheets.at(side.links[0]) for side in row.sides[2:] if side.links]
    return [("", crossings.beside(row, number, crossings.sheets.at(link)) + flat(beneath))]


def joins(crossings, strip):
    """(where, layers) where a folded strip was joined; a diagonal join spreads out and is no hump."""
    if strip.kind != "strip" or strip.source.kind != "flat":
        return
    for seam in strip.source.seams:
        if seam.op.node.first("diagonally") is None:
            layers = max(crossings.opened_out(seam).values(), key=weight, default=[])
            yield "where it is joined", times(layers, strip.parts)


def hemmed(crossings, op):
    """A hem, through all its turnings."""
    turns = max(len(op.parts.get("turns", ())), 1)
    return [
        Place(op, f"the hem at {chain.title} {spot.where}", spot.hemmed(turns))
        for chain in op.parts.get("chains", ())
        for spot in crossings.spots([chain], op)
    ]


def placed(crossings, op):
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


def bound(crossings, op):
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


def quilted(crossings, op):
    """Rows through a panel and its batting."""
    panel = op.parts.get("panel")
    return [Place(op, f"the rows across {panel.name}", crossings.sheets.of(panel))] if panel is not None else []


def divided(crossings, op):
    """Rows through a pocket and what it lies on."""
    pocket = op.parts.get("pocket")
    if pocket is None or pocket.inside is None:
        return []
    layers = crossings.sheets.of(pocket) + crossings.sheets.of(pocket.inside)
    return [Place(op, f"the rows through {pocket.name}", layers)]


def threaded(crossings, op):
    """A strap's end turned back on the strap."""
    strap = op.parts.get("strap")
    if strap is None or op.parts.get("turned") is None:
        return []
    return [Place(op, f"the end of {strap.name}, turned back", times(crossings.sheets.of(strap), 2))]


def pinched(crossings, op):
    """A pinched corner: the side seam on the base seam, or on the fold."""
    shell = op.parts.get("shell")
    if shell is None or op.parts.get("pinch") is None:
        return []
    seams = {name: seam for seam in reversed(shell.all_seams()) for name in seam.names()}
    side = crossings.opened_out(seams["left"] if "left" in seams else next(iter(seams.values())))
    on_fold = {None: crossings.sheets.of(getattr(shell.panels[0], "source", shell.panels[0]))}  # the cloth runs on
    base = crossings.opened_out(seams["bottom"]) if "bottom" in seams else on_fold
    return [Place(op, f"the pinched corner of {shell.name}", flat(worst([side, base])))]


ROWS = {
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
