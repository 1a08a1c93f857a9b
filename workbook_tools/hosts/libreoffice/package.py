"""Build the LibreOffice extension (.oxt) from the catalog.

Everything that names a function comes from the registry. The package carries the catalog,
the quantities and the pure-Python libraries that these import, each with its license, as
found in the environment that builds. The same environment gives the same bytes; of two
with other libraries only these differ.
"""

from __future__ import annotations

import importlib.metadata
import json
import os
import zipfile
from collections.abc import Iterator, Sequence
from importlib import resources
from pathlib import Path
from xml.sax.saxutils import escape, quoteattr

from workbook_tools.catalog import PREFIX, UNITS_HELP, Function, entries
from workbook_tools.hosts.libreoffice.carried import carried_libraries, carried_modules, licenses
from workbook_tools.hosts.libreoffice.office import OutError
from workbook_tools.hosts.libreoffice.type_library import parameter_types, type_library

IDENTIFIER = "workbooktools.libreoffice"
TITLE = "Worksheet functions for engine builders"
FILE_NAME = "engine-functions.oxt"
MINIMUM_LIBREOFFICE = "7.4"
DISTRIBUTION = "workbook-tools"

_SEEN_CELLS = "seen_cells.py"
_COMPONENT, _TYPES, _FUNCTIONS = "component.py", "types.rdb", "CalcAddIns.xcu"
_MENU, _ENTRIES, _TOOL = "menu.py", "Addons.xcu", "tool.json"
_EARLIEST = (1980, 1, 1, 0, 0, 0)  # the earliest time that a zip can hold

_MANIFEST = f"""<?xml version="1.0" encoding="UTF-8"?>
<manifest:manifest xmlns:manifest="http://openoffice.org/2001/manifest">
 <manifest:file-entry manifest:full-path="{_TYPES}" \
manifest:media-type="application/vnd.sun.star.uno-typelibrary;type=RDB"/>
 <manifest:file-entry manifest:full-path="{_COMPONENT}" \
manifest:media-type="application/vnd.sun.star.uno-component;type=Python"/>
 <manifest:file-entry manifest:full-path="{_MENU}" \
manifest:media-type="application/vnd.sun.star.uno-component;type=Python"/>
 <manifest:file-entry manifest:full-path="{_FUNCTIONS}" \
manifest:media-type="application/vnd.sun.star.configuration-data"/>
 <manifest:file-entry manifest:full-path="{_ENTRIES}" \
manifest:media-type="application/vnd.sun.star.configuration-data"/>
</manifest:manifest>
"""

_DESCRIPTION = f"""<?xml version="1.0" encoding="UTF-8"?>
<description xmlns="http://openoffice.org/extensions/description/2006" \
xmlns:l="http://libreoffice.org/extensions/description/2011">
 <identifier value="{IDENTIFIER}"/>
 <version value="%s"/>
 <display-name><name lang="en">{TITLE} ({PREFIX}.…)</name></display-name>
 <dependencies>
  <l:LibreOffice-minimal-version value="{MINIMUM_LIBREOFFICE}" \
l:name="LibreOffice {MINIMUM_LIBREOFFICE}"/>
 </dependencies>
</description>
"""


def build(path: str | os.PathLike[str], tool: Sequence[str] = ()) -> Path:
    """Write the extension to a file, replacing it, and return the file's path.

    path: the .oxt to write; its folder must exist; tool: the command that starts this program
    where the extension is installed, for what its menu has done by it. Raises OfficeError where
    a library that has to travel is not installed here, or is not pure Python, or the file cannot
    be written.
    """
    members = dict(sorted(_members()))
    if tool:
        members[_TOOL] = json.dumps(list(tool)).encode()
    target = Path(path)
    # LibreOffice takes no other ending for an extension, and a book must not be written over.
    if target.suffix.lower() != ".oxt":
        raise OutError(f"{target}: an extension's name ends in .oxt")
    try:
        with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as package:
            for name, data in members.items():
                member = zipfile.ZipInfo(name, _EARLIEST)
                member.compress_type = zipfile.ZIP_DEFLATED
                member.external_attr = 0o644 << 16
                package.writestr(member, data)
    except OSError as error:
        raise OutError(f"{target}: cannot be written: {error.strerror}") from None
    return target


