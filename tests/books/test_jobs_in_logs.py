"""Fields of jobs, and jobs apart, in logs and forms as shops keep them.

That builders write so is common practice, no source.
"""

from __future__ import annotations

import datetime

import openpyxl

from workbook_tools.jobs.read import read_jobs

DAY = datetime.date(2025, 1, 6)


def days(number):
    return DAY + datetime.timedelta(days=number)


def jobs_of(make_book, sheets):
    return [book.job for book in read_jobs(make_book(sheets))]


def test_a_log_is_numbered_by_its_first_column_whatever_its_head_says(make_book):
    heads = ["Inv", "In", "Out", "Who for", "Motor", "By", "Bore", "Stroke", "End"]
    rows = [
        ["5011", days(0), days(28), "Pruett", "inline 350", "Gil", 4.0302, 3.48, 0.005],
        ["5014", days(14), days(49), "Oates", "inline 454", "Gil", 4.3107, 4.0, 0.004],
    ]
    jobs = jobs_of(make_book, {"2025": [heads, *rows]})
    assert [job.number.text for job in jobs] == ["5011", "5014"]
    assert [job.finished.text for job in jobs] == [str(days(28)), str(days(49))]


def test_groups_over_the_heads_of_a_log_head_them_too(make_book):
    groups = ["JOB", None, None, "BORE & PISTON", None, "RING GAP", None]
    heads = ["Job no", "In", "Customer", "Bore", "Piston", "Top", "2nd"]
    rows = [["5011", days(0), "Pruett", 4.0302, 4.0278, 0.017, 0.021],
            ["5014", days(9), "Oates", 4.3107, 4.3086, 0.019, 0.02]]  # fmt: skip
    path = make_book({"2025": [groups, heads, *rows]})
    workbook = openpyxl.load_workbook(path)
    for area in ("A1:C1", "D1:E1", "F1:G1"):
        workbook["2025"].merge_cells(area)
    workbook.save(path)
    for book in read_jobs(path):
        assert {r.measurand for r in book.readings} == {
            "bore", "piston_diameter", "top_ring_gap", "second_ring_gap"
        }  # fmt: skip


def test_two_dates_behind_words_that_nobody_knows_are_when_a_job_began_and_ended(make_book):
    rows = [["Job", "M-1163", "Owner", "C. Anstey", "Engine", "six"],
            ["Mechanic", "Wes", "Lifted", days(0), "Refloated", days(90)],
            ["Bore", 3.9052]]  # fmt: skip
    (job,) = jobs_of(make_book, {"S": rows})
    assert (job.started.text, job.finished.text) == (str(days(0)), str(days(90)))


def test_a_date_promised_is_none_of_them(make_book):
    rows = [["Job", "M-1163", "Owner", "C. Anstey", "Engine", "six"],
            ["Mechanic", "Wes", "Promised", days(0)], ["Bore", 3.9052]]  # fmt: skip
    (job,) = jobs_of(make_book, {"S": rows})
    assert (job.started.text, job.finished.text) == ("", "")


def test_dates_stand_below_their_labels_as_the_other_fields_do(make_book):
    rows = [["W.O.", None, "Name", None, "Motor"], ["14-0873", None, "R. Castellane", None, "350"],
            ["Rec'd", None, "Done", None, "Phone"],
            ["4/8/24", None, "5/17/24", None, "614-555-0188"], ["Bore", 4.03]]  # fmt: skip
    (job,) = jobs_of(make_book, {"S": rows})
    assert job.number.text == "14-0873"
    assert (job.started.text, job.finished.text) == ("2024-04-08", "2024-05-17")


def test_a_date_is_no_number_of_a_job(make_book):
    rows = [["Zettel Nr", None, "Kundschaft"], ["M 88", None, "Hr. Pichler"],
            ["angefangen", None, "fertig"], ["6. Nov. 2023", None, "19. Dez. 2023"],
            ["Bohrung mm", 80.26]]  # fmt: skip
    (job,) = jobs_of(make_book, {"S": rows})
    assert job.number.text == "M 88"


def test_a_number_may_say_that_it_is_one(make_book):
    (job,) = jobs_of(make_book, {"S": [["Job", "No. 291", "For", "Estate of H. Pell"]]})
    assert job.number.text == "No. 291"


