"""Tool life: the law as a straight line between logarithms, its best points by search."""

from common import Rows, fields, mp, number, show
from cutting import put, si

CASES = [
    "speed_for_one_minute=200 ft/min&exponent=0.125&cutting_speed=100 ft/min&change_time=3 min&edge_cost=2&hourly_rate=60&units=inch",
    "first_speed=160 m/min&first_life=5 min&second_speed=100 m/min&second_life=41 min&tool_life=30 min&units=metric",
    "speed_for_one_minute=500 m/min&exponent=0.25&tool_life=45 min&change_time=90 s&units=metric",
    "first_speed=400 ft/min&first_life=20 min&second_speed=200 ft/min&second_life=60 min&cutting_speed=300 ft/min&units=inch",
    "speed_for_one_minute=100 m/min&exponent=0.05&cutting_speed=100 m/min&units=metric",
    "speed_for_one_minute=1000 ft/min&exponent=0.9&cutting_speed=10 ft/min&units=inch",
    "speed_for_one_minute=300 m/min&exponent=0.3&tool_life=0.1 min&change_time=1 s&edge_cost=0.01&hourly_rate=100&units=inch",
    "first_speed=100 m/min&first_life=60 min&second_speed=101 m/min&second_life=59 min&tool_life=240 min&units=metric",
    "first_speed=90 m/min&first_life=20 min&exponent=0.25&cutting_speed=80 m/min&units=metric",
    "first_speed=90 m/min&first_life=20 min&exponent=0.25&cutting_speed=80 m/min&tested_feed=0.25 mm&feed=0.4 mm&feed_exponent=0.5&tested_depth=2 mm&depth_of_cut=3 mm&depth_exponent=0.15&change_time=2 min&units=metric",
]


def best(cost, guess):
    """The life at which the cost of a part is least."""
    return mp.exp(mp.findroot(lambda x: mp.diff(lambda y: cost(mp.exp(y)), x), mp.log(guess)))


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/tool-life", "tool_life", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        if "first_life" in given and "exponent" in given:
            slope = number(given["exponent"])
            constant = mp.log(si(given["first_speed"])) + slope * mp.log(si(given["first_life"]) / 60)
        elif "exponent" in given:
            constant, slope = mp.log(si(given["speed_for_one_minute"])), number(given["exponent"])
        else:
            points = [(mp.log(si(given[a + "_life"]) / 60), mp.log(si(given[a + "_speed"]))) for a in ("first", "second")]
            slope = (points[0][1] - points[1][1]) / (points[1][0] - points[0][0])
            constant = points[0][1] + slope * points[0][0]
        put(out, inputs, given, "/exponent", "plain", slope)
        put(out, inputs, given, "/speed_for_one_minute", "speed", mp.exp(constant))
        if "feed" in given:
            # In logarithms feed and depth move the line down.
            constant -= number(given["feed_exponent"]) * (mp.log(si(given["feed"])) - mp.log(si(given["tested_feed"])))
            constant -= number(given["depth_exponent"]) * (mp.log(si(given["depth_of_cut"])) - mp.log(si(given["tested_depth"])))
            put(out, inputs, given, "/speed_for_one_minute_here", "speed", mp.exp(constant))
        speed = lambda life: mp.exp(constant - slope * mp.log(life / 60))
        if "cutting_speed" in given:
            put(out, inputs, given, "/tool_life", "time", 60 * mp.exp((constant - mp.log(si(given["cutting_speed"]))) / slope))
        if "tool_life" in given:
            put(out, inputs, given, "/cutting_speed", "speed", speed(si(given["tool_life"])))
        if "change_time" in given:
            change = si(given["change_time"])
            # A part takes the time of its cut, and of the changes that the cut uses up.
            life = best(lambda life: (1 + change / life) / speed(life), 7 * change)
            put(out, inputs, given, "/life_for_output", "time", life)
            put(out, inputs, given, "/speed_for_output", "speed", speed(life))
        if "edge_cost" in given:
            rate = number(given["hourly_rate"]) / 3600
            life = best(lambda life: (rate * (1 + change / life) + number(given["edge_cost"]) / life) / speed(life), 10 * change)
            put(out, inputs, given, "/life_for_cost", "time", life)
            put(out, inputs, given, "/speed_for_cost", "speed", speed(life))
    return out.rows


if __name__ == "__main__":
    show(rows())
