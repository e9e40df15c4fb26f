"""The first sheet: where the service is, how it is to answer, and how many cells it did not answer."""

from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Font
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation

import asking
import look

TITLE = "Start"
STEPS = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm"
# Name of the cell, its words, what is in it, what may be chosen.
SETTINGS = [
    ("service_address", "Address of the service", "http://127.0.0.1:8080", None),
    ("answer_units", "Units of the answers", "inch", "inch,metric"),
    ("answer_digits", "Digits: as the shop writes them, or all", "shop", "shop,full"),
    ("machine", "Machine in the shop's file (may stay empty)", None, None),
    ("spindle_steps", "Speeds that the spindle has (may stay empty)", STEPS, None),
    ("start_above", "A drill starts at feed this far above the face", "0.1 in", None),
    ("again", "To ask everything again, write any word and recalculate", None, None),
]
# Reckoned from the settings.
MADE = [
    (
        "service_base",
        "Address without a stroke at its end",
        '=IF(RIGHT(service_address,1)="/",LEFT(service_address,LEN(service_address)-1),service_address)',
    ),
    (
        "again_mark",
        "What stands behind each address, unseen by the service",
        # LibreOffice draws that number anew when a word is written above and when everything is recalculated hard, and
        # at no other time. Programs that do not have it take the word alone.
        '=IFERROR("#"&_xlfn.ORG.LIBREOFFICE.RAND.NV(),IF(again="","","#"))&IF(again="","",_xlfn.ENCODEURL(again))',
    ),
    ("length_unit", "Unit of lengths", '=IF(answer_units="inch","in","mm")'),
    ("feed_unit", "Unit of feed rates", '=IF(answer_units="inch","in/min","mm/min")'),
]
WORDS = [
    "What stands in a box is yours to write; all else is answered or reckoned. A size is text with its unit: 1/2 in.",
    "A cell that shows refused has its reason at the end of its row. Mend what you wrote, and it is asked again.",
    "After an outage recalculate hard: Ctrl+Shift+F9 in LibreOffice. Every cell is then asked again, what failed too.",
    "A sum over refused cells would fall short without a word, so the sheets give a total only when it is whole.",
    "Starting points, not settings: the tool maker's data, the machine's manual and the rules of the shop come first, "
    "and a qualified person decides.",
]


def build(sheet, book, blocks):
    """Lays the sheet; `blocks` are the answers as they came, by sheet."""
    look.put(sheet["A1"], "Tern Point Works: shop sums, asked of Shop Reckoner", look.TITLE)
    sheet.row_dimensions[1].height = 24
    row = 3
    look.put(sheet.cell(row, 1), "You write", look.BAND)
    for name, label, value, choices in SETTINGS:
        row += 1
        look.put(sheet.cell(row, 1), label)
        cell = sheet.cell(row, 2)
        look.put_input(cell, value)
        # The boxes are as wide as the table of counts below.
        for column in (3, 4, 5):
            look.put_input(sheet.cell(row, column), None)
        sheet.merge_cells(start_row=row, start_column=2, end_row=row, end_column=5)
        name_cell(book, name, row)
        if choices:
            choice = DataValidation(type="list", formula1=f'"{choices}"')
            choice.add(f"B{row}")
            sheet.add_data_validation(choice)
    row = reckoned(sheet, book, row + 2)
    row = counted(sheet, row + 2, blocks)
    for words in WORDS:
        row += 1
        look.put(sheet.cell(row, 1), words, look.SMALL)
    for letter, width in {"A": 48, "B": 22, "C": 14, "D": 14, "E": 14}.items():
        sheet.column_dimensions[letter].width = width
    sheet.freeze_panes = "A3"
    look.page(sheet, f"A1:H{row}", "1:1")


def name_cell(book, name, row):
    book.defined_names[name] = DefinedName(name, attr_text=f"'{TITLE}'!$B${row}")


def reckoned(sheet, book, row):
    """What follows from the settings, and whether the service is there."""
    look.put(sheet.cell(row, 1), "Follows from it", look.BAND)
    for name, label, formula in MADE:
        row += 1
        look.put(sheet.cell(row, 1), label)
        look.put(sheet.cell(row, 2), formula, align=look.LEFT)
        name_cell(book, name, row)
    row += 1
    look.put(sheet.cell(row, 1), "Its tables are of the state")
    probe = '_xlfn.WEBSERVICE(service_base&"/v1/holes/drill-point.txt?diameter=1%20in&pick=/data_version"&again_mark)'
    look.put(sheet.cell(row, 2), f'=IFERROR({probe},"no answer")', look.BOLD, look.LEFT)
    name_cell(book, "data_version", row)
    return row


def counted(sheet, row, blocks):
    """How many questions each sheet asks, and how many of them were answered."""
    for column, head in enumerate(["Sheet", "Asked", "Answered", "Refused", "No answer"], start=1):
        look.put(sheet.cell(row, column), head, look.BOLD, look.LEFT if column == 1 else look.RIGHT, look.UNDER_HEAD)
    first = row + 1
    for name, raws in blocks.items():
        row += 1
        there = [f"'{name}'!{block}" for block in raws]
        silent = asking.count(there, f'{{}}="{asking.NOT_THERE}"')
        cells = [
            name,
            "=" + asking.asked_in(there),
            f"=B{row}-D{row}-E{row}",
            "=" + asking.refused_in(there),
            "=" + silent,
        ]
        for column, value in enumerate(cells, start=1):
            look.put(
                sheet.cell(row, column), value, align=look.LEFT if column == 1 else look.RIGHT, border=look.UNDER_ROW
            )
    last = row
    row += 1
    look.put(sheet.cell(row, 1), "All sheets", look.BOLD, border=look.OVER_TOTAL)
    for letter in "BCDE":
        look.put(
            sheet[f"{letter}{row}"], f"=SUM({letter}{first}:{letter}{last})", look.BOLD, look.RIGHT, look.OVER_TOTAL
        )
    row += 1
    lacking = f'(D{row - 1}+E{row - 1})&" of "&B{row - 1}&" questions have no number: see the end of each row."'
    whole = "Every question was answered."
    look.put(sheet.cell(row, 1), f'=IF(C{row - 1}=B{row - 1},"{whole}",{lacking})', look.BOLD)
    rule = FormulaRule(formula=[f"$C${row - 1}<$B${row - 1}"], font=Font(bold=True, underline="double"))
    sheet.conditional_formatting.add(f"A{row}", rule)
    return row + 1
