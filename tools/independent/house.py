"""The house: (15) to (17a), and what leaks into it when it is closed (25)."""

from air import standard_pressure

LATENT = 2.45e6  # J/kg, (20)


def house(s, site, design_db, design_ghi):
    """The house's figures at the stated setpoint, and the design load of (17)."""
    area, people = s["house.floor_area"], s["house.people"]
    changes = max(0.1, s["house.infiltration"])
    h = {"limit": s["house.humidity_limit"], "solar": s["house.solar_share"] * area, "ua": s["house.heat_loss"] * area,
         "memory": 1000 * s["house.thermal_mass"] * area / 3600,
         "leak": (changes * area * s["house.ceiling"] / 3600) * 1.2 * standard_pressure(site) / 101325,
         "sensible": 136 + 2.2 * area + 22 * people, "latent": 20 + 0.22 * area + 12 * people}
    h = kept_at(h, s["house.setpoint"])
    if s["house.design_load"] > 0:
        h["ua"] = (s["house.design_load"] - h["solar"] * design_ghi - h["sensible"]) / (design_db - h["set"])
        if h["ua"] <= 0 or design_db == h["set"]:
            raise ValueError("house.design_load leaves no heat loss")
    return h


def kept_at(h, setpoint):
    """The same house kept at another temperature.

    A stated design load is one of the stated setpoint; the house it
    describes, UA, stays when people set the cooler higher.
    """
    return dict(h, set=setpoint, heat=min(20.0, setpoint))


def free_load(h, air):
    """(17) without its K term."""
    return h["ua"] * (air["t"] - h["set"]) + h["solar"] * air["ghi"] + h["sensible"]


def load(h, air, before):
    """(17) q, with the heat the house has kept since the hour before."""
    return free_load(h, air) + h["memory"] * (before - h["set"])


def leaks(h, air):
    """(17) I, what leaks into the closed house."""
    return h["leak"] * 1006 * (air["t"] - h["set"])


def drift(h, air, before):
    """(17a) the shut house at the end of the hour."""
    loss = h["ua"] + h["leak"] * 1006
    return ((loss * air["t"] + h["solar"] * air["ghi"] + h["sensible"] + h["memory"] * before)
            / (loss + h["memory"]))
