"""The workbench that statements are laid out on: names, lengths and edges looked up, slips noted.

Every statement's meaning is a function of its node and the bench.  Nothing here
raises for bad input and nothing words a finding: what cannot be understood is
noted in the recipe for a rule to speak of.
"""

from __future__ import annotations

from .ground.lengths import read_number
from .ground.text import Span
from .ground.working import NOTHING, Working
from .model.outline import Fate
from .model.placing import MEASURED, Spot
from .model.quantity import Trouble, measure
from .model.recipe import Op
from .model.seams import Chain

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Container, Iterable
    from fractions import Fraction
    from typing import Literal, overload

    from .model.kinds import AnyThing
    from .model.outline import Edge
    from .model.recipe import Recipe, Stuff
    from .model.things import Flat, Piece, Shell, Strip, Zip
    from .reading.tree import Node, Token

# Words that begin a clause: after a comma nothing could tell such a name from the clause.
CLAUSE_WORDS = frozenset(
    "above along and as at below between bound by catching centred diagonally enclosed faced felled for from in into "
    "lapped leaving mirrored of on open over pinched raw round running sewn through to toward turned under when with "
    "x".split()
)

# What is drawn through a casing.
DRAWN = ("cord", "elastic", "ribbon")

# Phrases of which a statement may have several; and `to`, where three edges are joined.
MANY = ("edge", "from", "leaving", "catching")

DEEPEST = 64  # things inside things
LONGEST = 10**6  # millimetres: a kilometre, where a slip of the key is certain


def span(part: Node | Token) -> Span:
    """The span of a node or token."""
    return Span(part.start, part.end)


