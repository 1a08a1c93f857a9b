"""Units written into calls and taken out of them, with all else in the formula as it was."""

import pytest

from workbook_tools.formulas.call_units import units_named, with_units


@pytest.mark.parametrize(
    ("inch", "metric"),
    [
        ("ENG.QUENCH(B7,B9)", 'ENG.QUENCH(B7,B9,"metric")'),
        ('SUM(ENG.QUENCH(B7,B9),1)&" in"', 'SUM(ENG.QUENCH(B7,B9,"metric"),1)&" in"'),
        # An optional argument that is left out keeps its place before the units.
        (
            "ENG.PISTON_POSITION(B3,B4,72)",
            'ENG.PISTON_POSITION(B3,B4,72,,"metric")',
        ),
        (
            "ENG.VERDICT(ENG.QUENCH(B7,B9),0.035,0.045)",
            'ENG.VERDICT(ENG.QUENCH(B7,B9,"metric"),0.035,0.045,"metric")',
        ),
        # A ratio has no unit.
        ("ENG.OTTO_EFFICIENCY(B3,1.35)+1", None),
        ("B7+B9", "B7+B9"),
    ],
)
def test_units_are_written_and_taken_out(inch, metric):
    if metric is None:
        assert units_named(inch) == ()
        metric = inch
    assert with_units(inch, "metric") == metric
    assert with_units(metric, "inch") == inch
    assert with_units(metric, "metric") == metric


def test_what_calls_say_of_their_units():
    formula = 'ENG.VERDICT(ENG.QUENCH(B7,B9,"Metric"),0.035,0.045)'
    assert units_named(formula) == ("", "metric")
    assert units_named("B7+B9") == ()
