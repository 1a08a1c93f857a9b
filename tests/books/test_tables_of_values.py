"""What speaks of each number of a sheet: heads, rows, titles, limits, stages and sentences."""

import datetime

import openpyxl
import pytest

from workbook_tools.books.opening import read_cells
from workbook_tools.labels.layout import NO_FORM
from workbook_tools.labels.sentences import spoken
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spots import spots
from workbook_tools.labels.sums import summed


@pytest.fixture
def read(tmp_path):
    """read(rows, merged=(), title="Sheet") -> {(row, column): Spot}."""

    def spots_of(rows, merged=(), title="Sheet"):
        return {(s.row, s.column): s for s in spots(sheet_text(tmp_path, rows, merged, title))}

    return spots_of


def sheet_text(folder, rows, merged=(), title="Sheet"):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = title
    for row in rows:
        sheet.append(row)
    for area in merged:
        sheet.merge_cells(area)
    path = folder / "book.xlsx"
    book.save(path)
    return SheetText(read_cells(path).sheets[0], NO_FORM.vocabulary())


LANGUAGES = [
    ("Cyl", "Bore", "Stroke"),
    ("Zyl.", "Bohrung", "Hub"),
    ("Cylindre", "Alésage", "Course"),
    ("Cilindro", "Diámetro cilindro", "Carrera"),
    ("Cilindro", "Alesaggio", "Corsa"),
]


def test_dates_before_the_names_of_rows_are_no_values(read):
    """A log: one reading a row, with the day and who measured."""
    day = datetime.date(2024, 5, 6)
    heads = ["Date", "By", "What", "No.", "Reading", "Unit"]
    rows = [
        [day, "Sam", "Bore, honed", 1, 92.51, "mm"],
        [day, "Sam", "Bore, honed", 2, 92.52, "mm"],
    ]
    found = read([heads, *rows, [day, "Lee", "Head studs", None, 95, "Nm"]])
    told = {at: (s.label, s.which.number, s.unit) for at, s in found.items()}
    assert told[2, 5] == ("Bore, honed", 1, "mm")
    assert told[3, 5] == ("Bore, honed", 2, "mm")
    assert told[4, 5] == ("Head studs", 0, "Nm")


def test_a_head_that_names_a_ring_is_of_a_ring_on_any_sheet(read):
    """Also on a sheet of the port engine, which is no port."""
    rows = [["Cyl", "Ring 1", "Ring 2"], [1, 0.41, 0.46], [2, 0.42, 0.47]]
    found = read(rows, title="PORT")
    assert [found[2, 2].label, found[2, 3].label] == ["Ring 1", "Ring 2"]


def test_a_title_says_what_counted_rows_without_heads_measure(read):
    """Beside a list of masses below a table of cylinders, of which neither is a part."""
    found = read(
        [
            ["Cyl", 1, 2, 3, 4],
            ["Bore", 101.61, 101.62, 101.6, 101.61],
            [],
            ["Bobweight (g)", None, None, "Rod bolt stretch, worse of the two"],
            ["Piston", 492, None, 1, 0.16],
            ["Pin", 128, None, 2, 0.15],
        ]
    )
    assert (found[5, 5].label, found[5, 5].which.number) == ("Rod bolt stretch", 1)
    assert (found[6, 5].label, found[6, 5].which.number) == ("Rod bolt stretch", 2)
    assert found[5, 2].label == "Piston"


@pytest.mark.parametrize(("cylinder", "bore", "stroke"), LANGUAGES)
def test_rows_are_cylinders_and_heads_say_what(read, cylinder, bore, stroke):
    found = read([[cylinder, bore, stroke], [1, 86.01, 80.0], [2, 86.02, 80.1]])
    assert {at: (s.label, s.which.number) for at, s in found.items()} == {
        (2, 2): (bore, 1),
        (2, 3): (stroke, 1),
        (3, 2): (bore, 2),
        (3, 3): (stroke, 2),
    }


