"""A worksheet function as a LAMBDA: what stands in cells in, the book's units out.

The rules of the edge are those of `calculate`, with one difference: a number written as text
("38 thou", "0.038") is an error here, since a worksheet formula cannot read it as surely.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache
from importlib.metadata import version

from workbook_tools import quantities
from workbook_tools.catalog import Function, Parameter, entries
from workbook_tools.catalog.kinds import Limits
from workbook_tools.hosts.portable.compiler import Body
from workbook_tools.hosts.portable.terms import (
    BAD,
    MULTIPLY,
    Definition,
    NotPortable,
    Term,
    either,
    function_text,
    guarded,
    let,
    literal,
)
from workbook_tools.quantities import COUNT, TEXT, Kind
from workbook_tools.quantities.noise import LAST, NOISE

MARK = f"workbook-tools {version('workbook-tools')}"
MARK_START = '"workbook-tools '
COMMENT_START = "[workbook-tools "
LONGEST_TEXT = 8000  # Excel takes 8,192 characters; some are left for what it adds itself.
LONGEST_COMMENT = 255


class _Edge:
    """The bindings at the edge of one function: its unit system and its arguments in SI."""

    def __init__(self, function: Function) -> None:
        self.definition = Definition()
        self.checks: list[str] = []
        self.declared: list[str] = []
        self._scales: dict[tuple[str, int], str] = {}
        self._metric = ""
        raws = [self.definition.fresh(p.name) for p in function.parameters]
        # Declared before anything else takes the names that a builder sees while typing.
        units_name = self.definition.fresh("units") if function.takes_units else ""
        self.definition.bind("made_by", literal(MARK).text)
        if units_name:
            self._metric = self.definition.bind("metric", _metric(units_name))
        self.arguments = {
            p.name: self._argument(p, raw) for p, raw in zip(function.parameters, raws, strict=True)
        }
        self.declared = [
            raw.replace("_xlpm.", "_xlop.") if p.optional else raw
            for p, raw in zip(function.parameters, raws, strict=True)
        ]
        if units_name:
            self.declared.append(units_name.replace("_xlpm.", "_xlop."))

    def scale(self, kind: Kind) -> tuple[str, str]:
        """The zero shift and the factor of a kind as formula text, "" where there is none."""
        inch, metric = quantities.scale(kind, "inch"), quantities.scale(kind, "metric")
        words = ("zero", "unit")
        shift, factor = (
            self._scale(kind, i, words[i], inch[i], metric[i], plain)
            for i, plain in ((0, 0.0), (1, 1.0))
        )
        return shift, factor

    def _scale(
        self, kind: Kind, i: int, word: str, inch: float, metric: float, plain: float
    ) -> str:
        if inch == metric:
            return "" if inch == plain else literal(inch).text
        key = (kind.name, i)
        if key not in self._scales:
            text = either(self._metric, literal(metric).text, literal(inch).text)
            self._scales[key] = self.definition.bind(f"{kind.name.replace(' ', '_')}_{word}", text)
        return self._scales[key]

    def _argument(self, parameter: Parameter, raw: str) -> Term:
        if parameter.kind is TEXT:
            text = f"LOWER(TRIM({raw}))" if parameter.choices else _any_text(raw)
        else:
            text = self._number(parameter, raw)
        omitted = f"_xlfn.ISOMITTED({raw})"
        if parameter.optional:
            text = either(omitted, literal(parameter.default).text, text)
        elif _holds_zero(parameter):
            # A place left empty between commas: Excel may count with it as 0.
            text = either(omitted, BAD, text)
        stored = self.definition.bind(f"{parameter.name}_si", text)
        self._limit(parameter, stored, omitted)
        is_none = parameter.optional and parameter.default is None
        return Term(stored, words=parameter.choices, omitted=omitted if is_none else "")

    def _number(self, parameter: Parameter, raw: str) -> str:
        shift, factor = self.scale(parameter.kind)
        text = f"({raw}+{shift})" if shift else raw
        text = f"{text}*{factor}" if factor else text
        # Numbers sort below every text, and an empty cell compares as the text "". Unlike
        # ISNUMBER this passes an error on as it is.
        other = either(f'{raw}=""', '""', BAD) if parameter.block else BAD
        return either(f'{raw}<""', text, other)

    def _limit(self, parameter: Parameter, stored: str, omitted: str) -> None:
        tests = _tests(parameter, stored)
        if parameter.block and tests == [f'{stored}<""']:
            tests = [f'SUM({stored})<""']
        elif parameter.block:
            tests = [f'SUM(IF({stored}<"",IF({test},0,1),0))=0' for test in tests]
        tests = [f"({test})" for test in tests]
        # A default need not keep the limits of what is typed.
        if parameter.optional and not _keeps(parameter):
            self.checks.append(either(omitted, "1", "*".join(tests)))
        else:
            self.checks += tests

    def unasked_system(self) -> list[str]:
        """A test of the unit system where no scale depends on it: a misspelled one is an error."""
        return [f"({self._metric}<2)"] if self._metric and not self._scales else []

    def out(self, term: Term, kind: Kind) -> str:
        """A result in the book's units."""
        if term.is_text:
            return term.text
        shift, factor = self.scale(kind)
        text = f"{term.at_least(MULTIPLY)}/{factor}" if factor else term.text
        text = f"{text}-{shift}" if shift else text
        return text if kind is COUNT else f"{self._ended()}({text})"

    def _ended(self) -> str:
        """A LAMBDA that lets a number end where its digits do: 0.0041 for 0.00409999999999933."""

        def made() -> str:
            # By INT, which takes arrays in every engine.
            number, step, short = map(self.definition.fresh, ("number", "step", "short"))
            # Of a zero, which has no logarithm, as of 1.
            size = f"ABS({number})+({number}=0)"
            coarse = f"{step}/{10 ** (NOISE - LAST)}"
            bindings = (
                (step, f"10^({NOISE - 1}-INT(LOG10({size})))"),
                (short, f"INT({number}*{step}+0.5)/{step}"),
            )
            same = f"{short}=INT({number}*{coarse}+0.5)/({coarse})"
            return function_text([number], let(bindings, either(same, short, number)))

        return self.definition.shared("ended", "f_ended", made)


