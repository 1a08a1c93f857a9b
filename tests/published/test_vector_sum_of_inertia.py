"""Balance by numpy's vector sums: what the bobweight of a 90-degree V leaves of its forces."""

import numpy as np
import pytest
from sources import independent

SOURCE = independent("sum of force vectors", np.hypot)
ROTATING, RECIPROCATING, OIL = 512.9, 861.9, 4.5


@pytest.mark.parametrize("rpm", [900, 6500])
def test_half_of_the_reciprocating_mass_balances_a_right_angled_v(agree, eng, rpm):
    # Two rods on a journal, banks at 45 deg either side of upright. The crank's counterweight
    # is one of the bobweight at the journal's radius, opposite to the journal.
    throw = 0.044196
    omega = rpm * np.pi / 30
    weight = eng("BOBWEIGHT", ROTATING, RECIPROCATING, 0.5, 2, OIL) / 1000
    # Two rods a journal and dry ones are what is meant where neither is said.
    assert eng("BOBWEIGHT", ROTATING, RECIPROCATING, 0.5) == pytest.approx(1000 * weight - OIL)
    for degrees in range(0, 360, 15):
        crank = np.radians(degrees)
        total = np.zeros(2)
        for bank in (-45, 45):
            angle = (degrees - bank + 180) % 360 - 180
            along = np.array([np.sin(np.radians(bank)), np.cos(np.radians(bank))])
            force = eng(
                "RECIPROCATING_FORCE", RECIPROCATING, 2000 * throw, 152.4, rpm, angle, "first",
                "metric",
            )  # fmt: skip
            total += force * along
        outward = np.array([np.sin(crank), np.cos(crank)])
        total += (2 * ROTATING + OIL) / 1000 * throw * omega**2 * outward
        total -= weight * throw * omega**2 * outward
        left = np.hypot(*total) / (weight * throw * omega**2)
        agree("BOBWEIGHT", SOURCE, 0.0, float(left), abs=1e-12)
