"""Tables of materials and bands: what holds for a material, or for a use, and who says so.

The rows are TOML beside the code, and a shop's own: bands.toml in the user's folder of
settings, or the file that the environment variable WORKBOOK_TOOLS_BANDS names. A use that a
table has no row for goes by the row of the use that it is like.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from workbook_tools.catalog.table_rows import (
    Band,
    Material,
    TableError,
    Tables,
    read_tables,
)
from workbook_tools.settings.folders import bands_file

# What is added to an origin where a row is scaled to smaller or larger parts, and what is
# expected where only a shop's row of another table brings a use.
BEYOND = "; beyond the sizes that it comes from"
TOO_LARGE = 'a bore of 125 mm (4.92 in) at most for air cooled; for larger ones give "aircraft"'
NO_ROW = "a use of this table; a shop's own use needs a [[use]] row that says which it is like"


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


def current() -> Tables:
    """The tables in force: ours and those of the shop's own file.

    Raises TableError where that file cannot be used.
    """
    return _in_force(bands_file())


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


def use_names() -> tuple[str, ...]:
    """Every word for a use, in the order of the table; every table of bands takes them all.

    A shop's row may bring a word of its own, which only its table has.
    """
    tables = _at_start()
    rows = (dict(band.conditions).get("use") for band in tables.bands.values())
    return tuple(dict.fromkeys([*tables.uses, *filter(None, rows)]))


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


def poisson(material: str) -> float:
    """Poisson's ratio of a material. Raises ValueError for an unknown one."""
    return _material_named(material).poisson


def density(material: str) -> float:
    """Density of a material, kg/m3. Raises ValueError for an unknown one."""
    return _material_named(material).density


def find_band(table: str, **conditions: str) -> Band | None:
    """The row of a band table for these conditions (use="street", ring="top"), or None.

    For a use that the table has no row for it is the row of the use that this one is like.
    """
    tables = current()
    use: str | None = conditions.get("use")
    tried: set[str] = set()
    while True:
        found = tables.bands.get((table, frozenset(conditions.items())))
        if found is not None or use is None or use not in tables.uses:
            return found
        tried.add(use)
        use = tables.uses[use].like
        if not use or use in tried:
            return None
        conditions = {**conditions, "use": use}


def has_band(table: str, **conditions: str) -> bool:
    """Whether a band table has a row for these conditions."""
    return find_band(table, **conditions) is not None


def _row(table: str, conditions: Mapping[str, str]) -> Band:
    band = find_band(table, **conditions)
    if band is None:
        raise ValueError(f"the table {table!r} has no such row")
    return band


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


def row(table: str, **conditions: str) -> int:
    """Which row of its table a band is, from 1, that of a use that stands in counted too.

    Raises ValueError where the table has no such row.
    """
    return _rows_of(table).index(_row(table, conditions)) + 1


def _rows_of(table: str) -> tuple[Band, ...]:
    return current().by_table[table]


def figure(table: str, row: int, name: str) -> float:
    """A figure of a row: low, high, their bases, and the sizes that it is for, in SI.

    Sizes without an end go to a kilometer.
    """
    band = _rows_of(table)[row - 1]
    least, most = band.sizes
    found = {"least_size": least, "most_size": most}
    value = found[name] if name in found else getattr(band, name)
    return min(float(value), 1000.0)


def word(table: str, row: int, name: str) -> str:
    """A word of a row: its origin, or one of its conditions."""
    band = _rows_of(table)[row - 1]
    return band.origin if name == "origin" else dict(band.conditions)[name]


def told(band: Band, use: str, size: float | None) -> str:
    """The origin of a row, with what else is to be said where it stands in or is scaled."""
    stands_in = dict(band.conditions).get("use", use)
    standing = "" if stands_in == use else f"; as for {stands_in}"
    beyond = size is not None and not band.sizes[0] <= size <= band.sizes[1]
    return f"{band.origin}{standing}{BEYOND if beyond else ''}"
