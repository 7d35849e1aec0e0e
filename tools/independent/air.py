"""Moist air: equations (1) to (4), ASHRAE Fundamentals 2017 ch. 1. SI, deg C."""

import math


def standard_pressure(z):  # (1)
    return 101325 * (1 - 2.25577e-5 * z) ** 5.2559


def saturation_pressure(t):
    """(2) ASHRAE Fundamentals 2017 ch. 1 eqs. 5 (ice) and 6 (water); Pa, t in deg C."""
    k = t + 273.15
    if t <= 0.01:
        ln = (-5.6745359e3 / k + 6.3925247 - 9.677843e-3 * k + 6.2215701e-7 * k**2
              + 2.0747825e-9 * k**3 - 9.484024e-13 * k**4 + 4.1635019 * math.log(k))
    else:
        ln = (-5.8002206e3 / k + 1.3914993 - 4.8640239e-2 * k + 4.1764768e-5 * k**2
              - 1.4452093e-8 * k**3 + 6.5459673 * math.log(k))
    return math.exp(ln)


def ratio_from_vapour(e, p):  # (3)
    return 0.621945 * e / (p - e)


def saturated_ratio(t, p):
    return ratio_from_vapour(saturation_pressure(t), p)


def relative_humidity(t, w, p):
    return p * w / (0.621945 + w) / saturation_pressure(t)


def ratio_over_water(t, star, p):  # eq. 33
    return ((2501 - 2.326 * star) * saturated_ratio(star, p) - 1.006 * (t - star)) / (2501 + 1.86 * t - 4.186 * star)


def ratio_over_ice(t, star, p):  # eq. 35
    return ((2830 - 0.24 * star) * saturated_ratio(star, p) - 1.006 * (t - star)) / (2830 + 1.86 * t - 2.1 * star)


def ratio_from_wet_bulb(t, star, p):
    """Reading: at a wet bulb below 0 deg C the wick is ice, so eq. 35; margin of (4)."""
    return ratio_over_water(t, star, p) if star >= -1e-9 else ratio_over_ice(t, star, p)


def wet_bulb(t, w, p):
    """(4) by bisection down to neighbouring numbers."""
    if w >= ratio_over_water(t, 0.0, p) - 1e-12:
        f, low, high = ratio_over_water, 0.0, max(t, 0.0)
    else:
        f, low, high = ratio_over_ice, -100.0, min(t, 0.0)
    if f(t, high, p) <= w:
        return high
    if f(t, low, p) >= w:  # within the margin
        return low
    while True:
        middle = (low + high) / 2
        if middle <= low or middle >= high:
            return middle
        if f(t, middle, p) < w:
            low = middle
        else:
            high = middle


def volume(t, w, p):  # eq. 26, m3 per kg of dry air
    return 287.042 * (t + 273.15) * (1 + 1.607858 * w) / p
