"""What was asked for on the command line, read as the language reads it."""

from __future__ import annotations

from ...bench import Bench
from ...declares.promises import claims_of
from ...ground.lengths import MM
from ...reading.parse import read
from ...speech import listed
from ..measure import find
from .resize import Wish, known_measures

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from fractions import Fraction

    from ...model.kinds import AnyThing
    from ...model.recipe import Recipe


class Misunderstood(Exception):
    """What was asked for makes no sense, and why."""


def wishes_of(text: str, name: str | None, recipe: Recipe) -> list[Wish]:
    """The wishes in words such as `12 wide at top, 4 deep`: a list of Wish.  Raises Misunderstood."""
    name = name or meant(recipe)
    if name is None or name not in recipe.things:
        known = listed(one for one, thing in recipe.things.items() if thing.kind in ("shell", "flat", "folded"))
        raise Misunderstood(f"nothing is called `{name}`; there is {known}" if name else "say which thing: --of NAME")
    reading = read(f"finished {name}: {text}")
    if len(reading.statements) != 1 or reading.stumbles:
        raise Misunderstood(f"`{text}` is no list of finished sizes such as `12 wide at top, 4 deep`")
    claims, slips = claims_of(reading.statements[0], recipe.things[name], "size asked for", Bench(recipe)), recipe.slips
    recipe.things[name].used_by.pop()
    if "length-without-unit" in slips:
        raise Misunderstood("the recipe states no unit; write one behind each size")
    wishes: list[Wish] = []
    for claim in claims:
        one, _ = find(recipe, f"{name} {claim.measure}")
        if one is None:
            raise Misunderstood(
                f"{name} has no measure `{claim.measure}`; it has {listed(known_measures(recipe, name))}"
            )
        wishes.append(Wish(name, one.name, claim.length.mm, f"{recipe.say(claim.length)} {claim.measure}"))
    if not wishes:
        raise Misunderstood(f"`{text}` asks for no size")
    return wishes


def meant(recipe: Recipe) -> str | None:
    """The thing whose sizes are asked for when none is named: the first promised here, else the last one made."""
    promised: list[AnyThing] = [claim.thing for claim in recipe.claims if recipe.source.own(claim.at) is not None]
    shells = [thing for thing in promised if thing.kind == "shell"]
    made = [thing for thing in recipe.made if thing.kind == "shell" and recipe.things.get(thing.name) is thing]
    things = shells or promised or made[-1:]
    return things[0].name if things else None


def step_of(text: str, recipe: Recipe) -> Fraction:
    """A ruler's mark in millimetres.  Raises Misunderstood."""
    reading = read(f"tolerance {text}")
    if len(reading.statements) == 1 and not reading.stumbles:
        step = Bench(recipe).length(reading.statements[0].parts[0], "mark")
        if step is not None and step.mm <= MM["m"]:
            return step.mm
    raise Misunderstood(f"`{text}` is no mark of a ruler, such as 1/8 or 1 mm")
