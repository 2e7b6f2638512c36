"""Did you mean: the nearest known names, or none at all where a hint would be a guess."""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Collection, Iterable


def distance(one: str, other: str, limit: int) -> int:
    """Letters to add, drop, change or swap to turn one word into the other; limit + 1 if more."""
    if abs(len(one) - len(other)) > limit:
        return limit + 1
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(one, 1):
        older, before, row = before, row, [i]
        for j, its in enumerate(other, 1):
            best = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != its))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == its:
                best = min(best, older[j - 2] + 1)
            row.append(best)
    return row[-1]


def nearest(word: str, known: Iterable[str], most: int = 3) -> list[str]:
    """Up to `most` known names within a third of the word's length, nearest first."""
    limit = max(1, len(word) // 3) if len(word) > 2 else 0
    if len(word) > 40:
        return []
    near = sorted((distance(word.lower(), name.lower(), limit), at, name) for at, name in enumerate(known))
    return list(dict.fromkeys(name for far, _, name in near if far <= limit))[:most]


def meant(word: str, known: Collection[str]) -> str:
    """`did you mean `front`?`, or the names there are where none is near."""
    near = nearest(word, known)
    if near:
        return "did you mean " + " or ".join(f"`{name}`" for name in near) + "?"
    shown = list(dict.fromkeys(known))[:8]
    return "there is " + ", ".join(f"`{name}`" for name in shown) if shown else ""
