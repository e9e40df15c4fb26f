"""Library rows of the move list: places as complex numbers, moves and sums at 50 digits."""

from common import Rows, convert, fields, mp, number, quantity, show

CASES = [
    "points=0.5 in,0.375 in;2.25 in,0.375 in;2.25 in,1.625 in;0.5 in,1.625 in&feed_rate=10 in/min&units=inch",
    "points=12 mm,30 mm;48 mm,30 mm;30 mm,8 mm&backlash=0.15 mm&approach=growing&units=metric",
    "points=12 mm,30 mm;48 mm,30 mm;30 mm,8 mm&backlash=0.15 mm&approach=falling&units=metric",
    "points=-17.3 mm,4.05 mm;22.7 mm,-31.9 mm;22.7 mm,60 mm;0 mm,0 mm&feed_rate=250 mm/min&units=metric",
    "points=1 in,25.4 mm;2 in,10 mm;-3 mm,0.5 in&feed_rate=8 in/min&units=metric",
    "points=0.001 in,0.002 in&units=inch",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/move-list", "move_list", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        places = [mp.mpc(*(quantity(part, unit) for part in point.split(","))) for point in given["points"].split(";")]
        moves = [there - here for here, there in zip([mp.mpc(0)] + places, places)]
        reach = max(abs(place) for place in places)
        feed = None
        if "feed_rate" in given:
            value, rate = given["feed_rate"].split(" ")
            feed = convert(number(value), rate, unit + "/min") / 60
        past = 2 * quantity(given["backlash"], unit) if "backlash" in given else 0
        against = 1 if given.get("approach") == "falling" else -1
        for at, (place, move) in enumerate(zip(places, moves)):
            for axis, where, by in (("x", place.real, move.real), ("y", place.imag, move.imag)):
                out.value(inputs, f"/moves/{at}/{axis}", where, unit)
                out.value(inputs, f"/moves/{at}/d{axis}", by, unit, scale=reach)
                if past and by * against > 0:
                    out.value(inputs, f"/moves/{at}/past_{axis}", where + against * past, unit, scale=reach)
            out.value(inputs, f"/moves/{at}/distance", abs(move), unit, scale=reach)
            if feed is not None:
                out.value(inputs, f"/moves/{at}/time", abs(move) / feed, "s", scale=reach / feed)
        total = mp.fsum(abs(move) for move in moves)
        out.value(inputs, "/total/distance", total, unit)
        if feed is not None:
            out.value(inputs, "/total/time", total / feed, "s")
    return out.rows


if __name__ == "__main__":
    show(rows())
