"""The committed .xlsx against its script: the same cells, and a sheet that can be read and printed.

Run by tests/clients/run, under the Python that has openpyxl.
"""

import sys
import unittest
from pathlib import Path

from openpyxl import load_workbook
from openpyxl.utils import range_boundaries

FOLDER = Path(__file__).resolve().parents[2] / "clients/spreadsheet"
sys.path.insert(0, str(FOLDER))

import look  # noqa: E402
import make  # noqa: E402


def box(cell):
    """The lines on the four sides of a cell."""
    sides = (getattr(cell.border, side) for side in ("left", "right", "top", "bottom"))
    return tuple(side.style if side else None for side in sides)


def cells(book):
    """What each cell holds and how it looks, by place."""
    found = {}
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value is not None or cell.has_style:
                    found[sheet.title, cell.coordinate] = (cell.value, cell.number_format, cell.font.b, box(cell))
    return found


class File(unittest.TestCase):
    """The file as committed."""

    def setUp(self):
        self.book = load_workbook(FOLDER / f"{make.NAME}.xlsx")

    def test_the_file_is_what_the_script_makes(self):
        made = make.workbook()
        self.assertEqual(cells(self.book), cells(made), "run clients/spreadsheet/make.py")
        self.assertEqual(
            {n: d.attr_text for n, d in self.book.defined_names.items()},
            {n: d.attr_text for n, d in made.defined_names.items()},
        )

    def test_every_sheet_has_a_frozen_head_and_prints_what_is_to_be_read(self):
        for sheet in self.book:
            self.assertIsNotNone(sheet.freeze_panes, sheet.title)
            self.assertTrue(sheet.print_title_rows, sheet.title)
            self.assertTrue(sheet.sheet_properties.pageSetUpPr.fitToPage, sheet.title)
            left, top, right, bottom = range_boundaries(sheet.print_area.split("!")[1].replace("$", ""))
            outside = [
                c
                for row in sheet.iter_rows()
                for c in row
                if c.value is not None and not (left <= c.column <= right and top <= c.row <= bottom)
            ]
            # What is left out is only addresses, answers as they came, and their heads.
            for cell in outside:
                helper = "WEBSERVICE" in str(cell.value) or 'service_base&"/v1/' in str(cell.value)
                head = any(words in str(cell.value) for words in ("came back", "address", "not printed"))
                self.assertTrue(helper or head, f"{sheet.title}!{cell.coordinate}: {cell.value}")

    def test_what_a_person_writes_stands_in_a_box_as_text(self):
        boxes = 0
        for sheet in self.book:
            for row in sheet.iter_rows():
                for cell in row:
                    boxed = box(cell) == (look.THIN.style,) * 4
                    tinted = cell.fill.fill_type == "solid"
                    # The later cells of a merged box keep only its outer sides.
                    if tinted and cell.__class__.__name__ != "MergedCell":
                        self.assertTrue(boxed, f"{sheet.title}!{cell.coordinate} is told by its tint alone")
                    if boxed and cell.__class__.__name__ != "MergedCell":
                        boxes += 1
                        self.assertIn(cell.number_format, ("@", "0"), f"{sheet.title}!{cell.coordinate}")
                        self.assertFalse(str(cell.value).startswith("="), f"{sheet.title}!{cell.coordinate}")
        self.assertGreater(boxes, 100)

    def test_heads_of_numbers_name_their_unit(self):
        heads = [
            str(cell.value)
            for sheet in self.book
            for row in sheet.iter_rows()
            for cell in row
            if cell.font.b and box(cell)[3] == look.THICK.style and cell.alignment.horizontal == "right"
        ]
        for head in heads:
            plain = head in ("How many", "Hole", "Asked", "Answered", "Refused", "No answer") or head.startswith("=IF(")
            self.assertTrue(plain or "[" in head, head)
        self.assertGreater(len(heads), 15)


if __name__ == "__main__":
    unittest.main()
