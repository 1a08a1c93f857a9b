"""The codes of what disagrees: a number with its words, its mates, its siblings or its sizes."""

from __future__ import annotations

from collections.abc import Mapping

from workbook_tools.findings.code import Code

DISAGREEMENTS: Mapping[str, Code] = {
    "unusual-by-one-step": Code(
        "disagreement",
        "A result is far outside the usual, and one turn or one undersize would explain it.",
        "Compare with the part maker's figure, and measure the sizes again.",
        "A main clearance of 0.027 in; one turn, 0.025 in, less it is 0.002 in.",
    ),
    "formula-unlike-siblings": Code(
        "disagreement",
        "A formula takes the cell of another row or column than all formulas of its line do.",
        "Copy the formula anew from the one beside it, or write beside it why it differs.",
        "=B2-C2, =B3-C4, =B4-C4 and =B5-C5 under Piston clearance: the second takes cylinder 3.",
    ),
    "range-cut-short": Code(
        "disagreement",
        "A range stops before the end of the row that it takes, and no other takes the rest.",
        "Let the range reach over all readings.",
        "=AVERAGE(B2:B8) beside readings in B2:B9.",
    ),
    "one-turn": Code(
        "disagreement",
        "A size is one turn of the micrometer or caliper away from its siblings.",
        "Measure it again.",
        "Journals 2.0405, 2.0404, 2.0155, 2.0405 in: one is 0.025 in less.",
    ),
    "digits-exchanged": Code(
        "disagreement",
        "A size fits with two of its digits exchanged.",
        "Look at the first record, measure again, and correct the number.",
        "Pistons 127.874, 127.875, 127.784, 127.873 mm: one has its 7 and 8 exchanged.",
    ),
    "bore-and-stroke": Code(
        "disagreement",
        "The cylinders measure what the book names as its stroke.",
        "Look the engine's bore and stroke up, and write each beside its own name.",
        "Bore 4.000 in, stroke 3.500 in, and both cylinders 3.5005 in.",
    ),
    "apart-from-siblings": Code(
        "disagreement",
        "A reading is far from its siblings, and its mate is not.",
        "Measure it again, and see whether a digit was misread or another size was meant.",
        "Bores 86.01, 86.02, 86.11, 86.01 mm, with pistons that are all alike.",
    ),
    "unusual-share": Code(
        "disagreement",
        "A number is far from what is usual for the size that it goes by.",
        "Check its decimal point and its unit, and measure again.",
        "A top ring gap of 3.4 mm in a bore of 86 mm.",
    ),
    "does-not-fit": Code(
        "disagreement",
        "A number cannot be a size of this engine: none has it, or its mate does not fit it.",
        "Measure it again, and look for a slip of the decimal point, the unit or a digit.",
        "A piston of 38.97 mm in a bore of 84.01 mm.",
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
    "wrong-cylinder-count": Code(
        "disagreement",
        "A number of cylinders is not the one that the readings are of.",
        "Count the cylinders, and correct the number or add the readings.",
        "=ENG.DISPLACEMENT(B2,B5,6), and every row of readings is of cylinders 1 to 4.",
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
    "finished-before-started": Code(
        "disagreement",
        "A job is dated finished before it was started.",
        "Correct the date that is wrong.",
        "Started 2025-04-14, finished 2025-04-02.",
    ),
}  # fmt: skip
