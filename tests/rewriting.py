"""A recipe's text said otherwise: scaled, in millimetres, mirrored, renamed, shuffled.

Each rewriting works on the words as the scanner cuts them and on the phrases of the grammar, never on a recipe worked
out, so that what it gives can be held against what the program makes of both texts.
"""

from stitchlang.bench import CLAUSE_WORDS
from stitchlang.ground.lengths import MM, read_length, read_number
from stitchlang.ground.text import Span
from stitchlang.reading.parse import read
from stitchlang.reading.tree import Node

COUNTS = {"count", "plies", "needle", "tex", "cut", "pleats", "times", "equally"}  # phrases whose number is no length
SUMS = {"sum", "product", "group", "negative"}
HEADING = {"recipe", "revision", "units", "allowance", "tolerance", "accuracy", "part", "note", "let"}
PROMISES = {"finished", "made", "holds"}
OTHER_SIDE = {"left": "right", "right": "left"}


def replaced(text, changes):
    """The text with each (node or token, new words) put in."""
    result, end = [], 0
    for part, words in sorted(changes, key=lambda change: change[0].start):
        result += [text[end : part.start], words]
        end = part.end
    return "".join([*result, text[end:]])


def tokens(node):
    """Every word under a node, in order."""
    for part in node.parts:
        if part.__class__ is Node:
            yield from tokens(part)
        else:
            yield part


def lets_of(statements):
    """The names of a text's values."""
    return {node.parts[0].text for node in statements if node.rule == "let"}


def lengths_in(node, lets):
    """The whole expression of every length under a node."""
    for part in node.parts:
        if part.__class__ is Node:
            if part.rule in SUMS:
                yield part
            else:
                yield from lengths_in(part, lets)
        elif (
            part.kind == "LENGTH"
            or (part.kind == "NUMBER" and node.rule not in COUNTS)
            or (part.kind == "NAME" and part.text in lets)
        ):
            yield part


def every_length(text):
    """The expression of every length in a text but those that give a value its number."""
    statements = read(text).statements
    lets = lets_of(statements)
    return [part for node in statements if node.rule != "let" for part in lengths_in(node, lets)]


def scaled(text, k):
    """Every length of a recipe `k` times as long."""
    changes = []
    for part in every_length(text):
        own = text[part.start : part.end]
        if part.__class__ is Node or part.kind == "NAME":
            changes.append((part, f"({k!s}) * ({own})"))
        elif part.kind == "NUMBER":
            changes.append((part, str(read_number(own) * k)))
        else:
            changes.append((part, f"{read_length(own) * k!s} mm"))
    return replaced(text, changes)


def in_millimetres(text, unit):
    """Every length that is written in the recipe's unit, or in any other, written in millimetres."""
    changes = []
    for part in every_length(text):
        if part.__class__ is not Node and part.kind in ("NUMBER", "LENGTH"):
            own = text[part.start : part.end]
            mm = read_number(own) * MM[unit] if part.kind == "NUMBER" else read_length(own)
            changes.append((part, f"{mm!s} mm"))
    return replaced(text, changes)


def mirrored_name(name):
    """`bottom_left` for `bottom_right`."""
    return "_".join(OTHER_SIDE.get(word, word) for word in name.split("_"))


def mirrored(text):
    """Left and right changed in every name of a side and every name given; a polygon is turned over.

    The cord of a strip wrapped round it lies at its left by definition, and stays there.
    """
    statements, changes = read(text).statements, []
    wrapped = {token.text for node in statements if node.rule == "wrap" for token in tokens(node)}
    for node in statements:
        corners = corners_of(node)
        outlines = [Span(node.first("polygon").start, corners[-1].end)] if corners else []
        kept = {
            edge.parts[-1].start for edge in edges_in(node) if edge.parts[0].text in wrapped and len(edge.parts) > 1
        }
        for token in tokens(node):
            drawn = any(one.start <= token.start < one.end for one in outlines)
            if token.kind == "NAME" and not drawn and token.start not in kept:
                changes.append((token, mirrored_name(token.text)))
        changes += [(one, turned_over(corners, text)) for one in outlines]
    return replaced(text, changes)


