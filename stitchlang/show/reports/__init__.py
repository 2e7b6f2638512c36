"""What a run found, in a form for machines: a module for each, with `report(run)`, the whole text of it.

What people read comes from `show/findings.py`, one recipe at a time.
"""


def report(name, run):
    """The run in the form of that name; only that one's module is loaded."""
    from importlib import import_module

    return import_module(f"{__name__}.{name}").report(run)
