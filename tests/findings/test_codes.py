"""Codes of findings: each is explained, and what its example says is really found."""

import pytest
from each_case import each
from typer.testing import CliRunner

from workbook_tools.batch.check import check_books
from workbook_tools.cli import app
from workbook_tools.findings import CODES, check
from workbook_tools.jobs.read import read_book
from workbook_tools.settings.gauges import Gauge

BAND = "=ENG.VERDICT(B1,0.0015,0.0025)"
QUENCH = ["Quench (in)", "=ENG.QUENCH(B1,B2)"]
DECK, GASKET = ["Deck clearance (in)", 0.004], ["Gasket, compressed (in)", 0.04]
CYLINDERS, MAINS = ["Cylinder", 1, 2, 3, 4], ["Main", 1, 2, 3, 4]
CLEARANCES = [f"=ENG.PISTON_CLEARANCE({c}2,{c}3)" for c in "BCDE"]

GAUGES = (
    Gauge("Bore gauge", ("bore",), 0.0002 * 0.0254),
    Gauge("Micrometer", ("piston_diameter",), 0.0001 * 0.0254),
)

# code: rows of a sheet S, or several sheets, and what the formulas of S were saved as, with the
# numbers of the example.
BOOKS = {
    "out-of-band": ([["Main clearance (in)", 0.0031, BAND]], {"C1": "high"}),
    "near-limit": ([["Main clearance (in)", 0.00152, BAND]], {"C1": "ok"}),
    "cannot-tell": (
        [["Bore (in)", 4.1101], ["Piston diameter (in)", 4.106],
         ["Piston clearance (in)", "=ENG.PISTON_CLEARANCE(B1,B2)"],
         ["Verdict", "=ENG.VERDICT(B3,0.0040,0.0060)"]],
        {},
    ),
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
    "copied-part": (
        [CYLINDERS, ["Bore (mm)", 70.504, 70.507, 70.502, 70.502],
         ["Piston (mm)", 70.421, 70.424, 70.418, 70.418],
         ["Piston clearance (mm)", 0.083, 0.083, 0.084, 0.084],
         ["Top ring gap (mm)", 0.25, 0.27, 0.28, 0.28],
         ["Second ring gap (mm)", 0.25, 0.24, 0.26, 0.26],
         ["Oil ring gap (mm)", 0.22, 0.20, 0.23, 0.23]],
        {},
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
    "marked-not-done": (
        [["Job", "24-031"], ["Finished", "2025-04-02"],
         ["Fastener", "Lubricant", "Torque (ft-lb)", "Seen"],
         ["Main caps", "engine oil", 70, "RL"], ["Head bolts", "engine oil", 65, "no"]],
        {},
    ),
    "wrong-cylinder-count": (
        [CYLINDERS, ["Bore (in)", 4.1101, 4.1103, 4.1102, 4.1104],
         ["Piston (in)", 4.1061, 4.1063, 4.1062, 4.1064],
         ["Deck clearance (in)", 0.0091, 0.0093, 0.0092, 0.0094],
         ["Stroke (in)", 3.54], ["Displacement", "=ENG.DISPLACEMENT(B2,B5,6)"]],
        {"B6": 281.81},
    ),
    "nothing-read": ([["Job", "24-031"], ["Started", "2025-04-02"]], {}),
    "missing-section": (
        [["Job", "24-031"], ["Finished", "2025-04-02"], ["Scope", "short block"],
         CYLINDERS, ["Piston clearance (in)", 0.0041, 0.0042, 0.004, 0.0041]],
        {},
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
    "does-not-fit": (
        [["Bore (in)", 4.11], ["Piston (in)", 1.411], ["Clr", "=ENG.PISTON_CLEARANCE(B1,B2)"]],
        {"B3": "#VALUE!"},
    ),
    "unusual-share": ([["Bore (mm)", 86.0], ["Top ring gap (mm)", 1.8]], {}),
    "digits-exchanged": (
        [["Cyl", "Bore (mm)", "Piston (mm)"], *([n, 128.02, 127.87] for n in range(1, 5)),
         [5, 128.02, 127.78]],
        {},
    ),
    "bore-and-stroke": (
        [["Bore (in)", 3.5], ["Stroke (in)", 4.0], [], ["Cyl", 1, 2], ["Bore (in)", 4.001, 4.002]],
        {},
    ),
    "apart-from-siblings": (
        [["Cyl", "Bore (mm)", "Piston (mm)"], *([n, 86.01, 85.96] for n in range(1, 5)),
         [5, 86.12, 85.96]],
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
    "unusual-result": (
        [["Swept volume (cc)", 769.6], ["Chamber (cc)", 8.5], ["Gasket volume (cc)", 8.7],
         ["Deck volume (cc)", 1.0], ["Compression ratio", "=ENG.COMPRESSION_RATIO(B1,B2,B3,B4)"]],
        {"B5": 43.3},
    ),
    "unusual-by-one-step": (
        [["Housing bore (in)", 2.591], ["Shell wall (in)", 0.095], ["Main journal (in)", 2.374],
         ["Main clearance (in)", "=ENG.BEARING_CLEARANCE(B1,B2,B3)"]],
        {"B4": 0.027},
    ),
    "missing-cylinder": (
        [["Cylinder", 1, 2, 3, 4, 5, 6, 7], ["Top ring gap (in)", *[0.018] * 7],
         ["Displacement (cu in)", "=ENG.DISPLACEMENT(4.11,3.54,8)"]],
        {"B3": 375.7},
    ),
    "total-not-sum": (
        [["Balance card", "(g)"], ["Piston", 412], ["Pin", 118], ["Rings", 42], ["Locks", 4],
         ["Total", 567]],
        {},
    ),
    "range-cut-short": (
        [["Cylinder", "Bore (in)"],
         *enumerate([4.1101, 4.1100, 4.1102, 4.1099, 4.1101, 4.1103, 4.1102, 4.1100], 1),
         ["Mean bore (in)", "=AVERAGE(B2:B8)"]],
        {"B10": 4.1101},
    ),
    "exchanged-in-part": (
        [CYLINDERS, ["Top ring gap (in)", 0.018, 0.018, 0.024, 0.018],
         ["Second ring gap (in)", 0.024, 0.024, 0.018, 0.024]],
        {},
    ),
    "finished-past-found": (
        [["Rod", 1, 2, 3, 4], ["Crankpin as found (in)", 2.099, 2.099, 2.099, 2.099],
         ["Crankpin ground (in)", 2.089, 2.089, 2.104, 2.089]],
        {},
    ),
    "formula-unlike-siblings": (
        [["Cylinder", "Bore (in)", "Piston (in)", "Piston clearance (in)"],
         [1, 4.0302, 4.0268, "=B2-C2"], [2, 4.0305, 4.0267, "=B3-C4"],
         [3, 4.0307, 4.0269, "=B4-C4"], [4, 4.0307, 4.0265, "=B5-C5"]],
        {"D2": 0.0034, "D3": 0.0036, "D4": 0.0038, "D5": 0.0042},
    ),
    "wrong-sign": (
        [[*CYLINDERS, 5, 6, 7, 8],
         ["Height (in)", 0.008, 0.0085, -0.0075, 0.008, 0.0085, 0.008, 0.0075, 0.0085]],
        {},
    ),
    "crown-sign": (
        [["Dome (cc)", 8], ["Compression ratio", "=ENG.COMPRESSION_RATIO(769.6,64,8.7,0,B1)"]],
        {"B2": 10.54},
    ),
    "cam-degrees-doubled": (
        [["Intake centerline (deg)", 216], ["Lobe separation (deg)", 110],
         ["Advance (deg)", "=ENG.CAM_ADVANCE(B2,B1)"]],
        {"B3": -106},
    ),
    "sizes-out-of-order": (
        [["Intake stem diameter (in)", 0.344], ["Intake guide bore (in)", 0.343]], {},
    ),
    "ring-gap-not-as-wanted": (
        [["Bore (in)", 4.11], ["Factor", 0.0045], ["Gap wanted (in)", "=ENG.RING_GAP(B1,B2)"],
         ["Top ring gap (in)", 0.034]],
        {"B3": 0.0185},
    ),
    "hot-for-cold": (
        [["Deck clearance, hot (in)", 0.002], GASKET, ["Quench, cold (in)", QUENCH[1]]],
        {"B3": 0.042},
    ),
    "parts-touch": (
        [["Installed height (in)", 1.8], ["Coil bind height (in)", 1.27], ["Valve lift (in)", 0.55],
         ["Margin to coil bind (in)", "=ENG.COIL_BIND_MARGIN(B1,B2,B3)"]],
        {"B4": -0.02},
    ),
    "tight-when-hot": (
        [["Bore (in)", 4.11], ["Piston (in)", 4.109],
         ["Hot clearance (in)",
          '=ENG.HOT_PISTON_CLEARANCE(B1,B2,130,280,"gray iron","aluminum 2618")']],
        {},
    ),
    "duration-too-short": ([["Intake duration (deg)", 72], ["Stroke (in)", 3.5]], {}),
    "torque-steps-fall": (
        [["Fasteners", "Thread", "Step 1 (lbf.ft)", "Step 2 (lbf.ft)", "Step 3 (lbf.ft)"],
         ["Head bolts", "7/16-14", 80, 60, 30], ["Stroke (in)", 3.5]],
        {},
    ),
    "dry-threads": (
        [["Fasteners", "Lubricant", "Torque (lbf.ft)"], ["Rod bolts", "dry", 45],
         ["Stroke (in)", 3.5]],
        {},
    ),
    "mains-rule-for-rods": (
        [["Rod journal (in)", 2.0405],
         ["Least clearance (in)", '=ENG.BEARING_BAND(B1,"aluminum block")']],
        {},
    ),
    "temperature-for-rise": (
        [["Deck height (in)", 9.31], ["Block temperature", 190],
         ["Growth (in)", '=ENG.BLOCK_GROWTH(B1,B2,"aluminum")']],
        {},
    ),
    "lash-hot-for-cold": (
        [["Lash on the card, hot (in)", 0.022], ["Lash, cold (in)", 0.022],
         ["Lift (in)", "=ENG.VALVE_LIFT(0.32,1.5,B2)"]],
        {"B3": 0.458},
    ),
    "per-side-for-total": (
        [["Piston (in)", 4.1061], ["Clearance per side (in)", 0.0015],
         ["Hone to (in)", "=ENG.HONE_TO_SIZE(B1,B2)"]],
        {"B3": 4.1076},
    ),
    "cam-for-crank-degrees": (
        [["Intake closes (cam deg)", 29],
         ["Stroke left (in)", "=ENG.EFFECTIVE_STROKE(3.54,5.9,B1)"]],
        {},
    ),
    "rocked-for-clearance": (
        [["Stem, rocked (in)", 0.004], ["Stem clearance, least (in)", 0.001],
         ["Stem clearance, most (in)", 0.005], ["Judged", "=ENG.VERDICT(B1,B2,B3)"]],
        {"B4": "ok"},
    ),
    "torque-for-other-threads": (
        [["Fastener", "Lubricant", "Torque, dry (ft-lb)", "Done"],
         ["Head bolts", "engine oil", 100, "R. V."], [],
         ["Mean speed", "=ENG.MEAN_PISTON_SPEED(3.5,6000)"]],
        {"B4": 3500},
    ),
    "nut-factor-for-other-threads": (
        [["Rod bolt torque (ft-lb)", 45], ["Nut factor, moly paste", 0.20], ["Thread (in)", 0.4375],
         ["Preload", "=ENG.PRELOAD_FROM_TORQUE(B1,B3,B2)"]],
        {},
    ),
    "block-across": (
        [["Bore (in)", 4.1101, 4.1104, 4.1106], [None, 4.1099, 4.1100, 4.1103],
         ["Taper (in)", "=ENG.BORE_TAPER(B1:D2)"]],
        {},
    ),
    "rounded-readings": (
        [[*CYLINDERS, 5, 6], ["Bore (in)", 4.110, 4.111, 4.109, 4.110, 4.110, 4.111],
         ["Piston (in)", 4.1062, 4.1059, 4.1061, 4.1060, 4.1058, 4.1061]],
        {},
    ),
    "contradicts-its-sizes": (
        [["Bore (in)", 4.1102], ["Piston (in)", 4.1048], ["Piston clearance (in)", 0.0045]], {},
    ),
    "stated-displacement": (
        [["Bore (in)", 4.11], ["Stroke (in)", 3.54], ["Cylinders", 8],
         ["Displacement (cu in)", 403]],
        {},
    ),
    "stated-ratio": (
        [["Chamber (cc)", 80.8], ["Computed ratio", "=ENG.COMPRESSION_RATIO(769.6,B1,8.7,0)"],
         [], ["Compression ratio", 10.5]],
        {"B2": 9.6},
    ),
    "job-number": (
        {"S": [["Job", "24-031"], ["Stroke (in)", 3.54]],
         "T": [["Job", "24-013"], ["Speed", "=ENG.MEAN_PISTON_SPEED(S!B2,6000)"]]},
        {},
    ),
    "book-trouble": ([["Bore (in)", 4.11], ["Stroke (in)", 3.54]], {}),
}  # fmt: skip

# code: books of a folder, with their job and their bores.
BORES = (4.1101, 4.1105, 4.1099, 4.1107, 4.1102, 4.1100, 4.1106, 4.1103)
FOLDERS = {
    "copied-readings": (("24-031.xlsx", "24-031", BORES), ("24-032.xlsx", "24-032", BORES)),
    "copies-of-a-job": (("1042.xlsx", "1042", BORES), ("1042 final.xlsx", "1042", BORES)),
}


def test_every_code_is_explained_in_sentences():
    for name, code in CODES.items():
        for text in (code.meaning, code.settle, code.example):
            assert text.endswith("."), name
            assert "\n" not in text, name
    assert BOOKS.keys() | FOLDERS.keys() == CODES.keys()


@pytest.mark.parametrize("name", BOOKS)
def test_what_an_example_says_is_found(make_book, name):
    rows, saved = BOOKS[name]
    sheets = rows if isinstance(rows, dict) else {"S": rows}
    found = check(read_book(make_book(sheets, {"S": saved})), gauges=GAUGES)
    assert name in [finding.code for finding in found]


@pytest.mark.parametrize("name", FOLDERS)
def test_what_an_example_says_of_several_books_is_found(make_book, name):
    paths = [
        make_book(
            {"S": [["Job", job], [*CYLINDERS, 5, 6, 7, 8], ["Bore (in)", *bores]]}, file_name=file
        )
        for file, job, bores in FOLDERS[name]
    ]
    checked = check_books(paths, codes=CODES.keys())
    assert [[f.code for f in build.findings] for build in checked.builds] == [[name], [name]]


@each("name", [name for name in BOOKS if "=ENG." in CODES[name].example])
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
