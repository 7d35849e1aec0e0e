"""One hour: the cooler (9) to (14), the house (15) to (17), the outcome (18) to (21)."""

from air import ratio_from_wet_bulb, relative_humidity, volume, wet_bulb

LATENT = 2.45e6  # J/kg, (20)


def fan_stream(s, t, w, p):
    """(12), (13): dry-air flow, cp, fan watts and temperature after the fan."""
    v = volume(t, w, p)
    m = s["cooler.airflow"] / v
    cp = 1006 + 1860 * w
    fan = s["cooler.fan_power"] * ((1 + w) / v) / 1.2
    return {"m": m, "cp": cp, "fan": fan, "t": t + fan / (m * cp), "w": w}


def supply(s, air):
    """(9) to (14): the stream with the water on, and x of (21)."""
    t, w, p, wb = air["t"], air["w"], air["p"], air["wb"]
    # Reading: pads are the direct stage's; the indirect stage keeps its rating.
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


def house(s, design_db, design_ghi):
    """(15), (16) and the design load of (17)."""
    area, people = s["house.floor_area"], s["house.people"]
    h = {"set": s["house.setpoint"], "limit": s["house.humidity_limit"],
         "solar": s["house.solar_share"] * area, "ua": s["house.heat_loss"] * area,
         "sensible": 136 + 2.2 * area + 22 * people, "latent": 20 + 0.22 * area + 12 * people}
    if s["house.design_load"] > 0:
        h["ua"] = (s["house.design_load"] - h["solar"] * design_ghi - h["sensible"]) / (design_db - h["set"])
    return h


def indoors(h, air, stream, q):
    """(18) to (20): full-flow temperature, share of full flow, indoor state."""
    flow = stream["m"] * stream["cp"]
    full = (h["ua"] * air["t"] + h["solar"] * air["ghi"] + h["sensible"] + flow * stream["t"]) / (h["ua"] + flow)
    held = full <= h["set"]
    share = q / (flow * (h["set"] - stream["t"])) if held else 1.0
    w_in = stream["w"] + h["latent"] / (LATENT * stream["m"] * share)
    t_in = h["set"] if held else full
    return held, share, t_in, relative_humidity(t_in, w_in, air["p"])


def run_hour(s, h, air):
    """What the hour becomes, with (19) and (21)."""
    q = h["ua"] * (air["t"] - h["set"]) + h["solar"] * air["ghi"] + h["sensible"]  # (17)
    wet = supply(s, air)
    r = {"q": q, "supply": wet, "outcome": "idle", "share": 0.0, "run": 0.0, "kwh": 0.0, "kg": 0.0,
         "pump": 0.0, "indoor": None, "rh": None, "over": 0.0}
    if q <= 0:
        return r
    stream = fan_stream(s, air["t"], air["w"], air["p"])
    held, share, t_in, rh = indoors(h, air, stream, q)
    if held and rh <= h["limit"]:
        r["outcome"] = "vent"
    else:
        stream = wet
        held, share, t_in, rh = indoors(h, air, stream, q)
        r["outcome"] = ("evap" if rh <= h["limit"] else "damp") if held else "warm"
    level = max(share, s["cooler.lowest_speed"])
    r.update(share=share, run=share / level, indoor=t_in, rh=rh)
    power = stream["fan"] * level**3
    if r["outcome"] != "vent":
        r["pump"] = r["run"]
        power += s["cooler.pump_power"]
        r["kg"] = 3600 * stream["m"] * share * stream["water"]  # (21)
    r["kwh"] = power * r["run"] / 1000
    if r["outcome"] == "warm":
        r["over"] = t_in - h["set"]
    return r
