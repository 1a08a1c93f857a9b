"""Each kind of finding: its cell, its sentence with the numbers, and what to do."""

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book


@pytest.fixture
def findings(make_book):
    def of(rows, saved=None):
        book = read_book(make_book({"S": rows}, {"S": saved or {}}))
        return [(f.kind, f.place.address if f.place else "", f.message) for f in check(book)]

    return of


JUDGED = [
    ["Main clearance (in)", 0.0031, "=ENG.VERDICT(B1,C2,D2)"],
    ["band", None, 0.0015, 0.0025],
]


def test_out_of_band_gives_value_and_band(findings):
    assert findings(JUDGED, {"C1": "high"}) == [
        (
            "out of band",
            "B1",
            "Main clearance is 0.0031 in, above its band of 0.0015 to 0.0025 in.",
        )
    ]


def test_at_the_edge_of_the_band_is_close_and_outside_it_is_not(findings):
    rows = [[*JUDGED[0]], JUDGED[1]]
    rows[0][1] = 0.00152
    assert [f[0] for f in findings(rows, {"C1": "ok"})] == ["close to the limit"]
    rows[0][1] = 0.0020
    assert findings(rows, {"C1": "ok"}) == []


def test_a_spread_of_nothing_is_not_close_to_its_least(findings):
    rows = [["Taper (in)", 0.0, "=ENG.VERDICT(B1,C2,D2)"], ["band", None, 0, 0.0005]]
    assert findings(rows, {"C1": "ok"}) == []


MAINS = [
    ["Main", 1, 2, 3, "All"],
    ["Clearance (in)", 0.0021, 0.0031, 0.0014, "=ENG.JUDGE(B2:D2,3,C4,D4)"],
    [],
    ["band", None, 0.0015, 0.0025],
]


def test_each_reading_of_a_range_that_is_judged_together_is_told(findings):
    assert findings(MAINS, {"E2": "low and high"}) == [
        (
            "out of band",
            "C2",
            "Clearance, Main 2 is 0.0031 in, above its band of 0.0015 to 0.0025 in.",
        ),
        (
            "out of band",
            "D2",
            "Clearance, Main 3 is 0.0014 in, below its band of 0.0015 to 0.0025 in.",
        ),
    ]


def test_readings_of_a_range_are_judged_though_one_is_missing(findings):
    rows = [MAINS[0], ["Clearance (in)", 0.0021, 0.0031, None, MAINS[1][4]], *MAINS[2:]]
    kinds = [f[:2] for f in findings(rows, {"E2": "#VALUE!"})]
    assert kinds == [("out of band", "C2"), ("missing reading", "B2:D2")]


def test_a_stale_book_is_judged_by_what_its_cells_come_to(findings):
    rows = [["Deck clearance (in)", 0.001], ["Gasket (in)", 0.02],
            ["Quench (in)", "=ENG.QUENCH(B1,B2)"],
            ["Verdict", "=ENG.VERDICT(B3,0.035,0.045)"]]  # fmt: skip
    found = findings(rows, {"B3": 0.04, "B4": "ok"})
    assert (
        "out of band",
        "B3",
        "Quench is 0.021 in, below its band of 0.035 to 0.045 in.",
    ) in found
    rows[1][1] = 0.039
    assert not [f for f in findings(rows, {"B3": 0.021, "B4": "low"}) if f[0] == "out of band"]


def test_missing_reading_is_told_once_with_all_that_need_it(findings):
    rows = [["Deck clearance", 0.01], ["Gasket", None],
            ["Quench", "=ENG.QUENCH(B1,B2)"], ["Again", "=ENG.QUENCH(0,B2)"]]  # fmt: skip
    assert findings(rows, {"B3": "#VALUE!", "B4": "#VALUE!"}) == [
        (
            "missing reading",
            "B2",
            "Gasket (B2) is empty; ENG.QUENCH in B3, ENG.QUENCH in B4 have no result without it.",
        )
    ]


def test_an_empty_cell_counted_as_zero_is_told_as_such(findings):
    rows = [["Deck clearance", None], ["Quench", "=ENG.QUENCH(B1,0.04)"]]
    ((kind, address, message),) = findings(rows, {"B2": 0.04})
    assert (kind, address) == ("missing reading", "B1")
    assert "B2 shows 0.04: the program counted the empty cell as 0" in message


def test_a_note_where_a_number_belongs(findings):
    rows = [["Gasket", "ask Lena"], ["Quench", "=ENG.QUENCH(0.01,B1)"]]
    ((kind, address, message),) = findings(rows, {"B2": "#VALUE!"})
    assert (kind, address) == ("unreadable", "B1")
    assert "'ask Lena'" in message
    assert "expected a length above 0" in message


@pytest.mark.parametrize(
    "formula",
    [
        "=ENG.QUENCH(B1,OFFSET(B1,1,0))",
        '=ENG.QUENCH(B1,INDIRECT("B2"))',
        "=ENG.QUENCH(INDEX(B1:C1,COLUMN()-1),B2)",
        "=_xlfn.BYROW(B1:B1,_xlfn.LAMBDA(_xlpm.x,ENG.QUENCH(_xlpm.x,B2)))",
    ],
)
def test_a_formula_that_cannot_be_followed_is_told_as_saved_and_not_blamed(findings, formula):
    rows = [["Deck clearance (in)", 0.004], ["Gasket (in)", 0.04], ["Quench (in)", formula]]
    ((kind, address, message),) = findings(rows, {"B3": 0.044})
    assert (kind, address) == ("unreadable", "B3")
    assert "ENG.QUENCH in B3 could not be recomputed, and its saved value is shown" in message


