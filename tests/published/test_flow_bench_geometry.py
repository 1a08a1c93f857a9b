"""Valve areas by the shortest way between the faces; flow by a textbook's carburetor."""

import math

from each_case import each
from scipy.integrate import quad
from scipy.optimize import minimize_scalar
from sources import COMPANIONS, arithmetic, independent, printed

RAJPUT = printed("Rajput, Internal Combustion Engines", "Ex. 11.1, p. 399", COMPANIONS)
FRUSTUM = independent("surface turned by the shortest way from seat to face", minimize_scalar, quad)


def open_area(diameter, width, degrees, port, stem, lift):
    """Area swept by the shortest line from the seat's inner edge to the valve's face, mm2."""
    slope = math.tan(math.radians(degrees))
    inner = diameter / 2 - width

    def gap(out):
        return math.hypot(out, lift - out * slope)

    # The valve's face runs from above the seat's inner edge outward and back toward the port.
    out = minimize_scalar(gap, bounds=(0, width), method="bounded", options={"xatol": 1e-12}).x
    area, _ = quad(lambda t: 2 * math.pi * (inner + t * out) * gap(out), 0, 1)
    return min(area, math.pi / 4 * (port**2 - stem**2))


@each("lift", [0.5, 1, 2, 3, 3.9, 4.1, 6, 9, 12, 15])
@each("seat", [(45, 2, 45, 40, 7), (45, 2, 30, 40, 7), (32, 1.2, 45, 27, 5.5)])
def test_least_area(agree, eng, seat, lift):
    diameter, width, degrees, port, stem = seat
    expected = open_area(diameter, width, degrees, port, stem, lift)
    got = eng("VALVE_FLOW_AREA", diameter, width, degrees, port, stem, lift, "metric") * 100
    agree("VALVE_FLOW_AREA", FRUSTUM, expected, got, rel=1e-6)


def test_throat_of_a_carburetor(agree, eng):
    # Four of 100 x 120 mm, 1800 rpm, filling 0.75, throat 28 mm, coefficient 0.8, 1.2 kg/m3:
    # 4447.61 Pa.
    flow = eng("AIRFLOW", 4 * 942.4778, 1800, 0.75, 4, "metric")
    got = eng("DISCHARGE_COEFFICIENT", flow, math.pi * 2.8**2 / 4, 4.44761, 1.2, "metric")
    agree("DISCHARGE_COEFFICIENT", RAJPUT, 0.8, got, rel=1e-5)
    # Half the flow needs a quarter of the drop.
    got = eng("FLOW_AT_PRESSURE", flow, 4.44761, 4.44761 / 4, "metric")
    agree("FLOW_AT_PRESSURE", arithmetic("half the flow at a quarter"), flow / 2, got)


def test_curtain(agree, eng):
    got = eng("CURTAIN_AREA", 45, 3, "metric") * 100
    agree("CURTAIN_AREA", arithmetic(), 424.115, got, rel=1e-6)
