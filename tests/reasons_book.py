"""A book whose cells show errors, and what is to be said of each of them in every program."""

from __future__ import annotations

import openpyxl
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.formula import ArrayFormula

TYPED = {"A1": -0.002, "A2": 0.042, "E1": 0.001, "F1": 0.002, "H1": 0.003, "F2": "x"}
BEARINGS = {"B2": 0.038, "B3": "38 thu"}

_NO_GASKET = "ENG.QUENCH(A1,A3): gasket_thickness from A3: expected a length above 0, got an empty"
# Formula -> what the words about its cell hold. {error} is what the program calls the error.
WORDS = {
    "=ENG.QUENCH(A1,A3)": (_NO_GASKET,),
    "=ENG.QUENCH(A1,A2)": ("no error. ENG.QUENCH: Quench:", "0.042 in (A2)", "it is 0.04 in."),
    "=ENG.QUENCH(A1,'Main bearings'!B3)": (
        "gasket_thickness from 'Main bearings'!B3: expected a length above 0, got '38 thu'",
    ),
    "=ENG.VERDICT(ENG.QUENCH(A1,A3),0.035,0.045)": (_NO_GASKET,),
    "=ENG.QUENCH(A1,-A2*2)": ("gasket_thickness from -A2*2:", "got -0.084"),
    "=ENG.QUENCH(B1,A2)": (
        "deck_clearance from B1: ",
        "the error {error}",
        f"Build!B1: {_NO_GASKET}",
    ),
    "=B6*2": ("{error} comes from B6. Build!B6: ENG.QUENCH(B1,A2)", f"Build!B1: {_NO_GASKET}"),
    "=ENG.QUENCH(B1+1,A2)": (
        "deck_clearance from B1+1: ",
        "error {error}",
        f"Build!B1: {_NO_GASKET}",
    ),
    "=SUM(ENG.QUENCH(E1:H1,A2))": ("deck_clearance from G1: expected a length, got an empty cell",),
    "=1/0+ENG.QUENCH(A1,A2)": (
        "#DIV/0!, and no ENG function in it refuses its input",
        "A2 holds 0.042",
    ),
    "=ENG.QUENCH(AVERAGE(A1:A2),A2)": ("deck_clearance = 0.02 in (AVERAGE(A1:A2))", "is 0.062 in"),
    "=ENG.QUENCH(A1)": ("ENG.QUENCH(A1): expected 2 to 3 arguments",),
    "=ENG.MEAN_READING(E1:H1,4)": ("readings from E1:H1: expected 4 readings, got 3 readings",),
    "=ENG.JUDGE(E2:H2,4,0.001,0.002)": ("readings from F2: expected a number, got 'x'",),
    "=A1+A2": ("no error; A1+A2 calls no ENG function and comes to 0.04.",),
    "=ENG.QUENCH(Deck,A2)": ("no error.", "deck_clearance = -0.002 in (A1)"),
}
# Other cells that are pointed at.
POINTED = {
    "A2": "Build!A2: no formula; it holds 0.042.",
    "A9": "Build!A9: no formula; it is empty.",
    "E4": "Build!E4: no error.",
    "G4": "Build!G4: ENG.QUENCH(E1:H1,A2): deck_clearance from G1: expected a length, got an empty",
    "'Main bearings'!B3": "'Main bearings'!B3: no formula; it holds \"38 thu\".",
    "A1:A2": "Build!A1:A2 is a range: point at a single cell.",
    "Deck": "Build!A1: no formula; it holds -0.002.",
}


def save_reasons_book(path) -> None:
    """Formulas in column B, what is to be said of them in C, of other cells in D."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Build"
    bearings = book.create_sheet("Main bearings")
    for address, value in BEARINGS.items():
        bearings[address] = value
    for address, value in TYPED.items():
        sheet[address] = value
    for row, formula in enumerate(WORDS, 1):
        sheet[f"B{row}"] = formula
        sheet[f"C{row}"] = f"=ENG.WHY(B{row})"
    sheet["E4"] = ArrayFormula("E4:H4", "=ENG.QUENCH(E1:H1,A2)")
    for row, pointed in enumerate(POINTED, 1):
        sheet[f"D{row}"] = f"=ENG.WHY({pointed})"
    book.defined_names["Deck"] = DefinedName("Deck", attr_text="Build!$A$1")
    book.save(path)


def check_words(told, error: str) -> None:
    """Hold the words against what is to be said.

    told: {address: words} of columns C and D; error: what the program calls a refused input.
    """
    for row, expected in enumerate(WORDS.values(), 1):
        for words in expected:
            assert words.format(error=error) in told[f"C{row}"], (row, told[f"C{row}"])
        assert told[f"C{row}"].startswith(f"Build!B{row}: ")
    for row, words in enumerate(POINTED.values(), 1):
        assert told[f"D{row}"].startswith(words), (row, told[f"D{row}"])
