"""A dynamometer sheet without a call of ours: corrected power and torque on both copies."""

import pytest

from workbook_tools.render.html import render_customer, render_html
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.summary import summarize

HEADS = ["RPM", "Corrected torque (lbf.ft)", "Corrected power (hp)"]
# The power is torque times speed over 5252, common practice: 1 hp is 33,000 lbf.ft a minute.
PULLS = [[n, t, round(t * n / 5252.1, 1)] for n, t in ((3500, 402), (4500, 418), (5500, 391))]


@pytest.fixture
def summary(written):
    return summarize(written(["Corrected to", "sae j1349"], [], HEADS, *PULLS), ())


def test_the_peaks_stand_on_both_copies_with_what_they_are_corrected_to(summary):
    facts = {fact.name: fact for fact in summary.facts}
    assert (facts["Most power"].one, facts["Most torque"].one) == ("409.5", "418.0")
    assert facts["Most torque"].where == "at 4,500 rpm, corrected to SAE J1349"
    for page in (render_html(summary), render_customer(summary, Shop())):
        assert "409.5" in page
        assert "at 5,500 rpm, corrected to SAE J1349" in page
        assert "sae j1349" not in page


def test_the_data_has_every_pull(summary):
    run = summary.data["power"]
    assert run["corrected"]
    assert [pull["rpm"] for pull in run["pulls"]] == [3500, 4500, 5500]
    assert run["peak_torque"] == {"value": 418, "unit": "lbf.ft", "rpm": 4500}
