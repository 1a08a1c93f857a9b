"""What rests on a number that a finding doubts is marked too, on both copies."""

from workbook_tools.findings import check
from workbook_tools.findings.codes import CODES
from workbook_tools.render.html import render_customer, render_html
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.customer import customer_copy
from workbook_tools.summary.summary import DOUBTING, summarize


def test_what_doubts_a_number_is_a_code_of_a_finding():
    assert {*CODES} >= DOUBTING


def told(book):
    return summarize(book, check(book))


# One bore that was read a turn of a metric micrometer (0.5 mm) too low.
BORES = [79.522, 79.523, 79.521, 79.022]
PISTONS = [79.485, 79.484, 79.485, 79.485]
ROWS = (
    ["", "Cyl 1", "Cyl 2", "Cyl 3", "Cyl 4"],
    ["Bore (mm)", *BORES],
    ["Piston diameter (mm)", *PISTONS],
)


def test_a_clearance_made_from_a_doubted_bore_is_in_doubt(written):
    summary = told(written(*ROWS))
    facts = {fact.name: fact for fact in summary.facts}
    assert facts["Bore"].row.told == ("D1",)
    assert facts["Piston clearance"].row.told == ("D1",)
    assert customer_copy(summary).doubted == ("Bore", "Piston clearance")
    assert "<b>In doubt:</b> Bore, Piston clearance." in render_customer(summary, Shop())
    worst = summary.glance[2]
    assert (worst.text, worst.said) == ("-0.463 mm", "Piston clearance, Cyl 4, in doubt: D1")
    assert "in doubt: D1" in render_html(summary)


def test_without_a_doubt_nothing_is_said(written):
    whole = [79.522, 79.523, 79.521, 79.522]
    summary = told(written(ROWS[0], ["Bore (mm)", *whole], ROWS[2]))
    assert customer_copy(summary).doubted == ()
    assert "In doubt" not in render_customer(summary, Shop())
