"""What the scripts of circles beside lines share: the distance of a point from a line in the complex plane, and roots."""

from common import mp


def distance(at, line_point, way):
    """How far to the left of a line through a point, running the way of a complex number of length one."""
    return ((at - line_point) * mp.conj(way)).imag


def root(function, low, high):
    """The root of a function between two places, to 40 digits."""
    return mp.findroot(function, (low, high), solver="anderson", tol=mp.mpf("1e-80"), maxsteps=200)
