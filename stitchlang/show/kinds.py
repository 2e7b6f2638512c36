"""Names for types that several modules of this floor write down: read by checkers, never loaded at run time."""

from __future__ import annotations

from typing import TypeAlias

Json: TypeAlias = dict[str, object]  # an object of JSON
