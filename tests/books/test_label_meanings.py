"""What labels mean below heads and headings, in five languages, and what is asked, not read."""

import pytest

from workbook_tools.books.opening import read_cells
from workbook_tools.jobs.read import read_book
from workbook_tools.labels.candidates import propose
from workbook_tools.labels.vocabulary import meaning_of, unit_in
from workbook_tools.labels.which_told import which_of


def readings(make_book, rows, **more):
    book = read_book(make_book({"A": rows}, **more))
    return [(r.measurand, r.part.which, r.stage, r.state) for r in book.readings]


@pytest.mark.parametrize(
    ("head", "bore", "clearance"),
    [
        ("Cyl", "Bore (mm)", "Piston clearance (mm)"),
        ("Zyl.", "Bohrung (mm)", "Kolbenspiel (mm)"),
        ("Cylindre", "Alésage (mm)", "Jeu piston/cylindre (mm)"),
        ("Cilindro", "Diámetro camisa (mm)", "Holgura pistón (mm)"),
        ("Cilindro", "Alesaggio (mm)", "Gioco pistone (mm)"),
    ],
)
def test_heads_and_labels_are_read_in_five_languages(make_book, head, bore, clearance):
    rows = [[head, bore, clearance], [1, 86.01, 0.045], [2, 86.02, 0.05]]
    assert readings(make_book, rows) == [
        ("bore", "1", "", "read"),
        ("piston_clearance", "1", "", "read"),
        ("bore", "2", "", "read"),
        ("piston_clearance", "2", "", "read"),
    ]


def test_columns_of_limits_are_limits_and_a_mean_is_no_reading(make_book):
    rows = [
        ["", "Min", "Max", "Found", "Final"],
        ["Main journal 1 (in)", 2.4481, 2.4490, 2.4479, 2.4485],
        ["Main journal 2 (in)", 2.4481, 2.4490, 2.4478, 2.4484],
    ]
    stages = {(m, s) for m, _, s, _ in readings(make_book, rows)}
    assert stages == {("main_journal", s) for s in ("limit_low", "limit_high", "found", "final")}


def test_a_column_that_counts_is_no_reading(make_book):
    rows = [["Chamber", "cc"], [1, 54.1], [2, 54.3], [3, 54.2], [4, 54.0]]
    book = read_book(make_book({"A": rows}))
    assert not [r for r in book.readings if r.place.address.startswith("A") and r.state == "read"]


def test_a_bearing_is_told_by_its_heads_and_else_asked(make_book):
    alone = [["Shell (mm)", 1.823]]
    assert readings(make_book, alone) == [("main_shell_wall", "", "", "asked")]
    below = [["Rod", 1, 2], ["Shell (mm)", 1.823, 1.824]]
    assert readings(make_book, below)[-2:] == [
        ("rod_shell_wall", "1", "", "read"),
        ("rod_shell_wall", "2", "", "read"),
    ]


BARE = [
    ["Cylinder", 1, 2, 3, 4],
    ["Bore", 86.01, 86.02, 86.01, 86.03],
    ["Piston", 85.96, 85.97, 85.96, 85.98],
    ["Stroke", 86.0],
]


def test_bare_lengths_are_in_the_system_that_all_of_them_leave(make_book):
    found = propose(read_cells(make_book({"A": BARE})))
    assert (found.system, found.system_from) == (
        "metric",
        "9 sizes, which are usual only in millimeters",
    )
    few = propose(read_cells(make_book({"A": BARE[-1:]})))
    assert [r.value for r in few.readings] == [None]


def test_front_and_rear_of_a_twin_are_its_cylinders(make_book):
    rows = [["", "Front", "Rear"], ["Bore (in)", 3.7506, 3.7508]]
    assert [r[1] for r in readings(make_book, rows)] == ["1", "2"]


def test_two_numbers_without_heads_are_asked(make_book):
    rows = [["Bore (in)", 3.7506, 3.4508]]
    assert [r[3] for r in readings(make_book, rows)] == ["asked", "asked"]


def test_a_letter_before_a_word_may_be_another_word(make_book):
    assert readings(make_book, [["g bore (in)", 4.2]]) == [("bore", "", "", "asked")]


def test_dates_and_sentences_are_no_readings(make_book):
    rows = [["Finish", "3/4/25"], ["call about the 4 bolt block before the bore is done", 4.03]]
    assert not [r for r in readings(make_book, rows) if r[3] == "read"]


@pytest.mark.parametrize(
    ("label", "unit"),
    [
        ("Juego pistón (1/100)", "hundredths mm"), ("Jeu axial 1/100", "hundredths mm"),
        ("Spiel (1/100 mm)", "hundredths mm"), ("Spiel (0,01 mm)", "hundredths mm"),
        ("Oil clr (x .001)", "thou"), ("Clearance, x .001", "thou"), ("Gap x 0.001\"", "thou"),
        ("clr in .0001", "tenth"), ("Spiel (0,001 mm)", "um"),
        ("Gap .001", ""), ("Ring gap min 0.015", ""), ("1/100", ""),
    ],
)  # fmt: skip
def test_a_head_says_what_its_numbers_are_so_many_of(label, unit):
    assert unit_in(label) == unit


