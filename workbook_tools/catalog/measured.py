"""Types of what functions measure: one for each measurand or property that the catalog uses.

Kind, sign, help, limits and sizes come from the table of measurands. They are named here only
where a function's physics, or a saved call, ask for others than the table gives; a note is
help for every argument of the type. A property (journal, ring gap) stands for every part
that has it; a plural takes a whole range of readings.
"""

from __future__ import annotations

import math
from typing import Annotated, TypeAlias

from workbook_tools import quantities
from workbook_tools.catalog.kinds import (
    ABOVE_ZERO,
    ANY,
    FROM_ZERO,
    Block,
    Limits,
    Note,
    Rows,
    Sizes,
    measured,
)

PART = Limits(0.0, 1.0, low_open=True)
SHARE = Limits(0.0, 1.0)
COILS = Limits(0.0, 100.0, low_open=True)
FULL_TURN = Limits(0.0, 2 * math.pi, low_open=True, high_open=True)
# From a thin solvent to gear oil in the cold, 0.5 to 1000 cP: a number in Pa.s or reyn is outside.
VISCOSITY = Limits(0.000499999999, 1.000000001)
HALF_TURN = Limits(0.0, math.pi, low_open=True, high_open=True)
# From hydrogen in large engines to nitromethane, 50 to 10 000 g/kWh, in kg/J, with room for
# what is lost in turning one unit into the other.
FUEL = Limits(0.05 / 3.6000001e6, 10.0 / 3.5999999e6)
# Half a turn either way from the dead center that an event is counted from.
EVENT = Limits(-math.pi, math.pi)
# Sizes beyond those of engines for which a function holds just as well: bearings of ships and
# turbines to 1.2 m, parts of locomotives to a metric ton, springs of any softness.
LARGE_BEARING = Sizes(high=1.2)
LARGE_MASS = Sizes(high=1000.0)
LARGE_UNBALANCE = Sizes(high=100.0)
FROM_NOTHING = Sizes(low=0.0)
SOFT_OR_STIFF = Sizes(0.0, 1e7)
# Where the functions' own rules refuse a slip, in better words.
BY_RULE = Sizes(-math.inf, math.inf)

# Engine
Bore: TypeAlias = Annotated[float, measured("bore")]
Bores: TypeAlias = Annotated[Rows, measured("bore"), Block()]
Stroke: TypeAlias = Annotated[float, measured("stroke"), Note("Twice the crank's throw.")]
CylinderCount: TypeAlias = Annotated[int, measured("cylinder_count")]
Displacement: TypeAlias = Annotated[float, measured("displacement")]
CylinderVolume: TypeAlias = Annotated[float, measured("cylinder_volume")]
BoreStrokeRatio: TypeAlias = Annotated[float, measured("bore_stroke_ratio")]
StrokesPerCycle: TypeAlias = Annotated[int, measured("strokes_per_cycle"), Limits(2.0, 4.0)]
RodLength: TypeAlias = Annotated[float, measured("rod_length")]
RodStrokeRatio: TypeAlias = Annotated[float, measured("rod_stroke_ratio")]
Power: TypeAlias = Annotated[float, measured("power")]
EngineTorque: TypeAlias = Annotated[float, measured("engine_torque")]
EngineSpeed: TypeAlias = Annotated[float, measured("engine_speed")]
MeanPistonSpeed: TypeAlias = Annotated[float, measured("mean_piston_speed")]
PeakPistonSpeed: TypeAlias = Annotated[float, measured("peak_piston_speed")]
PistonVelocity: TypeAlias = Annotated[float, measured("piston_velocity")]
PeakSpeedAngle: TypeAlias = Annotated[float, measured("peak_speed_angle")]
PistonAcceleration: TypeAlias = Annotated[float, measured("piston_acceleration")]
TdcAcceleration: TypeAlias = Annotated[float, measured("tdc_acceleration")]
CrankAngle: TypeAlias = Annotated[float, measured("crank_angle")]
RodAngle: TypeAlias = Annotated[float, measured("rod_angle")]
PistonPosition: TypeAlias = Annotated[float, measured("piston_position")]
VolumeAtAngle: TypeAlias = Annotated[float, measured("volume_at_angle")]

