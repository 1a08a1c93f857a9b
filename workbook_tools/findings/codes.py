"""Every code that a finding can have: its kind, what it means, and how it is settled."""

from __future__ import annotations

from types import MappingProxyType
from typing import Literal, NamedTuple

FindingKind = Literal[
    "out of band",
    "close to the limit",
    "missing reading",
    "not signed",
    "stale result",
    "never calculated",
    "disagreement",
    "copied reading",
    "unit slip",
    "unreadable",
]


class Code(NamedTuple):
    """What a code stands for.

    kind: the heading it is told under; meaning: one line; settle: what ends it; example: one
    with numbers, a line.
    """

    kind: FindingKind
    meaning: str
    settle: str
    example: str


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
    "unusual-by-one-step": Code(
        "disagreement",
        "A result is far outside the usual, and one turn or one undersize would explain it.",
        "Compare with the part maker's figure, and measure the sizes again.",
        "A main clearance of 0.027 in; one turn, 0.025 in, less it is 0.002 in.",
    ),
    "missing-reading": Code(
        "missing reading",
        "A cell that a result needs is empty.",
        "Measure it and enter it; a 0 that was measured is typed.",
        "=ENG.QUENCH(B1,B2), and the gasket's cell B2 is empty.",
    ),
    "missing-cylinder": Code(
        "missing reading",
        "A row of readings or results leaves a cylinder, journal or valve out.",
        "Enter what is missing, or say in the book why there is none.",
        "Eight cylinders, and ring gaps of seven.",
    ),
    "range-cut-short": Code(
        "missing reading",
        "A range stops one reading before the end of the row that it takes.",
        "Let the range reach over all readings.",
        "=ENG.MEAN_READING(B2:B8,7) beside readings in B2:B9.",
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
    "one-turn": Code(
        "disagreement",
        "A size is one turn of the micrometer or caliper away from its siblings.",
        "Measure it again.",
        "Journals 2.0405, 2.0404, 2.0155, 2.0405 in: one is 0.025 in less.",
    ),
    "half-or-double": Code(
        "disagreement",
        "A number is half or twice its siblings or its mate: a radius, or one of two sides.",
        "Measure it again, and enter diameters and both sides together.",
        "Journals 2.0405, 2.0404, 1.0202, 2.0405 in: one is a radius.",
    ),
    "wrong-sign": Code(
        "disagreement",
        "A number is as far from zero as its siblings, the other way.",
        "Look which way it is, and correct the sign.",
        "One of eight sizes of a row below zero, and all others above.",
    ),
    "deck-sign": Code(
        "disagreement",
        "A deck clearance has the sign that its words, siblings, sizes or results speak against.",
        "Look which way the piston is: below the deck is plus, above it minus.",
        "Deck clearance 0.008 in beside the words above deck.",
    ),
    "crown-sign": Code(
        "disagreement",
        "A crown volume has the sign that its words, the band or the ratio speak against.",
        "Look at the crown: a dish is plus, a dome minus.",
        "Crown volume 8 cc beside the word dome.",
    ),
    "cam-degrees-doubled": Code(
        "unit slip",
        "An angle fits if cam degrees were counted twice.",
        "Read it off the wheel on the crank.",
        "An intake centerline of 216 degrees: 108 counted twice.",
    ),
    "gasket-bore-is-bore": Code(
        "disagreement",
        "One cell is taken as the cylinder's bore and as the gasket's.",
        "Enter the bore of the gasket's fire ring in its own cell.",
        "=ENG.GASKET_VOLUME(B1,B2), and B1 is the finished bore, 4.110 in.",
    ),
    "gasket-bore-not-above-bore": Code(
        "disagreement",
        "The gasket's bore is not above the finished bore.",
        "Measure the bore of the fire ring; do not run a ring in the bore.",
        "Gasket bore 4.100 in over a finished bore of 4.110 in.",
    ),
    "gasket-bore-far-above-bore": Code(
        "disagreement",
        "The gasket's bore is so far above the finished bore as if of another engine.",
        "Measure the bore of the fire ring and check the gasket's number.",
        "Gasket bore 4.680 in over a finished bore of 4.110 in.",
    ),
    "sizes-out-of-order": Code(
        "disagreement",
        "Of two sizes of mating parts the one that must be smaller is not.",
        "Measure both again, and see whether one was typed for the other.",
        "An intake stem of 0.3440 in for a guide bore of 0.3430 in.",
    ),
    "ring-gap-not-as-wanted": Code(
        "disagreement",
        "A measured ring gap is far from the one that bore and factor give.",
        "Measure it again, square in its own finished bore.",
        "A gap of 0.034 in where a bore of 4.110 in and 0.0045 give 0.018 in.",
    ),
    "hot-for-cold": Code(
        "disagreement",
        "A size of the hot engine stands where a cold one belongs, or the other way round.",
        "Compare cold with cold.",
        "Deck clearance, hot 0.002 in, taken by =ENG.QUENCH(B1,B2) as a cold one.",
    ),
    "parts-touch": Code(
        "disagreement",
        "A clearance at which parts would touch: valve and piston, coils, ring ends, a bearing.",
        "Measure again, and do not turn the engine over by its starter until it is settled.",
        "Spring margin -0.02 in: 1.8 in fitted, 1.27 in with coils touching, 0.55 in of lift.",
    ),
    "tight-when-hot": Code(
        "disagreement",
        "A hot piston clearance far below what the tightest proven fit of the alloy comes to.",
        "Measure bore and skirt again, and compare with the piston maker's clearance.",
        "A forged 2618 piston, 0.001 in cold in a bore of 4.11 in, judged at its hot clearance.",
    ),
    "duration-too-short": Code(
        "disagreement",
        "A cam's duration is under 120 crank degrees, which no cam has.",
        "Read the wheel again, and say from which dead center each number is counted.",
        "Opens at 20, closes at 52 after bottom center, typed as 92: a duration of 72 deg.",
    ),
    "torque-steps-fall": Code(
        "disagreement",
        "The steps that fasteners are tightened in fall instead of rise.",
        "Look up the maker's steps, and whether the fasteners were tightened by these.",
        "Head bolts in steps of 80, 60 and 30 lbf.ft.",
    ),
    "dry-threads": Code(
        "disagreement",
        "Bolts of rods, main caps or heads are held dry, where figures are usually for oil.",
        "Look up what the maker's figure is for, and tighten again if it is not for dry threads.",
        "Rod bolts, 45 lbf.ft, lubricant: dry.",
    ),
    "mains-rule-for-rods": Code(
        "disagreement",
        "A rod bearing is judged by what is usual for mains in an aluminum block, cold.",
        "Give the rods a use of their own, or the bearing maker's limits.",
        '=ENG.BEARING_BAND(B1,"aluminum block"), and B1 is a rod journal.',
    ),
    "temperature-for-rise": Code(
        "disagreement",
        "What looks like a temperature is taken as a temperature rise.",
        "Enter by how much the part warms up, and say rise in the label.",
        'Temperature 190, taken as a rise by =ENG.BLOCK_GROWTH(B1,B2,"aluminum").',
    ),
    "lash-hot-for-cold": Code(
        "disagreement",
        "Lash was set cold to the figure that is wanted hot, or the other way round.",
        "Set it in the state that the figure is for.",
        "Lash, cold 0.022 in, and the cam card's 0.022 in is hot.",
    ),
    "per-side-for-total": Code(
        "disagreement",
        "A number that its label calls per side is taken over the whole diameter, or reversed.",
        "Double what is per side, and say in the label which of the two it is.",
        "Clearance per side 0.0015 in, taken by =ENG.HONE_TO_SIZE(B1,B2) over the diameter.",
    ),
    "cam-for-crank-degrees": Code(
        "disagreement",
        "An angle that its label gives in cam degrees is taken in crank degrees, or reversed.",
        "Read it off the wheel on the crank, or double the cam degrees.",
        "Intake closes, 29 cam degrees, taken as 29 crank degrees instead of 58.",
    ),
    "free-gasket-for-compressed": Code(
        "disagreement",
        "The thickness of an uncompressed gasket is taken as the compressed one.",
        "Use the maker's compressed thickness, or measure a gasket that has been torqued.",
        "Gasket, uncompressed 0.051 in, taken by =ENG.QUENCH(B1,B2).",
    ),
    "rocked-for-clearance": Code(
        "disagreement",
        "A reading of a rocked valve stem is taken as its clearance.",
        "Halve it, or take the clearance from guide bore and stem.",
        "Stem, rocked 0.0040 in, judged by a stem clearance; half is 0.0020 in.",
    ),
    "torque-for-other-threads": Code(
        "disagreement",
        "A torque is for other threads than it is used on: dry, oiled, with a paste.",
        "Use the figure that the fastener's maker gives for the lubricant on the threads.",
        "Torque, dry 100 lbf.ft on a head bolt that the book says has engine oil.",
    ),
    "nut-factor-for-other-threads": Code(
        "disagreement",
        "A nut factor is unusual for the lubricant that the book names.",
        "Use the factor that was measured, or that the lubricant's maker gives.",
        "A nut factor of 0.20, of dry threads, beside a moly paste.",
    ),
    "block-across": Code(
        "disagreement",
        "A bore seems to be read on more axes than at heights: the block may lie across.",
        "Type one height below the other, the axes side by side.",
        "=ENG.BORE_TAPER(B1:D2), two rows of three readings: two heights, three axes.",
    ),
    "rounded-by-formula": Code(
        "disagreement",
        "A size is rounded before a clearance is taken from it.",
        "Subtract the readings as they are, and round only what is shown.",
        "=ENG.PISTON_CLEARANCE(ROUND(B1,3),B2) with a bore of 4.1104 in: 0.0004 in is lost.",
    ),
    "rounded-readings": Code(
        "disagreement",
        "A row of sizes has lost the last digit that its mates have.",
        "Enter the readings with all their digits.",
        "Bores 4.110, 4.111, 4.109 in and so on beside pistons 4.1062, 4.1059, 4.1061 in.",
    ),
    "contradicts-its-sizes": Code(
        "disagreement",
        "A stated number is not what the sizes that it follows from give.",
        "Find the first record of each, and correct the one that is wrong.",
        "A clearance of 0.0045 in is written; bore and piston beside it give 0.0054 in.",
    ),
    "stated-displacement": Code(
        "disagreement",
        "The stated displacement is not what bore, stroke and cylinders give.",
        "Measure bore and stroke, count the cylinders, and correct what is wrong.",
        "403 cu in stated; 4.110 x 3.540 in, eight cylinders, give 376.",
    ),
    "stated-ratio": Code(
        "disagreement",
        "The stated compression ratio is not what the volumes give.",
        "Find out which one was measured.",
        "10.5 stated; the volumes give 9.6.",
    ),
    "entered-twice": Code(
        "disagreement",
        "One reading stands in two cells and differs.",
        "Find its first record, and let one cell refer to the other.",
        "Stroke 3.540 in at the head of a sheet and 3.820 in further down.",
    ),
    "job-number": Code(
        "disagreement",
        "Two sheets that belong together give two job numbers.",
        "See whether a sheet was left from another job, and correct the number.",
        "Job 24-031 on one sheet, 24-013 on the next.",
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
        "A formula could not be followed and is told as it was saved.",
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
        "A formula that feeds results was saved with another value than it has.",
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
    "finished-before-started": Code(
        "disagreement",
        "A job is dated finished before it was started.",
        "Correct the date that is wrong.",
        "Started 2025-04-14, finished 2025-04-02.",
    ),
    "copies-of-a-job": Code(
        "copied reading",
        "Several books of the batch are copies of one job.",
        "Say which one holds, and take the others out of the folder.",
        "1042.xlsx and 1042 final.xlsx in one folder.",
    ),
})  # fmt: skip
