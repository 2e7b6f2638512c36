"""A whole recipe, worked out: the one value that rules, steps and measures read."""

from __future__ import annotations

from ..speech import Speech
from .spread import Accuracy

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from ..ground.lengths import Rational
    from ..ground.text import Source, Span
    from ..ground.working import Working
    from ..reading.parse import Reading
    from ..reading.tree import Node
    from .kinds import AnyThing, Claim, Content, Facts, Let
    from .placing import Box
    from .seams import Seam
    from .things import Piece


class Stuff:
    """Something bought or salvaged: cloth, interfacing, zip, snap, ring, slider, hook, webbing.

    `facts` maps a fact's name to its Working, Fraction or text; `at` is the
    span of the name.
    """

    places: dict[str, Span]  # where each fact stands: of tools, which are stuff too, and of no other

    def __init__(self, kind: str, name: str, at: Span) -> None:
        self.kind = kind
        self.name = name
        self.at = at
        self.called = ""
        self.facts: Facts = {}
        self.used_by: list[Op | Piece] = []
        self.ends: Span | None = None  # where its statement ends
        self.count_at: Span | None = None  # where its count stands

    def listed(self, number: int) -> list[tuple[str, list[tuple[Span, str]], bool]]:
        """The mend that lists so many of it: (words, edits, certain)."""
        if self.ends is None:
            return []
        at, text = (self.count_at, str(number)) if self.count_at is not None else (self.ends, f", {number} of")
        return [(f"write `{number} of` behind {self.name}", [(at, text)], True)]


class Op:
    """One statement that does something: the unit of the step list.

    `things` are what it works on, `makes` what comes of it; `after` maps each
    statement that must come before this one to the reason why.  `parts` keeps
    what the verb's own sentence needs.
    """

    def __init__(self, verb: str, node: Node, at: Span, number: int) -> None:
        self.verb = verb
        self.node = node
        self.at = at
        self.number = number
        self.part: str | None = None
        self.said = ""
        self.things: list[AnyThing] = []
        self.makes: AnyThing | None = None
        self.after: dict[Op, str] = {}
        self.parts: Facts = {}

    def __repr__(self) -> str:
        return f"Op({self.verb} {self.number})"


class Recipe:
    """What a text says.  `slips` keeps what could not be understood, by kind, for the rules."""

    reading: Reading  # what it was made from, set before anything is worked out
    in_every_size: list[Recipe]  # once somebody asked

    def __init__(self, source: Source) -> None:
        self.source = source
        self.title = self.revision = ""
        self.unit: str | None = None
        self.units: dict[str, str] = {}  # of the files that it uses, where there are some
        self.allowance: Working | None = None
        self.tolerance: Working | None = None
        self.curve_tolerance: Working | None = None
        self.sizes: list[str] | None = None  # the names of the sizes it is made in, where there are several
        self.sizes_at: Span | None = None
        self.size = 0  # which of them is worked out here
        self.lets: dict[str, Let] = {}
        self.stuff: dict[str, Stuff] = {}
        self.machine: Stuff | None = None  # what it is sewn on, where that is stated
        self.names: dict[str, Span] = {}  # every name: where it was first given
        self.things: dict[str, AnyThing] = {}  # name to thing, as last rebound
        self.pieces: list[Piece] = []
        self.made: list[AnyThing] = []  # things made by statements, in order
        self.ops: list[Op] = []
        self.seams: list[Seam] = []
        self.trims: list[Op] = []
        self.late: list[Callable[[], None]] = []  # what to work out, in this order, once every edge has its fate
        self.placed: list[tuple[Op, AnyThing, Box]] | None = None  # what is placed where, once somebody asked
        self.claims: list[Claim] = []
        self.samples: list[Claim] = []
        self.contents: list[Content] = []
        self.accuracy = Accuracy()
        self.notes: list[tuple[str | None, str, Span]] = []
        self.allowed: list[Node] = []  # `allow` statements
        self.parts: list[tuple[str, Span]] = []
        self.slips: dict[str, list[Slip]] = {}
        self.slip_count = 0
        self.doubtful: set[str] = set()  # names in statements that could not be read: nothing is said of them

    @property
    def speech(self) -> Speech:
        """Lengths as findings say them: in the recipe's own unit."""
        return Speech(self.unit or "in")

    @property
    def size_name(self) -> str | None:
        """The name of the size worked out here, or None where there is one only."""
        return self.sizes[self.size] if self.sizes and self.size < len(self.sizes) else None

    def unit_at(self, at: Span | None) -> str:
        """The unit of a number that states none, at a place."""
        own = self.unit or "in"
        return self.units.get(self.source.file(at.start), own) if at is not None and self.units else own

    def say(self, length: Working | Rational) -> str:
        """A length in the recipe's unit."""
        return self.speech.length(length)

    def slip(self, kind: str, at: Span, **facts: Any) -> None:  # as in Facts
        """Note something that a rule will speak of."""
        self.slip_count += 1
        self.slips.setdefault(kind, []).append(Slip(at, facts))


class Slip:
    """A place where the meaning gave out, and what is known of it."""

    __slots__ = ("at", "facts")

    def __init__(self, at: Span, facts: Facts) -> None:
        self.at = at
        self.facts = facts

    def __getattr__(self, name: str) -> Any:  # as in Facts
        try:
            return self.facts[name]
        except KeyError:
            raise AttributeError(name) from None
