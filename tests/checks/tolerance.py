"""Root-sum-square spreads by Monte Carlo with numpy: each toleranced input is normal with the tolerance as its
standard deviation; the standard deviation of the result is what root_sum_square states (JCGM 100:2008, 5.1.2, and
JCGM 101:2008). Writes tests/checks/tolerance.csv; the tolerance of a row covers the sampling error and the
difference of first order from the full distribution.

    python tests/checks/tolerance.py > tests/checks/tolerance.csv
"""
import csv
import sys

import numpy as np

N = 2_000_000
rng = np.random.default_rng(20261125)


def normal(value, by):
    return rng.normal(value, by, N)


def arc_radius():
    chord, height = normal(60, 0.02), normal(4, 0.02)
    return chord**2 / (8 * height) + height / 2


def arc_length():
    chord, height = normal(21, 0.05), normal(6, 0.03)
    half = 2 * np.arctan2(2 * height, chord)
    return (chord**2 / (8 * height) + height / 2) * 2 * half


def point_length():
    return normal(0.5, 0.002) / 2 / np.tan(np.radians(normal(118, 2)) / 2)


def hole_x():
    return normal(1, 0.001) + normal(4, 0.002) / 2 * np.cos(np.radians(normal(20, 0.05)))


def hole_y():
    return normal(4, 0.002) / 2 * np.sin(np.radians(normal(20, 0.05)))


def spindle():
    return normal(70, 2) * 12 / (np.pi * normal(0.5, 0.001))


def mean_chip():
    x = normal(1.5, 0.05) / normal(12, 0.01)
    return normal(0.05, 0.002) * 2 * x / np.arccos(1 - 2 * x)


ROWS = [
    ("geometry/arc", "chord=60 ±0.02 mm&height=4 ±0.02 mm", "/solutions/0/radius", arc_radius),
    ("geometry/arc", "chord=21 ±0.05 mm&height=6 ±0.03 mm", "/solutions/0/arc_length", arc_length),
    ("holes/drill-point", "diameter=0.500 ±0.002 in&point_angle=118 ±2 deg", "/point_length", point_length),
    ("patterns/bolt-circle", "diameter=4 ±0.002 in&holes=3&center_x=1 ±0.001 in&start_angle=20 ±0.05 deg", "/positions/0/x", hole_x),
    ("patterns/bolt-circle", "diameter=4 ±0.002 in&holes=3&center_x=1 ±0.001 in&start_angle=20 ±0.05 deg", "/positions/0/y", hole_y),
    ("speeds/spindle-speed", "cutting_speed=70 ±2 ft/min&diameter=0.5 ±0.001 in", "/exact_speed", spindle),
    ("speeds/milling", "diameter=12 ±0.01 mm&teeth=4&cutting_speed=30 m/min&feed_per_tooth=0.05 ±0.002 mm/tooth&radial_depth=1.5 ±0.05 mm&axial_depth=5 mm", "/mean_chip", mean_chip),
]

out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow(["calculator", "inputs", "field", "expected", "tolerance"])
for calculator, inputs, field, sample in ROWS:
    spread = float(np.std(sample()))
    out.writerow([calculator, inputs, field, f"{spread:.6g}", f"{spread * 0.005:.2g}"])
