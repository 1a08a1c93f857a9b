"""What was read of blocks is kept for later books, and changes nothing that is read of these."""

import random
import subprocess
import sys
import time

import pytest

from workbook_tools.books.cells import Cell, Sheet
from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels import kept_blocks
from workbook_tools.labels import spots as spots_module
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spots import spots
from workbook_tools.labels.vocabulary import vocabulary


@pytest.fixture(autouse=True)
def nothing_kept(monkeypatch):
    monkeypatch.setattr(kept_blocks, "_kept", kept_blocks._Kept())


def sheet_of(*rows, title="Build"):
    cells = {
        (r, c): Cell(value)
        for r, row in enumerate(rows, 1)
        for c, value in enumerate(row, 1)
        if value is not None
    }
    return Sheet(title, cells)


def read_of(sheet):
    cells = SheetText(sheet, vocabulary())
    return spots(cells), cells.indexes, cells.aside


def form(seed, head="Cylinder", bore="Bore (in)"):
    """A month's form with other numbers, customers and readings that are missing."""
    pick = random.Random(seed)
    rows = [["Job no.", f"26-{seed:03}"], ["Customer", f"Shop {seed}"], []]
    rows.append([head, 1, 2, 3, 4])
    for label, size in ((bore, 4.03), ("Piston (in)", 4.0258), ("Chamber (cc)", 64)):
        sizes = [round(size + pick.uniform(0, 2e-4), 4) for _ in range(4)]
        rows.append([label, *(s if pick.random() > 0.2 else None for s in sizes)])
    return rows


def test_books_of_one_form_are_read_as_if_each_were_the_first(monkeypatch):
    books = [form(1), form(2), form(3, head="Cyl"), form(4, bore="Stroke (in)"), form(5), form(1)]
    together = [read_of(sheet_of(*rows)) for rows in books]
    apart = []
    for rows in books:
        monkeypatch.setattr(kept_blocks, "_kept", kept_blocks._Kept())
        apart.append(read_of(sheet_of(*rows)))
    assert together == apart


def test_a_table_is_read_once_for_all_books_of_its_form():
    first, second = (read_of(sheet_of(*form(seed))) for seed in (1, 1))
    assert all(one is other for one, other in zip(first[0], second[0], strict=True))


HEADS = ["Cylinder", "Bore", "Piston clearance", "Top ring gap"]
SIZES = [4.03, 0.0042, 0.018]


def test_sizes_that_have_a_say_are_asked_of_each_book():
    # One size under heads of three things is none of the three.
    alike, unlike = (sheet_of(HEADS, [1, *SIZES], [2, *row]) for row in ([61, 61, 61], SIZES))
    rows = [{spot.row for spot in read_of(sheet)[0]} for sheet in (unlike, alike, unlike)]
    assert rows == [{2, 3}, {2}, {2, 3}]


def test_a_number_that_counts_is_no_size():
    for first in (1, 4, 1):
        rows = [[first + n, 2.75] for n in range(3)]
        found, indexes, _ = read_of(sheet_of(["Main", "Housing bore"], *rows))
        assert [spot.which.number for spot in found] == [first, first + 1, first + 2]
        assert indexes == {(2, 1), (3, 1), (4, 1)}


def blocks_read(monkeypatch, *sheets):
    """How many blocks of each sheet were read anew, one sheet after the other."""
    anew = []
    read = spots_module._read
    monkeypatch.setattr(spots_module, "_read", lambda *of: anew.append(of) or read(*of))
    counted = []
    for sheet in sheets:
        before = len(anew)
        read_of(sheet)
        counted.append(len(anew) - before)
    return counted


def test_a_whole_number_that_nothing_asks_for_leaves_a_block_as_it_was_read(monkeypatch):
    def card(torque, gap, pressures):
        rows = [["Main cap torque (Nm)", torque], ["Ring gap (thou)", gap]]
        return sheet_of(*rows, [], ["Cylinder", 1, 2, 3], ["Cranking pressure (psi)", *pressures])

    month = [(95, 18, [171, 168, 174]), (110, 20, [165, 172, 168]), (88, 16, [180, 177, 181])]
    assert blocks_read(monkeypatch, *(card(*job) for job in month)) == [2, 0, 0]


def test_a_number_that_counts_is_asked_of_each_book(monkeypatch):
    def mains(*numbers):
        return sheet_of(["Main", "Housing bore"], *([n, 2.75] for n in numbers))

    books = [mains(1, 2, 3), mains(4, 5, 6), mains(1, 2, 3), mains(4, 5, 6), mains(61, 64, 62)]
    # What was read of either stays kept, since its numbers answer as they did.
    assert blocks_read(monkeypatch, *books) == [1, 1, 0, 0, 1]


