"""How one measurand stands to others: below another, a formula of others, a ratio to another."""

from __future__ import annotations

import ast
import math
import operator
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from operator import itemgetter
from typing import Any, Literal

_BESIDE = re.compile(r"(?P<relation>[<>]) (?P<other>[a-z_]+)(?P<doubted> doubted)?")
_RATIO = re.compile(r"/ (?P<other>[a-z_]+) in (?P<low>[\d.]+) (?P<high>[\d.]+)")
_FORMULA = re.compile(r"= (?P<formula>.+)")

_OPERATORS: Mapping[type[ast.AST], Callable[..., Any]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
    ast.USub: operator.neg,
}


@dataclass(frozen=True)
class Order:
    """One rule of a measurand: `relation` to `other`, or equal to `formula`.

    relation: "<" or ">" (strict), "/" (ratio to the other within low to high) or "=".
    other: an id, or a property whose member of the same part or side is meant. formula: of
    ids and properties, in SI with angles in radians. doubted: a breach is doubted and not
    refused; a ratio always is.
    """

    relation: Literal["<", ">", "/", "="]
    other: str = ""
    formula: str = ""
    low: float = 0.0
    high: float = math.inf
    doubted: bool = False

    @property
    def names(self) -> tuple[str, ...]:
        """The measurands or properties that the rule is about, in the order of the rule."""
        return formula_names(self.formula) if self.formula else (self.other,)

    @property
    def is_difference(self) -> bool:
        """Whether it is one measurand less another: "bore - piston_diameter"."""
        return len(self.names) == 2 and self.formula == " - ".join(self.names)


def parse_order(text: str) -> Order:
    """The rule that a text writes. Raises ValueError where it writes none."""
    if found := _BESIDE.fullmatch(text):
        relation: Literal["<", ">"] = "<" if found["relation"] == "<" else ">"
        return Order(relation, found["other"], doubted=bool(found["doubted"]))
    if found := _RATIO.fullmatch(text):
        low, high = float(found["low"]), float(found["high"])
        if not low < high:
            raise ValueError(f"order {text!r}: the ratio's limits are not in rising order")
        return Order("/", found["other"], low=low, high=high, doubted=True)
    if found := _FORMULA.fullmatch(text):
        if not formula_names(found["formula"]):
            raise ValueError(f"order {text!r}: the formula names no measurand")
        return Order("=", formula=found["formula"])
    raise ValueError(
        f'order {text!r}: expected "< name", "> name", "/ name in low high" or "= formula"'
    )


@lru_cache(maxsize=1024)
def _tree(formula: str) -> ast.expr:
    try:
        return ast.parse(formula, mode="eval").body
    except SyntaxError as error:
        raise ValueError(f"formula {formula!r}: {error.msg}") from error


@lru_cache(maxsize=1024)
def formula_names(formula: str) -> tuple[str, ...]:
    """The names that a formula uses, each once. Raises ValueError where it is no formula."""
    nodes = [n for n in ast.walk(_tree(formula)) if isinstance(n, ast.Name) and n.id != "pi"]
    nodes.sort(key=lambda node: node.col_offset)
    return tuple(dict.fromkeys(node.id for node in nodes))


def evaluate(formula: str, values: Mapping[str, Any]) -> Any:
    """A formula's value for values of its names: numbers in SI, or anything that reckons.

    Raises KeyError for a name without a value, ValueError for what no formula may hold.
    """
    return _reckoning(formula)(values)


_Reckoning = Callable[[Mapping[str, Any]], Any]


@lru_cache(maxsize=1024)
def _reckoning(formula: str) -> _Reckoning:
    """A formula as a function, which is asked of many lines."""
    return _of_node(_tree(formula), formula)


def _of_node(node: ast.expr, formula: str) -> _Reckoning:
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        number = node.value
        return lambda _: number
    if isinstance(node, ast.Name):
        return (lambda _: math.pi) if node.id == "pi" else itemgetter(node.id)
    if isinstance(node, ast.UnaryOp) and type(node.op) in _OPERATORS:
        one, operand = _OPERATORS[type(node.op)], _of_node(node.operand, formula)
        return lambda values: one(operand(values))
    if isinstance(node, ast.BinOp) and type(node.op) in _OPERATORS:
        two = _OPERATORS[type(node.op)]
        left, right = _of_node(node.left, formula), _of_node(node.right, formula)
        return lambda values: two(left(values), right(values))
    raise ValueError(f"formula {formula!r}: expected names, numbers and + - * / **")
