"""How time and memory grow with the work: measured from little to much, slopes by least squares on log-log, and a picture."""

import math
import statistics

from common import DRILL_POINT, WORK, load
from rows import send_table, write_table

ANGLE = "point_angle=<60..140>%20deg"
CIRCLE = "/v1/patterns/bolt-circle?diameter=<1..20>%20in&holes={}"
RANGE = f"/v1/holes/drill-point?diameter=1%20in..{{:.3f}}%20in%20step%200.001%20in&{ANGLE}"
# A slope above this is worse than linear; what is between is the spread of measuring.
LINEAR = 1.1


def measured(server, times, work):
    """Seconds that the work takes, the most MB resident meanwhile, and the seconds of processor time; medians of some runs.
    `work` gives how long it took in all, and how often it was done."""
    server.forget_peak()
    runs = []
    for _ in range(times):
        before = server.worked()
        seconds, done = work()
        runs.append((seconds / done, (server.worked() - before) / done))
    seconds, processor = (statistics.median(each) for each in zip(*runs))
    return seconds, server.peak(), processor


def measure(programs):
    """For each kind of work, points of count, seconds, MB and processor seconds. Each kind has a server of its own, which begins with little."""
    quick, points = programs.quick, {}

    def kind(name, counts, work, server=programs.service):
        with server() as running:
            work(running, counts[0])
            points[name] = [
                (count, *measured(running, 1 if quick else 3, lambda: work(running, count))) for count in counts
            ]
            return running.first

    def rows(service, count):
        write_table(WORK / "some.csv", count)
        return send_table(service.port, WORK / "some.csv", WORK / "ours.csv"), 1

    def alone(path):
        return lambda service, count: (1, load(service, path(count), 1, connections=1))

    def at_once(server, count):
        # Many connections take a while to come about.
        seconds = 2 if quick else 3 if count < 1000 else 6
        return seconds, seconds * load(server, DRILL_POINT, seconds, count) / count

    kind("rows of a table", [1000, 10_000, 100_000, 1_000_000][: 3 if quick else 4], rows)
    kind("holes of a bolt circle", [10, 30, 100, 300, 1000], alone(CIRCLE.format))
    kind("cases of a range", [1, 5, 20, 100, 500], alone(lambda count: RANGE.format(1 + (count - 1) * 0.001)))
    # The work is an answer on every connection. The bare route shows what of that is the system's and the load's.
    connections = [1, 10, 100, 1000, 5000]
    body = kind("answers on all connections", connections, at_once)
    kind("the same by a bare route", connections, at_once, lambda: programs.bare(body))
    return points


def slope(pairs):
    """Least squares on log-log: the power of the count with which a figure grows."""
    logs = [(math.log(count), math.log(figure)) for count, figure in pairs]
    x, y = (statistics.mean(each) for each in zip(*logs))
    return sum((a - x) * (b - y) for a, b in logs) / sum((a - x) ** 2 for a, _ in logs)


def table(points):
    """The slopes as Markdown, and which are worse than linear."""
    lines = ["| work | from | to | time | processor time | memory |", "|---|---|---|---|---|---|"]
    worse = []
    for name, each in points.items():
        time, memory, processor = ([(point[0], point[at]) for point in each] for at in (1, 2, 3))
        slopes = [(slope(figures), slope(figures[-3:])) for figures in (time, processor, memory)]
        worse += [name] if max(*slopes[1], *slopes[2]) > LINEAR else []
        ends = [f"{count:,}: {shown_time(seconds)}, {most:.0f} MB" for count, seconds, most, _ in (each[0], each[-1])]
        lines.append("| " + " | ".join([name, *ends, *(f"{whole:.2f}, {last:.2f}" for whole, last in slopes)]) + " |")
    return "\n".join(lines), worse


def shown_time(seconds):
    return f"{seconds * 1e6:.0f} µs" if seconds < 1e-3 else f"{seconds * 1e3:.1f} ms" if seconds < 1 else f"{seconds:.2f} s"


# The picture: two log-log fields side by side, a line for each kind of work.
WIDE, HIGH, LEFT, TOP = 320, 240, 60, 72
COLORS = ["#1b6ca8", "#d1495b", "#2e7d32", "#8a5a00", "#777777"]


def decimal(power):
    return f"{10**power:.{max(0, -power)}f}"


def short(count):
    return f"{count:,}".replace(",000,000", " M").replace(",000", " k")


def picture(points):
    """The points as SVG."""
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {2 * (WIDE + LEFT) + 30} {HIGH + TOP + 50}" font-family="sans-serif"'
        ' font-size="12"><title>Time and memory as the work grows</title><rect width="100%" height="100%" fill="#fff"/>'
    ]
    for at, name in enumerate(points):
        x, y = LEFT + at % 3 * 230, 16 + at // 3 * 20
        parts.append(f'<circle cx="{x}" cy="{y}" r="4" fill="{COLORS[at]}"/><text x="{x + 8}" y="{y + 4}">{name}</text>')
    for panel, (title, of) in enumerate((("seconds", 1), ("MB at the peak", 2))):
        left = LEFT + panel * (WIDE + LEFT + 10)
        figures = [point[of] for each in points.values() for point in each]
        counts = [point[0] for each in points.values() for point in each]
        low, high = (round_to(math.log10(end(figures))) for round_to, end in ((math.floor, min), (math.ceil, max)))
        most = math.ceil(math.log10(max(counts)))
        across = lambda count: left + WIDE * math.log10(count) / most
        up = lambda figure: TOP + HIGH * (high - math.log10(figure)) / (high - low)
        parts.append(f'<text x="{left}" y="{TOP - 10}" font-weight="bold">{title}</text>')
        for power in range(low, high + 1):
            y = up(10**power)
            parts.append(f'<path d="M{left} {y:.1f}h{WIDE}" stroke="#ddd"/><text x="{left - 6}" y="{y + 4:.1f}" text-anchor="end">{decimal(power)}</text>')
        for power in range(most + 1):
            x = across(10**power)
            parts.append(f'<path d="M{x:.1f} {TOP}v{HIGH}" stroke="#ddd"/><text x="{x:.1f}" y="{TOP + HIGH + 18}" text-anchor="middle">{short(10**power)}</text>')
        parts.append(f'<text x="{left + WIDE / 2}" y="{TOP + HIGH + 36}" text-anchor="middle">how many</text>')
        for color, each in zip(COLORS, points.values()):
            places = [(across(point[0]), up(point[of])) for point in each]
            line = " ".join(f"{x:.1f},{y:.1f}" for x, y in places)
            dots = "".join(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3"/>' for x, y in places)
            parts.append(f'<g fill="{color}"><polyline points="{line}" fill="none" stroke="{color}" stroke-width="2"/>{dots}</g>')
    return "\n".join([*parts, "</svg>"]) + "\n"
