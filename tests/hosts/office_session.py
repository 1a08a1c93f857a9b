"""Run by LibreOffice's own Python: what a running LibreOffice tells about the add-in, as JSON.

Usage: office_session.py PIPE < {cell: formula} > {"functions": [...], "cells": {...}}
Formulas are entered as typed in a new spreadsheet; the program is ended afterwards.
"""

import json
import sys
import time

import uno


def connected(pipe, seconds=30):
    here = uno.getComponentContext()
    resolver = here.ServiceManager.createInstanceWithContext(
        "com.sun.star.bridge.UnoUrlResolver", here
    )
    end = time.monotonic() + seconds
    while True:
        try:
            return resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
        except Exception:
            if time.monotonic() > end:
                raise
            time.sleep(0.1)


def described(services, context):
    descriptions = services.createInstanceWithContext(
        "com.sun.star.sheet.FunctionDescriptions", context
    )
    for index in range(descriptions.getCount()):
        shown = {item.Name: item.Value for item in descriptions.getByIndex(index)}
        if shown["Name"].startswith("ENG."):
            shown["Arguments"] = [
                {"name": a.Name, "help": a.Description, "optional": a.IsOptional}
                for a in shown["Arguments"]
            ]
            yield shown


def typed(desktop, formulas):
    hidden = uno.createUnoStruct("com.sun.star.beans.PropertyValue")
    hidden.Name, hidden.Value = "Hidden", True
    document = desktop.loadComponentFromURL("private:factory/scalc", "_blank", 0, (hidden,))
    sheet = document.Sheets.getByIndex(0)
    for address, formula in formulas.items():
        sheet.getCellRangeByName(address).setFormula(formula)
    cells = {}
    for address in formulas:
        cell = sheet.getCellRangeByName(address)
        cells[address] = {
            "formula": cell.getFormula(),
            "value": cell.getValue(),
            "text": cell.getString(),
            "error": cell.getError(),
        }
    document.close(False)
    return cells


def main():
    context = connected(sys.argv[1])
    services = context.ServiceManager
    desktop = services.createInstanceWithContext("com.sun.star.frame.Desktop", context)
    try:
        cells = typed(desktop, json.load(sys.stdin))
        functions = list(described(services, context))
        json.dump({"cells": cells, "functions": functions}, sys.stdout)
    finally:
        desktop.terminate()


if __name__ == "__main__":
    main()
