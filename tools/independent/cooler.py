"""One hour: the cooler (9) to (14), what the hour becomes (18) to (21)."""

from air import ratio_from_wet_bulb, relative_humidity, saturated_ratio, saturation_pressure, volume, wet_bulb
from house import LATENT, drift, free_load, leaks, load

CFM = 0.3048**3 / 60  # m3/s
DRIVES = {"one-speed": (1.0, 1.0), "two-speed": (0.67, 0.45), "variable": (0.3, 0.08)}  # (19) s_min and a


def rated_fan(kind, flow):
    """The default fan power, W, of an airflow in m3/s."""
    per_cfm = min(0.6, 2.79 * (flow / CFM) ** -0.29)
    if kind != "direct":
        per_cfm = max(0.27, per_cfm)
    return per_cfm * flow / CFM


def fan_stream(s, t, w, p):
    """(12), (13): dry-air flow, cp, fan watts and temperature where it meets the room."""
    v = volume(t, w, p)
    m = s["cooler.airflow"] / v
    cp = 1006 + 1860 * w
    fan = s["cooler.fan_power"] * ((1 + w) / v) / 1.2
    return {"m": m, "cp": cp, "fan": fan, "t": t + fan / (m * cp) + s["cooler.duct_gain"], "w": w}


def supply(s, air):
    """(9) to (14): the stream with the water on, and what a kg of it evaporated (21)."""
    t, w, p, wb = air["t"], air["w"], air["p"], air["wb"]
    # (14) pads are the direct stage's; the indirect stage keeps its rating.
    direct = s["cooler.effectiveness"] * s["cooler.pad_condition"]
    kind, x = s["cooler.kind"], 0.0
    if kind != "direct":
        t1 = t - s["cooler.indirect_effectiveness"] * (t - wb)  # (10)
        x = (1006 + 1860 * w) * (t - t1) / LATENT
        t = t1
        if kind == "two-stage":
            wb = wet_bulb(t1, w, p)  # (11)
    if kind == "indirect":
        t2, w2 = t, w
    else:
        t2 = t - direct * (t - wb)  # (9)
        w2 = ratio_from_wet_bulb(t2, wb, p)
    stream = fan_stream(s, t2, w2, p)
    stream["water"] = max(0.0, w2 - w) + x
    return stream


def share_of_flow(s, h, air, stream, q):
    """(19) while the setpoint is held: share of full flow and running fraction."""
    low = s["cooler.lowest_speed"]
    b = stream["m"] * stream["cp"] * (h["set"] - stream["t"])
    if q >= low * b:
        share = q / b
    else:
        leak = leaks(h, air)
        share = (q + leak) / (b + leak / low)
    return share, min(1.0, share / low)


def humidity(h, air, stream, share, run, t_in):
    """(20) indoor relative humidity; the house breathes while the fan rests."""
    supplied, leaked = stream["m"] * share, h["leak"] * (1 - run)
    w = (supplied * stream["w"] + leaked * air["w"] + h["latent"] / LATENT) / (supplied + leaked)
    return relative_humidity(t_in, min(w, saturated_ratio(t_in, air["p"])), air["p"])


def indoors(s, h, air, before, stream, q):
    """(18) to (20) with one stream: held or not, share, running fraction, temperature, RH."""
    flow = stream["m"] * stream["cp"]
    full = ((h["ua"] * air["t"] + h["solar"] * air["ghi"] + h["sensible"] + h["memory"] * before + flow * stream["t"])
            / (h["ua"] + h["memory"] + flow))
    if full <= h["set"]:
        held, t_in = True, h["set"]
        share, run = share_of_flow(s, h, air, stream, q)
    else:
        held, shut = False, drift(h, air, before)
        helps = full < shut  # (18a)
        share = run = 1.0 if helps else 0.0
        t_in = full if helps else shut
    return held, share, run, t_in, humidity(h, air, stream, share, run, t_in)


def fan_power(s, rated, share, run):
    """(19) mean watts over the hour; rated is the fan at full speed in this air."""
    low, a = s["cooler.lowest_speed"], s["cooler.low_speed_power"]
    if s["cooler.drive"] == "variable":
        return rated * (a + (1 - a) * max(share, low) ** 3) * run
    if low == 1:
        a = 1.0
    if share < low:
        return a * rated * run
    x = (share - low) / (1 - low) if low < 1 else 1.0
    return rated * (a * (1 - x) + x)


def moved(s, h, r):
    """A damp or warm hour that people bear who feel the air move."""
    warmer = h["set"] + s["house.moving_air"]
    return (r["indoor"] <= warmer
            and r["rh"] * saturation_pressure(r["indoor"]) / saturation_pressure(warmer) <= h["limit"])


def run_hour(s, h, air, before):
    """What the hour becomes for a house that ended the last one at `before`."""
    q = load(h, air, before)
    wet = supply(s, air)
    r = {"q": q, "free": free_load(h, air), "supply": wet, "outcome": "idle", "share": 0.0, "run": 0.0, "kwh": 0.0,
         "kg": 0.0, "pump": 0.0, "indoor": None, "rh": None, "over": 0.0, "moved": False}
    if not (q > 0 and q + leaks(h, air) > 0):  # (17)
        r["house"] = max(h["heat"], min(h["set"], drift(h, air, before)))  # (17a)
        return r
    stream = fan_stream(s, air["t"], air["w"], air["p"])
    held, share, run, t_in, rh = indoors(s, h, air, before, stream, q)
    if held and rh <= h["limit"]:
        r["outcome"] = "vent"
    else:
        stream = wet
        held, share, run, t_in, rh = indoors(s, h, air, before, stream, q)
        r["outcome"] = ("evap" if rh <= h["limit"] else "damp") if held else "warm"
    r.update(share=share, run=run, indoor=t_in, rh=rh, house=t_in)
    power = fan_power(s, stream["fan"], share, run)
    if r["outcome"] != "vent":
        r["pump"] = run
        power += s["cooler.pump_power"] * run
        r["kg"] = 3600 * stream["m"] * share * stream["water"]  # (21)
    r["kwh"] = power / 1000
    if r["outcome"] in ("damp", "warm"):
        r["moved"] = moved(s, h, r)
    if r["outcome"] == "warm":
        r["over"] = t_in - h["set"]
    return r


def run_season(s, h, hours):
    """Every hour in turn; the house starts at the setpoint."""
    runs, before = [], h["set"]
    for air in hours:
        runs.append(run_hour(s, h, air, before))
        before = runs[-1]["house"]
    return runs
