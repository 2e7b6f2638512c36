"""What changed from one recipe to another: in the bag, not in the text."""

from copy import copy

from attrs import evolve

from ..build import build
from ..rules.catalogue import BY_NAME
from .allowances import allowance_changes
from .causes import measure_changes
from .changes import Comparison, Fact, FoundChange, Named, alike, change_of
from .check import check, partly_understood
from .renames import NOT_NAMES, in_new_names, renamed
from .sizes import every_size
from .stated import heading, line_of, notes, piece_facts, promises, stuff_facts
from .step_changes import matched, part_changes, step_changes, told

# Words by which findings of one rule about one thing are told apart, as they are by names.
MEASURES = {"wide", "tall", "deep", "long", "across", "around", "base", "rolled"}
SORTS = ("pieces", "materials", "allowances", "parts", "steps", "notes", "measures", "promises")


def compare(old, new, unit=None):
    """All that changed from the recipe `old` to the recipe `new`: a Comparison.

    Sentences speak in `unit`, or else in the new recipe's.
    """
    unit = unit or new.unit or old.unit or "in"
    renames = renamed(old, new)
    before = rebuilt(old, in_new_names(old, new, renames))
    together, sizes = size_pairs(before, new)
    found = [changes(one, other, unit) for one, other in together]
    names = [other.size_name for _, other in together]
    return Comparison(
        heading=fact_changes(heading(before), heading(new)),
        renamed=renames,
        findings=finding_changes(before, new, unit),
        unread=tuple(unread_lines(one) for one in (old, new)),
        partly=tuple(partly_understood(one) for one in (old, new)),
        sizes=sizes,
        **{sort: merged([one[sort] for one in found], names) for sort in SORTS},
    )


def rebuilt(recipe, reading):
    """A recipe worked out anew from another reading of it."""
    return recipe if reading is recipe.reading else build(recipe.source, recipe.size, reading)


def unread_lines(recipe):
    """The lines of the statements that could not be read."""
    stumbles = recipe.reading.stumbles
    lines = [line_of(recipe, stumble.words[0] if stumble.words else stumble.token) for stumble in stumbles]
    given_up = recipe.reading.given_up
    return tuple(lines) + ((line_of(recipe, given_up),) if given_up is not None else ())


# ------------------------------------------------------------------ sizes
def size_pairs(old, new):
    """(the recipes to lay side by side, the names of the two sizes where they share none)."""
    before = {one.size_name: one for one in every_size(old)}
    after = {one.size_name: one for one in every_size(new)}
    shared = [(before[name], one) for name, one in after.items() if name in before]
    if shared:
        return shared, None
    one, other = next(iter(before.values())), next(iter(after.values()))
    return [(one, other)], (one.size_name, other.size_name)


def merged(by_size, names):
    """The changes of several sizes as one list; each that does not hold in all of them says in which."""
    if len(by_size) == 1:
        return by_size[0]
    holds = {}
    for name, changes_there in zip(names, by_size, strict=True):
        for one in changes_there:
            holds.setdefault(one, []).append(name)
    found = [evolve(one, sizes=() if len(its) == len(names) else tuple(its)) for one, its in holds.items()]
    places = {}
    return sorted(found, key=lambda one: places.setdefault(subject(one), len(places)))


def subject(change):
    """What a change is about, in whichever size: its changes are told one behind the other."""
    return tuple(getattr(change, name, None) for name in ("kind", "thing", "name", "what", "numbers"))


def changes(old, new, unit):
    """All changes between two recipes of one size, by sort."""
    steps = told(old, unit), told(new, unit)
    pairs = matched(*steps)[0]
    return {
        "pieces": named_changes(list(pieces(old, new)), list(pieces(new, old))),
        "materials": named_changes(*(list(materials(one)) for one in (old, new))),
        "allowances": allowance_changes(old, new, pairs),
        "parts": part_changes(pairs),
        "steps": step_changes(*steps),
        "notes": named_changes(*(list(notes(one)) for one in (old, new))),
        "measures": measure_changes(old, new),
        "promises": named_changes(*(list(promises(one)) for one in (old, new))),
    }


