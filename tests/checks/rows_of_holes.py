"""What the scripts of straight patterns share: holes as complex numbers, turned by one of length one and moved."""

from common import convert, fields, mp, number, point, quantity


def turn(degrees):
    """A turn of so many degrees as a complex number; expjpi keeps quarter turns exact."""
    return mp.expjpi(mp.mpf(degrees) / 180)


def listed(given, count):
    """The numbers of the holes that are drilled."""
    if "only" in given:
        return [int(n) for n in given["only"].split(",")]
    skip = [int(n) for n in given.get("skip", "0").split(",")]
    return [n for n in range(1, count + 1) if n not in skip]


def add_pattern(out, inputs, holes):
    """The rows of one request; `holes` are complex numbers in mm in the order of their numbers, hole 1 at zero."""
    given = fields(inputs)
    unit = "in" if given["units"] == "inch" else "mm"
    size = lambda name: quantity(given.get(name, "0 mm"), "mm")
    to_unit = lambda value: convert(value, "mm", unit)
    one = turn(number(given.get("rotation", "0 deg").split(" ")[0]))
    xs, ys = [hole.real for hole in holes], [hole.imag for hole in holes]
    middle = mp.mpc(min(xs) + max(xs), min(ys) + max(ys)) / 2
    if "center_x" in given or "center_y" in given:
        anchor, held = mp.mpc(size("center_x"), size("center_y")), middle
    else:
        anchor, held = mp.mpc(size("start_x"), size("start_y")), holes[0]
    at = {n: anchor + one * (hole - held) for n, hole in enumerate(holes, 1)}
    center = anchor + one * (middle - held)
    drilled = listed(given, len(holes))
    reach = to_unit(max(abs(place) for place in at.values()) + abs(anchor))
    last = mp.mpc(0)
    for index, n in enumerate(drilled):
        path = f"/positions/{index}"
        if "only" in given or "skip" in given:
            out.count(inputs, f"{path}/number", n)
        out.value(inputs, f"{path}/x", to_unit(at[n].real), unit, scale=reach)
        out.value(inputs, f"{path}/y", to_unit(at[n].imag), unit, scale=reach)
        if index in (0, 1, len(drilled) - 1):
            out.value(inputs, f"{path}/dx", to_unit((at[n] - last).real), unit, scale=reach)
            out.value(inputs, f"{path}/dy", to_unit((at[n] - last).imag), unit, scale=reach)
        if index == 0 and abs(at[n] - center) > 1e-9:
            out.value(inputs, f"{path}/angle", mp.degrees(mp.arg(at[n] - center)) % 360, "deg", scale=360)
        last = at[n]
    near = min((abs(at[a] - at[b]) for a in drilled for b in drilled if a < b), default=None)
    if "hole_diameter" in given and near is not None:
        out.value(inputs, "/gap", to_unit(near - size("hole_diameter")), unit, scale=reach)
    if "part" in given:
        corners = [mp.mpc(*point(part, "mm")) for part in given["part"].split(";")]
        low, high = min(c.real for c in corners), max(c.real for c in corners)
        left = min(at[n].real - low for n in drilled)
        back = min(max(c.imag for c in corners) - at[n].imag for n in drilled)
        out.value(inputs, "/edges/0/distance", to_unit(left), unit, scale=reach)
        out.value(inputs, "/edges/1/distance", to_unit(min(high - at[n].real for n in drilled)), unit, scale=reach)
        out.value(inputs, "/edges/3/distance", to_unit(back), unit, scale=reach)
        if "hole_diameter" in given:
            out.value(inputs, "/edges/0/metal", to_unit(left - size("hole_diameter") / 2), unit, scale=reach)
    add_reach(out, inputs, {n: at[n] for n in drilled}, to_unit, unit)
    return at, drilled, to_unit, unit, reach


def add_reach(out, inputs, at, to_unit, unit):
    """The rows of a table's travel in mm: which holes, complex numbers by number, lie past an end of it."""
    given = fields(inputs)
    out_of_reach = []
    for axis, on, below, ends in (("x", "real", "left", ("left", "right")), ("y", "imag", "front", ("front", "back"))):
        if f"travel_{axis}" not in given:
            continue
        places = {n: getattr(place, on) for n, place in at.items()}
        travel = quantity(given[f"travel_{axis}"], "mm")
        span = max(abs(a - b) for a in places.values() for b in places.values())
        out.value(inputs, f"/reach/{axis}/needed", to_unit(span), unit, scale=to_unit(travel))
        out.value(inputs, f"/reach/{axis}/spare", to_unit(travel - span), unit, scale=to_unit(travel))
        left = quantity(given.get(f"travel_{below}", "0 mm"), "mm")
        past = {n: (-left - place, place - travel + left) for n, place in places.items()}
        for n in at:
            for side, how_far in zip(ends, past[n]):
                if f"travel_{below}" in given and how_far > mp.mpf("1e-9"):
                    out_of_reach.append((n, side, how_far))
        if span <= travel:
            out.value(inputs, f"/reach/{axis}/zero_least", to_unit(max(-p for p in places.values())), unit, scale=to_unit(travel))
            out.value(inputs, f"/reach/{axis}/zero_most", to_unit(min(travel - p for p in places.values())), unit, scale=to_unit(travel))
            if f"travel_{below}" in given:
                up, down = (max([mp.mpf(0)] + [past[n][side] for n in at]) for side in (0, 1))
                out.value(inputs, f"/reach/{axis}/zero_move", to_unit(up - down), unit, scale=to_unit(travel))
    for index, (n, side, how_far) in enumerate(out_of_reach):
        out.count(inputs, f"/reach/out_of_reach/{index}/number", n)
        out.value(inputs, f"/reach/out_of_reach/{index}/beyond", to_unit(how_far), unit, scale=to_unit(how_far) + 1)


def add_check(out, inputs, index, pair, laid):
    """The rows of one pair of holes to measure over."""
    at, _, to_unit, unit, reach = laid
    given = fields(inputs)
    apart = abs(at[pair[0]] - at[pair[1]])
    out.count(inputs, f"/checks/{index}/from", pair[0])
    out.count(inputs, f"/checks/{index}/to", pair[1])
    out.value(inputs, f"/checks/{index}/centers", to_unit(apart), unit, scale=reach)
    if "hole_diameter" in given:
        pin = quantity(given["hole_diameter"], "mm")
        out.value(inputs, f"/checks/{index}/over_pins", to_unit(apart + pin), unit, scale=reach)
        out.value(inputs, f"/checks/{index}/between_pins", to_unit(apart - pin), unit, scale=reach)
