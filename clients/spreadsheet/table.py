"""A table of a sheet: what a person writes on the left, what the service answers beside it, why a row lacks a
number, and, outside what is printed, the addresses asked and the answers as they came."""

from dataclasses import dataclass, field

from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation

import asking
import look

HEAD_ROW = 6
FIRST = HEAD_ROW + 1
# Rows beyond those filled in, for a person's own.
SPARE = 6


@dataclass
class Input:
    """A column to write in. `key` is how questions name it."""

    key: str
    head: str
    width: int = 14
    number: bool = False
    choices: str | None = None


@dataclass
class Question:
    """One request a row. `parts` are made from the letters of the row's cells; `after` names the answer that
    this builds on."""

    name: str
    calculator: str
    parts: object
    after: str | None = None


@dataclass
class Answer:
    """A column answered: by the service, where `question` is set, or reckoned in the sheet from `formula`."""

    key: str
    head: str
    question: str | None = None
    pick: str = ""
    words: bool = False
    places: tuple[str, str] | None = None
    form: str = "General"
    formula: object = None
    width: int = 12
    shown: bool = True
    digits: str = "answer_digits"


@dataclass
class Table:
    """The columns, the rows filled in, and the key that says whether a row is in use."""

    used: str
    inputs: list
    questions: list
    answers: list
    rows: list
    cautions: list = field(default_factory=list)
    total: tuple[str, str] | None = None


def head_of(sheet, title, says):
    """Title, sentence and the two counts, the same on every sheet."""
    look.put(sheet["A1"], title, look.TITLE)
    look.put(sheet["A2"], says, look.SMALL)
    for row, label in ((3, "Answers refused"), (4, "No answer")):
        look.put(sheet.cell(row, 1), label, look.BOLD)
    for row in (1, 2, 3, 4):
        sheet.row_dimensions[row].height = 24 if row == 1 else 15


def counts(sheet, cell_refused, cell_silent, answers):
    """Writes the two counts over the blocks of answers as they came, and marks them when not zero."""
    look.put(sheet[cell_refused], "=" + asking.refused_in(answers), look.BOLD, look.LEFT, form="0")
    silent = asking.count(answers, f'{{}}="{asking.NOT_THERE}"')
    look.put(sheet[cell_silent], "=" + silent, look.BOLD, look.LEFT, form="0")
    for cell in (cell_refused, cell_silent):
        rule = FormulaRule(formula=[f"{cell}>0"], font=Font(bold=True, underline="double"))
        sheet.conditional_formatting.add(cell, rule)


def headings(sheet, row, first, heads, band):
    """A band that says whose columns these are, and their heads: pairs of words and whether numbers follow."""
    look.put(sheet.cell(row - 1, first), band, look.BAND, look.LEFT)
    for at, (head, numbers) in enumerate(heads):
        align = look.NUMBERS_HEAD if numbers else look.WORDS_HEAD
        look.put(sheet.cell(row, first + at), head, look.BOLD, align, look.UNDER_HEAD)


def lay(sheet, table):
    """Lays the table and gives the blocks of its answers as they came."""
    last = FIRST + len(table.rows) + SPARE - 1
    shown = [answer for answer in table.answers if answer.shown]
    own = [answer for answer in table.answers if answer.question]
    column = {}
    at = 1
    for keys in (
        [i.key for i in table.inputs],
        [a.key for a in shown],
        ["why", "gap"],
        [f"ask {q.name}" for q in table.questions],
        [f"raw {a.key}" for a in own],
    ):
        for key in keys:
            column[key] = get_column_letter(at)
            at += 1
    headings(sheet, HEAD_ROW, 1, [(i.head, i.number) for i in table.inputs], "You write")
    heads = [(a.head, not a.words) for a in shown] + [("Why not", False)]
    headings(sheet, HEAD_ROW, len(table.inputs) + 1, heads, "The service answers")
    helpers = [(f"address, {q.name}", False) for q in table.questions]
    helpers += [(f"came back, {a.key}", False) for a in own]
    headings(sheet, HEAD_ROW, len(table.inputs) + len(shown) + 3, helpers, "To look into; not printed")
    sheet.row_dimensions[HEAD_ROW].height = 44
    for row in range(FIRST, last + 1):
        values = table.rows[row - FIRST] if row - FIRST < len(table.rows) else {}
        lay_row(sheet, table, row, {key: f"{letter}{row}" for key, letter in column.items()}, values)
    finish(sheet, table, column, shown, own, last)
    return [f"{column[f'raw {own[0].key}']}{FIRST}:{column[f'raw {own[-1].key}']}{last}"]


