"""The band of mains in an aluminum block asked for a rod journal."""

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book


@pytest.fixture
def codes(make_book):
    """The codes of what is found in a book that asks for one band."""

    def of(label, use, call="=ENG.BEARING_BAND(B1,B2)"):
        rows = [[label, 2.0995], ["Use of the engine", use], ["Usual clearance, least", call]]
        return {f.code: f for f in check(read_book(make_book({"S": rows})))}

    return of


@pytest.mark.parametrize("use", ["aluminum block", "Aluminum Block "])
def test_a_rod_journal_is_told(codes, use):
    finding = codes("Rod journal 1 (in)", use)["mains-rule-for-rods"]
    assert finding.place.address == "B3"
    assert "mains in an aluminum block" in finding.message
    assert [place.address for place in finding.also] == ["B2", "B1"]


def test_mains_and_other_uses_are_not(codes):
    assert "mains-rule-for-rods" not in codes("Main journal 1 (in)", "aluminum block")
    assert "mains-rule-for-rods" not in codes("Rod journal 1 (in)", "street")


def test_the_use_may_stand_in_the_formula(codes):
    call = '=ENG.BEARING_BAND(B1,"aluminum block")'
    assert "mains-rule-for-rods" in codes("Rod journal 1 (in)", "street", call)
