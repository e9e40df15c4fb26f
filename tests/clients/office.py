"""A headless LibreOffice that reckons workbooks: opens one, writes cells, recalculates, reads cells.

Runs under the Python that has `uno`, which is the system's. LibreOffice fetches WEBSERVICE only for files in a
trusted folder that are opened to be updated in full; converting a file never fetches.
"""

import contextlib
import os
import shutil
import signal
import subprocess
import tempfile
import time
from pathlib import Path

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException
from com.sun.star.util import URL

PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Common/Security/Scripting"><prop oor:name="SecureURL" oor:op="fuse">
<value><it>{folder}</it></value></prop></item>
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse">
<value>{locale}</value></prop></item></oor:items>"""
FULL_UPDATE = 3
# com.sun.star.sheet.FormulaResult.VALUE
VALUE = 1


def properties(**values):
    """Named values as the interface takes them."""
    return tuple(PropertyValue(name, 0, value, 0) for name, value in values.items())


@contextlib.contextmanager
def office(folder, locale):
    """A running LibreOffice that trusts `folder`, with a profile of its own and a country; gives its desktop."""
    profile = Path(tempfile.mkdtemp(prefix="office-"))
    (profile / "user").mkdir()
    (profile / "user/registrymodifications.xcu").write_text(
        PROFILE.format(folder=Path(folder).resolve().as_uri(), locale=locale)
    )
    pipe = f"shop{os.getpid()}"
    command = [
        "soffice",
        f"-env:UserInstallation={profile.as_uri()}",
        "--headless",
        "--norestore",
        "--nologo",
        f"--accept=pipe,name={pipe};urp;",
    ]
    # A group of its own, since the starter leaves the real process behind.
    process = subprocess.Popen(command, start_new_session=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        yield connect(pipe, process)
    finally:
        with contextlib.suppress(ProcessLookupError):
            os.killpg(process.pid, signal.SIGTERM)
        with contextlib.suppress(subprocess.TimeoutExpired):
            process.wait(20)
        with contextlib.suppress(ProcessLookupError):
            os.killpg(process.pid, signal.SIGKILL)
        shutil.rmtree(profile, ignore_errors=True)


def connect(pipe, process):
    """The desktop, once it answers."""
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
    for _ in range(240):
        if process.poll() is not None:
            raise RuntimeError("LibreOffice ended before it answered")
        try:
            context = resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
            return context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
        except NoConnectException:
            time.sleep(0.25)
    raise RuntimeError("LibreOffice did not answer within a minute")


class Book:
    """An open workbook."""

    def __init__(self, desktop, path):
        address = Path(path).resolve().as_uri()
        # Not hidden, though nobody sees it: a hidden one does not take the command to recalculate hard.
        opened = properties(Hidden=False, UpdateDocMode=FULL_UPDATE)
        self.document = desktop.loadComponentFromURL(address, "_blank", 0, opened)
        if self.document is None:
            raise RuntimeError(f"{path} cannot be opened")

    def cell(self, sheet, name):
        return self.document.Sheets.getByName(sheet).getCellRangeByName(name)

    def write(self, sheet, name, value):
        """Writes a text or a number, as a person would into a cell meant for it."""
        cell = self.cell(sheet, name)
        if isinstance(value, str):
            cell.setString(value)
        else:
            cell.setValue(value)

    def reckon(self):
        """Recalculates what a changed cell changes; what was answered before is not asked again."""
        self.document.calculate()

    def reckon_hard(self):
        """Recalculates as Ctrl+Shift+F9 does."""
        command = URL(Complete=".uno:CalculateHard", Protocol=".uno:", Path="CalculateHard")
        frame = self.document.CurrentController.Frame
        frame.queryDispatch(command, "_self", 0).dispatch(command, properties(SynchronMode=True))

    def value(self, sheet, name):
        """The cell's number, or its text where it holds none."""
        cell = self.cell(sheet, name)
        if cell.getError():
            return f"error {cell.getError()}"
        return cell.getValue() if cell.FormulaResultType2 == VALUE or cell.Type.value == "VALUE" else cell.getString()

    def insert(self, sheet, above, rows):
        """Puts rows above a row and copies that row into them, as a person does."""
        sheet = self.document.Sheets.getByName(sheet)
        sheet.Rows.insertByIndex(above - 1, rows)
        source = sheet.Rows.getByIndex(above - 1 + rows).RangeAddress
        for row in range(above - 1, above - 1 + rows):
            sheet.copyRange(sheet.getCellByPosition(0, row).CellAddress, source)

    def remove(self, sheet, first, rows):
        """Takes rows out."""
        self.document.Sheets.getByName(sheet).Rows.removeByIndex(first - 1, rows)

    def cells(self, shown=False):
        """Every cell of every sheet that is not empty, by place: its formula, or what it shows."""
        cells = {}
        for sheet in self.document.Sheets:
            cursor = sheet.createCursor()
            cursor.gotoEndOfUsedArea(False)
            area = sheet.getCellRangeByPosition(0, 0, cursor.RangeAddress.EndColumn, cursor.RangeAddress.EndRow)
            for row, line in enumerate(area.getDataArray() if shown else area.getFormulaArray()):
                for column, content in enumerate(line):
                    if content != "":
                        cells[sheet.Name, row, column] = content
        return cells

    def close(self):
        self.document.close(True)
