"""The add-in's menu in LibreOffice Calc: what each of its entries does.

This file travels in the extension beside `component.py`, and is executed during installation
too. Checks and summaries are made by the installed program workbook-tools, on a copy of the
document; where it is was written down when the add-in was installed.
"""

from __future__ import annotations

import contextlib
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
import webbrowser
from typing import Any

import uno
import unohelper
from com.sun.star.awt import XItemListener, XTopWindowListener
from com.sun.star.lang import XServiceInfo
from com.sun.star.task import XJobExecutor

SERVICE = "workbooktools.Menu"
_TITLE = "Engine functions"
_SECONDS = 180
# Exit codes of workbook-tools: done, and done with findings.
_DONE = (0, 1)
_here = os.path.dirname(__file__)
# Windows that are open, which would vanish if nothing referred to them.
_windows: list[Any] = []


class _Told(Exception):
    """What keeps an entry from being done, in words for the user."""


def _tool() -> list[str]:
    """The command that starts workbook-tools."""
    try:
        with open(os.path.join(_here, "tool.json"), encoding="utf-8") as file:
            command: list[str] = json.load(file)
    except OSError:
        raise _Told(
            "This needs the program workbook-tools on this computer. Install it, then run\n"
            "workbook-tools libreoffice install"
        ) from None
    if not os.path.exists(command[0]):
        raise _Told(
            f"The program workbook-tools is no longer at {command[0]}. Where it is installed "
            "now, run\n"
            "workbook-tools libreoffice install"
        )
    return command


