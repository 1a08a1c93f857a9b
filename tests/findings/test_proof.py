"""Stated numbers against what the book's own sizes give, and against its own limits."""

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book

CYLINDERS = ["Cyl", 1, 2, 3, 4]
BORES = ["Bore (in)", 4.0302, 4.0305, 4.0301, 4.0304]
PISTONS = ["Piston (in)", 4.0262, 4.0266, 4.0261, 4.0265]
# Bore less piston, by hand.
CLEARANCES = ["Clearance (in)", 0.0040, 0.0039, 0.0040, 0.0039]


@pytest.fixture
def found(make_book):
    def of(*rows):
        book = read_book(make_book({"S": rows}))
        return {f.place.address: (f.code, f.message) for f in check(book) if f.place is not None}

    return of


def changed(row, at, value):
    return [*row[:at], value, *row[at + 1 :]]


def test_sizes_that_agree_say_nothing(found):
    assert found(CYLINDERS, BORES, PISTONS, CLEARANCES) == {}


@pytest.mark.parametrize(
    ("row", "at", "value", "told"),
    [
        (PISTONS, 2, 4.0626, "Piston, Cyl 2 (C3) is 4.0266 in (two digits exchanged)"),
        (CLEARANCES, 3, 0.0020, "is one side of it, and both together are meant"),
        (CLEARANCES, 1, 0.0080, "is twice what is meant"),
        (CLEARANCES, 4, 0.0093, "Clearance, Cyl 4 (E4) is 0.0039 in (two digits exchanged)"),
    ],
)
def test_the_one_slip_that_would_make_them_agree_is_told(found, row, at, value, told):
    rows = [changed(r, at, value) if r is row else r for r in (BORES, PISTONS, CLEARANCES)]
    (message,) = [m for _, m in found(CYLINDERS, *rows).values()]
    assert told in message


def test_sizes_of_two_cylinders_that_were_exchanged_are_told_together(found):
    bores = ["Bore (mm)", 95.012, 95.021, 95.034]
    pistons = ["Piston (mm)", 94.924, 94.911, 94.902]  # Those of 1 and 3 exchanged.
    told = found(CYLINDERS[:4], bores, pistons, ["Clearance (mm)", 0.11, 0.11, 0.11])
    ((code, message),) = told.values()
    assert code == "contradicts-its-sizes"
    assert "Both agree if exchanged:" in message
    assert "Piston, Cyl 1 (B3) 94.924 mm and Piston, Cyl 3 (D3) 94.902 mm" in message


def test_a_row_of_which_all_disagree_is_another_meaning(found):
    doubled = ["Clearance (in)", 0.0060, 0.0071, 0.0055, 0.0068]
    codes = {code for code, _ in found(CYLINDERS, BORES, PISTONS, doubled).values()}
    assert "contradicts-its-sizes" not in codes


def test_limits_that_are_written_as_one_text_judge_too(found):
    rows = [
        ["Main", "Clearance (in)", "Allowed"],
        [1, 0.0025, ".0020 - .0030"],
        [2, 0.0041, ".0020 - .0030"],
        [3, 0.0024, "0.0020 to 0.0030 in"],
    ]
    told = found(*rows)
    assert told["B3"][0] == "out-of-band"
    assert "above the most that the book itself gives, 0.003 in (C3)" in told["B3"][1]
    assert "B2" not in told
    assert "B4" not in told


def test_a_size_outside_the_limits_beside_it_is_told(found):
    rows = [
        ["Main", "Clearance (in)", "min", "max"],
        [1, 0.0025, 0.002, 0.003],
        [2, 0.0041, 0.002, 0.003],
        [3, 0.0024, 0.002, 0.003],
    ]
    told = found(*rows)
    assert list(told) == ["B3"]
    assert told["B3"][0] == "out-of-band"
    assert "above the most that the book itself gives, 0.003 in (D3)" in told["B3"][1]


def test_limits_of_which_it_is_not_known_whose_they_are_judge_nothing(found):
    rows = [["Bore (in)", 4.11], ["Piston (in)", 4.1065], ["Fit, least", 0.002],
            ["Fit, most", 0.0053], ["Deck, plus = below", -0.003],
            ["Quench", "=ENG.QUENCH(B5,0.04)"]]  # fmt: skip
    assert found(*rows) == {}


