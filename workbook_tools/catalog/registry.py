"""The catalog's registry: a Python function becomes a worksheet function in one place.

The decorator reads everything from the function itself: name and parameters from its
signature, kinds and limits from its annotations, texts from its docstring. Hosts, batch,
reference and help are derived from the entry; nothing is written twice.
"""

from __future__ import annotations

import inspect
import math
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, cached_property
from typing import Annotated, Any, TypeVar, get_args, get_origin, get_type_hints

from workbook_tools.catalog.kinds import (
    ANY,
    Block,
    CellItself,
    Choice,
    Limits,
    Measured,
    Note,
    Sizes,
)
from workbook_tools.quantities import TEMPERATURE, TEXT, Kind

PREFIX = "ENG"


class _Required:
    """Marks a parameter without a default."""

    def __repr__(self) -> str:
        return "REQUIRED"


REQUIRED = _Required()


@dataclass(frozen=True)
class Parameter:
    """One parameter of a worksheet function.

    default: the value in SI that stands in for an omitted argument, or REQUIRED.
    choices: the words a text parameter takes, () for any text or no text.
    sizes: what an engine can have of it, where the limits do not say so.
    block: whether it takes a whole range at once; any other parameter given a range is
    worked through element by element. cell: whether it is given the cell itself.
    """

    name: str
    kind: Kind
    help: str
    limits: Limits = ANY
    sizes: Limits = ANY
    choices: tuple[str, ...] = ()
    block: bool = False
    default: object = REQUIRED
    measurand: str = ""
    cell: bool = False

    @property
    def optional(self) -> bool:
        """Whether the argument may be left out."""
        return self.default is not REQUIRED

    def is_possible(self, value: float) -> bool:
        """Whether an engine can have a value, in SI, that keeps the limits."""
        return value == 0 or self.sizes.hold(value)

    @property
    def sign(self) -> str:
        """What signs the parameter takes, in words; "" for texts and blocks."""
        if self.kind is TEXT or self.block:
            return ""
        if self.kind is TEMPERATURE:
            return "either sign"  # The limits are absolute, the scales in a book are not.
        if not self.limits.allow_zero:
            return "above zero" if self.limits.low >= 0 else "below zero"
        return "zero or above" if self.limits.low == 0 else "either sign"


@dataclass(frozen=True)
class Function:
    """A worksheet function: the catalog entry made from one Python function.

    name: without the prefix ("QUENCH"); takes_units: whether a last, optional parameter
    `units` follows the declared ones; most_result: in SI, beyond it to either side an argument
    must be a slip, however possible each is alone; the texts come from the docstring's sections.
    """

    name: str
    section: str
    summary: str
    parameters: tuple[Parameter, ...]
    result: Kind
    most_result: float
    result_help: str
    result_block: bool
    equation: str
    validity: str
    source: str
    caution: str
    takes_units: bool
    python: Callable[..., Any]
    measurand: str = ""

    @cached_property
    def full_name(self) -> str:
        """The name as typed in a formula: ENG.QUENCH."""
        return f"{PREFIX}.{self.name}"

    @cached_property
    def sees_cell(self) -> bool:
        """Whether it is told of a cell itself, with its formula, which only a host can do."""
        return any(p.cell for p in self.parameters)

    @cached_property
    def required(self) -> int:
        """How many arguments cannot be left out."""
        return sum(not p.optional for p in self.parameters)

    @property
    def most(self) -> int:
        """How many arguments there can be, `units` included."""
        return len(self.parameters) + self.takes_units

    @property
    def signature(self) -> str:
        """The call as help shows it, optional arguments in brackets."""
        names = [f"[{p.name}]" if p.optional else p.name for p in self.parameters]
        if self.takes_units:
            names.append("[units]")
        return f"{self.full_name}({', '.join(names)})"


UNITS_HELP = 'Unit system of bare numbers: "inch" (if left out) or "metric".'

