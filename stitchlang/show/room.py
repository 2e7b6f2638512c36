"""Where words may stand on a drawing: what is taken already, and the first of several places that is free."""

from __future__ import annotations

from .svg import wide

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..work.shape import At
    from .kinds import Reach


class Room:
    """Rectangles taken on a page, as (left, top, right, bottom)."""

    def __init__(self) -> None:
        self.taken: list[Reach] = []

    def free(self, box: Reach) -> bool:
        """Whether nothing taken so far touches a rectangle."""
        return not any(
            box[0] < other[2] and other[0] < box[2] and box[1] < other[3] and other[1] < box[3] for other in self.taken
        )

    def take(self, box: Reach) -> None:
        self.taken.append(box)

    def place(self, boxes: Iterable[Reach]) -> int:
        """Take the first free one of several rectangles, or the last: its place in the list."""
        boxes = list(boxes)
        chosen = next((at for at, box in enumerate(boxes) if self.free(box)), len(boxes) - 1)
        self.take(boxes[chosen])
        return chosen


def around(one: At, other: At, more: float = 0) -> Reach:
    """The rectangle round two points, and so much more on every side."""
    (x, y), (u, v) = one, other
    return min(x, u) - more, min(y, v) - more, max(x, u) + more, max(y, v) + more


def words_box(at: At, words: str, anchor: str = "middle", turned: bool = False, size: float = 13) -> Reach:
    """The rectangle that words cover whose baseline has its middle, start or end at a point."""
    length = wide(words, size) + 4
    before = {"middle": length / 2, "start": 2, "end": length - 2}[anchor]
    if turned:  # read from below, the baseline on the right
        return at[0] - size, at[1] - (length - before), at[0] + 4, at[1] + before
    return at[0] - before, at[1] - size, at[0] + length - before, at[1] + 4
