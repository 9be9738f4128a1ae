"""Data classes written out: what `@dataclass` would make at every start is written into the source instead.

Of the time that the core took to be read in the browser, three fifths went into making its data classes: each
compiles its own methods anew. The text that comes out means the same; `tests/builder/test_written_out.py`
holds it to that.
"""

from __future__ import annotations

import ast

from builder.say import Stop

HELPERS = "calc.records"
_KNOWN = {"frozen", "slots"}
_OF_HELPERS = {"replace", "fields", "is_dataclass"}


def written_out(source: str, name: str) -> str:
    """The module's source with its data classes written out; `name` is for complaints.

    Raises Stop where a data class is of a kind that this does not know.
    """
    if "dataclasses" not in source:
        return source
    tree = ast.parse(source)
    known: dict[str, list[ast.AnnAssign]] = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.ClassDef):
            _class(node, known, name)
    tree.body = [_imports(node, name) for node in tree.body]
    return ast.unparse(ast.fix_missing_locations(tree)) + "\n"


def _imports(node: ast.stmt, name: str) -> ast.stmt:
    if isinstance(node, ast.Import) and any(each.name == "dataclasses" for each in node.names):
        raise Stop(f"{name} imports dataclasses whole: import the names that are wanted.")
    if not isinstance(node, ast.ImportFrom) or node.module != "dataclasses":
        return node
    wanted = [each.name for each in node.names if each.name in _OF_HELPERS]
    unknown = {each.name for each in node.names} - _OF_HELPERS - {"dataclass", "field"}
    if unknown or any(each.asname for each in node.names):
        raise Stop(f"{name} takes from dataclasses what builder/written_out.py does not know: {unknown}")
    more = ("FRESH", "refused", "set_part", "shown")
    return ast.parse(f"from {HELPERS} import {', '.join([*more, *wanted])}").body[0]


def _class(node: ast.ClassDef, known: dict[str, list[ast.AnnAssign]], name: str) -> None:
    decorator = next((each for each in node.decorator_list if _is_dataclass(each)), None)
    if decorator is None:
        return
    words = decorator.keywords if isinstance(decorator, ast.Call) else []
    options = {each.arg: isinstance(each.value, ast.Constant) and each.value.value for each in words}
    if set(options) - _KNOWN or not options.get("slots"):
        raise Stop(
            f"{name}: {node.name} is a data class of a kind that builder/written_out.py does not know."
        )
    inherited: list[ast.AnnAssign] = []
    for base in node.bases:
        if not isinstance(base, ast.Name) or base.id not in known:
            raise Stop(f"{name}: {node.name} has a base that is no data class of the same module.")
        inherited += known[base.id]
    own = [each for each in node.body if isinstance(each, ast.AnnAssign)]
    known[node.name] = [*inherited, *own]
    made = {each.name for each in node.body if isinstance(each, ast.FunctionDef)}
    text = _methods(known[node.name], own, bool(options.get("frozen")), "__post_init__" in made)
    written = [each for each in ast.parse(text).body if not _is_there(each, made)]
    node.decorator_list.remove(decorator)
    others = [each for each in node.body if each not in own]
    # What is worked out once for a default may stand before it in the class.
    place = next((at for at, each in enumerate(others) if isinstance(each, ast.FunctionDef)), len(others))
    node.body = [*others[:place], *written, *others[place:]]


def _is_dataclass(decorator: ast.expr) -> bool:
    named = decorator.func if isinstance(decorator, ast.Call) else decorator
    return isinstance(named, ast.Name) and named.id == "dataclass"


def _is_there(node: ast.stmt, made: set[str]) -> bool:
    return isinstance(node, ast.FunctionDef) and node.name in made


def _methods(parts: list[ast.AnnAssign], own: list[ast.AnnAssign], frozen: bool, post_init: bool) -> str:
    names = [ast.unparse(each.target) for each in parts]
    asked, body = ["self"], []
    for name, part in zip(names, parts, strict=True):
        factory = _factory(part.value)
        if factory:
            asked.append(f"{name}=FRESH")
            body.append(f"if {name} is FRESH: {name} = ({factory})()")
        else:
            asked.append(name if part.value is None else f"{name}={ast.unparse(part.value)}")
        body.append(f"set_part(self, {name!r}, {name})" if frozen else f"self.{name} = {name}")
    if post_init:
        body.append("self.__post_init__()")
    mine, other = (", ".join(f"{of}.{name}" for name in names) for of in ("self", "other"))
    lines = [
        f"__slots__ = {tuple(ast.unparse(each.target) for each in own)!r}",
        f"__match_args__ = {tuple(names)!r}",
        "is_record = True",
        f"def __init__({', '.join(asked)}):",
        *(f"    {line}" for line in body or ["pass"]),
        "def __eq__(self, other):",
        "    if self is other: return True",
        "    if other.__class__ is not self.__class__: return NotImplemented",
        f"    return ({mine},) == ({other},)" if names else "    return True",
        "__repr__ = shown",
    ]
    if frozen:
        lines += [
            f"def __hash__(self): return hash(({mine},))" if names else "def __hash__(self): return hash(())",
            "__setattr__ = refused",
            "__delattr__ = refused",
        ]
    else:
        lines.append("__hash__ = None")
    return "\n".join(lines)


def _factory(default: ast.expr | None) -> str:
    """What makes the default anew each time, "" where nothing does."""
    if not isinstance(default, ast.Call) or ast.unparse(default.func) != "field":
        return ""
    (word,) = default.keywords
    if word.arg != "default_factory":
        raise Stop(f"A field's {word.arg} is not known to builder/written_out.py.")
    return ast.unparse(word.value)
