"""Band sawing: the band speed changed for the section, feed by the teeth that pass in a second."""

from common import Rows, fields, mp, show
from cutting import INCH, put, si

# Request, band speed, change, feed.
CASES = [
    ("section=2 in&tooth_pitch=1/10 in&material=4140 annealed&travel=2 in&wheel_diameter=14 in&units=inch", "250 ft/min", mp.mpf("0.1") - mp.mpf("0.75") / mp.mpf("2.75") / 10, "0.0001 in/tooth"),
    ("section=20 mm&tooth_pitch=2.5 mm&cutting_speed=60 m/min&feed_per_tooth=0.005 mm/tooth&units=metric", "60 m/min", None, "0.005 mm/tooth"),
    ("section=8 in&tooth_pitch=1/4 in&material=304&feed_per_tooth=0.0002 in/tooth&travel=8 in&units=inch", "120 ft/min", mp.mpf("-0.12"), "0.0002 in/tooth"),
    ("section=1 mm&tooth_pitch=0.3 mm&cutting_speed=1 m/min&feed_per_tooth=0.0001 mm/tooth&travel=500 mm&units=metric", "1 m/min", None, "0.0001 mm/tooth"),
    ("section=24 in&tooth_pitch=1 in&cutting_speed=100 m/min&feed_per_tooth=0.01 mm/tooth&travel=600 mm&wheel_diameter=900 mm&units=inch", "100 m/min", None, "0.01 mm/tooth"),
    ("section=1 in&units=inch", None, None, None),
    ("section=3 mm&cutting_speed=80 m/min&wheel_diameter=350 mm&units=metric", "80 m/min", None, None),
]

BANDS = [2, 3, 4, 6, 8, 10, 14, 18, 24, 32]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/sawing", "sawing", "mpmath")
    for inputs, speed, change, feed in CASES:
        given = fields(inputs)
        section = si(given["section"])
        # Teeth by laying off pitches along the section.
        put(out, inputs, given, "/fewest_teeth_per_inch", "plain", INCH / (section / 3))
        put(out, inputs, given, "/most_teeth_per_inch", "plain", INCH / (section / 24))
        in_cut = {band: section / (INCH / band) for band in BANDS}
        nearest = min(BANDS, key=lambda band: max(in_cut[band] / 12, 12 / in_cut[band]))
        put(out, inputs, given, "/teeth_per_inch", "plain", mp.mpf(nearest))
        if speed is None:
            continue
        speed = si(speed) * (1 + (change or 0))
        if change is not None:
            put(out, inputs, given, "/section_change", "share", change)
        put(out, inputs, given, "/cutting_speed", "speed", speed)
        if "wheel_diameter" in given:
            put(out, inputs, given, "/wheel_speed", "turning", speed / (mp.pi * si(given["wheel_diameter"])))
        if "tooth_pitch" not in given:
            continue
        pitch = si(given["tooth_pitch"])
        rate = si(feed) * (speed / pitch)
        put(out, inputs, given, "/teeth_in_cut", "plain", si(given["section"]) / pitch)
        put(out, inputs, given, "/feed_per_tooth", "tooth", si(feed))
        put(out, inputs, given, "/feed_rate", "rate", rate)
        if "travel" in given:
            put(out, inputs, given, "/cutting_time", "time", si(given["travel"]) / rate)
    return out.rows


if __name__ == "__main__":
    show(rows())