def test_a_shop_that_numbers_its_engines_numbers_its_jobs_by_them(make_book):
    rows = [["Engine no", "VR-9", "Motor", "1500 twin cam", "Owner", "Hugo Fane"],
            ["Built by", "Pat", "Started", days(0)], ["Bore mm", 82.55]]  # fmt: skip
    (job,) = jobs_of(make_book, {"Calder": rows})
    assert job.number.text == "VR-9"


def test_a_job_on_a_sheet_of_its_own_stands_beside_a_list_of_jobs(make_book):
    listed = [["Build no", "B1", "B2", "B3"], ["For", "Tolland", "Tolland", "Danny"],
              ["Engine", "125", "125", "125"], ["By", "Mick", "Mick", "Mick"],
              ["Bore mm", 54.018, 54.024, 54.03]]  # fmt: skip
    own = [["Build", "T250-7", "Customer", "Wes Harkaway"], ["Engine", "twin 250"],
           ["Built by", "Mick"], ["Bore mm", 54.012]]  # fmt: skip
    jobs = jobs_of(make_book, {"125": listed, "250": own})
    assert [job.number.text for job in jobs] == ["B1", "B2", "B3", "T250-7"]


def test_initials_in_a_log_tell_no_side(make_book):
    heads = ["Ticket", "Recd", "Done", "For", "What", "Op.", "bore", "piston"]
    rows = [["3310", days(0), days(3), "Lyle", "283 V8", "RH", 3.9052, 3.903],
            ["3311", days(5), days(8), "Ace", "24hp twin", "LH", 3.1698, 3.1679]]  # fmt: skip
    for book in read_jobs(make_book({"log": [heads, *rows]})):
        assert [r.part.bank for r in book.readings] == ["", ""]


def test_heads_that_are_cut_short_name_what_their_words_do(make_book):
    heads = ["lfd. Nr.", "Eing.", "Kd.", "Motor", "Ø neu", "Kolben", "gem. v.", "Ausg."]
    rows = [["24/1", "08.01.24", "Thiede", "125 2T", 52.5, 52.455, "Uk", "12.01.24"],
            ["24/2", "10.01.24", "Oelkers", "250 4T", 68.5, 68.45, "Timo", "15.01.24"]]  # fmt: skip
    jobs = jobs_of(make_book, {"Buch": [heads, *rows]})
    assert [job.builder.text for job in jobs] == ["Uk", "Timo"]
    assert [job.started.text for job in jobs] == ["2024-01-08", "2024-01-10"]
    assert [job.finished.text for job in jobs] == ["2024-01-12", "2024-01-15"]


def test_a_head_that_can_be_two_fields_is_what_its_values_and_the_others_leave(make_book):
    heads = ["OT", "Entr.", "Entr.", "Cliente", "Motor", "Ø cil", "Ø pistón", "Oper."]
    rows = [["T-1", "13/2/24", "20/2/24", "Cano", "D4 2.5", 93.5, 93.45, "Edu"],
            ["T-2", "15/2/24", "21/2/24", "Rey", "125", 54.0, 53.96, "Edu"]]  # fmt: skip
    jobs = jobs_of(make_book, {"Hoja1": [heads, *rows]})
    assert [job.started.text for job in jobs] == ["2024-02-13", "2024-02-15"]
    assert [job.finished.text for job in jobs] == ["2024-02-20", "2024-02-21"]


def test_dates_of_a_log_behind_unknown_heads_or_none_are_in_their_order(make_book):
    def log(*heads):
        rows = [[["A1", days(0), days(7), "Roach", "350", "BK", 4.03, 4.026],
                 ["A2", days(1), days(9), "Doyle", "304", "LT", 3.78, 3.776]]]  # fmt: skip
        names = ["Job", *heads[:2], "Customer", "Engine", heads[2], "Bore", "Piston"]
        return jobs_of(make_book, {"log": [names, *rows[0]]})

    for heads in (("In", None, None), ("Lifted", "Refloated", "By"), ("date", "out", "By")):
        jobs = log(*heads)
        assert [job.started.text for job in jobs] == [str(days(0)), str(days(1))]
        assert [job.finished.text for job in jobs] == [str(days(7)), str(days(9))]
        assert [job.builder.text for job in jobs] == ["BK", "LT"]
        assert [job.engine.text for job in jobs] == ["350", "304"]
    assert [job.finished.text for job in log("In", "Promised", "By")] == ["", ""]


