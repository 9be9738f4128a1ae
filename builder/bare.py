"""The core without what is for readers and checkers alone: annotations, casts, protocols' bases.

The browser reads the whole core at every start and fetches it with every update; what a type checker has seen
already need not go there. What comes out means the same; `tests/builder/test_written_out.py` holds it to
that.
"""

from __future__ import annotations

import ast

_FOR_CHECKERS = ("typing", "collections.abc")


def bare(source: str) -> str:
    """The module's source without annotations, and without what was imported for them alone."""
    tree = _Bare().visit(ast.parse(source))
    _forget(tree)
    return ast.unparse(ast.fix_missing_locations(tree)) + "\n"


class _Bare(ast.NodeTransformer):
    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        """Without what it takes and returns."""
        self.generic_visit(node)
        node.returns = None
        asked = node.args
        for each in (*asked.posonlyargs, *asked.args, *asked.kwonlyargs, asked.vararg, asked.kwarg):
            if each is not None:
                each.annotation = None
        node.body = node.body or [ast.Pass()]
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        """A protocol is a plain class; a named tuple is made from its annotations, which stay."""
        bases = [each.id for each in node.bases if isinstance(each, ast.Name)]
        if "NamedTuple" in bases:
            node.body = [
                self.visit(each) if isinstance(each, ast.FunctionDef) else each for each in node.body
            ]
            return node
        self.generic_visit(node)
        if bases == ["Protocol"]:
            node.bases = []
        node.body = node.body or [ast.Pass()]
        return node

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST | None:
        """What is given a value keeps it."""
        self.generic_visit(node)
        return ast.Assign([node.target], node.value) if node.value is not None else None

    def visit_Call(self, node: ast.Call) -> ast.AST:
        """A cast is what is cast."""
        self.generic_visit(node)
        if isinstance(node.func, ast.Name) and node.func.id == "cast" and len(node.args) == 2:
            return node.args[1]
        return node

    def visit_If(self, node: ast.If) -> ast.AST | list[ast.stmt] | None:
        """Nothing is type-checked where this runs."""
        self.generic_visit(node)
        if isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            return node.orelse or None
        node.body = node.body or [ast.Pass()]
        return node


def _forget(tree: ast.Module) -> None:
    """Take out what is imported from `_FOR_CHECKERS` and named nowhere any more, and variables of types."""
    tree.body = [each for each in tree.body if not _is_type_variable(each)]
    named = {each.id for each in ast.walk(tree) if isinstance(each, ast.Name)}
    body: list[ast.stmt] = []
    for each in tree.body:
        if isinstance(each, ast.ImportFrom) and each.module in _FOR_CHECKERS:
            each.names = [one for one in each.names if (one.asname or one.name) in named]
            if not each.names:
                continue
        body.append(each)
    tree.body = body


def _is_type_variable(node: ast.stmt) -> bool:
    value = node.value if isinstance(node, ast.Assign) else None
    return isinstance(value, ast.Call) and isinstance(value.func, ast.Name) and value.func.id == "TypeVar"
