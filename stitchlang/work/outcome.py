"""What a run over recipes leaves: values that go between processes and that every report is printed from."""

from __future__ import annotations

import re

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from typing import TypeAlias

    from ..ground.finding import Finding
    from ..ground.lengths import Rational
    from ..ground.working import Working
    from ..model.recipe import Recipe
    from .fingerprint import Fingerprint

    Outcome: TypeAlias = "Checked | Trouble | Excluded"
    Gone: TypeAlias = tuple[str, Fingerprint]  # the path of a recipe, and what a baseline has of it that nothing gave

LENGTH = re.compile(r"(?:about )?\d[\d /.]*(?:(?:in|cm|mm)\b)?")  # said in the unit of whichever recipe it is
FAILING = {"fault": ("fault",), "doubt": ("fault", "doubt"), "hint": ("fault", "doubt", "hint"), "never": ()}


class Checked:
    """One recipe, checked: its findings, allowed ones among them, and what it takes to print them.

    Can stand in for the recipe where findings are printed: `source` and `say` are the recipe's.  `prints` are the
    findings' fingerprints; `partly` says that some of it could not be understood; `fail_on` is the severity from
    which a finding fails the run; `stale` are a baseline's entries that were not found again; `echoes` are those of the
    findings, by where they stand in the list, that the run has told already of a file that several recipes use.
    """

    def __init__(
        self,
        recipe: Recipe,
        findings: list[Finding],
        prints: Sequence[Fingerprint] = (),
        partly: bool = False,
        fail_on: str = "fault",
    ) -> None:
        self.source = recipe.source
        self.unit = recipe.unit
        self.findings = findings
        self.prints = prints
        self.partly = partly
        self.fail_on = fail_on
        self.baseline: str | None = None
        self.stale: Sequence[Gone] = ()
        self.echoes: frozenset[int] = frozenset()

    @property
    def name(self) -> str:
        """What the recipe's text is called."""
        return self.source.name

    def say(self, length: Working | Rational) -> str:
        """A length in the recipe's unit."""
        from ..speech import Speech

        return Speech(self.unit or "in").length(length)

    def counting(self) -> list[Finding]:
        """The findings that nobody allowed, and that were not told already."""
        found = enumerate(self.findings)
        return [finding for at, finding in found if at not in self.echoes and finding.allowed is None]

    def fails(self, finding: Finding) -> bool:
        """Whether a finding fails the run."""
        return finding.allowed is None and finding.severity in FAILING[self.fail_on]

    def pairs(self) -> Iterator[tuple[Finding, Fingerprint]]:
        """(finding, fingerprint) for each finding."""
        return zip(self.findings, self.prints, strict=True)

    def told(self) -> list[tuple[Finding, Fingerprint]]:
        """(finding, fingerprint) for each finding that was not told already."""
        return [pair for at, pair in enumerate(self.pairs()) if at not in self.echoes]

    def places(self) -> list[tuple[object, ...]]:
        """Of each finding what makes it one and the same in any recipe that uses its file: place, rule, words."""
        return [
            (self.source.file(one.at.start), *self.source.place(one.at.start), one.rule, LENGTH.sub("", one.says))
            for one in self.findings
        ]


class Trouble:
    """A path that gave no recipe, settings that could not be read, or a recipe that stitchlang itself fell over."""

    def __init__(self, path: str, why: str) -> None:
        self.path = path
        self.why = why


class Excluded:
    """A recipe that the settings leave out."""

    def __init__(self, path: str) -> None:
        self.path = path


class Run:
    """All that a run found, in the order of the recipes."""

    def __init__(self) -> None:
        self.recipes: list[Checked] = []
        self.troubles: list[Trouble] = []
        self.excluded = 0
        self.stale: list[Gone] = []
        self.against = False  # whether there was a baseline
        self.places: set[tuple[object, ...]] = set()  # of what was found in recipes of several files, and in those

    def take(self, outcome: Outcome) -> bool:
        """Put one recipe's outcome to the others; False where the same trouble was told before."""
        if isinstance(outcome, Trouble):
            told = any((one.path, one.why) == (outcome.path, outcome.why) for one in self.troubles)
            if not told:
                self.troubles.append(outcome)
            return not told
        if isinstance(outcome, Excluded):
            self.excluded += 1
        else:
            places = outcome.places()
            outcome.echoes = frozenset(at for at, place in enumerate(places) if place in self.places)
            self.places.update(places)
            self.recipes.append(outcome)
            self.stale += outcome.stale
            self.against = self.against or outcome.baseline is not None
        return True

    def fails(self) -> bool:
        """Whether some finding fails the run."""
        return any(checked.fails(finding) for checked in self.recipes for finding in checked.findings)