# Compression, deck and quench
CompressionRatio: TypeAlias = Annotated[
    float, measured("compression_ratio"), Limits(1.0, 50.0, low_open=True)
]
TrappedRatio: TypeAlias = Annotated[float, measured("trapped_ratio")]
DynamicRatio: TypeAlias = Annotated[float, measured("dynamic_ratio")]
BoostedRatio: TypeAlias = Annotated[float, measured("boosted_ratio")]
EffectiveStroke: TypeAlias = Annotated[float, measured("effective_stroke")]
DeckHeight: TypeAlias = Annotated[float, measured("deck_height")]
DeckClearance: TypeAlias = Annotated[
    float, measured("deck_clearance"), Note("Type 0 for a piston level with the deck.")
]
GasketThickness: TypeAlias = Annotated[
    float, measured("gasket_thickness"), Note("As the torqued head compresses it, not as sold.")
]
GasketThicknesses: TypeAlias = Annotated[Rows, measured("gasket_thickness"), Block()]
GasketBore: TypeAlias = Annotated[float, measured("gasket_bore")]
Quench: TypeAlias = Annotated[float, measured("quench")]
HotDeckClearance: TypeAlias = Annotated[float, measured("hot_deck_clearance")]
HotQuench: TypeAlias = Annotated[float, measured("hot_quench")]
RunningQuench: TypeAlias = Annotated[float, measured("running_quench")]
ChamberVolume: TypeAlias = Annotated[
    float, measured("chamber_volume"), Note("As measured with plug and valves in place.")
]
CrownVolume: TypeAlias = Annotated[float, measured("crown_volume")]
GasketVolume: TypeAlias = Annotated[
    float,
    measured("gasket_volume"),
    FROM_ZERO,
    Note("Inside the compressed gasket; type 0 for a head that seals without one."),
]
DeckVolume: TypeAlias = Annotated[
    float, measured("deck_volume"), Note("Type 0 for a piston level with the deck.")
]
RingLandVolume: TypeAlias = Annotated[float, measured("ring_land_volume")]
LandDiameter: TypeAlias = Annotated[float, measured("land_diameter")]
LandHeight: TypeAlias = Annotated[float, measured("land_height")]
ClearanceVolume: TypeAlias = Annotated[float, measured("combustion_volume")]
CompressionHeight: TypeAlias = Annotated[
    float,
    measured("compression_height"),
    FROM_NOTHING,
    Note("Piston pin center to the flat of the crown."),
]
DeckTiltAlong: TypeAlias = Annotated[float, measured("deck_tilt_along")]
DeckTiltAcross: TypeAlias = Annotated[float, measured("deck_tilt_across")]
DeckCut: TypeAlias = Annotated[float, measured("deck_cut")]
HeadCut: TypeAlias = Annotated[float, measured("head_cut"), ABOVE_ZERO]
ChamberArea: TypeAlias = Annotated[float, measured("chamber_area")]
ChamberChange: TypeAlias = Annotated[float, measured("chamber_change"), ABOVE_ZERO]
DeckGrowth: TypeAlias = Annotated[float, measured("deck_growth")]
BlockGrowth: TypeAlias = Annotated[float, measured("block_growth")]
AssemblyGrowth: TypeAlias = Annotated[float, measured("assembly_growth")]
RodStretch: TypeAlias = Annotated[float, measured("rod_stretch")]
RodTemperatureRise: TypeAlias = Annotated[float, measured("rod_temperature_rise")]
BearingTakeUp: TypeAlias = Annotated[float, measured("bearing_take_up")]
RodArea: TypeAlias = Annotated[float, measured("rod_area"), BY_RULE]
EngineTemperatureRise: TypeAlias = Annotated[float, measured("engine_temperature_rise")]
BlockTemperatureRise: TypeAlias = Annotated[float, measured("block_temperature_rise")]
PistonExtraRise: TypeAlias = Annotated[float, measured("piston_extra_rise")]
Boost: TypeAlias = Annotated[float, measured("boost"), ABOVE_ZERO]
ChargeTemperature: TypeAlias = Annotated[float, measured("charge_temperature")]
CompressionTemperature: TypeAlias = Annotated[float, measured("compression_temperature")]
OttoEfficiency: TypeAlias = Annotated[float, measured("otto_efficiency")]

