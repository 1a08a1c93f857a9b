"""Tables of materials and bands: TOML beside the code, each row with its source.

A shop can add rows or replace some in a TOML file of its own: bands.toml in the user's folder
of settings, or the file that the environment variable WORKBOOK_TOOLS_BANDS names (or that is
handed to `read_tables`). Its rows have the same form; one with the same conditions takes the
place of ours. A table that no function reads, or a figure far from ours, is a slip and refused.
"""

from __future__ import annotations

import math
import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any

from workbook_tools import quantities
from workbook_tools.quantities import Kind
from workbook_tools.settings.folders import settings_folder
from workbook_tools.settings.toml_file import SettingsError, TomlFile, parse_toml, read_toml

SHOP_VARIABLE = "WORKBOOK_TOOLS_BANDS"

Key = tuple[str, frozenset[tuple[str, str]]]


class TableError(SettingsError):
    """A row, or a file, that cannot be used: file, line (0 for the whole file), reason."""


@dataclass(frozen=True)
class Material:
    """A material: mean expansion in 1/K over a range, modulus in Pa, density in kg/m3."""

    name: str
    expansion: float
    range: str
    modulus: float
    density: float
    source: str


@dataclass(frozen=True)
class Band:
    """A row of a band table: what holds for a use under some conditions, and who says so.

    low, high: the limits, in SI, or None; factor: a figure to multiply with, in SI, or None;
    conditions: field and word, such as ("use", "street"); origin: the part maker as noted,
    the shop's own file, or common practice; unit: that the row was written in, "" for plain
    numbers.
    """

    table: str
    conditions: tuple[tuple[str, str], ...]
    origin: str
    low: float | None = None
    high: float | None = None
    factor: float | None = None
    unit: str = ""


@dataclass(frozen=True)
class Tables:
    """Every material by name, every band by table and conditions, in the order written."""

    materials: Mapping[str, Material]
    bands: Mapping[Key, Band]


_MATERIAL_FIELDS = {
    "name": str, "expansion": float, "range": str, "modulus": float, "density": float,
    "source": str,
}  # fmt: skip
# What a material's figures lie within, whatever it is made of: outside it is a slip of the unit.
_MATERIAL_FIGURES = {
    "expansion": (1e-7, 1e-4, "1/K"),
    "modulus": (1e9, 1e12, "Pa"),
    "density": (500.0, 25e3, "kg/m3"),
}
_BAND_NUMBERS = ("low", "high", "factor")
# A shop's figure may be so many times smaller or larger than any of ours in the same table.
_NEAR = 10.0


@dataclass(frozen=True)
class _Row:
    """A row as written, and where it stands: in which file, of which table, the how many-th."""

    file: TomlFile
    table: str
    number: int
    fields: Mapping[str, Any]

    def fault(self, reason: str, field: str = "") -> TableError:
        """The error for this row, at the line of a field where it has one."""
        line = self.file.line_of(self.table, self.number, *([field] if field else []))
        return TableError(self.file.name, line, f"{field}: {reason}" if field else reason)


def _rows(file: TomlFile) -> dict[str, list[_Row]]:
    """The rows of a file by table."""
    found: dict[str, list[_Row]] = {"material": [], "band": []}
    for name, rows in file.data.items():
        if name not in found or not isinstance(rows, list) or not file.has_head(name):
            reason = f"expected rows headed [[band]] or [[material]], got {name!r}"
            raise TableError(file.name, file.line_of(name), reason)
        found[name] = [_Row(file, name, number, fields) for number, fields in enumerate(rows)]
    return found


def _text(row: _Row, field: str) -> str:
    value = row.fields.get(field)
    if not isinstance(value, str) or not value.strip():
        raise row.fault(f"expected a text, got {value!r}" if value is not None else "is missing",
                        field)  # fmt: skip
    return " ".join(value.split())


def _number(row: _Row, field: str) -> float:
    value = row.fields.get(field)
    if value is None:
        raise row.fault("is missing", field)
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not math.isfinite(value):
        raise row.fault(f"expected a number, got {value!r}", field)
    return float(value)


