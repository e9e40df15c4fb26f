"""Press fits from the elastic equations: radial movement A r + B / r in both parts, its constants from a linear system."""

from common import Rows, fields, mp, quantity, show

MPA_PER_PSI = mp.mpf("0.45359237") * mp.mpf("9.80665") / mp.mpf("0.0254") ** 2 / mp.mpf(10) ** 6
# Modulus in MPa, Poisson's ratio, expansion for each kelvin.
STEEL = (mp.mpf(207000), mp.mpf("0.292"), mp.mpf("11.3e-6"))
BRONZE = (mp.mpf(100000), mp.mpf("0.34"), mp.mpf("18e-6"))
MATERIALS = {"C93200": BRONZE}
FITS = {"50 mm H7/s6": ("50 mm", "0.059 mm", "0.018 mm"), "80 mm H7/p6": ("80 mm", "0.051 mm", "0.002 mm")}
CASES = [
    "fit=50 mm H7/s6&hub_diameter=100 mm&length=60 mm&hub_yield=350 MPa&shaft_yield=400 MPa&units=metric",
    "diameter=1 in&interference=0.002 in&least_interference=0.001 in&hub_diameter=3 in&shaft_bore=0.75 in"
    "&length=1.5 in&shaft_material=C93200&friction=0.12&pressing_friction=0.15&smoothing=0.0002 in&units=inch",
    "diameter=200 mm&interference=0.2 mm&hub_diameter=260 mm&hub_modulus=205000 MPa&shaft_modulus=70000 MPa"
    "&room_temperature=22 degC&shaft_temperature=-70 degC&assembly_clearance=0.1 mm&units=metric",
    "fit=80 mm H7/p6&hub_diameter=82 mm&length=20 mm&units=metric",
    "diameter=40 mm&interference=0.03 mm&hub_diameter=4000 mm&length=50 mm&units=metric",
]


def lame(hub, shaft, sizes, delta):
    """Pressure and the stresses around both parts at their surfaces, in MPa; sizes and delta are diameters in mm."""
    inner, joint, outer = (size / 2 for size in sizes)

    def radial(part, r):
        modulus, poisson, _ = part
        k = modulus / (1 - poisson**2)
        return [k * (1 + poisson), -k * (1 - poisson) / r**2]

    def around(part, a, b, r):
        modulus, poisson, _ = part
        return modulus / (1 - poisson**2) * (a * (1 + poisson) + b * (1 - poisson) / r**2)

    # Unknown: A and B of the hub, A and B of the shaft.
    hub_joint, shaft_joint = radial(hub, joint), radial(shaft, joint)
    free_inside = [0, 0] + (radial(shaft, inner) if inner else [0, 1])
    system = mp.matrix(
        [
            radial(hub, outer) + [0, 0],
            free_inside,
            hub_joint + [-value for value in shaft_joint],
            [joint, 1 / joint, -joint, -1 / joint],
        ]
    )
    a, b, c, d = mp.lu_solve(system, mp.matrix([0, 0, 0, delta / 2]))
    pressure = -(hub_joint[0] * a + hub_joint[1] * b)
    place = inner if inner else joint
    return {
        "pressure": pressure,
        "hub_stress": around(hub, a, b, joint),
        "hub_outside_stress": around(hub, a, b, outer),
        "shaft_stress": around(shaft, c, d, place),
        "hub_grows": 2 * (a * outer + b / outer),
        "bore_closes": -2 * (c * inner + d / inner) if inner else mp.mpf(0),
    }


def rows():
    """Every library row of this calculator."""
    out = Rows("fits/press", "fits_press", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        if "fit" in given:
            joint, greatest, least = (quantity(text, "mm") for text in FITS[given["fit"]])
        else:
            joint, greatest = (quantity(given[name], "mm") for name in ("diameter", "interference"))
            least = quantity(given.get("least_interference", given["interference"]), "mm")
        smoothing = quantity(given.get("smoothing", "0"), "mm")
        hub, shaft = (MATERIALS.get(given.get(part + "_material"), STEEL) for part in ("hub", "shaft"))
        if "hub_modulus" in given:
            hub = (mp.mpf(given["hub_modulus"].split()[0]), *hub[1:])
            shaft = (mp.mpf(given["shaft_modulus"].split()[0]), *shaft[1:])
        inner = quantity(given.get("shaft_bore", "0"), "mm")
        outer = quantity(given["hub_diameter"], "mm")
        tight = lame(hub, shaft, (inner, joint, outer), greatest - smoothing)
        loose = lame(hub, shaft, (inner, joint, outer), least - smoothing)
        is_inch = given["units"] == "inch"
        stress_unit, stress = ("psi", MPA_PER_PSI) if is_inch else ("N/mm2", 1)
        length_unit, long = ("in", mp.mpf("25.4")) if is_inch else ("mm", 1)
        for name in ("pressure", "hub_stress", "hub_outside_stress", "shaft_stress"):
            out.value(inputs, "/" + name, tight[name] / stress, stress_unit)
        out.value(inputs, "/least_pressure", loose["pressure"] / stress, stress_unit)
        out.value(inputs, "/hub_grows", tight["hub_grows"] / long, length_unit)
        if inner:
            out.value(inputs, "/bore_closes", tight["bore_closes"] / long, length_unit)
        if "hub_yield" in given:
            limit = mp.mpf(given["hub_yield"].split()[0])
            out.value(inputs, "/hub_share", (tight["hub_stress"] + tight["pressure"]) / limit * 100, "percent")
            limit = mp.mpf(given["shaft_yield"].split()[0])
            out.value(inputs, "/shaft_share", -tight["shaft_stress"] / limit * 100, "percent")
        if "length" in given:
            area = mp.pi * joint * quantity(given["length"], "mm")
            holds = mp.mpf(given.get("friction", "0.1")) * loose["pressure"] * area
            presses = mp.mpf(given.get("pressing_friction", "0.2")) * tight["pressure"] * area
            newton = mp.mpf("0.45359237") * mp.mpf("9.80665") if is_inch else 1
            force = "lbf" if is_inch else "N"
            out.value(inputs, "/holding_force", holds / newton, force)
            out.value(inputs, "/pressing_force", presses / newton, force)
            torque = holds * joint / 2000 / (newton * mp.mpf("0.3048") if is_inch else 1)
            out.value(inputs, "/holding_torque", torque, "lbf·ft" if is_inch else "N·m")
        room = mp.mpf(given.get("room_temperature", "20").split()[0])
        clearance = quantity(given["assembly_clearance"], "mm") if "assembly_clearance" in given else joint / 1000
        gap = greatest + clearance
        cold = mp.mpf(given.get("shaft_temperature", str(room)).split()[0])
        heat = room + (gap - shaft[2] * joint * (room - cold)) / (hub[2] * joint)
        alone = room - gap / (shaft[2] * joint)
        for name, celsius in (("hub_temperature", heat), ("shaft_temperature_alone", alone)):
            value, unit = (celsius * mp.mpf(9) / 5 + 32, "°F") if is_inch else (celsius, "°C")
            out.value(inputs, "/" + name, value, unit, scale=mp.mpf(300))
    return out.rows


if __name__ == "__main__":
    show(rows())
