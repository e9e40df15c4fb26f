"""Makes the workbook, as .xlsx and, where LibreOffice is at hand, as .ods.

    python make.py [--into FOLDER] [--only-xlsx]

Needs the packages of requirements.txt. The two files beside this script are what it made last.
"""

import argparse
import datetime
import subprocess
import sys
import tempfile
from pathlib import Path

from openpyxl import Workbook

import bolt_circle
import hole_list
import look
import speeds
import start
import tap_drills

NAME = "shop-sums"
SHEETS = [hole_list, bolt_circle, tap_drills, speeds]


def workbook():
    """The workbook with all its sheets."""
    book = Workbook()
    book.properties.title = "Tern Point Works: shop sums"
    book.properties.creator = "Shop Reckoner"
    book.properties.created = book.properties.modified = datetime.datetime(2026, 1, 1)
    # What is formatted by a condition begins from the normal style.
    normal = book._named_styles["Normal"]
    normal.font, normal.alignment = look.PLAIN, look.MIDDLE
    front = book.active
    front.title = start.TITLE
    blocks = {sheet.TITLE: sheet.build(book.create_sheet(sheet.TITLE)) for sheet in SHEETS}
    start.build(front, book, blocks)
    # Made without answers in it: whatever opens it reckons everything first.
    book.calculation.fullCalcOnLoad = True
    return book


def to_ods(xlsx, into):
    """Has LibreOffice write the same workbook as .ods."""
    with tempfile.TemporaryDirectory() as profile:
        command = [
            "soffice",
            f"-env:UserInstallation=file://{profile}",
            "--headless",
            "--convert-to",
            "ods",
            "--outdir",
            str(into),
            str(xlsx),
        ]
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL, timeout=240)


def main():
    """Writes the files."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--into", type=Path, default=Path(__file__).resolve().parent)
    parser.add_argument("--only-xlsx", action="store_true")
    asked = parser.parse_args()
    asked.into.mkdir(parents=True, exist_ok=True)
    xlsx = asked.into / f"{NAME}.xlsx"
    workbook().save(xlsx)
    if not asked.only_xlsx:
        to_ods(xlsx, asked.into)
    print(*sorted(path.name for path in asked.into.glob(f"{NAME}.*")), file=sys.stderr)


if __name__ == "__main__":
    main()
