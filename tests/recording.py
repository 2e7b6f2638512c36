"""What a recipe comes to, as lines of text: what is found in it, and every figure that the model works out for it."""

import re
from fractions import Fraction

import stitchlang
from stitchlang.ground.lengths import MM, decimal, mixed
from stitchlang.model.bulk import places
from stitchlang.model.classes import spoken
from stitchlang.model.drawn import drawn
from stitchlang.model.measures import measures
from stitchlang.model.needs import by_length, cut_from, layout_of, least_area, length_in_a_row
from stitchlang.model.outline import cut_length, stitched
from stitchlang.model.spread import spread
from stitchlang.model.things import SIDES, cut_size


def said(text):
    """Every finding with its place, severity, other places, sums, mends and edits."""
    recipe = stitchlang.read(text)
    for one in stitchlang.check(recipe):
        yield f"{at(recipe, one.at)} {one.severity} {one.rule}: {one.says}"
        yield from (f"    in {size}" for size in one.sizes)
        yield from (f"    {size}: {says}" for size, says in one.others)
        yield from (f"    {at(recipe, label.at)}: {label.says}" for label in one.beside)
        yield from (f"    = {worked(recipe, working)}" for working in one.working)
        yield f"    mend: {one.mend}"
        if not one.mends:
            yield from (f"    edit: {edited(recipe, edit)}" for edit in one.edits)
        for mend in one.mends:
            yield f"    {'do' if mend.certain else 'or'}: {mend.says}"
            yield from (f"        {edited(recipe, edit)}" for edit in mend.edits)


def without_each(text):
    """(number, the text without that statement) for each statement but the first."""
    parts = re.split(r"^(?=[^\s#])", text, flags=re.MULTILINE)
    for number in range(2, len(parts)):
        yield number, "".join(parts[:number] + parts[number + 1 :])


def missed(text):
    """What is found first by each rule, in few words, when each statement of a recipe is left out in turn."""
    for number, less in without_each(text):
        first = {}
        for one in stitchlang.check(stitchlang.read(less)):
            first.setdefault(one.rule, one.says)
        yield from (f"without {number}: {rule}: {says}" for rule, says in first.items())


def at(recipe, span):
    """`4:7+5`: the line, the column and how many letters."""
    line, column = recipe.source.place(span.start)
    return f"{line}:{column}+{span.end - span.start}"


def edited(recipe, edit):
    return f"{at(recipe, edit.at)} {edit.text!r}"


def figure(recipe, mm):
    """A length in the recipe's own unit: exact where a ruler could have it, else to six places."""
    value = Fraction(mm) / MM[recipe.unit or "mm"]
    sign, value = "-" if value < 0 else "", abs(value)
    return sign + (mixed(value) if value.denominator <= 64 else decimal(value, 6))


def worked(recipe, working):
    """`bag tall 9 = 12 - 2 x 1/2 ...`: a length and what it hangs on."""
    terms = [
        f"{'-' if factor < 0 else '+'} {'' if abs(factor) == 1 else f'{decimal(Fraction(abs(factor)), 6)} x '}"
        f"{figure(recipe, leaf.mm)} {leaf.says}"
        for factor, leaf in working.levers()
    ]
    return f"{working.says} {figure(recipe, working.mm)}{'' if working.exact else ' or so'} = {' '.join(terms)}"


def figures(text):
    """Edges, outlines, cut sizes, measures and how far they may be off, layers under the needle, cloth that is cut."""
    recipe = stitchlang.read(text)
    for piece in recipe.pieces:
        yield from edges(recipe, piece)
    for thing in [*recipe.pieces, *recipe.made, *(one for one in recipe.things.values() if one.kind == "zip")]:
        yield from sizes(recipe, thing)
    for place in places(recipe):
        thick = place.thickness
        stuffs = ", ".join(f"{count} {stuff.name if stuff else '?'}" for count, stuff in place.by_stuff())
        layers = ", ".join(f"{count} {says}{' net' if net else ''}" for count, _, says, net in place.layers)
        thick = f", {decimal(thick.mm, 4)} mm" if thick is not None else ""
        yield f"{place.where}: {place.plies} plies ({stuffs}){thick}: {layers}"
    for stuff, cuts in cut_from(recipe).items():
        yield from cloth(recipe, stuff, cuts)
    yield from (f"{at(recipe, op.at)} {op.verb}: {spoken(op)}" for op in recipe.ops if spoken(op))


