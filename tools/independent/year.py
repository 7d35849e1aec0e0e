"""Figures of a year: design conditions (29), water (22) and (23), uncovered spells, calendar."""

import math

from air import ratio_from_wet_bulb, standard_pressure
from cooler import supply


def exceeded(values, share):
    """(29) the value exceeded in that share of the hours."""
    return sorted(values, reverse=True)[round(share * len(values))]


def coincident(hours, key, other, value):
    # 1e-9: differences of printed tenths are not exact in binary.
    near = [a[other] for a in hours if abs(a[key] - value) <= 0.5 + 1e-9]
    return math.fsum(near) / len(near)


def design(s, site, hours):
    out = {}
    for tag, share in (("0_4pct", 0.004), ("1pct", 0.01), ("2pct", 0.02)):
        db = exceeded([a["t"] for a in hours], share)
        wb = exceeded([a["wb"] for a in hours], share)
        mcwb, mcdb = coincident(hours, "t", "wb", db), coincident(hours, "wb", "t", wb)
        for name, t, star in (("supply_", db, mcwb), ("supply_wb_", mcdb, wb)):
            p = standard_pressure(site)
            air = {"t": t, "wb": star, "p": p, "w": ratio_from_wet_bulb(t, star, p)}
            out[f"design.{name}{tag}_c"] = supply(s, air)["t"]
        out.update({f"design.db_{tag}_c": db, f"design.mcwb_{tag}_c": mcwb,
                    f"design.wb_{tag}_c": wb, f"design.mcdb_{tag}_c": mcdb})
    return out


def drained(s, evaporated, pump_hours, days):
    """(22), (23)"""
    if s["cooler.water_care"] == "bleed":
        return evaporated / (s["cooler.cycles"] - 1)
    if s["cooler.water_care"] == "purge":
        return s["cooler.sump"] * (pump_hours / s["cooler.purge_interval"] + days)
    return 0.0


def coverage(runs):
    """Hours by outcome, the ways of coverage, the verdict.

    The load that is shared out is that of the need hours.
    """
    count = {o: sum(r["outcome"] == o for r in runs) for o in ("idle", "vent", "evap", "damp", "warm")}
    need = len(runs) - count["idle"]
    wet_need = need - count["vent"]
    held = count["vent"] + count["evap"]
    moved = sum(r["moved"] for r in runs)
    felt = lambda outcomes: math.fsum(max(0.0, r["free"]) for r in runs if r["outcome"] in outcomes)
    share = lambda a, b: a / b if b else None
    f = {"hours." + o: n for o, n in count.items()}
    f.update({"hours.need": need, "hours.held": held, "hours.uncovered": need - held, "hours.wet_need": wet_need,
              "coverage.held": share(held, need), "coverage.temperature": share(held + count["damp"], need),
              "coverage.with_water": share(count["evap"], wet_need),
              "coverage.moving_air": share(held + moved, need),
              "coverage.moving_air_with_water": share(count["evap"] + moved, wet_need),
              "coverage.load": share(felt(("vent", "evap")), felt(("vent", "evap", "damp", "warm"))),
              "degree_hours_over": math.fsum(r["over"] for r in runs)})
    f["verdict"] = verdict(wet_need, f["coverage.moving_air_with_water"], f["coverage.with_water"])
    return f


def verdict(wet_need, moving, water):
    if wet_need < 150:
        return "hardly-needed"
    if moving >= 0.95 and water >= 0.80:
        return "good"
    return "limits" if moving >= 0.70 else "poor"


def days_of(hours, runs):
    """The hours grouped by the day printed on them, in file order."""
    days = []
    for air, r in zip(hours, runs):
        if not days or days[-1]["day"] != air["day"]:
            days.append({"day": air["day"], "t": [], "kg": 0.0, "pump": 0.0, "evap": 0, "open": 0})
        d = days[-1]
        d["t"].append(air["t"])
        d["kg"] += r["kg"]
        d["pump"] += r["pump"]
        d["evap"] += r["outcome"] == "evap"
        d["open"] += r["outcome"] in ("damp", "warm")
    return days


