"""The function reference, derived from the registry: as text, as data and as a page.

Nothing is written here twice: names, units, limits and texts all come from the entries, so
the reference cannot say anything else than what the functions do.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from workbook_tools import quantities
from workbook_tools.catalog.registry import UNITS_HELP, Function, Parameter, entries
from workbook_tools.catalog.search import related
from workbook_tools.catalog.table_rows import read_tables
from workbook_tools.catalog.worked_examples import worked_examples
from workbook_tools.quantities import SYSTEMS, Kind, System

PAGE = Path(__file__).with_name("REFERENCE.md")

_WIDTH = 88
# As many as a reader looks through at the end of a page.
MOST_RELATED = 8
# The order of the work on an engine; a section that is not named here comes after them.
_SECTIONS = (
    "Displacement",
    "Crank, rod and piston motion",
    "Deck and quench",
    "Compression",
    "Pistons, bores, rings",
    "Bearings",
    "Balance",
    "Fasteners",
    "Camshaft and valvetrain",
    "Air and power",
    "Choosing and matching",
    "Readings",
    "Reasons",
)


def by_section() -> dict[str, list[Function]]:
    """The catalog's functions under their headings, both in the order for a reader."""
    found: dict[str, list[Function]] = {section: [] for section in _SECTIONS}
    for function in entries():
        found.setdefault(function.section, []).append(function)
    return {section: functions for section, functions in found.items() if functions}


def _bare_unit(kind: Kind) -> str:
    """What a bare number of a kind means: "in or mm"; "" where it has no unit."""
    if not kind.has_units:
        return ""
    return kind.inch if kind.inch == kind.metric else f"{kind.inch} or {kind.metric}"


def _limits(parameter: Parameter, system: System) -> str:
    return parameter.limits.words(parameter.kind, system)


def _default(parameter: Parameter, system: System) -> str:
    """The default as a builder would type it, with its unit; "" where there is none to type.

    A default outside the limits only marks what the parameter's help says of leaving it out.
    """
    if not parameter.optional:
        return ""
    if not isinstance(parameter.default, (int, float)):
        return str(parameter.default)
    if not parameter.limits.hold(float(parameter.default)):
        return ""
    number = f"{quantities.from_si(float(parameter.default), parameter.kind, system):.6g}"
    unit = parameter.kind.unit(system)
    return f"{number} {unit}" if unit else number


def _each_system(inch: str, metric: str) -> str:
    """One wording where both unit systems say the same, else both."""
    return inch if inch == metric else f"{inch} ({metric})"


def traits(parameter: Parameter) -> str:
    """Kind, unit, sign, limits, choices and default of a parameter in one line."""
    parts = ["a cell, not its value" if parameter.cell else parameter.kind.name]
    if parameter.block:
        parts.append("a whole range at once")
    parts.append(_bare_unit(parameter.kind))
    words = _each_system(_limits(parameter, "inch"), _limits(parameter, "metric"))
    parts.append(parameter.sign if words in ("", "above 0", "0 or more") else words)
    if parameter.choices:
        parts.append("one of " + ", ".join(f'"{word}"' for word in parameter.choices))
    said = isinstance(parameter.default, str) and "if left out" in parameter.help.lower()
    if parameter.optional and not said:
        shown = _each_system(_default(parameter, "inch"), _default(parameter, "metric"))
        parts.append(f"if left out {shown}" if shown else "may be left out")
    return "; ".join(part for part in parts if part)


def _result(function: Function) -> str:
    """Kind and unit of the result, and what its docstring says about it."""
    parts = [function.result.name]
    if function.result_block:
        parts.append("an array")
    parts.append(_bare_unit(function.result))
    head = "; ".join(part for part in parts if part)
    return f"{head}. {function.result_help}" if function.result_help else f"{head}."


def _paragraph(text: str, indent: str = "  ") -> str:
    return textwrap.fill(
        text, _WIDTH, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False
    )


def describe(function: Function) -> str:
    """Plain text reference of one function, for a terminal.

    Holds signature, summary, each parameter with kind, unit of a bare number (inch or
    metric), sign, limits, choices and default, the result, the equation, its validity, the
    source and the caution. Raises nothing.
    """
    lines = [function.signature, "", _paragraph(function.summary, ""), "", "Parameters"]
    for parameter in function.parameters:
        lines += [f"  {parameter.name}", _paragraph(traits(parameter), "      ")]
        if parameter.help:
            lines.append(_paragraph(parameter.help, "      "))
    if function.takes_units:
        lines += ["  units", _paragraph(UNITS_HELP, "      ")]
    lines += ["", "Result", _paragraph(_result(function))]
    lines += ["", "Equation", textwrap.indent(function.equation, "  ")]
    examples = worked_examples(function)
    if examples:
        lines += ["", "Example" if len(examples) == 1 else "Examples"]
        for formula, given in examples:
            lines += [_paragraph(formula), _paragraph(given, "      ")]
    for title, text in (
        ("Validity", function.validity),
        ("Source", function.source),
        ("Caution", function.caution),
    ):
        if text:
            lines += ["", title, _paragraph(text)]
    return "\n".join(lines)


