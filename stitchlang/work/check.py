"""Run every rule over a recipe."""

from __future__ import annotations

from ..rules.catalogue import ON_RECIPES

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from ..ground.finding import Finding
    from ..model.recipe import Recipe
    from .allow import Excuse

# Slips after which a recipe is only partly understood: rules about what is left undone then wait.
BREAKING = (
    "unknown-name",
    "unknown-edge",
    "name-given-twice",
    "name-is-a-word-of-the-language",
    "misplaced",
    "length-without-unit",
    "wrong-kind",
    "division-by-zero",
    "number-too-long",
    "length-below-nothing",
    "longer-than-any-cloth",
    "joined-to-nothing",
    "broken-name",
    "corner-too-round",
    "corner-too-large",
    "outline-not-closed",
    "steps-go-round",
    "worked-on-with-itself",
    "allowance-unsaid",
    "said-twice",
    "sizes-disagree",
    "count-not-whole",
    "not-brought-in",
)
SERIOUS = {"fault": 0, "doubt": 1, "hint": 2}


def partly_understood(recipe: Recipe) -> bool:
    """Whether some statement could not be read or made sense of, so that sizes cannot be checked yet."""
    reading = recipe.reading
    return bool(reading.stumbles or reading.given_up) or any(kind in recipe.slips for kind in BREAKING)


def check(recipe: Recipe) -> list[Finding]:
    """Every finding in a recipe that counts, in all its sizes and in text order: a list of Finding."""
    return [finding for finding in check_all(recipe) if finding.allowed is None]


def check_all(recipe: Recipe, excuses: Sequence[Excuse] = ()) -> list[Finding]:
    """Every finding, those included that the recipe or one of the excuses (see `work/allow.py`) allows."""
    if not recipe.allowed and not excuses:
        return in_its_sizes(recipe, check_one)
    from .allow import by_statement, marked, misallowed, permits_of

    permits = permits_of(recipe, BREAKING)
    excuses = (by_statement(permits), *excuses)
    findings = in_its_sizes(recipe, lambda one: check_one(one, excuses))
    findings = in_text_order([*findings, *misallowed(permits, findings, recipe, partly_understood(recipe))])
    return marked(findings, recipe, excuses)


def in_its_sizes(recipe: Recipe, look: Callable[[Recipe], list[Finding]]) -> list[Finding]:
    """What a look at the recipe in each of its sizes gives, as one list."""
    if not recipe.sizes:
        return look(recipe)
    from .sizes import every_size

    return together([(one, look(one)) for one in every_size(recipe)])


def together(found: list[tuple[Recipe, list[Finding]]]) -> list[Finding]:
    """The findings of several sizes as one list: what is found at one place by one rule is said once.

    Each says in which sizes it holds, and what it says of the others where that differs.
    """
    from attrs import evolve

    names: list[str] = [recipe.size_name for recipe, _ in found]  # type: ignore[misc]  # of several each has a name
    same: dict[tuple[str, int, int, str], list[tuple[str, Finding]]] = {}
    for name, (_, findings) in zip(names, found, strict=True):
        for finding in findings:
            at = finding.at
            group = same.setdefault((finding.rule, at.start, at.end, finding.severity), [])
            if all(size != name for size, _ in group):
                group.append((name, finding))
    findings = []
    for group in same.values():
        sizes, first = [size for size, _ in group], group[0][1]
        others = tuple((size, one.says) for size, one in group[1:] if one.says != first.says)
        findings.append(evolve(first, sizes=tuple(sizes) if sizes != names or others else (), others=others))
    return in_text_order(findings)


def in_text_order(findings: Iterable[Finding]) -> list[Finding]:
    """Sorted by place, the worst first at one place."""
    return sorted(findings, key=lambda finding: (finding.at.start, SERIOUS[finding.severity]))


def check_one(recipe: Recipe, excuses: Sequence[Excuse] = ()) -> list[Finding]:
    """Every finding in a recipe in the size that it is worked out in, in text order.

    A rule waits for what counts only: what is allowed must not keep another rule from looking.
    """
    findings: list[Finding]
    told: set[str]
    partly, findings, told = partly_understood(recipe), [], set()
    for rule in ON_RECIPES:
        if (partly and rule.whole) or rule.waits & told:
            continue
        found = rule.findings(recipe)
        if found:
            if not excuses or any_counts(found, recipe, excuses):
                told.add(rule.name)
            findings += found
    return in_text_order(findings)


def any_counts(findings: list[Finding], recipe: Recipe, excuses: Sequence[Excuse]) -> bool:
    """Whether one of the findings is excused by nothing."""
    from .allow import marked

    return any(finding.allowed is None for finding in marked(findings, recipe, excuses))
