"""The extension as a file: complete, the same each time, and enough for the functions."""

from __future__ import annotations

import ast
import json
import os
import re
import subprocess
import sys
import zipfile
from xml.etree import ElementTree

import pytest
from examples import EXAMPLES, example

from workbook_tools.catalog import calculate, entries, find
from workbook_tools.hosts import libreoffice
from workbook_tools.hosts.libreoffice import carried, type_library

IDL_TYPES = {"[][]any": "sequence< sequence< any > >", "any": "any"}
# A call of each example with only the package's own modules and the standard library.
ALONE = """
import json, sys
sys.path[:] = [p for p in sys.path if "site-packages" not in p and "dist-packages" not in p]
sys.path.insert(0, sys.argv[1])
from workbook_tools.catalog import calculate, find
def plain(v): return tuple(map(plain, v)) if isinstance(v, list) else v
calls = json.load(sys.stdin)
json.dump({n: calculate(find(n), plain(a)).value for n, a in calls.items()}, sys.stdout)
"""


@pytest.fixture(scope="module")
def package(tmp_path_factory):
    return libreoffice.build(tmp_path_factory.mktemp("package") / "functions.oxt")


def test_two_builds_give_the_same_bytes(package, tmp_path):
    assert libreoffice.build(tmp_path / "again.oxt").read_bytes() == package.read_bytes()


def test_what_it_cannot_be_written_to_is_refused(tmp_path):
    book = tmp_path / "job.xlsx"
    book.write_text("somebody's work")
    with pytest.raises(libreoffice.OfficeError, match=r"ends in \.oxt"):
        libreoffice.build(book)
    assert book.read_text() == "somebody's work"
    with pytest.raises(libreoffice.OfficeError, match="cannot be written: No such file"):
        libreoffice.build(tmp_path / "none" / "functions.oxt")


def test_the_manifest_lists_what_libreoffice_has_to_load(package):
    with zipfile.ZipFile(package) as members:
        manifest = ElementTree.fromstring(members.read("META-INF/manifest.xml"))
        path = "{http://openoffice.org/2001/manifest}full-path"
        listed = [entry.get(path) for entry in manifest]
        assert listed == ["types.rdb", "component.py", "menu.py", "CalcAddIns.xcu", "Addons.xcu"]
        assert set(listed) <= set(members.namelist())


def test_every_library_travels_with_its_license(package):
    with zipfile.ZipFile(package) as members:
        names = members.namelist()
    libraries = {re.sub(r"\.py$", "", n.split("/")[1]) for n in names if n.startswith("pythonpath")}
    licensed = {n.split("/")[1].replace("-", "_").lower() for n in names if "/LICEN" in n}
    assert libraries == licensed
    assert {"openpyxl", "platformdirs", "workbook_tools"} <= libraries


def test_the_package_needs_nothing_but_the_standard_library(package, tmp_path):
    with zipfile.ZipFile(package) as members:
        members.extractall(tmp_path)
    calls = {name: example(name, "metric") for name in EXAMPLES}
    alone = subprocess.run(
        [sys.executable, "-I", "-S", "-c", ALONE, str(tmp_path / "pythonpath")],
        input=json.dumps(calls),
        capture_output=True,
        text=True,
        check=False,
    )
    assert alone.returncode == 0, alone.stderr
    here = {name: calculate(find(name), call).value for name, call in calls.items()}
    assert json.loads(alone.stdout) == json.loads(json.dumps(here))


def test_the_component_can_be_read_by_an_old_python(package):
    # An older Python has to get as far as the message that it is too old.
    with zipfile.ZipFile(package) as members:
        ast.parse(members.read("component.py"), feature_version=(3, 7))


def test_a_build_says_which_library_is_missing(monkeypatch, tmp_path):
    monkeypatch.setattr(carried, "_LIBRARIES", ("platformdirs", "No.Such_Library"))
    with pytest.raises(
        libreoffice.OfficeError, match="needs the Python package no-such-library: install it"
    ):
        libreoffice.build(tmp_path / "functions.oxt")
    assert not (tmp_path / "functions.oxt").exists()


@pytest.fixture(scope="module")
def unoidl_write(office):
    """LibreOffice's own compiler of interface definitions, which comes with its SDK."""
    found = office.programs.parent / "sdk" / "bin" / "unoidl-write"
    if not found.exists():
        missing = f"{found} is missing: install the LibreOffice SDK (apt install libreoffice-dev)"
        if os.environ.get("CI") == "true":
            pytest.fail(missing)
        pytest.skip(missing)
    return found


def test_the_type_library_is_what_the_sdk_writes(office, unoidl_write, tmp_path):
    # Source: unoidl-write of the installed LibreOffice SDK.
    methods = "".join(
        f"{IDL_TYPES[type_library.result_type(function)]} {function.name}("
        + ", ".join(
            f"[in] {IDL_TYPES.get(uno_type) or uno_type.replace('.', '::')} {name}"
            for name, uno_type in type_library.method_types(function)
        )
        + ");\n"
        for function in entries()
    )
    interface = f"interface {type_library.INTERFACE} {{\n{methods}}};"
    (tmp_path / "add-in.idl").write_text(f"module {type_library.MODULE} {{ {interface} }};")
    known = [office.programs / "types.rdb", office.programs / "types" / "offapi.rdb"]
    written = tmp_path / "add-in.rdb"
    subprocess.run([unoidl_write, *known, tmp_path / "add-in.idl", written], check=True)
    data = written.read_bytes()
    # The SDK puts its own version behind the header.
    banner = re.match(rb".{16}(\0[^\0]*unoidl-write[^\0]*\0)", data, re.DOTALL)[1]
    assert type_library.type_library(entries(), banner) == data
