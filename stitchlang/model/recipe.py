"""A whole recipe, worked out: the one value that rules, steps and measures read."""

from ..speech import Speech
from .spread import Accuracy


class Stuff:
    """Something bought or salvaged: cloth, interfacing, zip, snap, ring, slider, hook, webbing.

    `facts` maps a fact's name to its Working, Fraction or text; `at` is the
    span of the name.
    """

    def __init__(self, kind, name, at):
        self.kind = kind
        self.name = name
        self.at = at
        self.called = ""
        self.facts = {}
        self.used_by = []
        self.ends = self.count_at = None  # where its statement ends, and where its count stands

    def listed(self, number):
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

    def __init__(self, verb, node, at, number):
        self.verb = verb
        self.node = node
        self.at = at
        self.number = number
        self.part = None
        self.said = ""
        self.things = []
        self.makes = None
        self.after = {}
        self.parts = {}

    def __repr__(self):
        return f"Op({self.verb} {self.number})"


class Recipe:
    """What a text says.  `slips` keeps what could not be understood, by kind, for the rules."""

    def __init__(self, source):
        self.source = source
        self.title = self.revision = ""
        self.unit = None
        self.allowance = None
        self.tolerance = None
        self.curve_tolerance = None
        self.sizes = self.sizes_at = None  # the names of the sizes it is made in, where there are several
        self.size = 0  # which of them is worked out here
        self.lets = {}
        self.stuff = {}
        self.machine = None  # what it is sewn on, where that is stated
        self.names = {}  # every name: where it was first given
        self.things = {}  # name to thing, as last rebound
        self.pieces = []
        self.made = []  # things made by statements, in order
        self.ops = []
        self.seams = []
        self.trims = []
        self.late = []  # what to work out, in this order, once every edge has its fate
        self.placed = None  # what is placed where, once somebody asked
        self.claims = []
        self.samples = []
        self.contents = []
        self.accuracy = Accuracy()
        self.notes = []
        self.allowed = []  # `allow` statements
        self.parts = []
        self.slips = {}
        self.slip_count = 0
        self.doubtful = set()  # names in statements that could not be read: nothing is said of them

    @property
    def speech(self):
        """Lengths as findings say them: in the recipe's own unit."""
        return Speech(self.unit or "in")

    @property
    def size_name(self):
        """The name of the size worked out here, or None where there is one only."""
        return self.sizes[self.size] if self.sizes and self.size < len(self.sizes) else None

    def say(self, length):
        """A length in the recipe's unit."""
        return self.speech.length(length)

    def slip(self, kind, at, **facts):
        """Note something that a rule will speak of."""
        self.slip_count += 1
        self.slips.setdefault(kind, []).append(Slip(at, facts))


class Slip:
    """A place where the meaning gave out, and what is known of it."""

    __slots__ = ("at", "facts")

    def __init__(self, at, facts):
        self.at = at
        self.facts = facts

    def __getattr__(self, name):
        try:
            return self.facts[name]
        except KeyError:
            raise AttributeError(name) from None
