"""One inline six written down in many ways: layouts, unit systems, languages, habits.

LAYOUTS maps the name of a way to a function that fills a workbook. All of them hold the same
readings, which ENGINE gives in SI by (name, cylinder); "" is one for all cylinders.
"""

from __future__ import annotations

from openpyxl import Workbook
from openpyxl.styles import Font

INCH, CC = 0.0254, 1e-6
BORES = (3.9052, 3.9055, 3.9051, 3.9058, 3.9054, 3.9053)
CHAMBERS = (69.5, 69.9, 69.4, 70.1, 69.6, 69.3)
DECKS = (0.0120, 0.0125, 0.0110, 0.0140, 0.0125, 0.0115)
STROKE, DISH, GASKET_BORE, GASKET = 3.6250, 10.0, 3.9700, 0.0430
CYLINDERS = range(1, 7)

ENGINE = {
    **{("bore", str(n)): b * INCH for n, b in enumerate(BORES, 1)},
    **{("chamber_volume", str(n)): c * CC for n, c in enumerate(CHAMBERS, 1)},
    **{("deck_clearance", str(n)): d * INCH for n, d in enumerate(DECKS, 1)},
    ("stroke", ""): STROKE * INCH,
    ("crown", ""): DISH * CC,
    ("gasket_bore", ""): GASKET_BORE * INCH,
    ("gasket_thickness", ""): GASKET * INCH,
}


def mm(*inches):
    return [round(i * 25.4, 5) for i in inches]


def comma(*numbers):
    return [f"{n:.5f}".rstrip("0").rstrip(".").replace(".", ",") for n in numbers]


def fill(sheet, rows):
    for row in rows:
        sheet.append(row)


def labels_left(book):
    fill(
        book.active,
        [
            ["Engine", "inline six"],
            [],
            ["Stroke (in)", STROKE],
            ["Gasket bore (in)", GASKET_BORE],
            ["Gasket thickness, compressed (in)", GASKET],
            ["Dish volume (cc)", DISH],
            [],
            ["Cylinder", *CYLINDERS],
            ["Bore (in)", *BORES],
            ["Chamber (cc)", *CHAMBERS],
            ["Deck clearance (in)", *DECKS],
        ],
    )


def pairs_across(book):
    fill(
        book.active,
        [
            ["Stroke", STROKE, "in", "Gasket bore", GASKET_BORE, "in"],
            ["Dish", DISH, "cc", "Compressed gasket", GASKET, "in"],
            [],
            ["", *(f"Cyl {n}" for n in CYLINDERS)],
            ["Finished bore", *BORES, "in"],
            ["Chamber volume", *CHAMBERS, "cc"],
            ["Piston deck clearance", *DECKS, "in"],
        ],
    )


def unit_column(book):
    fill(
        book.active,
        [
            ["Item", "Unit", "Value"],
            ["Stroke", "in", STROKE],
            ["Gasket bore", "in", GASKET_BORE],
            ["Head gasket compressed", "in", GASKET],
            ["Piston dish", "cc", DISH],
            [],
            ["Item", "Unit", *CYLINDERS],
            ["Bore", "in", *BORES],
            ["Chamber cc", "cc", *CHAMBERS],
            ["Deck", "thou", *(d * 1000 for d in DECKS)],
        ],
    )


def cylinders_down(book):
    fill(
        book.active,
        [
            ["All dims inch, volumes cc"],
            ["Stroke", STROKE],
            ["Gasket bore", GASKET_BORE],
            ["Gasket thickness", GASKET],
            ["Dish cc", DISH],
            [],
            ["Cyl.", "Bore", "Chamber", "Deck"],
            *([n, b, c, d] for n, b, c, d in zip(CYLINDERS, BORES, CHAMBERS, DECKS, strict=True)),
        ],
    )


def title_block(book):
    sheet = book.active
    fill(
        sheet,
        [
            ["MARSH LANE ENGINES"],
            ["build record"],
            [],
            ["Job no.", "24-017", None, "Customer", "R. Dell"],
            [],
            [],
            ["SHORT BLOCK"],
            ["Stroke", None, STROKE, "in"],
            [],
            ["HEAD GASKET"],
            ["Compressed thickness", None, GASKET, "in"],
            ["Bore", None, GASKET_BORE, "in"],
            [],
            ["No.", "Cyl bore (in)", None, "Head cc", "In the hole (in)"],
            *(
                [n, b, None, c, d]
                for n, b, c, d in zip(CYLINDERS, BORES, CHAMBERS, DECKS, strict=True)
            ),
            [],
            ["Dish", None, DISH, "cc"],
        ],
    )
    for area in ("A1:H1", "A2:H2", "A8:B8", "A11:B11", "A12:B12", "A24:B24", "B14:C14"):
        sheet.merge_cells(area)


