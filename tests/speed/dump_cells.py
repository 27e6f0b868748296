"""Lists the cells of a workbook, one a line, parted by tabs, rows and columns counted from 0:

  sheet   NAME
  number  ROW COL FORMAT VALUE
  text    ROW COL FORMAT VALUE
  blank   ROW COL FORMAT            an empty cell that has a look

  python3 dump_cells.py FILE.xlsx > CELLS
"""
import sys

import openpyxl
from openpyxl.cell.read_only import EmptyCell


def escaped(text):
    return text.replace("\\", "\\\\").replace("\n", "\\n").replace("\t", "\\t")


def kind_of(value):
    if value is None:
        return "blank"
    return "number" if isinstance(value, (int, float)) else "text"


def main():
    book = openpyxl.load_workbook(sys.argv[1], read_only=True)
    for sheet in book.worksheets:
        print("sheet", sheet.title, sep="\t")
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell, EmptyCell):
                    continue
                value = "" if cell.value is None else escaped(str(cell.value))
                print(kind_of(cell.value), cell.row - 1, cell.column - 1, cell.number_format, value, sep="\t")


main()
