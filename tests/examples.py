"""One call of every worksheet function with plausible arguments, for the tests of all hosts.

The arguments are those of an inch book, every optional one but `units` included; blocks are
rows. The same call in a metric book is derived from the kinds of the parameters, so that
both describe the same engine. Values are of no engine in particular.
"""

from __future__ import annotations

from workbook_tools import quantities
from workbook_tools.catalog import Function, find

EXAMPLES = {
    # Displacement and motion
    "CYLINDER_VOLUME": (4.11, 3.54),
    "DISPLACEMENT": (4.11, 3.54, 8),
    "STROKE_FOR_DISPLACEMENT": (376, 4.11, 8),
    "BORE_FOR_DISPLACEMENT": (376, 3.54, 8),
    "BORE_STROKE_RATIO": (4.11, 3.54),
    "ROD_STROKE_RATIO": (6.0, 3.54),
    "MEAN_PISTON_SPEED": (3.54, 6500),
    "PISTON_POSITION": (3.54, 6.0, 72, 0.06),
    "PISTON_VELOCITY": (3.54, 6.0, 72, 6500, 0.06),
    "PISTON_ACCELERATION": (3.54, 6.0, 12, 6500, 0.06),
    "TDC_ACCELERATION": (3.54, 6.0, 6500),
    "PEAK_SPEED_ANGLE": (3.54, 6.0),
    "PEAK_PISTON_SPEED": (3.54, 6.0, 6500),
    "ROD_ANGLE": (3.54, 6.0, 72, 0.06),
    "CYLINDER_VOLUME_AT": (4.11, 3.54, 6.0, 72, 79, 0.06),
    "SPEED_FOR_PISTON_SPEED": (4000, 3.54),
    "PORT_DURATION": (2.15, 4.33, 1.08),
    "PORT_EDGE_FOR_DURATION": (2.15, 4.33, 190),
    "TRAPPED_RATIO": (2.13, 2.15, 4.33, 190, 9.5),
    "PORT_TIME_AREA": (1.65, 1.07, 1.08, 2.15, 4.33, 11000),
    "SQUISH_VELOCITY": (2.13, 2.15, 4.33, 1.5, 9, 0.04, 11000, -10),
    "PREMIX_OIL": (5, 32),
    "PISTON_EFFORT": (4.11, 900, 730, 3.54, 6.0, 6500, 15),
    "SIDE_THRUST": (8000, 3.54, 6.0, 15),
    "ROD_THRUST": (8000, 3.54, 6.0, 15),
    "CRANKPIN_LOAD": (8000, 420, 3.54, 6.0, 6500, 15),
    "CRANK_TORQUE": (8000, 3.54, 6.0, 15),
    "JOURNAL_SPEED": (2.4495, 6500),
    # Deck and quench
    "DECK_CLEARANCE": (9.32, 3.54, 6.0, 1.542),
    "COMPRESSION_HEIGHT_FOR_DECK": (-0.002, 9.32, 3.54, 6.0),
    "QUENCH": (-0.002, 0.042),
    "DECK_GROWTH": (9.32, 3.54, 6.0, 1.542, 130, "aluminum", "steel", "steel", "aluminum", 50),
    "DECK_GROWTH_BY_PARTS": (
        *(9.32, 3.54, 6.0, 1.542, 120, 160, 250),
        *("aluminum 319", "steel", "alloy steel", "aluminum 2618"),
    ),
    "HOT_DECK_CLEARANCE": (-0.002, 0.004),
    "GASKET_FOR_QUENCH": (0.04, -0.002, 0.004),
    "HOT_QUENCH": (-0.002, 0.042, 0.004),
    "RUNNING_QUENCH": (0.044, 0.006, 0.004),
    "DECK_CUT_FOR_QUENCH": (0.04, 0.02, 0.039, 0.004),
    "NEAREST_GASKET": (0.04, -0.002, 0.004, ((0.027, 0.036, 0.039, 0.051),), 0.035),
    "BLOCK_GROWTH": (9.32, 130, "aluminum"),
    "ASSEMBLY_GROWTH": (3.54, 6.0, 1.542, 130, "steel", "steel", "aluminum", 50),
    "ROD_STRETCH": (730, 3.54, 6.0, 6500, 0.45, "steel"),
    # Compression
    "GASKET_VOLUME": (4.1, 0.039),
    "DECK_VOLUME": (4.11, 0.01),
    "COMPRESSION_RATIO": (727.4, 64, 8.4, 2.1, 5),
    "CHAMBER_FOR_RATIO": (10.2, 727.4, 8.4, 2.1, 5),
    "RING_LAND_VOLUME": (4.11, 4, 0.25),
    "CLEARANCE_VOLUME": (64, 8.4, 2.1, 5),
    "CHAMBER_CHANGE": (0.01, 9.5),
    "MILLING_FOR_CHAMBER_CHANGE": (2, 9.5),
    "INTAKE_FACE_CUT": (0.01, 90, 80),
    "INTAKE_FLOOR_CUT": (0.01, 90, 80),
    "DISH_FOR_RATIO": (9.8, 727.4, 64, 8.4, 2.1),
    "GASKET_FOR_RATIO": (9.8, 727.4, 64, 2.1, 4.1, 5),
    "DECK_CUT_FOR_RATIO": (10.8, 727.4, 64, 8.4, 5, 4.11, 5),
    "EFFECTIVE_STROKE": (3.54, 6.0, 62, 0.06),
    "DYNAMIC_RATIO": (10.2, 3.54, 6.0, 62, 0.06),
    "CLOSING_FOR_DYNAMIC_RATIO": (8.1, 10.2, 3.54, 6.0),
    "CRANKING_PRESSURE": (8.1, 1500, 1.22),
    "COMPRESSION_TEMPERATURE": (10.2, 120, 1.32),
    "BOOSTED_RATIO": (8.5, 8, "straight", 1500),
    "OTTO_EFFICIENCY": (10.2, 1.35),
    "RATIO_UNCERTAINTY": (
        *(4.11, 3.54, 64, 4.1, 0.039, 0.01, 5),
        *(0.0005, 0.001, 0.4, 0.01, 0.001, 0.0005, 0.3),
    ),
    # Pistons, bores, rings
    "PISTON_CLEARANCE": (4.11, 4.1065),
    "PIN_CLEARANCE_IN_PISTON": (0.9273, 0.9268),
    "PIN_CLEARANCE_IN_ROD": (0.9276, 0.9268),
    "RING_GAP": (4.11, 0.0045),
    "RING_GAP_FACTOR": ("street", "top"),
    "HOT_PISTON_CLEARANCE": (4.11, 4.1065, 130, 250, "gray iron", "aluminum 4032"),
    "PISTON_SIZE_FOR_CLEARANCE": (4.11, 0.0035),
    "HONE_TO_SIZE": (4.1065, 0.0035),
    "SKIRT_EXPOSURE": (0.01, 3.54, 2.2, 5.5),
    "PISTON_CLEARANCE_BAND": (4.11, "street", "forged 4032"),
    "RING_GAP_BAND": (4.11, "street", "top"),
    "RING_GAP_AFTER_HONE": (0.018, 4.11, 4.1105),
    "HOT_RING_GAP": (0.018, 4.11, 130, 300, "gray iron", "ductile iron"),
    "RING_SIDE_CLEARANCE": (0.0645, 0.0625),
    "RING_BACK_CLEARANCE": (4.11, 3.71, 0.19),
    "RING_WALL_PRESSURE": (3.6, 4.11, 0.0469),
    "CROSSHATCH_ANGLE": (4.11, 170, 60, 5.5),
    "BORE_TAPER": (((4.1101, 4.1099), (4.1104, 4.1100), (4.1106, 4.1103)),),
    "BORE_OUT_OF_ROUND": (((4.1101, 4.1099), (4.1104, 4.1100), (4.1106, 4.1103)),),
    # Bearings
    "BEARING_CLEARANCE": (2.641, 0.0944, 2.4495, 0.0946),
    "BEARING_CLEARANCE_FROM_BORE": (2.452, 2.4495),
    "BEARING_CLEARANCE_FACTOR": ("street",),
    "BEARING_BAND": (2.4495, "street"),
    "HOT_BEARING_CLEARANCE": (
        *(2.641, 0.0944, 2.4495, 140, 160),
        *("aluminum", "steel", "steel", 0.0946),
    ),
    "SHELL_FOR_CLEARANCE": (2.641, 2.4495, 0.0022, ((0.0943, 0.0946), (0.0948, 0.0951)), 0.0006),
    "END_PLAY": (1.193, 1.187),
    "ROD_SIDE_CLEARANCE": (0.955, 0.94, 1),
    "JOURNAL_TAPER": (((2.4495, 2.4494), (2.4496, 2.4494)),),
    "JOURNAL_OUT_OF_ROUND": (((2.4495, 2.4494), (2.4496, 2.4494)),),
    "BEARING_UNIT_LOAD": (3000, 2.1, 0.8),
    "SOMMERFELD_NUMBER": (600, 2.1, 0.8, 0.002, 12, 3000),
    "FILM_ECCENTRICITY": (600, 2.1, 0.8, 0.002, 12, 3000),
    "FILM_THICKNESS": (600, 2.1, 0.8, 0.002, 12, 3000),
    "KINEMATIC_VISCOSITY": (100, 104, 11.1, 212, 240),
    "DYNAMIC_VISCOSITY": (11.1, 51),
    "RELIEF_PRESSURE": (15, 0.55),
    "RELIEF_SHIM": (55, 65, 20, 0.55),
    # Balance
    "BEARING_OIL_FLOW": (1200, 2.4495, 0.9, 0.0025, 8, 6500),
    "BEARING_TEMPERATURE_RISE": (1200, 2.4495, 0.9, 0.0025, 8, 6500, 54, 1900),
    "PRESSURE_FED_FLOW": (2.4495, 0.4, 0.0025, 0.6, 60, 8),
    "OIL_PUMP_DELIVERY": (1.1, 6500, 0.5, 0.9),
    "BOBWEIGHT": (((420, 42),), ((560, 118, 52, 160),), 0.5, 2, 4),
    "UNBALANCE": (12, 3.2),
    "PERMISSIBLE_UNBALANCE": (24000, 6500, 6.3),
    "UNBALANCE_FORCE": (0.5, 6500),
    "DRILL_DEPTH": (1.2, 3.2, 0.5, "gray iron", 118),
    "SLUG_MASS": (0.75, 1.1, "heavy metal"),
    "SLUG_GAIN": (0.75, 1.1, "heavy metal", "alloy steel"),
    "MASS_SPREAD": (((560.2, 559.8, 561, 560.4),),),
    "RECIPROCATING_FORCE": (730, 3.54, 6.0, 6500, 30, "second"),
    # Fasteners
    "THREAD_AREA_FROM_PITCH": (0.4375, 0.05, "inch"),
    "THREAD_STRESS_AREA": ("7/16-20",),
    "PROOF_LOAD": ("7/16-20", "grade 8"),
    "ROD_BOLT_LOAD": (730, 3.54, 6.0, 6500, 2, 150),
    "BOLT_MARGIN": (14000, 10000, 4000, 0.2),
    "JOINT_MARGIN": (10000, 4000, 0.2),
    "NUT_FACTOR": (0.4375, 0.05, 0.12, 0.12, 0.6),
    "PRELOAD_FROM_TORQUE": (65, 0.4375, 0.16),
    "TORQUE_FOR_PRELOAD": (10000, 0.4375, 0.16),
    "BOLT_RATE": (((0.3, 1.0, 0.4),), ((0.375, 0.33, 0.36),), "alloy steel"),
    "BOLT_STRETCH": (10000, ((0.3, 1.0, 0.4),), ((0.375, 0.33, 0.36),), "alloy steel"),
    "PRELOAD_FROM_STRETCH": (0.006, ((0.3, 1.0, 0.4),), ((0.375, 0.33, 0.36),), "alloy steel"),
    "BOLT_RATE_WITH_ENDS": (
        *(((0.3, 1.0, 0.4),), ((0.375, 0.33, 0.36),)),
        *(0.4375, 0.05, "nut", "alloy steel"),
    ),
    "BOLT_STRETCH_WITH_ENDS": (
        *(10000, ((0.3, 1.0, 0.4),), ((0.375, 0.33, 0.36),)),
        *(0.4375, 0.05, "tapped hole", "alloy steel"),
    ),
    "PRELOAD_FROM_STRETCH_WITH_ENDS": (
        *(0.006, ((0.3, 1.0, 0.4),), ((0.375, 0.33, 0.36),)),
        *(0.4375, 0.05, "bolt alone", "alloy steel"),
    ),
    "PRELOAD_FROM_ANGLE": (60, 0.05, 1500000, 4000000),
    "JOINT_RATE": (0.45, 0.68, 1.9, 0.25, "aluminum", "gray iron"),
    "THREAD_ENGAGEMENT": (0.1419, 0.0769, 0.4435, 0.434),
    "ENGAGEMENT_IN_WEAKER_HOLE": (0.36, 0.0769, 0.4435, 0.434, 0.4876, 0.4565, 190000, 45000),
    "BOLT_SHARE": (1500000, 4000000),
    "LOAD_FROM_HEAT": (1500000, 4000000, 2.15, 150, 170, "alloy steel", "aluminum"),
    # Camshaft and valvetrain
    "CAM_DURATION": (20, 244),
    "LOBE_CENTERLINE": ("intake", -12, 236),
    "INTAKE_OPENING": (228, 106),
    "INTAKE_CLOSING": (228, 106),
    "EXHAUST_OPENING": (236, 114),
    "EXHAUST_CLOSING": (236, 114),
    "VALVE_OVERLAP": (8, 4),
    "LOBE_SEPARATION": (106, 114),
    "CAM_ADVANCE": (110, 106),
    "INTAKE_CENTERLINE": (110, 4),
    "EXHAUST_CENTERLINE": (110, 4),
    "VALVE_LIFT": (0.32, 1.5, 0.02),
    "PISTON_TO_VALVE": (0.4, 0.1, 10, 3.54, 6.0, 15),
    "PUSHROD_LENGTH": (7.2, 3.5, 0.05, 0.03),
    "PUSHROD_BUCKLING": (0.3125, 0.08, 8, 75000, "alloy steel"),
    "LIFTER_PRELOAD": (0.75, 0.05, 1.5),
    "VALVE_GUIDE_CLEARANCE": (0.343, 0.3415),
    "SPRING_RATE": (130, 1.8, 330, 1.25),
    "SHEAR_MODULUS": ("chrome silicon",),
    "SPRING_RATE_FROM_WIRE": (0.19, 1.05, 4.5, 11500000),
    "SPRING_LOAD": (130, 364, 0.5),
    "COIL_BIND_MARGIN": (1.8, 1.1, 0.55),
    "SPRING_SHIM": (1.83, 1.8),
    "SPRING_SURGE": (364, 110, 4.5, 6.5),
    # Air and power
    "VALVE_SPEED": (0.301, 0.318, 2, 6500),
    "VALVE_ACCELERATION": (0.59975, 0.6, 0.59975, 2, 6500),
    "SPRING_FORCE_NEEDED": (165, -16000),
    "SPRING_MARGIN": (340, 165, -16000),
    "FLOAT_SPEED": (6500, 340, 165, -16000),
    "HOT_LASH": (0.016, 0.009, 0.006),
    "CHAIN_DEFLECTION": (5.2, 0.005),
    "AIRFLOW": (376, 6500, 0.95, 4),
    "VOLUMETRIC_EFFICIENCY": (630, 376, 6500, 4),
    "INLET_MACH_INDEX": (4.11, 3.54, 6500, 2.02, 1, 0.35, 77),
    "PORT_VELOCITY": (4.11, 3.54, 6500, 2.1),
    "POWER": (380, 5200),
    "TORQUE": (400, 6000),
    "BMEP": (380, 376, 4),
    "FUEL_FLOW": (400, 0.5),
    "INJECTOR_FLOW": (200, 8, 0.85),
    "LEAKAGE_SPREAD": (((4, 5, 4, 6), (5, 4, 7, 5)), 8),
    "PRESSURE_SPREAD": (((165, 170, 168, 160), (172, 166, 169, 171)), 8),
    "VAPOR_PRESSURE": (77, 0.4),
    "AIR_DENSITY": (29.6, 77, 0.4),
    "DENSITY_ALTITUDE": (29.6, 77, 0.4),
    "WEATHER_CORRECTION": ("sae j1349", 29.1, 84, 0.4),
    "STANDARD_PRESSURE": (5000,),
    "POWER_CORRECTION": ("29.92 inhg 60 f", 28.85, 85, 0.85),
    "DIESEL_CORRECTION": ("natural", 28.9, 95, 0.4, 130, 360, 2600, 1.1, 4),
    "FLOW_AT_PRESSURE": (150, 10, 28),
    "DISCHARGE_COEFFICIENT": (250, 2.2, 28, 0.0765),
    "CURTAIN_AREA": (2.02, 0.3),
    "VALVE_FLOW_AREA": (2.02, 0.06, 45, 1.8, 0.3415, 0.3),
    # Fuel
    "FUEL_DENSITY": ("gasoline", "methanol", 0.1),
    "STOICHIOMETRIC_RATIO": ("gasoline", "ethanol", 0.85),
    "FUEL_HEATING_VALUE": ("methanol", "nitromethane", 0.2),
    "LAMBDA_FROM_RATIO": (12.6, 14.6),
    "INJECTOR_FLOW_AT": (440, 43.5, 58),
    "INJECTOR_SIZE": (200, 8, 0.8, 46.5),
    "INJECTOR_DUTY": (200, 8, 320, 46.5),
    "PRESSURE_RATIO": (10, 29.92),
    "CHARGE_TEMPERATURE": (80, 1.68, 0.65),
    "COOLED_CHARGE_TEMPERATURE": (215, 90, 0.7),
    "CHARGE_DENSITY_RATIO": (1.68, 80, 130),
    "BLOWER_DRIVE_RATIO": (350, 174, 1.4, 0.95, 0.85, 4),
    "SPEED_OF_SOUND": (900, 1.33),
    "TUNED_LENGTH": (1800, 6500, 120),
    "QUARTER_WAVE_FREQUENCY": (14, 1150),
    "HELMHOLTZ_FREQUENCY": (2.4, 11, 400, 1150),
    "PUMP_FLOW": (200, 46.5, 1.3),
    # Choosing and matching
    "FIT": (1.625, 1.631),
    "FIT_PRESSURE": (0.006, 1.625, 2.1, 1.3, "aluminum A356", "ductile iron"),
    "HUB_STRESS": (6000, 1.625, 2.1),
    "SHAFT_STRESS": (6000, 1.625, 1.3),
    "HOT_INTERFERENCE": (0.006, 1.625, 270, 360, "aluminum A356", "ductile iron"),
    "HUB_RISE_TO_ASSEMBLE": (0.006, 0.002, 1.625, "aluminum A356", "ductile iron", -100),
    "SHAFT_RISE_TO_ASSEMBLE": (0.006, 0.002, 1.625, "ductile iron", "aluminum A356", 250),
    "PISTONS_TO_BORES": (((4.1102, 4.1098, 4.1105),), ((4.1064, 4.107, 4.1067),), 0.0035),
    "PARTS_TO_SETS": (((560.2, 559.8, 561),), ((548, 551.2, 549.5),)),
    # Readings
    "VERDICT": (0.0021, 0.0015, 0.0025),
    "GUARDED_VERDICT": (0.0021, 0.0015, 0.0025, 0.0003),
    "SIZE_AT_REFERENCE": (4.1113, 86, "gray iron", 75, "steel"),
    "CLEARANCE_UNCERTAINTY": (0.0001, 0.0002),
    "MEAN_READING": (((0.0021, 0.0023), (0.0022, 0.002)), 4),
    "READING_SPREAD": (((0.0021, 0.0023), (0.0022, 0.002)), 4),
    "BAND": ("quench", "street", 4.11, "aluminum"),
    "JUDGE": (((0.0021, 0.0023), (0.0022, 0.002)), 4, 0.0015, 0.0025),
    # Given a cell, of which a host tells in words
    "WHY": ("A1: no formula; it holds 4.11.",),
}