def test_jobs_in_columns_have_dates_behind_unknown_words(make_book):
    rows = [["what it is", "Plover 3 hp", "Hasel 6 hp"], ["tag", "PC-1", "GL-2"],
            ["whose", "mine", "Emil"], ["found in the barn", days(0), days(9)],
            ["first smoke", days(90), days(99)], ["bore", 4.5, 5.0]]  # fmt: skip
    jobs = jobs_of(make_book, {"engines": rows})
    assert [job.started.text for job in jobs] == [str(days(0)), str(days(9))]
    assert [job.finished.text for job in jobs] == [str(days(90)), str(days(99))]


def test_what_other_sheets_hold_of_jobs_of_a_log_belongs_to_them(make_book):
    log = [["Job", "In", "Customer", "Engine"], ["25-004", days(0), "Bayliss", "450 jet"],
           ["25-007", days(1), "Prather", "350"]]  # fmt: skip
    numbered = [[None, "bore", "piston"], ["25-004", 4.5, 4.495], ["25-007", 4.03, 4.026]]
    for more in (
        {"sizes": numbered},
        {
            "25-004": [["bore", 4.5], ["piston", 4.495]],
            "25-007": [["bore", 4.03], ["piston", 4.026]],
        },
    ):
        books = read_jobs(make_book({"log": log, **more}))
        assert [book.job.customer.text for book in books] == ["Bayliss", "Prather"]
        found = [{r.measurand: r.value for r in book.readings} for book in books]
        assert found == [
            {"bore": 4.5, "piston_diameter": 4.495}, {"bore": 4.03, "piston_diameter": 4.026}
        ]  # fmt: skip


def test_a_first_column_without_a_head_that_counts_is_of_no_jobs(make_book):
    log = [["Job", "In", "Customer", "Engine"], ["1", days(0), "Bayliss", "twin"],
           ["2", days(1), "Prather", "twin"]]  # fmt: skip
    sizes = [[None, "bore", "piston"], [1, 4.5, 4.495], [2, 4.5, 4.495]]
    books = read_jobs(make_book({"log": log, "sizes": sizes}))
    assert all(not book.readings for book in books)


def log(*rows):
    heads = ["tag", "whose", "motor", "who", "in", "out", "bore", "pist", "TRG", "2RG", "squish"]
    return [["motors out the door (inch)"], [], heads, *rows]


def engine(number, first):
    who = [f"KM-{number}", "Dale", "single 196", "Chet", days(first), days(first + 9)]
    return [*who, 2.6896, 2.686, 0.013, 0.016, 0.06]


def test_a_log_goes_on_past_a_gap_and_the_name_of_a_year(make_book):
    rows = [engine(41, 0), engine(42, 9), [], ["--- 2025 ---"], engine(43, 30), engine(44, 44)]
    jobs = read_jobs(make_book({"2024-25": log(*rows)}))
    assert [job.job.number.text for job in jobs] == ["KM-41", "KM-42", "KM-43", "KM-44"]
    told = {r.place.address: r.measurand for r in jobs[0].readings}
    assert (told["I4"], told["J4"]) == ("top_ring_gap", "second_ring_gap")


def test_a_job_of_two_columns_beside_others_of_one(make_book):
    rows = [
        ["Job", "PT-311", "PT-313", None, "PT-314"],
        ["Owner", "Callum", "R. Duxbury", None, "Finlay"],
        ["Motor", "kart 125", "twin 350", None, "single 85"],
        ["In", days(0), days(9), None, days(20)],
        [],
        ["Cylinder", 1, 1, 2, 1],
        ["Bore (mm)", 54.003, 64.751, 64.748, 47.508],
        ["Piston (mm)", 53.955, 64.696, 64.695, 47.46],
        ["Squish (mm)", 0.95, 1.3, 1.25, 0.8],
    ]
    jobs = read_jobs(make_book({"Top ends": rows}))
    assert [job.job.number.text for job in jobs] == ["PT-311", "PT-313", "PT-314"]
    told = {r.place.address: (r.measurand, r.part.number) for r in jobs[1].readings}
    assert (told["C7"], told["D7"]) == (("bore", 1), ("bore", 2))
