"""Readers of the independent model: TMY3 CSV, EPW, evapbook's plain CSV.

read(name) gives {"elevation": m, "state": US state or None, "rows": [...]}; a
row has t (deg C), one of rh (share), dew and wet (deg C), pressure (Pa, None where the file has none), ghi (W/m2),
time, the instant its hour begins and the day printed on it. Files with gaps are outside this program: a
missing code is an error. Formats: NREL/TP-581-43156 (TMY3), the EPW data
dictionary.
"""

import csv
import datetime
import math


def read(name):
    with open(name, newline="", encoding="utf-8-sig") as f:
        lines = [line for line in f.read().splitlines() if line.strip()]
    if lines[0].startswith("LOCATION,"):
        return epw(lines)
    if lines[1].startswith("Date (MM/DD/YYYY),"):
        return tmy3(lines)
    return plain(lines)


def row(t, rh, pressure, ghi, day, time, ending=0, dew=None, wet=None):
    ok = -90 < t < 70 and 0 <= ghi < 2000 and (pressure is None or 3e4 < pressure < 1.2e5)
    other = wet if dew is None else dew
    if not ok or not (0 <= rh <= 110 if other is None else -90 < other <= t):
        raise ValueError(f"{time}: missing or impossible value")
    return {"t": t, "rh": None if rh is None else rh / 100, "dew": dew, "wet": wet, "pressure": pressure, "ghi": ghi,
            "day": day, "time": time,
            "begins": datetime.datetime.strptime(time, "%Y-%m-%d %H:%M") - datetime.timedelta(hours=ending)}


def believed(elevation, rows):
    """The station's elevation by (5a): the pressures' own where they contradict it."""
    if elevation is None or len(rows) < 4000 or any(r["pressure"] is None for r in rows):
        return elevation
    mean = math.fsum(r["pressure"] for r in rows) / len(rows)
    fits = (1 - (mean / 101325) ** (1 / 5.2559)) / 2.25577e-5
    return math.floor(fits + 0.5) if abs(math.floor(fits + 0.5) - elevation) > 100 else elevation


def stamp(year, month, date, hour):
    """The day printed on a row and the instant; 24:00 is 00:00 of the next day.

    Reading: temperature and humidity hold at the time shown, and 24:00 stays
    with the day printed on it (FORMATS.md).
    """
    day = datetime.datetime(year, month, date)
    return f"{day:%Y-%m-%d}", f"{day + datetime.timedelta(hours=hour):%Y-%m-%d %H:%M}"


def tmy3(lines):
    station = next(csv.reader([lines[0]]))
    table = csv.reader(lines[1:])
    heads = next(table)
    at = {h: i for i, h in reversed(list(enumerate(heads)))}
    rows = []
    for r in table:
        month, date, year = (int(x) for x in r[0].split("/"))
        day, time = stamp(year, month, date, int(r[1].split(":")[0]))
        rows.append(row(float(r[at["Dry-bulb (C)"]]), float(r[at["RHum (%)"]]), float(r[at["Pressure (mbar)"]]) * 100,
                        float(r[at["GHI (W/m^2)"]]), day, time, ending=1))
    return {"elevation": believed(float(station[6]), rows), "state": station[2].strip(), "rows": rows}


def epw(lines):
    location = lines[0].split(",")
    elevation = float(location[9])
    state = location[2].strip() if location[3].strip() == "USA" else None
    first = next(i for i, line in enumerate(lines) if line.startswith("DATA PERIODS")) + 1
    rows = []
    for line in lines[first:]:
        r = line.split(",")
        day, time = stamp(*(int(x) for x in r[:4]))
        rows.append(row(float(r[6]), float(r[8]), float(r[9]), float(r[13]), day, time, ending=1))
    return {"elevation": believed(elevation, rows), "state": state, "rows": rows}


def plain(lines):
    elevation, table = None, []
    for line in lines:
        if line.startswith("# elevation_m:"):
            elevation = float(line.split(":")[1])
        elif not line.startswith("#"):
            table.append(line)
    rows = []
    for r in csv.DictReader(table):
        value = {k: float(v) for k, v in r.items() if k != "time"}
        pressure = value["pressure_hpa"] * 100 if "pressure_hpa" in value else None
        rows.append(row(value["temperature_c"], value.get("relative_humidity_pct"), pressure, value["ghi_wm2"],
                        r["time"][:10], r["time"], dew=value.get("dew_point_c"), wet=value.get("wet_bulb_c")))
    return {"elevation": believed(elevation, rows), "state": None, "rows": rows}