def example(name: str, system: str = "inch") -> tuple[object, ...]:
    """The arguments of a function's example call, `units` last where it takes them.

    name: without prefix; system: the book's, "inch" or "metric".
    """
    function = find(name)
    assert function is not None, f"tests/examples.py: the catalog has no {name}"
    assert name in EXAMPLES, (
        f"tests/examples.py has no example of {name}: add a line to EXAMPLES with plausible "
        f"arguments in inch units for {function.signature}"
    )
    arguments = EXAMPLES[name]
    if system == "metric":
        arguments = tuple(
            _in_metric(value, parameter.kind)
            for value, parameter in zip(arguments, function.parameters, strict=True)
        )
    return (*arguments, system) if function.takes_units else arguments


def shortest(name: str) -> tuple[object, ...]:
    """The example call with every optional argument left out."""
    function = find(name)
    return example(name)[: function.required]


def takes_options(function: Function) -> bool:
    """Whether a function has optional parameters besides `units`."""
    return function.required < len(function.parameters)


def _in_metric(value, kind):
    if isinstance(value, tuple):
        return tuple(_in_metric(part, kind) for part in value)
    if isinstance(value, str) or value is None:
        return value
    # As many digits as a person would type and a file keeps, so that 2.4495 in is 62.2173 mm.
    return float(
        f"{quantities.from_si(quantities.to_si(value, kind, 'inch'), kind, 'metric'):.12g}"
    )
