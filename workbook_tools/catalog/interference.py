"""Interference fits: seats, guides, liners, bushings and hubs, cold, hot and on their way in."""

from __future__ import annotations

from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    ANY,
    LengthFromZero,
    Limits,
    Material,
    Note,
    SignedLength,
    Stress,
    TemperatureRise,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Choosing and matching"

Interference = Annotated[
    float,
    quantities.LENGTH,
    Limits(low=0.0, low_open=True),
    Note(
        "How much larger the shaft is than the hole, on the diameter, before assembly. Positive; "
        "FIT gives it with a minus."
    ),
]
FitDiameter = Annotated[
    float,
    quantities.LENGTH,
    Limits(low=0.0, low_open=True),
    Note("Diameter where the two parts meet."),
]
HubOutside = Annotated[
    float,
    quantities.LENGTH,
    Limits(low=0.0, low_open=True),
    Note(
        "Outside diameter of the part with the hole; of a head or block twice the distance from "
        "the hole's center to the end of its thinnest wall."
    ),
]
ShaftInside = Annotated[
    float,
    quantities.LENGTH,
    Limits(low=0.0),
    Note("Inside diameter of the part in the hole. Type 0 for a solid one."),
]
HoopStress = Annotated[float, quantities.STRESS, ANY]


@worksheet_function(SECTION)
def fit_pressure(
    interference: Interference,
    diameter: FitDiameter,
    hub_outside: HubOutside,
    shaft_inside: ShaftInside,
    hub_material: Material,
    shaft_material: Material,
) -> Stress:
    """Pressure between two parts of an interference fit.

    Parameters
    ----------
    hub_material
        Material of the part with the hole.
    shaft_material
        Material of the part in it.

    Equation
    --------
    p = interference / (diameter * (((D**2 + d**2) / (D**2 - d**2) + v_hub) / E_hub
    + ((d**2 + b**2) / (d**2 - b**2) - v_shaft) / E_shaft)), with d the diameter, D hub_outside,
    b shaft_inside, E modulus and v Poisson's ratio of each material

    Validity
    --------
    Elastic, both parts round and equally long, at one temperature and at rest. Where one is
    longer, the pressure is higher at the end of the shorter. Pressing flattens rough surfaces and
    takes a few microns of the interference.

    Source
    ------
    Lame's thick cylinders; Budynas & Nisbett, Shigley's Mechanical Engineering Design, press and
    shrink fits; Poisson's ratios of the material table from memory

    Caution
    -------
    A seat, liner or hub that comes loose wrecks the engine, one pressed too hard cracks its
    housing. The part maker's interference comes first.
    """
    require(interference <= 0.02 * diameter, "interference", "2 % of the diameter at most")
    require(hub_outside > diameter, "hub_outside", "more than the diameter of the fit")
    require(shaft_inside < diameter, "shaft_inside", "less than the diameter of the fit")
    hub = (hub_outside**2 + diameter**2) / (hub_outside**2 - diameter**2)
    shaft = (diameter**2 + shaft_inside**2) / (diameter**2 - shaft_inside**2)
    hub_gives = (hub + tables.poisson(hub_material)) / tables.modulus(hub_material)
    shaft_gives = (shaft - tables.poisson(shaft_material)) / tables.modulus(shaft_material)
    return interference / diameter / (hub_gives + shaft_gives)


@worksheet_function(SECTION)
def hub_stress(pressure: Stress, diameter: FitDiameter, hub_outside: HubOutside) -> HoopStress:
    """Hoop stress at the hole of the outer part of an interference fit, where it is highest.

    Parameters
    ----------
    pressure
        Pressure of the fit, from FIT_PRESSURE.

    Returns
    -------
    Positive: tension.

    Equation
    --------
    stress = pressure * (hub_outside**2 + diameter**2) / (hub_outside**2 - diameter**2)

    Validity
    --------
    As for FIT_PRESSURE. Beside it stands the pressure itself, as compression. Cast iron cracks
    from tension; compare with its tensile strength and not with a yield stress.

    Source
    ------
    Lame's thick cylinders; Budynas & Nisbett, Shigley's Mechanical Engineering Design, press and
    shrink fits

    Caution
    -------
    A housing or hub that bursts can hurt people. The part maker's interference comes first.
    """
    require(hub_outside > diameter, "hub_outside", "more than the diameter of the fit")
    return pressure * (hub_outside**2 + diameter**2) / (hub_outside**2 - diameter**2)


@worksheet_function(SECTION)
def shaft_stress(pressure: Stress, diameter: FitDiameter, shaft_inside: ShaftInside) -> HoopStress:
    """Hoop stress of the inner part of an interference fit, where it is highest.

    Parameters
    ----------
    pressure
        Pressure of the fit, from FIT_PRESSURE.

    Returns
    -------
    Negative: compression. At the inside of a hollow part, all through a solid one.

    Equation
    --------
    stress = -2 * pressure * diameter**2 / (diameter**2 - shaft_inside**2); solid: -pressure

    Validity
    --------
    As for FIT_PRESSURE. A seat that yields here when it is hot comes back smaller and loose.

    Source
    ------
    Lame's thick cylinders; Budynas & Nisbett, Shigley's Mechanical Engineering Design, press and
    shrink fits

    Caution
    -------
    A seat or bushing that comes loose wrecks the engine. The part maker's interference comes
    first.
    """
    require(shaft_inside < diameter, "shaft_inside", "less than the diameter of the fit")
    hollow = -2 * pressure * diameter**2 / (diameter**2 - shaft_inside**2)
    return hollow if shaft_inside > 0 else -pressure


