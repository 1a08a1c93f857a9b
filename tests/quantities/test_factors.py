"""The kept factors are pint's, whole, and all that reading needs."""

import subprocess
import sys
from importlib import resources

import pytest
from each_case import each

from workbook_tools import quantities
from workbook_tools.quantities import SPELLINGS, make_factors, registry, scales


def test_the_kept_factors_are_what_pint_gives_today():
    kept = resources.files(quantities).joinpath(scales.FACTORS_FILE).read_text("utf-8")
    assert make_factors.factors_text() == kept


@each("unit", sorted(set(SPELLINGS.values())))
def test_every_spelled_unit_can_be_read(unit):
    assert any(scales.is_of(unit, kind) for kind in quantities.KINDS.values())


@pytest.mark.parametrize(
    ("unit", "si"), [("inch", "m**2"), ("degree", "cam_radian"), ("psi", "N"), ("rpm", "m/s")]
)
def test_a_unit_of_another_dimension_has_no_factor(unit, si):
    # The same said by pint.
    assert not registry.same_dimension(unit, si)
    assert si not in scales.factors()[unit]


def test_reading_a_text_does_without_pint():
    program = (
        "import sys; from workbook_tools.quantities import *; "
        "assert read_text('38 thou', LENGTH, 'metric') == 38 * 2.54e-5; "
        "assert 'pint' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", program], check=True)
