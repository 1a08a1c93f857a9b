"""One V8 written down in many ways, with readings of mains; as tests/books/one_engine.py.

Its numbers are those of worked arithmetic: decks from rocked pistons, mains from housing,
shell and journal.
"""

from __future__ import annotations

from one_engine_sizes import CC, INCH, comma, fill, mm
from openpyxl import Workbook

HIGH = (0.0055, 0.0060, 0.0050, 0.0075, 0.0040, 0.0055, 0.0050, 0.0080)
LOW = (0.0105, 0.0110, 0.0100, 0.0125, 0.0100, 0.0115, 0.0105, 0.0130)
DECKS = tuple(round((h + low) / 2, 6) for h, low in zip(HIGH, LOW, strict=True))
BORE, STROKE, CHAMBER, RELIEFS, GASKET_BORE, GASKET = 4.1100, 3.5400, 66.4, 5.2, 4.1800, 0.0410
HOUSINGS = (2.6410, 2.6408, 2.6412, 2.6409, 2.6411)
SHELL = 0.0950
JOURNALS = (2.4486, 2.4483, 2.4485, 2.4486, 2.4483)
CYLINDERS, MAINS = range(1, 9), range(1, 6)
LEFT, RIGHT = (0, 2, 4, 6), (1, 3, 5, 7)

ENGINE = {
    **{("bore", str(n)): BORE * INCH for n in CYLINDERS},
    **{("deck_clearance", str(n)): d * INCH for n, d in enumerate(DECKS, 1)},
    **{("main_housing_bore", str(n)): h * INCH for n, h in enumerate(HOUSINGS, 1)},
    **{("main_shell_wall", str(n)): SHELL * INCH for n in MAINS},
    **{("main_journal", str(n)): j * INCH for n, j in enumerate(JOURNALS, 1)},
    ("stroke", ""): STROKE * INCH,
    ("chamber_volume", ""): CHAMBER * CC,
    ("crown", ""): RELIEFS * CC,
    ("gasket_bore", ""): GASKET_BORE * INCH,
    ("gasket_thickness", ""): GASKET * INCH,
}


def pick(numbers, which):
    return [numbers[i] for i in which]


def basics(*, unit=True):
    end = ["in"] if unit else []
    return [
        ["Stroke", STROKE, *end],
        ["Chamber cc", CHAMBER],
        ["Valve reliefs cc", RELIEFS],
        ["Gasket bore", GASKET_BORE, *end],
        ["Gasket thickness", GASKET, *end],
        [],
    ]


def mains_across(unit=" (in)"):
    return [
        [],
        ["MAIN BEARINGS"],
        ["Main", *MAINS],
        [f"Housing bore{unit}", *HOUSINGS],
        [f"Shell wall{unit}", *[SHELL] * 5],
        [f"Journal{unit}", *JOURNALS],
    ]


def bank_names_across(book):
    fill(
        book.active,
        [
            ["ALL SIZES IN INCHES"],
            *basics(),
            ["", "Left bank", None, None, None, "Right bank"],
            ["Cylinder", 1, 3, 5, 7, 2, 4, 6, 8],
            ["Bore", *[BORE] * 8],
            ["In the hole", *pick(DECKS, LEFT), *pick(DECKS, RIGHT)],
            *mains_across(""),
        ],
    )


def rocked_thou(book):
    fill(
        book.active,
        [
            *basics(),
            ["Cyl", "Bore (in)", "Deck (thou)"],
            ["", "", "High side", "Low side"],
            *(
                [n, BORE, h * 1000, low * 1000]
                for n, h, low in zip(CYLINDERS, HIGH, LOW, strict=True)
            ),
            *mains_across(),
        ],
    )
    book.active.merge_cells("C7:D7")


def numbered_items(book):
    fill(
        book.active,
        [
            ["Clearance sheet", None, None, "dimensions in inch"],
            [],
            ["1.", "Stroke", STROKE],
            ["2.", "Chamber volume", CHAMBER, "cc"],
            ["3.", "Reliefs", RELIEFS, "cc"],
            ["4.", "Gasket bore", GASKET_BORE],
            ["5.", "Gasket, compressed", GASKET],
            [],
            ["", "Item", *(f"No. {n}" for n in CYLINDERS)],
            ["6.", "Finished bore", *[BORE] * 8],
            ["7.", "Deck clearance", *DECKS],
            [],
            ["", "Mains", *(f"No. {n}" for n in MAINS)],
            ["8.", "Main housing", *HOUSINGS],
            ["9.", "Main shell", *[SHELL] * 5],
            ["10.", "Main journal", *JOURNALS],
        ],
    )


def two_line_heads(book):
    rows = zip(CYLINDERS, mm(*[BORE] * 8), mm(*DECKS), strict=True)
    mains = zip(MAINS, mm(*HOUSINGS), mm(*[SHELL] * 5), mm(*JOURNALS), strict=True)
    fill(
        book.active,
        [
            ["Stroke [mm]", *mm(STROKE)],
            ["Chamber [cc]", CHAMBER],
            ["Dish [cc]", RELIEFS],
            ["Gasket bore [mm]", *mm(GASKET_BORE)],
            ["Gasket thickness [mm]", *mm(GASKET)],
            [],
            ["Cyl.", "Bore\n(mm)", "Deck clearance\n(mm)"],
            *(list(r) for r in rows),
            [],
            ["Main", "Main\nhousing (mm)", "Main\nshell (mm)", "Main\njournal (mm)"],
            *(list(r) for r in mains),
        ],
    )


