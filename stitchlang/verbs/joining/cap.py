"""Sew a scrap of cloth over each end of a zip, so that no teeth reach a seam.

    cap:        "cap" NAME "ends" "with" NAME _named{overall}*

`overall` is the length of tape and caps together; teeth stay as long as the zip is.
"""

from __future__ import annotations

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from ...bench import Bench
    from ...model.recipe import Op
    from ...reading.tree import Node
    from ...speech import Speech

STATION = "machine"


def mean(node: Node, bench: Bench) -> None:
    op = bench.op(node)
    zip_word, cloth_word = node.words()
    zip_thing = bench.thing(zip_word, ("zip",), "a zip")
    scrap = bench.thing(cloth_word, ("piece",), "a piece")
    overall = bench.clause_length(node, "overall", "zip with its caps")
    if node.first("overall") is None:
        bench.misplaced(op.at, wanted="`to` a length `overall`")
    op.parts.update(zip=zip_thing, cap=scrap, overall=overall)
    if scrap is not None:
        bench.use(op, scrap)
        for edge in scrap.edges:
            bench.fate([edge], "seam", None, op)
    if zip_thing is not None and overall is not None:
        bench.use(op, zip_thing)
        zip_thing.capped_by, zip_thing.overall = op, overall
        for edge in zip_thing.edges:
            if edge.name in ("top", "bottom"):
                edge.cut = overall


def say(op: Op, speech: Speech) -> str:
    parts = op.parts
    if None in parts.values():
        return ""
    if parts["zip"].stuff.facts.get("rolled"):
        return (
            f"Cut {parts['zip'].name} from the roll, put its slider on, fold a {parts['cap'].name} over each end and "
            f"stitch it down; trim so that the zip is {speech.length(parts['overall'])} overall."
        )
    return (
        f"Fold a {parts['cap'].name} over each end of {parts['zip'].name}, just clear of the end stops, and "
        f"stitch it down; trim so that the zip is {speech.length(parts['overall'])} overall."
    )


def cautions(op: Op) -> tuple[str, ...]:
    zip_thing = op.parts["zip"]
    return ("teeth",) if zip_thing is not None and zip_thing.stuff.facts.get("kind") == "metal" else ()