def _run(words: list[str]) -> str:
    """What workbook-tools prints. Raises _Told where it could not do what was asked."""
    # The Python inside LibreOffice must not reach the one that runs the tool.
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "LD_LIBRARY"))}
    try:
        done = subprocess.run(
            [*_tool(), *words],
            capture_output=True,
            timeout=_SECONDS,
            env={**kept, "PYTHONUTF8": "1"},
            check=False,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
    except subprocess.TimeoutExpired:
        raise _Told(f"workbook-tools did not finish within {_SECONDS} seconds.") from None
    if done.returncode not in _DONE:
        said = done.stderr.decode("utf-8", "replace").strip()
        raise _Told(f"workbook-tools could not read this book.\n{said}")
    return done.stdout.decode("utf-8", "replace")


def _path(document: Any) -> str:
    """Where a document is kept, "" where it was never saved."""
    url = document.getURL()
    return uno.fileUrlToSystemPath(url) if url.startswith("file:") else ""


def _copied(document: Any, folder: str) -> str:
    """A copy of the document as it is on the screen, saved or not, with the settings it has."""
    own = _path(document)
    name = os.path.basename(own) or document.getTitle() or "book"
    stem = re.sub(r"[^\w .-]", "_", os.path.splitext(name)[0])
    path = os.path.join(folder, f"{stem}.ods")
    how = uno.createUnoStruct("com.sun.star.beans.PropertyValue")
    how.Name, how.Value = "FilterName", "calc8"
    document.storeToURL(uno.systemPathToFileUrl(path), (how,))
    if own:
        _copy_settings(os.path.dirname(own), folder)
    return path


def _copy_settings(beside: str, folder: str) -> None:
    """Copy what the program would find for the document: settings, and the shop's logo."""
    found = {}
    for name in ("layout.toml", "accepted.toml", "shop.toml", "bands.toml"):
        # From the document's folder up to the user's home, the nearest one.
        paths = (os.path.join(at, name) for at in _folders_up(os.path.realpath(beside)))
        path = next(filter(os.path.isfile, paths), None)
        if path is not None:
            found[name] = path
            shutil.copyfile(path, os.path.join(folder, name))
    with contextlib.suppress(OSError, ValueError, KeyError, TypeError):  # Told by the program.
        shop = os.path.dirname(found["shop.toml"])
        with open(found["shop.toml"], "rb") as file:
            path = os.path.join(shop, tomllib.load(file)["logo"])
        # One that lies elsewhere is not used.
        inside = os.path.relpath(path, shop)
        if os.path.isfile(path) and not inside.startswith(os.pardir):
            os.makedirs(os.path.join(folder, os.path.dirname(inside)), exist_ok=True)
            shutil.copyfile(path, os.path.join(folder, inside))


def _folders_up(folder: str) -> list[str]:
    """A folder and those above it up to the user's home; itself where it is not in there."""
    home = os.path.realpath(os.path.expanduser("~"))
    up = [folder]
    while up[-1] != home and up[-1] != os.path.dirname(up[-1]):
        up.append(os.path.dirname(up[-1]))
    return up if up[-1] == home != os.path.dirname(home) else [folder]


def check(context: Any, document: Any) -> None:
    """Check the document and list what was found, each with its cell."""
    with tempfile.TemporaryDirectory() as folder:
        told = json.loads(_run(["check", _copied(document, folder), "--format", "json"]))
    found = told["findings"]
    numbers = (
        f"Checked: {_count(told['results'], 'result')}, {_count(told['readings'], 'reading')}."
    )
    if not found:
        _show(context, document, f"No findings. {numbers}")
        return
    accepted = sum(finding["accepted"] for finding in found)
    listed = _count(len(found) - accepted, "finding")
    listed += f", {accepted} more accepted. " if accepted else ". "
    _show(context, document, f"{listed}{numbers} Select one to go to its cell.", found)


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def summary(_context: Any, document: Any) -> None:
    """Write the summary of the document and open it in the browser."""
    out = tempfile.mkdtemp(prefix="summary-")
    with tempfile.TemporaryDirectory() as folder:
        _run(["summarize", _copied(document, folder), "--out", out])
    pages = sorted(name for name in os.listdir(out) if name.endswith(".html"))
    own = [name for name in pages if name != "index.html"]
    page = os.path.join(out, own[0] if len(own) == 1 else "index.html")
    webbrowser.open(uno.systemPathToFileUrl(page))


def reason(context: Any, document: Any) -> None:
    """Say why the selected cell shows an error, or what its call is."""
    selected = document.getCurrentSelection()
    if not hasattr(selected, "getCellByPosition"):
        raise _Told("Select a single cell first.")
    with _own_modules():
        from workbook_tools.formulas.seen_cells import reason_of
    _show(context, document, reason_of(context, document, selected.getCellByPosition(0, 0)))


def units(context: Any, document: Any) -> None:
    """Write "metric" into the calls of the selected cells, or take it out where all have it."""
    selected = document.getCurrentSelection()
    if not hasattr(selected, "queryContentCells"):
        raise _Told("Select the cells with the calls first.")
    with _own_modules():
        from workbook_tools.formulas.seen_cells import change_units
    changed, system = change_units(document, selected)
    if not changed:
        raise _Told("None of the selected cells has a call that takes units.")
    cells = _count(changed, "cell")
    _show(context, document, f"Changed the calls in {cells}: bare numbers are {system} now.")


_ENTRIES = {"check": check, "summary": summary, "reason": reason, "units": units}


@contextlib.contextmanager
def _own_modules() -> Any:
    """Imports of what travels with this file, whichever others Python might find first."""
    folder = os.path.join(_here, "pythonpath")
    sys.path.insert(0, folder)
    try:
        yield
    finally:
        sys.path.remove(folder)


class _Chosen(unohelper.Base, XItemListener):  # type: ignore[misc]
    """Goes to the cell of a finding that is chosen, and shows it whole."""

    def __init__(self, document: Any, found: list[dict[str, Any]], text: Any) -> None:
        self.document, self.found, self.text = document, found, text

    def itemStateChanged(self, event: Any) -> None:
        one = self.found[event.Selected]
        self.text.setText(f"{one['message']}\n\n{one['advice']}\n\n{one['kind']} ({one['code']})")
        if one["sheet"]:
            sheet = self.document.Sheets.getByName(one["sheet"])
            view = self.document.getCurrentController()
            view.setActiveSheet(sheet)
            view.select(sheet.getCellRangeByName(one["cell"]))

    def disposing(self, _event: Any) -> None:
        self.document = None


class _Closing(unohelper.Base, XTopWindowListener):  # type: ignore[misc]
    """Takes a window away when it is closed."""

    def __init__(self, dialog: Any) -> None:
        self.dialog = dialog

    def windowClosing(self, _event: Any) -> None:
        _windows.remove(self.dialog)
        self.dialog.dispose()

    def windowOpened(self, _event: Any) -> None: ...
    def windowClosed(self, _event: Any) -> None: ...
    def windowMinimized(self, _event: Any) -> None: ...
    def windowNormalized(self, _event: Any) -> None: ...
    def windowActivated(self, _event: Any) -> None: ...
    def windowDeactivated(self, _event: Any) -> None: ...
    def disposing(self, _event: Any) -> None: ...


def _control(dialog: Any, kind: str, name: str, area: tuple[int, ...], **said: Any) -> None:
    model = dialog.createInstance(f"com.sun.star.awt.UnoControl{kind}Model")
    model.PositionX, model.PositionY, model.Width, model.Height = area
    model.Name = name
    for key, value in said.items():
        setattr(model, key, value)
    dialog.insertByName(name, model)


def _show(
    context: Any, document: Any, text: str, found: list[dict[str, Any]] | None = None
) -> None:
    """A window beside the document, which stays open while work goes on in the sheet."""
    services = context.ServiceManager
    model = services.createInstanceWithContext("com.sun.star.awt.UnoControlDialogModel", context)
    model.Title, model.Closeable, model.Moveable, model.Sizeable = _TITLE, True, True, False
    # Below the list of findings, which stays open while their cells are looked at.
    across, down, high = (40, 40, 190) if found else (60, 240, 80)
    model.PositionX, model.PositionY, model.Width, model.Height = across, down, 300, high
    about = (6, 6, 288, 18 if found else 68)
    # As a label of the list it would have a letter underlined.
    _control(model, "FixedText", "about", about, Label=text, MultiLine=True, NoLabel=True)
    if found:
        lines = tuple(
            f"{f['sheet']}.{f['cell']}  {f['kind']}" if f["sheet"] else f"book  {f['kind']}"
            for f in found
        )
        _control(model, "ListBox", "found", (6, 26, 110, 158), StringItemList=lines)
        more = {"MultiLine": True, "ReadOnly": True, "VScroll": True}
        _control(model, "Edit", "more", (120, 26, 174, 158), **more)
    dialog = services.createInstanceWithContext("com.sun.star.awt.UnoControlDialog", context)
    dialog.setModel(model)
    window = document.getCurrentController().getFrame().getContainerWindow()
    toolkit = services.createInstanceWithContext("com.sun.star.awt.Toolkit", context)
    dialog.createPeer(toolkit, window)
    if found:
        dialog.getControl("found").addItemListener(
            _Chosen(document, found, dialog.getControl("more"))
        )
    dialog.addTopWindowListener(_Closing(dialog))
    _windows.append(dialog)
    dialog.setVisible(True)


class Menu(unohelper.Base, XJobExecutor, XServiceInfo):  # type: ignore[misc]
    """What LibreOffice calls for each entry of the menu."""

    def __init__(self, context: Any, *_: Any) -> None:
        self._context = context

    def trigger(self, entry: str) -> None:
        """Do what an entry says for the document in front."""
        services = self._context.ServiceManager
        desktop = services.createInstanceWithContext("com.sun.star.frame.Desktop", self._context)
        document = desktop.getCurrentComponent()
        if document is None or not hasattr(document, "Sheets"):
            return
        try:
            _ENTRIES[entry](self._context, document)
        except _Told as told:
            _show(self._context, document, str(told))

    def getImplementationName(self) -> str:
        """The name under which the object is registered."""
        return SERVICE

    def supportsService(self, name: str) -> bool:
        """Whether the object is the service of this name."""
        return name == SERVICE

    def getSupportedServiceNames(self) -> tuple[str, ...]:
        """The one service, which the menu names."""
        return (SERVICE,)


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Menu, SERVICE, (SERVICE,))
