"""A temperature where a call takes a rise. That engines run at some 180 to 220 deg F is common
practice, no source.
"""

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book


@pytest.fixture
def doubts(make_book):
    """What is doubted in a book whose one rise has this label and number."""

    def of(label, number, call):
        rows = [
            *(["Deck height (in)", 9.24], ["Stroke (in)", 3.622], ["Rod length (in)", 6.098]),
            *(["Compression height (in)", 1.335], [label, number], ["Growth of the deck", call]),
        ]
        found = check(read_book(make_book({"S": rows})))
        return {f.place.address: (f.code, f.message) for f in found
                if f.place is not None and f.code != "never-calculated"}  # fmt: skip

    return of


OLD = '=ENG.DECK_GROWTH(B1,B2,B3,B4,B5,"aluminum")'
NEW = (
    "=ENG.DECK_GROWTH_BY_PARTS(B1,B2,B3,B4,B5,150,250,"
    '"aluminum","alloy steel","alloy steel","aluminum 2618")'
)


@pytest.mark.parametrize("call", [OLD, NEW])
@pytest.mark.parametrize(
    "label", ["Block temperature", "Block temp (deg F)", "Engine temperature, warm",
              "Blocktemperatur", "Température du bloc"],
)  # fmt: skip
def test_a_temperature_by_its_label(doubts, label, call):
    code, message = doubts(label, 190, call)["B5"]
    assert code == "temperature-for-rise"
    assert "190 deg F" in message
    assert "its label says a temperature and no rise" in message
    assert "it would be a rise of 122 deg F" in message


@pytest.mark.parametrize("call", [OLD, NEW])
@pytest.mark.parametrize("label", ["Block temperature rise", "Rise"])
def test_a_temperature_by_its_number(doubts, label, call):
    code, message = doubts(label, 195, call)["B5"]
    assert code == "temperature-for-rise"
    assert "that is much for a rise" in message


@pytest.mark.parametrize("call", [OLD, NEW])
@pytest.mark.parametrize(
    "label", ["Block temperature rise", "Temp. rise, cold to hot", "Rise", "Block", "Warm-up",
              "Temperature over the shop", "Temperatur: Anstieg", "Delta T"],
)  # fmt: skip
@pytest.mark.parametrize("number", [110, 150])
def test_a_rise_is_not_doubted(doubts, label, number, call):
    assert not any(
        code == "temperature-for-rise" for code, _ in doubts(label, number, call).values()
    )


def test_a_metric_book(make_book):
    call = '=ENG.BLOCK_GROWTH(B1,B2,"aluminum","metric")'
    rows = [["Deck height (mm)", 234.7], ["Block temperature", 88], ["Growth", call]]
    (one,) = [f for f in check(read_book(make_book({"S": rows}))) if f.place]
    assert one.code == "temperature-for-rise"
    assert "88 deg C" in one.message
    assert "it would be a rise of 68 deg C" in one.message
