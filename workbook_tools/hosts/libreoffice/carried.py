"""The Python that travels in the extension: what calls need of this package, and libraries."""

from __future__ import annotations

import ast
import importlib.metadata
import json
import re
from collections.abc import Iterator
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path

import workbook_tools
from workbook_tools.hosts.libreoffice.office import OfficeError

VERSIONS = "libraries.json"

_PACKAGE = "workbook_tools"
_CALLS = f"{_PACKAGE}.catalog"
_DATA = (
    *("catalog/bands.toml", "catalog/materials.toml", "quantities/factors.json"),
    *("measurands/data", "measurands/lexicon/positions.toml"),
)
# What these import from outside the standard library.
_LIBRARIES = ("openpyxl", "platformdirs")
_LEFT_OUT = {"__pycache__", "test", "tests", "testsuite"}
_COMPILED = {".so", ".pyd", ".dylib", ".dll"}


def carried_modules(*sources: bytes) -> Iterator[tuple[str, bytes]]:
    """The modules that calls import, and those that these sources do, with the data they read."""
    here = resources.files(workbook_tools)
    yield f"pythonpath/{_PACKAGE}/__init__.py", here.joinpath("__init__.py").read_bytes()
    found: dict[str, bytes] = {}
    waiting = [_CALLS, *(name for source in sources for name in _imported(source))]
    while waiting:
        parts = waiting.pop().split(".")
        # The package itself brings in what is asked of it only.
        if parts[0] != _PACKAGE or len(parts) == 1:
            continue
        name = "/".join(parts[1:])
        package = here.joinpath(name).is_dir()
        file = f"{name}/__init__.py" if package else f"{name}.py"
        if file in found or not here.joinpath(file).is_file():
            continue  # What is imported may be a name in a module.
        found[file] = here.joinpath(file).read_bytes()
        waiting += [".".join(parts[:-1]), *_imported(found[file])]
    for file, data in found.items():
        yield f"pythonpath/{_PACKAGE}/{file}", data
    for name in _DATA:
        yield from _tree(here.joinpath(name), f"pythonpath/{_PACKAGE}/{name}")


def _imported(source: bytes) -> Iterator[str]:
    """The names of all that a module imports, wherever in it."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module
            yield from (f"{node.module}.{name.name}" for name in node.names)


def _tree(source: Traversable, name: str) -> Iterator[tuple[str, bytes]]:
    if source.is_file():
        yield name, source.read_bytes()
    else:
        for child in source.iterdir():
            yield from _tree(child, f"{name}/{child.name}")


def carried_libraries() -> Iterator[tuple[str, bytes]]:
    """The libraries as they are installed here, with their licenses and a list of versions.

    Raises OfficeError where one is missing, or is not pure Python.
    """
    libraries = _with_requirements(_LIBRARIES)
    versions = {library.name: library.version for library in libraries}
    yield VERSIONS, f"{json.dumps(versions, indent=1)}\n".encode()
    for library in libraries:
        yield from licenses(library)
        yield from _modules(library)


def _with_requirements(names: tuple[str, ...]) -> list[importlib.metadata.Distribution]:
    """The installed distributions of these names and of all that they require."""
    found: dict[str, importlib.metadata.Distribution] = {}
    waiting = list(names)
    while waiting:
        name = re.sub(r"[-_.]+", "-", waiting.pop()).lower()
        if name in found:
            continue
        try:
            found[name] = importlib.metadata.distribution(name)
        except importlib.metadata.PackageNotFoundError:
            raise OfficeError(
                f"the add-in needs the Python package {name}: install it beside workbook-tools"
            ) from None
        for requirement in found[name].requires or ():
            needed, _, marker = requirement.partition(";")
            # Extras are not needed; what depends on another condition is, where it is installed.
            if "extra" in marker or (marker and not _installed(_bare_name(needed))):
                continue
            waiting.append(_bare_name(needed))
    return [found[name] for name in sorted(found)]


def _bare_name(requirement: str) -> str:
    return re.split(r"[^\w.\-]", requirement.strip(), maxsplit=1)[0]


def _installed(name: str) -> bool:
    try:
        importlib.metadata.distribution(name)
    except importlib.metadata.PackageNotFoundError:
        return False
    return True


def _modules(library: importlib.metadata.Distribution) -> Iterator[tuple[str, bytes]]:
    for file in library.files or ():
        if file.suffix in _COMPILED:
            raise OfficeError(f"{file} is compiled: LibreOffice's own Python cannot load it")
        outside = ".." in file.parts or file.parts[0].endswith((".dist-info", ".data"))
        if not outside and file.suffix != ".pyc" and not _LEFT_OUT & set(file.parts):
            yield f"pythonpath/{file.as_posix()}", file.read_binary()


def licenses(library: importlib.metadata.Distribution) -> Iterator[tuple[str, bytes]]:
    """The license files of a distribution, each with its name in the extension."""
    listed = library.metadata.get_all("License-File") or []
    for file in library.files or ():
        named = file.name in {Path(n).name for n in listed} or file.stem in ("LICENSE", "LICENCE")
        if file.parts[0].endswith(".dist-info") and named:
            yield f"licenses/{library.name}/{file.name}", file.read_binary()
