"""Jobs of a file without worksheet functions: each sheet, block or row one, or none."""

import pytest

from workbook_tools.jobs.read import read_jobs


def test_each_sheet_of_a_big_file_can_be_a_job(make_book):
    def job(number, deck):
        return [
            ["Job no.", number],
            ["All dims inch"],
            ["Deck clearance", deck],
            ["Gasket thickness", 0.04],
        ]

    jobs = read_jobs(make_book({"24-01": job("24-01", 0.005), "24-02": job("24-02", 0.007)}))
    assert [j.job.number.text for j in jobs] == ["24-01", "24-02"]
    assert [j.part for j in jobs] == ["24-01", "24-02"]
    assert [j.records[0].value for j in jobs] == pytest.approx([0.045, 0.047])


def test_blocks_of_one_sheet_can_be_jobs(make_book):
    rows = []
    for number, deck in (("24-01", 0.005), ("24-02", 0.007), ("24-03", 0.009)):
        rows += [
            ["Job no.", number],
            ["Deck clearance (in)", deck],
            ["Gasket thickness (in)", 0.04],
            [],
        ]
    jobs = read_jobs(make_book({"Book": rows}))
    assert [j.job.number.text for j in jobs] == ["24-01", "24-02", "24-03"]
    assert [j.records[0].value for j in jobs] == pytest.approx([0.045, 0.047, 0.049])
    assert str(jobs[2].records[0].arguments[0].place) == "Book!B10"


def test_each_row_of_a_table_can_be_a_job(make_book):
    rows = [
        ["Job", "Customer", "Deck clearance (in)", "Gasket thickness (in)"],
        ["24-01", "R. Dell", 0.005, 0.04],
        ["24-02", "M. Okoro", 0.007, 0.04],
        ["24-03", "L. Berg", 0.009],
    ]
    jobs = read_jobs(make_book({"Book": rows}))
    assert [j.job.customer.text for j in jobs] == ["R. Dell", "M. Okoro", "L. Berg"]
    assert [j.records[0].value for j in jobs[:2]] == pytest.approx([0.045, 0.047])
    assert str(jobs[1].records[0].arguments[0].place) == "Book!C3"
    assert not jobs[2].records


def test_an_inner_sheet_left_over_from_the_last_job_makes_no_second_job(make_book):
    book = {
        "Front": [["Job no.", "24-02"], ["Customer", "R. Dell"], ["Engine", "V8"]],
        "Crank": [
            ["Job no.", "24-01"],
            ["Stroke (in)", 3.5],
            ["Bore (in)", 4.0],
            ["Rod length (in)", 6.0],
        ],
    }
    assert len(read_jobs(make_book(book))) == 1
