"""Rows of the tables of materials and bands: read from TOML, checked, each with its source.

A shop can add rows or replace some in a TOML file of its own, in the same form; one with the
same conditions takes the place of ours. A table that no function reads, or a figure far from
ours, is a slip and refused.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from importlib import resources
from pathlib import Path
from typing import Any

from workbook_tools import quantities
from workbook_tools.kept_files import own_toml
from workbook_tools.quantities import Kind
from workbook_tools.quantities.nearest import hint, nearest
from workbook_tools.settings.toml_file import SettingsError, TomlFile, parse_toml, read_toml

Key = tuple[str, frozenset[tuple[str, str]]]


class TableError(SettingsError):
    """A row, or a file, that cannot be used: file, line (0 for the whole file), reason."""


@dataclass(frozen=True)
class Material:
    """A material: mean expansion in 1/K over a range, modulus in Pa, density in kg/m3.

    poisson: Poisson's ratio; metals lie between 0.25 and 0.35.
    """

    name: str
    expansion: float
    range: str
    modulus: float
    density: float
    source: str
    poisson: float = 0.3


@dataclass(frozen=True)
class Band:
    """A row of a band table: what holds for a use under some conditions, and who says so.

    low, high: the limits, in SI, or None; factor: a figure to multiply with, in SI, or None;
    conditions: field and word, such as ("use", "street"); origin: the part maker as noted,
    the shop's own file, or common practice; unit: that the row was written in, "" for plain
    numbers, which are per unit of a size. For these: low_base, high_base: what is added, in m;
    sizes: the least and the largest that the row comes from, in m; largest: above which it is
    refused, in m.
    """

    table: str
    conditions: tuple[tuple[str, str], ...]
    origin: str
    low: float | None = None
    high: float | None = None
    factor: float | None = None
    unit: str = ""
    low_base: float = 0.0
    high_base: float = 0.0
    sizes: tuple[float, float] = (0.0, math.inf)
    largest: float = math.inf

    def limits(self, size: float) -> tuple[float, float]:
        """Low and high in SI, for a size in m where the row's figures are per unit of one."""
        low = -math.inf if self.low is None else self.low
        high = math.inf if self.high is None else self.high
        if self.unit:
            return low, high
        return self.low_base + low * size, self.high_base + high * size


@dataclass(frozen=True)
class Use:
    """What an engine is built for: a word of the trade, what it says, and which use's row
    stands in where a table has none for it, "" for no other."""

    name: str
    meaning: str
    like: str = ""


_MOST_REMEMBERED = 1000


@dataclass(frozen=True)
class Tables:
    """Materials and uses by name, bands by table and conditions, in the order written."""

    materials: Mapping[str, Material]
    bands: Mapping[Key, Band]
    uses: Mapping[str, Use]

    @cached_property
    def by_table(self) -> Mapping[str, tuple[Band, ...]]:
        """{table: its rows}, in the order written."""
        names = dict.fromkeys(band.table for band in self.bands.values())
        return {n: tuple(b for b in self.bands.values() if b.table == n) for n in names}

    def outermost(self, table: str, size: float) -> tuple[float, float]:
        """The least and the most that any row of a table allows, in SI, for a size in m."""
        found = self._outermost.get((table, size))
        if found is None:
            bands = [band.limits(size) for band in self.by_table[table]]
            found = min(low for low, _ in bands), max(high for _, high in bands)
            # The cylinders of an engine have the same few sizes; those of all engines are many.
            if len(self._outermost) >= _MOST_REMEMBERED:
                self._outermost.clear()
            self._outermost[table, size] = found
        return found

    @cached_property
    def _outermost(self) -> dict[tuple[str, float], tuple[float, float]]:
        return {}


