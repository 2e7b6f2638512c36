"""Small slips that could be made in a module: a comparison turned, a plus made a minus, a number one more or less.

A slip is named by its module and its number in the order in which `slips` finds them.  `Module` compiles a module with
one slip made, and says which of its functions differ for it; places are kept, so that every function of the spoilt
module answers to one of the module as it is.
"""

import ast
from inspect import CO_NEWLOCALS
from pathlib import Path
from types import CodeType

ROOT = Path(__file__).resolve().parents[2]
# Geometry, meaning and rules.
MODULES = "ground/* model/* rules/* bench used sequence build declares/* verbs/*/*".split()
TURNED = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
SWAPPED = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.And: ast.Or, ast.Or: ast.And, ast.Mult: ast.Div, ast.Div: ast.Mult}


def slips(tree):
    """(line, what it is, what makes it) for every slip that could be made in a tree."""
    for node in ast.walk(tree):
        line = getattr(node, "lineno", 0)
        if isinstance(node, ast.Compare) and type(node.ops[0]) in TURNED:
            new = TURNED[type(node.ops[0])]
            yield line, f"{type(node.ops[0]).__name__} to {new.__name__}", setter(node.ops, 0, new())
        elif isinstance(node, (ast.BinOp, ast.BoolOp)) and type(node.op) in SWAPPED:
            new = SWAPPED[type(node.op)]
            yield line, f"{type(node.op).__name__} to {new.__name__}", attribute(node, "op", new())
        elif isinstance(node, ast.Constant) and type(node.value) is int:
            for step in (1, -1):
                yield line, f"{node.value} to {node.value + step}", attribute(node, "value", node.value + step)
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
            yield line, "not left out", attribute(node, "op", ast.UAdd())


def setter(items, at, new):
    """What puts something in a list's place."""
    return lambda: items.__setitem__(at, new)


def attribute(node, name, new):
    """What gives a node another attribute; `not x` becomes `bool(x)`, told as a plus."""
    return lambda: setattr(node, name, new)


class Truth(ast.NodeTransformer):
    """`+x` in place of `not x` made `bool(x)`, since not everything has a plus."""

    def visit_UnaryOp(self, node):
        self.generic_visit(node)
        if isinstance(node.op, ast.UAdd):
            return ast.copy_location(ast.Call(ast.Name("bool", ast.Load()), [node.operand], []), node)
        return node


def every_slip():
    """(module's path in the project, number of the slip in it, line, what) over all modules."""
    for modules in MODULES:
        for path in sorted((ROOT / "stitchlang").glob(f"{modules}.py")):
            for number, (line, what, _) in enumerate(slips(ast.parse(path.read_text("utf-8")))):
                yield str(path.relative_to(ROOT)), number, line, what


def inside(code, above=()):
    """(code, those around it, the nearest first) of a code and all codes in it, in the order of writing."""
    yield code, above
    for one in code.co_consts:
        if isinstance(one, CodeType):
            yield from inside(one, (code, *above))


def key(code):
    """What a code is known by, whether it has been run, loaded from a file or compiled anew."""
    return code.co_filename, code.co_qualname, code.co_firstlineno, code.co_linetable


def own(code):
    """What a code does by itself, the codes in it left out."""
    constants = [(type(one), one) for one in code.co_consts if not isinstance(one, CodeType)]
    return code.co_code, constants, code.co_names


class Module:
    """A module with one slip made."""

    def __init__(self, path, number):
        self.path = str(ROOT / path)
        tree = ast.parse(Path(self.path).read_text("utf-8"))
        self.before = compile(tree, self.path, "exec")
        list(slips(tree))[number][2]()
        tree = ast.fix_missing_locations(Truth().visit(tree))
        self.after = compile(tree, self.path, "exec")

    def pairs(self):
        """(code as it is, those around it, the code with the slip made)."""
        for (before, above), (after, _) in zip(inside(self.before), inside(self.after), strict=True):
            yield before, above, after

    def renewed(self):
        """What each function is to do instead, by its key."""
        return {key(before): after for before, _, after in self.pairs()}

    def changed(self):
        """The keys of the code that the slip is in and of those around it; none if it comes to the same."""
        for before, above, after in self.pairs():
            if own(before) != own(after):
                return [key(one) for one in (before, *above)]
        return []

    def at_loading(self):
        """Whether the slip is in what is worked out while the module is loaded: in no function."""
        changed = (before for before, _, after in self.pairs() if own(before) != own(after))
        return any(not code.co_flags & CO_NEWLOCALS for code in changed)
