"""Sections that the record of a finished job has to hold: by what was built, as a shop has it."""

import pytest

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.findings import check
from workbook_tools.findings.evidence import measurands_of
from workbook_tools.jobs.read import read_whole
from workbook_tools.settings.finished import scopes, sections
from workbook_tools.settings.shop import ShopError, read_shop, write_shop

COMPLETE = {
    "head": [["Job", "24-031"], ["Engine", "inline four"], ["Finished", "2025-04-02"]],
    "cylinders": ["Cylinder", 1, 2, 3, 4],
    "piston clearance": ["Piston clearance (in)", 0.0041, 0.0042, 0.004, 0.0041],
    "ring end gap": ["Top ring gap (in)", 0.018, 0.0185, 0.018, 0.0182],
    "deck or quench": ["Deck clearance (in)", 0.004, 0.005, 0.004, 0.005],
    "compression ratio": ["Compression ratio", 10.1, 10.2, 10.1, 10.1],
    "leak-down or cranking pressure": ["Cranking pressure (psi)", 184, 186, 185, 187],
    "main bearing clearance": ["Main bearing clearance (in)", 0.0024, 0.0023, 0.0025, 0.0024],
    "rod bearing clearance": ["Rod bearing clearance (in)", 0.0021, 0.0022, 0.0022, 0.0021],
    "crank end play": ["Crank end play (in)", 0.006],
    "valve lash or preload": ["Intake lash (in)", 0.01],
    "valve timing": ["Intake centerline (deg)", 108],
    "oil pressure": ["Oil pressure (psi)", 55],
    "firing order": ["Firing order", "1-3-4-2"],
    "torque": ["Head bolt torque (ft-lb)", 65],
    "release signature": ["Released by", "R. Lund"],
}


def book(lines):
    rows = [*lines["head"], *(row for name, row in lines.items() if name != "head")]
    cells = {
        (r, c): Cell(value)
        for r, row in enumerate(rows, 1)
        for c, value in enumerate(row, 1)
        if value is not None
    }
    return read_whole(OpenBook("a.xlsx", "a", (Sheet("S", cells),), {}))


def names(lines, required=()):
    found = [f.message for f in check(book(lines), required) if f.code == "missing-section"]
    return [m.removeprefix("Nothing is recorded of ").split(" (")[0].split(". ")[0] for m in found]


def without(*left_out):
    return {name: row for name, row in COMPLETE.items() if name not in left_out}


def emptied(*names_of):
    return {n: row[:1] if n in names_of else row for n, row in COMPLETE.items()}


def test_a_whole_record_lacks_nothing():
    assert names(COMPLETE) == []


@pytest.mark.parametrize("section", [s for s in scopes()["complete"].sections if s in COMPLETE])
def test_each_section_that_is_left_out_of_a_whole_record_is_one_finding(section):
    assert names(without(section)) == [section]


def test_a_section_that_the_book_has_a_place_for_is_told_there():
    lines = emptied("main bearing clearance", "leak-down or cranking pressure")
    for name in ("main bearing clearance", "leak-down or cranking pressure"):
        lines[name] = [*lines[name], None]
    assert set(names(lines)) >= {"main bearing clearance", "leak-down or cranking pressure"}


def test_an_unfinished_job_and_a_ticket_for_one_operation_lack_nothing():
    open_job = without("torque") | {"head": COMPLETE["head"][:2]}
    ticket = {n: COMPLETE[n] for n in ("head", "cylinders", "piston clearance")}
    few = {n: COMPLETE[n] for n in ("head", "cylinders", "piston clearance", "ring end gap")}
    assert names(open_job) == names(ticket) == names(few) == []


def test_what_was_built_is_said_by_the_book():
    few = {n: COMPLETE[n] for n in ("cylinders", "piston clearance", "ring end gap")}
    head = [*COMPLETE["head"], ["Scope", "short block"]]
    found = names({"head": head, **few})
    assert found == [s for s in scopes()["short block"].sections if s not in few]
    assert "oil pressure" not in found


def test_a_shop_says_itself_what_a_record_has(tmp_path):
    path = write_shop(tmp_path)
    text = path.read_text("utf-8")
    assert all(f'"{s}"' in text for s in scopes()["complete"].sections)
    path.write_text('[finished]\ncomplete = ["torque", "oil pressure"]\n', "utf-8")
    required = read_shop(path).finished
    assert names(without("crank end play", "oil pressure"), required) == ["oil pressure"]
    # All that a starter has as comments is a file that can be used.
    path.write_text(text.replace("# finished.", "finished."), "utf-8")
    assert dict(read_shop(path).finished) == {n: s.sections for n, s in scopes().items()}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[finished]\nwhole = ["torque"]', "whole: no such scope"),
        ('[finished]\ncomplete = ["torques"]', "torques: no such section; the nearest is torque"),
        ('[finished]\ncomplete = "torque"', "a list of sections"),
        ('finished = ["torque"]', "a table, as under [finished]"),
    ],
)
def test_a_list_that_cannot_be_used_is_refused(tmp_path, text, said):
    path = tmp_path / "shop.toml"
    path.write_text(text, "utf-8")
    with pytest.raises(ShopError, match="finished") as refused:
        read_shop(path)
    assert said in str(refused.value)


def test_the_lists_name_sections_and_measurands_that_there_are():
    assert all(name in sections() for scope in scopes().values() for name in scope.sections)
    assert all(measurands_of(m) for s in sections().values() for m in s.measurands)