@pytest.mark.parametrize(("cylinder", "bore", "stroke"), LANGUAGES)
def test_columns_are_cylinders_and_rows_say_what(read, cylinder, bore, stroke):
    found = read([[cylinder, 1, 2, 3], [bore, 86.01, 86.02, 86.0], [stroke, 80.0, 80.1, 80.2]])
    assert {at: (s.label, s.which.number) for at, s in found.items()} == {
        (r, c): (label, c - 1) for r, label in ((2, bore), (3, stroke)) for c in (2, 3, 4)
    }


def test_the_same_is_read_with_roman_numbers(read):
    found = read([["", "I", "II", "III"], ["Bohrung", 86.01, 86.02, 86.0]])
    assert [found[2, c].which.number for c in (2, 3, 4)] == [1, 2, 3]


def test_a_row_of_units_belongs_to_the_head(read):
    found = read([["Cyl", "Bore", "Chamber"], ["", "mm", "cc"], [1, 86.01, 42.1], [2, 86.02, 42.0]])
    assert [(found[3, c].label, found[3, c].unit) for c in (2, 3)] == [
        ("Bore", "mm"),
        ("Chamber", "cc"),
    ]


def test_a_merged_head_reaches_over_its_columns(read):
    rows = [
        ["Cyl", "Bore (in)", "", "Piston (in)"],
        ["", "top", "bottom", "skirt"],
        [1, 4.030, 4.031, 4.026],
        [2, 4.031, 4.031, 4.026],
    ]
    found = read(rows, ["B1:C1"])
    assert [found[3, c].which.at for c in (2, 3)] == [("top",), ("bottom",)]
    assert [found[3, c].label for c in (2, 3)] == ["Bore (in)"] * 2


def test_a_name_merged_over_rows_holds_for_all_of_them(read):
    rows = [
        ["Cyl", "", "Bore (in)"],
        ["Cyl 1", 1, 4.0301], ["", 2, 4.0302], ["Cyl 2", 1, 4.0311], ["", 2, 4.0312],
    ]  # fmt: skip
    found = read(rows, ["A2:A3", "A4:A5"])
    assert [found[r, 3].which.number for r in (2, 3, 4, 5)] == [1, 1, 2, 2]


