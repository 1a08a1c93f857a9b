"""Several jobs in one file: nothing of one stands in what is read of another."""

from __future__ import annotations

import re
from dataclasses import fields

import pytest
from openpyxl.utils.cell import range_boundaries

from workbook_tools.findings import check
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.read import read_book, read_jobs
from workbook_tools.jobs.records import Book
from workbook_tools.render.handover import build_files
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.summary import summarize

# What of a book is the file's, the same for each of its jobs.
OF_THE_FILE = {"file_name", "sha256", "calculated_by", "saved"}
# What a job's readings and its calls give; a row of a table has no room for the others.
OF_LABELS = {"job", "records", "readings", "part"}
OF_ROWS = {"job", "records", "written", "stale_formulas", "not_recalculated", "part"}
ALL = {field.name for field in fields(Book)} - OF_THE_FILE - {"readings"}


def job(mark, number, deck):
    """A job's cells; every text of its owner's has the mark."""
    return [
        ["Job no.", number, None, "Customer", f"Owner {mark}"],
        ["Engine", f"V8 {mark}", None, "Builder", f"Builder {mark}"],
        ["Date", f"2025-04-{number[-2:]}", None, "Promised", f"2025-05-{number[-2:]}"],
        ["Fuel", f"{mark} octane", None, "Oil", f"{mark} grade"],
        ["To order", f"Rings {mark}"],
        ["Signed off by", None],
        ["Fastener", "Step 1", "Step 2"],
        [f"Head bolts {mark}", f"{deck:.3f} {mark}", f"{deck:.3f} {mark}"],
        [],
        ["Cylinder", 1, 2, 3],
        ["Deck clearance (in)", deck, deck + 0.001, deck + 0.002],
        ["Gasket thickness (in)", 0.04, 0.04, 0.04],
        ["Quench (in)", "=ENG.QUENCH({B}11,{B}12)", "=ENG.QUENCH({C}11,{C}12)", deck + 0.04],
        ["Halved (in)", "={B}11/2"],
        ["Quench (in)", "=ENG.QUENCH({B}14,{B}12)"],
        ["Odd (in)", "=NOSUCH({B}11)"],
        ["Quench (in)", "=ENG.QUENCH({B}16,{B}12)"],
        ["Broken", '=ENG.QUENCH("x'],
        ["Stroke (in)", "=3+0.5"],
        [],
        ["What", "Value", "Accepted by"],
        [f"Deck {mark}", 0.011, f"Lead {mark}"],
        [],
        ["Crown volume (cc)", 5.0],
        [],
        ["Part", "Part no.", "Qty", "Supplied by"],
        [f"Pistons {mark}", f"P-{mark}", 8, f"Owner {mark}"],
        [],
        ["Cylinder", "Bore (in)", "Min (in)", "Max (in)", "Limits from"],
        *([n, 4.03 + deck / 100, 4.02, 4.04, f"card of {mark}"] for n in (1, 2, 3)),
        [],
        ["Main", 1, 2, 3, 4, 5],
        ["Main journal (in)", *(2.1 + deck / 100 for _ in range(5))],
        ["Main bearing bore (in)", *(2.1025 + deck / 100 for _ in range(5))],
        ["Main clearance (in)", *(f"={{{c}}}36-{{{'E' if c == 'D' else c}}}35" for c in "BCDEF")],
        ["Mean (in)", "=AVERAGE({B}35:{E}35)"],
        [],
    ]


def moved(rows, down):
    """A job's cells with the references of its formulas moved down."""
    return [
        [
            re.sub(r"\{(\w)\}(\d+)", lambda m: f"{m[1]}{int(m[2]) + down}", c)
            if isinstance(c, str)
            else c
            for c in row
        ]
        for row in rows
    ]


SHARED = [["Gauge", "Last checked"], ["Bore gauge no. (mm)", 7.5], ["Invented Machine Shop"]]


def by_sheet(make_book):
    first, second = job("ALFA", "25-101", 0.011), job("BETA", "25-102", 0.022)
    sheets = {"One": moved(first, 0), "Two": moved(second, 0), "Gauges": SHARED}
    saved = {
        t: {"B13": 0.5, "C13": 0.5, "B14": 0.9, "B15": 0.5, "B16": 0.3, "B19": 3.5}
        for t in ("One", "Two")
    }
    return make_book(sheets, saved=saved), ("One!", "Two!"), "Gauges!"