def steps(text):
    """Every step in order: its heading, its sentence, what the writer says to it, its cautions."""
    recipe = stitchlang.read(text)
    for step in stitchlang.steps(recipe):
        yield f"{step.number} {step.part}: {step.sentence}{f' ({step.said})' if step.said else ''}"
        yield from (f"    {caution}" for caution in step.cautions)


def edges(recipe, piece):
    """What each edge of a piece is, cut and stitched, and what it gives up."""
    for edge in piece.edges:
        long = [figure(recipe, one.mm) for one in (cut_length(edge), stitched(edge), edge.allowance())]
        yield f"{piece.name}.{edge.name}: {long[0]} cut, {long[1]} stitched, gives up {long[2]}"


def sizes(recipe, thing):
    """The outline of a thing, its sides cut to cut, its measures."""
    outline = drawn(thing) if thing.kind != "shell" else None
    if outline is not None and (outline.arcs or thing.kind != "piece" or set(outline.rims) - set(SIDES)):
        corners = " ".join("({}, {})".format(*(figure(recipe, one) for one in line.start)) for line in outline.lines)
        yield f"{thing.name} reaches {figure(recipe, outline.width)} x {figure(recipe, outline.height)}: {corners}"
        yield from (
            f"  round {'({}, {})'.format(*(figure(recipe, one) for one in arc.centre))}" for arc in outline.arcs
        )
    if thing.kind in ("flat", "folded", "strip"):
        sides = {side: cut_size(thing, side) for side in SIDES}
        yield f"{thing.name}: " + ", ".join(f"{side} {figure(recipe, one.mm)}" for side, one in sides.items() if one)
    if thing.kind == "shell":
        yield from mouths(thing)
    for name, working in measures(thing).items():
        off = spread(recipe.accuracy, (1, working))
        yield f"{thing.name} {name}: {worked(recipe, working)}; off by {figure(recipe, off.worst)} at the worst"


def mouths(shell):
    """What of a shell is open, and how it is sewn."""
    mouth = "; ".join(f"{name}: {', '.join(edge.title for edge in edges)}" for name, edges in shell.open.items())
    yield f"{shell.count} of {shell.name}, open at {mouth or 'nothing'}"
    for seam in shell.seams:
        yield f"  sewn at {seam.name}, a {seam.kind} seam: {' to '.join(side.title for side in seam.sides)}"


def point(recipe, place):
    """`(3, 4)`."""
    return f"({', '.join(figure(recipe, one) for one in place)})"


def cloth(recipe, stuff, cuts):
    """What is cut from a stuff, and a layout of it."""
    for cut in cuts:
        size = " x ".join(figure(recipe, one) for one in (cut.wide, cut.tall))
        yield f"from {stuff.name if stuff else '?'}: {cut.count} of {cut.piece.name} {size}, {cut.backing or 'whole'}"
    if stuff is not None and by_length(stuff):
        yield f"  in a row {figure(recipe, length_in_a_row(cuts))}"
    yield f"  at least {decimal(Fraction(least_area(cuts)) / MM[recipe.unit or 'mm'] ** 2, 4)} square"
    wide = stuff.facts.get("wide") if stuff is not None else None
    layout = layout_of(cuts, wide.mm) if wide is not None else None
    for one in layout.laid if layout is not None else ():
        place = ", ".join(figure(recipe, length) for length in (one.x, one.y))
        yield f"  {one.item.piece.name} lies at {place} in strip {one.strip}"