def labels_above(book):
    fill(
        book.active,
        [
            [
                "Stroke (in)",
                "Chamber (cc)",
                "Valve relief volume (cc)",
                "Gasket bore (in)",
                "Head gasket thickness (in)",
            ],
            [STROKE, CHAMBER, RELIEFS, GASKET_BORE, GASKET],
            [],
            ["Cylinder", "Bore (in)", "Piston in hole (in)"],
            *([n, BORE, d] for n, d in zip(CYLINDERS, DECKS, strict=True)),
            [],
            ["Main no.", "Main bore (in)", "Main shell wall (in)", "Main journal dia (in)"],
            *([n, h, SHELL, j] for n, h, j in zip(MAINS, HOUSINGS, JOURNALS, strict=True)),
        ],
    )


def sheets_by_part(book):
    book.active.title = "Block"
    fill(
        book.active,
        [
            ["units: inch"],
            ["Cyl", "Bore", "Deck"],
            *([n, BORE, d] for n, d in zip(CYLINDERS, DECKS, strict=True)),
        ],
    )
    fill(
        book.create_sheet("Mains"),
        [
            ["No.", "Housing", "Shell", "Journal"],
            *([n, h, SHELL, j] for n, h, j in zip(MAINS, HOUSINGS, JOURNALS, strict=True)),
        ],
    )
    fill(book.create_sheet("Volumes"), basics(unit=False))


def lines_of_text(book):
    fill(
        book.active,
        [
            [f"Stroke: {STROKE} in"],
            [f"Chamber: {CHAMBER} cc"],
            ["Reliefs: 5.2 cc"],
            ["Gasket bore: 4.180 in"],
            ["Gasket thickness: .041 in"],
            *([f'Bore {n}: {BORE}"'] for n in CYLINDERS),
            *(
                [f"Deck clearance {n}: {d * 1000:g} thou"]
                for n, d in zip(CYLINDERS, DECKS, strict=True)
            ),
            [],
            *([f"Main housing {n}: {h} in"] for n, h in zip(MAINS, HOUSINGS, strict=True)),
            *([f"Main shell {n}: .095 in"] for n in MAINS),
            *([f"Main journal {n}: {j} in"] for n, j in zip(MAINS, JOURNALS, strict=True)),
        ],
    )


def banks_stacked(book):
    def rows(which):
        return [[i + 1, BORE, DECKS[i]] for i in which]

    fill(
        book.active,
        [
            *basics(),
            ["LEFT SIDE"],
            ["Cyl", "Bore (in)", "Deck (in)"],
            *rows(LEFT),
            [],
            ["RIGHT SIDE"],
            ["Cyl", "Bore (in)", "Deck (in)"],
            *rows(RIGHT),
            *mains_across(),
        ],
    )


def signed_lines(book):
    fill(
        book.active,
        [
            ["Item", "Reading", "Unit", "By"],
            ["Stroke", STROKE, "in", "JT"],
            ["Chamber", CHAMBER, "cc", "JT"],
            ["Valve reliefs", RELIEFS, "cc", "RK"],
            ["Gasket bore", GASKET_BORE, "in", "JT"],
            ["Gasket thickness", GASKET, "in", "JT"],
            *([f"Bore #{n}", BORE, "in", "RK"] for n in CYLINDERS),
            *(
                [f"Deck clearance #{n}", d, "in", "RK"]
                for n, d in zip(CYLINDERS, DECKS, strict=True)
            ),
            *([f"Main #{n} housing", h, "in", "JT"] for n, h in zip(MAINS, HOUSINGS, strict=True)),
            *([f"Main #{n} shell", SHELL, "in", "JT"] for n in MAINS),
            *([f"Main #{n} journal", j, "in", "JT"] for n, j in zip(MAINS, JOURNALS, strict=True)),
        ],
    )


def german_texts(book):
    def with_mm(*inches):
        return [f"{text} mm" for text in comma(*mm(*inches))]

    fill(
        book.active,
        [
            ["Hub", *with_mm(STROKE)],
            ["Brennraum", "66,4 ccm"],
            ["Mulde", "5,2 ccm"],
            ["Dichtung Bohrung", *with_mm(GASKET_BORE)],
            ["Dichtung gepresst", *with_mm(GASKET)],
            [],
            ["Zylinder", *CYLINDERS],
            ["Bohrung", *with_mm(*[BORE] * 8)],
            ["Kolbenrückstand", *with_mm(*DECKS)],
            [],
            ["Hauptlager", *MAINS],
            ["Grundbohrung", *with_mm(*HOUSINGS)],
            ["Lagerschale", *with_mm(*[SHELL] * 5)],
            ["Zapfen", *with_mm(*JOURNALS)],
        ],
    )


def standard_beside(book):
    fill(
        book.active,
        [
            ["inch book, all dimensions inch"],
            ["Item", "Std", "Actual"],
            ["Stroke", 3.54, STROKE],
            ["Chamber (cc)", 67, CHAMBER],
            ["Valve reliefs (cc)", 5.0, RELIEFS],
            ["Gasket bore", 4.2, GASKET_BORE],
            ["Gasket thickness", 0.039, GASKET],
            [],
            ["Cyl", "Bore", None, "Deck", None],
            ["", "Std", "Actual", "Target", "Actual"],
            *([n, 4.0, BORE, 0.005, d] for n, d in zip(CYLINDERS, DECKS, strict=True)),
            *mains_across(""),
        ],
    )
    book.active.merge_cells("B9:C9")
    book.active.merge_cells("D9:E9")


LAYOUTS = {
    function.__name__: function
    for function in (
        bank_names_across,
        rocked_thou,
        numbered_items,
        two_line_heads,
        labels_above,
        sheets_by_part,
        lines_of_text,
        banks_stacked,
        signed_lines,
        german_texts,
        standard_beside,
    )
}


def write(path, layout):
    """Write the engine in one of the ways."""
    book = Workbook()
    LAYOUTS[layout](book)
    book.save(path)
    return path
