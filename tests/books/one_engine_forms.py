"""An invented engine on forms, cards and several sheets."""

from __future__ import annotations

from one_engine_sizes import (
    BORES,
    CHAMBERS,
    CYLINDERS,
    DECKS,
    DISH,
    GASKET,
    GASKET_BORE,
    STROKE,
    fill,
    mm,
)
from openpyxl.styles import Font


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