@worksheet_function(SECTION)
def hot_interference(
    interference: Interference,
    diameter: FitDiameter,
    hub_rise: TemperatureRise,
    shaft_rise: TemperatureRise,
    hub_material: Material,
    shaft_material: Material,
) -> SignedLength:
    """Interference that is left when both parts have warmed up.

    Parameters
    ----------
    hub_rise
        Temperature rise of the part with the hole; negative for colder.
    shaft_rise
        Temperature rise of the part in it; negative for colder.
    hub_material
        Material of the part with the hole.
    shaft_material
        Material of the part in it.

    Returns
    -------
    On the diameter. Positive: still an interference. Negative: a clearance, the part is loose.

    Equation
    --------
    hot = interference + diameter * (a_shaft * shaft_rise - a_hub * hub_rise)

    Validity
    --------
    Each part at one temperature, by its mean coefficient from about 20 to 100 deg C; hotter parts
    grow somewhat more. FIT_PRESSURE of what is left gives the pressure hot.

    Source
    ------
    linear expansion, with the coefficients of the material table, each with its source

    Caution
    -------
    A seat, liner or guide that comes loose when hot wrecks the engine. The part maker's
    interference comes first.
    """
    require(interference <= 0.02 * diameter, "interference", "2 % of the diameter at most")
    hub = tables.expansion(hub_material) * hub_rise
    shaft = tables.expansion(shaft_material) * shaft_rise
    return interference + diameter * (shaft - hub)


@worksheet_function(SECTION)
def hub_rise_to_assemble(
    interference: Interference,
    clearance: LengthFromZero,
    diameter: FitDiameter,
    hub_material: Material,
    shaft_material: Material = "steel",
    shaft_rise: TemperatureRise = 0.0,
) -> TemperatureRise:
    """How much to heat the outer part, so that the inner one drops in.

    Parameters
    ----------
    clearance
        Clearance wanted on the way in, on the diameter. Type 0 for none.
    hub_material
        Material of the part with the hole.
    shaft_material
        Material of the part in it. Steel if left out; counts only with shaft_rise.
    shaft_rise
        What the inner part is above the temperature at which both were measured: negative for a
        chilled one. 0 if left out.

    Returns
    -------
    Temperature rise above that at which both parts were measured.

    Equation
    --------
    hub_rise = ((interference + clearance) / diameter + a_shaft * shaft_rise) / a_hub

    Validity
    --------
    The whole part at this temperature, by its mean coefficient from about 20 to 100 deg C. Some
    heat is lost on the way, and the cold part takes its share at once: have clearance to spare.

    Source
    ------
    linear expansion, with the coefficients of the material table, each with its source

    Caution
    -------
    Hot parts burn: gloves, eye protection, no oil near. Heat above the part's tempering or aging
    temperature softens it: some 200 deg C (400 deg F) are usual limits of aluminum and of
    tempered steel, the part maker's figure comes first.
    """
    require(interference <= 0.02 * diameter, "interference", "2 % of the diameter at most")
    require(clearance <= 0.02 * diameter, "clearance", "2 % of the diameter at most")
    wanted = (interference + clearance) / diameter
    shaft = tables.expansion(shaft_material) * shaft_rise
    return (wanted + shaft) / tables.expansion(hub_material)


@worksheet_function(SECTION)
def shaft_rise_to_assemble(
    interference: Interference,
    clearance: LengthFromZero,
    diameter: FitDiameter,
    shaft_material: Material,
    hub_material: Material = "steel",
    hub_rise: TemperatureRise = 0.0,
) -> TemperatureRise:
    """How much to chill the inner part, so that it drops into the outer one.

    Parameters
    ----------
    clearance
        Clearance wanted on the way in, on the diameter. Type 0 for none.
    shaft_material
        Material of the part in the hole.
    hub_material
        Material of the part with the hole. Steel if left out; counts only with hub_rise.
    hub_rise
        What the outer part is above the temperature at which both were measured. 0 if left out.

    Returns
    -------
    Temperature rise from that at which both parts were measured. Negative: colder.

    Equation
    --------
    shaft_rise = (a_hub * hub_rise - (interference + clearance) / diameter) / a_shaft

    Validity
    --------
    The whole part at this temperature, by its mean coefficient from about 20 to 100 deg C; in
    deep cold metals shrink less than this tells, iron and steel by a fifth. Dry ice brings some
    95 deg C (170 deg F) below a room's temperature, liquid nitrogen some 215 deg C (385 deg F).

    Source
    ------
    linear expansion, with the coefficients of the material table, each with its source

    Caution
    -------
    Liquid nitrogen and dry ice burn skin and take the air to breathe: gloves, face shield,
    an aired room. Some steels and irons turn brittle in deep cold: ask the part maker.
    """
    require(interference <= 0.02 * diameter, "interference", "2 % of the diameter at most")
    require(clearance <= 0.02 * diameter, "clearance", "2 % of the diameter at most")
    wanted = (interference + clearance) / diameter
    hub = tables.expansion(hub_material) * hub_rise
    return (hub - wanted) / tables.expansion(shaft_material)