@pytest.mark.parametrize("head", ["Piston clearance (1/100)", "Piston clearance, 1/100 mm"])
def test_numbers_below_such_a_head_are_read_in_it(make_book, head):
    rows = [["Cyl", "Bore (mm)", head], [1, 86.01, 4.5], [2, 86.02, 5]]
    book = read_book(make_book({"A": rows}))
    found = [(r.value, r.unit) for r in book.readings if r.measurand == "piston_clearance"]
    assert found == [(0.045, "mm"), (0.05, "mm")]


def test_a_remark_in_brackets_behind_a_unit_is_a_note(make_book):
    book = read_book(make_book({"A": [["Head gasket thickness", "1.5 mm (2 notches)"]]}))
    assert [(r.value, r.state) for r in book.readings] == [(1.5, "read")]


def test_limits_that_no_engine_has_are_no_slips(make_book):
    """A small spec beside the name of a part is that of its clearance, and nothing is asked."""
    rows = [["Bore", 101.6, "mm"], ["Stroke", 88.9, "mm"], ["specs: mains 0.02, rods 0.03"]]
    book = read_book(make_book({"A": rows}))
    assert not [q for q in book.questions if q.kind == "size"]


@pytest.mark.parametrize("box", ["[x]", "[ ]", "[]", "(x)", "☐", "☑", "[X]"])
def test_boxes_of_a_form_are_ticks_and_no_part_of_a_label(make_book, box):
    """A ticket with boxes before what was done: what is measured stands behind them."""
    rows = [
        [f"{box} Bore", '4.030"', "Stroke", '3.48"'],
        [f"{box} Deck", "square", None, None],
        ["Line hone", box, None, None],
    ]
    found = readings(make_book, rows)
    assert found == [("bore", "", "", "read"), ("stroke", "", "", "read")]


@pytest.mark.parametrize(
    ("label", "measurand"),
    [
        ("Kamerinhoud", "chamber_volume"), ("Toppackning tjocklek", "gasket_thickness"),
        ("Luz panewek głównych", "main_bearing_clearance"), ("Objętość komory", "chamber_volume"),
        ("Compressiehoogte", "compression_height"), ("Luz zaworów ssących", "intake_lash"),
    ],
)  # fmt: skip
def test_common_words_of_dutch_swedish_and_polish_are_known(label, measurand):
    assert meaning_of(label).measurand == measurand


def test_banks_are_named_in_french_short():
    assert which_of("RG").bank == "L"
    assert which_of("höger 1").bank == "R"


def test_a_bearing_fitted_is_its_bore_where_a_clearance_proves_it(make_book):
    rows = [
        ["CRANKSHAFT MAINS"],
        ["No.", "Journal", "Bearing fitted", "Clearance"],
        *[[n, 74.74 + n / 1000, 74.81 + n / 1000, 0.07] for n in (1, 2, 3, 4)],
    ]
    found = {name for name, *_ in readings(make_book, rows)}
    assert found == {"main_journal", "main_bearing_bore", "main_bearing_clearance"}


def test_tables_of_the_bench_lean_on_their_titles(make_book):
    # common practice, no source
    rows = [["Stroke (in)", 4.0], [], ["MAINS"], ["", 1, 2, 3], ["journal", 2.499, 2.4989, 2.499]]
    rows += [["oil", 0.0022, 0.0023, 0.0022], [], ["BIG ENDS"], ["no.", "pin", "in rod", "oil"]]
    rows += [[n, 1.624, 1.6255, 0.0015] for n in (1, 2, 3, 4)]
    found = {(m, state) for m, _, _, state in readings(make_book, rows)}
    assert found == {
        (m, "read")
        for m in ("stroke", "main_journal", "main_bearing_clearance", "rod_journal",
                  "rod_bearing_bore", "rod_bearing_clearance")
    }  # fmt: skip


@pytest.mark.parametrize(
    "heads", [["Head", "In", "Ex"], ["", "IN", "EX"], ["Valves", "Ex.", "In."]]
)
def test_in_beside_the_exhaust_is_the_intake_and_no_inch(make_book, heads):
    # common practice, no source
    rows = [["Bore (in)", 3.5], [], heads, ["Springs, fitted", 1.55, 1.56]]
    told = [m for m, _, _, state in readings(make_book, rows) if state == "read"]
    sides = ["intake", "exhaust"] if heads[1].lower().startswith("in") else ["exhaust", "intake"]
    assert told == ["bore", *(f"{side}_spring_height" for side in sides)]


def test_a_size_behind_a_grade_is_read(make_book):
    # common practice, no source
    rows = [["Bore (in)", 3.5], ["Mains .010 under", 2.389], ["Rods .010 under", 2.189]]
    assert [(m, s, state) for m, _, s, state in readings(make_book, rows)][1:] == [
        ("main_journal", "machined", "read"), ("rod_journal", "machined", "read")
    ]  # fmt: skip
