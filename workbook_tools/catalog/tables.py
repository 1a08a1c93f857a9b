"""Tables of materials and bands: TOML beside the code, each row with its source."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any


@dataclass(frozen=True)
class Material:
    """A material: mean expansion in 1/K over a range, modulus in Pa, density in kg/m3."""

    name: str
    expansion: float
    range: str
    modulus: float
    density: float
    source: str


def _rows(file_name: str, table: str) -> list[dict[str, Any]]:
    text = resources.files(__package__).joinpath(file_name).read_text(encoding="utf-8")
    rows: list[dict[str, Any]] = tomllib.loads(text)[table]
    return rows


@cache
def materials() -> dict[str, Material]:
    """{name: material}, in the order of the table."""
    return {row["name"]: Material(**row) for row in _rows("materials.toml", "material")}