class Bench:
    """The recipe being built, and the part being read."""

    def __init__(self, recipe: Recipe) -> None:
        self.recipe = recipe
        self.part: str | None = None
        self.slips_before = 0

    # -- lengths -----------------------------------------------------------

    def length(self, part: Node | Token, says: str, nothing: bool = False) -> Working | None:
        """A Working for an expression, or None with a slip noted.

        A length is above nothing; where `nothing` is allowed it may be 0.
        """
        try:
            mm = measure(part, self.recipe)
        except Trouble as trouble:
            self.recipe.slip(trouble.kind, trouble.at, **trouble.facts)
            return None
        over = mm.numerator  # tells the sign of a Fraction, and whether it is too long, without one more Fraction
        if over < 0 or (over == 0 and not nothing):
            self.recipe.slip("length-below-nothing", span(part), says=says, mm=mm)
            return None
        if over > LONGEST * mm.denominator:
            self.recipe.slip("longer-than-any-cloth", span(part), says=says)
            return None
        return Working(mm, says, span(part))

    def coordinate(self, part: Node | Token) -> Fraction | None:
        """Millimetres from the piece's corner, nothing and less allowed; None with a slip noted."""
        try:
            mm = measure(part, self.recipe)
        except Trouble as trouble:
            self.recipe.slip(trouble.kind, trouble.at, **trouble.facts)
            return None
        if abs(mm) > LONGEST:
            self.recipe.slip("longer-than-any-cloth", span(part), says="corner")
            return None
        return mm

    def clause_length(self, node: Node, rule: str, says: str, nothing: bool = False) -> Working | None:
        """The length in a clause, or None where there is no such clause (or no such length)."""
        clause = node.first(rule)
        return self.length(clause.parts[0], says, nothing) if clause is not None else None

    def whole_number(self, token: Token) -> int | None:
        """A count of 1 to 999, or None with a slip."""
        try:
            number: Fraction | int = read_number(token.text)
        except (ValueError, ZeroDivisionError):
            number = 0
        if number.denominator != 1 or not 1 <= number <= 999:
            self.recipe.slip("count-not-whole", span(token), text=token.text)
            return None
        return int(number)

    def count(self, node: Node, rule: str) -> int:
        """The whole number that opens a clause; one without the clause, or where it is no count."""
        clause = node.first(rule)
        return (self.whole_number(clause.word()) if clause is not None else None) or 1

    def drawn(self, clause: Node | None) -> AnyThing | Stuff | None:
        """The cord that an opening is left for; None where it is left for turning, or with a slip."""
        wanted = clause.first("for") if clause is not None else None
        if wanted is None:
            return None
        token = wanted.word()
        sewn = self.recipe.things.get(token.text)
        if sewn is not None and sewn.kind in ("piece", "strip", "shell"):
            return sewn  # a drawstring sewn from cloth
        return self.stuff(token, DRAWN, "a cord, ribbon, elastic or drawstring")

    def binding(self, node: Node, op: Op, rule: str) -> AnyThing | Stuff | None:
        """What a clause binds with: a binding that is bought, or a strip cut for it, whose edges it takes care of."""
        clause = node.first(rule)
        op.parts["binding"] = None
        if clause is None:
            return None
        token = clause.word()
        stuff = self.recipe.stuff.get(token.text)
        if stuff is not None and stuff.kind == "binding":
            stuff.used_by.append(op)
            found: AnyThing | Stuff | None = stuff
        else:
            found = strip = self.thing(token, ("piece", "flat", "strip"), "a binding, or a strip cut for it")
            if strip is not None:
                self.use(op, strip)
                if strip.consumed_by is None:  # of several strips each binds something
                    self.fate(loose_edges(strip), "turned", NOTHING, op)
                strip.consumed_by = op
        op.parts["binding"] = found
        return found

    def allowance(self, node: Node, op: Op, says: str = "seam allowance") -> Working:
        """The allowance at the statement's `at`, or the recipe's own; a butted seam takes nothing."""
        own = node.first("at")
        if own is not None:
            return self.length(own.parts[0], says, nothing=True) or self.unknown_allowance()
        if self.recipe.allowance is None:
            self.recipe.slip("allowance-unsaid", op.at)
            return self.unknown_allowance()
        return self.recipe.allowance

    @staticmethod
    def unknown_allowance() -> Working:
        """Stands in where an allowance could not be read, so that the rest can go on."""
        return Working(0, "unknown allowance")

    # -- names -------------------------------------------------------------

    def claim_name(self, token: Token) -> bool:
        """Take a new name; False, with a slip, where it is taken or not allowed."""
        name, at = token.text, span(token)
        if name in CLAUSE_WORDS:
            self.recipe.slip("name-is-a-word-of-the-language", at, name=name)
            self.recipe.doubtful.add(name)
            return False
        if name in self.recipe.names:
            self.recipe.slip("name-given-twice", at, name=name, first=self.recipe.names[name])
            return False
        self.recipe.names[name] = at
        return True

    if TYPE_CHECKING:  # who asks for one kind gets that kind

        @overload
        def thing(self, token: Token, kinds: tuple[Literal["shell"]], wanted: str) -> Shell | None: ...

        @overload
        def thing(self, token: Token, kinds: tuple[Literal["zip"]], wanted: str) -> Zip | None: ...

        @overload
        def thing(self, token: Token, kinds: tuple[Literal["piece"]], wanted: str) -> Piece | None: ...

        @overload
        def thing(
            self, token: Token, kinds: tuple[Literal["piece"], Literal["flat"]], wanted: str
        ) -> Piece | Flat | None: ...

        @overload
        def thing(
            self, token: Token, kinds: tuple[Literal["piece"], Literal["flat"], Literal["strip"]], wanted: str
        ) -> Piece | Flat | Strip | None: ...

        @overload
        def thing(self, token: Token, kinds: Container[str] = (), wanted: str = "") -> AnyThing | None: ...

    def thing(
        self, token: Token, kinds: Container[str] = (), wanted: str = "a piece or something made"
    ) -> AnyThing | None:
        """The thing a word names, or None with a slip."""
        thing = self.recipe.things.get(token.text)
        if thing is None or (kinds and thing.kind not in kinds):
            known = [name for name, it in self.recipe.things.items() if not kinds or it.kind in kinds]
            self.unknown(token, wanted, known, thing)
            return None
        return thing

    def stuff(self, token: Token, kinds: Container[str], wanted: str) -> Stuff | None:
        """The stuff a word names, or None with a slip."""
        stuff = self.recipe.stuff.get(token.text)
        if stuff is None or stuff.kind not in kinds:
            known = [name for name, it in self.recipe.stuff.items() if it.kind in kinds]
            self.unknown(token, wanted, known, stuff)
            return None
        return stuff

    def unknown(self, token: Token, wanted: str, known: Iterable[str], actual: AnyThing | Stuff | None = None) -> None:
        """Note a name that is nothing, or not the right kind of thing (`actual`, a thing or a stuff).

        A name whose own statement went wrong is spoken of there, not wherever it is used.
        """
        name = token.text
        spoken_of = name in self.recipe.names or name in self.recipe.doubtful
        if spoken_of and name not in self.recipe.things and name not in self.recipe.stuff:
            self.recipe.slip("broken-name", span(token))
        else:
            self.recipe.slip("unknown-name", span(token), name=name, wanted=wanted, known=list(known), actual=actual)

    # -- edges -------------------------------------------------------------

    def chains(self, items: Iterable[Node]) -> list[Chain]:
        """Chains for `edge` items; a lone word is a side of the panel before it, if it can be."""
        chains, panel, lost = [], None, False
        for item in items:
            first, last = item.word(), item.word(-1)
            if first is last and panel is not None and panel.find(first.text) is not None:
                chains += self.sides(panel, first)
                continue
            if first is last and lost:
                continue  # a side of something unknown
            thing = self.thing(first)
            lost = thing is None
            if thing is not None:
                panel = thing
                whole = Chain(panel, None, [], span(item))
                chains += [whole] if first is last else self.sides(panel, last, item)
        return chains

    def edges(self, items: list[Node], op: Op) -> list[Chain]:
        """Chains for statements that work on edges; a slip where a whole thing is named instead."""
        chains = self.chains(items)
        for chain in chains:
            if chain.name is None:
                side = next(iter(chain.panel.side_names()), "top")
                self.misplaced(
                    chain.at,
                    f"an edge, and `{chain.panel.name}` is the whole {chain.panel.kind}",
                    f"write `{chain.panel.name}.{side}` or another of its edges, or `{chain.panel.name} edges` for all",
                )
        if not items:
            self.misplaced(op.at, "an edge")
        return [chain for chain in chains if chain.name is not None]

    def sides(self, panel: AnyThing, word: Token, item: Node | None = None) -> list[Chain]:
        """The chains that a word means on a panel, or none with a slip."""
        found = panel.find(word.text)
        if found is None:
            self.recipe.slip(
                "unknown-edge",
                span(word),
                name=word.text,
                panel=panel,
                known=[*panel.side_names(), *panel.aliases, *panel.groups],
            )
            return []
        return [Chain(panel, name, edges, span(item or word)) for name, edges in found]

    def spot(self, node: Node) -> Spot:
        """The spot on a panel that a statement's clauses give."""
        offsets: dict[str, Working] = {}
        for rule, sides in MEASURED.items():
            for clause in node.every(rule):
                side = clause.word(1)
                if side.text not in sides:
                    self.unknown(side, f"a side to measure {rule}", sides)
                    continue
                length = self.length(clause.parts[0], f"{rule} {side.text}", nothing=True)
                if length is not None:
                    offsets.setdefault("bottom" if side.text == "base" else side.text, length)
        centred = node.first("centred")
        return Spot(centred is not None, offsets, span(node))

    # -- statements --------------------------------------------------------

    def op(self, node: Node) -> Op:
        """Begin the record of a statement that does something."""
        self.slips_before = self.recipe.slip_count
        op = Op(node.rule, node, span(node), len(self.recipe.ops))
        op.part = self.part
        self.each_clause_once(node)
        said = node.first("said")
        if said is not None:
            op.said = said.word().text[1:-1]
        self.recipe.ops.append(op)
        return op

    def each_clause_once(self, node: Node) -> None:
        """Note a clause that stands twice in a statement which would heed the first alone."""
        seen: set[str] = set()
        for part in node.phrases():
            if part.rule in seen:
                first = self.recipe.source.cut(span(part)).split()[0]
                self.recipe.slip("said-twice", span(part), what=f"clause `{first}`")
            elif part.rule not in MANY and (part.rule, node.rule) != ("to", "join"):
                seen.add(part.rule)

    def misplaced(self, at: Span, wanted: str, mend: str | None = None) -> None:
        """Note that a statement lacks what it needs, unless something more telling was noted in it."""
        if self.recipe.slip_count == self.slips_before:
            self.recipe.slip("misplaced", at, wanted=wanted, mend=mend or f"write {wanted}")

    def apart(self, op: Op, one: AnyThing, other: AnyThing) -> bool:
        """Whether two things are two; a slip where one is the other, or a part of it."""
        if one is other or within(one, other) or within(other, one):
            self.recipe.slip("worked-on-with-itself", op.at, name=other.name)
            return False
        return True

    def use(self, op: Op, thing: AnyThing, open_for_work: bool = False) -> None:
        """Say that a statement works on a thing; `open_for_work` if the thing must still lie open."""
        if thing not in op.things:
            op.things.append(thing)
            thing.used_by.append(op)
        for maker in makers(thing):
            if maker is not op:
                op.after.setdefault(maker, "made")
        if open_for_work:
            thing.work.append(op)

    def make(self, thing: AnyThing, op: Op, token: Token | None = None) -> AnyThing:
        """Give a thing made by a statement its name, if it has one."""
        op.makes = thing
        self.recipe.made.append(thing)
        if token is not None and self.claim_name(token):
            self.recipe.things[token.text] = thing
        return thing

    def fate(
        self, edges: Iterable[Edge], kind: str, allowance: Working | None, op: Op, onto: Edge | None = None
    ) -> None:
        """Give edges a fate, once a statement."""
        for edge in edges:
            if not any(fate.op is op and fate.kind == kind for fate in edge.fates):
                edge.fates.append(Fate(kind, allowance, op, onto))


def statements_on(thing: AnyThing) -> list[Op]:
    """The statements that work on a thing, of those that were taken already; a promise does not."""
    return [one for one in thing.used_by if isinstance(one, Op)]


def loose_edges(thing: Piece | Flat | Strip) -> list[Edge]:
    """The edges of a strip, or of strips joined end to end, that no seam has taken."""
    panels = thing.members if thing.kind == "flat" else (thing,)
    return [edge for panel in panels for edge in panel.edges if edge.fate("seam") is None]


def within(thing: AnyThing, whole: AnyThing) -> bool:
    """Whether a thing has become a part of another, or lies on it."""
    part = thing.inside
    for _ in range(DEEPEST):
        if part is None or part is whole:
            break
        part = part.inside
    return part is not None


def makers(thing: AnyThing) -> list[Op]:
    """The statements that a thing is made by, what it is made of included one step down."""
    if thing.kind == "flat":
        return [seam.op for seam in thing.seams]
    return [thing.made_by] if thing.made_by is not None else []