def by_block(make_book):
    first, second = job("ALFA", "25-101", 0.011), job("BETA", "25-102", 0.022)
    rows = [*moved(first, 0), *moved(second, len(first))]
    saved = {
        f"{c}{r + down}": v
        for down in (0, len(first))
        for c, r, v in [
            ("B", 13, 0.5),
            ("C", 13, 0.5),
            ("B", 14, 0.9),
            ("B", 15, 0.5),
            ("B", 16, 0.3),
            ("B", 19, 3.5),
        ]
    }
    return (
        make_book({"Log": rows, "Gauges": SHARED}, saved={"Log": saved}),
        (1, len(first)),
        "Gauges!",
    )


def by_row(make_book):
    heads = [
        "Job",
        "Customer",
        "Date",
        "Deck clearance (in)",
        "Gasket thickness (in)",
        "Halved (in)",
    ]
    heads += ["Quench (in)", "Odd (in)", "Quench of odd (in)"]
    rows = [heads]
    for at, (mark, number, deck) in enumerate(
        (("ALFA", "25-101", 0.011), ("BETA", "25-102", 0.022)), 2
    ):
        calls = [
            f"=D{at}/2",
            f"=ENG.QUENCH(F{at},E{at})",
            f"=NOSUCH(D{at})",
            f"=ENG.QUENCH(H{at},E{at})",
        ]
        rows.append([number, f"Owner {mark}", f"2025-04-{number[-2:]}", deck, 0.04, *calls])
    saved = {
        f"{c}{r}": v for r in (2, 3) for c, v in [("F", 0.9), ("G", 0.5), ("H", 0.3), ("I", 0.3)]
    }
    return make_book({"Log": rows, "Gauges": SHARED}, saved={"Log": saved}), (2, 3), "Gauges!"


def by_label(make_book):
    def one(mark, number, deck):
        return [r for r in job(mark, number, deck) if not any(str(c).startswith("=") for c in r)]

    sheets = {"One": one("ALFA", "25-101", 0.011), "Two": one("BETA", "25-102", 0.022)}
    return make_book({**sheets, "Gauges": SHARED}), ("One!", "Two!"), "Gauges!"


def places(value):
    """Every place in a record, however deep."""
    if isinstance(value, Place):
        yield value
    elif isinstance(value, (tuple, list)):
        for one in value:
            yield from places(one)
    elif hasattr(value, "__dataclass_fields__"):
        for name in value.__dataclass_fields__:
            yield from places(getattr(value, name))


def in_area(place, areas, n):
    """Whether a place lies in the area of the nth job."""
    if isinstance(areas[n], str):
        return str(place).startswith(areas[n]) or f"{place}!" == areas[n]
    if place.sheet != "Log":
        return False
    if not place.address:
        return True
    rows = range_boundaries(place.address)[1::2]
    end = areas[n + 1] if n + 1 < len(areas) else 10_000
    return all(areas[n] <= row < end + (n == 0 and areas[0] == 1) for row in rows)


@pytest.mark.parametrize(
    ("make", "said"),
    [(by_sheet, ALL), (by_block, ALL), (by_row, OF_ROWS), (by_label, OF_LABELS)],
)
def test_no_field_of_a_job_has_anything_of_another(make_book, make, said):
    path, areas, shared = make(make_book)
    jobs = read_jobs(path)
    assert [one.job.number.text for one in jobs] == ["25-101", "25-102"]
    for n, (one, other) in enumerate([("ALFA", "BETA"), ("BETA", "ALFA")]):
        for field in fields(Book):
            told = getattr(jobs[n], field.name)
            if field.name in OF_THE_FILE:
                assert told == getattr(jobs[1 - n], field.name)
                continue
            assert other not in repr(told), field.name
            for number in ("25-101", "25-102"):
                if number != jobs[n].job.number.text:
                    assert number not in repr(told), field.name
            for place in places(told):
                marked = place in jobs[n].shared and str(place).startswith(shared)
                assert in_area(place, areas, n) or marked, (field.name, str(place))
            # A field that this file has nothing of would pass whatever became of it.
            assert told if field.name in said else True, field.name
        assert one in repr(jobs[n].job)


def test_every_field_of_a_book_is_covered_by_some_file():
    covered = ALL | OF_LABELS | OF_THE_FILE
    assert {field.name for field in fields(Book)} == covered


@pytest.mark.parametrize("make", [by_sheet, by_block, by_label])
def test_the_paperwork_is_of_one_job(make_book, make):
    path, _, _ = make(make_book)
    for mark, one in zip(("ALFA", "BETA"), read_jobs(path), strict=True):
        office = one.office
        assert office.fuel.text == f"{mark} octane"
        assert office.oil.text == f"{mark} grade"
        assert office.promised.text == f"2025-05-{one.job.number.text[-2:]}"
        assert [part.part for part in office.parts] == [f"Rings {mark}"]
        assert [fastener.name for fastener in office.fasteners] == [f"Head bolts {mark}"]
        assert (office.part_lists, len(one.marks)) == (1, 2)


