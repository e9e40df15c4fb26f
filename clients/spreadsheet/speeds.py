"""The speeds table: spindle speeds of drills, material by size, and the feed rates that go with them."""

from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation

import asking
import look
from hole_list import TOOLS
from table import counts, head_of

TITLE = "Speeds"
MATERIALS = ["1018", "4140 annealed", "304", "grey-iron-35", "6061", "brass-360"]
SIZES = ["1/8 in", "3/16 in", "1/4 in", "3/8 in", "1/2 in", "3/4 in", "1 in"]
SPARE = 4
ROWS = len(MATERIALS) + SPARE
TOP = 8
TOOL = "$B$5"
BLOCKS = [
    ("Spindle speed [rpm]", "spindle_speed", "0", TOP),
    ('="Feed rate ["&feed_unit&"], at that spindle speed"', "feed_rate", "0.00", TOP + ROWS + 3),
]
# The answers as they came and their addresses stand to the right of the table.
WHY = len(SIZES) + 2
ASKED, CAME = WHY + 2, WHY + 2 + len(SIZES)


def build(sheet):
    """Lays the sheet."""
    head_of(sheet, TITLE, "Speeds and feeds of drills from the published tables, on the steps that the spindle has.")
    look.put(sheet["A5"], "Drill made of", look.BOLD)
    look.put_input(sheet["B5"], "hss")
    choice = DataValidation(type="list", formula1=f'"{TOOLS}"')
    choice.add("B5")
    sheet.add_data_validation(choice)
    raws = []
    for title, pick, form, top in BLOCKS:
        raws.append(block(sheet, title, pick, form, top))
    counts(sheet, "B3", "B4", raws)
    bottom = BLOCKS[-1][3] + ROWS + 2
    for at, caution in enumerate(CAUTIONS):
        look.put(sheet.cell(bottom + at, 1), caution, look.SMALL)
    sheet.column_dimensions["A"].width = 22
    for at in range(len(SIZES)):
        sheet.column_dimensions[get_column_letter(2 + at)].width = 12
    sheet.column_dimensions[get_column_letter(WHY)].width = look.REASON_WIDTH
    sheet.freeze_panes = f"B{TOP + 1}"
    look.page(sheet, f"A1:{get_column_letter(WHY)}{bottom + len(CAUTIONS)}", f"{TOP}:{TOP}")
    return raws


CAUTIONS = [
    "Starting points, not settings: the tool maker's data, the machine's manual and the rules of the shop come first, "
    "and a qualified person decides.",
    "Never above the speed marked on chuck, holder or tool. Clamp the work so that it cannot spin, and stop the "
    "spindle before measuring or clearing chips.",
]


def block(sheet, title, pick, form, top):
    """One table; the first holds what is written, the second repeats it."""
    first = top == TOP
    look.put(sheet.cell(top - 1, 1), title, look.BAND)
    if first:
        look.put(sheet.cell(top - 1, 4), "Boxes: you write. The rest: the service answers.", look.SMALL)
    for column, head in ((1, "Work material"), (WHY, "Why not")):
        look.put(sheet.cell(top, column), head, look.BOLD, look.WORDS_HEAD, look.UNDER_HEAD)
    look.put(sheet.cell(top, ASKED), "addresses asked, and what came back; not printed", look.SMALL)
    for at, size in enumerate(SIZES):
        cell = sheet.cell(top, 2 + at)
        if first:
            look.put_input(cell, size, align=look.RIGHT)
        else:
            letter = get_column_letter(2 + at)
            look.put(cell, f'=IF({letter}${TOP}="","",{letter}${TOP})', look.BOLD, look.RIGHT, look.UNDER_HEAD)
    for row in range(top + 1, top + 1 + ROWS):
        line(sheet, pick, form, row, TOP + row - top)
    came = [get_column_letter(CAME), get_column_letter(CAME + len(SIZES) - 1)]
    shown = f"B{top + 1}:{get_column_letter(1 + len(SIZES))}{top + ROWS}"
    look.mark_words(sheet, shown)
    if pick == "feed_rate":
        look.places(sheet, shown, "0.0", "0.00")
    return f"{came[0]}{top + 1}:{came[1]}{top + ROWS}"


def line(sheet, pick, form, row, source):
    """One material."""
    at = source - TOP - 1
    sheet.row_dimensions[row].height = look.ROW_HEIGHT
    if row == source:
        look.put_input(sheet.cell(row, 1), MATERIALS[at] if at < len(MATERIALS) else None)
    else:
        look.put(sheet.cell(row, 1), f'=IF($A{source}="","",$A{source})', align=look.INDENTED, border=look.UNDER_ROW)
    answers = []
    for column in range(len(SIZES)):
        size = f"{get_column_letter(2 + column)}${TOP}"
        asked, came = (f"{get_column_letter(first + column)}{row}" for first in (ASKED, CAME))
        parts = [
            asking.always("diameter", size),
            asking.always("material", f"$A{source}"),
            asking.always("tool_material", TOOL),
            asking.MACHINE,
            asking.STEPS,
        ]
        # A size taken out of the head leaves its column empty.
        wanted = f"$A{source}&{size}"
        address = asking.address("speeds/drilling", parts, wanted).removeprefix("=")
        look.put(sheet[asked], f'=IF(OR($A{source}="",{size}=""),"",{address})', look.SMALL)
        look.put(sheet[came], asking.fetched(asked, pick), look.SMALL)
        answers.append(came)
        look.put(sheet.cell(row, 2 + column), asking.number(came), align=look.RIGHT, border=look.UNDER_ROW, form=form)
    look.put(sheet.cell(row, WHY), asking.reason(answers), look.REASON, look.WRAPPED, look.UNDER_ROW)