# Bores and pistons
BoreTaper: TypeAlias = Annotated[float, measured("bore_taper"), BY_RULE]
BoreOutOfRound: TypeAlias = Annotated[float, measured("bore_out_of_round"), BY_RULE]
PistonDiameter: TypeAlias = Annotated[float, measured("piston_diameter")]
PistonDiameters: TypeAlias = Annotated[Rows, measured("piston_diameter"), Block()]
PistonClearance: TypeAlias = Annotated[float, measured("piston_clearance"), ABOVE_ZERO]
PistonClearanceBand: TypeAlias = Annotated[
    tuple[tuple[float, float, str]], measured("piston_clearance"), Block()
]
HotPistonClearance: TypeAlias = Annotated[float, measured("hot_piston_clearance")]
BoreTemperatureRise: TypeAlias = Annotated[float, measured("bore_temperature_rise")]
PistonTemperatureRise: TypeAlias = Annotated[float, measured("piston_temperature_rise")]
PistonLength: TypeAlias = Annotated[float, measured("piston_length")]
SkirtExposure: TypeAlias = Annotated[float, measured("skirt_exposure")]
LinerLength: TypeAlias = Annotated[float, measured("liner_length")]
PinDiameter: TypeAlias = Annotated[float, measured("pin_diameter")]
PinBore: TypeAlias = Annotated[float, measured("pin_bore")]
PinClearance: TypeAlias = Annotated[float, measured("pin_clearance")]

# Rings
RingGap: TypeAlias = Annotated[float, measured("ring_gap"), FROM_ZERO]
RingGapBand: TypeAlias = Annotated[tuple[tuple[float, float, str]], measured("ring_gap"), Block()]
HotRingGap: TypeAlias = Annotated[float, measured("hot_ring_gap")]
RingGapFactor: TypeAlias = Annotated[float, measured("ring_gap_factor"), BY_RULE]
RingTemperatureRise: TypeAlias = Annotated[float, measured("ring_temperature_rise")]
RingSideClearance: TypeAlias = Annotated[float, measured("ring_side_clearance")]
GrooveWidth: TypeAlias = Annotated[float, measured("groove_width")]
RingWidth: TypeAlias = Annotated[float, measured("ring_width")]
RingTension: TypeAlias = Annotated[float, measured("ring_tension")]
RingBackClearance: TypeAlias = Annotated[float, measured("ring_back_clearance")]
GrooveDiameter: TypeAlias = Annotated[float, measured("groove_diameter")]
RingRadialThickness: TypeAlias = Annotated[float, measured("ring_radial_thickness")]

