"""Every rule, in reporting order, by family."""

from . import (
    allowances,
    boxing,
    bulk,
    casings,
    closures,
    folded_panels,
    gaps,
    lengths,
    names,
    openings,
    order,
    overlaps,
    placing,
    promises,
    reading,
    shaping,
    sides,
    sizes,
    snaps,
    stuff,
    tools,
)

FAMILIES = {
    "reading": reading.RULES,
    "names": names.RULES,
    "shaped edges": shaping.RULES,
    "casings, binding and piping": casings.RULES,
    "openings": openings.RULES,
    "length": lengths.RULES,
    "allowance": allowances.RULES,
    "boxing": boxing.RULES,
    "finished": (*sizes.RULES, *promises.RULES),
    "placing": (*placing.RULES, *folded_panels.RULES),
    "snaps": snaps.RULES,
    "overlaps": overlaps.RULES,
    "closures and hardware": closures.RULES,
    "gaps": gaps.RULES,
    "order": order.RULES,
    "sides": sides.RULES,
    "stuff": stuff.RULES,
    "bulk": bulk.RULES,
    "tools": tools.RULES,
}
RULES = tuple(rule for family in FAMILIES.values() for rule in family)
BY_NAME = {rule.name: rule for rule in RULES}
