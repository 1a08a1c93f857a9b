"""The month's tables: where a job stands, how old it is, and fits of mixed units."""

import datetime
import math
import statistics
from dataclasses import replace

import pandas as pd
import pint
import pytest
from sample import call, cell, inch_v8, metric_four, with_readings

from workbook_tools.batch.build import build_of
from workbook_tools.batch.cache import keep, recall
from workbook_tools.findings import check
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Acceptance, Job, JobField, Mark, Office, PartLine
from workbook_tools.jobs.records import Book
from workbook_tools.labels.label import Label
from workbook_tools.month.dated_jobs import day_of
from workbook_tools.month.glance import elsewhere
from workbook_tools.month.period import MonthError, period
from workbook_tools.month.tables import month_tables
from workbook_tools.settings.shop import Shop


def job(number="1", started="", finished="", engine="inch V8, iron", **more):
    fields = {"number": number, "started": started, "finished": finished, "engine": engine}
    texts = Job(**{name: JobField(text) for name, text in (fields | more).items()})
    return Book(f"{number}.xlsx", number.rjust(64, "0"), texts)


def month(*books, name="2026-10", to="", units="inch", **more):
    shop = Shop(units=units)
    builds = [build_of(book, check(book), shop, (), month=True) for book in books]
    return month_tables(period(name, to), builds, units=units, **more)


@pytest.mark.parametrize("text", ["2026-13", "2026-00", "10-2026", "2026", "2026-1", "next", ""])
def test_a_month_that_is_none_is_told(text):
    with pytest.raises(MonthError, match="expected a year and a month as 2026-10, got"):
        period(text)


# The Gregorian rule for leap years, ISO 8601.
@pytest.mark.parametrize(
    ("text", "day"),
    [("2026-10", 31), ("2026-02", 28), ("2028-02", 29), ("2000-02", 29), ("1900-02", 28)],
)
def test_a_month_ends_on_its_last_day(text, day):
    assert period(text).last.day == day


@pytest.mark.parametrize(
    ("started", "finished", "table"),
    [
        ("2026-09-20", "2026-10-01", "builds"),
        ("2026-09-20", "2026-10-31", "builds"),
        ("", "2026-10-15", "builds"),
        ("2026-09-20", "2026-09-30", "earlier"),
        ("2026-09-20", "", "open"),
        ("2026-10-31", "", "open"),
        ("", "", "undated"),
        ("2026-09-20", "TBD", "open"),
        ("2026-09-20", "2026-11-01", "open"),
        ("2026-11-01", "", "later"),
        ("2026-11-01", "2026-11-20", "later"),
        ("2026-09-20", "10/11/2026", "unsettled"),
        ("2026-09-20", "soon", "unsettled"),
        ("2026-09-20", "Oct 2026", "unsettled"),
    ],
)
def test_a_job_stands_where_its_dates_say(started, finished, table):
    tables = month(job(started=started, finished=finished))
    found = {
        "builds": len(tables.builds),
        "open": len(tables.open_jobs),
        "earlier": tables.earlier,
        "later": tables.later,
        "undated": len(tables.undated),
        "unsettled": int(any(tables.unsettled["what"] == "date finished")),
    }
    assert found == {name: int(name == table) for name in found}


def test_a_month_without_a_job_says_in_which_months_the_jobs_are():
    ended = job(started="2026-08-20", finished="2026-09-30")
    begun = job("2", started="2026-12-01")
    tables = month(ended, begun)
    assert tables.elsewhere == (("2026-09", 1), ("2026-12", 1))
    assert elsewhere(tables).endswith("they belong to: 2026-09 (1), 2026-12 (1).")
    assert elsewhere(month(ended, job("3", started="2026-10-02"))) == ""


def test_an_age_is_counted_to_the_months_last_day_and_not_to_today():
    (age,) = month(job(started="2026-09-20")).open_jobs["age"]
    assert age == (datetime.date(2026, 10, 31) - datetime.date(2026, 9, 20)).days == 41


def test_a_job_without_a_date_of_start_has_no_age_and_says_so():
    (row,) = month(job(started="KW 38/26")).open_jobs.to_dict("records")
    assert row["age"] is None
    assert row["note"] == "no date of start, so no age"


def test_a_book_without_any_date_is_not_counted_as_open():
    tables = month(job())
    assert (len(tables.open_jobs), len(tables.paperwork)) == (0, 0)
    assert list(tables.undated) == ["1.xlsx"]
    why = dict(zip(tables.unsettled["what"], tables.unsettled["why"], strict=True))
    assert why["dates"].startswith("no date found")


def test_a_job_finished_since_is_open_in_its_month_and_says_so():
    (row,) = month(job(started="2026-09-20", finished="2026-11-01")).open_jobs.to_dict("records")
    assert row["note"] == "finished since, 2026-11-01"


