"""Reads a workbook with openpyxl and prints what it holds as lines of JSON, for the tests of output/.

First line: {"sheets": [...]} with the print set-up of each; then one line a cell: [sheet, row, column, type, value], types as
openpyxl has them (n number, s text, f formula).
"""
import json
import sys

import openpyxl


def set_up(sheet):
    return {
        "name": sheet.title,
        "paper": sheet.page_setup.paperSize,
        "orientation": sheet.page_setup.orientation,
        "fit_width": sheet.page_setup.fitToWidth,
        "fit_height": sheet.page_setup.fitToHeight,
        "fit": bool(sheet.sheet_properties.pageSetUpPr and sheet.sheet_properties.pageSetUpPr.fitToPage),
        "repeated": sheet.print_title_rows,
        "frozen": sheet.freeze_panes,
        "filter": sheet.auto_filter.ref,
        "header": str(sheet.oddHeader.left.text) + "|" + str(sheet.oddHeader.right.text),
        "footer": str(sheet.oddFooter.left.text) + "|" + str(sheet.oddFooter.right.text),
        "charts": len(sheet._charts),
        "images": len(sheet._images),
        "breaks": [b.id for b in sheet.row_breaks.brk],
    }


book = openpyxl.load_workbook(sys.argv[1])
print(json.dumps({"created": book.properties.created.isoformat(), "title": book.properties.title,
                  "sheets": [set_up(sheet) for sheet in book.worksheets]}))
for sheet in book.worksheets:
    for row in sheet.iter_rows():
        for cell in row:
            if cell.value is not None:
                print(json.dumps([sheet.title, cell.row, cell.column, cell.data_type, cell.value]))
