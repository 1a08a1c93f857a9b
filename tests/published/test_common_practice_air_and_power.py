"""Facts of the trade about air, fuel and the spread between cylinders."""

SOURCE = "common practice, no source"


def test_cubic_feet_a_minute_from_cubic_inches(agree, eng):
    # Cubic inches times rpm over 3456 (two turns, 1728 cu in to a cu ft), at 100 % filling.
    agree("AIRFLOW", SOURCE, 350 * 6000 / 3456, eng("AIRFLOW", 350, 6000, 1))
    agree("AIRFLOW", SOURCE, 350 * 6000 / 1728, eng("AIRFLOW", 350, 6000, 1, 2))
    got = eng("VOLUMETRIC_EFFICIENCY", 0.9 * 350 * 6000 / 3456, 350, 6000)
    agree("VOLUMETRIC_EFFICIENCY", SOURCE, 0.9, got)


def test_metric_airflow_of_two_liters(agree, eng):
    # Half of 6000 fillings of 2 liters a minute.
    agree("AIRFLOW", SOURCE, 6.0, eng("AIRFLOW", 2000, 6000, 1, 4, "metric"))


def test_eight_injectors_open_for_four_fifths_of_the_time(agree, eng):
    # 400 hp at 0.5 lb/(hp.h): 200 lb/h shared by eight at 80 %.
    flow = eng("FUEL_FLOW", 400, 0.5)
    agree("INJECTOR_FLOW", SOURCE, 31.25, eng("INJECTOR_FLOW", flow, 8, 0.8))


def test_lowest_cylinder_against_the_highest(agree, eng):
    # One factory wants the lowest to be at least 75 % of the highest: a share of 0.25.
    agree("PRESSURE_SPREAD", SOURCE, 0.25, eng("PRESSURE_SPREAD", ((180, 135, 175, 178),), 4))
    agree("PRESSURE_SPREAD", SOURCE, 10 / 190,
          eng("PRESSURE_SPREAD", ((185,), (185,), (180,), (190,)), 4))  # fmt: skip


def test_leakage_of_a_fresh_engine(agree, eng):
    # Two to four percent in a fresh engine.
    agree("LEAKAGE_SPREAD", SOURCE, 2, eng("LEAKAGE_SPREAD", ((2, 3, 4, 3, 2.5, 3),), 6))
