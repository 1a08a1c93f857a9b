"""Run by LibreOffice's own Python: what the add-in's menu does with a book, as JSON.

Usage: menu_session.py PIPE < {"book": PATH} > {"check": [...], ...}
"""

import json
import os
import sys
import time

import uno
from office_session import connected

LIST, LABEL = 33, 30  # com.sun.star.accessibility.AccessibleRole


def parts(window, depth=6):
    """(role, name, context) of a window's parts."""
    context = window.getAccessibleContext()
    yield context.getAccessibleRole(), context.getAccessibleName(), context
    for index in range(context.getAccessibleChildCount() if depth else 0):
        yield from parts(context.getAccessibleChild(index), depth - 1)


class Session:
    def __init__(self, context, path):
        services = context.ServiceManager

        def service(name):
            return services.createInstanceWithContext(f"com.sun.star.{name}", context)

        self.desktop, self.toolkit = service("frame.Desktop"), service("awt.Toolkit")
        self.dispatcher = service("frame.DispatchHelper")
        url = uno.systemPathToFileUrl(path)
        self.document = self.desktop.loadComponentFromURL(url, "_blank", 0, ())
        self.view = self.document.getCurrentController()
        packages = context.getByName(
            "/singletons/com.sun.star.deployment.PackageInformationProvider"
        )
        place = packages.getPackageLocation("workbooktools.libreoffice")
        self.extension = uno.fileUrlToSystemPath(place)
        self.merged = service("configuration.ConfigurationProvider")

    def cells(self, address):
        return self.document.Sheets.getByIndex(0).getCellRangeByName(address)

    def choose(self, entry):
        """Choose an entry of the menu, and return the window that it shows, if any."""
        before = self.windows()
        frame = self.view.getFrame()
        self.dispatcher.executeDispatch(frame, f"service:workbooktools.Menu?{entry}", "", 0, ())
        new = [window for window in self.windows() if window not in before]
        return new[0] if new else None

    def windows(self):
        return [self.toolkit.getTopWindow(i) for i in range(self.toolkit.getTopWindowCount())]

    def entries(self):
        """The titles and addresses in the menu, as LibreOffice has them."""
        where = uno.createUnoStruct("com.sun.star.beans.PropertyValue")
        where.Name = "nodepath"
        where.Value = "/org.openoffice.Office.Addons/AddonUI/OfficeMenuBar"
        menus = self.merged.createInstanceWithArguments(
            "com.sun.star.configuration.ConfigurationAccess", (where,)
        )
        menu = menus.getByName("workbooktools.libreoffice.menu").getByName("Submenu")
        return [[menu.getByName(n).Title, menu.getByName(n).URL] for n in menu.getElementNames()]


def said(window):
    return max((name for role, name, _ in parts(window) if role == LABEL), key=len)


def main():
    told = json.load(sys.stdin)
    session = Session(connected(sys.argv[1]), told["book"])
    try:
        json.dump(done(session, told), sys.stdout)
    finally:
        session.desktop.terminate()
    # All is told. To take apart the bridge to a program that is ending may end in a crash.
    sys.stdout.flush()
    os._exit(0)


def done(session, told):
    found = {"entries": session.entries()}
    window = session.choose("check")
    found["checked"] = said(window)
    listed = [(name, context) for role, name, context in parts(window) if role == LIST]
    found["listed"] = [name for name, _ in listed]
    index = next(i for i, name in enumerate(found["listed"]) if "missing" in name)
    box = listed[index][1].getAccessibleParent().getAccessibleContext()
    box.selectAccessibleChild(index)
    time.sleep(0.5)
    found["selected"] = session.document.getCurrentSelection().AbsoluteName
    session.view.select(session.cells("B3"))
    found["reason"] = said(session.choose("reason"))
    found["units"] = []
    for _ in range(2):
        session.view.select(session.cells("B1:B5"))
        window = session.choose("units")
        formulas = [session.cells(a).getFormula() for a in ("B3", "B4", "B5")]
        found["units"].append([said(window), *formulas])
    session.view.select(session.cells("A1"))
    found["no units"] = said(session.choose("units"))
    session.choose("summary")
    tool = os.path.join(session.extension, "tool.json")
    os.rename(tool, tool + ".away")
    try:
        found["no tool"] = said(session.choose("check"))
    finally:
        os.rename(tool + ".away", tool)
    session.document.setModified(False)
    return found


main()
