"""H. N. Gupta, Fundamentals of Internal Combustion Engines."""

SOURCE = "H. N. Gupta, Fundamentals of Internal Combustion Engines"


def test_example_2_1(agree, eng):
    # Bore 20 cm, stroke 25 cm, clearance volume 1570 cc: r = 6.00.
    swept = eng("CYLINDER_VOLUME", 200, 250, "metric")
    agree("CYLINDER_VOLUME", f"{SOURCE}, Ex. 2.1 p. 44", 7853.98, swept, abs=0.01)
    ratio = eng("COMPRESSION_RATIO", swept, 1570, 0, 0)
    agree("COMPRESSION_RATIO", f"{SOURCE}, Ex. 2.1 p. 44", 6.00, ratio, abs=0.005)
    chamber = eng("CHAMBER_FOR_RATIO", ratio, swept, 0, 0)
    agree("CHAMBER_FOR_RATIO", f"{SOURCE}, Ex. 2.1 p. 44", 1570, chamber, rel=1e-12)


def test_example_11_3(agree, eng):
    # A mean piston speed of 9 m/s at 3000 rpm is a stroke of 9.0 cm.
    got = eng("MEAN_PISTON_SPEED", 90, 3000, "metric")
    agree("MEAN_PISTON_SPEED", f"{SOURCE}, Ex. 11.3 p. 368", 9.0, got, abs=1e-9)
