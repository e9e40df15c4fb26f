"""Surface finish: two circles a feed apart, and their mean deviation by quadrature."""

from common import Rows, fields, mp, number, show
from cutting import put, si

CASES = [
    "nose_radius=0.8 mm&feed_per_rev=0.2 mm/rev&surface_ratio=1.25&units=metric",
    "nose_radius=1/32 in&theoretical_height=250 uin&units=inch",
    "nose_radius=0.75 mm&roughness_ra=1.6 um&method=usual&units=metric",
    "nose_radius=1.2 mm&roughness_ra=0.8 um&units=metric",
    "nose_radius=1/64 in&feed_per_rev=0.005 in/rev&method=usual&units=inch",
    "nose_radius=0.4 mm&feed_per_rev=0.6 mm/rev&units=metric",
    "nose_radius=0.01 mm&feed_per_rev=0.0001 mm/rev&units=metric",
    "nose_radius=0.4 mm&feed_per_rev=0.799 mm/rev&units=metric",
    "nose_radius=1/4 in&feed_per_rev=0.5 mm/rev&method=usual&surface_ratio=1&units=inch",
    "nose_radius=3 mm&theoretical_height=0.01 um&method=usual&units=metric",
    # A feed as wide as the nose's radius, where a parabola is some five percent off, and a very fine one.
    "nose_radius=0.5 mm&feed_per_rev=0.5 mm/rev&units=metric",
    "nose_radius=3 mm&feed_per_rev=0.002 mm/rev&units=metric",
    "nose_radius=0.4 mm&roughness_ra=20 um&units=metric",
]


def circle(radius, feed):
    """Where two circles of the nose cross, above their lowest points."""
    return radius - mp.sqrt(radius**2 - (feed / 2) ** 2)


def deviation(radius, feed):
    """Mean deviation of the circle over a feed."""
    profile = lambda x: radius - mp.sqrt(radius**2 - x**2)
    half = feed / 2
    mean = mp.quad(profile, [0, half]) / half
    turn = mp.sqrt(radius**2 - (radius - mean) ** 2)
    return mp.quad(lambda x: abs(profile(x) - mean), [0, turn, half]) / half


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/surface-finish", "surface_finish", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        radius = si(given["nose_radius"])
        usual = given.get("method") == "usual"
        height = (lambda f: f**2 / (8 * radius)) if usual else (lambda f: circle(radius, f))
        mean = (lambda f: f**2 / (32 * radius)) if usual else (lambda f: deviation(radius, f))
        if "feed_per_rev" in given:
            feed = si(given["feed_per_rev"])
        elif "theoretical_height" in given:
            feed = mp.findroot(
                lambda f: height(f) - si(given["theoretical_height"]), (radius / 1000, radius), solver="anderson", tol=mp.mpf("1e-45")
            )
        else:
            # Near the feed that a deviation with the square of the feed would have.
            wanted = si(given["roughness_ra"])
            guess = radius / 10 * mp.sqrt(wanted / mean(radius / 10))
            if usual:
                feed = guess
            else:
                feed = mp.findroot(lambda f: mean(f) / wanted - 1, (guess * 0.9, guess), solver="anderson", tol=mp.mpf("1e-40"))
        put(out, inputs, given, "/feed_per_rev", "rev", feed)
        put(out, inputs, given, "/theoretical_height", "rough", height(feed))
        put(out, inputs, given, "/roughness_ra", "rough", mean(feed))
        if "surface_ratio" in given:
            put(out, inputs, given, "/expected_ra", "rough", mean(feed) * number(given["surface_ratio"]))
    return out.rows


if __name__ == "__main__":
    show(rows())