_MATERIAL_FIELDS = {
    "name": str, "expansion": float, "range": str, "modulus": float, "density": float,
    "source": str, "poisson": float,
}  # fmt: skip
# What a material's figures lie within, whatever it is made of: outside it is a slip of the unit.
_MATERIAL_FIGURES = {
    "expansion": (1e-7, 1e-4, "1/K"),
    "modulus": (1e9, 1e12, "Pa"),
    "density": (500.0, 25e3, "kg/m3"),
}
_POISSON = {"poisson": (0.0, 0.5, "")}
_BAND_NUMBERS = ("low", "high", "factor")
# What a row may have besides, where its figures are per unit of a size: lengths with their unit.
_BASES = ("low_base", "high_base")
_SIZED = (*_BASES, "sizes", "largest")
_BAND_KEYS = ("table", "origin", "unit", *_BAND_NUMBERS, *_SIZED, "use")
_LARGEST_BASE = 2e-3  # m
_USE_FIELDS = ("name", "like", "meaning")
# A shop's figure may be so many times smaller or larger than any of ours in the same table.
_NEAR = 10.0
# How much alike a word for a use and another are that is a slip of it.
_SLIP = 0.8


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
    found: dict[str, list[_Row]] = {"material": [], "band": [], "use": []}
    for name, rows in file.data.items():
        if name not in found or not isinstance(rows, list) or not file.has_head(name):
            reason = f"expected rows headed [[band]], [[use]] or [[material]], got {name!r}"
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
            raise row.fault(f"no such key of a material; {hint(field, _MATERIAL_FIELDS)}", field)
    figures = _MATERIAL_FIGURES | (_POISSON if "poisson" in row.fields else {})
    for field, (low, high, unit) in figures.items():
        if not low <= _number(row, field) <= high:
            expected = f"expected {low:g} to {high:g} {unit}".rstrip()
            raise row.fault(f"{expected}, got {_number(row, field):g}", field)
    return Material(
        name=_text(row, "name").lower(),
        expansion=_number(row, "expansion"),
        range=_text(row, "range"),
        modulus=_number(row, "modulus"),
        density=_number(row, "density"),
        source=_text(row, "source"),
        poisson=_number(row, "poisson") if "poisson" in row.fields else Material.poisson,
    )


def _unit(row: _Row) -> tuple[Kind | None, float]:
    """The kind of a row's figures, None for plain numbers, and their factor to SI."""
    if "unit" not in row.fields:
        return None, 1.0
    try:
        return quantities.unit_named(_text(row, "unit"))
    except quantities.UnreadableText as reason:
        raise row.fault(str(reason), "unit") from None


def _length(row: _Row, field: str, value: object) -> float:
    """A length in m, written as a text with its unit."""
    try:
        if isinstance(value, str) and quantities.reading_unit(value, "metric"):
            return quantities.read_text(value, quantities.LENGTH, "metric")
    except quantities.UnreadableText as reason:
        raise row.fault(str(reason), field) from None
    raise row.fault(f'expected a length with its unit, such as "0.02 mm", got {value!r}', field)


def _sized(row: _Row) -> dict[str, Any]:
    """What a row has besides its figures: bases, sizes, the largest size."""
    given = [f for f in _SIZED if f in row.fields]
    if given and "unit" in row.fields:
        raise row.fault("stands only with figures per unit of a size, which have no unit", given[0])
    found: dict[str, Any] = {f: _length(row, f, row.fields[f]) for f in given if f != "sizes"}
    for base in (f for f in _BASES if abs(found.get(f, 0.0)) > _LARGEST_BASE):
        raise row.fault(f"expected at most 2 mm, got {row.fields[base]!r}", base)
    if "sizes" in given:
        ends = row.fields["sizes"]
        if not isinstance(ends, list) or len(ends) != 2:
            raise row.fault(f"expected the least and the largest, got {ends!r}", "sizes")
        least, most = (_length(row, "sizes", end) for end in ends)
        if least > most:
            raise row.fault("expected the least before the largest", "sizes")
        found["sizes"] = (least, most)
    return found


def _use(row: _Row) -> Use:
    for field in row.fields:
        if field not in _USE_FIELDS:
            raise row.fault(f"no such key of a use; {hint(field, _USE_FIELDS)}", field)
    like = _text(row, "like").lower() if "like" in row.fields else ""
    return Use(_text(row, "name").lower(), _text(row, "meaning"), like)


def _conditions(row: _Row) -> list[str]:
    return [f for f in row.fields if f not in ("table", "origin", "unit", *_BAND_NUMBERS, *_SIZED)]


def _figures(row: _Row) -> list[str]:
    return [f for f in _BAND_NUMBERS if f in row.fields]


def _band(row: _Row) -> Band:
    table, origin = _text(row, "table").lower(), _text(row, "origin")
    _, factor = _unit(row)
    numbers: dict[str, Any] = {f: _number(row, f) * factor for f in _figures(row)}
    if not numbers:
        raise row.fault("expected low, high or factor")
    for field in _conditions(row):
        if field not in _BAND_KEYS and not isinstance(row.fields[field], str):
            raise row.fault(f"no such key of a band; {hint(field, _BAND_KEYS)}", field)
    conditions = tuple((field, _text(row, field).lower()) for field in _conditions(row))
    unit = _text(row, "unit") if "unit" in row.fields else ""
    sized = _sized(row)
    band = Band(
        table=table, conditions=conditions, origin=origin, unit=unit, **numbers, **sized
    )  # fmt: skip
    _require_order(row, band)
    return band


