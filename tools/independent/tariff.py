"""(28a) The price of electricity hour by hour: a season, and in it peak hours by the clock on the wall."""

import datetime

# The first day on which clocks are ahead, and the first on which they no longer are.
AHEAD = {"us": ((3, 11), (11, 4)), "eu": ((3, 28), (10, 28)), "south": ((10, 4), (4, 4))}


def clocks(state):
    """The default of price.summer_time."""
    return "no" if state in (None, "AZ", "HI") else "us"


def summer_time(s, begins):
    """Whether clocks stand an hour ahead; whole days count."""
    if s["price.summer_time"] == "no":
        return False
    forward, back = AHEAD[s["price.summer_time"]]
    day = (begins.month, begins.day)
    return forward <= day < back if forward < back else day >= forward or day < back


def in_season(s, month):
    first, last = s["price.season_first"], s["price.season_last"]
    return first <= month <= last if first <= last else month >= first or month <= last


def peak(s, begins):
    wall = begins + datetime.timedelta(hours=summer_time(s, begins))
    since, until = s["price.peak_from"], s["price.peak_to"]
    return since <= wall.hour < until if since <= until else wall.hour >= since or wall.hour < until


def price(s, begins):
    """What a kWh costs in the hour that begins then."""
    if not in_season(s, begins.month):
        return s["price.electricity"]
    plain = s["price.season_electricity"]
    if not peak(s, begins):
        return plain
    share = 5 / 7 if s["price.peak_days"] == "weekdays" else 1.0
    return share * s["price.peak_electricity"] + (1 - share) * plain
