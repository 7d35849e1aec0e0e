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

air, house, cooler, year, alternatives, prices, tariff and weatherfile are its parts.
Numbers in brackets are the specification's equations; "Reading:" marks a place
where its text leaves a choice and says which one was taken.
"""

import csv
import json
import math
import sys

import weatherfile
from air import (ratio_from_vapour, ratio_from_wet_bulb, relative_humidity, saturated_ratio, saturation_pressure,
                 standard_pressure, wet_bulb)
from alternatives import money, refrigeration
from cooler import CFM, DRIVES, rated_fan, run_season
from house import house, kept_at
from prices import INSTALLED, electricity
from tariff import clocks, price
from year import calendar, coverage, days_of, design, exceeded, uncovered, water

SQUARE_FOOT = 0.3048**2  # m2
GALLON = 3.785411784  # L


TEXTS = ("price.summer_time",)  # texts that follow from the station unless stated


def defaults():
    """Inputs in SI as the specification and docs/inputs.md state them."""
    return {
        "site.altitude": None, "site.lapse_rate": 0.0, "site.warmer": 0.0,
        "cooler.kind": "direct", "cooler.airflow": None, "cooler.effectiveness": 0.80,
        "cooler.indirect_effectiveness": 0.50, "cooler.pad_condition": 0.92, "cooler.fan_power": None,
        "cooler.pump_power": 50.0, "cooler.duct_gain": 0.0, "cooler.drive": "two-speed", "cooler.lowest_speed": None,
        "cooler.low_speed_power": None, "cooler.water_care": "bleed",
        "cooler.cycles": 3.0, "cooler.sump": 4 * GALLON, "cooler.purge_interval": 8.0,
        "house.floor_area": 1800 * SQUARE_FOOT, "house.ceiling": 2.44, "house.people": 3.0,
        "house.heat_loss": 1.8, "house.solar_share": 0.03, "house.design_load": 0.0, "house.thermal_mass": 110.0, "house.moving_air": 2.2,
        "house.setpoint": (78 - 32) / 1.8, "house.humidity_limit": 0.70, "house.infiltration": 0.5,
        "ac.capacity": None, "ac.eer2": None, "ac.seer2": 14.3, "ac.cycling": 0.10, "ac.field_share": 0.90,
        "ac.indoor_wet_bulb": (63 - 32) / 1.8, "ac.windows_open": "yes",
        "price.electricity": None, "price.season_electricity": None, "price.peak_electricity": None,
        "price.season_first": 6.0, "price.season_last": 9.0, "price.peak_from": 16.0, "price.peak_to": 21.0,
        "price.peak_days": "all", "price.summer_time": None, "price.water": 6 / GALLON, "price.sewer": 0.0,
        "price.cooler_installed": None, "price.ac_installed": 9000.0, "price.cooler_care": 150.0,
        "price.ac_care": 150.0, "price.cooler_life": 15.0, "price.ac_life": 15.0,
        "price.discount": 0.03, "price.escalation": 0.0,
        "plant.water": 0.47 * GALLON, "plant.co2": 0.3934,
    }


def recorded(row, p):
    """Relative humidity as a share, from the quantity the file has."""
    if row["rh"] is not None:
        return row["rh"]
    if row["dew"] is not None:
        return saturation_pressure(row["dew"]) / saturation_pressure(row["t"])
    return relative_humidity(row["t"], ratio_from_wet_bulb(row["t"], row["wet"], p), p)


def site_hours(weather, s):
    """(5) to (8): one dict an hour with t, w, p, wb, ghi and the printed day."""
    station = weather["elevation"]
    site = station if s["site.altitude"] is None else s["site.altitude"]
    shift = standard_pressure(site) / standard_pressure(station)
    hours = []
    for row in weather["rows"]:
        p_station = row["pressure"] if row["pressure"] is not None else standard_pressure(station)  # (5)
        t = row["t"] + s["site.warmer"]  # (6a)
        w = ratio_from_vapour(recorded(row, p_station) * saturation_pressure(t), p_station)  # (6)
        t -= s["site.lapse_rate"] * (site - station) / 1000  # (7)
        p = p_station * shift  # (8)
        w = min(w, saturated_ratio(t, p))
        hours.append({"time": row["time"], "day": row["day"], "begins": row["begins"], "t": t, "w": w, "p": p,
                      "wb": wet_bulb(t, w, p), "ghi": row["ghi"]})
    return site, station, hours


def settled(weather, settings):
    """The inputs with everything that follows another one filled in."""
    s = defaults()
    s.update(settings)
    low, a = DRIVES[s["cooler.drive"]]
    follows = {"cooler.airflow": 2.5 * CFM / SQUARE_FOOT * s["house.floor_area"], "cooler.lowest_speed": low,
               "cooler.low_speed_power": a, "price.electricity": electricity(weather["state"]),
               "price.summer_time": clocks(weather["state"]), "price.cooler_installed": INSTALLED[s["cooler.kind"]]}
    s.update({key: value for key, value in follows.items() if s[key] is None})
    if s["price.season_electricity"] is None:
        s["price.season_electricity"] = s["price.electricity"]
    if s["price.peak_electricity"] is None:
        s["price.peak_electricity"] = s["price.season_electricity"]
    if s["cooler.fan_power"] is None:
        s["cooler.fan_power"] = rated_fan(s["cooler.kind"], s["cooler.airflow"])
    return s


def season(weather, settings):
    s = settled(weather, settings)
    site, station, hours = site_hours(weather, s)
    db = exceeded([a["t"] for a in hours], 0.01)
    hot = [a["ghi"] for a in hours if a["t"] >= db]
    h = house(s, site, db, math.fsum(hot) / len(hot))
    runs = run_season(s, h, hours)
    closed, ends, rated, unmet = refrigeration(s, h, site, hours)
    for r, kwh, end in zip(runs, closed, ends):
        r["closed"], r["refrigerated_house"] = kwh, end
        r["ref"] = 0.0 if r["outcome"] == "vent" and s["ac.windows_open"] == "yes" else kwh
        r["both"] = {"vent": r["kwh"], "evap": r["kwh"], "idle": 0.0}.get(r["outcome"], kwh)
    days = days_of(hours, runs)
    f = {"hours.missing": 0,
         "energy.cooler_kwh": math.fsum(r["kwh"] for r in runs),
         "energy.refrigerated_closed_kwh": math.fsum(closed),
         "energy.refrigerated_kwh": math.fsum(r["ref"] for r in runs),
         "energy.both_kwh": math.fsum(r["both"] for r in runs),
         "energy.cooler_peak_kw": max(r["kwh"] for r in runs),
         "energy.refrigerated_peak_kw": max(r["ref"] for r in runs),
         "ac.capacity_w": rated, "ac.unmet_hours": unmet,
         "site.altitude_m": site, "site.station_elevation_m": station, "site.pressure_pa": standard_pressure(site)}
    for part in (coverage(runs), water(s, hours, runs, days), uncovered(h, runs, days), design(s, site, hours),
                 calendar(days), low_ends(s, h, hours)):
        f.update(part)
    prices = [price(s, a["begins"]) for a in hours]
    spent = {way: math.fsum(r[key] * p for r, p in zip(runs, prices))
             for way, key in (("cooler", "kwh"), ("refrigerated", "ref"), ("both", "both"))}
    f.update(money(s, f, spent))
    return f, hours, runs


def low_ends(s, h, hours):
    """The lower ends of water and cooler energy: the setpoint raised by the moving air."""
    runs = run_season(s, kept_at(h, h["set"] + s["house.moving_air"]), hours)
    return {"water.low_total_l": water(s, hours, runs, days_of(hours, runs))["water.total_l"],
            "energy.low_cooler_kwh": math.fsum(r["kwh"] for r in runs)}


COLUMNS = ("time,temperature_c,wet_bulb_c,humidity_ratio,pressure_pa,supply_c,supply_humidity_ratio,outcome,"
           "indoor_c,indoor_rh,load_w,flow_share,cooler_kwh,evaporated_kg,refrigerated_kwh,"
           "refrigerated_closed_kwh,both_kwh,ghi_wm2,running_fraction,house_c,refrigerated_house_c").split(",")


def write_hours(name, hours, runs):
    with open(name, "w", newline="") as f:
        out = csv.writer(f, lineterminator="\n")
        out.writerow(COLUMNS)
        text = lambda v: "" if v is None else v if isinstance(v, str) else repr(v)
        for a, r in zip(hours, runs):
            out.writerow([text(v) for v in (
                a["time"], a["t"], a["wb"], a["w"], a["p"], r["supply"]["t"], r["supply"]["w"], r["outcome"],
                r["indoor"], r["rh"], r["q"], r["share"], r["kwh"], r["kg"], r["ref"], r["closed"], r["both"],
                a["ghi"], r["run"], r["house"], r["refrigerated_house"])])


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
            settings[key] = value if isinstance(known[key], str) or key in TEXTS else float(value)
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
