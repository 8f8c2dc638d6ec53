"""Opens spreadsheets in a running LibreOffice and tells what stands in their cells.

Arguments: the name of the office's pipe. A request is a line of JSON on standard input, its answer one on standard
output. When standard input ends, the office is told to end too. Sheets have 26 columns at most.

A request: {"file": path or null for a new document, "locale": "de-DE", "enter": [[cell, content], …],
"link": {"cell", "address", "options"} or null, "tell": "values" | "shown" | "heights"}. Content is a number, or text as a
person types it, formulas in the grammar of the locale. The answer: {"sheets": {name: {cell: {"kind": "number" | "text" |
"error", "value"}}}}, or {"failed": reason}. The value of an error is what the cell shows, and so is every value of
"shown"; cells that show nothing are left out. "heights" tells of each row, by its number, how much higher it is than what
it holds, in hundredths of a millimetre.
"""

import json
import sys
import time
from string import ascii_uppercase

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

FULL_UPDATE = 3  # com.sun.star.document.UpdateDocMode
CSV_FILTER = "Text - txt - csv (StarCalc)"
LONGEST_START_S = 60


def named(name, value):
    pair = PropertyValue()
    pair.Name, pair.Value = name, value
    return pair


def connected(pipe):
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
    give_up = time.monotonic() + LONGEST_START_S
    while True:
        try:
            return resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
        except NoConnectException:
            if time.monotonic() > give_up:
                raise
            time.sleep(0.05)


def change_setting(context, node, name, value):
    provider = context.ServiceManager.createInstanceWithContext(
        "com.sun.star.configuration.ConfigurationProvider", context
    )
    settings = provider.createInstanceWithArguments(
        "com.sun.star.configuration.ConfigurationUpdateAccess", (named("nodepath", node),)
    )
    settings.setPropertyValue(name, value)
    settings.commitChanges()


def set_locale(context, locale):
    change_setting(context, "/org.openoffice.Setup/L10N", "ooSetupSystemLocale", locale)
    # Follows from the locale, but only when the office starts.
    separator = "," if locale.startswith("en") else ";"
    change_setting(context, "/org.openoffice.Office.Calc/Formula/Syntax", "SeparatorArg", separator)


def cell_at(document, place):
    sheet, _, address = place.rpartition(".")
    sheets = document.Sheets
    return (sheets.getByName(sheet) if sheet else sheets.getByIndex(0)).getCellRangeByName(address).getCellByPosition(0, 0)


def enter(cell, content):
    if isinstance(content, str):
        cell.FormulaLocal = content
        cell.getString()  # Worked out at once, as a window would show it.
    else:
        cell.setValue(content)


def told(sheet, row, column, value, as_shown):
    kind = "text" if isinstance(value, str) else "number" if isinstance(value, float) else "error"
    shown = kind == "error" or as_shown
    return {"kind": kind, "value": sheet.getCellByPosition(column, row).getString() if shown else value}


def spare_height(row):
    height = row.Height
    row.OptimalHeight = True
    return {"kind": "number", "value": height - row.Height}


def told_of(sheet, tell):
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    end = cursor.RangeAddress
    if tell == "heights":
        return {str(row + 1): spare_height(sheet.Rows.getByIndex(row)) for row in range(end.EndRow + 1)}
    rows = sheet.getCellRangeByPosition(0, 0, end.EndColumn, end.EndRow).getDataArray()
    return {
        f"{ascii_uppercase[column]}{row + 1}": told(sheet, row, column, value, tell == "shown")
        for row, values in enumerate(rows)
        for column, value in enumerate(values)
        if value != ""
    }


def answer(context, desktop, request):
    set_locale(context, request["locale"])
    file = request["file"]
    address = "private:factory/scalc" if file is None else uno.systemPathToFileUrl(file)
    document = desktop.loadComponentFromURL(
        address, "_blank", 0, (named("Hidden", True), named("UpdateDocMode", FULL_UPDATE))
    )
    try:
        # Only now the office knows whether the document may fetch.
        context.ServiceManager.createInstanceWithContext("com.sun.star.awt.Toolkit", context).processEventsToIdle()
        for place, content in request["enter"]:
            enter(cell_at(document, place), content)
        link = request["link"]
        if link is not None:
            at = cell_at(document, link["cell"]).CellAddress
            document.AreaLinks.insertAtPosition(at, link["address"], "CSV_all", CSV_FILTER, link["options"])
        document.calculateAll()
        return {"sheets": {sheet.Name: told_of(sheet, request["tell"]) for sheet in document.Sheets}}
    finally:
        document.close(True)


def main(pipe):
    context = connected(pipe)
    desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
    try:
        for line in sys.stdin:
            try:
                told_back = answer(context, desktop, json.loads(line))
            except Exception as fault:
                told_back = {"failed": f"{type(fault).__name__}: {fault}"}
            print(json.dumps(told_back), flush=True)
    finally:
        desktop.terminate()


main(sys.argv[1])
