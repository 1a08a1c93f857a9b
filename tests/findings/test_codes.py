"""Codes of findings: each is explained, and what its example says is really found."""

import pytest
from typer.testing import CliRunner

from workbook_tools.cli import app
from workbook_tools.findings import CODES, check
from workbook_tools.jobs.read import read_book

BAND = "=ENG.VERDICT(B1,0.0015,0.0025)"
QUENCH = ["Quench (in)", "=ENG.QUENCH(B1,B2)"]
DECK, GASKET = ["Deck clearance (in)", 0.004], ["Gasket, compressed (in)", 0.04]
CYLINDERS, MAINS = ["Cylinder", 1, 2, 3, 4], ["Main", 1, 2, 3, 4]
CLEARANCES = [f"=ENG.PISTON_CLEARANCE({c}2,{c}3)" for c in "BCDE"]

# Codes whose examples no book of a few cells shows here; the tests of their checks hold them.
WITHOUT_BOOK = {
    "contradicts-its-sizes",
    "unusual-result",
    "unusual-by-one-step",
    "missing-cylinder",
    "range-cut-short",
    "wrong-sign",
    "crown-sign",
    "cam-degrees-doubled",
    "sizes-out-of-order",
    "ring-gap-not-as-wanted",
    "hot-for-cold",
    "mains-rule-for-rods",
    "temperature-for-rise",
    "lash-hot-for-cold",
    "per-side-for-total",
    "cam-for-crank-degrees",
    "rocked-for-clearance",
    "torque-for-other-threads",
    "nut-factor-for-other-threads",
    "block-across",
    "rounded-readings",
    "stated-displacement",
    "stated-ratio",
    "job-number",
    "book-trouble",
    "copied-readings",
    "copies-of-a-job",
}