def test_days_taken_and_days_late_come_from_the_books_own_dates():
    book = replace(
        job(started="2026-09-20", finished="2026-10-05"),
        office=Office(promised=JobField("2026-10-01")),
    )
    (row,) = month(book).builds.to_dict("records")
    assert (row["days"], row["late"]) == (15, 4)
    (row,) = month(replace(book, office=Office())).builds.to_dict("records")
    assert row["late"] is None


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-10-05", "2026-10-05"),
        ("2026-10-05 14:30:00", "2026-10-05"),
        ("5 Oct 2026", "2026-10-05"),
        ("Oct 5, 2026", "2026-10-05"),
        ("25/10/2026", "2026-10-25"),
        ("10/25/2026", "2026-10-25"),
        ("10/10/2026", "2026-10-10"),
        ("", None),
        ("n/a", None),
    ],
)
def test_a_date_that_can_be_one_day_only_is_read(text, day):
    assert day_of(text) == (day and datetime.date.fromisoformat(day), "")


@pytest.mark.parametrize("text", ["10/11/2026", "5/6", "2026-02-30", "when ready"])
def test_a_date_that_can_be_two_days_or_none_is_told(text):
    day, why = day_of(text)
    assert day is None
    assert text in why


def test_a_job_number_on_two_books_is_told():
    tables = month(
        replace(job("7", finished="2026-10-02"), file_name="a.xlsx"),
        replace(job("7", started="2026-10-02"), file_name="b.xlsx", sha256="8" * 64),
    )
    (row,) = tables.unsettled.to_dict("records")
    assert row["what"] == "job number"
    assert row["file"] == "a.xlsx, b.xlsx"


def test_a_build_finished_before_it_was_started_is_told():
    (row,) = month(job(started="2026-10-20", finished="2026-10-02")).unsettled.to_dict("records")
    assert "before it was started" in row["why"]


def test_files_that_could_not_be_read_are_told():
    tables = month(unreadable=[("old.xls", "another kind of file")])
    assert tables.unsettled.to_dict("records") == [
        {"job": "", "what": "file not read", "why": "another kind of file", "file": "old.xls"}
    ]


def quenched(number, decks, gasket, system, engine):
    """A book with a quench for each cylinder."""
    unit = {"inch": "in", "metric": "mm"}[system]
    records = tuple(
        call(
            f"C{i}",
            "Quench",
            "QUENCH",
            cell(f"B{i}", deck, "Deck clearance", f"Cyl {i}", unit),
            gasket,
            system,
            position=f"Cyl {i}",
        )
        for i, deck in enumerate(decks, 1)
    )
    return replace(job(number, finished="2026-10-09", engine=engine), records=records)


@pytest.mark.parametrize("units", ["inch", "metric"])
def test_fits_of_inch_and_metric_books_are_told_in_one_unit(units):
    inch = quenched("1", (0.002, 0.004, 0.003), 0.038, "inch", "V8, iron")
    metric = quenched("2", (0.20, 0.25), 0.85, "metric", "v8, aluminum")
    metric = replace(metric, file_name=inch.file_name)  # as where every job has its folder
    (row,) = [
        r for r in month(inch, metric, units=units).fits.to_dict("records") if r["fit"] == "Quench"
    ]
    # Units by pint, mean and sample deviation by the standard library.
    unit = pint.UnitRegistry().Quantity
    name = {"inch": "inch", "metric": "mm"}[units]
    values = [unit(v, "inch").to(name).magnitude for v in (0.040, 0.042, 0.041)]
    values += [unit(v, "mm").to(name).magnitude for v in (1.05, 1.10)]
    assert (row["builds"], row["readings"], row["engine kind"]) == (2, 5, "V8, size not told")
    assert row["mean"] == pytest.approx(statistics.fmean(values), rel=1e-9)
    assert row["spread"] == pytest.approx(statistics.stdev(values), rel=1e-9)
    assert row["least"] == pytest.approx(min(values), rel=1e-9)
    assert (row["least in"], row["largest in"]) == ("1, Cyl 1", "2, Cyl 2")
    assert row["unit"] == {"inch": "in", "metric": "mm"}[units]


def test_one_reading_has_a_mean_and_no_spread():
    rows = month(quenched("1", (0.002,), 0.038, "inch", "V8")).fits.to_dict("records")
    (row,) = [r for r in rows if r["fit"] == "Quench"]
    assert row["mean"] == pytest.approx(0.040)
    assert row["spread"] is None


def test_only_builds_of_the_month_count_in_its_fits():
    done = quenched("1", (0.002, 0.003), 0.038, "inch", "V8")
    still = replace(done, job=replace(done.job, finished=JobField("")), file_name="2.xlsx")
    assert sum(month(done, still).fits["builds"] > 1) == 0
    assert set(frame(month(done, still).readings)["file"]) == {"1.xlsx"}


