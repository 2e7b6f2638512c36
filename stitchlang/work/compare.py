"""What changed from one recipe to another: in the bag, not in the text."""

from __future__ import annotations

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

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from typing import TypeAlias, TypedDict, TypeVar

    from ..ground.finding import Finding
    from ..model.recipe import Recipe
    from ..reading.parse import Reading
    from .changes import Allowance, Line, MeasureChange, PartChange, StepChange
    from .stated import Facts, Item

    Change = TypeVar("Change", Named, Allowance, PartChange, StepChange, MeasureChange)
    Noted: TypeAlias = tuple[Facts, Line | None]  # facts and a line
    Found: TypeAlias = dict[tuple[str, tuple[str, ...]], list[FoundChange]]  # by rule and names

    class Changes(TypedDict):
        """What changed between two recipes of one size."""

        pieces: list[Named]
        materials: list[Named]
        allowances: list[Allowance]
        parts: list[PartChange]
        steps: list[StepChange]
        notes: list[Named]
        measures: list[MeasureChange]
        promises: list[Named]


# Words by which findings of one rule about one thing are told apart, as they are by names.
MEASURES = {"wide", "tall", "deep", "long", "across", "around", "base", "rolled"}


def compare(old: Recipe, new: Recipe, unit: str | None = None) -> Comparison:
    """All that changed from the recipe `old` to the recipe `new`: a Comparison.

    Sentences speak in `unit`, or else in the new recipe's.
    """
    unit = unit or new.unit or old.unit or "in"
    renames = renamed(old, new)
    before = rebuilt(old, in_new_names(old, new, renames))
    together, sizes = size_pairs(before, new)
    found = [changes(one, other, unit) for one, other in together]
    names = [other.size_name or "" for _, other in together]
    return Comparison(
        heading=fact_changes(heading(before), heading(new)),
        renamed=tuple(renames),
        pieces=merged([one["pieces"] for one in found], names),
        materials=merged([one["materials"] for one in found], names),
        allowances=merged([one["allowances"] for one in found], names),
        parts=merged([one["parts"] for one in found], names),
        steps=merged([one["steps"] for one in found], names),
        notes=merged([one["notes"] for one in found], names),
        measures=merged([one["measures"] for one in found], names),
        promises=merged([one["promises"] for one in found], names),
        findings=tuple(finding_changes(before, new, unit)),
        unread=(unread_lines(old), unread_lines(new)),
        partly=(partly_understood(old), partly_understood(new)),
        sizes=sizes,
    )


def rebuilt(recipe: Recipe, reading: Reading) -> Recipe:
    """A recipe worked out anew from another reading of it."""
    return recipe if reading is recipe.reading else build(recipe.source, recipe.size, reading)


def unread_lines(recipe: Recipe) -> tuple[Line, ...]:
    """The lines of the statements that could not be read."""
    stumbles = recipe.reading.stumbles
    lines = [line_of(recipe, stumble.words[0] if stumble.words else stumble.token) for stumble in stumbles]
    given_up = recipe.reading.given_up
    return (*lines, line_of(recipe, given_up)) if given_up is not None else tuple(lines)


# ------------------------------------------------------------------ sizes
def size_pairs(old: Recipe, new: Recipe) -> tuple[list[tuple[Recipe, Recipe]], tuple[str | None, str | None] | None]:
    """(the recipes to lay side by side, the names of the two sizes where they share none)."""
    before = {one.size_name: one for one in every_size(old)}
    after = {one.size_name: one for one in every_size(new)}
    shared = [(before[name], one) for name, one in after.items() if name in before]
    if shared:
        return shared, None
    one, other = next(iter(before.values())), next(iter(after.values()))
    return [(one, other)], (one.size_name, other.size_name)


def merged(by_size: Sequence[Sequence[Change]], names: Sequence[str]) -> tuple[Change, ...]:
    """The changes of several sizes as one row; each that does not hold in all of them says in which."""
    if len(by_size) == 1:
        return tuple(by_size[0])
    holds: dict[Change, list[str]] = {}
    for name, changes_there in zip(names, by_size, strict=True):
        for one in changes_there:
            holds.setdefault(one, []).append(name)
    found = [evolve(one, sizes=() if len(its) == len(names) else tuple(its)) for one, its in holds.items()]
    places: dict[object, int] = {}
    return tuple(sorted(found, key=lambda one: places.setdefault(subject(one), len(places))))


def subject(change: object) -> tuple[object, ...]:
    """What a change is about, in whichever size: its changes are told one behind the other."""
    return tuple(getattr(change, name, None) for name in ("kind", "thing", "name", "what", "numbers"))


