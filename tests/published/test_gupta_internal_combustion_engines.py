"""H. N. Gupta, Fundamentals of Internal Combustion Engines."""

SOURCE = "H. N. Gupta, Fundamentals of Internal Combustion Engines"


def test_example_2_1(agree, eng):
    # Bore 20 cm, stroke 25 cm, clearance volume 1570 cc, 300 K, 1.4: r = 6.00, 341.3 deg C
    # after compression, efficiency 51.17 percent.
    swept = eng("CYLINDER_VOLUME", 200, 250, "metric")
    agree("CYLINDER_VOLUME", f"{SOURCE}, Ex. 2.1 p. 44", 7853.98, swept, abs=0.01)
    ratio = eng("COMPRESSION_RATIO", swept, 1570, 0, 0)
    agree("COMPRESSION_RATIO", f"{SOURCE}, Ex. 2.1 p. 44", 6.00, ratio, abs=0.005)
    hot = eng("COMPRESSION_TEMPERATURE", ratio, "300 K", 1.4, "metric")
    agree("COMPRESSION_TEMPERATURE", f"{SOURCE}, Ex. 2.1 p. 44", 341.3, hot, abs=0.05)
    efficiency = eng("OTTO_EFFICIENCY", ratio)
    agree("OTTO_EFFICIENCY", f"{SOURCE}, Ex. 2.1 p. 44", 0.5117, efficiency, abs=5e-5)
    # 1 bar before compression becomes 12.29 bar, 11.29 bar above it.
    gauge = eng("CRANKING_PRESSURE", ratio, 0, 1.4, "metric") / 1.01325
    agree("CRANKING_PRESSURE", f"{SOURCE}, Ex. 2.1 p. 44", 1129, gauge, abs=0.5)
    chamber = eng("CHAMBER_FOR_RATIO", ratio, swept, 0, 0)
    agree("CHAMBER_FOR_RATIO", f"{SOURCE}, Ex. 2.1 p. 44", 1570, chamber, rel=1e-12)


def test_example_11_3(agree, eng):
    # A mean piston speed of 9 m/s at 3000 rpm is a stroke of 9.0 cm.
    got = eng("MEAN_PISTON_SPEED", 90, 3000, "metric")
    agree("MEAN_PISTON_SPEED", f"{SOURCE}, Ex. 11.3 p. 368", 9.0, got, abs=1e-9)
    got = eng("SPEED_FOR_PISTON_SPEED", 9, 90, "metric")
    agree("SPEED_FOR_PISTON_SPEED", f"{SOURCE}, Ex. 11.3 p. 368", 3000, got, rel=1e-12)


def test_fuel_flow_of_example_2_2(agree, eng):
    # 0.241 kg/(kW.h) of 42 MJ/kg give back 60 % of the air-standard efficiency at a ratio of
    # 9.5 and k = 1.4.
    source = f"{SOURCE}, Example 2.2, p. 46"
    flow = eng("FUEL_FLOW", 100, 241, "metric")
    agree("FUEL_FLOW", source, 24.1, flow)
    efficiency = 100 * 3600 / (flow * 42000)
    agree("FUEL_FLOW", f"{source} (efficiency)", 0.6 * (1 - 9.5**-0.4), efficiency, rel=5e-3)