# Crankshaft and bearings
BearingClearance: TypeAlias = Annotated[float, measured("bearing_clearance")]
BearingClearanceBand: TypeAlias = Annotated[
    tuple[tuple[float, float, str]], measured("bearing_clearance"), Block()
]
Journal: TypeAlias = Annotated[float, measured("journal"), LARGE_BEARING]
Journals: TypeAlias = Annotated[Rows, measured("journal"), LARGE_BEARING, Block()]
BearingBore: TypeAlias = Annotated[float, measured("bearing_bore")]
HousingBore: TypeAlias = Annotated[float, measured("housing_bore")]
ShellWall: TypeAlias = Annotated[float, measured("shell_wall")]
ShellWalls: TypeAlias = Annotated[Rows, measured("shell_wall"), Block()]
ShellWallBand: TypeAlias = Annotated[
    tuple[tuple[float, float, float]], measured("shell_wall"), Block()
]
HotBearingClearance: TypeAlias = Annotated[
    float, measured("hot_bearing_clearance"), ABOVE_ZERO, Note("As hot as it runs.")
]
JournalOutOfRound: TypeAlias = Annotated[float, measured("journal_out_of_round"), BY_RULE]
JournalTaper: TypeAlias = Annotated[float, measured("journal_taper"), BY_RULE]
EndPlay: TypeAlias = Annotated[float, measured("end_play")]
ThrustWidth: TypeAlias = Annotated[float, measured("thrust_width")]
ThrustBearingWidth: TypeAlias = Annotated[float, measured("thrust_bearing_width")]
HousingTemperatureRise: TypeAlias = Annotated[float, measured("housing_temperature_rise")]
JournalTemperatureRise: TypeAlias = Annotated[float, measured("journal_temperature_rise")]
JournalSurfaceSpeed: TypeAlias = Annotated[float, measured("journal_surface_speed")]
BearingLength: TypeAlias = Annotated[float, measured("bearing_length"), LARGE_BEARING]
BearingLoad: TypeAlias = Annotated[float, measured("bearing_load")]
SteadyBearingLoad: TypeAlias = Annotated[
    float, measured("bearing_load"), Note("Steady, not the peak.")
]
JournalSpeed: TypeAlias = Annotated[
    float, measured("engine_speed"), Note("At which the journal turns in its bearing.")
]
BearingUnitLoad: TypeAlias = Annotated[float, measured("bearing_unit_load")]
SommerfeldNumber: TypeAlias = Annotated[float, measured("sommerfeld_number")]
FilmEccentricity: TypeAlias = Annotated[float, measured("film_eccentricity")]
FilmThickness: TypeAlias = Annotated[float, measured("film_thickness")]

# Connecting rods and their bearings
RodSideClearance: TypeAlias = Annotated[float, measured("rod_side_clearance")]
RodJournalWidth: TypeAlias = Annotated[float, measured("rod_journal_width")]
RodBigEndWidth: TypeAlias = Annotated[float, measured("rod_big_end_width")]
RodsPerJournal: TypeAlias = Annotated[int, measured("rods_per_journal")]
SmallEndBore: TypeAlias = Annotated[float, measured("small_end_bore")]
SmallEndClearance: TypeAlias = Annotated[float, measured("small_end_clearance")]

# Balance
OilAllowance: TypeAlias = Annotated[float, measured("oil_allowance")]
ReciprocatingMass: TypeAlias = Annotated[float, measured("reciprocating_mass"), LARGE_MASS]
RotatingMass: TypeAlias = Annotated[float, measured("rotating_mass"), LARGE_MASS]
BalanceFactor: TypeAlias = Annotated[float, measured("balance_factor"), SHARE]
Bobweight: TypeAlias = Annotated[float, measured("bobweight"), LARGE_MASS]
CrankUnbalance: TypeAlias = Annotated[
    float, measured("crank_unbalance"), ABOVE_ZERO, LARGE_UNBALANCE
]
PermissibleUnbalance: TypeAlias = Annotated[float, measured("permissible_unbalance")]
BalanceGrade: TypeAlias = Annotated[float, measured("balance_grade"), BY_RULE]
# Below 300 g it is likely a weight in pounds or kilograms.
CrankMass: TypeAlias = Annotated[float, measured("crank_mass"), Sizes(low=0.3)]
UnbalanceMass: TypeAlias = Annotated[float, measured("unbalance_mass"), ABOVE_ZERO, LARGE_MASS]
BalanceRadius: TypeAlias = Annotated[float, measured("balance_radius"), FROM_NOTHING]
UnbalanceForce: TypeAlias = Annotated[float, measured("unbalance_force")]
BalanceDrillDepth: TypeAlias = Annotated[float, measured("balance_drill_depth")]
BalanceDrillDiameter: TypeAlias = Annotated[float, measured("balance_drill_diameter")]
DrillPointAngle: TypeAlias = Annotated[
    float, measured("drill_point_angle"), Limits(math.pi / 4, math.pi)
]
SlugDiameter: TypeAlias = Annotated[float, measured("slug_diameter")]
SlugLength: TypeAlias = Annotated[float, measured("slug_length")]
SlugMass: TypeAlias = Annotated[float, measured("slug_mass")]
SlugGain: TypeAlias = Annotated[float, measured("slug_gain")]
ReciprocatingForce: TypeAlias = Annotated[float, measured("reciprocating_force")]

