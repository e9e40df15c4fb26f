"""How the workbook looks: one type, rules instead of grids, and boxes round what a person writes."""

from openpyxl.formatting.rule import FormulaRule, Rule
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.styles.differential import DifferentialStyle
from openpyxl.styles.numbers import NumberFormat

FACE = "Liberation Sans"
TITLE = Font(name=FACE, size=16, bold=True)
PLAIN = Font(name=FACE, size=10)
SMALL = Font(name=FACE, size=9, color="595959")
REASON = Font(name=FACE, size=8)
# A row holds two lines of a reason.
ROW_HEIGHT = 22
REASON_WIDTH = 58
BOLD = Font(name=FACE, size=10, bold=True)
BAND = Font(name=FACE, size=9, bold=True, italic=True)
MIDDLE = Alignment(vertical="center")
LEFT = Alignment(horizontal="left", vertical="center")
INDENTED = Alignment(horizontal="left", vertical="center", indent=1)
RIGHT = Alignment(horizontal="right", vertical="center")
WRAPPED = Alignment(horizontal="left", vertical="center", wrap_text=True, indent=1)
WORDS_HEAD = Alignment(horizontal="left", vertical="bottom", wrap_text=True, indent=1)
NUMBERS_HEAD = Alignment(horizontal="right", vertical="bottom", wrap_text=True)
THICK = Side(style="medium", color="000000")
THIN = Side(style="thin", color="7F7F7F")
HAIR = Side(style="hair", color="A6A6A6")
# The box is what tells an input; the tint only helps those who see it.
BOX = Border(left=THIN, right=THIN, top=THIN, bottom=THIN)
TINT = PatternFill("solid", fgColor="F2F2F2")
UNDER_HEAD = Border(bottom=THICK)
OVER_TOTAL = Border(top=THICK)
UNDER_ROW = Border(bottom=HAIR)
AS_TEXT = "@"


def put(cell, value, font=PLAIN, align=None, border=None, form=None):
    """Writes a cell with its look."""
    cell.value = value
    cell.font = font
    if align:
        cell.alignment = align
    if border:
        cell.border = border
    if form:
        cell.number_format = form
    return cell


def put_input(cell, value, number=False, align=INDENTED):
    """A cell for a person to write in. All but counts are text, or `1/2` would become a date."""
    put(cell, value, align=RIGHT if number else align, border=BOX, form="0" if number else AS_TEXT)
    cell.fill = TINT


def places(sheet, block, metric, inch, inches='answer_units="inch"'):
    """Decimals of lengths or feeds, metric or, where the formula `inches` holds, in inches."""
    first = block.split(":")[0]
    for row in sheet[block]:
        for cell in row:
            cell.number_format = metric
    style = DifferentialStyle(numFmt=NumberFormat(numFmtId=170 + len(inch), formatCode=inch))
    rule = Rule(type="expression", dxf=style, formula=[f"AND({inches},ISNUMBER({first}))"])
    sheet.conditional_formatting.add(block, rule)


def mark_words(sheet, block):
    """Words where a number should be stand in bold and underlined, so that they are seen in print too."""
    first = block.split(":")[0]
    rule = FormulaRule(
        formula=[f'OR({first}="refused",{first}="no answer")'], font=Font(bold=True, italic=True, underline="single")
    )
    sheet.conditional_formatting.add(block, rule)


def page(sheet, area, head_rows):
    """How the sheet is printed."""
    sheet.print_area = area
    sheet.print_title_rows = head_rows
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = sheet.PAPERSIZE_A4
    sheet.page_setup.fitToWidth = 1
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.page_margins.left = sheet.page_margins.right = 0.5
    sheet.page_margins.top = sheet.page_margins.bottom = 0.6
    sheet.page_margins.header = sheet.page_margins.footer = 0.3
    sheet.oddFooter.left.text = "&A"
    sheet.oddFooter.center.text = "&P / &N"
    sheet.oddFooter.right.text = "&D"
    sheet.sheet_view.showGridLines = False