def corners_of(node):
    """The corners of a piece that is a polygon, in the order written; none of another."""
    outline = node.first("polygon")
    return [*outline.every("corner"), *node.every("corner")] if outline is not None else []


def turned_over(corners, text):
    """A polygon seen from behind: going round the other way, each corner names the edge that now runs on from it."""
    said = []
    for at in range(len(corners)):
        x, y = (text[part.start : part.end] for part in corners[-at].parts[:2])
        said.append(f"-({x}) x {y} {mirrored_name(corners[-at - 1].parts[2].text)}")
    return "polygon " + ", ".join(said)


def given_names(text):
    """The names that a text gives to stuff, pieces and what it makes, but words for a side and of the language."""
    given, sides = set(), set()
    for node in read(text).statements:
        if node.rule not in HEADING | PROMISES | {"machine"}:
            clause = node.first("as")
            given |= {clause.parts[0].text} if clause is not None else set()
            first = [part.text for part in node.parts if part.__class__ is not Node and part.kind == "NAME"]
            declared = node.first("edge") is None and (node.rule == "piece" or ":" in text[node.start : node.end])
            if declared:
                given |= set(first[:-1] if node.rule == "piece" else first[:1])
        for edge in edges_in(node):
            sides |= {part.text for part in edge.parts[1:]}
        for clause in ("at_corners", "below", "above", "from", "brought", "rounded", "clipped", "on_fold"):
            sides |= {part.text for one in node.every(clause) for part in one.parts if part.__class__ is not Node}
        sides |= {corner.parts[2].text for corner in corners_of(node)}
    return given - sides - CLAUSE_WORDS


def edges_in(node):
    """Every `edge` phrase under a node."""
    for part in node.parts:
        if part.__class__ is Node:
            if part.rule == "edge":
                yield part
            yield from edges_in(part)


def renamed(text, names):
    """Every name in `names` written as what it is there."""
    found = [token for node in read(text).statements for token in tokens(node) if token.kind == "NAME"]
    return replaced(text, [(token, names[token.text]) for token in found if token.text in names])


def shuffled(text, choose):
    """The statements in another order; `choose(n)` draws a number below n.

    The heading comes first, then what declares something, and the promises last.  A statement stays behind each
    that it shares a name with, and behind each that works on something which has by then been made one
    thing with something of its own.
    """
    statements = read(text).statements
    names = given_names(text)
    kept = [node for node in statements if node.rule in HEADING and node.rule not in ("part", "note")]
    last = [node for node in statements if node.rule in PROMISES]
    free = [node for node in statements if node.rule not in HEADING | PROMISES]
    needs = needs_between(free, names)
    order, left = [], list(range(len(free)))
    while left:
        ready = [at for at in left if not needs[at] & set(left)]
        order.append(free[ready[choose(len(ready))]])
        left.remove(order_index(free, order[-1]))
    return "\n".join(text[node.start : node.end] for node in (*kept, *order, *last)) + "\n"


def order_index(nodes, node):
    """Where a node stands, by being the same node."""
    return next(at for at, one in enumerate(nodes) if one is node)


def needs_between(nodes, names):
    """For each statement, the numbers of those that it stays behind; declarations come before all work."""
    one_with = {name: {name} for name in names}  # name to everything that it has become one thing with
    touched, needs = [], []
    declares = {at for at, node in enumerate(nodes) if node.rule not in WORK}
    for at, node in enumerate(nodes):
        own = {token.text for token in tokens(node) if token.kind == "NAME"} & names
        group = own if at in declares else set().union(*(one_with[name] for name in own))
        before = {number for number, other in enumerate(touched) if other & group}
        needs.append(before & declares if at in declares else before | declares)
        touched.append(own)
        if at not in declares:
            one_with.update(dict.fromkeys(group, group))
    return needs


WORK = set(
    "baste bind box cap channel close dart divide ease fold gather hem join lap leave notch place pleat press quilt "
    "roll set slip slit thread topstitch trim turn wrap".split()
)
