"""How the tables beside it were made: the first release's calls and what its books came to.

It was run once, at that release, and is kept to tell what the tables hold. The tests read the
tables and never run it: to run it again would only write down what the program does now. A
later release gets a folder of its own.

    python tests/kept/first_release/keep_first_release.py FOLDER

The books are the example books of that release as they were, and two of them as LibreOffice saved
them in its own format, with the release's functions installed.
"""

from __future__ import annotations

import json
import os
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
sys.path.insert(0, str(Path(__file__).parents[1]))

from examples import example
from kept_books import kept_results

from workbook_tools import units
from workbook_tools.books.bench import try_formula
from workbook_tools.catalog import ArgumentError, Function, Parameter, entries
from workbook_tools.units import COUNT, NUMBER, READING, TEXT

HERE = Path(__file__).parent
OTHER = {"inch": "metric", "metric": "inch"}
LEFT_OUT = ""


def _typed(value: object) -> str:
    """An argument as it is typed into a formula."""
    if isinstance(value, tuple):
        return "{" + ";".join(",".join(_typed(cell) for cell in row) for row in value) + "}"
    if isinstance(value, str):
        return '"' + value.replace('"', '""') + '"'
    return repr(value)


def _with_unit(value: object, parameter: Parameter, system: str, shown: str) -> object:
    """An argument of a book in one system as texts with their units in another."""
    kind = parameter.kind
    if isinstance(value, tuple):
        return tuple(
            tuple(_with_unit(cell, parameter, system, shown) for cell in row) for row in value
        )
    if isinstance(value, str) or kind in (TEXT, COUNT, READING, NUMBER) or not kind.unit(shown):
        return value
    there = units.from_si(units.to_si(value, kind, system), kind, shown)
    return f"{there:.12g} {kind.unit(shown)}"


def calls(function: Function) -> Iterator[str]:
    """A call in every form that it can have in a cell."""
    parameters = function.parameters
    for system in ("inch", "metric"):
        if system == "metric" and not function.takes_units:
            continue
        given = example(function.name, system)[: len(parameters)]
        last = (_typed(system),) if function.takes_units else ()
        full = [_typed(value) for value in given]
        optional = [n for n, p in enumerate(parameters) if p.optional]
        required = [LEFT_OUT if n in optional else text for n, text in enumerate(full)]
        forms = [full, required]
        forms += [[LEFT_OUT if n == m else t for n, t in enumerate(full)] for m in optional]
        forms += [[full[n] if n == m else t for n, t in enumerate(required)] for m in optional]
        for shown in (system, OTHER[system]):
            texts = zip(given, parameters, strict=True)
            forms.append([_typed(_with_unit(v, p, system, shown)) for v, p in texts])
        forms += list(_ranges(given, parameters, full))
        # An inch book may leave the units out, and mostly does.
        ends = [()] * len(forms) if system == "inch" else [last] * len(forms)
        if system == "inch" and last:
            forms, ends = [*forms, full, required], [*ends, last, last]
        for form, end in zip(forms, ends, strict=True):
            arguments = [*form, *end]
            while arguments and arguments[-1] == LEFT_OUT:
                arguments.pop()
            yield f"{function.full_name}({','.join(arguments)})"


def _ranges(
    given: tuple[object, ...], parameters: tuple[Parameter, ...], full: list[str]
) -> Iterator[list[str]]:
    """Each single number in turn as a row of two, and all of them together as a column."""
    numbers = [
        n
        for n, (value, p) in enumerate(zip(given, parameters, strict=True))
        if not p.block and isinstance(value, (int, float)) and p.kind is not TEXT
    ]
    near = {
        n: given[n] if parameters[n].kind is COUNT else float(f"{given[n] * 1.001:.12g}")
        for n in numbers
    }
    for m in numbers:
        yield [_typed(((given[n], near[n]),)) if n == m else t for n, t in enumerate(full)]
    if numbers:
        yield [_typed(((given[n],), (near[n],))) if n in near else t for n, t in enumerate(full)]


def _value(value: object) -> object:
    if isinstance(value, tuple):
        return [_value(part) for part in value]
    return None if isinstance(value, ArgumentError) else value


def _kept(function: Function) -> dict[str, object]:
    kept = []
    for formula in dict.fromkeys(calls(function)):
        try:
            result = try_formula(formula)
        except ArgumentError:
            continue  # Not every function takes every form.
        kept.append([formula, _value(result.value), result.unit])
    names = [p.name for p in function.parameters] + ["units"] * function.takes_units
    return {"parameters": names, "required": function.required, "calls": kept}


def _write_calls(path: Path) -> None:
    """A call a line, so that a person finds it."""
    blocks = []
    for function in sorted(entries(), key=lambda f: f.name):
        kept = _kept(function)
        lines = ",\n".join("   " + json.dumps(call, ensure_ascii=False) for call in kept["calls"])
        blocks.append(
            f' "{function.full_name}": {{\n  "parameters": {json.dumps(kept["parameters"])},\n'
            f'  "required": {kept["required"]},\n  "calls": [\n{lines}\n  ]\n }}'
        )
    path.write_text("{\n" + ",\n".join(blocks) + "\n}\n", "utf-8")


def _write_results(path: Path) -> None:
    rows = [
        json.dumps(list(key), ensure_ascii=False) + ": " + json.dumps(said, ensure_ascii=False)
        for key, said in kept_results(HERE / "books").items()
    ]
    lines = ",\n".join("[" + row.replace("]: ", "], ", 1) + "]" for row in rows)
    path.write_text("[\n" + lines + "\n]\n", "utf-8")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as nobodys:
        os.environ["XDG_CONFIG_HOME"] = os.environ["APPDATA"] = nobodys
        folder = Path(sys.argv[1])
        _write_calls(folder / "calls.json")
        _write_results(folder / "results.json")
