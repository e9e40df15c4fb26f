"""Library rows of the tool setting: tools of known length brought to one face on a machine whose scale counts either
way; the readings are what the scale would show, and the lengths are what must come back."""

from fractions import Fraction

from common import Rows, mp, show

# Lengths, place of the face above the table, what moves, whether the scale counts up as that goes up, its zero.
CASES = [
    ("in", [("spot", "2.1250"), ("drill", "4.0375"), ("reamer", "5.5005")], "spot", "3.5", "quill", True, "0.25", None),
    ("in", [("spot", "2.1250"), ("drill", "4.0375"), ("reamer", "5.5005")], "drill", "3.5", "quill", False, "12", None),
    ("mm", [("mill", "61.42"), ("fly", "42.115"), ("tap", "88.905")], "fly", "40", "knee", True, "0", "52.5"),
    ("mm", [("mill", "61.42"), ("fly", "42.115"), ("tap", "88.905")], "mill", "40", "knee", False, "-7.5", "33.25"),
    ("mm", [("A", "100.005"), ("B", "99.995")], "A", "10", "quill", True, "0", "12.5"),
]


def reading(length, face, moved, up, zero):
    """What the scale shows where tip and face meet, and whether it grew on the way."""
    if moved == "quill":
        # The quill's nose stands a tool's length above the face; it came down.
        height, rises = face + length, False
    else:
        # The spindle's nose stands at 200; the table came up until the face met the tip.
        height, rises = 200 - length - face, True
    return (zero + height if up else zero - height), rises == up


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/tool-setting", "tool_setting", "mpmath")
    real = lambda value: mp.mpf(value.numerator) / value.denominator
    for unit, tools, reference, face, moved, up, zero, face_now in CASES:
        lengths = {name: Fraction(length) for name, length in tools}
        at = lambda name, face: reading(lengths[name], Fraction(face), moved, up, Fraction(zero))[0]
        grew = reading(lengths[reference], Fraction(face), moved, up, Fraction(zero))[1]
        decimal = lambda value: f"{float(value):.4f} {unit}"
        listed = ";".join(f"{name},{decimal(at(name, face))}" for name, _ in tools)
        system = "inch" if unit == "in" else "metric"
        now = f"&reference_now={decimal(at(reference, face_now))}" if face_now else ""
        inputs = (
            f"tools={listed}&reference={reference}&moved={moved}"
            f"&reading_was={'growing' if grew else 'falling'}{now}&units={system}"
        )
        for index, (name, _) in enumerate(tools):
            reach = abs(real(at(name, face))) + abs(real(at(reference, face)))
            field = f"/offsets/{index}"
            out.value(inputs, f"{field}/offset", real(at(name, face) - at(reference, face)), unit, scale=reach)
            longer = lengths[name] - lengths[reference]
            out.value(inputs, f"{field}/longer_by", real(longer), unit, scale=reach)
            if face_now:
                out.value(inputs, f"{field}/reading_now", real(at(name, face_now)), unit, scale=reach)
    return out.rows


if __name__ == "__main__":
    show(rows())