def test_a_rod_is_named_by_its_number_and_not_by_its_throw(read):
    rows = [["Rod", "On throw no.", "Big end (in)"]]
    rows += [[f"Rod {n}", (n + 1) // 2, 2.1250] for n in range(1, 5)]
    found = read(rows)
    assert [found[r, 3].which.number for r in (2, 3, 4, 5)] == [1, 2, 3, 4]


def test_banks_numbered_through_keep_their_numbers(read):
    rows = [["", "L", "L", "R", "R"], ["Cyl", 1, 3, 2, 4], ["Bore (in)", 4.0, 4.01, 4.02, 4.03]]
    found = read(rows)
    assert [found[3, c].which.number for c in (2, 3, 4, 5)] == [1, 3, 2, 4]
    assert [found[3, c].which.bank for c in (2, 3, 4, 5)] == ["L", "L", "R", "R"]


@pytest.mark.parametrize(
    ("low", "high", "found_", "final"),
    [
        ("Min", "Max", "Found", "Finished"),
        ("Kleinstmaß", "Größtmaß", "Vorher", "Fertig"),
        ("Mini", "Maxi", "Avant usinage", "Fini"),
        ("Mín", "Máx", "Antes", "Terminado"),
        ("Minimo", "Massimo", "Prima", "Dopo"),
    ],
)
def test_limits_stand_beside_values_and_heads_say_when(read, low, high, found_, final):
    rows = [["Main journal", found_, final, low, high]]
    rows += [[n, 2.4480 + n / 1e4, 2.4380 + n / 1e4, 2.4370, 2.4390] for n in (1, 2, 3)]
    found = read(rows)
    stages = [found[2, c].which.stage for c in (2, 3, 4, 5)]
    assert stages == ["found", "final", "limit_low", "limit_high"]


def test_a_title_says_which_side_the_rows_below_are(read):
    rows = [["Intake"], ["Valve", "Guide (in)"], [1, 0.3435], [2, 0.3436], [],
            ["Exhaust"], ["Valve", "Guide (in)"], [1, 0.3438], [2, 0.3439]]  # fmt: skip
    found = read(rows)
    assert [found[r, 2].which.side for r in (3, 4, 8, 9)] == ["intake"] * 2 + ["exhaust"] * 2


def test_labels_with_values_of_their_own_need_no_head(read):
    found = read([["Bore", "", 4.03, "in"], ["Fuel", "91 octane"], ["Stroke", 3.5]])
    assert (found[1, 3].label, found[1, 3].unit) == ("Bore", "in")
    assert found[3, 2].label == "Stroke"
    assert found[3, 2].which.number == 0


@pytest.mark.parametrize(
    ("title", "labels"),
    [
        ("Parts and labor", ("Gasket set", "Rings", "Line bore", "Total")),
        ("Rechnung", ("Dichtsatz", "Ringe", "Arbeit", "Summe")),
        ("Facture", ("Joints", "Segments", "Main-d'œuvre", "Total")),
        ("Presupuesto", ("Juntas", "Aros", "Mano de obra", "Total")),
        ("Preventivo", ("Guarnizioni", "Fasce", "Manodopera", "Totale")),
    ],
)
def test_numbers_that_a_total_adds_up_are_prices(tmp_path, title, labels):
    prices = (88.5, 120.0, 240.25, 448.75)
    rows = [[title], *([*row] for row in zip(labels, prices, strict=True))]
    assert summed(sheet_text(tmp_path, rows)) == {(r, 2) for r in (2, 3, 4, 5)}


def test_torques_that_happen_to_add_up_are_no_prices(tmp_path):
    rows = [["Head bolt torque", 25.0], ["Rod bolt torque", 15.0], ["Main bolt torque", 40.0]]
    assert summed(sheet_text(tmp_path, rows)) == set()


@pytest.mark.parametrize(
    ("text", "mentions"),
    [
        ("bore 1 4.0305, piston 4.026", [("bore", 1, "4.0305"), ("piston", 1, "4.026")]),
        ("mains 65 / rods 45 ft-lb", [("mains", 0, "65 ft-lb"), ("rods", 0, "45 ft-lb")]),
        ("Bohrung #2 86,02 mm", [("Bohrung", 2, "86,02 mm")]),
        ("alésage 86,01 mm", [("alésage", 0, "86,01 mm")]),
        ("juego axial 0,12 mm", [("juego axial", 0, "0,12 mm")]),
        ("gioco assiale 0,12 mm", [("gioco assiale", 0, "0,12 mm")]),
        ("came back twice, 3 plugs missing", []),
    ],
)
def test_sentences_name_their_numbers(text, mentions):
    assert [(m.label, m.which.number, m.text) for m in spoken(text)] == mentions


def test_a_limit_that_is_empty_waits_for_nothing_and_a_reading_does(read):
    rows = [["Cyl", "Bore (in)", "Taper (in)"], [1, 4.03, 0.0004], [2, None, 0.0003], [3, 4.03]]
    assert {(3, 2), (4, 3)} <= read(rows).keys()


def test_an_empty_cell_waits_for_a_reading_only_where_readings_are_typed(read):
    heads = ["Cyl", "Height", "Bore", "Taper"]
    first = [["Cyl 1", 1, 86.01, "=C2-C3"], [None, 2, 86.0], ["Cyl 2", 1, 86.02, "=C4-C5"]]
    rows = [heads, *first, [None, 2, 86.01]]
    assert not {(3, 4), (5, 4)} & read(rows).keys(), "nobody types into a column of formulas"
    typed = [heads, ["Cyl 1", 1, 86.01, 0.01], [None, 2, 86.0], *rows[3:]]
    assert (3, 4) not in read(typed, merged=("D2:D3",)), "the cell above reaches over it"
    gone = read([["Cyl", "Bore", "Stroke"], [1, 86.01, 80.0], [2, None, 80.1]])
    assert (3, 2) in gone


@pytest.mark.parametrize("numbers", [(1, 2, 3), ("1", "2", "3")])
def test_numbers_of_rows_are_no_sizes_typed_as_text_or_not(tmp_path, numbers):
    rows = [["No.", "Fastener", "Stretch (in)"], *([n, f"Bolt {n}", 0.0058] for n in numbers)]
    text = sheet_text(tmp_path, rows)
    list(spots(text))
    assert text.indexes == {(2, 1), (3, 1), (4, 1)}


def test_a_bank_is_settled_by_all_rows_for_every_column(read):
    rows = [["Cyl", "Bank", "Bore (mm)", "Piston (mm)"]]
    rows += [[n, "A" if n <= 3 else "B", 81.0 + n / 1e3, 80.95] for n in range(1, 7)]
    found = read(rows)
    for column in (3, 4):
        told = [found[row, column].which for row in range(2, 8)]
        assert [(w.bank, w.at) for w in told] == [("A", ())] * 3 + [("B", ())] * 3


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Rod is 6 3/4 in between centres.", [("Rod", "6 3/4 in")]),
        ("Stroke by the gauge: 3 9/16 in.", [("Stroke gauge", "3 9/16 in")]),
        ("Pin is .7498, bush reamed to .7505", [("Pin", ".7498"), ("bush", ".7505")]),
        ("Shafts trued. End float 8 thou.", [("End float", "8 thou")]),
        ("Head volume with plug in, 86 cc", [("Head volume with plug in", "86 cc")]),
        ("Head bolts 22 lb ft. See the card", [("Head bolts", "22 lb.ft")]),
        ("Piston stops 35 thou below the deck.", [("Piston below deck", "35 thou")]),
        ("Barrel came in at 3.158 worn", [("Barrel came in", "3.158")]),
        ("Bore honed to 3.17 in the middle", [("Bore honed", "3.17")]),
    ],
)  # fmt: skip
def test_sentences_end_and_say_more_behind_their_numbers(text, told):
    assert [(m.label, m.text) for m in spoken(text)] == told


