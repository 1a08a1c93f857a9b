"""The tables of materials and bands in words, and a shop's own file to start from."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from workbook_tools.catalog.table_rows import Band, Material, Tables, Use
from workbook_tools.catalog.tables import current
from workbook_tools.quantities import unit_named
from workbook_tools.settings.folders import bands_file, usual_bands_file

# From so few engines no band can be tried on engines left out.
_FEW = 3
_START = """\
# The shop's own bands and materials. Each row adds to the tables, or takes the place of the row
# with the same conditions. Take the # away from rows that you want, and put your figures in.
# `workbook-tools bands` shows all rows in force, and says which line of this file is wrong.

# [[band]]
# table = "ring gap factor"
# use = "street"
# ring = "top"
# low = 0.0044
# high = 0.0052
# factor = 0.0048
# origin = "ring maker's sheet of 2026-03"

# [[use]]
# name = "rally"
# meaning = "forest roads, long full load"
# like = "road race"    # whose rows stand in where a table has none for it

# [[material]]
# name = "our block alloy"
# expansion = 21.4e-6   # 1/K, mean over the range
# range = "20 to 100 deg C"
# modulus = 72e9        # Pa
# density = 2680.0      # kg/m3
# poisson = 0.33        # Poisson's ratio; 0.3 if left out
# source = "foundry's sheet"
"""


def start_shop_file() -> Path:
    """Write a commented file of the shop's own to fill in, and return its path.

    Raises FileExistsError where there is one already, which is left as it is, and OSError
    where it cannot be written.
    """
    path = usual_bands_file()
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("x", encoding="utf-8", newline="\n") as file:
        file.write(_START)
    return path


def tables_text() -> str:
    """Every row in force, in words, and where the shop's own are read from.

    Raises TableError where the shop's file cannot be used.
    """
    tables = current()
    own = bands_file()
    lines = [f"The shop's own rows: {own}." if own else f"No file of the shop's own; it would be "
             f"{usual_bands_file()}, or what WORKBOOK_TOOLS_BANDS names."]  # fmt: skip
    lines += ["", "What the rows rest on", *(f"  {line}" for line in rests_on(tables))]
    lines += [
        "",
        "Uses: every table takes each; a use without a row goes by that of the one it is like",
    ]
    lines += [f"  {_use(use)}" for use in tables.uses.values()]
    for table, bands in tables.by_table.items():
        lines += ["", table.capitalize(), *(f"  {_said(band)}" for band in bands)]
    lines += [
        "",
        "Materials: expansion in 1e-6/K, modulus in GPa, Poisson's ratio (ours from memory), "
        "density in kg/m3",
    ]
    lines += [f"  {_material(material)}" for material in tables.materials.values()]
    return "\n".join(lines)


# How the origins of our rows from standards and handbooks begin.
_HANDBOOKS = (
    "ISO ",
    "SAE ",
    "Shigley, ",
    "atom balance of ",
    "US Department of Energy, ",
    "enthalpy of formation ",
    "common handbook ",
)


def rests_on(tables: Tables) -> Iterator[str]:
    """How many rows of the bands rest on what, in words, the most first."""
    count = Counter(_ground(band.origin) for band in tables.bands.values())
    for ground, number in sorted(count.items(), key=lambda item: (-item[1], item[0])):
        yield f"{number:3} {ground}"


def _ground(origin: str) -> str:
    makers = re.match(r"makers' service ranges of (\d+)", origin)
    if makers:
        few = " of a few engines, widened" if int(makers[1]) <= _FEW else ""
        return f"makers' service ranges{few}"
    if "common practice" in origin:
        memory = ", figures from memory" if "from memory" in origin else ", as the trade says it"
        return f"common practice, no source{memory}"
    if origin.startswith(_HANDBOOKS):
        return f"standards and handbooks{', from memory' if 'from memory' in origin else ''}"
    return "the shop's own or others"


def _use(use: Use) -> str:
    return f"{use.name:22} {use.meaning}" + (f" (like {use.like})" if use.like else "")


def _said(band: Band) -> str:
    words = ", ".join(word for _, word in band.conditions)
    # Rows of one table may be in different units.
    figures = " ".join((*_figures(band), band.unit)).strip()
    return f"{words:32} {figures:32} {band.origin}"


def _figures(band: Band) -> Iterator[str]:
    size = unit_named(band.unit)[1] if band.unit else 1.0
    low, high, factor = (
        None if value is None else f"{value / size:.9g}"
        for value in (band.low, band.high, band.factor)
    )
    if band.low_base or band.high_base:
        low = f"{band.low_base * 1000:.4g} mm + {low}"
        high = f"{band.high_base * 1000:.4g} mm + {high}"
    if low and high:
        yield f"{low} to {high}"
    elif low or high:
        yield f"at least {low}" if low else f"at most {high}"
    if factor:
        yield f"({factor})" if low or high else factor
    if band.sizes[0]:
        least, most = (end * 1000 for end in band.sizes)
        yield f"for {least:.0f} to {most:.0f} mm"


def _material(material: Material) -> str:
    stiffness = f"{material.modulus / 1e9:6.4g} {material.poisson:5.2f}"
    figures = f"{material.expansion * 1e6:6.3g} {stiffness} {material.density:6.5g}"
    return f"{material.name:24} {figures}   {material.source}"
