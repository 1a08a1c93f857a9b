"""Mott, Machine Elements in Mechanical Design, ch. 16: design of a journal bearing."""

from sources import printed

SOURCE = printed(
    "Mott, Machine Elements in Mechanical Design", "ch. 16, design of a journal bearing"
)


def test_journal_bearing_design(agree, eng):
    # 1500 lb at 850 rpm, 2.50 by 2.50 in, radial clearance 0.0015 in. The chart gives S 0.13
    # for a film of 0.40 of it, so 3.17e-6 reyn; 3.3e-6 reyn gives S 0.135.
    bearing = (1500, 2.50, 2.50, 0.003)
    agree("BEARING_UNIT_LOAD", SOURCE, 240, eng("BEARING_UNIT_LOAD", 1500, 2.50, 2.50))
    thin = eng("SOMMERFELD_NUMBER", *bearing, "3.17e-6 reyn", 850)
    thick = eng("SOMMERFELD_NUMBER", *bearing, "3.3e-6 reyn", 850)
    agree("SOMMERFELD_NUMBER", SOURCE, 0.13, thin, rel=2e-3)
    agree("SOMMERFELD_NUMBER", SOURCE, 0.135, thick, rel=3e-3)
    # A chart is read to about 0.02.
    film = eng("FILM_THICKNESS", *bearing, "3.17e-6 reyn", 850) / 0.0015
    agree("FILM_THICKNESS", SOURCE, 0.40, film, abs=0.025)