def _require_order(row: _Row, band: Band) -> None:
    """Refuse a row with limits or a factor out of order, at either end of its sizes."""
    ends = [size for size in band.sizes if 0 < size < math.inf] or [1.0]
    for size in ends:
        low, high = band.limits(size)
        if low > high:
            raise row.fault("expected low to be no higher than high", "low")
        figure = low if band.factor is None else band.factor * (1.0 if band.unit else size)
        if not low <= figure <= high:
            raise row.fault("expected factor to be from low to high", "factor")


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
    rows = [b for b in ours if b.table == band.table]
    # What is added to a figure takes its place: such a row says less about what figures can be.
    plain = [b for b in rows if not b.low_base and not b.high_base] or rows
    known = [v for b in plain for v in (b.low, b.high, b.factor) if v]
    low, high = min(known) / _NEAR, max(known) * _NEAR
    _, factor = _unit(row)
    for field in _BAND_NUMBERS:
        value = getattr(band, field)
        if value is not None and not low <= value <= high:
            expected = f"expected {low / factor:.3g} to {high / factor:.3g}"
            raise row.fault(f"{expected}, got {value / factor:g}", field)


def _merge(files: Sequence[TomlFile]) -> Tables:
    """Tables from files, a later row taking the place of an earlier one.

    The first file with bands says which tables there are, and of what form.
    """
    materials: dict[str, Material] = {}
    bands: dict[Key, Band] = {}
    uses: dict[str, Use] = {}
    first: dict[str, _Row] = {}
    made: list[tuple[_Row, Band]] = []
    every = [_rows(file) for file in files]
    for rows in every:
        fresh: set[object] = set()
        for row in rows["material"]:
            material = _material(row)
            if material.name in fresh:
                raise row.fault(f"a second row for {material.name!r} in this file", "name")
            fresh.add(material.name)
            materials[material.name] = material
        uses |= {use.name: use for use in map(_use, rows["use"])}
        ours = tuple(bands.values())
        for row in rows["band"]:
            band = _band(row)
            if ours and band.table not in first:
                raise row.fault(f"no table {band.table!r}; {hint(band.table, first)}", "table")
            _require_same_form(row, band, first.setdefault(band.table, row))
            if ours:
                _require_near(row, band, ours)
            key = (band.table, frozenset(band.conditions))
            if key in fresh:
                raise row.fault("a second row for the same conditions in this file")
            fresh.add(key)
            bands[key] = band
            made.append((row, band))
    _require_known_uses([row for rows in every for row in rows["use"]], uses)
    _require_no_slip(made, uses)
    return Tables(materials, bands, uses)


def _require_known_uses(rows: Iterable[_Row], uses: Mapping[str, Use]) -> None:
    """Refuse a use that is like one that there is not."""
    for row in rows:
        like = _use(row).like
        if like and like not in uses:
            raise row.fault(f"no use {like!r}; {hint(like, uses)}", "like")


def _require_no_slip(made: Iterable[tuple[_Row, Band]], uses: Mapping[str, Use]) -> None:
    """Refuse a band for a use that is spelled almost like a known one: nothing would go by it."""
    for row, band in made:
        use = dict(band.conditions).get("use", "")
        near = nearest(use, uses, _SLIP) if use and use not in uses else ""
        if near:
            told = f"no use {use!r}; the nearest is {near}; one of your own needs a [[use]] row"
            raise row.fault(told, "use")


def read_tables(shop: str | Path | None = None) -> Tables:
    """The tables that come with the package, and over them those of a shop's own file.

    Raises TableError with file, line and reason for a row that cannot be used, and for a
    file that cannot be read.
    """
    package = resources.files(__package__)
    files = [
        parse_toml(package.joinpath(name).read_text(encoding="utf-8"), name, own_toml)
        for name in ("materials.toml", "bands.toml")
    ]
    if shop is not None:
        try:
            files.append(read_toml(shop))
        except SettingsError as error:
            raise TableError(error.file, error.line, error.reason) from None
    return _merge(files)
