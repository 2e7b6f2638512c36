"""Names for types that several modules of this floor write down: read by checkers, never loaded at run time."""

from __future__ import annotations

from typing import TypeAlias

Json: TypeAlias = dict[str, object]  # an object of JSON
Reach: TypeAlias = tuple[float, float, float, float]  # left, top, right and bottom of what a thing covers on a page
Fact: TypeAlias = tuple[str, str]  # a name, and what is to be said of it