def _material(row: _Row) -> Material:
    for field in row.fields:
        if field not in _MATERIAL_FIELDS:
            raise row.fault(f"a material has only {', '.join(_MATERIAL_FIELDS)}", field)
    for field, (low, high, unit) in _MATERIAL_FIGURES.items():
        if not low <= _number(row, field) <= high:
            expected = f"expected {low:g} to {high:g} {unit}"
            raise row.fault(f"{expected}, got {_number(row, field):g}", field)
    return Material(
        name=_text(row, "name").lower(),
        expansion=_number(row, "expansion"),
        range=_text(row, "range"),
        modulus=_number(row, "modulus"),
        density=_number(row, "density"),
        source=_text(row, "source"),
    )


def _unit(row: _Row) -> tuple[Kind | None, float]:
    """The kind of a row's figures, None for plain numbers, and their factor to SI."""
    if "unit" not in row.fields:
        return None, 1.0
    try:
        return quantities.unit_named(_text(row, "unit"))
    except quantities.UnreadableText as reason:
        raise row.fault(str(reason), "unit") from None


def _conditions(row: _Row) -> list[str]:
    return [f for f in row.fields if f not in ("table", "origin", "unit", *_BAND_NUMBERS)]


def _figures(row: _Row) -> list[str]:
    return [f for f in _BAND_NUMBERS if f in row.fields]


def _band(row: _Row) -> Band:
    table, origin = _text(row, "table").lower(), _text(row, "origin")
    _, factor = _unit(row)
    numbers = {field: _number(row, field) * factor for field in _figures(row)}
    if not numbers:
        raise row.fault("expected low, high or factor")
    low, high = numbers.get("low", -math.inf), numbers.get("high", math.inf)
    if low > high:
        raise row.fault("expected low to be no higher than high", "low")
    if not low <= numbers.get("factor", low) <= high:
        raise row.fault("expected factor to be from low to high", "factor")
    conditions = tuple((field, _text(row, field).lower()) for field in _conditions(row))
    unit = _text(row, "unit") if "unit" in row.fields else ""
    return Band(table=table, conditions=conditions, origin=origin, unit=unit, **numbers)


def _require_same_form(row: _Row, band: Band, first: _Row) -> None:
    """Refuse a row with other conditions, figures or kind of unit than its table's first row."""
    for names, noun in ((_conditions, "conditions"), (_figures, "figures")):
        expected, found = sorted(names(first)), sorted(names(row))
        if found != expected:
            raise row.fault(
                f"table {band.table!r} has the {noun} {', '.join(expected) or 'none'}; "
                f"this row has {', '.join(found) or 'none'}"
            )
    wanted, kind = _unit(first)[0], _unit(row)[0]
    if (wanted.si if wanted else "") != (kind.si if kind else ""):
        need = f"a unit of {wanted.name}" if wanted else "none, as the figures are plain numbers"
        raise row.fault(f"expected {need}, got {row.fields.get('unit', 'none')!r}", "unit")


def _require_near(row: _Row, band: Band, ours: Iterable[Band]) -> None:
    """Refuse a shop's figure that is far from every figure of ours in the same table."""
    known = [v for b in ours if b.table == band.table for v in (b.low, b.high, b.factor) if v]
    low, high = min(known) / _NEAR, max(known) * _NEAR
    _, factor = _unit(row)
    for field in _BAND_NUMBERS:
        value = getattr(band, field)
        if value is not None and not low <= value <= high:
            expected = f"expected {low / factor:.3g} to {high / factor:.3g}"
            raise row.fault(f"{expected}, got {value / factor:g}", field)


def _merge(files: Iterable[TomlFile]) -> Tables:
    """Tables from files, a later row taking the place of an earlier one.

    The first file with bands says which tables there are, and of what form.
    """
    materials: dict[str, Material] = {}
    bands: dict[Key, Band] = {}
    first: dict[str, _Row] = {}
    for file in files:
        rows = _rows(file)
        fresh: set[object] = set()
        for row in rows["material"]:
            material = _material(row)
            if material.name in fresh:
                raise row.fault(f"a second row for {material.name!r} in this file", "name")
            fresh.add(material.name)
            materials[material.name] = material
        ours = tuple(bands.values())
        for row in rows["band"]:
            band = _band(row)
            if ours and band.table not in first:
                raise row.fault(f"expected one of {', '.join(first)}, got {band.table!r}", "table")
            _require_same_form(row, band, first.setdefault(band.table, row))
            if ours:
                _require_near(row, band, ours)
            key = (band.table, frozenset(band.conditions))
            if key in fresh:
                raise row.fault("a second row for the same conditions in this file")
            fresh.add(key)
            bands[key] = band
    return Tables(materials, bands)


