"""Words that beginners and other writers use, and the words of this language that they lead to."""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

# What begins a line elsewhere: ours, the likeliest first.
FOR_VERB = {
    word: tuple(ours.split())
    for words, ours in (
        ("sew seam assemble connect piecing", "join place"),
        ("stitch", "join topstitch place"),
        ("attach applique patch mount", "place join"),
        ("add insert", "place slip join"),
        ("pin tack glue tape", "baste"),
        ("cut", "piece trim"),
        ("panel strip pocket strap shape body", "piece"),
        ("zipper fastener", "zip"),
        ("fabric material textile", "cloth"),
        ("lining", "cloth piece"),
        ("stabiliser stabilizer buckram", "interfacing"),
        ("wadding padding", "batting"),
        ("popper stud magnet", "snap"),
        ("grommet", "eyelet"),
        ("buckle", "slider"),
        ("loop", "ring piece"),
        ("drawstring string rope", "cord"),
        ("bias edging", "binding bind"),
        ("iron flatten", "press"),
        ("edgestitch understitch", "topstitch"),
        ("ruffle shirr ruche", "gather"),
        ("tuck", "pleat"),
        ("crease double", "fold"),
        ("finish", "hem bind"),
        ("flip reverse invert", "turn"),
        ("slipstitch handstitch whipstitch", "close"),
        ("corner mitre miter square", "box notch"),
        ("snip", "notch"),
        ("buttonhole hole", "slit"),
        ("fasten", "set close"),
        ("compartment compartments", "divide"),
        ("title name pattern project", "recipe"),
        ("version edition", "revision"),
        ("unit", "units"),
        ("size sizes dimensions measurements", "finished"),
        ("section step heading chapter", "part"),
        ("comment remark", "note"),
        ("variable value define", "let"),
        ("import include", "use"),
        ("fits", "holds"),
        ("yarn", "reel"),
    )
    for word in words.split()
}

# What stands in the middle of a line elsewhere: ours, the likeliest first; nothing where it is not needed.
FOR_CLAUSE = {
    "called": ("as",),
    "named": ("as",),
    "making": ("as",),
    "into": ("in", "to"),
    "inside": ("into",),
    "using": ("with",),
    "through": ("in",),
    "with": ("to", "at", "by", "on"),
    "by": ("with", "at", "to"),
    "on": ("along", "to", "onto"),
    "onto": ("on", "to"),
    "in": ("with", "on", "of"),
    "to": ("on", "into", "with"),
    "at": ("by", "along"),
    "from": ("of",),
    "between": ("along",),
    "around": ("along", ""),
    "round": ("along", ""),
    "made": ("",),
    "out": ("from",),
    "beneath": ("below",),
    "under": ("below", "by"),
    "over": ("above",),
    "center": ("centred",),
    "centre": ("centred",),
    "centered": ("centred",),
    "middle": ("centred",),
    "stitched": ("sewn along", "sewn"),
    "topstitched": ("sewn along", "sewn"),
    "facing": ("together",),
    "unfinished": ("raw",),
    "unsewn": ("raw",),
    "unhemmed": ("raw",),
    "twice": (", turned twice", "in quarters"),
    "doubled": (", turned twice",),
    "be": ("=",),
    "is": (":", "="),
    "are": (":", "="),
    "diagonal": ("diagonally",),
    "corner": ("corners",),
    "pieces": ("",),
    "piece": ("",),
    "gap": ("open",),
    "opening": ("open",),
    "lengthwise": ("",),
    "lengthways": ("",),
    "plastic": ("moulded",),
    "nylon": ("coil",),
    "magnet": ("magnetic",),
}

# What is told in another way altogether.
ASIDE = 'say it in quotes behind the statement it belongs to, or in a line of its own: `note "..."`'
TOLD = {
    **dict.fromkeys(
        "fuse interface stiffen".split(),
        "cloth is stiffened where its piece is cut: `piece front of sail: 10 x 12, with crisp`",
    ),
    **dict.fromkeys("backstitch clip mark knot overlock serge zigzag pink grade wash measure repeat".split(), ASIDE),
    "reinforce": ASIDE,
}

NUMBERS = {"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "eight": "8", "ten": "10"}
UNITS = {
    "inchs": "in",
    "ins": "in",
    "cms": "cm",
    "centimetre": "cm",
    "centimetres": "cm",
    "centimeter": "cm",
    "centimeters": "cm",
    "mms": "mm",
    "millimetre": "mm",
    "millimetres": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "yds": "yd",
}
# Little words that the language does without.
IDLE = frozenset("the a an some each tapered seam seams allowance edge it is be then please".split())
PHRASES = (
    ("from", "the", "edge"),
    ("from", "edge"),
    ("size", "of"),
    ("sizes", "of"),
    ("right", "side", "out"),
    ("inside", "out"),
    ("right", "way", "out"),
    ("seam", "allowance"),
    ("all", "around"),
)
# What a dimension is called, and whether it runs across or up a piece.
ACROSS = frozenset("wide width broad across".split())
UPWARD = frozenset("tall high height long length".split())
CALLED = {
    "high": "tall",
    "height": "tall",
    "width": "wide",
    "broad": "wide",
    "depth": "deep",
    "length": "long",
    "diameter": "across",
    "thickness": "thick",
}
# Which dimension names a bought thing.
NAMED_BY = {
    "zip": "long",
    "snap": "across",
    "button": "across",
    "rivet": "across",
    "cord": "across",
    "ring": "inside",
    "slider": "inside",
    "hook": "inside",
    "eyelet": "inside",
    "cloth": "wide",
    "webbing": "wide",
    "ribbon": "wide",
    "elastic": "wide",
    "binding": "wide",
}
FOLDS = {"2": "half", "two": "half", "3": "thirds", "three": "thirds", "4": "quarters", "four": "quarters"}
# Words that hold a sentence together: where one of them would have to be a name, the line is misread.
NO_NAMES = frozenset(
    "of with by as along at to in on from through into over under between round around and be is are the a an it "
    "called named making using facing twice lengthwise lengthways fit below above corners corner gap opening "
    "cut".split()
)
DIMENSIONS = ACROSS | UPWARD | frozenset("deep depth thick thickness diameter around inside across".split())
CURLY = dict.fromkeys("“”„‟«»", '"')
SINGLE = frozenset("‘’‚'`´")
# Which clause a bare length is most likely meant for.
LENGTH_WORD = {"hem": ("by",), "trim": ("by",), "notch": ("by",), "dart": ("by",), "ease": ("by",), "roll": ("by",),
               "gather": ("to",), "box": ("at",), "press": ("under by", "by")}  # fmt: skip


def forms(verb: str) -> Iterator[str]:
    """The grammatical forms of a verb: `joins`, `joined`, `joining`; `hemmed`; `placing`."""
    stem = verb[:-1] if verb.endswith("e") else verb
    yield from (verb + "s", verb + "es", stem + "ed", stem + "ing", stem + stem[-1] + "ed", stem + stem[-1] + "ing")


def verb_of(word: str, verbs: Collection[str]) -> str | None:
    """The verb of the language that a word is a form of, or None."""
    irregular = {"bound": "bind", "sewn": "join", "sewing": "join", "stitched": "join", "stitching": "join"}
    found = irregular.get(word) or next((verb for verb in verbs if word in forms(verb)), None)
    return found if found in verbs else None
