#!/usr/bin/python3
"""openpyxl_dump.py BOOK.xlsx < samples - what openpyxl reads in a workbook.

Standard input is a JSON list of cells, ["Sheet!B3", ...]. Prints the JSON form
of Reading in internal/officetest/readers.go. Needs python3-openpyxl.
"""
import json
import sys
from datetime import date, datetime, time, timedelta

import openpyxl
from openpyxl.utils.datetime import to_excel


def plain(value):
    """A value as the file has it: dates as serial numbers, errors as {"error"}."""
    if isinstance(value, (datetime, date, time, timedelta)):
        return to_excel(value)
    if isinstance(value, str) and value in openpyxl.cell.cell.ERROR_CODES:
        return {"error": value}
    return value


def sheet(cached, formulas, samples, values):
    """One sheet; its sampled values are added to values."""
    out = dict(name=cached.title, rows=0, columns=0, formulas=0, numbers=0, texts=0, sum=0.0)
    for cells, sources in zip(cached.iter_rows(), formulas.iter_rows()):
        for cell, source in zip(cells, sources):
            if source.value is None:
                continue
            out["rows"] = max(out["rows"], source.row)
            out["columns"] = max(out["columns"], source.column)
            if source.data_type == "f":
                out["formulas"] += 1
            value = plain(cell.value)
            if isinstance(value, (int, float)) and not isinstance(value, bool):
                out["numbers"] += 1
                out["sum"] += value
            elif isinstance(value, str) and value:
                out["texts"] += 1
            ref = cached.title + "!" + source.coordinate
            if ref in samples and value not in (None, ""):
                values[ref] = value
    return out


def main():
    samples = set(json.load(sys.stdin))
    cached = openpyxl.load_workbook(sys.argv[1], read_only=True, data_only=True)
    formulas = openpyxl.load_workbook(sys.argv[1], read_only=True)
    values = {}
    sheets = [sheet(cached[ws.title], ws, samples, values) for ws in formulas.worksheets]
    json.dump({"sheets": sheets, "values": values}, sys.stdout)


main()
