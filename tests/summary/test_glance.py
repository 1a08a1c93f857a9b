"""At a glance: the ratio, the quench and the worst clearance of a build."""

import pytest
from example_builds import example_book, example_summary

from workbook_tools.render.html import render_html
from workbook_tools.summary.summary import summarize


def told(book):
    return {one.name: one for one in summarize(book, ()).glance}


def test_a_number_outside_its_band_is_the_worst_clearance():
    glance = told(example_book("troubled_six"))
    worst = glance["Worst clearance"]
    assert (worst.text, worst.verdict) == ("0.0034 in", "high")
    assert worst.said == "Main bearing clearance, Main 4, high, band 0.0018 to 0.0028"
    # Wanted by the book, and nowhere measured.
    assert glance["Quench"][1:] == ("", "no value", "")


@pytest.mark.parametrize(
    ("mains", "rods", "worst"),
    [
        # Bands of the book: mains 0.0015 to 0.0025, rods 0.0010 to 0.0030.
        ((0.0020, 0.0016), (0.0020, 0.0020), "Main bearing clearance, Main 2"),
        ((0.0020, 0.0021), (0.0020, 0.0029), "Rod bearing clearance, Rod 2"),
        ((0.0020, 0.0026), (0.0020, 0.0029), "Main bearing clearance, Main 2"),
        # 0.0003 outside a band of 0.0010 is worse than 0.0004 outside one of 0.0020.
        ((0.0020, 0.0028), (0.0020, 0.0034), "Main bearing clearance, Main 2"),
    ],
)
def test_the_worst_lies_farthest_out_or_nearest_to_a_limit(written, mains, rods, worst):
    book = written(
        ["", "Main 1", "Main 2"],
        ["Main bearing clearance (in)", *mains],
        ["In band", "=ENG.JUDGE(B2:C2,2,0.0015,0.0025)"],
        [],
        ["", "Rod 1", "Rod 2"],
        ["Rod bearing clearance (in)", *rods],
        ["In band", "=ENG.JUDGE(B6:C6,2,0.001,0.003)"],
    )
    glance = told(book)
    assert glance["Worst clearance"].said.startswith(worst)
    assert glance["Ratio"][1:] == ("", "not in the book", "")


def test_a_quench_of_the_warm_engine_stands_in_where_no_other_is_known(written):
    book = written(
        ["", "Cyl 1", "Cyl 2"],
        ["Deck clearance (in)", -0.002, -0.0025],
        ["Quench, warm", "=ENG.HOT_QUENCH(B2,0.038,0.004)", "=ENG.HOT_QUENCH(C2,0.038,0.004)"],
    )
    glance = told(book)
    assert glance["Quench, hot"].text == "0.0395 to 0.0400 in"
    assert "Quench" not in glance
    assert glance["Worst clearance"].said == "not in the book"


def test_the_three_stand_at_the_head_of_the_page():
    page = render_html(example_summary("inch_v8"))
    head = page.partition("<h2")[0]
    for name in ("Ratio", "Quench", "Worst clearance"):
        assert f"<dt>{name}</dt>" in head
