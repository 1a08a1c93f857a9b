"""Every code that a finding can have: its kind, what it means, and how it is settled."""

from __future__ import annotations

from types import MappingProxyType

from workbook_tools.findings.code import Code
from workbook_tools.findings.disagreements import DISAGREEMENTS

CODES: MappingProxyType[str, Code] = MappingProxyType({
    "out-of-band": Code(
        "out of band",
        "A number lies outside the band that the book judges it by.",
        "Measure again; correct the part, or have the deviation accepted.",
        "Main clearance 0.0031 in, judged by =ENG.VERDICT(B1,0.0015,0.0025).",
    ),
    "near-limit": Code(
        "close to the limit",
        "A number lies in its band, within a twentieth of its width from an edge.",
        "Measure once more with another gauge before it is signed off.",
        "Main clearance 0.00152 in, in a band of 0.0015 to 0.0025 in.",
    ),
    "cannot-tell": Code(
        "close to the limit",
        "A limit lies within the expanded uncertainty of the number that it judges.",
        "Measure with a gauge of less uncertainty, or agree who bears it.",
        "Piston clearance 0.0041 in, judged from 0.0040 in; gauges of 0.0002 and 0.0001 in.",
    ),
    "unusual-result": Code(
        "out of band",
        "A result is far outside what any use of an engine has, by common practice.",
        "Compare with the part maker's figure, and measure the sizes again.",
        "Swept 769.6 cc over 18.2 cc: a compression ratio of 43.3, without a band for it.",
    ),
    "missing-reading": Code(
        "missing reading",
        "A cell that a result needs is empty.",
        "Measure it and enter it; a 0 that was measured is typed.",
        "=ENG.QUENCH(B1,B2), and the gasket's cell B2 is empty.",
    ),
    "nothing-read": Code(
        "missing reading",
        "A job is named, and nothing that was measured was found for it.",
        "Enter its readings; if they stand in the book, see workbook-tools survey.",
        "A row of a log with a job's number and dates, and no sizes.",
    ),
    "missing-cylinder": Code(
        "missing reading",
        "A row of readings or results leaves a cylinder, journal or valve out.",
        "Enter what is missing, or say in the book why there is none.",
        "Eight cylinders, and ring gaps of seven.",
    ),
    "missing-signature": Code(
        "not signed",
        "A place for a signature, initials or a tick is empty in a book that is dated finished.",
        "Have it signed by whoever did or saw it.",
        "Dated finished, and the line Released by is empty.",
    ),
    "marked-not-done": Code(
        "not signed",
        "A place for a tick says no, or not yet, in a book that is dated finished.",
        "Have it done and say so, or say why it is not needed.",
        "Dated finished, and the head bolts are no in the column Seen.",
    ),
    "missing-section": Code(
        "missing reading",
        "A section that the record of a finished job has to hold is empty as a whole.",
        "Enter it from the first records, or measure it before the engine leaves.",
        "A short block, dated finished, and no bearing clearance in the book.",
    ),
    "label-unit-not-taken": Code(
        "unit slip",
        "A cell is labeled in another unit than a call takes it in.",
        'Give the call the book\'s unit system as its last argument, "inch" or "metric".',
        'Gasket (mm) 1.0, taken by =ENG.QUENCH(B1,B2) without "metric".',
    ),
    "two-units-taken": Code(
        "unit slip",
        "One cell is taken in inches by one call and in millimeters by another.",
        "Give every call the same unit system as its last argument.",
        'B1 in =ENG.QUENCH(B1,B2) and in =ENG.QUENCH(B1,B2,"metric").',
    ),
    "slipped-decimal": Code(
        "unit slip",
        "A number fits with its decimal point one or two places further on.",
        "Look at the first record, measure again, and correct the number.",
        "Bores 4.1101, 4.1103, 0.41102, 4.1104 in.",
    ),
    "wrong-unit": Code(
        "unit slip",
        "A number fits in the other unit: millimeters for inches, or the other way round.",
        "Enter it in the unit of its cell, or write the unit into the cell.",
        "Bores 4.1101, 4.1103, 104.399, 4.1104 in.",
    ),
    "thousandths": Code(
        "unit slip",
        "A number fits as thousandths, or as a thousandth, of what belongs there.",
        "Enter it in the unit of its cell, or write the unit into the cell.",
        "A gasket of 39 in a cell of inches: 0.039 in.",
    ),
    "cam-degrees-doubled": Code(
        "unit slip",
        "An angle fits if cam degrees were counted twice.",
        "Read it off the wheel on the crank.",
        "An intake centerline of 216 degrees: 108 counted twice.",
    ),
    "unusable-cell": Code(
        "unreadable",
        "A cell holds what a result cannot be computed with.",
        "Enter a number, with its unit where it is not the usual one.",
        "The text ask Lena in the cell of the gasket's thickness.",
    ),
    "no-result": Code(
        "unreadable",
        "A formula has no result.",
        "Correct the formula in the book.",
        "=ENG.QUENCH(0.01,0), which no gasket can give.",
    ),
    "not-recomputed": Code(
        "unreadable",
        "A formula could not be recomputed, and its saved value is shown.",
        "Check it by hand, or name the cells that it takes in the formula itself.",
        '=ENG.QUENCH(B1,INDIRECT("B2")) shows 0.044.',
    ),
    "book-trouble": Code(
        "unreadable",
        "Something in the book could not be read or computed.",
        "Do what the finding says.",
        "Bore and stroke, and nowhere how many cylinders there are: no displacement.",
    ),
    "stale-result": Code(
        "stale result",
        "A result was saved with another value than its cells give.",
        "Recalculate and save the book, and check who changed what.",
        "=ENG.QUENCH(0.01,0.03) was saved as 0.041, and is 0.040 in.",
    ),
    "stale-formula": Code(
        "stale result",
        "A formula of the builder's own was saved with another value than it has.",
        "Recalculate and save the book, and check who changed what.",
        "=B1-B2, which =ENG.QUENCH(B3,0.04) takes, was saved as 0.041, and is 0.040.",
    ),
    "never-calculated": Code(
        "never calculated",
        "Results were never calculated by the program that saved the book.",
        "Open the book in a program that has the functions, and save it.",
        "=ENG.QUENCH(0.01,0.03) stands in the file without any value.",
    ),
    "typed-over": Code(
        "stale result",
        "A number is typed where its siblings have a formula.",
        "Copy the formula back, or write beside it why the number stands.",
        "0.004 typed in the one cell of a row whose others have a formula.",
    ),
    "copied-readings": Code(
        "copied reading",
        "Rows of readings are the same, reading for reading, in two jobs.",
        "Find out which engine was measured, and measure the other one.",
        "Eight bores, digit for digit those of another job.",
    ),
    "copied-part": Code(
        "copied reading",
        "All readings of a cylinder, journal or valve are those of the one before it.",
        "Measure this one again: its readings look copied.",
        "Bore, piston, clearance and three ring gaps of cylinder 4, digit for digit those of 3.",
    ),
    "copies-of-a-job": Code(
        "copied reading",
        "Several books of the batch are copies of one job.",
        "Say which one holds, and take the others out of the folder.",
        "1042.xlsx and 1042 final.xlsx in one folder.",
    ),
    **DISAGREEMENTS,
})  # fmt: skip
