"""JUnit's XML: a test case for each recipe, a failure for each finding that fails the run.

What is found and does not fail stands in the case's output; what is allowed is counted there with its reason.
"""

from __future__ import annotations

import re

from ..findings import finding_text, headline
from .places import path_from_here

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from types import ModuleType
    from xml.etree.ElementTree import Element

    from ...work.outcome import Checked, Run

# Characters that XML 1.0 has no way to write (its production 2, Char).
FORBIDDEN = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def report(run: Run) -> str:
    """The whole report, well-formed whatever stands in the recipes."""
    from xml.etree import ElementTree as xml

    suite = xml.Element("testsuite", name="stitchlang check")
    for checked in run.recipes:
        case(xml, suite, checked)
    for trouble in run.troubles:
        made = xml.SubElement(suite, "testcase", name=writable(path_from_here(trouble.path)), classname="stitchlang")
        xml.SubElement(made, "error", message=writable(trouble.why), type="not checked")
    failures = sum(any(map(one.fails, one.findings)) for one in run.recipes)
    numbers = {"tests": len(suite), "failures": failures, "errors": len(run.troubles), "skipped": 0}
    top = xml.Element("testsuites", name="stitchlang")
    for element in (suite, top):
        for name, number in numbers.items():
            element.set(name, str(number))
    top.append(suite)
    xml.indent(top)
    return '<?xml version="1.0" encoding="utf-8"?>\n' + xml.tostring(top, encoding="unicode")


def case(xml: ModuleType, suite: Element, checked: Checked) -> None:
    """The test case of one recipe."""
    made = xml.SubElement(suite, "testcase", name=writable(path_from_here(checked.name)), classname="stitchlang")
    other = []
    for finding in checked.findings:
        if checked.fails(finding):
            facts = {"message": writable(headline(finding)), "type": finding.rule}
            xml.SubElement(made, "failure", facts).text = writable(finding_text(finding, checked))
        elif finding.allowed is not None:
            other.append(f"allowed by the {finding.allowed.by}: {finding.rule}: {finding.allowed.reason}")
        else:
            other.append(finding_text(finding, checked))
    if other:
        xml.SubElement(made, "system-out").text = writable("\n".join(other))


def writable(text: str) -> str:
    """Text with what XML cannot write made visible as one character."""
    return FORBIDDEN.sub("\N{REPLACEMENT CHARACTER}", text)
