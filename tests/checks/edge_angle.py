"""Edge angle: the argument of a complex number; the tap as what a turn back moves the jaw's end."""

from common import Rows, convert, fields, mp, point, quantity, show

CASES = [
    "first=0 in,0.1 in&second=5 in,0.112 in&along=x_axis&jaw_length=6 in&units=inch",
    "first=5 in,0.112 in&second=0 in,0.1 in&along=x_axis&jaw_length=6 in&units=inch",
    "first=12.4 mm,10 mm&second=10.85 mm,410 mm&along=y_axis&jaw_length=500 mm&units=metric",
    "first=10.85 mm,10 mm&second=12.4 mm,410 mm&along=y_axis&jaw_length=150 mm&units=metric",
    "first=1 in,1 in&second=4 in,-0.5 in&along=x_axis&jaw_length=4 in&units=inch",
    "first=0 mm,0 mm&second=30 mm,50 mm&along=x_axis&units=metric",
    "first=0 mm,0 mm&second=-30 mm,50 mm&along=x_axis&units=metric",
    "first=0 mm,0 mm&second=-30 mm,50 mm&units=metric",
    "first=0.5 in,0.25 in&second=6 in,0.2435 in&jaw_length=150 mm&units=inch",
    "first=0 mm,5 mm&second=100 mm,5 mm&jaw_length=100 mm&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/edge-angle", "edge_angle", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        run = mp.mpc(*point(given["second"], "mm")) - mp.mpc(*point(given["first"], "mm"))
        usual = "x_axis" if abs(run.real) >= abs(run.imag) else "y_axis"
        axis = mp.mpc(1) if given.get("along", usual) == "x_axis" else mp.mpc(0, 1)
        # Followed the way the axis grows.
        along = run / axis
        along = -along if along.real < 0 else along
        out.value(inputs, "/angle", mp.degrees(mp.arg(along)), "deg", scale=90)
        out.value(inputs, "/distance", convert(abs(run), "mm", unit), unit)
        if "jaw_length" in given:
            jaw = quantity(given["jaw_length"], "mm")
            end = axis * jaw * along / abs(along)
            moved = axis * jaw - end
            across = moved.imag if axis.imag == 0 else moved.real
            out.value(inputs, "/tap", convert(abs(across), "mm", unit), unit, scale=convert(jaw, "mm", unit))
            if across != 0:
                out.text(inputs, "/tap_toward", "growing" if across > 0 else "falling")
    return out.rows


if __name__ == "__main__":
    show(rows())