def test_a_fit_without_a_unit_is_told_and_left_out():
    play = cell("B2", 0.006, "Crank end play")
    book = job("1", finished="2026-10-09")
    book = replace(book, records=(call("C2", "Verdict", "VERDICT", play, 0.002, 0.008),))
    tables = month(book)
    assert len(tables.fits) == 0
    (row,) = tables.unsettled.to_dict("records")
    assert "Crank end play" in row["what"]
    assert row["why"] == "the book does not tell its unit"


def test_parts_and_signatures_are_those_of_builds_and_open_jobs():
    part = PartLine(Place("Parts", "F9"), "Ring set", "short: second rings")
    places = Place("Release", "A41"), Place("Release", "A42")
    marks = [
        Mark(place, Label("Checked by"), said, state, place)
        for place, said, state in zip(places, ("", "IT"), ("empty", "made"), strict=True)
    ]
    book = replace(
        job("1", started="2026-10-01"),
        office=Office(parts=(part,), part_lists=1),
        marks=tuple(marks),
    )
    tables = month(book)
    assert tables.parts[["part", "the book says"]].to_numpy().tolist() == [
        ["Ring set", "short: second rings"]
    ]
    assert list(tables.signatures["line"]) == ["Checked by"]
    (paper,) = tables.paperwork.to_dict("records")
    assert (paper["parts"], paper["signatures"]) == ("1 to order", "1 of 2 places empty")
    gone = replace(book, job=replace(book.job, finished=JobField("2026-09-01")))
    assert len(month(gone).parts) == len(month(gone).paperwork) == 0


def test_what_somebody_has_accepted_is_listed_and_not_counted():
    book = replace(inch_v8(), job=job("1", finished="2026-10-09").job)
    (first, *others) = check(book)
    by = Acceptance(None, "quench", "", "R. Lund", "2026-10-08", "the maker allows it")
    found = (replace(first, accepted=by), *others)
    builds = [build_of(book, found, Shop(), (), month=True)]
    tables = month_tables(period("2026-10"), builds)
    (row,) = tables.builds.to_dict("records")
    assert (row["findings"], row["accepted"]) == (len(others), 1)
    assert len(tables.findings) == len(found)
    assert sum(tables.kinds["findings"]) == len(others)
    assert list(filter(None, (row[-1] for row in tables.findings))) == [str(by)]


def test_a_book_that_is_silent_is_not_taken_to_need_nothing():
    (paper,) = month(job("1", started="2026-10-01")).paperwork.to_dict("records")
    assert paper["parts"] == "the book has no list of parts"
    assert paper["signatures"] == "the book has no place for signatures"


def test_a_month_without_books_has_empty_tables():
    tables = month()
    assert not any(len(t) for t in (tables.builds, tables.open_jobs, tables.fits, tables.findings))


def frame(rows):
    return pd.DataFrame(list(rows), columns=rows.columns, dtype=object)


def test_readings_of_the_month_are_one_row_each():
    books = [with_readings(book) for book in (inch_v8(), metric_four())]
    readings = frame(month(*books, name="2024-04").readings)
    assert set(readings["file"]) == {"24-031 small V8.xlsx", "four.ods"}
    bores = readings[readings["label"].str.match(r"Bore, (?:Cyl )?\d")]
    assert len(bores) == 8 + 4
    assert not any(isinstance(v, float) and math.isnan(v) for v in bores["value"])


def test_what_fills_pages_is_asked_for_only_where_a_table_needs_it():
    done = quenched("1", (0.002,), 0.038, "inch", "V8")
    others = [
        job("2", started="2026-09-20"),
        job("3", started="2026-09-20", finished="soon"),
        job("4", finished="2026-09-20"),
        job("5", started="2026-11-01"),
    ]
    builds = [build_of(b, check(b), Shop(), (), month=True) for b in (done, *others)]
    asked = []

    def whole(at):
        asked.append(at)
        return builds[at]

    october = period("2026-10")
    tables = month_tables(october, [build.brief for build in builds], whole=whole)
    assert asked == [0, 1, 2]
    held = month_tables(period("2026-10"), builds)
    assert len(held.readings) > 0
    for name, table in vars(held).items():
        if isinstance(table, pd.DataFrame):
            pd.testing.assert_frame_equal(getattr(tables, name), table)
    assert list(tables.readings) == list(held.readings)
    assert list(tables.findings) == list(held.findings)
    assert list(tables.fit_reading_rows()) == list(held.fit_reading_rows())


@pytest.mark.parametrize("book", [inch_v8(), metric_four()], ids=["inch", "metric"])
def test_what_a_month_needs_is_kept_as_it_was(book, tmp_path):
    build = build_of(book, check(book), Shop(units="metric"), ("html",), month=True)
    assert len(build.month.fits) > 0
    assert len(build.month.readings) > 0
    keep(tmp_path, "key", (build,))
    assert recall(tmp_path, "key", whole=True) == (build,)
    assert recall(tmp_path, "key", whole=False) == (build.brief,)