_functions: dict[str, Function] = {}
_F = TypeVar("_F", bound=Callable[..., Any])
_CELL_REFERENCE = re.compile(r"[A-Z]{1,3}[0-9]+|R[0-9]*C[0-9]*")
_SECTIONS = ("Parameters", "Returns", "Equation", "Validity", "Source", "Caution")


def _sections(python: Callable[..., Any]) -> dict[str, str]:
    """The docstring cut at its underlined headings; the summary under ""."""
    text = inspect.getdoc(python) or ""
    parts = re.split(r"^(\w+)\n-{3,}\n", text, flags=re.MULTILINE)
    found = {"": parts[0].strip()}
    for title, body in zip(parts[1::2], parts[2::2], strict=True):
        if title not in _SECTIONS:
            raise ValueError(f"{python.__name__}: no docstring section is called {title!r}")
        found[title] = body.strip()
    for title in ("", "Equation", "Source"):
        if not found.get(title):
            raise ValueError(f"{python.__name__}: the docstring lacks its {title or 'summary'}")
    return found


def _parameter_help(body: str) -> dict[str, str]:
    """{parameter: help} from a docstring's Parameters: a name, then indented lines."""
    parts = re.split(r"^(\w+)\n(?=[ \t])", body, flags=re.MULTILINE)
    return {
        name: " ".join(text.split()) for name, text in zip(parts[1::2], parts[2::2], strict=True)
    }


def _first(metadata: tuple[Any, ...], wanted: type[Any]) -> Any:
    return next((m for m in metadata if isinstance(m, wanted)), None)


@dataclass(frozen=True)
class _Typed:
    """What a type of the catalog says: kind, limits, what it measures, and that in words.

    heading: what the measurand is called, "" where the type names none; more: sentences on
    its sign, and the type's own note.
    """

    kind: Kind
    limits: Limits
    sizes: Limits
    measurand: str
    heading: str
    more: str
    choices: tuple[str, ...]
    block: bool
    cell: bool


def _hints(python: Callable[..., Any]) -> dict[str, Any]:
    """The annotations of a function, as they are meant.

    Most are a plain name of their module, and to look that up is far quicker than to compile it.
    """
    scope = python.__globals__
    named = {name: scope.get(text) for name, text in python.__annotations__.items()}
    return get_type_hints(python, include_extras=True) if None in named.values() else named


def _typed(hint: Any, where: str) -> _Typed:
    """What a parameter's or result's type says; what is named beside a measurand goes first."""
    typed = _said_by(hint)
    if typed is None:
        raise TypeError(f"{where}: expected a type of the catalog, got {hint!r}")
    return typed


# The types that name a measurand are each of several parameters.
@cache
def _said_by(hint: Any) -> _Typed | None:
    """What a type of the catalog says, None for any other type."""
    metadata = get_args(hint)[1:] if get_origin(hint) is Annotated else ()
    measured: Measured | None = _first(metadata, Measured)
    kind = _first(metadata, Kind) or (measured.kind if measured else None)
    if kind is None:
        return None
    choice: Choice | None = _first(metadata, Choice)
    limits: Limits | None = _first(metadata, Limits)
    note: Note | None = _first(metadata, Note)
    return _Typed(
        kind=kind,
        limits=limits or (measured.limits if measured else ANY),
        sizes=_sizes(measured.sizes, _first(metadata, Sizes), limits or ANY) if measured else ANY,
        measurand=measured.name if measured else "",
        heading=measured.heading if measured else "",
        more=" ".join(filter(None, (measured.sign if measured else "", note.text if note else ""))),
        choices=choice.words if choice else (),
        block=_first(metadata, Block) is not None,
        cell=_first(metadata, CellItself) is not None,
    )


def _sizes(table: Limits, own: Sizes | None, limits: Limits) -> Limits:
    """What an engine can have: an end that the type or its limits name goes before the table's."""
    low = table.low if math.isinf(limits.low) else -math.inf
    high = table.high if math.isinf(limits.high) else math.inf
    if own is not None:
        low = low if own.low is None else own.low
        high = high if own.high is None else own.high
    return Limits(low, high)


