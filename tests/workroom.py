"""A little model of a workroom in which a recipe's statements are done one after the other, in some order.

It reads the words of the statements by itself and knows nothing of what the program makes of them: which things there
are, which lie in a bag that is sewn, which bags are sewn to each other, which gaps are open.  It asks for less than a
sewer would, but for nothing that one could do without.
"""

import re
from collections import Counter

from stitchlang.reading.parse import split

FLAT_WORK = {"notch", "trim", "place", "divide", "slit", "quilt", "fold"}
GROUPS = {"sides": ("left", "right")}
CLAUSES = re.compile(r",? *\b(?:at|leaving|catching|as|lapped|felled|enclosed|bound|running)\b")
EDGE = re.compile(r"([^\W\d]\w*)\.([^\W\d]\w*)")


class Impossible(Exception):
    """A statement that cannot be done now, and why."""


class Workroom:
    """What is on the table; `do` does one statement, given by its words."""

    def __init__(self, bought):
        self.there = set(bought)  # names of what there is
        self.lies_in = {}  # panel to the bag that it was sewn into
        self.bags = set()
        self.sewn_to = {}  # bag to the statement that sewed it to another
        self.gaps = {}  # (bag, edge) to whether it is open
        self.sewn = set()  # (thing, edge)
        self.rows = set()  # (thing, edge) with a row along it
        self.caught = set()  # strips whose ends are in a seam or basted down

    def do(self, text, names):
        """Do a statement, or raise Impossible."""
        self.verb, *_ = text.split()
        text = re.sub(r'"[^"]*"', "", text)
        text = re.sub(r"(right|wrong) sides together|side seams", "", text)
        self.words = re.findall(r"[^\W\d]\w*|\.|,", text)[1:]
        given = self.behind("as") if self.verb in ("join", "fold", "lap", "wrap") else None
        worked_on = [word for word in self.words if word in names and word != given]
        for name in worked_on:
            self.want(name in self.there, f"{name} is not made yet")
        getattr(self, f"do_{self.verb}", self.nothing_more)(text, given)
        if self.verb in FLAT_WORK:
            bag = self.lies_in.get(worked_on[-1 if self.verb == "place" else 0])
            self.want(bag is None, f"{worked_on} lies in {bag}")
        if given is not None:
            self.there.add(given)

    def want(self, kept, why):
        """Raise Impossible where something is not so."""
        if not kept:
            raise Impossible(f"{self.verb}: {why}")

    def nothing_more(self, text, given):
        """A verb of which nothing more is asked."""

    def behind(self, word):
        """The word that follows another, or None."""
        return self.words[self.words.index(word) + 1] if word in self.words else None

    def do_join(self, text, given):
        """Whole things sewn along sides make a bag, whose rim closes it when sewn to another's."""
        head, *along = text.removeprefix("join").split(" along ")
        if "catching" in self.words:
            self.caught.update(thing for thing, _ in EDGE.findall(CLAUSES.split(text.split("catching")[1])[0]))
        head = CLAUSES.split(head)[0]
        if along:
            sides = re.findall(r"[^\W\d]\w*", CLAUSES.split(along[0])[0])
            for thing in head.split(" to "):
                self.lies_in[thing.strip()] = given
                self.sew(thing.strip(), sides)
            self.bags.add(given)
        for thing, edge in EDGE.findall(head):
            self.sew(thing, [edge])
            if thing in self.bags and edge == "rim":
                self.sewn_to[thing] = text
        if "leaving" in self.words:
            self.gaps[given, re.search(r"open\s+in\s+(\w+)", text)[1]] = True

    def sew(self, thing, edges):
        """Edges of a thing go into a seam; a row beside the seam comes after it."""
        for edge in edges:
            for one in GROUPS.get(edge, (edge,)):
                self.want((thing, one) not in self.rows, f"the row along {thing}.{one} is sewn already")
                self.sewn.add((thing, one))

    def do_baste(self, text, _):
        """An edge is basted while it is still free to be laid down."""
        if " to " in text and "with" not in self.words:
            onto = text.split(" to ")[1].split(",")[0]
            found = re.match(r"\s*([^\W\d]\w*)[. ]([^\W\d]\w*)", onto)
            if found:
                for edge in GROUPS.get(found[2], (found[2],)):
                    self.want((found[1], edge) not in self.sewn, f"{found[1]}.{edge} is sewn already")
        if "with" in self.words:
            self.caught.add(self.words[0])

    def do_topstitch(self, text, _):
        """The sides of a strip cannot be sewn once its ends are in a seam."""
        self.rows.update(EDGE.findall(text))
        self.want(self.words[0] not in self.caught, f"{self.words[0]} is caught already")

    def do_box(self, _text, __):
        """Corners are reached while the bag's rim is free."""
        self.want(self.words[0] not in self.sewn_to, f"{self.words[0]} is sewn to another bag")

    def do_slip(self, _text, __):
        """A bag goes into another before their rims are sewn."""
        self.want(not {self.words[0], self.words[2]} & set(self.sewn_to), "the rims are sewn")

    def do_set(self, _text, __):
        """A snap is set while the wrong side of its panel can be reached."""
        for thing in self.words:
            bag = self.lies_in.get(thing)
            self.want(bag not in self.sewn_to, f"{thing} is shut in by {bag}")

    def do_turn(self, text, _):
        """A bag is turned through a gap while it is open."""
        through = EDGE.search(text.split(" through ")[1]) if " through " in text else None
        if through and through.groups() in self.gaps:
            self.want(self.gaps[through.groups()], f"{through[0]} is closed")

    def do_close(self, text, _):
        """A gap is closed once."""
        gap = EDGE.search(text)
        if gap:
            self.want(self.gaps.get(gap.groups(), True), f"{gap[0]} is closed already")
            self.want((gap[1], gap[2]) in self.gaps or gap[1] in self.there, f"{gap[1]} is not made yet")
            self.gaps[gap.groups()] = False


def statements(text):
    """(offset, words) of every statement of a text, comments left out."""
    for words in split(text, []):
        yield (
            words[0].start,
            " ".join(text[one.start : one.end] for one in words).replace(" . ", ".").replace(" ,", ","),
        )


def replay(text, offsets, names, givers):
    """Do the statements that begin at these offsets in this order; `names` are those given, `givers` those made."""
    known = dict(statements(text))
    room = Workroom(names - givers)
    for at in offsets:
        room.do(known[at], names)
    repeated = [at for at, times in Counter(offsets).items() if times > 1]
    if repeated:
        raise Impossible(f"done twice: {known[repeated[0]]}")
