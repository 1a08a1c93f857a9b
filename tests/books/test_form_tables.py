"""Tables beside the measurements: power runs, oil pressure, parts, gauges; who says a limit."""

import pytest

from workbook_tools.summary.runs import power_run

RUN = (
    ("RPM", "Torque (lb-ft)", "HP", "Corrected torque (lb-ft)", "Corrected HP"),
    (3000, 300, 171.4, 306, 174.8),
    (4000, 330, 251.3, 336.6, 256.3),
    (5000, 310, 295.1, 316.2, 301.0),
)


def test_a_dyno_sheet_without_calls_of_ours_gives_its_peaks(written):
    run = power_run(written(["Dyno sheet"], [], *RUN))
    assert run.corrected
    assert (run.power.value, run.power.speed, run.power.unit) == (301.0, 5000, "hp")
    assert (run.torque.value, run.torque.speed) == (336.6, 4000)
    assert run.power.words == "301.0 hp at 5,000 rpm"
    assert len(run.pulls) == 3


def test_one_laid_out_across_the_sheet_is_read_alike(written):
    run = power_run(written(*zip(*RUN, strict=True)))
    assert (run.power.value, run.power.speed) == (301.0, 5000)
    assert (run.torque.value, run.torque.speed) == (336.6, 4000)


@pytest.mark.parametrize(
    ("heads", "unit"),
    [
        (("Drehzahl (1/min)", "Drehmoment (Nm)", "Leistung (kW)"), "kW"),
        (("Régime (tr/min)", "Couple (Nm)", "Puissance (kW)"), "kW"),
        (("Régimen (rpm)", "Par (Nm)", "Potencia (kW)"), "kW"),
        (("REGIMEN", "PAR MOTOR [Nm]", "POTENCIA [kW]"), "kW"),
        (("Giri (giri/min)", "Coppia (Nm)", "Potenza (kW)"), "kW"),
    ],
)
def test_heads_of_five_languages_and_figures_as_measured(written, heads, unit):
    run = power_run(written(heads, (3000, 150, 47.1), (6000, 140, 88.0)))
    assert not run.corrected
    assert (run.power.value, run.power.unit, run.power.speed) == (88.0, unit, 6000)
    assert run.words == "as measured, not corrected for the weather"


def test_a_torque_list_is_no_power_run(written):
    book = written(["Fastener", "Torque (lb-ft)", "Speed"], ["Main caps", 70, "slow"])
    assert power_run(book) is None


def test_gauges_parts_and_oil_pressures_are_rows_by_what_their_columns_say(written):
    book = written(
        ["Gauge", "Its number", "Checked against", "Read, off by", "Checked on"],
        ["bore gauge", "BG-2", "setting ring", 0.0001, "2025-05-06"],
        ["torque wrench", "TW-1", "beam tester", 0, "2025-05-06"],
        [],
        [],
        ["Part", "Part number", "Qty", "Whose"],
        ["Pistons", "P-100", 8, "shop"],
        [],
        [],
        ["When", "Speed (rpm)", "Oil temperature (deg F)", "Oil pressure (psi)"],
        ["hot idle", 850, 205, 24],
    )
    gauge, wrench, part, run = sorted(book.forms, key=lambda row: row.form)
    assert (gauge.form, gauge.text("number"), gauge.text("off_by")) == ("gauge", "BG-2", "0.0001")
    assert wrench.text("gauge") == "torque wrench"
    assert (part.form, part.text("number"), part.text("quantity")) == ("part", "P-100", "8")
    assert (run.text("when"), run.cell("oil_pressure").unit) == ("hot idle", "psi")
    # What a gauge was off by is no size of the engine.
    assert not [r for r in book.readings if r.place.address in ("D2", "D3")]


def test_who_says_a_limit_stands_below_it_or_at_the_end_of_its_row(written):
    book = written(
        ["Main", "Main bearing clearance (in)", "Verdict"],
        ["Main 1", 0.0021, "=ENG.VERDICT(B2,B$4,B$5)"],
        ["Main 2", 0.0022, "=ENG.VERDICT(B3,B$4,B$5)"],
        ["Least", 0.0018],
        ["Most", 0.0028],
        ["Band from", "the maker's card"],
        [],
        ["What", "Value", "Least", "Most", "Verdict", "Limits from"],
        ["Crank end play (in)", 0.006, 0.002, 0.014, "=ENG.VERDICT(B9,C9,D9)", "service manual"],
        ["Cam end play (in)", 0.005, 0.002, 0.010, "=ENG.VERDICT(B10,C10,D10)"],
    )
    said = {origin.place.address: origin.words for origin in book.origins}
    assert said == {
        "B4": "the maker's card", "B5": "the maker's card",
        "C9": "service manual", "D9": "service manual",
    }  # fmt: skip
