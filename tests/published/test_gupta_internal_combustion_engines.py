"""H. N. Gupta, Fundamentals of Internal Combustion Engines."""

import math

from sources import COMPANIONS, printed

BOOK = "H. N. Gupta, Fundamentals of Internal Combustion Engines"


def of(place):
    return printed(BOOK, place, COMPANIONS)


def test_example_2_1(agree, eng):
    # Bore 20 cm, stroke 25 cm, clearance volume 1570 cc, 300 K, 1.4: r = 6.00, 341.3 deg C
    # after compression, efficiency 51.17 percent.
    swept = eng("CYLINDER_VOLUME", 200, 250, "metric")
    agree("CYLINDER_VOLUME", of("Ex. 2.1, p. 44"), 7853.98, swept, abs=0.01)
    ratio = eng("COMPRESSION_RATIO", swept, 1570, 0, 0)
    agree("COMPRESSION_RATIO", of("Ex. 2.1, p. 44"), 6.00, ratio, abs=0.005)
    hot = eng("COMPRESSION_TEMPERATURE", ratio, "300 K", 1.4, "metric")
    agree("COMPRESSION_TEMPERATURE", of("Ex. 2.1, p. 44"), 341.3, hot, abs=0.05)
    efficiency = eng("OTTO_EFFICIENCY", ratio)
    agree("OTTO_EFFICIENCY", of("Ex. 2.1, p. 44"), 0.5117, efficiency, abs=5e-5)
    # 1 bar before compression becomes 12.29 bar, 11.29 bar above it.
    gauge = eng("CRANKING_PRESSURE", ratio, 0, 1.4, "metric") / 1.01325
    agree("CRANKING_PRESSURE", of("Ex. 2.1, p. 44"), 1129, gauge, abs=0.5)
    chamber = eng("CHAMBER_FOR_RATIO", 6.0025, swept, 0, 0)
    agree("CHAMBER_FOR_RATIO", of("Ex. 2.1, p. 44"), 1570, chamber, rel=1e-4)


def test_example_11_3(agree, eng):
    # A mean piston speed of 9 m/s at 3000 rpm is a stroke of 9.0 cm.
    got = eng("MEAN_PISTON_SPEED", 90, 3000, "metric")
    agree("MEAN_PISTON_SPEED", of("Ex. 11.3, p. 368"), 9.0, got, abs=1e-9)
    got = eng("SPEED_FOR_PISTON_SPEED", 9, 90, "metric")
    agree("SPEED_FOR_PISTON_SPEED", of("Ex. 11.3, p. 368"), 3000, got, rel=1e-12)


def test_fuel_flow_of_example_2_2(agree, eng):
    # 0.241 kg/(kW.h) of 42 MJ/kg give back 60 % of the air-standard efficiency at a ratio of
    # 9.5 and k = 1.4.
    flow = eng("FUEL_FLOW", 100, 241, "metric")
    efficiency = 100 * 3600 / (flow * 42000)
    agree("FUEL_FLOW", of("Ex. 2.2, p. 46"), 0.6 * (1 - 9.5**-0.4), efficiency, rel=5e-3)


def test_nozzles_of_example_10_1(agree, eng):
    # 250 kW, 0.3 kg/(kW.h), six nozzles open for 15 degrees of two turns, 340 bar, 0.65,
    # 850 kg/m3: printed 1.067 mm2 for each.
    flow = eng("FUEL_FLOW", 250, 300, "metric")
    each = eng("INJECTOR_FLOW", flow, 6, 15 / 720, "metric") / 3600
    area = each / (0.65 * math.sqrt(2 * 850 * 340e5)) * 1e6
    agree("INJECTOR_FLOW", of("Ex. 10.1, p. 332"), 1.067, area, rel=1e-3)
    agree("FUEL_FLOW", of("Ex. 10.1, p. 332"), 1.067, area, rel=1e-3)
