"""Library rows of the stepped profile: the cut surface traced numerically. From feet along the profile a ray goes out
square to it until it meets a place of the cutter; the longest ray is the greatest ridge. The cutter's places are found
by turning and shifting complex numbers."""

from common import Rows, fields, mp, quantity, show

CASES = [
    # from, to, radius, sense, cutter, diameter, side, then step; the number of steps is stated by the step.
    "from=0 in,0 in&to=1.5 in,0.402 in&cutter=flat&diameter=1/2 in&side=left&step=0.02 in&units=inch",
    "from=0 mm,0 mm&to=30 mm,40 mm&cutter=ball&diameter=10 mm&side=right&step=2 mm&units=metric",
    "from=0 mm,0 mm&to=30 mm,40 mm&cutter=flat&diameter=10 mm&side=left&step=2.5 mm&units=metric",
    "from=40 mm,-5 mm&to=10 mm,12 mm&cutter=ball&diameter=8 mm&side=left&step=1.1 mm&units=metric",
    "from=20 mm,0 mm&to=0 mm,20 mm&radius=20 mm&sense=counterclockwise&cutter=ball&diameter=10 mm&side=right&step=1.6 mm&units=metric",
    "from=20 mm,0 mm&to=0 mm,20 mm&radius=20 mm&sense=counterclockwise&cutter=ball&diameter=10 mm&side=left&step=1.6 mm&units=metric",
    "from=0 in,0 in&to=1 in,0.25 in&radius=1 in&sense=clockwise&cutter=ball&diameter=3/8 in&side=left&step=0.05 in&units=inch",
    "from=-25 mm,0 mm&to=25 mm,0 mm&radius=25 mm&sense=clockwise&cutter=ball&diameter=6 mm&side=left&step=3 mm&units=metric",
    "from=20 mm,0 mm&to=0 mm,20 mm&radius=20 mm&sense=counterclockwise&cutter=flat&diameter=10 mm&side=right&step=1.6 mm&units=metric",
    "from=0 mm,0 mm&to=18 mm,24 mm&radius=30 mm&sense=counterclockwise&cutter=flat&diameter=12 mm&side=left&step=1 mm&units=metric",
    # Corners: the metal is found from the corner by trying on which side of the profile it lies.
    "corner_at=upper_right&radius=1/4 in&cutter=ball&diameter=3/8 in&step=0.03 in&units=inch",
    "corner_at=upper_left&corner_point=12 mm,-7 mm&radius=8 mm&cutter=flat&diameter=6 mm&step=0.9 mm&units=metric",
    "corner_at=lower_right&corner_kind=outside&corner_point=-30 mm,45 mm&radius=5 mm&cutter=ball&diameter=10 mm&step=0.7 mm&units=metric",
    "corner_at=lower_left&corner_kind=inside&corner_point=40 mm,0 mm&radius=6 mm&cutter=ball&diameter=8 mm&step=0.8 mm&units=metric",
    "corner_at=upper_right&corner_kind=inside&radius=1/2 in&cutter=ball&diameter=1/2 in&step=0.06 in&units=inch",
    "corner_at=upper_right&chamfer=2 mm&cutter=flat&diameter=10 mm&step=0.2 mm&units=metric",
    "corner_at=upper_left&chamfer=1/8 in&chamfer_angle=30 deg&cutter=ball&diameter=1/2 in&step=0.02 in&units=inch",
    "corner_at=lower_right&corner_kind=inside&corner_point=5 mm,6 mm&chamfer=3 mm&chamfer_angle=60 deg&cutter=flat&diameter=8 mm&step=0.5 mm&units=metric",
]


def corner(given, unit):
    """The profile of a corner: from the edge along X to the edge along Y, round a center or straight; and its ends."""
    sharp = mp.mpc(*(quantity(part, unit) for part in given.get("corner_point", "0,0").split(",")))
    up, right = given["corner_at"].split("_")
    # From the sharp corner back along both edges, whether they bound the part or the opening.
    back = mp.mpc(-1 if right == "right" else 1, -1 if up == "upper" else 1)
    inside = given.get("corner_kind") == "inside"
    away = back if inside else -back
    if "radius" in given:
        radius = quantity(given["radius"], unit)
        middle = sharp + radius * back
        first, last = mp.mpc(0, -back.imag), mp.mpc(-back.real, 0)
        spin = mp.sign((mp.conj(first) * last).imag)

        def at(part):
            arm = first * mp.expj(spin * part * mp.pi / 2)
            return middle + radius * arm, -arm if inside else arm

        return at, radius * mp.pi / 2
    width = quantity(given["chamfer"], unit)
    lean = mp.radians(mp.mpf(given.get("chamfer_angle", "45 deg").split()[0]))
    first, last = sharp + width * back.real, sharp + mp.mpc(0, width * mp.tan(lean) * back.imag)
    square = mp.mpc(0, 1) * (last - first) / abs(last - first)
    if (mp.conj(square) * away).real < 0:
        square = -square
    return lambda part: (first + part * (last - first), square), abs(last - first)


