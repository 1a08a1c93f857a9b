"""JCGM 100:2008, Guide to the expression of uncertainty in measurement (GUM)."""

import math

import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from sources import from_memory, independent

from workbook_tools.catalog import tables

SOURCE = from_memory("JCGM 100:2008 (GUM)", "Table H.2")


@pytest.mark.parametrize(
    ("observations", "mean"),
    [
        ((5.007, 4.994, 5.005, 4.990, 4.999), 4.9990),
        ((19.663, 19.639, 19.640, 19.685, 19.678), 19.6610),
        ((1.0456, 1.0438, 1.0468, 1.0428, 1.0433), 1.04446),
    ],
)
def test_arithmetic_means_of_five_observations(agree, eng, observations, mean):
    column = tuple((value,) for value in observations)
    agree("MEAN_READING", SOURCE, mean, eng("MEAN_READING", column, 5), rel=1e-12)


def test_gauge_block_of_example_h_1(agree, eng):
    # Its four parts in nanometers, 25, 9.7, 2.9 and 16.6, come to 32.
    source = from_memory("JCGM 100:2008 (GUM)", "H.1, combined standard uncertainty")
    combined = 0.0
    for part in (25, 9.7, 2.9, 16.6):
        combined = eng("CLEARANCE_UNCERTAINTY", combined * 1e-6, part * 1e-6, "metric") * 1e6
    agree("CLEARANCE_UNCERTAINTY", source, 32, combined, abs=0.5)


@pytest.mark.parametrize(("limit", "sigma"), [(2.0, 1.5), (4.0, 0.6)])
def test_spread_of_a_difference_by_integration(agree, eng, limit, sigma):
    # In microns: a hole known to within a limit and no more, a shaft scattered normally.
    def density(x):
        return math.exp(-((x / sigma) ** 2) / 2) / sigma / math.sqrt(2 * math.pi)

    def squares(hole):
        return quad(lambda x: (hole - x) ** 2 * density(x), -10 * sigma, 10 * sigma)[0] / limit / 2

    spread = math.sqrt(quad(squares, -limit, limit)[0])
    hole = 2 * limit / math.sqrt(3)
    got = eng("CLEARANCE_UNCERTAINTY", hole / 1000, 2 * sigma / 1000, "metric") * 1000
    source = independent("variance of the difference of two densities", quad)
    agree("CLEARANCE_UNCERTAINTY", source, 2 * spread, got, rel=1e-6)


@pytest.mark.parametrize(
    ("read", "material", "warm", "gauge", "gauge_warm"),
    [(101.6, "gray iron", 30, "steel", 20), (93.2, "aluminum 2618", 11, "steel", 26.5)],
)
def test_the_size_that_grows_into_the_reading(agree, eng, read, material, warm, gauge, gauge_warm):
    # Strain piled up degree by degree, the scale's divisions grown likewise; the size searched
    # that such a scale reads as it was read.
    def grown(name, to):
        return 1 + quad(lambda _: tables.expansion(name), 20, to)[0]

    size = brentq(
        lambda x: x * grown(material, warm) / grown(gauge, gauge_warm) - read, 50, 200, xtol=1e-12
    )
    got = eng("SIZE_AT_REFERENCE", read, warm, material, gauge_warm, gauge, "metric")
    source = independent("size searched that grows into the reading", brentq)
    agree("SIZE_AT_REFERENCE", source, size, got, rel=1e-10)


@pytest.mark.parametrize(
    ("value", "word"),
    [(10.0, "ok"), (9.2, "ok"), (9.1, "cannot tell"), (9.0, "cannot tell"), (8.9, "cannot tell"),
     (8.8, "low"), (10.8, "ok"), (10.9, "cannot tell"), (11.2, "high")],
)  # fmt: skip
def test_iso_14253_1_zones(agree, eng, value, word):
    source = from_memory("ISO 14253-1", "zones of conformity, nonconformity and uncertainty")
    agree("GUARDED_VERDICT", source, word, eng("GUARDED_VERDICT", value, 9, 11, 0.2, "metric"))
