"""JCGM 100:2008, Guide to the expression of uncertainty in measurement (GUM)."""

import pytest
from sources import from_memory

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
