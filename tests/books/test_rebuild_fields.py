"""Fields of jobs on tickets of parts, in more words, and once over a list of jobs or rebuilds.

That shops keep such sheets is common practice, no source.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import pytest
from books.small_sheet import Rows

from workbook_tools.findings import check_batch
from workbook_tools.jobs.read import read_jobs

DAY = datetime.datetime
SIZE = ["Bore (mm)", 86.01]


def fields(
    make_book: Callable[..., Path], rows: Sequence[Sequence[object]]
) -> list[dict[str, str]]:
    """The fields of each job of a sheet that say something."""
    jobs = read_jobs(make_book({"Sheet1": [list(row) for row in rows]}))
    return [{k: v.text for k, v in vars(job.job).items() if v.text} for job in jobs]


@pytest.mark.parametrize(
    ("label", "field", "text"),
    [
        ("Crank ticket", "number", "C-118"), ("Block ticket", "number", "C-118"),
        ("Grind ticket", "number", "C-118"), ("Rod card", "number", "C-118"),
        ("Réf dossier", "number", "D-09"), ("Carte n", "number", "D-09"),
        ("Shop lead", "builder", "Pim"), ("Lead hand", "builder", "Pim"),
        ("Visa", "builder", "Zoé"), ("Last apart by", "builder", "Pim"),
        ("gebaut", "builder", "Jo"), ("Rolled in", "started", "2024-03-04"),
        ("Rolled out", "finished", "2024-03-04"),
    ],
)  # fmt: skip
def test_more_words_for_numbers_and_builders(
    make_book: Callable[..., Path], label: str, field: str, text: str
) -> None:
    (found,) = fields(make_book, [[label, text], ["Customer", "Ostrow"], SIZE])
    assert found.get(field) == text


def test_tickets_side_by_side(make_book: Callable[..., Path]) -> None:
    rows: Rows = [["Crank ticket", "C-118", "Head ticket", "H-119", "Block ticket", "B-120"],
            ["Customer", "Ostrow"], ["Engine", "inline four"], [], SIZE]  # fmt: skip
    (found,) = fields(make_book, rows)
    assert found == {"number": "C-118", "customer": "Ostrow", "engine": "inline four"}


@pytest.mark.parametrize(
    ("started", "finished"),
    [("Débarqué le", "Rembarqué le"), ("Ouverte le", "Fermée le"),
     ("Débarqué", "Rembarqué"), ("Ouverte", "Clos le")],
)  # fmt: skip
@pytest.mark.parametrize("alone", [False, True])
def test_out_of_the_boat_and_into_it(
    make_book: Callable[..., Path], started: str, finished: str, alone: bool
) -> None:
    dates = [[started, DAY(2025, 2, 4)], [finished, DAY(2025, 3, 11)]]
    rows: Rows = [["Dossier", "D-09"], *dates[alone:], SIZE]
    (found,) = fields(make_book, rows)
    assert found.get("finished") == "2025-03-11"
    assert found.get("started") == (None if alone else "2025-02-04")


@pytest.mark.parametrize(
    ("label", "name", "taken"),
    [
        ("Builder", "Fermín", True), ("Builder", "fermín", False), ("Customer", "Fermín", False),
        ("Builder", "Stroke", False),
    ],
)  # fmt: skip
def test_a_name_that_is_nearly_a_word_of_the_trade(
    make_book: Callable[..., Path], label: str, name: str, taken: bool
) -> None:
    (found,) = fields(make_book, [["Job", "D-09"], [label, name], SIZE])
    assert (found.get(label.casefold()) == name) == taken


HEADS = ["Job no.", "Customer", "Bore (mm)", "Piston (mm)"]
JOBS = [["26-01", "Tann", 79.01, 78.95], ["26-02", "Ostrow", 79.02, 78.95]]


@pytest.mark.parametrize(
    ("above", "expected"),
    [
        pytest.param([["Engine", "single 350"], ["Builder", "Nuria"]],
                     {"engine": "single 350", "builder": "Nuria"}, id="once"),
        pytest.param([["Engine", "single 350"], ["Builder", "Nuria"], ["Builder", "Pim"]],
                     {"engine": "single 350"}, id="two builders"),
    ],
)  # fmt: skip
def test_what_stands_once_over_a_list_holds_for_all_of_it(
    make_book: Callable[..., Path],
    above: Sequence[Sequence[object]],
    expected: Mapping[str, str],
) -> None:
    found = fields(make_book, [*above, [], HEADS, *JOBS])
    assert found == [{"number": number, "customer": name, **expected} for number, name, *_ in JOBS]


def test_what_a_list_says_of_its_jobs_is_not_said_for_all(make_book: Callable[..., Path]) -> None:
    heads = ["Job no.", "Customer", "Builder", "Bore (mm)", "Piston (mm)"]
    rows: Rows = [["26-01", "Tann", "Pim", 79.01, 78.95], ["26-02", "Ostrow", None, 79.02, 78.95],
            ["26-03", "Rieck", "Pim", 79.01, 78.95]]  # fmt: skip
    found = fields(make_book, [["Builder", "Nuria"], [], heads, *rows])
    assert [one.get("builder") for one in found] == ["Pim", None, "Pim"]


def test_rebuilds_of_one_engine_have_one_owner(make_book: Callable[..., Path]) -> None:
    rows: Rows = [
        ["Engine", "Falke 125"], ["Owner", "Ostrow"], ["Builder", "Nuria"], [],
        ["Rebuild no.", "Date in", "Date out", "Bore (mm)"],
        ["1", DAY(2024, 3, 4), DAY(2024, 4, 4), 54.01],
        ["2", DAY(2025, 3, 4), DAY(2025, 4, 4), 54.02],
    ]  # fmt: skip
    of_all = {"engine": "Falke 125", "customer": "Ostrow", "builder": "Nuria"}
    assert fields(make_book, rows) == [
        {"number": "1", **of_all, "started": "2024-03-04", "finished": "2024-04-04"},
        {"number": "2", **of_all, "started": "2025-03-04", "finished": "2025-04-04"},
    ]


HISTORY: Rows = [
    ["rebuild", "all in inches", "R1", "spare block", "R2", "R3"],
    ["stripped", None, DAY(2019, 11, 16), None, DAY(2021, 1, 9), DAY(2022, 10, 29)],
    ["run again", None, DAY(2020, 3, 7), None, DAY(2021, 4, 3), DAY(2023, 3, 18)],
    ["BORES & PISTONS"],
    *([f"bore {n}", None, 3.2077, "scrap", 3.2082, 3.2276 + n / 1e4] for n in (1, 2, 3, 4)),
    ["gaps"],
    *([f"top {n}", None, 0.013, None, 0.0125 + n / 2e3, 0.0125 + n / 2e3] for n in (1, 2, 3, 4)),
    *([f"second {n}", None, 0.01, None, 0.012 - n / 5e3, 0.012 - n / 5e3] for n in (1, 2, 3, 4)),
    *([f"chamber {n} cc", None, 33.4, None, 32 + n / 10, 32 + n / 10] for n in (1, 2, 3, 4)),
]


def test_rebuilds_side_by_side_with_another_column_between(
    make_book: Callable[..., Path],
) -> None:
    numbers = [(one["number"], one["started"]) for one in fields(make_book, HISTORY)]
    assert numbers == [("R1", "2019-11-16"), ("R2", "2021-01-09"), ("R3", "2022-10-29")]


def test_labels_that_count_are_of_their_title_and_of_the_values_further_on(
    make_book: Callable[..., Path],
) -> None:
    jobs = read_jobs(make_book({"history": HISTORY}))
    told = [{r.place.address: (r.measurand, r.part.number) for r in job.readings} for job in jobs]
    assert told[0]["C11"] == ("top_ring_gap", 2)
    assert told[1]["E15"] == ("second_ring_gap", 2)
    assert told[2]["F19"] == ("chamber_volume", 2)
    assert not any("A19" in one for one in told)


def test_a_rebuild_copied_from_the_one_before(make_book: Callable[..., Path]) -> None:
    jobs = read_jobs(make_book({"history": HISTORY}))
    found = check_batch(jobs)
    assert {n: [f.kind for f in each] for n, each in found.items()} == {
        1: ["copied reading"], 2: ["copied reading"],
    }  # fmt: skip


def test_jobs_side_by_side_with_codes_that_no_label_heads(make_book: Callable[..., Path]) -> None:
    rows: Rows = [
        ["Angabe", "Einheit", "Winter 22/23", "Winter 23/24"],
        ["Stand", None, "M1-03", "M1-04"],
        ["Motor", None, "Falbach 1,6", "Falbach 1,6"],
        ["zerlegt am", None, DAY(2022, 11, 5), DAY(2023, 10, 28)],
        ["Probelauf", None, DAY(2023, 3, 11), DAY(2024, 3, 2)],
        ["Bohrung Z1", "mm", 79.51, 79.525],
    ]
    told = [(one["number"], one["finished"]) for one in fields(make_book, rows)]
    assert told == [("M1-03", "2023-03-11"), ("M1-04", "2024-03-02")]


@pytest.mark.parametrize("code", ["KT-1", "GP-57"])
def test_an_engine_by_its_code_is_the_number_beside_what_it_is(
    make_book: Callable[..., Path], code: str
) -> None:
    rows: Rows = [["Eng", code, "For", "Hugo Fane"], ["Start", DAY(2025, 1, 13), "Asm", "Pat"]]
    (found,) = fields(make_book, [*rows, ["Car", "357 late model"], SIZE])
    assert found == {
        "number": code, "customer": "Hugo Fane", "engine": "357 late model", "builder": "Pat",
        "started": "2025-01-13",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("engine", "car"),
    [("V8", "357 late model"), ("MR 18", "1600 coupe"), ("KT-1", "2004 coupe"), ("KT-1", "coupe")],
)
def test_what_can_be_the_kind_of_an_engine_is_no_number(
    make_book: Callable[..., Path], engine: str, car: str
) -> None:
    (found,) = fields(make_book, [["Engine", engine, "For", "Fane"], ["Car", car], SIZE])
    assert (found.get("number"), found["engine"]) == (None, engine)


def test_a_measuring_exercise_of_a_school(make_book: Callable[..., Path]) -> None:
    rows: Rows = [
        ["Job sheet no.", "G3-E07", None, "Students", "Aisha / Pim / Jo"],
        ["Engine", "Bench engine 7, 4 cyl", None, "Date", DAY(2025, 3, 11)],
        ["Teacher", "Mr Tann", None, "Handed in", DAY(2025, 3, 18)],
        SIZE,
    ]
    (found,) = fields(make_book, rows)
    assert found == {
        "number": "G3-E07", "engine": "Bench engine 7, 4 cyl", "builder": "Aisha / Pim / Jo",
        "started": "2025-03-11", "finished": "2025-03-18",
    }  # fmt: skip


def test_what_a_customer_handed_in_was_collected_later(make_book: Callable[..., Path]) -> None:
    rows: Rows = [["Job", "26-041", "Engine", "inline four"], ["Handed in", DAY(2025, 3, 11)],
                  ["Collected", DAY(2025, 3, 18)], SIZE]  # fmt: skip
    (found,) = fields(make_book, rows)
    assert (found["started"], found["finished"]) == ("2025-03-11", "2025-03-18")


def test_a_date_alone_is_no_first_day(make_book: Callable[..., Path]) -> None:
    """As it may be that of the sheet, so behind the last day."""
    head: Rows = [["Job", "26-041", "Engine", "inline four"], ["Builder", "Pim"]]
    date: Rows = [["Date", DAY(2025, 3, 21)]]
    (found,) = fields(make_book, [*head, *date, SIZE])
    assert "started" not in found
    (found,) = fields(make_book, [*head, ["Handed in", DAY(2025, 3, 18)], *date, SIZE])
    assert (found.get("started"), found["finished"]) == (None, "2025-03-18")


def test_a_session_on_the_dyno(make_book: Callable[..., Path]) -> None:
    rows: Rows = [
        ["Session", "S-0931", "Booked", DAY(2025, 5, 26)],
        ["Client", "Ada Quill", "Last pull", DAY(2025, 5, 28)],
        ["Engine", "427 big block"],
        SIZE,
    ]
    (found,) = fields(make_book, rows)
    assert (found["number"], found["started"], found["finished"]) == (
        "S-0931", "2025-05-26", "2025-05-28",
    )  # fmt: skip


@pytest.mark.parametrize("price", ["Invoice £", "Invoice (EUR)", "Job $"])
def test_engines_of_a_team_by_their_tags_and_not_by_their_prices(
    make_book: Callable[..., Path], price: str
) -> None:
    rows: Rows = [
        ["Engine tag", "KT-1", "KT-2", "KT-3"],
        ["Driver", "Ada Quill", "Ada Quill", "Hugo Fane"],
        ["Type", "125 reed single", "125 reed single", "100 piston port single"],
        ["Bore (mm)", 54.01, 54.02, 50.11],
        [price, 310, 295, 340],
    ]
    found = fields(make_book, rows)
    assert [(one["number"], one["engine"]) for one in found] == [
        ("KT-1", "125 reed single"),
        ("KT-2", "125 reed single"),
        ("KT-3", "100 piston port single"),
    ]


def test_the_tag_of_an_engine_that_is_no_code_is_what_it_is(make_book: Callable[..., Path]) -> None:
    rows: Rows = [["Engine tag", "Wren 200 #1"], ["For", "Fane"], ["Builder", "Pat"], SIZE]
    (found,) = fields(make_book, rows)
    assert (found.get("number"), found["engine"]) == (None, "Wren 200 #1")
    (found,) = fields(make_book, [["Engine tag", "KT-1"], *rows[1:]])
    assert (found["number"], found.get("engine")) == ("KT-1", None)
