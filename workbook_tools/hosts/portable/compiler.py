"""From a Python function's own source to formula text, SI in and SI out.

A catalog function is straight-line code: local names become LET bindings, `require` becomes
a check, a conditional expression IF, a call of another function a LAMBDA bound by LET, and
a table look-up a chain of IFs over the words that its parameter takes.

Everything is written so that it works element by element when a parameter is an array:
hence IF instead of AND, OR, NOT, MIN and MAX, which would fold an array into one value.
"""

from __future__ import annotations

import ast
import builtins
import inspect
import itertools
import math
import textwrap
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.hosts.portable.look_ups import by_number, by_words
from workbook_tools.hosts.portable.operations import (
    BLOCK_OPERATIONS,
    COMPARISONS,
    OPERATORS,
    SIMPLE_CALLS,
)
from workbook_tools.hosts.portable.terms import (
    ADD,
    ATOM,
    BAD,
    COMPARE,
    MULTIPLY,
    POWER,
    SIGN,
    Definition,
    NotPortable,
    Term,
    either,
    function_text,
    guarded,
    let,
    literal,
)

_REASONS: dict[type[ast.AST], str] = {
    ast.While: "it searches step by step until it has the result",
    ast.For: "it works through its values step by step",
    ast.FunctionDef: "it compares many combinations",
    ast.Lambda: "it compares many combinations",
    ast.ListComp: "it works through its values step by step",
    ast.GeneratorExp: "it works through its values step by step",
    ast.DictComp: "it works through its values step by step",
    ast.Try: "it tries one way and falls back on another",
}
_LONGEST_CHAIN = 50  # of nested IFs; a worksheet ends at 64 levels in all


def _refusal(node: ast.AST) -> NotPortable:
    return NotPortable(f"it uses {ast.unparse(node)[:60]!r}, which has no worksheet formula")


def _statements(python: Callable[..., Any]) -> list[ast.stmt]:
    """The body of a function. Raises NotPortable where it is not straight on."""
    try:
        tree = ast.parse(textwrap.dedent(inspect.getsource(python)))
    except (OSError, TypeError):
        raise NotPortable(f"{python.__name__} has no Python source") from None
    function = tree.body[0]
    if not isinstance(function, ast.FunctionDef):
        raise _refusal(function)
    for node in ast.walk(ast.Module(function.body, [])):
        if type(node) in _REASONS:
            raise NotPortable(_REASONS[type(node)])
    return function.body


