"""What it is compared with: refrigeration (25) to (27), and money (28)."""

import math

from air import ratio_from_vapour, saturation_pressure, standard_pressure
from cooler import LATENT
from year import exceeded

TON = 12000 * 1055.05585262 / 3600  # W


CAPACITY = (3.670270705, -0.098652414, 0.000955906, 0.006552414, -0.0000156, -0.000131877)
EIR = (-3.302695861, 0.137871531, -0.001056996, -0.012573945, 0.000214638, -0.000145054)


def curve(c, x, y):
    return c[0] + c[1] * x + c[2] * x * x + c[3] * y + c[4] * y * y + c[5] * x * y


def altitude_factor(z):
    """(26) Reading: 1 at sea level and below, the last row above 10,000 ft."""
    feet = z / 0.3048
    rows = ((0, 1.0), (2500, 0.98), (5000, 0.97), (7500, 0.95), (10000, 0.93))
    if feet <= 0:
        return 1.0
    for (z0, f0), (z1, f1) in zip(rows, rows[1:]):
        if feet <= z1:
            return f0 + (f1 - f0) * (feet - z0) / (z1 - z0)
    return rows[-1][1]


def refrigeration(s, h, site, hours, runs):
    """(25) to (27): kWh closed an hour, capacity and unmet hours."""
    p0 = standard_pressure(site)
    infiltration = (s["house.infiltration"] * s["house.floor_area"] * s["house.ceiling"] / 3600) * 1.2 * p0 / 101325
    room = ratio_from_vapour(0.5 * saturation_pressure(h["set"]), p0)
    x, factor = s["ac.indoor_wet_bulb"] * 1.8 + 32, altitude_factor(site)
    wanted = []
    for air, r in zip(hours, runs):
        q, load = r["q"], 0.0
        if q > 0:
            load = (max(0.0, q + infiltration * 1006 * (air["t"] - h["set"])) + h["latent"]
                    + infiltration * LATENT * max(0.0, air["w"] - room))
        y = air["t"] * 1.8 + 32
        wanted.append((load, factor * curve(CAPACITY, x, y) / curve(CAPACITY, 67, 95),
                       curve(EIR, x, y) / curve(EIR, 67, 95) / factor))
    rated = s["ac.capacity"]
    if rated is None:
        # Reading: "meets the 99.6 % hour": the rating an hour asks for, its own
        # load over its own capacity factor, exceeded in 0.4 % of all hours.
        rated = math.ceil(exceeded([load / c for load, c, _ in wanted], 0.004) / (TON / 2)) * TON / 2
    cop = s["ac.eer2"] if s["ac.eer2"] is not None else -0.02 * s["ac.seer2"] ** 2 + 1.12 * s["ac.seer2"]
    cop /= 3.412142
    kwh, unmet = [], 0
    for load, c, eir in wanted:
        cap = rated * c
        plr = min(1.0, load / cap)
        unmet += load > cap
        kwh.append(plr * cap * eir / ((1 - s["ac.cycling"] * (1 - plr)) * cop) / 1000)
    return kwh, rated, unmet


def money(s, f):
    """(28) Reading: over the longer of the lives, real terms, year-end payments;
    replacements when a life ends inside the study, straight-line residual value;
    escalation on energy and water, not on care."""
    years = int(max(s["price.cooler_life"], s["price.ac_life"]))
    rate, growth = s["price.discount"], s["price.escalation"]
    parts = {"cooler": (s["price.cooler_installed"], s["price.cooler_life"]),
             "ac": (s["price.ac_installed"], s["price.ac_life"])}
    ways = {"cooler": (("cooler",), f["energy.cooler_kwh"], f["water.total_l"]),
            "refrigerated": (("ac",), f["energy.refrigerated_kwh"], 0.0),
            "both": (("cooler", "ac"), f["energy.both_kwh"], f["water.both_l"])}
    out = {"money.years": years}
    for way, (owns, kwh, litres) in ways.items():
        energy = kwh * s["price.electricity"]
        wet = litres / 1000 * (s["price.water"] + s["price.sewer"])
        care = sum(s[f"price.{p}_care"] for p in owns)
        present = 0.0
        for cost, life in (parts[p] for p in owns):
            bought, at = 0, 0.0
            while at < years:
                present += cost / (1 + rate) ** at
                bought, at = bought + 1, at + life
            present -= cost * (at - years) / life / (1 + rate) ** years
        for k in range(1, years + 1):
            present += ((energy + wet) * (1 + growth) ** k + care) / (1 + rate) ** k
        out.update({f"money.{way}.installed": sum(parts[p][0] for p in owns), f"money.{way}.energy": energy,
                    f"money.{way}.water": wet, f"money.{way}.care": care, f"money.{way}.yearly": energy + wet + care,
                    f"money.{way}.present_value": present, f"money.{way}.plant_water_l": kwh * s["plant.water"],
                    f"money.{way}.co2_kg": kwh * s["plant.co2"]})
    for way in ("cooler", "both"):
        more = out[f"money.{way}.installed"] - out["money.refrigerated.installed"]
        saved = out["money.refrigerated.yearly"] - out[f"money.{way}.yearly"]
        if more <= 0:
            back = 0.0 if saved >= 0 else None
        else:
            back = more / saved if saved > 0 else None
        out[f"money.{way}.payback_years"] = back
    return out