def metric(book):
    fill(
        book.active,
        [
            ["Units", "metric"],
            ["Stroke", *mm(STROKE)],
            ["Gasket bore", *mm(GASKET_BORE)],
            ["Gasket crushed", *mm(GASKET)],
            ["Valve reliefs", DISH, "cc"],
            [],
            ["cylinder", *CYLINDERS],
            ["bore size", *mm(*BORES)],
            ["head volume", *CHAMBERS],
            ["piston to deck", *mm(*DECKS)],
        ],
    )


def german_commas(book):
    rows = zip(CYLINDERS, comma(*mm(*BORES)), comma(*CHAMBERS), comma(*mm(*DECKS)), strict=True)
    fill(
        book.active,
        [
            ["Motorblatt", None, "alle Maße in mm"],
            ["Hub", *comma(*mm(STROKE))],
            ["Dichtungsbohrung", *comma(*mm(GASKET_BORE))],
            ["Dichtungsdicke", *comma(*mm(GASKET))],
            ["Kolbenmulde (ccm)", "10,0"],
            [],
            ["Zyl.", "Bohrung", "Brennraum (ccm)", "Kolbenrückstand"],
            *(list(row) for row in rows),
        ],
    )


def units_in_cells(book):
    fill(
        book.active,
        [
            ["stroke", '3 5/8"'],
            ["gasket bore", '3.970"'],
            ["gasket", "43 thou"],
            ["piston", "10cc dish"],
            ["dish", "10 cc"],
            [],
            ["#", *(f"#{n}" for n in CYLINDERS)],
            ["bore", *(f'{b}"' for b in BORES)],
            ["chambers", *(f"{c}cc" for c in CHAMBERS)],
            ["deck", *(f"{d * 1000:g} thou" for d in DECKS)],
        ],
    )


def banks_side_by_side(book):
    odd, even = (slice(0, None, 2), slice(1, None, 2))
    fill(
        book.active,
        [
            ["Stroke", STROKE, "in"],
            ["Gasket bore", GASKET_BORE, "in"],
            ["Gasket thickness", GASKET, "in"],
            ["Dish", DISH, "cc"],
            [],
            ["LEFT BANK", None, None, None, None, "RIGHT BANK"],
            ["Cyl", 1, 3, 5, None, "Cyl", 2, 4, 6],
            ["Bore in", *BORES[odd], None, "Bore in", *BORES[even]],
            ["Chamber cc", *CHAMBERS[odd], None, "Chamber cc", *CHAMBERS[even]],
            ["Deck in", *DECKS[odd], None, "Deck in", *DECKS[even]],
        ],
    )


def incoming_and_finished(book):
    worn = [round(b - 0.0305, 4) for b in BORES]
    fill(
        book.active,
        [
            ["INCOMING SIZES"],
            ["Cyl", *CYLINDERS],
            ["Bore (in)", *worn],
            ["Chamber (cc)", *[71.0] * 6],
            [],
            ["FINISHED SIZES"],
            ["Cyl", *CYLINDERS],
            ["Bore (in)", *BORES],
            ["Chamber (cc)", *CHAMBERS],
            ["Deck clearance (in)", *DECKS],
            [],
            ["Stroke (in)", STROKE],
            ["Gasket bore (in)", GASKET_BORE],
            ["Gasket thickness (in)", GASKET],
            ["Dish (cc)", DISH],
        ],
    )


def targets_beside(book):
    fill(
        book.active,
        [
            ["All sizes in inch"],
            ["", "Target", "Actual"],
            ["Stroke", 3.625, STROKE],
            ["Gasket bore", 3.98, GASKET_BORE],
            ["Gasket thickness", 0.041, GASKET],
            ["Dish (cc)", 9.5, DISH],
            [],
            ["", "Min", "Max", *CYLINDERS],
            ["Bore", 3.9050, 3.9060, *BORES],
            ["Chamber cc", 69, 71, *CHAMBERS],
            ["Deck", 0.010, 0.015, *DECKS],
            ["Bore target", 3.905],
        ],
    )


def small_tables(book):
    rows = zip(CYLINDERS, BORES, CYLINDERS, CHAMBERS, CYLINDERS, DECKS, strict=True)
    fill(
        book.active,
        [
            [
                "Stroke (in)",
                STROKE,
                None,
                "Gasket bore (in)",
                GASKET_BORE,
                None,
                "Gasket (in)",
                GASKET,
            ],
            ["Dish (cc)", DISH],
            [],
            ["Cyl", "Bore (in)", None, "Cyl", "Chamber (cc)", None, "Cyl", "Deck (in)"],
            *([a, b, None, c, d, None, e, f] for a, b, c, d, e, f in rows),
            ["avg", 3.9054, None, "avg", 69.63, None, "avg", 0.01225],
        ],
    )


def a_label_each(book):
    rows = []
    for n, b, c, d in zip(CYLINDERS, BORES, CHAMBERS, DECKS, strict=True):
        rows += [[f"Bore cyl {n}", b], [f"Chamber {n} (cc)", c], [f"Deck clearance, cyl {n}", d]]
    fill(
        book.active,
        [
            ["dimensions: inch"],
            ["Stroke:", STROKE],
            ["Gasket bore:", GASKET_BORE],
            ["Gasket thickness:", GASKET],
            ["Dish:", DISH, "cc"],
            *rows,
        ],
    )


