#!/usr/bin/env python3
"""The model once more, written from its specification alone.

An independent implementation of the calculation (equations 1 to 29): read one
weather file, work out the season, print the headline figures as JSON and, when
asked, the hour table as CSV, under the names evapbook uses. It was written from
the specification's text without sight of the Go packages, shares nothing with
them, and takes the plain way everywhere (bisection, lists, no tables), so that
where both agree a slip would have to have been made twice.

usage: model.py WEATHER [--hours FILE.csv] [key=value ...]

The keys are evapbook's input keys; every value is in SI: m, K/km, m3/s, W, m2,
W/m2K, deg C, L, h, shares; prices per kWh and per m3; plant.water in L per kWh.
Readers: TMY3 CSV, EPW, and evapbook's plain CSV in deg C, per cent and hPa. Of
TMY3 and EPW the relative humidity column is the one used.

air, cooler, year, alternatives and weatherfile beside this file are its parts.
Numbers in brackets are the specification's equations; "Reading:" marks a place
where its text leaves a choice and says which one was taken.
"""

import csv
import json
import math
import sys

import weatherfile
from air import ratio_from_vapour, saturated_ratio, saturation_pressure, standard_pressure, wet_bulb
from alternatives import money, refrigeration
from cooler import house, run_hour
from year import calendar, days_of, design, exceeded, uncovered, water

CFM = 0.3048**3 / 60  # m3/s
SQUARE_FOOT = 0.3048**2  # m2
GALLON = 3.785411784  # L


def defaults():
    """Inputs in SI as the specification and docs/inputs.md state them."""
    return {
        "site.altitude": None, "site.lapse_rate": 0.0,
        "cooler.kind": "direct", "cooler.airflow": None, "cooler.effectiveness": 0.80,
        "cooler.indirect_effectiveness": 0.60, "cooler.pad_condition": 1.0, "cooler.fan_power": None,
        "cooler.pump_power": 50.0, "cooler.lowest_speed": 0.67, "cooler.water_care": "bleed",
        "cooler.cycles": 3.0, "cooler.sump": 4 * GALLON, "cooler.purge_interval": 8.0,
        "house.floor_area": 1800 * SQUARE_FOOT, "house.ceiling": 2.44, "house.people": 3.0,
        "house.heat_loss": 1.8, "house.solar_share": 0.03, "house.design_load": 0.0,
        "house.setpoint": (78 - 32) / 1.8, "house.humidity_limit": 0.70, "house.infiltration": 0.5,
        "ac.capacity": None, "ac.eer2": None, "ac.seer2": 14.3, "ac.cycling": 0.20,
        "ac.indoor_wet_bulb": (63 - 32) / 1.8, "ac.windows_open": "yes",
        "price.electricity": 0.155, "price.water": 6 / GALLON, "price.sewer": 0.0,
        "price.cooler_installed": 3500.0, "price.ac_installed": 9000.0, "price.cooler_care": 150.0,
        "price.ac_care": 150.0, "price.cooler_life": 15.0, "price.ac_life": 15.0,
        "price.discount": 0.03, "price.escalation": 0.0,
        "plant.water": 0.47 * GALLON, "plant.co2": 0.3934,
    }


def site_hours(weather, s):
    """(5) to (8): one dict an hour with t, w, p, wb, ghi and the printed day."""
    station = weather["elevation"]
    site = station if s["site.altitude"] is None else s["site.altitude"]
    shift = standard_pressure(site) / standard_pressure(station)
    hours = []
    for row in weather["rows"]:
        p_station = row["pressure"] if row["pressure"] is not None else standard_pressure(station)
        e = saturation_pressure(row["dew"]) if row["rh"] is None else row["rh"] * saturation_pressure(row["t"])
        w = ratio_from_vapour(e, p_station)  # (6)
        t = row["t"] - s["site.lapse_rate"] * (site - station) / 1000  # (7)
        p = p_station * shift  # (8)
        w = min(w, saturated_ratio(t, p))
        hours.append({"time": row["time"], "day": row["day"], "t": t, "w": w, "p": p,
                      "wb": wet_bulb(t, w, p), "ghi": row["ghi"]})
    return site, station, hours