# ------------------------------------------------------------------ things by name
def pieces(recipe, other):
    """A recipe's pieces with their facts; one is long, and not tall, if the other recipe's is too."""
    long = {piece.name: piece.long for piece in other.pieces}
    for piece in recipe.pieces:
        facts = piece_facts(piece, recipe)
        if "long" in facts and not long.get(piece.name, True):
            facts["tall"] = facts.pop("long")
        yield "piece", piece.name, facts, line_of(recipe, piece.at)


def materials(recipe):
    tools = [recipe.machine] if recipe.machine is not None else []
    for stuff in (*recipe.stuff.values(), *tools):
        yield "stuff", stuff.name, stuff_facts(stuff), line_of(recipe, stuff.at)


def named_changes(old, new):
    """What is new, gone or changed among things with a kind, a name, facts and a line, matched by kind and name."""
    before, after = numbered(old), numbered(new)
    found = []
    for key in (*after, *(key for key in before if key not in after)):
        one, other = before.get(key), after.get(key)
        facts = fact_changes(*(side[0] if side is not None else {} for side in (one, other)))
        if one is None or other is None or facts:
            lines = tuple(side[1] if side is not None else None for side in (one, other))
            found.append(Named(*key[:2], change_of(one, other), facts, lines))
    return found


def numbered(items):
    """By kind, name and, for those that have the same, number."""
    found = {}
    for kind, name, facts, line in items:
        number = 0
        while (kind, name, number) in found:
            number += 1
        found[kind, name, number] = (facts, line)
    return found


def fact_changes(before, after):
    """The facts that differ."""
    names = dict.fromkeys((*before, *after))
    found = [Fact(name, before.get(name), after.get(name)) for name in names]
    return [one for one in found if not alike(one.before, one.after)]


# ------------------------------------------------------------------ findings
def finding_changes(old, new, unit):
    """Findings gained, then those lost, matched by their rule and the names they speak of."""
    partly = partly_understood(old) or partly_understood(new)
    before, after = (by_names(spoken_in(one, unit, new), partly) for one in (old, new))
    return [*left_over(after, before, "gained"), *left_over(before, after, "lost")]


def spoken_in(recipe, unit, new):
    """The recipe, its findings said in that unit; they know no pair of units, and speak in the new recipe's."""
    unit = unit if unit != "both" else new.unit or "in"
    twins = [copy(one) for one in every_size(recipe)]
    for twin in twins:
        twin.unit, twin.in_every_size = unit, twins
    return next(twin for twin in twins if twin.size == recipe.size or not recipe.sizes)


def by_names(recipe, partly):
    """Findings by rule and names: lists of FoundChange.

    Where one recipe is understood only in part, rules that wait for the whole are left out of both.  An empty text has
    none: that it has nothing to check is no change in a bag.
    """
    found = {}
    for one in check(recipe) if recipe.reading.statements else ():
        if not (partly and BY_NAME[one.rule].whole):
            said = FoundChange("", one.rule, one.severity, one.says, line_of(recipe, one.at))
            found.setdefault((one.rule, names_in(one, recipe)), []).append(said)
    return found


def names_in(finding, recipe):
    """The names, edges and measures that a finding speaks of; those in its place where it speaks of none."""
    known = {*recipe.names, *recipe.things, *NOT_NAMES, *MEASURES}
    for text in (finding.says, recipe.source.cut(finding.at)):
        said = (word.strip("`'\",;:()") for word in text.replace(",", " ").split())
        named = tuple(sorted({word for word in said if word.partition(".")[0] in known}))
        if named:
            return named
    return ()


def left_over(here, there, change):
    """The findings here that have none to match them there."""
    for key, found in here.items():
        for one in found[len(there.get(key, ())) :]:
            yield evolve(one, change=change)
