"""GUM law of propagation, with the partial derivatives taken by sympy."""

import random

import pytest
import sympy
from sources import arithmetic, independent

SOURCE = independent("GUM (JCGM 100:2008), eq. (10), derivatives by sympy", sympy.diff)
NAMES = "bore stroke chamber gasket_bore thickness deck crown"
X = sympy.symbols(NAMES)
bore, stroke, chamber, gasket_bore, thickness, deck, crown = X
AREA = sympy.pi / 4 * bore**2
CLEARANCE = chamber + sympy.pi / 4 * gasket_bore**2 * thickness + AREA * deck + crown
RATIO = (AREA * stroke + CLEARANCE) / CLEARANCE
PARTIALS = [sympy.lambdify(X, sympy.diff(RATIO, x)) for x in X]
CC = 0.0610237440947323  # cubic inches in a cc


def cases():
    # Seeded: the same engines every run, from tight to careless measuring.
    draw = random.Random(4030)
    for _ in range(12):
        sizes = [
            draw.uniform(3, 4.5), draw.uniform(2.5, 4.5), draw.uniform(40, 90),
            draw.uniform(3, 4.7), draw.uniform(0.02, 0.08), draw.uniform(-0.02, 0.03),
            draw.uniform(-10, 20),
        ]  # fmt: skip
        spread = draw.choice([0.1, 1.0])
        yield (
            sizes,
            [spread * u * draw.random() for u in (0.001, 0.002, 0.5, 0.02, 0.002, 0.002, 0.5)],
        )


@pytest.mark.parametrize(("sizes", "uncertainties"), list(cases()))
def test_ratio_uncertainty(agree, eng, sizes, uncertainties):
    # In inches throughout: chamber and crown are given in cc.
    scale = [1, 1, CC, 1, 1, 1, CC]
    point = [x * s for x, s in zip(sizes, scale, strict=True)]
    parts = [
        float(partial(*point)) * u * s
        for partial, u, s in zip(PARTIALS, uncertainties, scale, strict=True)
    ]
    expected = sum(part**2 for part in parts) ** 0.5
    got = eng("RATIO_UNCERTAINTY", *sizes, *uncertainties)
    agree("RATIO_UNCERTAINTY", SOURCE, expected, got, rel=1e-10)


def test_one_size_alone_is_the_difference_it_makes(agree, eng):
    # A chamber known within 0.5 cc: the ratio worked out at either end, halved.
    sizes = [4.030, 3.480, 64.0, 4.100, 0.040, 0.005, 5.0]
    swept = eng("CYLINDER_VOLUME", 4.030, 3.480)
    gasket, crown = eng("GASKET_VOLUME", 4.100, 0.040), 5.0
    stack = (gasket, eng("DECK_VOLUME", 4.030, 0.005), crown)
    ends = [eng("COMPRESSION_RATIO", swept, chamber, *stack) for chamber in (63.5, 64.5)]
    got = eng("RATIO_UNCERTAINTY", *sizes, 0, 0, 0.5, 0, 0, 0, 0)
    agree(
        "RATIO_UNCERTAINTY",
        arithmetic("difference quotient"),
        (ends[0] - ends[1]) / 2,
        got,
        rel=1e-4,
    )
