"""What a run found, in a form for machines: a module for each, with `report(run)`, the whole text of it.

What people read comes from `show/findings.py`, one recipe at a time.
"""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...work.outcome import Run


def report(name: str, run: Run) -> str:
    """The run in the form of that name; only that one's module is loaded."""
    from importlib import import_module

    told: str = import_module(f"{__name__}.{name}").report(run)
    return told
