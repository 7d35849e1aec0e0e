#!/usr/bin/python3
"""recalc.py - one workbook open in LibreOffice, driven by lines of JSON.

  recalc.py BOOK.xlsx [BOOK.xlsx's requests on stdin, answers on stdout]

Opens a copy of the book without recalculating it, so that the values first
seen are the cached ones, prints {"ready": true, "sheets": [...]} and then
answers each request line with one line. Keys of a request, done in this order:

  load     path: close the book and open this one instead
  reset    true: put back every cell that "set" changed
  set      {name or Sheet!A1: number, true/false, text, "=formula" or null to clear}
  insert   [sheet, row, count]: puts empty rows above a row, counted from 1
  recalc   true: work out every formula again, whether it looks stale or not
  names    [name, ...]: answers {"names": {name: value or rows}}
  range    "Sheet!A1:B9" or "Sheet" (its used area), with "to": file for the rows
  formulas file: writes every formula cell, one JSON line a block of cells
           {"sheet", "row", "column", "rows"}; answers {"formulas": count}
  pages    true: answers {"pages": {sheet: printed pages}}
  pdf      path; with "sheet" only that sheet, with "only" only pages like "1-3"
  save     path: writes the book there as .xlsx
  timeout  seconds for this request, 300 unless given

Values are numbers, texts, null for empty and {"error": "#DIV/0!"}; booleans
come back as 1 and 0, as LibreOffice keeps them, dates as serial numbers.
Every answer has {"seconds": {step: s}}; a request that fails is answered with
{"failed": reason}. Ends at the end of stdin.

Needs the Debian packages libreoffice-calc and python3-uno. It has a profile of
its own in a temporary folder, so it runs as root, in parallel and beside a
LibreOffice that somebody is using, and it ends no process but its own office.
"""
import contextlib
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

SETTINGS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
 <prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>1</value></prop></item>
<item oor:path="/org.openoffice.Office.Common/Misc">
 <prop oor:name="FirstRun" oor:op="fuse"><value>false</value></prop></item>
<item oor:path="/org.openoffice.Office.Recovery/AutoSave">
 <prop oor:name="Enabled" oor:op="fuse"><value>false</value></prop></item>