def printed_form(book):
    fill(
        book.active,
        [
            ["Stroke: 3.6250 in"],
            ["Gasket bore ____ 3.970 in ____"],
            ["Gasket thickness: .043 in"],
            ["Dish volume: 10 cc"],
            [],
            ["Cylinder", *CYLINDERS],
            ["Bore", *BORES, "in"],
            ["Chamber", *CHAMBERS, "cc"],
            ["Deck clearance", *DECKS, "in"],
        ],
    )


def heights_and_axes(book):
    sheet = book.active
    fill(
        sheet,
        [
            ["All dims inch"],
            ["Bores"],
            ["Cylinder", None, *CYLINDERS],
            ["Bore", "T", *(b + 0.0001 for b in BORES)],
            [None, "M", *BORES],
            [None, "B", *(b - 0.0001 for b in BORES)],
            [],
            ["Stroke", STROKE],
            ["Gasket bore", GASKET_BORE],
            ["Gasket thickness", GASKET],
            ["Dish cc", DISH],
            [],
            ["Cylinder", None, *CYLINDERS],
            ["Chamber cc", None, *CHAMBERS],
            ["Deck clearance", None, *DECKS],
        ],
    )
    sheet.merge_cells("A4:A6")


def several_sheets(book):
    book.active.title = "Front"
    fill(book.active, [["Job no.", "24-017"], ["All measurements inch"], ["Stroke", STROKE]])
    fill(
        book.create_sheet("Bores"),
        [
            ["Cyl", "Thrust", "Axial"],
            *([n, b + 0.0001, b - 0.0001] for n, b in zip(CYLINDERS, BORES, strict=True)),
        ],
    )
    book["Bores"].insert_rows(1)
    book["Bores"]["B1"] = "Finished bore"
    book["Bores"].merge_cells("B1:C1")
    fill(book.create_sheet("Heads"), [["Chamber", *CYLINDERS], ["cc", *CHAMBERS]])
    book["Heads"].delete_rows(1, 2)
    fill(
        book["Heads"],
        [["Cylinder", *CYLINDERS], ["Chamber cc", *CHAMBERS], ["Gasket bore", GASKET_BORE]],
    )
    fill(
        book.create_sheet("Mock-up"),
        [
            ["Cylinder", *CYLINDERS],
            ["Deck clearance", *DECKS],
            ["Gasket compressed", GASKET],
            ["Dish", DISH, "cc"],
        ],
    )


def notes_among_numbers(book):
    sheet = book.active
    fill(
        sheet,
        [
            ["all dims in inch"],
            ["Stroke", STROKE, "checked on both ends"],
            ["Gasket bore", GASKET_BORE],
            ["Gasket thickness", ".043 crushed"],
            ["Dish", "10cc dish"],
            [],
            ["Cylinder", *CYLINDERS],
            [
                "Bore",
                3.9052,
                "3.9055 (was 3.9049)",
                3.9051,
                "3.9058 tight",
                3.9054,
                3.9053,
                "mic again Tue",
            ],
            ["", None, "honed twice"],
            ["Chamber cc", *CHAMBERS],
            ["Deck clearance", *DECKS],
            ["Deck clearance", 0.020, 0.021],
        ],
    )
    for column in "BC":
        sheet[f"{column}12"].font = Font(strike=True)
    sheet.row_dimensions[10].hidden = True
    sheet.column_dimensions["E"].hidden = True
    sheet.protection.sheet = True


def both_units(book):
    sheet = book.active
    fill(
        sheet,
        [
            ["Cyl", "Bore mm", "Bore in", "Chamber (cc)", "Deck (mm)"],
            *(
                [n, mm(b)[0], None, c, mm(d)[0]]
                for n, b, c, d in zip(CYLINDERS, BORES, CHAMBERS, DECKS, strict=True)
            ),
            [],
            ["Stroke (mm)", *mm(STROKE)],
            ["Gasket bore (mm)", *mm(GASKET_BORE)],
            ["Gasket (mm)", *mm(GASKET)],
            ["Dish (cc)", DISH],
        ],
    )
    for n in CYLINDERS:
        sheet[f"C{n + 1}"] = f"=B{n + 1}/25.4"


LAYOUTS = {
    function.__name__: function
    for function in (
        labels_left,
        pairs_across,
        unit_column,
        cylinders_down,
        title_block,
        metric,
        german_commas,
        units_in_cells,
        banks_side_by_side,
        incoming_and_finished,
        targets_beside,
        small_tables,
        a_label_each,
        printed_form,
        heights_and_axes,
        several_sheets,
        notes_among_numbers,
        both_units,
    )
}


def write(path, layout):
    """Write the engine in one of the ways."""
    book = Workbook()
    LAYOUTS[layout](book)
    book.save(path)
    return path