def profile(given, unit):
    """A function from 0..1 to the point of the profile and the direction towards the cutter, and the length."""
    if "corner_at" in given:
        return corner(given, unit)
    first = mp.mpc(*(quantity(part, unit) for part in given["from"].split(",")))
    last = mp.mpc(*(quantity(part, unit) for part in given["to"].split(",")))
    turn_left = mp.mpc(0, 1) if given["side"] == "left" else mp.mpc(0, -1)
    if "radius" not in given:
        way = last - first
        return lambda part: (first + part * way, turn_left * way / abs(way)), abs(way)
    radius = quantity(given["radius"], unit)
    spin = 1 if given["sense"] == "counterclockwise" else -1
    # The centre is at one distance from both ends, on the side to which the arc turns.
    half = (last - first) / 2
    depth = mp.sqrt(radius**2 - abs(half) ** 2)
    centre = first + half + spin * mp.mpc(0, 1) * depth * half / abs(half)
    angle = 2 * mp.asin(abs(half) / radius)

    def at(part):
        arm = (first - centre) * mp.expj(spin * part * angle)
        return centre + arm, turn_left * spin * mp.mpc(0, 1) * arm / abs(arm)

    return at, radius * angle


def into_ball(foot, square, middle, radius):
    """Where a ray enters a circle, or None."""
    apart = (foot - middle) * mp.conj(square)
    under = radius**2 - apart.imag**2
    if under < 0:
        return None
    enter, leave = -apart.real - mp.sqrt(under), -apart.real + mp.sqrt(under)
    return None if leave < 0 else max(enter, mp.mpf(0))


def into_flat(foot, square, end, radius):
    """Where a ray enters a square-ended cutter whose body reaches away from the metal along Y, or None."""
    body = 1 if square.imag > 0 else -1
    enter, leave = mp.mpf(0), mp.inf
    walls = [(square.real, foot.real - (end.real - radius)), (-square.real, end.real + radius - foot.real)]
    for speed, room in walls + [(body * square.imag, body * (foot.imag - end.imag))]:
        # Inside where room + speed * t >= 0; a hair of rounding is no gap.
        if abs(speed) < mp.mpf("1e-45"):
            if room < -mp.mpf("1e-40"):
                return None
        elif speed > 0:
            enter = max(enter, -room / speed)
        else:
            leave = min(leave, -room / speed)
    return enter if enter <= leave + mp.mpf("1e-40") else None


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/stepped-profile", "stepped_profile", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        at, length = profile(given, unit)
        radius = quantity(given["diameter"], unit) / 2
        steps = int(mp.ceil(length / quantity(given["step"], unit) - mp.mpf("1e-30")))
        part = lambda step: mp.mpf(step) / steps
        ball = given["cutter"] == "ball"
        places = []
        # A square cutter keeps to one side, also where the profile is level and has none.
        to_side = mp.mpc(mp.sign(at(mp.mpf("0.5"))[1].real) * radius, 0)
        for step in range(steps + 1):
            foot, square = at(part(step))
            aside = square * radius if ball else to_side
            places.append(foot + aside)
        entry = into_ball if ball else into_flat

        def left(foot_at, near):
            foot, square = at(foot_at)
            met = [entry(foot, square, place, radius) for place in near]
            return min(value for value in met if value is not None)

        greatest = mp.mpf(0)
        for step in range(steps):
            near = places[max(0, step - 2) : step + 4]
            low, high = part(step), part(step + 1)
            for _ in range(110):
                third = (high - low) / 3
                if left(low + third, near) < left(high - third, near):
                    low += third
                else:
                    high -= third
            greatest = max(greatest, left((low + high) / 2, near))
        size = max(abs(place) for place in places) + radius
        if "corner_at" in given:
            for name, end in (("first_point", 0), ("last_point", 1)):
                out.value(inputs, f"/{name}/x", at(mp.mpf(end))[0].real, unit, scale=size)
                out.value(inputs, f"/{name}/y", at(mp.mpf(end))[0].imag, unit, scale=size)
        out.count(inputs, "/steps", steps)
        out.value(inputs, "/length", length, unit)
        out.value(inputs, "/step", length / steps, unit)
        out.value(inputs, "/cusp", greatest, unit, scale=size * mp.mpf("1e-3"))
        for step in (0, 1, steps // 2, steps):
            out.value(inputs, f"/points/{step}/x", places[step].real, unit, scale=size)
            out.value(inputs, f"/points/{step}/y", places[step].imag, unit, scale=size)
    return out.rows


if __name__ == "__main__":
    show(rows())