def lay_row(sheet, table, row, cell, values):
    """One row's cells."""
    sheet.row_dimensions[row].height = look.ROW_HEIGHT
    for given in table.inputs:
        look.put_input(sheet[cell[given.key]], values.get(given.key), given.number)
    for question in table.questions:
        after = cell[f"raw {question.after}"] if question.after else None
        formula = asking.address(question.calculator, question.parts(cell), cell[table.used], after)
        look.put(sheet[cell[f"ask {question.name}"]], formula, look.SMALL)
    raws = []
    for answer in table.answers:
        if answer.question:
            raw = cell[f"raw {answer.key}"]
            raws.append(raw)
            look.put(sheet[raw], asking.fetched(cell[f"ask {answer.question}"], answer.pick, answer.digits), look.SMALL)
            formula = asking.words(raw) if answer.words else asking.number(raw)
        else:
            formula = answer.formula(cell)
        if answer.shown:
            align = look.INDENTED if answer.words else look.RIGHT
            look.put(sheet[cell[answer.key]], formula, align=align, border=look.UNDER_ROW, form=answer.form)
    look.put(sheet[cell["why"]], asking.reason(raws), look.REASON, look.WRAPPED, look.UNDER_ROW)


def finish(sheet, table, column, shown, own, last):
    """Widths, marks, choices, the total, cautions and the page."""
    for given in table.inputs:
        sheet.column_dimensions[column[given.key]].width = given.width
        if given.choices:
            choice = DataValidation(type="list", formula1=f'"{given.choices}"', allow_blank=True)
            choice.add(f"{column[given.key]}{FIRST}:{column[given.key]}{last}")
            sheet.add_data_validation(choice)
    for answer in shown:
        block = f"{column[answer.key]}{FIRST}:{column[answer.key]}{last}"
        sheet.column_dimensions[column[answer.key]].width = answer.width
        if answer.places:
            look.places(sheet, block, *answer.places)
        look.mark_words(sheet, block)
    sheet.column_dimensions[column["why"]].width = look.REASON_WIDTH
    for key in [f"ask {q.name}" for q in table.questions] + [f"raw {a.key}" for a in own]:
        sheet.column_dimensions[column[key]].width = 18
    counts(sheet, "B3", "B4", [f"{column[f'raw {own[0].key}']}{FIRST}:{column[f'raw {own[-1].key}']}{last}"])
    bottom = last + 1
    if table.total:
        key, label = table.total
        # A sum over text leaves the text out without a word, so the sum is given only when it is whole.
        block = f"{column[key]}{FIRST}:{column[key]}{last}"
        wanted = f"SUMPRODUCT(--(LEN({column[table.used]}{FIRST}:{column[table.used]}{last})>0))"
        missing = f'"short: "&({wanted}-COUNT({block}))&" of "&{wanted}&" missing"'
        look.put(sheet.cell(bottom, 1), label, look.BOLD)
        total = sheet[f"{column[key]}{bottom}"]
        form = next(answer.form for answer in shown if answer.key == key)
        look.put(total, f"=IF(COUNT({block})={wanted},SUM({block}),{missing})", look.BOLD, look.RIGHT, form=form)
        for letter in list(column.values())[: len(table.inputs) + len(shown)]:
            sheet[f"{letter}{bottom}"].border = look.OVER_TOTAL
        bottom += 1
    for caution in table.cautions:
        bottom += 1
        look.put(sheet.cell(bottom, 1), caution, look.SMALL)
    sheet.freeze_panes = f"B{FIRST}"
    look.page(sheet, f"A1:{column['why']}{bottom}", f"{HEAD_ROW}:{HEAD_ROW}")