def _most(result: _Typed) -> float:
    """How far from zero a result can be."""
    low, high = (
        own if math.isfinite(own) else of_engine
        for own, of_engine in (
            (result.limits.low, result.sizes.low),
            (result.limits.high, result.sizes.high),
        )
    )
    return max(abs(low), abs(high))


def _help(typed: _Typed, text: str) -> str:
    """The help of a value: what it measures, then the docstring's words.

    These go on with what it is called where they begin in lower case.
    """
    if typed.heading and text[:1].islower():
        return " ".join(filter(None, (f"{typed.heading} {text}", typed.more)))
    heading = f"{typed.heading}." if typed.heading else ""
    return " ".join(filter(None, (heading, typed.more, text)))


def _parameter(
    python: Callable[..., Any], item: inspect.Parameter, hint: Any, text: str
) -> Parameter:
    where = f"{python.__name__}, {item.name}"
    typed = _typed(hint, where)
    if _CELL_REFERENCE.fullmatch(item.name.upper()):
        raise ValueError(f"{python.__name__}: {item.name} reads as a cell reference")
    help_text = _help(typed, text)
    if not help_text:
        raise ValueError(f"{where}: neither its type nor the docstring says what it is")
    return Parameter(
        name=item.name,
        kind=typed.kind,
        help=help_text,
        limits=typed.limits,
        sizes=typed.sizes,
        choices=typed.choices,
        block=typed.block,
        default=REQUIRED if item.default is inspect.Parameter.empty else item.default,
        measurand=typed.measurand,
        cell=typed.cell,
    )


def worksheet_function(section: str) -> Callable[[_F], _F]:
    """Enter a Python function in the catalog, under its own name in upper case.

    section: the heading it stands under in the reference and on summaries. The function
    stays what it was: SI floats in, SI floats out. Raises ValueError or TypeError at
    import where a text, a kind or a usable name is missing.
    """

    def enter(python: _F) -> _F:
        name = python.__name__.upper()
        if name in _functions:
            raise ValueError(f"{name} is in the catalog already")
        if not re.fullmatch(r"[A-Z][A-Z_]*[A-Z]", name):
            raise ValueError(f"{name}: expected letters and _ only, no digit")
        texts = _sections(python)
        helps = _parameter_help(texts.get("Parameters", ""))
        hints = _hints(python)
        signature = inspect.signature(python)
        if list(helps) != [p for p in signature.parameters if p in helps]:
            raise ValueError(
                f"{name}: the docstring describes {list(helps)}, "
                f"the function takes {list(signature.parameters)}"
            )
        parameters = tuple(
            _parameter(python, item, hints[item.name], helps.get(item.name, ""))
            for item in signature.parameters.values()
        )
        result = _typed(hints["return"], f"{name}, result")
        returns = " ".join(texts.get("Returns", "").split())
        kinds = [p.kind for p in parameters] + [result.kind]
        _functions[name] = Function(
            name=name,
            section=section,
            summary=" ".join(texts[""].split("\n\n")[0].split()),
            parameters=parameters,
            result=result.kind,
            most_result=_most(result),
            result_help=_help(result, returns),
            result_block=result.block,
            equation=texts["Equation"],
            validity=" ".join(texts.get("Validity", "").split()),
            source=" ".join(texts["Source"].split()),
            caution=" ".join(texts.get("Caution", "").split()),
            takes_units=any(k.has_units or k.name == "reading" for k in kinds),
            python=python,
            measurand=result.measurand,
        )
        return python

    return enter


def entries() -> Iterator[Function]:
    """The catalog's functions, in the order in which they were written down."""
    return iter(_functions.values())


def entry(name: str) -> Function | None:
    """The function of this bare, upper-case name, or None."""
    return _functions.get(name)
