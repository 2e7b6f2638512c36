"""A recipe in all its sizes: the same statements, worked out once for each."""

from __future__ import annotations

import re

from attrs import evolve

from ..build import build

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..model.recipe import Recipe
    from .steps import Step

MARK = re.compile("\x02(.*?)\x03")


def every_size(recipe: Recipe) -> list[Recipe]:
    """The recipe in each of its sizes, in the order in which they are named; itself where there is one only.

    Worked out once, and kept with the recipe.
    """
    if not recipe.sizes:
        return [recipe]
    if not hasattr(recipe, "in_every_size"):
        recipe.in_every_size = [
            recipe if number == recipe.size else build(recipe.source, number, recipe.reading)
            for number in range(len(recipe.sizes))
        ]
    return recipe.in_every_size


def in_size(recipe: Recipe, name: str) -> Recipe | None:
    """The recipe in the size of that name, or None."""
    return next((one for one in every_size(recipe) if one.size_name == name), None)


def side_by_side(steps_by_size: Sequence[tuple[str | None, list[Step]]]) -> list[Step]:
    """The steps of several sizes as one list: where a length differs, the lengths of all sizes stand in its place."""
    names, lists = zip(*steps_by_size, strict=True)
    if len({len(one) for one in lists}) > 1:  # a statement that one size cannot make sense of
        return [plainly(step) for step in lists[0]]
    rows = zip(*lists, strict=True)
    return [evolve(row[0], sentence=merged([step.sentence for step in row], names)) for row in rows]


def plainly(step: Step) -> Step:
    """A step without marks round its lengths."""
    return evolve(step, sentence=MARK.sub(lambda found: found[1], step.sentence))


def merged(sentences: Sequence[str], names: Sequence[str | None]) -> str:
    """One sentence for all sizes: `10 in / 12 in` where they differ in a length, else one behind the other."""
    frames = {MARK.sub("\x02\x03", sentence) for sentence in sentences}
    if len(frames) > 1:
        plain = [MARK.sub(lambda found: found[1], sentence) for sentence in sentences]
        if len(set(plain)) == 1:
            return plain[0]
        return " ".join(f"In size {name}: {sentence}" for name, sentence in zip(names, plain, strict=True))
    lengths = zip(*(MARK.findall(sentence) for sentence in sentences), strict=True)
    shown = [" / ".join(one) if len(set(one)) > 1 else one[0] for one in lengths]
    return MARK.sub(lambda _: shown.pop(0), sentences[0])