def test_what_follows_from_a_failed_cell_is_not_told_again(findings):
    rows = [["Gasket", "ask Lena"], ["Quench", "=ENG.QUENCH(0.01,B1)"],
            ["Verdict", "=ENG.VERDICT(B2,0.03,0.05)"]]  # fmt: skip
    assert len(findings(rows, {"B2": "#VALUE!", "B3": "#VALUE!"})) == 1


def test_a_mean_over_a_failed_cell_is_not_told_again(findings):
    rows = [["Piston", "see card"], ["One", "=ENG.PISTON_CLEARANCE(4.1,B1)"],
            ["Two", "=ENG.PISTON_CLEARANCE(4.1,4.098)"],
            ["Mean", "=ENG.MEAN_READING(B2:B3,2)"]]  # fmt: skip
    saved = {"B2": "#VALUE!", "B3": 0.002, "B4": "#VALUE!"}
    assert [f[:2] for f in findings(rows, saved)] == [("unreadable", "B1")]


def test_an_error_that_no_call_of_ours_made_is_told_where_it_stands(findings):
    rows = [["Gap", "=1/0"], ["Gap", 0.02], ["Mean", "=ENG.MEAN_READING(B1:B2,2)"]]
    found = findings(rows, {"B1": "#DIV/0!", "B3": "#VALUE!"})
    assert [f[:2] for f in found] == [("unreadable", "B1:B2")]


@pytest.mark.parametrize(
    ("gasket", "kind"), [(None, "missing reading"), ("see card", "unreadable")]
)
def test_a_call_within_a_call_is_told_once_at_the_cell_it_needs(findings, gasket, kind):
    rows = [["Gasket", gasket], ["Ratio",
            "=ENG.COMPRESSION_RATIO(700,64,ENG.GASKET_VOLUME(4.1,B1),0)"]]  # fmt: skip
    ((found, address, message),) = findings(rows, {"B2": "#VALUE!"})
    assert (found, address) == (kind, "B1")
    assert "ENG.GASKET_VOLUME" in message


def test_the_outer_call_is_named_where_the_inner_one_is_fine(findings):
    rows = [["Gasket volume", None],
            ["Ratio", "=ENG.COMPRESSION_RATIO(ENG.CYLINDER_VOLUME(4,3.5),64,B1,0)"]]  # fmt: skip
    ((kind, address, message),) = findings(rows, {"B2": "#VALUE!"})
    assert (kind, address) == ("missing reading", "B1")
    assert "ENG.COMPRESSION_RATIO in B2 has no result" in message


def test_stale_result_gives_both_numbers(findings):
    rows = [["Quench", "=ENG.QUENCH(0.01,0.03)"]]
    ((kind, address, message),) = findings(rows, {"B1": 0.041})
    assert (kind, address) == ("stale result", "B1")
    assert "saved as 0.041" in message
    assert "it is 0.04" in message


def test_never_calculated_is_one_finding_for_the_book(findings):
    rows = [["=ENG.QUENCH(0.01,0.03)", "=ENG.QUENCH(0.01,0.02)"]]
    ((kind, address, message),) = findings(rows)
    assert (kind, address) == ("never calculated", "")
    assert message.startswith("2 results were never calculated")


def test_one_blank_among_guarded_siblings_is_missed_and_a_whole_blank_row_is_not(findings):
    guard = '=IF({0}2="","",ENG.QUENCH({0}2,0.04))'
    rows = [["Cylinder", 1, 2], ["Deck", 0.01, None],
            ["Quench", guard.format("B"), guard.format("C")]]  # fmt: skip
    ((kind, address, _),) = findings(rows, {"B3": 0.05, "C3": ""})
    assert (kind, address) == ("missing reading", "C2")
    rows[1][1] = None
    assert findings(rows, {"B3": "", "C3": ""}) == []


def test_a_spare_line_of_a_form_is_not_missed(findings):
    def guarded(cells, call):
        return [f'=IF(COUNTBLANK({cells.format(c)})=0,{call.format(c=c)},"")' for c in "BC"]

    rows = [
        ["Cylinder", 1, 2],
        ["Bore, top (in)", 4.0301, 4.0302],
        ["Bore, bottom (in)", 4.03, None],
        ["Mean bore", *guarded("{0}2:{0}3", "ENG.MEAN_READING({c}2:{c}3,2)")],
        ["Bore", "=B4", '=IF(C4="","",C4)'],
        ["Piston (in)", 4.026, 4.0262],
        ["Piston clearance", *guarded("{0}5", "ENG.PISTON_CLEARANCE({c}5,{c}6)")],
        ["Verdict", *guarded("{0}7", "ENG.VERDICT({c}7,0.003,0.005)")],
    ]
    saved = {"B4": 4.03005, "B5": 4.03005, "B7": 0.00405, "B8": "ok"}
    ((kind, address, message),) = findings(rows, {**saved, "C4": "", "C5": "", "C7": "", "C8": ""})
    assert (kind, address) == ("missing reading", "C2:C3")
    assert message == (
        "Bore, top, Cylinder 2 (C3 of C2:C3) is empty; it is needed by ENG.MEAN_READING in C4. "
        "2 more results wait for it."
    )


def test_a_computed_cell_that_waits_for_something_unknown_is_told_with_its_formula(findings):
    rows = [
        ["Bore, top (in)", 4.0301, 4.0302],
        ["Bore", "=B1", '=IF(C9="","",C9)'],
        ["Piston (in)", 4.026, 4.026],
        ["Piston clearance", *(f"=ENG.PISTON_CLEARANCE({c}2,{c}3)" for c in "BC")],
    ]
    saved = {"B2": 4.0301, "C2": "", "B4": 0.0041, "C4": "#VALUE!"}
    ((kind, address, _),) = findings(rows, saved)
    assert (kind, address) == ("missing reading", "C2")