# Camshaft and timing
CamDuration: TypeAlias = Annotated[float, measured("cam_duration")]
IntakeDuration: TypeAlias = Annotated[float, measured("intake_duration"), FULL_TURN]
ExhaustDuration: TypeAlias = Annotated[float, measured("exhaust_duration"), FULL_TURN]
IntakeOpening: TypeAlias = Annotated[float, measured("intake_opening"), EVENT]
IntakeClosing: TypeAlias = Annotated[
    float, measured("intake_closing"), Limits(-math.pi, math.pi, low_open=True, high_open=True)
]
ExhaustOpening: TypeAlias = Annotated[float, measured("exhaust_opening")]
PortDuration: TypeAlias = Annotated[float, measured("port_duration"), FULL_TURN]
ExhaustPortDuration: TypeAlias = Annotated[float, measured("exhaust_port_duration"), FULL_TURN]
PortOpening: TypeAlias = Annotated[float, measured("port_opening"), HALF_TURN]
ExhaustClosing: TypeAlias = Annotated[float, measured("exhaust_closing"), EVENT]
LobeCenterline: TypeAlias = Annotated[float, measured("lobe_centerline")]
IntakeCenterline: TypeAlias = Annotated[float, measured("intake_centerline"), HALF_TURN]
ExhaustCenterline: TypeAlias = Annotated[float, measured("exhaust_centerline"), HALF_TURN]
LobeSeparation: TypeAlias = Annotated[float, measured("lobe_separation"), HALF_TURN]
CamAdvance: TypeAlias = Annotated[float, measured("cam_advance")]
ValveOverlap: TypeAlias = Annotated[float, measured("valve_overlap")]
LobeLift: TypeAlias = Annotated[float, measured("lobe_lift"), FROM_NOTHING]
OpeningReading: TypeAlias = Annotated[float, measured("opening_reading")]
ClosingReading: TypeAlias = Annotated[float, measured("closing_reading")]

# Valvetrain
Lash: TypeAlias = Annotated[float, measured("lash")]
ValveLift: TypeAlias = Annotated[float, measured("valve_lift"), FROM_ZERO]
# A lift on the way there, however small.
PartialValveLift: TypeAlias = Annotated[float, measured("valve_lift"), FROM_ZERO, FROM_NOTHING]
ValveLiftAtAngle: TypeAlias = Annotated[float, measured("valve_lift_at_angle")]
RockerRatio: TypeAlias = Annotated[float, measured("rocker_ratio"), BY_RULE]
LifterPreload: TypeAlias = Annotated[float, measured("lifter_preload")]
PushrodLength: TypeAlias = Annotated[float, measured("pushrod_length")]
SpringHeight: TypeAlias = Annotated[float, measured("spring_height")]
SpringSeatLoad: TypeAlias = Annotated[float, measured("spring_seat_load"), FROM_NOTHING]
SpringOpenLoad: TypeAlias = Annotated[float, measured("spring_open_load"), FROM_NOTHING]
SpringRate: TypeAlias = Annotated[float, measured("spring_rate"), SOFT_OR_STIFF]
CoilBindHeight: TypeAlias = Annotated[float, measured("coil_bind_height")]
CoilBindMargin: TypeAlias = Annotated[float, measured("coil_bind_margin")]
SpringShim: TypeAlias = Annotated[float, measured("spring_shim")]
ValveToPiston: TypeAlias = Annotated[float, measured("valve_to_piston")]
SpringOpenHeight: TypeAlias = Annotated[float, measured("spring_open_height")]
SpringWireDiameter: TypeAlias = Annotated[float, measured("spring_wire_diameter")]
SpringMeanDiameter: TypeAlias = Annotated[float, measured("spring_mean_diameter")]
SpringActiveCoils: TypeAlias = Annotated[
    float,
    measured("spring_active_coils"),
    COILS,
    Note("Those free to move; with closed and ground ends two fewer than the total."),
]
SpringTotalCoils: TypeAlias = Annotated[float, measured("spring_total_coils"), COILS]
SpringMass: TypeAlias = Annotated[float, measured("spring_mass")]
ShearModulus: TypeAlias = Annotated[float, measured("shear_modulus"), BY_RULE]
SpringSurge: TypeAlias = Annotated[float, measured("spring_surge")]
ValveDrop: TypeAlias = Annotated[float, measured("valve_drop")]
AdjusterTurns: TypeAlias = Annotated[float, measured("adjuster_turns"), BY_RULE]
AdjusterPitch: TypeAlias = Annotated[float, measured("adjuster_pitch"), BY_RULE]
PushrodCheckerLength: TypeAlias = Annotated[float, measured("pushrod_checker_length")]