def test_pressures_that_come_to_count_head_what_stands_below(monkeypatch):
    # Three readings about alike, and three cylinders over the same sizes.
    readings, counted = (
        sheet_of(["Cylinder", *row], ["Bore", 4.03, 4.031, 4.032])
        for row in ([171, 168, 174], [1, 2, 3])
    )
    assert blocks_read(monkeypatch, readings, counted, readings, counted) == [1, 1, 0, 0]
    found, _, _ = read_of(counted)
    assert [spot.which.number for spot in found if spot.row == 2] == [1, 2, 3]


@pytest.mark.parametrize(
    ("rows", "one", "other"),
    [
        # "Finish" of a size is when it was taken, and of a roughness it is what was measured.
        (
            [["", "Bore", "Pin"], ["found", 4.031, 2.01]],
            ["finish", 4.035, 2.02],
            ["finish", 0.8, 0.4],
        ),
        # A first column with a head that is sized counts beside sizes alone.
        (
            [["Lifter bores", "bore", "lifter"], *([n, 0.842, 0.841] for n in (1, 2, 3))],
            [4, 0.842, 0.841],
            [4, 1200, 1300],
        ),
    ],
    ids=["written as a size", "with digits behind a point"],
)
def test_a_size_that_tells_one_thing_from_another_is_asked_of_each_book(
    rows, one, other, monkeypatch
):
    books = [[*rows, last] for last in (one, other, one)]
    together = [read_of(sheet_of(*book)) for book in books]
    apart = []
    for book in books:
        monkeypatch.setattr(kept_blocks, "_kept", kept_blocks._Kept())
        apart.append(read_of(sheet_of(*book)))
    assert together == apart
    assert together[0] != together[1]


def test_only_so_many_blocks_that_look_alike_are_kept():
    for first in range(1, 9):
        read_of(sheet_of(["Main", "Housing bore"], *([first + n, 2.75] for n in range(3))))
    ((size, alike),) = kept_blocks._kept.blocks.values()
    assert len(alike) == kept_blocks._MOST_ALIKE
    assert size == kept_blocks._kept.cells == 8 * len(alike)


def test_what_is_kept_is_bounded(monkeypatch):
    monkeypatch.setattr(kept_blocks, "_MOST_CELLS", 100)
    monkeypatch.setattr(kept_blocks, "_MOST_OF_A_BLOCK", 50)
    rows = [["Cylinder", 1, 2, 3], *(["Bore", 4.03, 4.03, 4.03] for _ in range(9))]
    for number in range(4):
        read_of(sheet_of(*rows, title=f"Sheet {number}"))
    assert [size for size, _ in kept_blocks._kept.blocks.values()] == [40, 40]  # The latest ones.
    assert kept_blocks._kept.cells == 80
    read_of(sheet_of(*rows, *rows))  # A log, which comes but once.
    assert [size for size, _ in kept_blocks._kept.blocks.values()] == [40, 40]


@pytest.mark.parametrize(
    "row",
    [
        lambda n: [n, *[4.03] * 5],
        lambda n: ["Bore", *[4.03] * 5],
        lambda n: ["top" if n % 9 else "Bore", *[4.03] * 5],
    ],
    ids=["counted", "named", "continued"],
)
def test_time_goes_with_the_rows_of_a_sheet_and_not_with_their_square(row, monkeypatch):
    monkeypatch.setattr(kept_blocks, "_MOST_OF_A_BLOCK", 0)

    def seconds(rows):
        sheet = sheet_of(["Cylinder", 1, 2, 3, 4, 5], *(row(n) for n in range(7, rows)))
        began = time.process_time()
        read_of(sheet)
        return time.process_time() - began

    short, long = (min(seconds(rows) for _ in range(2)) for rows in (300, 2400))
    assert long < 24 * short  # Eight times as many; by their square sixty-four times.


READ = """
import sys
from pathlib import Path
from workbook_tools.jobs.read import read_jobs
for path in sys.argv[1:]:
    for book in read_jobs(Path(path)):
        print(book.file_name, book.readings, book.missing, book.no_readings, book.records)
"""


def printed(paths):
    """What a process of its own reads of books, one after the other."""
    done = subprocess.run(
        [sys.executable, "-c", READ, *map(str, paths)], capture_output=True, check=True, text=True
    )
    return [line.split(" at 0x")[0] for line in done.stdout.splitlines()]


def test_a_book_is_read_alike_before_and_after_another(tmp_path):
    import xlsxwriter

    one, other = tmp_path / "one.xlsx", tmp_path / "other.xlsx"
    for path, rows in ((one, form(1)), (other, form(2))):
        with xlsxwriter.Workbook(path) as made:
            sheet = made.add_worksheet("Build")
            for number, row in enumerate(rows):
                sheet.write_row(number, 0, row)
    first, second = printed([one]), printed([other])
    assert printed([one, other, one]) == [*first, *second, *first]
    assert len(read_jobs(one)[0].readings) > 5
