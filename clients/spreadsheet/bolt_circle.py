"""The bolt circle: a form on the left, the holes beside it.

Places are as the readout shows them, so they are in the unit of its step, whatever the units of other answers;
that unit is asked too, and stands in the heads.
"""

from openpyxl.worksheet.datavalidation import DataValidation

import asking
import look
from table import FIRST, HEAD_ROW, counts, head_of, headings

TITLE = "Bolt circle"
HOLES = 24
LAST = FIRST + HOLES - 1
# How far down the table a row is.
BELOW_HEAD = f"(ROW()-ROW($D${HEAD_ROW}))"
FORM = [
    ("diameter", "Diameter of the circle", "4 in"),
    ("holes", "Number of holes", 6),
    ("center_x", "Centre, X (0 if empty)", "3 in"),
    ("center_y", "Centre, Y (0 if empty)", "2-1/2 in"),
    ("start_angle", "Angle of hole 1 (0 deg if empty)", "30 deg"),
    ("sweep", "Part of the circle (all if empty)", None),
    ("hole_order", "Numbered (counterclockwise if empty)", None),
    ("resolution", "Step of the readout", "0.0005 in"),
]
ROW = {key: FIRST + at for at, (key, _, _) in enumerate(FORM)}
COLUMNS = [
    ("x", "E", "L", "x/set_to"),
    ("y", "F", "M", "y/set_to"),
    ("dx", "G", "N", "dx/set_to"),
    ("dy", "H", "O", "dy/set_to"),
    ("angle", "I", "P", "angle"),
]
CHORD, UNIT, ASKED = (FIRST + len(FORM) + at for at in (1, 2, 4))
ADDRESS, READS = f"$B${ASKED}", f"$B${UNIT}"
# A cell whose unit is not of the units asked for is refused, so places are asked in those of the readout.
READOUT_UNITS = f'IF({READS}="in","inch","metric")'
AS_READ = f'SUBSTITUTE({ADDRESS},"&units="&answer_units,"&units="&{READOUT_UNITS})'


def build(sheet):
    """Lays the sheet."""
    head_of(sheet, TITLE, "Places on the readout, already at its steps; the moves sum to them exactly.")
    form(sheet)
    length = f'["&{READS}&"]"'
    heads = ["Hole", f'="X {length}', f'="Y {length}', f'="Move in X {length}', f'="Move in Y {length}', "Angle [deg]"]
    heads = [(head, True) for head in heads] + [("Why not", False)]
    headings(sheet, HEAD_ROW, 4, heads, "The service answers")
    came = [(f"came back, {key}", False) for key, _, _, _ in COLUMNS]
    headings(sheet, HEAD_ROW, 12, came, "To look into; not printed")
    sheet.row_dimensions[HEAD_ROW].height = 32
    holes = f"$B${ROW['holes']}"
    for row in range(FIRST, LAST + 1):
        sheet.row_dimensions[row].height = look.ROW_HEIGHT
        # The first row is always asked, so that a number of holes that cannot be is refused in words.
        # All rows but it are alike, so that more of them can be put in.
        number = "1" if row == FIRST else f'IF(AND(ISNUMBER({holes}),{holes}>={BELOW_HEAD}),{BELOW_HEAD},"")'
        look.put(sheet[f"D{row}"], f"={number}", align=look.RIGHT, border=look.UNDER_ROW)
        for _, shown, raw, pick in COLUMNS:
            came = asking.fetched(AS_READ, f'positions/"&(D{row}-1)&"/{pick}', when=f"D{row}")
            look.put(sheet[f"{raw}{row}"], came, look.SMALL)
            look.put(
                sheet[f"{shown}{row}"],
                asking.number(f"{raw}{row}"),
                align=look.RIGHT,
                border=look.UNDER_ROW,
                form="0.00",
            )
        why = asking.reason([f"{raw}{row}" for _, _, raw, _ in COLUMNS])
        look.put(sheet[f"J{row}"], why, look.REASON, look.WRAPPED, look.UNDER_ROW)
    look.places(sheet, f"E{FIRST}:H{LAST}", "0.000", "0.0000", inches=f'{READS}="in"')
    for shown in "EFGHI":
        look.mark_words(sheet, f"{shown}{FIRST}:{shown}{LAST}")
    missing = f"({holes}-{BELOW_HEAD}+1)"
    more = f'{missing}&" more holes: insert rows above the last one and copy it into them"'
    look.put(sheet[f"D{LAST + 1}"], f'=IF(AND(ISNUMBER({holes}),{holes}>={BELOW_HEAD}),{more},"")', look.BOLD)
    look.put(
        sheet[f"A{LAST + 2}"],
        "Bring the tool out of the work and clear of every clamp before moving across.",
        look.SMALL,
    )
    raws = [f"L{FIRST}:P{LAST}", f"C{CHORD}:C{UNIT}"]
    counts(sheet, "B3", "B4", raws)
    widths = {
        "A": 34,
        "B": 16,
        "C": 4,
        "D": 7,
        "E": 13,
        "F": 13,
        "G": 13,
        "H": 13,
        "I": 11,
        "J": look.REASON_WIDTH,
        "K": 4,
    }
    for letter, width in widths.items():
        sheet.column_dimensions[letter].width = width
    sheet.freeze_panes = f"A{FIRST}"
    look.page(sheet, f"A1:J{LAST + 2}", f"{HEAD_ROW}:{HEAD_ROW}")
    return raws


def form(sheet):
    """What is asked for, the chord to check by, and the address."""
    headings(sheet, HEAD_ROW, 1, [("What", False), ("Value", False)], "You write")
    for key, label, value in FORM:
        look.put(sheet[f"A{ROW[key]}"], label, align=look.INDENTED)
        look.put_input(sheet[f"B{ROW[key]}"], value, key == "holes")
    choice = DataValidation(type="list", formula1='"counterclockwise,clockwise"', allow_blank=True)
    choice.add(f"B{ROW['hole_order']}")
    sheet.add_data_validation(choice)
    parts = [
        asking.always(key, f"$B${row}")
        if key in ("diameter", "holes", "resolution")
        else asking.given(key, f"$B${row}")
        for key, row in ROW.items()
    ]
    look.put(sheet[f"A{CHORD}"], '="From hole to next, middle to middle ["&length_unit&"]"', align=look.INDENTED)
    look.put(sheet[f"A{UNIT}"], "The readout reads in", align=look.INDENTED)
    for row, pick in ((CHORD, "adjacent_chord"), (UNIT, "positions/0/x/set_to/unit")):
        came = look.put(sheet[f"C{row}"], asking.fetched(ADDRESS, pick), look.SMALL)
        # The narrow column between form and table keeps what came back out of sight.
        came.number_format = ";;;"
    look.put(sheet[f"B{CHORD}"], asking.number(f"C{CHORD}"), align=look.RIGHT)
    look.put(sheet[f"B{UNIT}"], asking.words(f"C{UNIT}"), align=look.RIGHT)
    look.places(sheet, f"B{CHORD}:B{CHORD}", "0.000", "0.0000")
    look.put(sheet[f"A{ASKED}"], "Address asked", look.SMALL, look.INDENTED)
    look.put(sheet[f"B{ASKED}"], asking.address("patterns/bolt-circle", parts, f"$B${ROW['diameter']}"), look.SMALL)
