"""One inline six written down in many ways: layouts, unit systems, languages, habits.

LAYOUTS maps the name of a way to a function that fills a workbook. All of them hold the same
readings, which ENGINE gives in SI by (name, cylinder); "" is one for all cylinders.
"""

from __future__ import annotations

from one_engine_forms import (
    a_label_each,
    both_units,
    heights_and_axes,
    notes_among_numbers,
    printed_form,
    several_sheets,
    small_tables,
)
from one_engine_sizes import (
    BORES,
    CC,
    CHAMBERS,
    CYLINDERS,
    DECKS,
    DISH,
    GASKET,
    GASKET_BORE,
    INCH,
    STROKE,
    comma,
    fill,
    mm,
)
from openpyxl import Workbook

ENGINE = {
    **{("bore", str(n)): b * INCH for n, b in enumerate(BORES, 1)},
    **{("chamber_volume", str(n)): c * CC for n, c in enumerate(CHAMBERS, 1)},
    **{("deck_clearance", str(n)): d * INCH for n, d in enumerate(DECKS, 1)},
    ("stroke", ""): STROKE * INCH,
    ("crown", ""): DISH * CC,
    ("gasket_bore", ""): GASKET_BORE * INCH,
    ("gasket_thickness", ""): GASKET * INCH,
}


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