</oor:items>
"""  # OOXMLRecalcMode 1: never recalculate on loading, trust the cached values

START_SECONDS = 90
FORMULA_CELLS, ERROR_RESULTS = 16, 4  # CellFlags.FORMULA, FormulaResult.ERROR
CELLS_A_CALL = 200_000  # one answer of LibreOffice is held whole in memory, twice
LOOKS = {"names", "range", "formulas", "pages", "pdf", "save"}  # requests that show values
ERRORS_SPELT_OUT = 1_000  # a sheet; each costs a round trip


def properties(**values):
    """Named arguments as LibreOffice takes them."""
    out = []
    for name, value in values.items():
        p = PropertyValue()
        p.Name, p.Value = name, value
        out.append(p)
    return tuple(out)


class Office:
    """A LibreOffice process with a throw-away profile."""

    def __init__(self):
        self.folder = tempfile.mkdtemp(prefix="recalc-")
        os.makedirs(self.folder + "/profile/user")
        with open(self.folder + "/profile/user/registrymodifications.xcu", "w") as f:
            f.write(SETTINGS)
        pipe = os.path.basename(self.folder)
        env = dict(os.environ, HOME=self.folder, LC_ALL="C.UTF-8", SAL_USE_VCLPLUGIN="svp")
        for name in ("PYTHONPATH", "PYTHONHOME"):
            env.pop(name, None)
        self.process = subprocess.Popen(
            ["soffice", "--headless", "--norestore", "--nologo", "--nodefault", "--nolockcheck",
             "-env:UserInstallation=file://" + self.folder + "/profile", "--accept=pipe,name=%s;urp" % pipe],
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            env=env, start_new_session=True)  # a process group of its own, to end no other
        self.desktop = self.connect("uno:pipe,name=%s;urp;StarOffice.ComponentContext" % pipe)

    def connect(self, address):
        local = uno.getComponentContext()
        resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
        deadline = time.monotonic() + START_SECONDS
        while time.monotonic() < deadline:
            try:
                context = resolver.resolve(address)
                return context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
            except NoConnectException:
                time.sleep(0.1)
        self.kill()
        raise SystemExit("recalc.py: LibreOffice did not start within %d s" % START_SECONDS)

    def kill(self):
        try:
            os.killpg(self.process.pid, signal.SIGKILL)
        except ProcessLookupError:
            pass

    def close(self):
        try:
            self.desktop.terminate()
            self.process.wait(5)
        except Exception:  # already gone, or hung: killed below either way
            pass
        self.kill()
        self.process.wait()
        shutil.rmtree(self.folder, ignore_errors=True)


class Book:
    """A copy of a workbook, open; a copy, so no lock file appears beside the original."""

    def __init__(self, office, path):
        copy = os.path.join(office.folder, "book" + os.path.splitext(path)[1])
        shutil.copyfile(path, copy)
        self.doc = office.desktop.loadComponentFromURL(
            uno.systemPathToFileUrl(copy), "_blank", 0, properties(Hidden=True, UpdateDocMode=0))
        if self.doc is None or not hasattr(self.doc, "Sheets"):
            raise ValueError("LibreOffice does not open %s as a workbook" % path)
        self.before = {}  # (sheet, address) -> what puts the cell back

    def hold(self):
        """Leaves dependent formulas stale until settle, so that many inputs cost one calculation."""
        self.doc.enableAutomaticCalculation(False)

    def settle(self):
        """Works out what is stale. That includes formulas that give text, unless the file says that
        Excel or LibreOffice wrote it: LibreOffice trusts no other writer's cached texts."""
        self.doc.enableAutomaticCalculation(True)

    def sheets(self):
        return list(self.doc.Sheets.ElementNames)

    def sheet(self, name):
        if not self.doc.Sheets.hasByName(name):
            raise ValueError("no sheet %r" % name)
        return self.doc.Sheets.getByName(name)

    def find(self, ref):
        """The range of a defined name, of Sheet!A1:B9, or a sheet's used area; None for a name without cells."""
        if "!" in ref:
            name, _, address = ref.rpartition("!")
            return self.sheet(name.strip("'")).getCellRangeByName(address.replace("$", ""))
        if self.doc.NamedRanges.hasByName(ref):
            return self.doc.NamedRanges.getByName(ref).getReferredCells()
        cursor = self.sheet(ref).createCursor()
        cursor.gotoEndOfUsedArea(True)
        return self.sheet(ref).getCellRangeByName(cursor.AbsoluteName.rpartition(".")[2])

    def name(self, name):
        if not self.doc.NamedRanges.hasByName(name):
            raise ValueError("no name %r" % name)
        cells = self.find(name)
        if cells is None:  # a constant
            return float(self.doc.NamedRanges.getByName(name).Content.lstrip("="))
        rows = [row for part in values(cells) for row in part["rows"]]
        return rows[0][0] if len(rows) == len(rows[0]) == 1 else rows

    def set(self, ref, value):
        self.hold()
        cells = self.find(ref)
        if cells is None:
            raise ValueError("%s is not a cell" % ref)
        cell = cells.getCellByPosition(0, 0)
        self.before.setdefault(cell.AbsoluteName, (cell, cell.Type.value, cell.Formula, cell.Value, cell.String))
        if value is None:
            cell.setString("")
        elif isinstance(value, (bool, int, float)):
            cell.setValue(float(value))
        elif value.startswith("="):
            cell.setFormula(value)
        else:
            cell.setString(value)

    def insert(self, name, row, count):
        """Inserts empty rows, as a person would: protection without a password taken off."""
        self.sheet(name).unprotect("")
        self.sheet(name).Rows.insertByIndex(row - 1, count)

    def reset(self):
        self.hold()
        for cell, kind, formula, number, text in self.before.values():
            if kind == "FORMULA":
                cell.setFormula(formula)
            elif kind == "VALUE":
                cell.setValue(number)
            else:
                cell.setString(text)
        self.before.clear()

    def formulas(self, path):
        """Writes every formula cell, returns how many there are."""
        count = 0
        with open(path, "w") as out:
            for name in self.sheets():
                sheet = self.sheet(name)
                for a in sheet.queryContentCells(FORMULA_CELLS).RangeAddresses:
                    block = sheet.getCellRangeByPosition(a.StartColumn, a.StartRow, a.EndColumn, a.EndRow)
                    for part in values(block):
                        count += sum(map(len, part["rows"]))
                        json.dump(dict(part, sheet=name), out)
                        out.write("\n")
        return count

    @contextlib.contextmanager
    def only(self, name):
        """Has one sheet alone print: the others are hidden and lose their print areas meanwhile."""
        before = {n: (self.sheet(n).IsVisible, self.sheet(n).getPrintAreas()) for n in self.sheets()}
        self.sheet(name).IsVisible = True
        for other in before:
            if other != name:
                self.sheet(other).IsVisible = False
                self.sheet(other).setPrintAreas(())
        try:
            yield
        finally:
            for n, (visible, areas) in before.items():
                self.sheet(n).IsVisible = visible
                if n != name:
                    self.sheet(n).setPrintAreas(areas)

    def pages(self):
        count = {}
        for name in self.sheets():
            with self.only(name):
                count[name] = self.doc.getRendererCount(self.doc, ())
        return count

    def pdf(self, path, sheet=None, only=None):
        data = properties(PageRange=only) if only else ()
        with self.only(sheet) if sheet is not None else contextlib.nullcontext():
            self.doc.storeToURL(uno.systemPathToFileUrl(os.path.abspath(path)), properties(
                FilterName="calc_pdf_Export",
                FilterData=uno.Any("[]com.sun.star.beans.PropertyValue", data)))

    def save(self, path):
        self.doc.storeToURL(uno.systemPathToFileUrl(os.path.abspath(path)),
                            properties(FilterName="Calc MS Excel 2007 XML"))


