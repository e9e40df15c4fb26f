"""The tap-drill chart: the hole before the tap, and the stock drill next to it."""

import asking
from table import Answer, Input, Question, Table, head_of, lay

TITLE = "Tap drills"
THREADS = [
    "#6-32 UNC",
    "#8-32 UNC",
    "#10-24 UNC",
    "#10-32 UNF",
    "1/4-20 UNC",
    "1/4-28 UNF",
    "5/16-18 UNC",
    "3/8-16 UNC",
    "1/2-13 UNC",
    "M4",
    "M5",
    "M6",
    "M8",
    "M10",
    "M12",
    "M8x1",
]


def question(cell):
    return [
        asking.always("thread", cell["thread"]),
        asking.given("thread_percent", cell["percent"]),
        asking.given("tap", cell["tap"]),
    ]


def build(sheet):
    """Lays the sheet."""
    head_of(sheet, TITLE, "The hole for the share of thread wanted, and the stock drill nearest to it.")
    size = {"places": ("0.000", "0.0000")}
    table = Table(
        used="thread",
        inputs=[
            Input("thread", "Thread", 16),
            Input("percent", "Share of thread (75 percent)", 14),
            Input("tap", "Tap (cutting if empty)", 12, choices="cutting,forming"),
        ],
        questions=[Question("drill", "holes/tap-drill", question)],
        answers=[
            Answer("hole", '="Hole ["&length_unit&"]"', "drill", "drill_diameter", **size),
            Answer("drill", "Stock drill", "drill", "drill/name", words=True),
            Answer("size", '="Its size ["&length_unit&"]"', "drill", "drill/diameter", **size),
            Answer("share", "Its share of thread [%]", "drill", "drill/thread_percent", form="0"),
            Answer("least", '="Least minor diameter ["&length_unit&"]"', "drill", "minor_limits/minor_min", **size),
            Answer("most", '="Greatest minor diameter ["&length_unit&"]"', "drill", "minor_limits/minor_max", **size),
            Answer("within", "Within the limits", formula=within, words=True),
            Answer("size_full", "", "drill", "drill/diameter", shown=False, digits="full"),
        ],
        rows=[{"thread": thread, "percent": "75 percent"} for thread in THREADS],
        cautions=[
            "Starting points, not settings: the tap maker's data comes first. Leave room below the thread for the "
            "tap's lead and the chips; a tap that meets the bottom breaks, and its splinters are sharp.",
        ],
    )
    return lay(sheet, table)


def within(cell):
    size = asking.number(cell["raw size_full"]).removeprefix("=")
    least, most = cell["least"], cell["most"]
    held = f'IF(AND({size}>={least},{size}<={most}),"yes","no")'
    return f'=IF({least}="","",IF(AND(ISNUMBER({size}),ISNUMBER({least}),ISNUMBER({most})),{held},"no answer"))'
