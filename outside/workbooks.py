"""Writes workbooks with another library than the one that reads them: workbooks.py FOLDER."""
import datetime
import sys

import openpyxl

folder = sys.argv[1]
HEADER = ["Name", "Description", "table", "address", "format", "role", "scale", "unit", "states", "note-page"]


def typed(sheet):
    """A list as people type it, below a title."""
    sheet.append(["Register list, invented"])
    sheet.append([])
    sheet.append(HEADER)
    sheet.append(["water", "Boiler, \"hot\" side", "holding-register", 40001, "int16", "measurement", 0.1, "\u00b0C", None, 12])
    sheet.append(["gas", "two\nlines", "input-register", "30002", "uint16", "measurement", 0.1 + 0.2, "%", None, None])
    sheet.append(["phase", "=1+1", "input-register", 30003, "uint16", "status", None, None, "-1=fault|0=ok", 12.5])
    sheet["B6"].data_type = "s"


workbook = openpyxl.Workbook()
workbook.active.title = "Points"
typed(workbook.active)
workbook.save(folder + "/typed.xlsx")

workbook = openpyxl.Workbook()
sheet = workbook.active
sheet.title = "Points"
typed(sheet)
sheet["G4"] = datetime.datetime(2026, 1, 3)
sheet["G5"] = True
sheet["G6"] = "=D4*2"
sheet["J4"] = 0.5
sheet["J4"].number_format = "0%"
sheet["J5"] = "=1/0"
sheet["K5"] = "beyond"
sheet["J6"] = datetime.time(3, 1)
sheet.row_dimensions[5].hidden = True
sheet.column_dimensions["H"].hidden = True
sheet.merge_cells("B7:B9")
workbook.create_sheet("Old").sheet_state = "hidden"
workbook.save(folder + "/troubled.xlsx")

workbook = openpyxl.Workbook()
workbook.active.title = "Cover"
typed(workbook.create_sheet("Hot water"))
other = workbook.create_sheet("Foreign")
other.append(["Tag", "Register"])
other.append(["a", 1])
workbook.save(folder + "/several.xlsx")