# By hand: pi/4 x 4.11 x 4.11 x 3.54 in is 769.6 cc; over 8.5 cc of chamber, 9.0 of gasket and
# 1.1 of deck that is a ratio of 42.4.
RATIO = [
    ["Bore (in)", 4.11],
    ["Stroke (in)", 3.54],
    ["Chamber (cc)", 8.5],
    ["Gasket bore (in)", 4.18],
    ["Gasket thickness (in)", 0.04],
    ["Deck clearance (in)", 0.005],
    ["Crown", "0 cc flat"],
]


def test_a_ratio_that_no_engine_has_is_told(found):
    ((code, message),) = found(*RATIO).values()
    assert code == "unusual-result"
    assert "Compression ratio, worked out from B3 and others, comes to 42.4" in message


def test_a_result_of_a_size_that_is_told_already_is_not_told_besides(found):
    ratio = ["Ratio", "=ENG.COMPRESSION_RATIO(B8,B3,B9,0,0)"]
    swept = ["Swept volume (cc)", "=ENG.CYLINDER_VOLUME(B1,B2)"]
    gasket = ["Gasket volume (cc)", "=ENG.GASKET_VOLUME(B4,B5)"]
    told = found(*RATIO, swept, gasket, ratio)
    assert told["B10"][0] == "unusual-result"
    # A gasket bore in millimeters: its volume and the ratio come from it.
    told = found(*changed(RATIO, 3, ["Gasket bore (in)", 106.2]), swept, gasket, ratio)
    assert "B4" in told
    assert not {"B9", "B10"} & told.keys()


# By hand: 4.11 in of bore and 3.54 in of stroke, eight cylinders, are 375.72 cu in.
ENGINE = [["Bore (in)", 4.11], ["Stroke (in)", 3.54], ["Cylinders", 8]]


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        # Bore and stroke exchanged: 323.6; six cylinders: 281.8.
        (323.6, "They agree if bore and stroke are exchanged."),
        (281.8, "They agree with 6 cylinders."),
    ],
)
def test_what_would_make_an_advertised_size_agree(found, stated, told):
    ((code, message),) = found(*ENGINE, ["Displacement (cu in)", stated]).values()
    assert code == "stated-displacement"
    assert told in message
    assert "give 375.72 cu in" in message


def test_an_advertised_size_is_rounded(found):
    assert found(*ENGINE, ["Displacement (cu in)", 377]) == {}


def test_an_event_that_a_call_gives_proves_what_is_written(found):
    # By hand: half of 236 deg behind 106 deg after top is 224 deg, 44 deg after bottom.
    events = [
        ["Intake duration (deg)", 236],
        ["Intake centerline (deg)", 106],
        ["Intake closing (deg ABDC)", 44],
    ]
    assert found(*events) == {}
    told = found(*events[:2], ["Intake closing (deg ABDC)", 64])
    assert "They agree if" in told["B3"][1]


def test_what_one_empty_cell_holds_up_is_told_once(found):
    sizes = [
        ["Cyl", 1, 2],
        ["Bore (in)", 4.0, 4.0],
        ["Deck clearance (in)", 0.005, 0.005],
        ["Chamber volume (cc)", 64, 64],
        ["Dish volume (cc)", 5],
        ["Stroke (in)", 3.5],
        ["Gasket bore (in)", 4.1],
        ["Gasket thickness (in)", None],
        ["Quench (in)", "=ENG.QUENCH(B3,$B$8)", "=ENG.QUENCH(C3,$B$8)"],
    ]
    ((place, (code, message)),) = found(*sizes).items()
    assert (place, code) == ("B8", "missing-reading")
    assert "ENG.QUENCH in B9, ENG.QUENCH in C9" in message
    assert message.endswith("The compression ratio waits for it too.")


def test_a_limit_that_no_engine_has_is_of_something_else_in_its_row(found):
    assert found(["Stroke (in)", 3.625, "want .0024-.0032"]) == {}
    assert "out-of-band" in {
        code for code, _ in found(["Stroke (in)", 3.625, "3.60-3.62"]).values()
    }
