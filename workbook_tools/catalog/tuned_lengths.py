"""Tuned intakes and exhausts: waves in pipes, and a volume that breathes through a neck."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.kinds import ABOVE_ZERO, Area, Length, Limits, Note, Volume
from workbook_tools.catalog.measured import EngineSpeed
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"

# From arctic air to the gas behind an exhaust valve, 200 to 2500 K.
GasTemperature = Annotated[float, quantities.TEMPERATURE, Limits(200.0, 2500.0)]
HeatRatio = Annotated[float, quantities.FACTOR, Limits(1.0, 1.67, low_open=True)]
SoundSpeed = Annotated[float, quantities.AIR_SPEED, ABOVE_ZERO]
SoundInGas = Annotated[
    float,
    quantities.AIR_SPEED,
    Limits(150.0, 1300.0),
    Note("As from ENG.SPEED_OF_SOUND, for the gas that the wave runs through."),
]
WaveAngle = Annotated[float, quantities.ANGLE, Limits(0.0, 4 * math.pi, low_open=True)]
Frequency = Annotated[float, quantities.FREQUENCY, ABOVE_ZERO]

# J/(kg.K), dry air: 8.314462618 J/(mol.K) over 28.9647 g/mol.
_GAS_CONSTANT = 8.314462618 / 0.0289647


@worksheet_function(SECTION)
def speed_of_sound(temperature: GasTemperature, heat_ratio: HeatRatio = 1.4) -> SoundSpeed:
    """Speed of sound in air or exhaust gas.

    Parameters
    ----------
    temperature
        Of the gas, as a mean along the pipe.
    heat_ratio
        Ratio of specific heats. If left out 1.4, that of air up to some 400 deg F (200 deg C); hot
        exhaust gas has 1.30 to 1.35.

    Equation
    --------
    speed_of_sound = sqrt(heat_ratio * R * T), R = 287.06 J/(kg.K), T absolute

    Validity
    --------
    Dry ideal gas at rest. A wave of high pressure runs faster than sound.

    Source
    ------
    Laplace's formula for an ideal gas; R by CODATA 2018 and the molar mass of dry air in the U.S.
    Standard Atmosphere 1976
    """
    return math.sqrt(heat_ratio * _GAS_CONSTANT * temperature)


@worksheet_function(SECTION)
def tuned_length(
    speed_of_sound: SoundInGas, engine_speed: EngineSpeed, return_angle: WaveAngle
) -> Length:
    """Length of a pipe whose wave is back at the valve after a given crank angle.

    Parameters
    ----------
    return_angle
        Crank degrees from the start of the wave at the valve to its return from the open end.

    Returns
    -------
    From the valve to the open end, the port included.

    Equation
    --------
    tuned_length = speed_of_sound * t / 2, t = return_angle / (360 deg) / turns per second

    Validity
    --------
    Sound of small amplitude in gas at rest, one gas temperature, a straight pipe that ends in the
    open or in a large volume. Engines differ from it by a tenth and more: a length to start trials
    from.

    Source
    ------
    kinematics (a wave's way there and back)
    """
    return speed_of_sound * return_angle / (2 * engine_speed)


@worksheet_function(SECTION)
def quarter_wave_frequency(length: Length, speed_of_sound: SoundInGas) -> Frequency:
    """Lowest frequency of a pipe that is open at one end and closed at the other.

    Parameters
    ----------
    length
        From the closed end to the open one, its end correction included.

    Equation
    --------
    frequency = speed_of_sound / (4 * length)

    Validity
    --------
    A straight pipe that is narrow against its length; also sounds at 3, 5, 7 ... times it.

    Source
    ------
    Kinsler and others, Fundamentals of Acoustics, chapter on pipes (from memory)
    """
    return speed_of_sound / (4 * length)


@worksheet_function(SECTION)
def helmholtz_frequency(
    neck_area: Area, neck_length: Length, volume: Volume, speed_of_sound: SoundInGas
) -> Frequency:
    """Frequency at which a volume breathes through a neck: a plenum, or a cylinder with its runner.

    Parameters
    ----------
    neck_area
        Section of the neck or runner.
    neck_length
        Its length, end corrections included.
    volume
        Behind the neck: for a cylinder with an open valve half its displaced volume is a common
        choice.

    Equation
    --------
    frequency = speed_of_sound / (2 * pi) * sqrt(neck_area / (neck_length * volume))

    Validity
    --------
    Dimensions small against the wavelength. As a model of an intake it is an estimate.

    Source
    ------
    Kinsler and others, Fundamentals of Acoustics, chapter on the Helmholtz resonator (from memory)
    """
    return speed_of_sound / (2 * math.pi) * math.sqrt(neck_area / (neck_length * volume))


@worksheet_function(SECTION)
def quarter_wave_length(frequency: Frequency, speed_of_sound: SoundInGas) -> Length:
    """Length of a pipe, open at one end and closed at the other, for a lowest frequency wanted.

    Parameters
    ----------
    frequency
        In Hz: engine speed / 120 is that of one cylinder's intake strokes in a four-stroke.

    Returns
    -------
    From the closed end to the open one, its end correction included: the pipe is shorter than it by
    some 0.3 of its diameter for each open end.

    Equation
    --------
    length = speed_of_sound / (4 * frequency)

    Validity
    --------
    A straight pipe that is narrow against its length.

    Source
    ------
    Kinsler and others, Fundamentals of Acoustics, chapter on pipes (from memory)
    """
    return speed_of_sound / (4 * frequency)


@worksheet_function(SECTION)
def helmholtz_length(
    neck_area: Area, volume: Volume, frequency: Frequency, speed_of_sound: SoundInGas
) -> Length:
    """Length of a neck with which a volume breathes at a frequency wanted.

    Parameters
    ----------
    neck_area
        Section of the neck or runner.
    volume
        Behind the neck: for a cylinder with an open valve half its displaced volume is a common
        choice.
    frequency
        In Hz.

    Returns
    -------
    End corrections included: the neck is shorter than it by some 0.3 to 0.4 of its diameter for
    each end.

    Equation
    --------
    neck_length = neck_area / volume * (speed_of_sound / (2 * pi * frequency))**2

    Validity
    --------
    Dimensions small against the wavelength. As a model of an intake it is an estimate.

    Source
    ------
    Kinsler and others, Fundamentals of Acoustics, chapter on the Helmholtz resonator (from memory)
    """
    return neck_area / volume * (speed_of_sound / (2 * math.pi * frequency)) ** 2
