"""What the checks against outside sources notice: each function changed in one place at a time.

    python tests/mutated_functions.py [NAME ...]

Operators are exchanged, figures made 7 % larger, comparisons turned round, in the function
itself and in what it calls of its own module, and defaults moved. For each change the checks of
that function which rest on a printed value, open data or an independent method run again. A
change that none of them notices is printed; so is a function without such checks.
"""

from __future__ import annotations
import __future__

import ast
import copy
import dataclasses
import inspect
import signal
import sys
import textwrap
import types
from collections import defaultdict
from collections.abc import Iterator

import pytest
from _pytest.runner import runtestprotocol

sys.path.insert(0, "tests")
from conftest import COMPARED
from sources import OUTSIDE

from workbook_tools.catalog import Function, entries, registry

PATIENCE = 20  # Seconds; the slowest check takes two.
ANNOTATIONS = __future__.annotations.compiler_flag
OTHER = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult,
    ast.Lt: ast.GtE, ast.GtE: ast.Lt, ast.Gt: ast.LtE, ast.LtE: ast.Gt, ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
}  # fmt: skip


def places(tree: ast.AST) -> Iterator[ast.AST]:
    """Nodes that can be changed: not docstrings, limits, annotations or words."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            continue
        if isinstance(node, (ast.arguments, ast.Raise)):
            continue
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "require":
            continue
        if _changeable(node):
            yield node
        yield from places(node)


def _changeable(node: ast.AST) -> bool:
    if isinstance(node, ast.BinOp):
        return type(node.op) in OTHER
    if isinstance(node, ast.Compare):
        return type(node.ops[0]) in OTHER
    if isinstance(node, ast.Constant):
        return isinstance(node.value, (int, float)) and not isinstance(node.value, bool)
    return isinstance(node, ast.IfExp) or (
        isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub)
    )


def change(node: ast.AST) -> str:
    """Change a node in place; returns what it was, with its line."""
    before = ast.unparse(node)
    match node:
        case ast.BinOp():
            node.op = OTHER[type(node.op)]()
        case ast.Compare():
            node.ops[0] = OTHER[type(node.ops[0])]()
        case ast.Constant():
            node.value = node.value * 1.07 if node.value else 0.07
        case ast.IfExp():
            node.body, node.orelse = node.orelse, node.body
        case ast.UnaryOp():
            node.op = ast.UAdd()
    return f"{before}  ->  {ast.unparse(node)}"


def _compiled(tree: ast.Module, name: str, room: dict[str, object]) -> object:
    made: dict[str, object] = {}
    code = compile(tree, f"<changed {name}>", "exec", flags=ANNOTATIONS, dont_inherit=True)
    exec(code, room, made)
    return made[name]


def _tree(python: types.FunctionType) -> ast.Module:
    tree = ast.parse(textwrap.dedent(inspect.getsource(python)))
    tree.body[0].decorator_list = []  # type: ignore[attr-defined]
    return tree


def _helpers(python: types.FunctionType) -> list[types.FunctionType]:
    """Functions of the same module that it calls and that are in no catalog."""
    found = (python.__globals__.get(name) for name in python.__code__.co_names)
    return [
        f for f in found
        if isinstance(f, types.FunctionType)
        and f.__module__ == python.__module__
        and f.__name__.upper() not in registry._functions
    ]  # fmt: skip


def mutants(function: Function) -> Iterator[tuple[str, Function]]:
    """(what was changed, the function with that change)."""
    python = function.python
    for part in (python, *_helpers(python)):
        count = len(list(places(_tree(part))))
        for number in range(count):
            tree = _tree(part)
            node = list(places(tree))[number]
            said = f"{part.__name__}, line {node.lineno}: {change(node)}"
            room = dict(python.__globals__)
            changed = _compiled(ast.fix_missing_locations(tree), part.__name__, room)
            if part is not python:
                room[part.__name__] = changed
                changed = _compiled(_tree(python), python.__name__, room)
            yield said, dataclasses.replace(function, python=changed)
    for number, parameter in enumerate(function.parameters):
        given = parameter.default
        if isinstance(given, (int, float)) and given and not isinstance(given, bool):
            moved = list(copy.copy(function.parameters))
            moved[number] = dataclasses.replace(parameter, default=given * 1.07)
            said = f"default of {parameter.name}, {given:g}"
            yield said, dataclasses.replace(function, parameters=tuple(moved))


class Mutations:
    """Runs each test once, then those of a function for each of its mutants."""

    def __init__(self, names: list[str]) -> None:
        self.names = names
        self.survived: list[str] = []
        self.tried = 0

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        tests: dict[str, list[pytest.Item]] = defaultdict(list)
        for item in session.items:
            assert all(r.passed for r in self._run(item)), f"{item.nodeid} fails as it is"
            for name in sorted({row[0] for row in self._rows(item) if row[-1] in OUTSIDE}):
                tests[name].append(item)
        for function in list(entries()):
            if not self.names or function.name in self.names:
                self._try(function, tests[function.name])
        return True

    def _try(self, function: Function, items: list[pytest.Item]) -> None:
        if not items:
            self.survived.append(f"{function.name}: no check to notice anything")
            return
        # Where one check noticed the last change it likely notices the next.
        for said, mutant in mutants(function):
            self.tried += 1
            registry._functions[function.name] = mutant
            noticed = next((i for i in items if self._noticed(i)), None)
            if noticed is None:
                self.survived.append(f"{function.name}: {said}")
                print(f"  not noticed: {said}", file=sys.stderr, flush=True)
            else:
                items.remove(noticed)
                items.insert(0, noticed)
        registry._functions[function.name] = function
        print(f"{function.name}: {self.tried} changes so far", file=sys.stderr, flush=True)

    def _noticed(self, item: pytest.Item) -> bool:
        # A search that no longer ends is noticed too.
        signal.alarm(PATIENCE)
        reports = self._run(item)
        signal.alarm(0)
        if all(report.passed for report in reports):
            return False
        rows = self._rows(item)
        return not rows or rows[-1][-1] in OUTSIDE

    @staticmethod
    def _run(item: pytest.Item) -> list[pytest.TestReport]:
        item.user_properties.clear()
        return runtestprotocol(item, log=False, nextitem=None)

    @staticmethod
    def _rows(item: pytest.Item) -> list[tuple[str, ...]]:
        return [row for name, row in item.user_properties if name == COMPARED]


def _give_up(*_: object) -> None:
    raise TimeoutError


def main() -> int:
    """Print what no check noticed."""
    signal.signal(signal.SIGALRM, _give_up)
    mutations = Mutations(sys.argv[1:])
    pytest.main(["tests/published", "-q", "-n", "0", "-p", "no:cacheprovider"], [mutations])
    print(f"{mutations.tried} changes, {len(mutations.survived)} not noticed:")
    print(*mutations.survived, sep="\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
