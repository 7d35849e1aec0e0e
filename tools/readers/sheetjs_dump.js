// node sheetjs_dump.js BOOK.xlsx < samples - what SheetJS reads in a workbook.
//
// Standard input is a JSON list of cells, ["Sheet!B3", ...]. Prints the JSON
// form of Reading in internal/officetest/readers.go. Install with npm ci.
"use strict";

const fs = require("fs");
const xlsx = require("@e965/xlsx");

// plain gives a value as the file has it; SheetJS calls the types n, s, b, e, d
// and z.
function plain(cell) {
  if (cell.t === "e") return { error: cell.w || "#ERROR" };
  if (cell.t === "z" || cell.v === undefined || cell.v === "") return null;
  return cell.v;
}

// readSheet sums up one sheet and adds its sampled values to values.
function readSheet(name, sheet, samples, values) {
  const out = { name, rows: 0, columns: 0, formulas: 0, numbers: 0, texts: 0, sum: 0 };
  const rows = sheet["!data"] || [];
  rows.forEach((row, r) => (row || []).forEach((cell, c) => {
    if (!cell) return;
    const value = plain(cell);
    if (value === null && cell.f === undefined) return;
    out.rows = Math.max(out.rows, r + 1);
    out.columns = Math.max(out.columns, c + 1);
    if (cell.f !== undefined) out.formulas++;
    if (typeof value === "number") { out.numbers++; out.sum += value; }
    if (typeof value === "string") out.texts++;
    const ref = name + "!" + xlsx.utils.encode_cell({ r, c });
    if (value !== null && samples.has(ref)) values[ref] = value;
  }));
  return out;
}

const samples = new Set(JSON.parse(fs.readFileSync(0, "utf8")));
const book = xlsx.read(fs.readFileSync(process.argv[2]), { dense: true, cellFormula: true, cellHTML: false, cellText: true });
if (book.bookType !== "xlsx") throw new Error("read as " + book.bookType + ", not as xlsx");
const values = {};
const sheets = book.SheetNames
  .filter((name) => book.Sheets[name]["!type"] === undefined || book.Sheets[name]["!type"] === "sheet")
  .map((name) => readSheet(name, book.Sheets[name], samples, values));
process.stdout.write(JSON.stringify({ sheets, values }));