def _parameter_data(parameter: Parameter) -> dict[str, Any]:
    return {
        "name": parameter.name,
        "kind": parameter.kind.name,
        "units": {system: parameter.kind.unit(system) for system in SYSTEMS},
        "help": parameter.help,
        "sign": parameter.sign,
        "limits": {system: _limits(parameter, system) for system in SYSTEMS},
        "choices": list(parameter.choices),
        "range": parameter.block,
        "optional": parameter.optional,
        "default": {system: _default(parameter, system) for system in SYSTEMS},
    }


def as_data(portability: Mapping[str, str] | None = None) -> list[dict[str, Any]]:
    """The catalog as data that JSON can hold, in the order for a reader.

    portability: for each bare function name the reason why it has no add-in-free form, ""
    where it has one; without the mapping, or for a name that it lacks, nothing is said.
    Raises nothing.
    """
    reasons = portability or {}
    data = []
    for function in (f for functions in by_section().values() for f in functions):
        item: dict[str, Any] = {
            "name": function.full_name,
            "section": function.section,
            "signature": function.signature,
            "summary": function.summary,
            "parameters": [_parameter_data(parameter) for parameter in function.parameters],
            "takes_units": function.takes_units,
            "result": {
                "kind": function.result.name,
                "units": {system: function.result.unit(system) for system in SYSTEMS},
                "help": function.result_help,
                "array": function.result_block,
            },
            "equation": function.equation,
            "validity": function.validity,
            "source": function.source,
            "caution": function.caution,
        }
        if function.name in reasons:
            item["portable"] = not reasons[function.name]
            item["portable_reason"] = reasons[function.name]
        data.append(item)
    return data


def _markdown(text: str) -> str:
    """A text with the signs that Markdown would take for markup made plain."""
    return re.sub(r"([\\`*<>|])", r"\\\1", text)


def _anchor(function: Function) -> str:
    return function.full_name.lower().replace(".", "")


def _markdown_entry(function: Function, not_portable: str) -> list[str]:
    lines = [f"### {function.full_name}", "", _markdown(function.summary), ""]
    lines += ["```", function.signature, "```", ""]
    for parameter in function.parameters:
        text = _markdown(f"{traits(parameter)}. {parameter.help}")
        lines.append(f"- `{parameter.name}`: {text}")
    if function.takes_units:
        lines.append(f"- `units`: {_markdown(UNITS_HELP)}")
    lines += ["", f"Result: {_markdown(_result(function))}", ""]
    lines += ["```", function.equation, "```", ""]
    examples = worked_examples(function)
    if examples:
        told = "; ".join(f"`{formula}` gives {_markdown(given)}" for formula, given in examples)
        lines += [f"Example: {told}.", ""]
    for title, text in (
        ("Validity", function.validity),
        ("Source", function.source),
        ("Caution", function.caution),
    ):
        if text:
            lines += [f"**{title}.** {_markdown(text)}", ""]
    near = related(function)[:MOST_RELATED]
    if near:
        lines += ["See also: " + ", ".join(f"[{f.name}](#{_anchor(f)})" for f in near) + ".", ""]
    if any(p.sign for p in function.parameters):
        lines += ["Signs: [sketches](../manual/glossary.md).", ""]
    if not_portable:
        lines += [f"**Not without an add-in.** {_markdown(_sentence(not_portable))}", ""]
    return lines


def _materials() -> list[str]:
    """The materials that come with the package, each with its figures and its source."""
    lines = [
        "## Materials",
        "",
        "What a parameter for a material takes; a shop's own file can add to them. Expansion is",
        "the mean over its range in millionths per deg C, modulus in GPa, Poisson's ratio from",
        "memory, density in kg/m3.",
        "",
        "| material | expansion | range | modulus | Poisson | density | source |",
        "| --- | --- | --- | --- | --- | --- | --- |",
    ]
    for one in read_tables().materials.values():
        figures = f"{one.expansion * 1e6:.3g} | {one.range} | {one.modulus / 1e9:.4g}"
        more = f"{one.poisson:.2f} | {one.density:.5g} | {_markdown(one.source)}"
        lines.append(f"| {one.name} | {figures} | {more} |")
    return [*lines, ""]


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:].rstrip('.')}."


def as_markdown(portability: Mapping[str, str] | None = None) -> str:
    """The reference page: every function under its heading, with a list of all at the top.

    portability: as for `as_data`.
    """
    reasons = portability or {}
    sections = by_section()
    lines = [
        "# Worksheet functions",
        "",
        "Written by `python -m workbook_tools.hosts.reference_page` from the functions themselves.",
        "",
        "A bare number is in the unit named first for an inch book and in the second for a metric",
        'one; a text with its own unit, such as `"38 thou"` or `"0,96 mm"`, is taken as it says.',
        "A range in place of a single value gives an array. Every function works without an add-in",
        "too, unless its entry says otherwise.",
        "",
    ]
    for section, functions in sections.items():
        links = ", ".join(f"[{f.name}](#{_anchor(f)})" for f in functions)
        lines.append(f"- {section}: {links}")
    lines += ["- [Materials](#materials)", ""]
    for section, functions in sections.items():
        lines += [f"## {section}", ""]
        for function in functions:
            lines += _markdown_entry(function, reasons.get(function.name, ""))
    return "\n".join([*lines, *_materials()])