class Body:
    """One Python function's body as LET bindings, checks and a result, or rows of them."""

    def __init__(
        self, definition: Definition, python: Callable[..., Any], names: Mapping[str, Term]
    ) -> None:
        self.definition = definition
        self.names = dict(names)
        self.scope: dict[str, Any] = {**vars(builtins), **python.__globals__}
        self.bindings: list[tuple[str, str]] = []
        self.checks: list[str] = []
        # What a function without a return gives: its checks are what it is for.
        self.result = Term("TRUE")
        self.rows: list[list[Term]] = []
        for statement in _statements(python):
            self._statement(statement)

    def text(self) -> str:
        """The whole body as one formula text. Raises NotPortable for a result of rows."""
        if self.rows:
            raise NotPortable("it uses a function that gives several values")
        return let(self.bindings, guarded(self.checks, self.result.text))

    # Statements

    def _statement(self, node: ast.stmt) -> None:
        match node:
            case ast.Expr(value=ast.Constant()):
                return
            case ast.Expr(value=ast.Call() as call):
                self.checks.append(self._check(call))
            case ast.Assign(targets=[ast.Name(id=name)], value=value):
                self._assign(name, value)
            case ast.Assign(targets=[ast.Tuple(elts=targets)], value=ast.Tuple(elts=values)) if len(
                targets
            ) == len(values):
                terms = [self.term(value) for value in values]
                for target, term in zip(targets, terms, strict=True):
                    if not isinstance(target, ast.Name):
                        raise _refusal(node)
                    self.names[target.id] = self._bound(target.id, term)
            case ast.AnnAssign(target=ast.Name(id=name), value=ast.expr() as value):
                self._assign(name, value)
            case ast.Return(value=ast.Tuple(elts=rows)):
                self.rows = [self._row(row) for row in rows]
            case ast.Return(value=ast.expr() as value):
                self.result = self.term(value)
            case _:
                raise _refusal(node)

    def _row(self, node: ast.expr) -> list[Term]:
        if not isinstance(node, ast.Tuple):
            raise _refusal(node)
        return [self.term(cell) for cell in node.elts]

    def _assign(self, name: str, node: ast.expr) -> None:
        self.names[name] = self._bound(name, self.term(node))

    def _bound(self, name: str, term: Term) -> Term:
        if term.known or term.text in (t.text for t in self.names.values() if t.words):
            return term
        if term.omitted:
            raise NotPortable("it keeps an argument that may be missing under another name")
        stored = self.definition.fresh(name)
        self.bindings.append((stored, term.text))
        return Term(stored, words=term.words, is_text=term.is_text)

    def _check(self, call: ast.Call) -> str:
        """A statement that refuses the call: `require`, or a function that holds some."""
        if self._callee(call) is require:
            return self.term(call.args[0]).at_least(POWER)
        return self.term(call).at_least(POWER)

    # Expressions

    def term(self, node: ast.expr) -> Term:
        """An expression as formula text."""
        match node:
            case ast.Constant(value=value):
                return literal(value)
            case ast.Name(id=name):
                return self._name(name, node)
            case ast.UnaryOp(op=op, operand=operand):
                return self._signed(op, self.term(operand), node)
            case ast.BinOp(left=left, op=op, right=right):
                return self._operation(self.term(left), op, self.term(right), node)
            case ast.BoolOp(op=op, values=values):
                return self._joined([self.term(v) for v in values], isinstance(op, ast.And))
            case ast.Compare(left=left, ops=ops, comparators=others):
                return self._comparison([left, *others], ops, node)
            case ast.IfExp(test=test, body=body, orelse=orelse):
                return self._choice(self.term(test), body, orelse)
            case ast.Call():
                return self._call(node)
            case ast.Attribute() | ast.Subscript():
                return self._constant(node)
            case _:
                raise _refusal(node)

    def _name(self, name: str, node: ast.expr) -> Term:
        if name in self.names:
            return self.names[name]
        if isinstance(self.scope.get(name), (int, float, str)):
            return literal(self.scope[name])
        raise _refusal(node)

    def _signed(self, op: ast.unaryop, term: Term, node: ast.expr) -> Term:
        if isinstance(op, ast.USub):
            return Term(f"-{term.at_least(ATOM)}", SIGN)
        if isinstance(op, ast.Not):
            return Term(either(term.text, "FALSE", "TRUE"))
        if isinstance(op, ast.UAdd):
            return term
        raise _refusal(node)

    def _operation(self, left: Term, op: ast.operator, right: Term, node: ast.expr) -> Term:
        if isinstance(op, ast.Pow):
            return Term(f"{left.at_least(ATOM)}^{right.at_least(ATOM)}", POWER)
        if isinstance(op, ast.Mod):
            return Term(f"MOD({left.text},{right.text})")
        if isinstance(op, ast.FloorDiv):
            return Term(f"INT({left.at_least(MULTIPLY)}/{right.at_least(POWER)})")
        if type(op) not in OPERATORS:
            raise _refusal(node)
        sign, binds = OPERATORS[type(op)]
        if isinstance(op, ast.Add) and (left.is_text or right.is_text):
            return Term(f"{left.at_least(ADD)}&{right.at_least(ADD)}", COMPARE, is_text=True)
        # The right side in parentheses where it binds alike: the order of rounding is kept.
        return Term(f"{left.at_least(binds)}{sign}{right.at_least(binds + 1)}", binds)

    def _joined(self, terms: Sequence[Term], every: bool) -> Term:
        text = terms[-1].text
        for term in reversed(terms[:-1]):
            text = either(term.text, text, "FALSE") if every else either(term.text, "TRUE", text)
        return Term(text)

    def _comparison(
        self, nodes: Sequence[ast.expr], ops: Sequence[ast.cmpop], node: ast.expr
    ) -> Term:
        if isinstance(ops[0], (ast.Is, ast.IsNot)) and len(ops) == 1:
            return self._is_none(self.term(nodes[0]), nodes[1], isinstance(ops[0], ast.Is), node)
        if isinstance(ops[0], (ast.In, ast.NotIn)) and len(ops) == 1:
            return self._is_one_of(self.term(nodes[0]), nodes[1], isinstance(ops[0], ast.In), node)
        terms = [self.term(n) for n in nodes]
        parts = []
        for left, op, right in zip(terms, ops, terms[1:], strict=False):
            if type(op) not in COMPARISONS:
                raise _refusal(node)
            text = f"{left.at_least(ADD)}{COMPARISONS[type(op)]}{right.at_least(ADD)}"
            parts.append(Term(text, COMPARE))
        return parts[0] if len(parts) == 1 else self._joined(parts, every=True)

    def _is_none(self, term: Term, other: ast.expr, wanted: bool, node: ast.expr) -> Term:
        if not (isinstance(other, ast.Constant) and other.value is None):
            raise _refusal(node)
        if term.omitted:
            test = Term(term.omitted)
            return test if wanted else Term(either(test.text, "FALSE", "TRUE"))
        return literal((term.known and term.constant is None) is wanted)

    def _is_one_of(self, term: Term, other: ast.expr, wanted: bool, node: ast.expr) -> Term:
        if not isinstance(other, (ast.Tuple, ast.List, ast.Set)):
            raise _refusal(node)
        tests = [
            Term(f"{term.at_least(ADD)}={self.term(o).at_least(ADD)}", COMPARE) for o in other.elts
        ]
        found = self._joined(tests, every=False)
        return found if wanted else Term(either(found.text, "FALSE", "TRUE"))

    def _choice(self, test: Term, body: ast.expr, orelse: ast.expr) -> Term:
        if test.known:
            return self.term(body if test.constant else orelse)
        first, other = self.term(body), self.term(orelse)
        text = either(test.text, first.text, other.text)
        return Term(text, is_text=first.is_text and other.is_text)

    # Calls and look-ups

    def _callee(self, call: ast.Call) -> Callable[..., Any]:
        if isinstance(call.func, ast.Attribute) and ast.unparse(call.func.value) in self.names:
            raise NotPortable("it takes a text apart")
        try:
            found = eval(ast.unparse(call.func), self.scope)
        except (NameError, AttributeError):
            raise _refusal(call) from None
        if not callable(found):
            raise _refusal(call)
        python: Callable[..., Any] = inspect.unwrap(found)
        return python

    def _call(self, node: ast.Call) -> Term:
        python = self._callee(node)
        if python in (min, max, sum):
            return self._fold(python, self._listed(node))
        if python in BLOCK_OPERATIONS or python in SIMPLE_CALLS:
            terms = [self.term(a) for a in node.args]
            form = BLOCK_OPERATIONS.get(python) or SIMPLE_CALLS[python]
            if node.keywords or (python is math.log and len(terms) != 1):
                raise _refusal(node)
            return Term(form.format(*(t.text for t in terms)))
        if not inspect.isfunction(python):
            raise _refusal(node)
        signature = inspect.signature(python)
        bound = signature.bind(
            *(self.term(a) for a in node.args),
            **{str(k.arg): self.term(k.value) for k in node.keywords},
        )
        if python.__module__ == tables.__name__:
            return self._look_up(python, bound)
        arguments = {
            p.name: bound.arguments.get(p.name) or literal(p.default)
            for p in signature.parameters.values()
        }
        return self._inner(python, arguments)

    def _inner(self, python: Callable[..., Any], arguments: Mapping[str, Term]) -> Term:
        """A call of another Python function, which is bound as a LAMBDA where first called.

        What the compiler knows of an argument (its words, its value) makes a LAMBDA of its
        own, since table look-ups in it depend on that.
        """
        if python in self.definition.open:
            raise NotPortable("it calls itself until it has the result")
        if any(term.omitted for term in arguments.values()):
            raise NotPortable("it hands on an argument that may be missing")
        passed = {name: term for name, term in arguments.items() if not term.known}

        def make() -> str:
            inside = {
                name: Term(self.definition.fresh(name), words=term.words, is_text=term.is_text)
                for name, term in passed.items()
            }
            self.definition.open.append(python)
            body = Body(self.definition, python, {**arguments, **inside})
            self.definition.open.pop()
            return function_text([term.text for term in inside.values()], body.text())

        name = self.definition.shared(
            (python, _what_is_known(arguments)), f"f_{python.__name__.strip('_')}", make
        )
        return _applied(name, passed)

    def _listed(self, node: ast.Call) -> list[Term]:
        """The values that min, max or sum is called with, as arguments or as one tuple."""
        values = node.args
        if len(values) == 1 and isinstance(values[0], (ast.Tuple, ast.List)):
            values = values[0].elts
        if node.keywords or len(values) < 2 or any(isinstance(v, ast.Starred) for v in values):
            raise _refusal(node)
        return [self.term(v) for v in values]

    def _fold(self, python: Callable[..., Any], terms: Sequence[Term]) -> Term:
        if python is sum:
            rest = "".join(f"+{t.at_least(MULTIPLY)}" for t in terms[1:])
            return Term(terms[0].at_least(ADD) + rest, ADD)
        sign = "<" if python is min else ">"
        best = terms[0]
        for other in terms[1:]:
            # Both stand twice in the IF; a longer text is bound to a name first.
            left, right = (self._short(t) for t in (best, other))
            test = f"{right.at_least(ADD)}{sign}{left.at_least(ADD)}"
            best = Term(either(test, right.text, left.text))
        return best

    def _short(self, term: Term) -> Term:
        return term if len(term.text) < 24 else self._bound("part", term)

    def _constant(self, node: ast.expr) -> Term:
        """A constant of another module, such as math.pi."""
        try:
            return literal(eval(ast.unparse(node), self.scope))
        except (NameError, AttributeError):
            raise _refusal(node) from None

    def _look_up(self, python: Callable[..., Any], bound: inspect.BoundArguments) -> Term:
        """A look-up in the tables: what it gives for each of the words, as a chain of IFs."""
        terms = {**bound.arguments, **bound.arguments.get("conditions", {})}
        terms.pop("conditions", None)
        free = {name: term for name, term in terms.items() if not term.known}
        if not all(term.words for term in free.values()):
            raise NotPortable("it looks up a name in a table that can be any text")
        if sum(len(term.words) for term in free.values()) > _LONGEST_CHAIN:
            raise NotPortable("its table has too many rows for one formula")
        constants = {name: term.constant for name, term in terms.items() if term.known}

        def value(words: Sequence[str]) -> Term:
            try:
                return literal(python(**constants, **dict(zip(free, words, strict=True))))
            except (ArithmeticError, LookupError, ValueError):
                return Term(BAD)

        rows = {
            words: value(words) for words in itertools.product(*(t.words for t in free.values()))
        }
        if len({row.text for row in rows.values()}) == 1:
            return next(iter(rows.values()))

        def make() -> str:
            stored = [self.definition.fresh(name) for name in free]
            numbered = len(free) == 1 and all(isinstance(words[0], int) for words in rows)
            text = by_number(stored[0], rows) if numbered else by_words(stored, rows)
            return function_text(stored, text)

        name = self.definition.shared((python, _what_is_known(terms)), f"f_{python.__name__}", make)
        found = {row.constant for row in rows.values() if row.known}
        texts = all(isinstance(value, str) for value in found)
        numbers = tuple(sorted(found)) if {type(value) for value in found} == {int} else ()
        return replace(_applied(name, free), is_text=texts, words=numbers)


def _what_is_known(arguments: Mapping[str, Term]) -> tuple[object, ...]:
    return tuple((n, t.words, t.text if t.known else "") for n, t in arguments.items())


def _applied(name: str, arguments: Mapping[str, Term]) -> Term:
    """A bound LAMBDA applied to arguments; a bound value where there are none."""
    given = ",".join(term.text for term in arguments.values())
    return Term(f"{name}({given})" if given else name)