def values(cells):
    """The values of a range in pieces {"row", "column", "rows"}; row and column count from 1."""
    a, sheet = cells.RangeAddress, cells.Spreadsheet
    spelt = 0
    step = max(1, CELLS_A_CALL // (a.EndColumn - a.StartColumn + 1))
    for top in range(a.StartRow, a.EndRow + 1, step):
        bottom = min(top + step - 1, a.EndRow)
        piece = sheet.getCellRangeByPosition(a.StartColumn, top, a.EndColumn, bottom)
        rows = [[None if v == "" else v for v in row] for row in piece.getDataArray()]
        for e in piece.queryFormulaCells(ERROR_RESULTS).RangeAddresses:
            for y in range(e.StartRow, e.EndRow + 1):
                for x in range(e.StartColumn, e.EndColumn + 1):
                    spelt += 1
                    text = sheet.getCellByPosition(x, y).String if spelt <= ERRORS_SPELT_OUT else "#ERROR"
                    rows[y - top][x - a.StartColumn] = {"error": text}
        yield {"row": top + 1, "column": a.StartColumn + 1, "rows": rows}


class Session:
    def __init__(self, path):
        self.office = Office()
        self.book = None
        try:
            self.load(path)
        except BaseException:
            self.office.close()
            raise

    def load(self, path):
        if self.book is not None:
            self.book.doc.close(True)
            self.book = None
        self.book = Book(self.office, path)

    def steps(self, q):
        """The steps of request q in order, each a name and a function that gives its answer."""
        yield "load", "load" in q, lambda: self.load(q["load"])
        yield "reset", q.get("reset"), lambda: self.book.reset()
        yield "set", q.get("set"), lambda: [self.book.set(r, v) for r, v in q["set"].items()] and None
        yield "insert", "insert" in q, lambda: self.book.insert(*q["insert"])
        yield "recalc", q.get("recalc"), lambda: self.book.doc.calculateAll()
        yield "settle", q.keys() & LOOKS, lambda: self.book.settle()
        yield "names", "names" in q, lambda: {n: self.book.name(n) for n in q["names"]}
        yield "range", "range" in q, lambda: self.range(q["range"], q["to"])
        yield "formulas", "formulas" in q, lambda: self.book.formulas(q["formulas"])
        yield "pages", q.get("pages"), lambda: self.book.pages()
        yield "pdf", "pdf" in q, lambda: self.book.pdf(q["pdf"], q.get("sheet"), q.get("only"))
        yield "save", "save" in q, lambda: self.book.save(q["save"])

    def range(self, ref, to):
        cells = self.book.find(ref)
        if cells is None:
            raise ValueError("%s is not a range" % ref)
        with open(to, "w") as out:
            for part in values(cells):
                json.dump(part, out)
                out.write("\n")

    def answer(self, q):
        answer, seconds = {}, {}
        late = threading.Timer(q.get("timeout", 300), self.office.kill)  # the call under way then fails
        late.start()
        try:
            for name, wanted, step in self.steps(q):
                if not wanted:
                    continue
                start = time.monotonic()
                got = step()
                seconds[name] = round(time.monotonic() - start, 3)
                if got is not None:
                    answer[name] = got
        except Exception as e:
            answer["failed"] = str(e) or type(e).__name__
            if not late.is_alive():
                answer["failed"] = "no answer within %g s, LibreOffice was ended" % q.get("timeout", 300)
        finally:
            late.cancel()
        answer["seconds"] = seconds
        return answer


def say(answer):
    json.dump(answer, sys.stdout)
    sys.stdout.write("\n")
    sys.stdout.flush()


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))  # so that the office is closed
    start = time.monotonic()
    try:
        session = Session(sys.argv[1])
    except Exception as e:
        sys.exit("recalc.py: %s" % e)
    try:
        say({"ready": True, "sheets": session.book.sheets(), "seconds": {"open": round(time.monotonic() - start, 3)}})
        for line in sys.stdin:
            say(session.answer(json.loads(line)))
    finally:
        session.office.close()


main()