def test_pins_side_by_side_are_numbered_crankpins(read):
    found = read([[None, "Pin 1", "Pin 2", "Pin 3"], ["Crankpin", 54.982, 54.983, 54.982]])
    assert [
        (found[2, c].label, found[2, c].which.number, found[2, c].which.of) for c in (2, 3)
    ] == [
        ("Crankpin", 1, "rod"),
        ("Crankpin", 2, "rod"),
    ]


def test_a_lone_value_below_numbered_bearings_is_of_none_of_them(read):
    rows = [[None, "Main 1", "Main 2", "Main 3"], ["Journal", 69.97, 69.98, 69.97]]
    found = read([*rows, ["End float", 0.15], ["Clearance", 0.06]])
    assert (found[3, 2].label, found[3, 2].which.number) == ("End float", 0)
    assert found[4, 2].which.number == 1


def test_numbers_of_the_lines_of_a_form_say_nothing_of_which_one(read):
    heads = ["No.", "What", "Cyl 1", "Cyl 2", "min"]
    rows = [[1, "Bore", 95.01, 95.02, 95.0], [2, "Stroke", 120.0, 120.0, 119.9]]
    found = read([heads, *rows, [3, "Top ring gap", 0.4, 0.41, 0.3]])
    assert [found[4, c].which.number for c in (3, 4, 5)] == [1, 2, 0]
