"""The data of a build keeps to its contract: the schema, and what no schema can say."""

import json
import re
import sys
from collections import Counter
from importlib.resources import files
from itertools import chain
from pathlib import Path

import openpyxl
import pytest
from example_builds import EXAMPLES, example_summary
from jsonschema import Draft202012Validator
from openpyxl.worksheet.formula import ArrayFormula

from workbook_tools.findings import check
from workbook_tools.findings.code import FindingKind
from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.layout import layouts_of
from workbook_tools.render.data import book_json
from workbook_tools.summary.summary import summarize

sys.path.insert(0, str(Path(__file__).parents[1] / "golden"))

from golden_books import make_books

SCHEMA = json.loads(files("workbook_tools.render").joinpath("build.schema.json").read_text("utf-8"))
PAGE = files("workbook_tools").joinpath("manual", "build_data.md").read_text("utf-8")


def builds_in(folder):
    """(file, summary) of every build of the books in a folder."""
    paths = sorted(p for p in folder.rglob("*") if p.suffix in (".xlsx", ".xlsm", ".ods"))
    layouts = layouts_of(paths, [folder])
    for path in paths:
        for book in read_jobs(path, layouts.get(path)):
            yield path, summarize(book, check(book))


@pytest.fixture(scope="module", params=["examples", pytest.param("all", marks=pytest.mark.slow)])
def built(request, tmp_path_factory):
    """(file, data) of every build of the example books, or of the golden ones, from JSON."""
    if request.param == "all":
        made = [*builds_in(make_books(tmp_path_factory.mktemp("golden")))]
    else:
        made = [(path, example_summary(path.stem)) for path in sorted(EXAMPLES.glob("*.xlsx"))]
        made += builds_in(EXAMPLES / "without_formulas")
    return [(path, json.loads(book_json(summary))) for path, summary in made]


def formulas(sheet):
    """The addresses that hold formulas, by openpyxl, which has no part in reading books here."""
    for row in sheet.iter_rows():
        for cell in row:
            if isinstance(cell.value, ArrayFormula):
                # A formula for a range stands in its first cell alone.
                yield from (c.coordinate for line in sheet[cell.value.ref] for c in line)
            elif cell.data_type == "f":
                yield cell.coordinate


def spots(entries):
    return [(one["sheet"], one["cell"]) for one in entries if one["cell"]]


def test_every_build_keeps_to_the_schema(built):
    Draft202012Validator.check_schema(SCHEMA)
    validator = Draft202012Validator(SCHEMA)
    assert len(built) >= 8
    for path, data in built:
        error = next(validator.iter_errors(data), None)
        assert error is None, f"{path.name}: {error.json_path}: {error.message[:300]}"


def test_a_build_without_a_key_is_told_from_one_that_keeps_to_the_schema(built):
    validator = Draft202012Validator(SCHEMA)
    whole = min((data for _, data in built), key=lambda data: len(data["results"]))
    assert validator.is_valid(whole)
    for key in SCHEMA["properties"]:
        data = {name: value for name, value in whole.items() if name != key}
        assert not validator.is_valid(data), key


def test_a_typed_cell_stands_in_one_place_and_once(built):
    for path, data in built:
        cover = data["coverage"]
        typed = spots(chain(data["readings"], cover["not_a_reading"], cover["not_understood"]))
        twice = [spot for spot, count in Counter(typed).items() if count > 1]
        assert not twice, f"{path.name}: {twice}"
        both = {*typed} & {*spots(data["results"])}
        assert not both, f"{path.name}: {both}"


def test_every_typed_number_is_counted_once(built):
    for path, data in built:
        cover = data["coverage"]
        parts = [cover[name] for name in ("read", "asked", "refused")]
        parts += [len(cover[name]) for name in ("not_a_reading", "not_understood")]
        assert cover["numbers"] == sum(parts), path.name
        states = Counter(reading["state"] for reading in data["readings"])
        assert [states[name] for name in ("read", "asked", "refused")] == parts[:3], path.name


def test_a_cell_with_a_formula_is_a_result_and_never_a_reading(built):
    looked_at = 0
    for path, data in built:
        if path.suffix == ".xlsx":
            sheets = openpyxl.load_workbook(path).worksheets
            held = {(sheet.title, at) for sheet in sheets for at in formulas(sheet)}
            assert not held & {*spots(data["readings"])}, path.name
            assert {*spots(data["results"])} <= held, path.name
            looked_at += len(held)
    assert looked_at > 1000


def test_what_is_read_has_a_number_and_what_is_not_has_a_reason(built):
    for path, data in built:
        for one in data["readings"]:
            where = f"{path.name}: {one['sheet']}!{one['cell']}"
            if one["state"] == "read":
                assert isinstance(one["value"], (int, float)), where
                assert one["evidence"], where
            else:
                assert one["reason"], where
                assert one["si"] is None, where


def keys(schema):
    """Every name that the schema has for a key."""
    if isinstance(schema, dict):
        for name, value in schema.items():
            if name == "properties":
                yield from value
            yield from keys(value)
    elif isinstance(schema, list):
        for value in schema:
            yield from keys(value)


def test_the_manual_has_a_line_for_every_key_and_no_other():
    told = Counter(re.findall(r"^\* `(\w+)`: ", PAGE, re.MULTILINE))
    fields = {*SCHEMA["properties"]["job"]["properties"]}
    limits = {"from"}
    # A job has a number, and so has a part.
    assert set(told) == {*keys(SCHEMA)} - (fields - {"number"}) - limits
    for name in fields:
        assert f"`{name}`" in PAGE


def test_codes_are_the_kinds_of_findings(built):
    kinds = {one["kind"]: one["code"] for _, data in built for one in data["findings"]}
    assert {*kinds} <= {*FindingKind.__args__}
    assert len(kinds) > 3