def _members() -> Iterator[tuple[str, bytes]]:
    functions = list(entries())
    version = importlib.metadata.version(DISTRIBUTION)
    here = resources.files(__package__)
    yield "META-INF/manifest.xml", _MANIFEST.encode()
    yield "description.xml", (_DESCRIPTION % escape(version)).encode()
    yield _TYPES, type_library(functions)
    yield _FUNCTIONS, function_texts(functions).encode()
    component = here.joinpath(_COMPONENT).read_bytes()
    yield _COMPONENT, component
    yield _MENU, here.joinpath(_MENU).read_bytes()
    yield _ENTRIES, menu_entries().encode()
    seen_cells = here.joinpath(_SEEN_CELLS).read_bytes()
    yield f"pythonpath/workbook_tools/formulas/{_SEEN_CELLS}", seen_cells
    yield from licenses(importlib.metadata.distribution(DISTRIBUTION))
    yield from carried_modules(seen_cells, component)
    yield from carried_libraries()


def function_texts(functions: list[Function]) -> str:
    """CalcAddIns.xcu: names, descriptions and argument help, as the function wizard shows them."""
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<oor:component-data xmlns:oor="http://openoffice.org/2001/registry" \
xmlns:xs="http://www.w3.org/2001/XMLSchema" oor:name="CalcAddIns" \
oor:package="org.openoffice.Office">
<node oor:name="AddInInfo"><node oor:name="{PREFIX}" oor:op="replace">
<node oor:name="AddInFunctions">
{"".join(map(_function_node, functions))}</node>
</node></node>
</oor:component-data>
"""


# What the menu offers, in its order: what menu.py calls it, and what is shown.
_OFFERED = (
    ("check", "Check this book"),
    ("summary", "Summary of this book"),
    ("reason", "Explain this cell"),
    ("units", "Switch calls between inch and metric"),
)


def menu_entries() -> str:
    """Addons.xcu: the menu of spreadsheet windows, and what each of its entries calls."""
    entries_told = "".join(
        # LibreOffice shows them in the order of the nodes' names.
        f'<node oor:name="entry{number}" oor:op="replace">'
        f'<prop oor:name="Context"><value>{_CONTEXT}</value></prop>'
        f'<prop oor:name="URL"><value>service:workbooktools.Menu?{name}</value></prop>'
        f'<prop oor:name="Target"><value>_self</value></prop>{_text("Title", title)}</node>\n'
        for number, (name, title) in enumerate(_OFFERED, 1)
    )
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<oor:component-data xmlns:oor="http://openoffice.org/2001/registry" \
xmlns:xs="http://www.w3.org/2001/XMLSchema" oor:name="Addons" \
oor:package="org.openoffice.Office">
<node oor:name="AddonUI"><node oor:name="OfficeMenuBar">
<node oor:name="{IDENTIFIER}.menu" oor:op="replace">{_text("Title", "Engine")}
<prop oor:name="Context"><value>{_CONTEXT}</value></prop>
<node oor:name="Submenu">
{entries_told}</node></node>
</node></node>
</oor:component-data>
"""


_CONTEXT = "com.sun.star.sheet.SpreadsheetDocument"


def _function_node(function: Function) -> str:
    helps = [(p.name, p.help, p.optional) for p in function.parameters]
    if function.takes_units:
        helps.append(("units", UNITS_HELP, True))
    parameters = "".join(
        _parameter_node(inner_name, *texts)
        for (inner_name, _), texts in zip(parameter_types(function), helps, strict=True)
    )
    about = " ".join(filter(None, [function.summary, function.result_help, function.caution]))
    return (
        f'<node oor:name={quoteattr(function.name)} oor:op="replace">'
        + _text("DisplayName", function.full_name)
        + _text("Description", about)
        + '<prop oor:name="Category"><value>Add-In</value></prop>'
        # What other programs write for the function.
        + _text("CompatibilityName", function.full_name, "en-US")
        + f'<node oor:name="Parameters">{parameters}</node></node>\n'
    )


def _parameter_node(inner_name: str, name: str, help_text: str, optional: bool) -> str:
    # LibreOffice finds the texts by the name that the type library gives the parameter.
    # LibreOffice marks only a trailing row of left-out arguments itself, and not in the help.
    if optional and not help_text.startswith("Optional"):
        help_text = f"Optional. {help_text}"
    return (
        f'<node oor:name={quoteattr(inner_name)} oor:op="replace">'
        + _text("DisplayName", name)
        + _text("Description", help_text)
        + "</node>"
    )


def _text(name: str, text: str, language: str = "en") -> str:
    return f'<prop oor:name="{name}"><value xml:lang="{language}">{escape(text)}</value></prop>'