def _tests(parameter: Parameter, stored: str) -> list[str]:
    """What must hold of an argument in SI. There is always one test, for its error to count."""
    if parameter.choices:
        # Trimmed, the argument has no two spaces in a row: it cannot match across words.
        words = literal(f"  {'  '.join(parameter.choices)}  ").text
        return [f'FIND("  "&{stored}&"  ",{words})>0']
    if parameter.kind is TEXT:
        return [f'{stored}>""']
    tests = [f"INT({stored})={stored}"] if parameter.kind is COUNT else []
    tests += _within(parameter.limits, stored) + _possible(parameter, stored)
    return tests or [f'{stored}<""']


def _within(limits: Limits, stored: str) -> list[str]:
    """The test of each end that is not open."""
    tests = []
    if math.isfinite(limits.low):
        tests.append(f"{stored}>{'' if limits.low_open else '='}{literal(limits.low).text}")
    if math.isfinite(limits.high):
        tests.append(f"{stored}<{'' if limits.high_open else '='}{literal(limits.high).text}")
    return tests


def _possible(parameter: Parameter, stored: str) -> list[str]:
    """The tests of what an engine can have, where the limits do not hold them already."""
    low, high = parameter.sizes.low, parameter.sizes.high
    low = low if low > parameter.limits.low else -math.inf
    high = high if high < parameter.limits.high else math.inf
    tests = _within(Limits(low, high), stored)
    if low > 0 and parameter.limits.hold(0.0):
        tests[0] = f"({tests[0]})+({stored}=0)"
    return tests


def _holds_zero(parameter: Parameter) -> bool:
    """Whether a bare 0 is a value of a parameter, in one unit system or the other."""
    zeros = [quantities.to_si(0.0, parameter.kind, system) for system in quantities.SYSTEMS]
    return parameter.kind is not TEXT and any(map(parameter.limits.hold, zeros))


def _keeps(parameter: Parameter) -> bool:
    """Whether the default of a parameter passes its own tests."""
    default = parameter.default
    if isinstance(default, (int, float)):
        return parameter.limits.hold(float(default))
    return isinstance(default, str)


def _metric(raw: str) -> str:
    """Whether the units are metric, 1 or 0; an error for any other word, and for nothing."""
    named = either(f'TRIM({raw})="metric"', "1", either(f'TRIM({raw})="inch"', "0", BAD))
    return either(f"_xlfn.ISOMITTED({raw})", "0", named)


def _any_text(raw: str) -> str:
    """A text that is not empty: it sorts above "" and below FALSE."""
    return either(f'({raw}>"")*({raw}<FALSE)', raw, BAD)


def stacked(way: str, parts: Sequence[str]) -> str:
    """Values side by side ("H") or rows one below the other ("V")."""
    return parts[0] if len(parts) == 1 else f"_xlfn.{way}STACK({','.join(parts)})"


@cache
def definition(function: Function) -> str:
    """A catalog function as Excel stores it in a defined name: LAMBDA text without "=".

    Raises NotPortable, with the reason, where it cannot be said as a worksheet formula.
    """
    if function.sees_cell:
        raise NotPortable("it looks at the formula in a cell, which no other formula can")
    edge = _Edge(function)
    body = Body(edge.definition, function.python, edge.arguments)
    bindings = list(body.bindings)
    checks = [*edge.checks, *body.checks, *edge.unasked_system()]
    if body.rows:
        rows = [stacked("H", [edge.out(c, function.result) for c in row]) for row in body.rows]
        result = stacked("V", rows)
    else:
        answer = body.result
        if math.isfinite(function.most_result):
            name = edge.definition.fresh("answer")
            bindings.append((name, answer.text))
            checks.append(f"(ABS({name})<={literal(function.most_result).text})")
            answer = Term(name)
        result = edge.out(answer, function.result)
    bindings = [*edge.definition.bindings, *bindings]
    text = function_text(edge.declared, let(bindings, guarded(checks, result)))
    if len(text) > LONGEST_TEXT:
        raise NotPortable(
            f"its formula would take {len(text):,} characters, and Excel holds {LONGEST_TEXT:,}"
        )
    return text


# Where the manual's page on errors says what else to do.
_NEEDS_ADD_IN = "Error. The reason needs the add-in: see Errors in the manual"


def words_in_place(function: Function) -> str:
    """What a function that sees a cell is where there is no add-in: a text that says so."""
    definition = Definition()
    raw = definition.fresh(function.parameters[0].name)
    definition.bind("made_by", literal(MARK).text)
    told = literal(_NEEDS_ADD_IN).text
    text = either(f"ISERROR({raw})", told, '"No error."')
    return function_text([raw], let(definition.bindings, text))


def comment(function: Function) -> str:
    """What Excel's name manager shows about a function, and the mark of who made it."""
    tail = f" [{MARK}]"
    room = LONGEST_COMMENT - len(tail)
    text = function.summary
    if len(text) > room:
        text = text[: room - 1].rsplit(" ", 1)[0] + "…"
    return text + tail


@cache
def portability() -> dict[str, str]:
    """{bare name: "" for a portable function, else the reason why it is not}."""

    def reason(function: Function) -> str:
        try:
            definition(function)
        except NotPortable as why:
            return str(why)
        return ""

    return {function.name: reason(function) for function in entries()}