def changes(old: Recipe, new: Recipe, unit: str) -> Changes:
    """All changes between two recipes of one size, by sort."""
    steps = told(old, unit), told(new, unit)
    pairs = matched(*steps)[0]
    return {
        "pieces": named_changes(pieces(old, new), pieces(new, old)),
        "materials": named_changes(materials(old), materials(new)),
        "allowances": allowance_changes(old, new, pairs),
        "parts": part_changes(pairs),
        "steps": step_changes(*steps),
        "notes": named_changes(notes(old), notes(new)),
        "measures": measure_changes(old, new),
        "promises": named_changes(promises(old), promises(new)),
    }


# ------------------------------------------------------------------ things by name
def pieces(recipe: Recipe, other: Recipe) -> Iterator[Item]:
    """A recipe's pieces with their facts; one is long, and not tall, if the other recipe's is too."""
    long = {piece.name: piece.long for piece in other.pieces}
    for piece in recipe.pieces:
        facts = piece_facts(piece, recipe)
        if "long" in facts and not long.get(piece.name, True):
            facts["tall"] = facts.pop("long")
        yield "piece", piece.name, facts, line_of(recipe, piece.at)


def materials(recipe: Recipe) -> Iterator[Item]:
    tools = [recipe.machine] if recipe.machine is not None else []
    for stuff in (*recipe.stuff.values(), *tools):
        yield "stuff", stuff.name, stuff_facts(stuff), line_of(recipe, stuff.at)


def named_changes(old: Iterable[Item], new: Iterable[Item]) -> list[Named]:
    """What is new, gone or changed among things with a kind, a name, facts and a line, matched by kind and name."""
    before, after = numbered(old), numbered(new)
    found: list[Named] = []
    for key in (*after, *(key for key in before if key not in after)):
        one, other = before.get(key), after.get(key)
        (was, line), (now, its) = one or ({}, None), other or ({}, None)
        facts = fact_changes(was, now)
        if one is None or other is None or facts:
            found.append(Named(key[0], key[1], change_of(one, other), facts, (line, its)))
    return found


def numbered(items: Iterable[Item]) -> dict[tuple[str, str, int], Noted]:
    """By kind, name and, for those that have the same, number."""
    found: dict[tuple[str, str, int], Noted] = {}
    for kind, name, facts, line in items:
        number = 0
        while (kind, name, number) in found:
            number += 1
        found[kind, name, number] = (facts, line)
    return found


def fact_changes(before: Facts, after: Facts) -> tuple[Fact, ...]:
    """The facts that differ."""
    names = dict.fromkeys((*before, *after))
    found = [Fact(name, before.get(name), after.get(name)) for name in names]
    return tuple(one for one in found if not alike(one.before, one.after))


# ------------------------------------------------------------------ findings
def finding_changes(old: Recipe, new: Recipe, unit: str) -> list[FoundChange]:
    """Findings gained, then those lost, matched by their rule and the names they speak of."""
    partly = partly_understood(old) or partly_understood(new)
    before, after = (by_names(spoken_in(one, unit, new), partly) for one in (old, new))
    return [*left_over(after, before, "gained"), *left_over(before, after, "lost")]


def spoken_in(recipe: Recipe, unit: str, new: Recipe) -> Recipe:
    """The recipe, its findings said in that unit; they know no pair of units, and speak in the new recipe's."""
    unit = unit if unit != "both" else new.unit or "in"
    twins = [copy(one) for one in every_size(recipe)]
    for twin in twins:
        twin.unit, twin.in_every_size = unit, twins
    return next(twin for twin in twins if twin.size == recipe.size or not recipe.sizes)


def by_names(recipe: Recipe, partly: bool) -> Found:
    """Findings by rule and names: lists of FoundChange.

    Where one recipe is understood only in part, rules that wait for the whole are left out of both.  An empty text has
    none: that it has nothing to check is no change in a bag.
    """
    found: Found = {}
    for one in check(recipe) if recipe.reading.statements else ():
        if not (partly and BY_NAME[one.rule].whole):
            said = FoundChange("", one.rule, one.severity, one.says, line_of(recipe, one.at))
            found.setdefault((one.rule, names_in(one, recipe)), []).append(said)
    return found


def names_in(finding: Finding, recipe: Recipe) -> tuple[str, ...]:
    """The names, edges and measures that a finding speaks of; those in its place where it speaks of none."""
    known = {*recipe.names, *recipe.things, *NOT_NAMES, *MEASURES}
    for text in (finding.says, recipe.source.cut(finding.at)):
        said = (word.strip("`'\",;:()") for word in text.replace(",", " ").split())
        named = tuple(sorted({word for word in said if word.partition(".")[0] in known}))
        if named:
            return named
    return ()


def left_over(here: Found, there: Found, change: str) -> Iterator[FoundChange]:
    """The findings here that have none to match them there."""
    for key, found in here.items():
        for one in found[len(there.get(key, ())) :]:
            yield evolve(one, change=change)
