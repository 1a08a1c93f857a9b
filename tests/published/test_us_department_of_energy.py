"""U.S. Department of Energy, fuel properties: heating value of gasoline."""


def test_fuel_in_pounds_by_the_heating_value_of_gasoline(agree, eng):
    # 18 676 Btu/lb; 1 hp.h = 2544.433579 Btu; 0.45 lb/(hp.h) is an efficiency of 0.302757.
    flow = eng("FUEL_FLOW", 400, 0.45)
    efficiency = 400 * 2544.433579 / (flow * 18676)
    source = "U.S. Department of Energy, gasoline 18 676 Btu/lb"
    agree("FUEL_FLOW", source, 0.302757, efficiency, rel=2e-6)
