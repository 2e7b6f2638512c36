"""The tables, our reader and plain Lark are one language."""

from pathlib import Path

import pytest
from lark import Token as LarkToken

from stitchlang.reading import table_maker
from stitchlang.reading.parse import read
from stitchlang.reading.tree import Token

ROOT = Path(__file__).parent.parent
RECIPES = sorted([*ROOT.glob("examples/*.stitch"), *ROOT.glob("tests/field/*.stitch")])


@pytest.fixture(scope="module")
def lark_reader():
    return table_maker.lark_reader()


def ours(node):
    """A node as nested tuples, spans included."""
    if isinstance(node, Token):
        return (node.text, node.start, node.end)
    return (node.rule, [ours(part) for part in node.parts], node.start, node.end)


def theirs(node):
    if isinstance(node, LarkToken):
        return (str(node), node.start_pos, node.end_pos)
    return (str(node.data), [theirs(child) for child in node.children], node.meta.start_pos, node.meta.end_pos)


def test_the_tables_in_the_package_are_those_of_the_grammar():
    """Nobody changed the grammar without making the tables anew, or the tables by hand."""
    written = (table_maker.HERE / "table.py").read_text("utf-8")

    assert written == table_maker.table_text()


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_plain_lark_reads_every_recipe_as_we_do(path, lark_reader):
    """Same tree, same spans, on every recipe in the repository (Lark 1.x as the oracle)."""
    text = path.read_bytes().decode("utf-8")
    reading = read(text)

    assert not reading.stumbles
    assert [ours(node) for node in reading.statements] == [
        theirs(node) for node in lark_reader.parse(text, start="recipe_file").children
    ]