# Heads and valves
ValveHeadDiameter: TypeAlias = Annotated[float, measured("valve_head_diameter")]
SeatAngle: TypeAlias = Annotated[
    float, measured("seat_angle"), Limits(math.radians(15 - 1e-9), math.radians(60 + 1e-9))
]
IntakeValveHeadDiameter: TypeAlias = Annotated[float, measured("intake_valve_head_diameter")]
StemAngle: TypeAlias = Annotated[float, measured("stem_angle"), Limits(0.0, math.pi / 3)]
GuideBore: TypeAlias = Annotated[float, measured("guide_bore")]
StemDiameter: TypeAlias = Annotated[float, measured("stem_diameter")]
StemClearance: TypeAlias = Annotated[float, measured("stem_clearance")]
IntakeValveCount: TypeAlias = Annotated[int, measured("intake_valve_count")]

# Fasteners
BoltTorque: TypeAlias = Annotated[float, measured("bolt_torque")]
BoltAngle: TypeAlias = Annotated[
    float, measured("bolt_angle"), Limits(0.0, 6 * math.pi, low_open=True)
]
BoltStretch: TypeAlias = Annotated[float, measured("bolt_stretch"), BY_RULE]
RodBoltLoad: TypeAlias = Annotated[float, measured("rod_bolt_load")]
RodBoltCount: TypeAlias = Annotated[int, measured("rod_bolt_count")]
BoltPreload: TypeAlias = Annotated[float, measured("bolt_preload")]
ProofLoad: TypeAlias = Annotated[float, measured("proof_load")]
WorkingLoad: TypeAlias = Annotated[float, measured("working_load"), ABOVE_ZERO]
BoltMargin: TypeAlias = Annotated[float, measured("bolt_margin")]
JointMargin: TypeAlias = Annotated[float, measured("joint_margin")]
NutFactor: TypeAlias = Annotated[
    float,
    measured("nut_factor"),
    Note(
        "For this lubricant and finish: some 0.2 dry or zinc-plated, 0.12 and less with "
        "assembly pastes."
    ),
]
FastenerDiameter: TypeAlias = Annotated[float, measured("fastener_diameter")]
ThreadPitch: TypeAlias = Annotated[
    float,
    measured("thread_pitch"),
    BY_RULE,
    Note("Distance from thread to thread: one inch over the threads per inch."),
]
ThreadStressArea: TypeAlias = Annotated[float, measured("thread_stress_area")]
ThreadFriction: TypeAlias = Annotated[float, measured("thread_friction"), PART]
HeadFriction: TypeAlias = Annotated[float, measured("head_friction"), PART]
BoltBearingDiameter: TypeAlias = Annotated[float, measured("bolt_bearing_diameter")]
BoltRate: TypeAlias = Annotated[float, measured("bolt_rate")]
JointRate: TypeAlias = Annotated[float, measured("joint_rate")]

