"""What cannot be known of a cell's text is refused, with the reason and what it may be."""

import datetime

from cell_fields import (
    ADVANCE,
    BORE,
    CENTERLINE,
    CHAMBER,
    CROWN,
    DATE,
    DECK,
    DISPLACEMENT,
    GAP,
    HEIGHT,
    INCH,
    LASH,
    LEAK,
    METRIC,
    NOWHERE,
    OVER,
    RATIO,
    TORQUE,
    UNDER,
    USUAL,
    WEIGHT,
    WHICH,
)
from each_case import each

from workbook_tools.labels.cell_text import read_content

# (cell, field, words of the reason, words of the offer): refused, with one plain reason.
REFUSED = [
    (".0025", NOWHERE, "neither the cell nor its heading nor the book says the unit", ""),
    ("2.5", USUAL, "looks like thousandths", "0.0025 in"),
    (2.5, USUAL, "looks like thousandths", "0.0025 in"),
    ("25", USUAL, "looks like tenths", "0.0025 in"),
    ("25 tenths", METRIC, "tenth", ""),
    ("3 tenths", NOWHERE, "tenth", ""),
    ("5 hundredths", INCH, "hundredths of what", ""),
    ("1,234", INCH, "comma", ""),
    ("1.234,5", INCH, "groups digits", ""),
    (".0022-24", INCH, "shorthand", ".0022 to .0024"),
    (".0025+", INCH, "a bit over", ""),
    (".0O25", INCH, "letter among the digits", ".0025"),
    ("l.850", INCH, "letter among the digits", "1.850"),
    ("2..448", INCH, "two points", ""),
    ("4.030+.002", BORE, "a sum, a tolerance or a fit", ""),
    ("STD/.010", UNDER, "has to be asked", ""),
    ("10/10", UNDER, "has to be asked", ""),
    ("10/20", UNDER, "has to be asked", ""),
    ("+30", BORE, "only where the column says so", "30 thou over"),
    ("0.50 O/S", OVER, "metric size", "0.5 mm"),
    ("20 over", OVER._replace(system="metric"), "not in inches", ""),
    ("1st", OVER, "needs a table", ""),
    ("2nd rebore", OVER, "needs a table", ""),
    (datetime.datetime(2024, 3, 8), BORE, "3/8", ""),
    ('"', BORE, "not which", ""),
    ("ditto", BORE, "not which", ""),
    ("11:2", RATIO, "time of day", ""),
    (datetime.time(11, 2), RATIO, "time", ""),
    ("63", CHAMBER._replace(system=None), "unit", ""),
    ("-8cc dish", CROWN, "pull apart", ""),
    ("-5", CROWN, "what the sign means", ""),
    ("364", DISPLACEMENT, "unit", ""),
    ("-.008", DECK, "what the sign means", ""),
    ("+.008", DECK, "what the sign means", ""),
    ("-.008 down", DECK, "which is meant", ""),
    ("flush", DECK, "not a measurement", "0, not measured"),
    ("3 x 25", TORQUE, "so many", ""),
    ("65 lbs", TORQUE, "not a torque", ""),
    (".060 CB", HEIGHT, "coil bind or a shim", ""),
    ("0 + 1/2 turn", LASH, "turns", ""),
    ("snug", TORQUE, "not a measurement", ""),
    ("g-n-t", TORQUE, "not a measurement", ""),
    ("18/20", GAP, "likely in thousandths", "0.018/0.020"),
    ("ok", GAP, "no number", ""),
    ("checked", GAP, "no number", ""),
    ("106/110", CENTERLINE, "ask", ""),
    ("+4", ADVANCE, "advanced or retarded", ""),
    (".04", LEAK, "4 % or 0.04 %", ""),
    ("4", LEAK, "says percent", ""),
    ("512.4 x 8", WEIGHT, "were all weighed", ""),
    ("+-.5", WEIGHT, "without its nominal", ""),
    ("-", INCH, "ask what it means", ""),
    ("--", INCH, "ask what it means", ""),
    ("x", INCH, "ask what it means", ""),
    ("good", INCH, "no number", ""),
    ("within spec", INCH, "no number", ""),
    ("per book", INCH, "no number", ""),
    ("0", BORE._replace(zero=False), "perhaps not measured", ""),
    (0, BORE._replace(zero=False), "perhaps not measured", ""),
    ("3/4/24", DATE, "day and month", ""),
    ("24/03/04", DATE, "first or last", ""),
    ("March", DATE, "not a whole date", ""),
    ("wk 10", DATE, "not a whole date", ""),
    ("last Tues", DATE, "not a whole date", ""),
    ("3/4 JT", DATE, "year is missing", ""),
    (datetime.datetime(2024, 3, 5), WHICH, "a date", ""),
    ("$1,250", BORE, "money", ""),
    ("50% dep", BORE, "money", ""),
    ("paid", BORE, "money", ""),
]  # fmt: skip


@each(("cell", "where", "reason", "offer"), REFUSED)
def test_what_cannot_be_known_is_refused_with_the_reason(cell, where, reason, offer):
    content = read_content(cell, where)
    assert content.kind == "refused", content
    assert content.value is None
    assert reason in content.reason
    assert content.offer == offer