def season(weather, settings):
    s = defaults()
    s.update(settings)
    if s["cooler.airflow"] is None:
        s["cooler.airflow"] = 2.5 * CFM / SQUARE_FOOT * s["house.floor_area"]
    if s["cooler.fan_power"] is None:
        s["cooler.fan_power"] = (0.27 if s["cooler.kind"] == "two-stage" else 0.15) / CFM * s["cooler.airflow"]
    site, station, hours = site_hours(weather, s)
    db = exceeded([a["t"] for a in hours], 0.01)
    hot = [a["ghi"] for a in hours if a["t"] >= db]
    h = house(s, db, math.fsum(hot) / len(hot))
    runs = [run_hour(s, h, air) for air in hours]
    closed, rated, unmet = refrigeration(s, h, site, hours, runs)
    for r, kwh in zip(runs, closed):
        r["closed"] = kwh
        r["ref"] = 0.0 if r["outcome"] == "vent" and s["ac.windows_open"] == "yes" else kwh
        r["both"] = {"vent": r["kwh"], "evap": r["kwh"], "idle": 0.0}.get(r["outcome"], kwh)
    days = days_of(hours, runs)
    count = {o: sum(r["outcome"] == o for r in runs) for o in ("idle", "vent", "evap", "damp", "warm")}
    need = len(runs) - count["idle"]
    held = count["vent"] + count["evap"]
    load = math.fsum(r["q"] for r in runs if r["q"] > 0)
    share = lambda a, b: a / b if b else None
    f = {"hours." + o: n for o, n in count.items()}
    f.update({"hours.need": need, "hours.held": held, "hours.uncovered": need - held, "hours.missing": 0,
              "coverage.held": share(held, need), "coverage.temperature": share(held + count["damp"], need),
              "coverage.load": share(math.fsum(r["q"] for r in runs if r["outcome"] in ("vent", "evap")), load),
              "degree_hours_over": math.fsum(r["over"] for r in runs),
              "energy.cooler_kwh": math.fsum(r["kwh"] for r in runs),
              "energy.refrigerated_closed_kwh": math.fsum(closed),
              "energy.refrigerated_kwh": math.fsum(r["ref"] for r in runs),
              "energy.both_kwh": math.fsum(r["both"] for r in runs),
              "energy.cooler_peak_kw": max(r["kwh"] for r in runs),
              "energy.refrigerated_peak_kw": max(r["ref"] for r in runs),
              "ac.capacity_w": rated, "ac.unmet_hours": unmet,
              "site.altitude_m": site, "site.station_elevation_m": station, "site.pressure_pa": standard_pressure(site)})
    for part in (water(s, hours, runs, days), uncovered(h, runs, days), design(s, site, hours), calendar(days)):
        f.update(part)
    f.update(money(s, f))
    return f, hours, runs


COLUMNS = ("time,temperature_c,wet_bulb_c,humidity_ratio,pressure_pa,supply_c,supply_humidity_ratio,outcome,"
           "indoor_c,indoor_rh,load_w,flow_share,cooler_kwh,evaporated_kg,refrigerated_kwh,"
           "refrigerated_closed_kwh,both_kwh,ghi_wm2,running_fraction").split(",")


def write_hours(name, hours, runs):
    with open(name, "w", newline="") as f:
        out = csv.writer(f, lineterminator="\n")
        out.writerow(COLUMNS)
        text = lambda v: "" if v is None else v if isinstance(v, str) else repr(v)
        for a, r in zip(hours, runs):
            out.writerow([text(v) for v in (
                a["time"], a["t"], a["wb"], a["w"], a["p"], r["supply"]["t"], r["supply"]["w"], r["outcome"],
                r["indoor"], r["rh"], r["q"], r["share"], r["kwh"], r["kg"], r["ref"], r["closed"], r["both"],
                a["ghi"], r["run"])])


def main(args):
    files, settings, hour_table = [], {}, None
    known = defaults()
    while args:
        a = args.pop(0)
        if a == "--hours":
            hour_table = args.pop(0)
        elif "=" in a:
            key, value = a.split("=", 1)
            if key not in known:
                sys.exit(f"unknown key {key}")
            settings[key] = value if isinstance(known[key], str) else float(value)
        else:
            files.append(a)
    if len(files) != 1:
        sys.exit(__doc__)
    figures, hours, runs = season(weatherfile.read(files[0]), settings)
    if hour_table:
        write_hours(hour_table, hours, runs)
    nested = {}
    for path, value in figures.items():
        at = nested
        *steps, last = path.split(".")
        for step in steps:
            at = at.setdefault(step, {})
        at[last] = value
    json.dump(nested, sys.stdout, indent=2, sort_keys=True)
    print()


if __name__ == "__main__":
    main(sys.argv[1:])