# Oil, air and tests
Leakages: TypeAlias = Annotated[
    Rows, measured("leakage"), Limits(0.0, 100.0), quantities.READING, Block()
]
LeakageSpread: TypeAlias = Annotated[float, measured("leakage_spread")]
CrankingPressure: TypeAlias = Annotated[float, measured("cranking_pressure"), ABOVE_ZERO]
CrankingPressures: TypeAlias = Annotated[Rows, measured("cranking_pressure"), ABOVE_ZERO, Block()]
CrankingPressureSpread: TypeAlias = Annotated[float, measured("cranking_pressure_spread")]
OilViscosity: TypeAlias = Annotated[
    float,
    measured("oil_viscosity"),
    VISCOSITY,
    Note('About 5 to 15 in cP or mPa.s for warm engine oils. A text may bring "reyn" or "Pa.s".'),
]
IgnitionAdvance: TypeAlias = Annotated[
    float, measured("ignition_advance"), Limits(0.0, math.radians(60))
]
OilPressure: TypeAlias = Annotated[float, measured("oil_pressure")]
ReliefPressure: TypeAlias = Annotated[float, measured("relief_pressure")]
ReliefSpringLoad: TypeAlias = Annotated[float, measured("relief_spring_load")]
ReliefSpringRate: TypeAlias = Annotated[float, measured("relief_spring_rate")]
ReliefPlungerDiameter: TypeAlias = Annotated[float, measured("relief_plunger_diameter")]
ReliefShimThickness: TypeAlias = Annotated[float, measured("relief_shim_thickness")]
InjectorFlow: TypeAlias = Annotated[float, measured("injector_flow")]
InjectorCount: TypeAlias = Annotated[int, measured("injector_count")]
InjectorDuty: TypeAlias = Annotated[float, measured("injector_duty"), PART]
FuelFlow: TypeAlias = Annotated[float, measured("fuel_flow")]
FuelConsumption: TypeAlias = Annotated[float, measured("fuel_consumption"), FUEL]
Bmep: TypeAlias = Annotated[float, measured("bmep")]
Airflow: TypeAlias = Annotated[float, measured("airflow")]
VolumetricEfficiency: TypeAlias = Annotated[
    float, measured("volumetric_efficiency"), Limits(0.0, 10.0, low_open=True)
]
InletMachIndex: TypeAlias = Annotated[float, measured("inlet_mach_index")]
InletFlowCoefficient: TypeAlias = Annotated[float, measured("inlet_flow_coefficient"), PART]
PortArea: TypeAlias = Annotated[float, measured("port_area")]
PortVelocity: TypeAlias = Annotated[float, measured("port_velocity")]
Altitude: TypeAlias = Annotated[float, measured("altitude"), Limits(-1000.0, 11000.0)]
DensityAltitude: TypeAlias = Annotated[float, measured("density_altitude")]
BarometricPressure: TypeAlias = Annotated[
    float, measured("barometric_pressure"), Limits(50e3, 110e3)
]
AirTemperature: TypeAlias = Annotated[
    float,
    measured("air_temperature"),
    Limits(233.15 - 1e-6, 333.15 + 1e-6),
    Note("Type 0 for 0 degrees; an empty cell is not 0."),
]
RelativeHumidity: TypeAlias = Annotated[
    float,
    measured("relative_humidity"),
    SHARE,
    Note("As a fraction: 0.5, or a cell that shows 50 %. Type 0 for dry air."),
]
VaporPressure: TypeAlias = Annotated[float, measured("vapor_pressure")]
AirDensity: TypeAlias = Annotated[float, measured("air_density")]
WeatherCorrection: TypeAlias = Annotated[float, measured("weather_correction")]

# Not the measurand pin_offset: that is positive toward the major thrust side, and the saved
# calls of these functions count the other way.
PinOffset: TypeAlias = Annotated[
    float,
    quantities.LENGTH,
    ANY,
    Note(
        "Piston pin (or bore) from the crank's centerline: positive toward the side that the "
        "crankpin moves to after top dead center, negative toward the other (the major thrust "
        "side). 0 if left out."
    ),
]