# code: rows of a sheet S and what its formulas were saved as, with the numbers of the example.
BOOKS = {
    "out-of-band": ([["Main clearance (in)", 0.0031, BAND]], {"C1": "high"}),
    "near-limit": ([["Main clearance (in)", 0.00152, BAND]], {"C1": "ok"}),
    "missing-reading": ([DECK, ["Gasket (in)", None], QUENCH], {"B3": "#VALUE!"}),
    "label-unit-not-taken": ([DECK, ["Gasket (mm)", 1.0], QUENCH], {"B3": 1.004}),
    "two-units-taken": (
        [["Deck clearance", 0.004], ["Gasket, compressed", 0.04],
         ["Quench", "=ENG.QUENCH(B1,B2)"], ["Quench", '=ENG.QUENCH(B1,B2,"metric")']],
        {"B3": 0.044, "B4": 0.044},
    ),
    "slipped-decimal": ([CYLINDERS, ["Bore (in)", 4.1101, 4.1103, 0.41102, 4.1104]], {}),
    "wrong-unit": ([CYLINDERS, ["Bore (in)", 4.1101, 4.1103, 104.399, 4.1104]], {}),
    "thousandths": ([DECK, ["Gasket, compressed (in)", 39], QUENCH], {"B3": "#VALUE!"}),
    "one-turn": ([MAINS, ["Main journal (in)", 2.0405, 2.0404, 2.0155, 2.0405]], {}),
    "half-or-double": ([MAINS, ["Main journal (in)", 2.0405, 2.0404, 1.0202, 2.0405]], {}),
    "deck-sign": (
        [["Deck clearance, above deck (in)", 0.008], GASKET, QUENCH], {"B3": 0.048},
    ),
    "gasket-bore-not-above-bore": ([["Bore (in)", 4.11], ["Gasket bore (in)", 4.1]], {}),
    "gasket-bore-far-above-bore": ([["Bore (in)", 4.11], ["Gasket bore (in)", 4.68]], {}),
    "free-gasket-for-compressed": (
        [DECK, ["Gasket, uncompressed (in)", 0.051], QUENCH], {"B3": 0.055},
    ),
    "rounded-by-formula": (
        [["Bore (in)", 4.1104], ["Piston (in)", 4.1062],
         ["Piston clearance (in)", "=ENG.PISTON_CLEARANCE(ROUND(B1,3),B2)"]],
        {"B3": 0.0038},
    ),
    "entered-twice": (
        [["Stroke (in)", 3.54], ["Bore (in)", 4.11], [], ["Stroke (in)", 3.82]], {},
    ),
    "missing-signature": (
        [["Job", "24-031"], ["Finished", "2025-04-02"], ["Released by", None],
         DECK, GASKET, ["Quench (in)", "=ENG.QUENCH(B4,B5)"]],
        {"B6": 0.044},
    ),
    "stale-formula": (
        [["Bore (in)", 4.11], ["Piston (in)", 4.07], ["Deck clearance (in)", "=B1-B2"],
         ["Quench (in)", "=ENG.QUENCH(B3,0.04)"]],
        {"B3": 0.041, "B4": 0.081},
    ),
    "typed-over": (
        [CYLINDERS, ["Bore (in)", 4.1101, 4.1103, 4.1102, 4.1104],
         ["Piston (in)", 4.1061, 4.1063, 4.1062, 4.1064],
         ["Piston clearance (in)", *CLEARANCES[:2], 0.004, CLEARANCES[3]]],
        {"B4": 0.004, "C4": 0.004, "E4": 0.004},
    ),
    "gasket-bore-is-bore": (
        [
            ["Finished bore (in)", 4.11],
            GASKET,
            ["Gasket volume (cc)", "=ENG.GASKET_VOLUME(B1,B2)"],
            ["Cylinder volume (cc)", "=ENG.CYLINDER_VOLUME(B1,3.54)"],
        ],
        {},
    ),
    "unusable-cell": ([DECK, ["Gasket (in)", "ask Lena"], QUENCH], {"B3": "#VALUE!"}),
    "no-result": ([["Quench (in)", "=ENG.QUENCH(0.01,0)"]], {"B1": "#VALUE!"}),
    "not-recomputed": (
        [DECK, GASKET, ["Quench (in)", '=ENG.QUENCH(B1,INDIRECT("B2"))']],
        {"B3": 0.044},
    ),
    "stale-result": ([["Quench (in)", "=ENG.QUENCH(0.01,0.03)"]], {"B1": 0.041}),
    "never-calculated": ([["Quench (in)", "=ENG.QUENCH(0.01,0.03)"]], {}),
    "finished-before-started": (
        [["Job", "24-031"], ["Started", "2025-04-14"], ["Finished", "2025-04-02"],
         DECK, GASKET, ["Quench (in)", "=ENG.QUENCH(B4,B5)"]],
        {"B6": 0.044},
    ),
}  # fmt: skip


def test_every_code_is_explained_in_sentences():
    for name, code in CODES.items():
        for text in (code.meaning, code.settle, code.example):
            assert text.endswith("."), name
            assert "\n" not in text, name
    assert BOOKS.keys() | WITHOUT_BOOK == CODES.keys()
    assert not BOOKS.keys() & WITHOUT_BOOK


@pytest.mark.parametrize("name", BOOKS)
def test_what_an_example_says_is_found(make_book, name):
    rows, saved = BOOKS[name]
    found = check(read_book(make_book({"S": rows}, {"S": saved})))
    assert name in [finding.code for finding in found]


@pytest.mark.parametrize("name", [name for name in BOOKS if "=ENG." in CODES[name].example])
def test_a_formula_of_an_example_stands_in_its_book(name):
    formulas = [cell for row in BOOKS[name][0] for cell in row if str(cell).startswith("=ENG.")]
    assert any(formula in CODES[name].example for formula in formulas)


def test_the_command_lists_all_codes_by_kind_and_explains_one():
    listed = CliRunner().invoke(app, ["findings"])
    assert listed.exit_code == 0
    assert {line.split()[0] for line in listed.stdout.splitlines() if line.startswith("  ")} == {
        *CODES
    }
    one = CliRunner().invoke(app, ["findings", "near-limit"])
    for text in (CODES["near-limit"].meaning, "0.00152 in", CODES["near-limit"].settle):
        assert text in one.stdout
    wrong = CliRunner().invoke(app, ["findings", "near-limits"])
    assert (wrong.exit_code, "the nearest is near-limit." in wrong.stderr) == (2, True)
