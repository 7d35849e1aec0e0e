"""What it is compared with: refrigeration (25) to (27), and money (28)."""

from air import ratio_from_vapour, saturation_pressure, standard_pressure
from house import LATENT, drift, leaks, load

HALF_TON = 6000 * 1055.05585262 / 3600  # W

CAPACITY = (3.670270705, -0.098652414, 0.000955906, 0.006552414, -0.0000156, -0.000131877)
EIR = (-3.302695861, 0.137871531, -0.001056996, -0.012573945, 0.000214638, -0.000145054)


def curve(c, x, y):
    return c[0] + c[1] * x + c[2] * x * x + c[3] * y + c[4] * y * y + c[5] * x * y


def altitude_factor(z):
    """(26) 1 at sea level and below, the last row above 10,000 ft."""
    feet = z / 0.3048
    rows = ((0, 1.0), (2500, 0.98), (5000, 0.97), (7500, 0.95), (10000, 0.93))
    if feet <= 0:
        return 1.0
    for (z0, f0), (z1, f1) in zip(rows, rows[1:]):
        if feet <= z1:
            return f0 + (f1 - f0) * (feet - z0) / (z1 - z0)
    return rows[-1][1]


def closed_house(h, site, hours):
    """(25): what the closed house asks for, W, and where it ends, hour by hour."""
    room = ratio_from_vapour(0.5 * saturation_pressure(h["set"]), standard_pressure(site))
    asked, ends, before = [], [], h["set"]
    for air in hours:
        q, leak = load(h, air, before), leaks(h, air)
        if q > 0 and q + leak > 0:
            asked.append(max(0.0, q + leak) + h["latent"] + h["leak"] * LATENT * max(0.0, air["w"] - room))
            before = h["set"]
        else:
            asked.append(0.0)
            before = max(h["heat"], min(h["set"], drift(h, air, before)))  # (17a)
        ends.append(before)
    return asked, ends


def smallest(asked, factors):
    """(27) the smallest multiple of half a ton short in at most 0.4 % of the hours."""
    halves = 1
    while sum(q > halves * HALF_TON * c for q, c in zip(asked, factors)) > 0.004 * len(asked):
        halves += 1
    return halves * HALF_TON


def refrigeration(s, h, site, hours):
    """(25) to (27): kWh closed an hour, house temperatures, capacity and unmet hours."""
    asked, ends = closed_house(h, site, hours)
    x, factor = s["ac.indoor_wet_bulb"] * 1.8 + 32, altitude_factor(site)
    outdoors = [air["t"] * 1.8 + 32 for air in hours]
    factors = [factor * curve(CAPACITY, x, y) / curve(CAPACITY, 67, 95) for y in outdoors]
    rated = s["ac.capacity"] if s["ac.capacity"] is not None else smallest(asked, factors)
    cop = s["ac.eer2"] if s["ac.eer2"] is not None else -0.02 * s["ac.seer2"] ** 2 + 1.12 * s["ac.seer2"]
    cop *= s["ac.field_share"] / 3.412142
    kwh, unmet = [], 0
    for q, c, y in zip(asked, factors, outdoors):
        cap, eir = rated * c, curve(EIR, x, y) / curve(EIR, 67, 95) / factor
        plr = min(1.0, q / cap)
        unmet += q > cap
        kwh.append(plr * cap * eir / ((1 - s["ac.cycling"] * (1 - plr)) * cop) / 1000)
    return kwh, ends, rated, unmet


def money(s, f, spent):
    """(28) spent is what the year's electricity of each way costs; over the longer of the lives, real terms, year-end payments;
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
        energy = spent[way]
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