def water(s, hours, runs, days):
    """A kilogram of water is a litre; a day of use is one on which the
    pump runs; for "both" only evap hours count."""
    kg = math.fsum(r["kg"] for r in runs)
    pump = math.fsum(r["pump"] for r in runs)
    used = sum(d["pump"] > 0 for d in days)
    out = {"evaporated_l": kg, "pump_h": pump, "days_of_use": used, "bleed_l": drained(s, kg, pump, used)}
    out["total_l"] = kg + out["bleed_l"]
    out["peak_day_l"] = max(d["kg"] + drained(s, d["kg"], d["pump"], d["pump"] > 0) for d in days)
    out["peak_hour_l"] = max(r["kg"] for r in runs)
    evap = [r for r in runs if r["outcome"] == "evap"]
    both_kg, both_pump = math.fsum(r["kg"] for r in evap), math.fsum(r["pump"] for r in evap)
    both_days = sum(d["evap"] > 0 for d in days)
    out.update(both_evaporated_l=both_kg, both_pump_h=both_pump, both_days_of_use=both_days,
               both_l=both_kg + drained(s, both_kg, both_pump, both_days))
    return {"water." + k: v for k, v in out.items()}


def uncovered(h, runs, days):
    """Runs and weeks end with the file, they do not wrap round."""
    longest = run = 0
    for r in runs:
        run = run + 1 if r["outcome"] in ("damp", "warm") else 0
        longest = max(longest, run)
    week = max(sum(d["open"] for d in days[max(0, i - 6):i + 1]) for i in range(len(days)))
    rh = [r["rh"] for r in runs if r["rh"] is not None]
    return {"uncovered.longest_run_h": longest, "uncovered.worst_week_h": week,
            "uncovered.hottest_indoor_c": h["set"] + max(r["over"] for r in runs),
            "uncovered.dampest_indoor": max(rh) if rh else 0.0}


def warmest_quarter(mean):
    """The middle of the 91 days in a row with the highest mean, the first of
    equal ones."""
    n, half = len(mean), 45
    quarter = [math.fsum(mean[(m + k) % n] for k in range(-half, half + 1)) / 91 for m in range(n)]
    best = 0
    for m in range(n):
        if quarter[m] > quarter[best] + 1e-9:
            best = m
    return best


def calendar(days):
    """Reading: of whole years only, as the files here are, and every hour as observed; "going back" and
    "going forward" begin on the day beside midsummer and end on midsummer."""
    n = len(days)
    mean = [math.fsum(d["t"]) / len(d["t"]) for d in days]
    midsummer = warmest_quarter(mean)
    circle = [(midsummer - n // 2 + k) % n for k in range(n)]
    hottest = next(k for k in circle if mean[k] >= max(mean) - 1e-9)
    frost = lambda d: min(days[d % n]["t"]) <= 0
    last = next((midsummer - k for k in range(1, n + 1) if frost(midsummer - k)), None)
    first = next((midsummer + k for k in range(1, n + 1) if frost(midsummer + k)), None)
    on = lambda d: None if d is None else days[d % n]["day"]
    evap = [k for k in range(n) if days[circle[k]]["evap"] > 0]
    total, passed, opens, closes = sum(d["evap"] for d in days), 0, None, None
    for k in evap:
        passed += days[circle[k]]["evap"]
        opens = k if opens is None and passed >= 0.05 * total else opens
        closes = k if closes is None and passed >= 0.95 * total else closes
    name = lambda k: None if k is None else days[circle[k]]["day"]
    return {"calendar.hottest_day": on(hottest), "calendar.last_freeze": on(last), "calendar.first_freeze": on(first),
            "calendar.first_evap": name(min(evap, default=None)), "calendar.last_evap": name(max(evap, default=None)),
            "calendar.evap_opens": name(opens), "calendar.evap_closes": name(closes)}
