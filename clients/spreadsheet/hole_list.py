"""The hole list: how deep each drill goes, how fast, and how long it takes."""

import asking
from table import Answer, Input, Question, Table, head_of, lay

TITLE = "Hole list"
TOOLS = "hss,cobalt,carbide,coated_carbide"

ROWS = [
    {"hole": "A, dowel", "many": 2, "drill": "1/4 in", "depth": "0.5 in", "material": "1018", "tool": "hss"},
    {"hole": "B, bolt", "many": 4, "drill": "letter F", "depth": "1 in", "material": "1018", "tool": "hss"},
    {
        "hole": "C, bearing",
        "many": 1,
        "drill": "3/4 in",
        "depth": "1-1/4 in",
        "angle": "118 deg",
        "material": "1018",
        "tool": "hss",
    },
    {
        "hole": "D, oil way",
        "many": 2,
        "drill": "No.30",
        "depth": "3/8 in",
        "angle": "135 deg",
        "material": "1018",
        "tool": "cobalt",
    },
    {"hole": "E, gland", "many": 6, "drill": "6.8 mm", "depth": "20 mm", "material": "6061", "tool": "hss"},
    {"hole": "F, drain", "many": 1, "drill": "12 mm", "depth": "18 mm", "material": "304", "tool": "hss"},
]


def point(cell):
    return [
        asking.always("diameter", cell["drill"]),
        asking.always("full_depth", cell["depth"]),
        asking.given("point_angle", cell["angle"]),
    ]


def speed(cell):
    return [
        asking.always("diameter", cell["drill"]),
        asking.given("depth", cell["depth"]),
        asking.given("point_angle", cell["angle"]),
        asking.always("material", cell["material"]),
        asking.always("tool_material", cell["tool"]),
        asking.MACHINE,
        asking.STEPS,
    ]


def time(cell):
    # With the depth of the tip known, a drill's way is a straight one, as a turning tool's is.
    feed, depth = cell["raw feed_full"], cell["raw depth_full"]
    return [
        '"&operation=turning"',
        asking.always("length", f'{depth}&" "&length_unit'),
        asking.always("feed_rate", f'{feed}&" "&feed_unit'),
        asking.given("approach", "start_above"),
    ]


def build(sheet):
    """Lays the sheet."""
    head_of(sheet, TITLE, "One row a kind of hole. Sizes are text with their unit: 1/4 in, 6.8 mm, No.30, letter F.")
    table = Table(
        used="drill",
        inputs=[
            Input("hole", "Hole", 16),
            Input("many", "How many", 8, number=True),
            Input("drill", "Drill", 11),
            Input("depth", "Depth at full diameter", 12),
            Input("angle", "Point angle (118 deg if empty)", 14),
            Input("material", "Work material", 14),
            Input("tool", "Drill made of", 11, choices=TOOLS),
        ],
        questions=[
            Question("point", "holes/drill-point", point),
            Question("speed", "speeds/drilling", speed),
            Question("time", "speeds/cutting-time", time, after="feed_full"),
        ],
        answers=[
            Answer("tip", '="Depth of the tip ["&length_unit&"]"', "point", "tip_depth", places=("0.000", "0.0000")),
            Answer("rpm", "Spindle speed [rpm]", "speed", "spindle_speed", form="0"),
            Answer("feed", '="Feed rate ["&feed_unit&"]"', "speed", "feed_rate", places=("0.0", "0.00")),
            Answer("minutes", "One hole [min]", "time", "cutting_time", form="0.00", digits="full"),
            Answer("all", "All of them [min]", formula=all_of_them, form="0.00"),
            Answer("depth_full", "", "point", "tip_depth", shown=False, digits="full"),
            Answer("feed_full", "", "speed", "feed_rate", shown=False, digits="full"),
        ],
        rows=ROWS,
        total=("all", "Time at feed, all holes [min]"),
        cautions=[
            "Starting points, not settings: the tool maker's data, the machine's manual and the rules of the shop come "
            "first, and a qualified person decides. Never above the speed marked on chuck, holder or tool.",
            "Clamp the work so that it cannot spin, look at what lies below the hole, and ease the feed where the "
            "point breaks through. Time at feed only: loading, tool changes, clearing chips and measuring come on top.",
        ],
    )
    return lay(sheet, table)


def all_of_them(cell):
    many, one = cell["many"], cell["minutes"]
    return f'=IF({one}="","",IF(ISNUMBER({one}),IF(ISNUMBER({many}),{many}*{one},"how many?"),{one}))'