def test_what_is_shared_is_marked_and_is_never_a_field(make_book):
    rows = [["Deck clearance (in)", 0.01], ["Gasket thickness (in)", 0.04]]
    cover = [["Invented Machine Shop"], ["Fuel", "91 octane"], ["Date", "2025-04-01"]]
    cover += [["Signed off by", None], ["Fastener", "Step 1", "Step 2"], ["Bolts", "20", "40"]]
    cover += [["Quench (in)", "=ENG.QUENCH(0.01,0.04)"]]
    sheets = {"Cover": cover} | {
        t: [["Job no.", t], *rows, ["Quench", "=ENG.QUENCH(B2,B3)"]] for t in ("25-101", "25-102")
    }
    for one in read_jobs(make_book(sheets)):
        assert {r.place.sheet for r in one.records} == {"Cover", one.part}
        assert Place("Cover", "B7") in one.shared
        assert {p.sheet for p in one.shared} == {"Cover"}
        assert (one.office.fuel.text, one.job.finished.text, one.job.started.text) == ("", "", "")
        assert not one.marks
        assert not one.office.fasteners


def test_a_sheet_that_names_another_job_is_shared_by_none(make_book):
    rows = [["Deck clearance (in)", 0.01], ["Gasket thickness (in)", 0.04]]
    sheets = {t: [["Job no.", t], *rows] for t in ("25-101", "25-102")}
    sheets["Torque"] = [["Customer", "Owner GAMMA"], ["Bore (in)", 4.03]]
    for one in read_jobs(make_book(sheets)):
        assert "GAMMA" not in repr([getattr(one, f.name) for f in fields(Book)])
        assert not any(r.place.sheet == "Torque" for r in one.readings)
        assert any("1 more sheet" in t.message for t in one.troubles)


def test_a_formula_that_reaches_into_another_job_gives_no_value_of_it(make_book):
    def sheet(number, formula):
        return [["Job no.", number], ["Deck clearance (in)", 0.013], ["Quench (in)", formula]]

    sheets = {
        "25-101": sheet("25-101", "=ENG.QUENCH(B2,0.04)"),
        "25-102": sheet("25-102", "=ENG.QUENCH('25-101'!B2,0.04)"),
    }
    (record,) = read_jobs(make_book(sheets))[1].records
    assert record.value is None
    assert record.fresh is None
    assert "another job" in record.problem
    assert [a.value for a in record.arguments] == [None, 0.04]


def test_a_job_that_goes_on_below_another_keeps_its_cells(make_book):
    def block(number, mark):
        return [["Job no.", number], ["Customer", f"Owner {mark}"], [f"Bore {mark} (in)", 4.0], []]

    rows = [*block("25-101", "ALFA"), *block("25-102", "BETA"), ["Job no.", "25-101"]]
    rows += [["Fuel", "ALFA octane"], ["Stroke ALFA (in)", 3.5]]
    first, second = read_jobs(make_book({"Log": rows}))
    assert first.office.fuel.text == "ALFA octane"
    assert "ALFA" not in repr([getattr(second, f.name) for f in fields(Book)])


def test_a_failed_look_up_is_no_name(make_book):
    rows = [["Job no.", "25-101"], ["Customer", "=VLOOKUP(9,A1:B2,2)"], ["Bore (in)", 4.0]]
    path = make_book({"S": rows}, saved={"S": {"B2": "#N/A"}})
    book = read_book(path)
    assert book.job.customer.text == ""
    (told,) = [t for t in book.troubles if t.place == Place("S", "B2")]
    assert "#N/A" in told.message
    assert "customer" in told.message
    assert "CellError" not in repr(book.job) + told.message
    assert not any(b"CellError" in content for content in every_file(book))


def every_file(book):
    """The pages and data files of a book that are text."""
    files = build_files("job", summarize(book, check(book)), Shop(), ("html", "json", "customer"))
    assert len(files) >= 3
    return list(files.values())


@pytest.mark.parametrize("make", [by_sheet, by_block, by_row, by_label])
def test_no_page_of_a_job_has_anything_of_another(make_book, make):
    path, _, _ = make(make_book)
    for other, one in zip(("BETA", "ALFA"), read_jobs(path), strict=True):
        assert not any(other.encode() in content for content in every_file(one))