def read_tables(shop: str | Path | None = None) -> Tables:
    """The tables that come with the package, and over them those of a shop's own file.

    Raises TableError with file, line and reason for a row that cannot be used, and for a
    file that cannot be read.
    """
    package = resources.files(__package__)
    files = [
        parse_toml(package.joinpath(name).read_text(encoding="utf-8"), name)
        for name in ("materials.toml", "bands.toml")
    ]
    if shop is not None:
        try:
            files.append(read_toml(shop))
        except SettingsError as error:
            raise TableError(error.file, error.line, error.reason) from None
    return _merge(files)


@cache
def _cached_tables(shop: str | None) -> Tables | TableError:
    try:
        return read_tables(shop)
    except TableError as error:
        return error


def _in_force(shop: str | None) -> Tables:
    read = _cached_tables(shop)
    if isinstance(read, TableError):
        raise read.with_traceback(None)
    return read


def usual_shop_file() -> Path:
    """Where a shop's own file lies for the current user, by the custom of each system."""
    return settings_folder() / "bands.toml"


def shop_file() -> str | None:
    """The shop's own file that is in force, None where there is none."""
    return os.environ.get(SHOP_VARIABLE) or _usual_if_there()


@cache
def _usual_if_there() -> str | None:
    # Looked for once: a table is asked for often.
    try:
        usual = usual_shop_file()
        return str(usual) if usual.is_file() else None
    except (OSError, RuntimeError):
        return None  # Nobody's home, or one that may not be looked into.


def current() -> Tables:
    """The tables in force: ours and those of the shop's own file.

    Raises TableError where that file cannot be used.
    """
    return _in_force(shop_file())


def _at_start() -> Tables:
    # The names of a catalog's choices are fixed when it is loaded. A shop's file with a
    # fault must not keep the whole catalog from loading: it is reported where it is used.
    try:
        return current()
    except TableError:
        return _in_force(None)


def material_names() -> tuple[str, ...]:
    """The materials there are, in the order of the table."""
    return tuple(_at_start().materials)


def words(table: str, field: str) -> tuple[str, ...]:
    """The words that a condition of a band table takes, in the order of its rows."""
    found = [dict(b.conditions)[field] for b in _at_start().bands.values() if b.table == table]
    return tuple(dict.fromkeys(found))


def materials() -> Mapping[str, Material]:
    """{name: material}, in the order of the table."""
    return current().materials


def _material_named(name: str) -> Material:
    try:
        return current().materials[name]
    except KeyError:
        raise ValueError(f"the table of materials has no {name!r}") from None


def expansion(material: str) -> float:
    """Mean linear expansion of a material, 1/K. Raises ValueError for an unknown one."""
    return _material_named(material).expansion


def modulus(material: str) -> float:
    """Young's modulus of a material, Pa. Raises ValueError for an unknown one."""
    return _material_named(material).modulus


def density(material: str) -> float:
    """Density of a material, kg/m3. Raises ValueError for an unknown one."""
    return _material_named(material).density


def find_band(table: str, **conditions: str) -> Band | None:
    """The row of a band table for these conditions (use="street", ring="top"), or None."""
    return current().bands.get((table, frozenset(conditions.items())))


def has_band(table: str, **conditions: str) -> bool:
    """Whether a band table has a row for these conditions."""
    return find_band(table, **conditions) is not None


def _figure(name: str, table: str, conditions: Mapping[str, str]) -> float:
    band = find_band(table, **conditions)
    value = getattr(band, name) if band is not None else None
    if value is None:
        said = ", ".join(f"{field} {word!r}" for field, word in conditions.items())
        raise ValueError(f"the table {table!r} has no {name} for {said}")
    return float(value)


def low(table: str, **conditions: str) -> float:
    """The lower limit of a band, in SI. Raises ValueError where there is none."""
    return _figure("low", table, conditions)


def high(table: str, **conditions: str) -> float:
    """The upper limit of a band, in SI. Raises ValueError where there is none."""
    return _figure("high", table, conditions)


def factor(table: str, **conditions: str) -> float:
    """The factor of a band, in SI. Raises ValueError where there is none."""
    return _figure("factor", table, conditions)


def origin(table: str, **conditions: str) -> str:
    """Who says so. Raises ValueError where the table has no such row."""
    band = find_band(table, **conditions)
    if band is None:
        raise ValueError(f"the table {table!r} has no such row")
    return band.origin
