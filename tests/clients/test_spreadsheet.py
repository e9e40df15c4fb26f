"""The workbook, reckoned by LibreOffice against the running service.

Run by tests/clients/run, which gives SHOP_RECKONER (the service's address), under the Python that has `uno`.
"""

import math
import re
import shutil
import tempfile
import unittest
from pathlib import Path

from office import Book, office
from services import SERVICE, Other, answered, asked, other_service

FOLDER = Path(__file__).resolve().parents[2] / "clients/spreadsheet"
HOLES, CIRCLE, TAPS, SPEEDS = "Hole list", "Bolt circle", "Tap drills", "Speeds"
STEPS = (112, 160, 224, 315, 450, 630, 900, 1250)
LISTED = ",".join(f"{step} rpm" for step in STEPS)


class Workbook:
    """The tests, for each kind of file."""

    file = locale = None

    @classmethod
    def setUpClass(cls):
        cls.trusted = tempfile.mkdtemp(prefix="workbook-")
        path = shutil.copy(FOLDER / cls.file, cls.trusted)
        cls.other_path = shutil.copy(FOLDER / "shop-sums.xlsx", Path(cls.trusted) / "other.xlsx")
        cls.running = office(cls.trusted, cls.locale)
        cls.desktop = cls.running.__enter__()
        cls.book = Book(cls.desktop, path)
        cls.reckon()

    @classmethod
    def tearDownClass(cls):
        cls.book.close()
        cls.running.__exit__(None, None, None)
        shutil.rmtree(cls.trusted)

    @classmethod
    def reckon(cls, **start):
        """Reckons with the settings of the first sheet as they stand at first, but for those given."""
        at_first = {"B4": SERVICE, "B5": "inch", "B6": "shop", "B7": "", "B8": LISTED, "B10": ""}
        for name, value in (at_first | start).items():
            cls.book.write("Start", name, value)
        cls.book.reckon()

    def get(self, sheet, name):
        return self.book.value(sheet, name)

    def near(self, got, wanted, digit):
        """A number, within half of its last digit shown."""
        self.assertIsInstance(got, float)
        self.assertLessEqual(abs(got - wanted), digit / 2 * 1.000001, f"{got}, not {wanted}")

    def counted(self, row):
        return [self.get("Start", f"{column}{row}") for column in "BCDE"]

    def test_every_question_is_answered_and_counted(self):
        self.assertEqual(self.get("Start", "A25"), "Every question was answered.")
        total, good, refused, silent = self.counted(24)
        self.assertEqual((good, refused, silent), (total, 0, 0))
        came = {self.get("Start", f"A{row}"): self.counted(row)[0] for row in range(20, 24)}
        # Rows times questions: 6 x 6, 6 x 5, chord and unit, 16 x 7, 2 x 6 x 7.
        self.assertEqual(came, {HOLES: 36, CIRCLE: 32, TAPS: 112, SPEEDS: 84})
        shown = self.book.cells(shown=True).items()
        wrong = {place: cell for place, cell in shown if re.match(r"#[A-Z/]+[!?0A]|Err:", str(cell))}
        self.assertEqual(wrong, {})

    def test_bolt_circle_is_the_circle_at_the_steps_of_the_readout(self):
        at = (0.0, 0.0)
        for hole in range(6):
            angle = math.radians(30 + 60 * hole)
            place = [round((c + 2 * f(angle)) / 0.0005) * 0.0005 for c, f in ((3, math.cos), (2.5, math.sin))]
            row = 7 + hole
            for column, wanted in zip("DEFGH", (hole + 1, *place, place[0] - at[0], place[1] - at[1]), strict=True):
                self.near(self.get(CIRCLE, f"{column}{row}"), wanted, 1e-9)
            at = place
        self.assertEqual(self.get(CIRCLE, "D13"), "")
        # The chord of a sixth is the radius.
        self.near(self.get(CIRCLE, "B16"), 2, 1e-9)

    def test_tap_drills_are_those_of_the_formula(self):
        # Diameter less the share of twice 0.6495 P, the height that percentages are of by trade rule: common practice.
        for row, diameter, pitch in ((11, 0.25, 1 / 20), (14, 0.375, 1 / 16), (19, 8 / 25.4, 1.25 / 25.4)):
            wanted = diameter - 0.75 * 2 * 0.75 * math.sqrt(3) / 2 * pitch
            self.near(self.get(TAPS, f"D{row}"), wanted, 1e-4)
        self.assertEqual(self.get(TAPS, "E11"), "#7")
        self.near(self.get(TAPS, "F11"), 0.201, 1e-4)
        # ASME B1.1: internal 1/4-20 UNC-2B, minor diameter 0.196 to 0.207 in.
        self.near(self.get(TAPS, "H11"), 0.196, 1e-4)
        self.near(self.get(TAPS, "I11"), 0.207, 1e-4)
        self.assertEqual(self.get(TAPS, "J11"), "yes")

    def test_holes_go_as_deep_as_their_points_and_take_their_time(self):
        total = 0
        for row, many, size, depth, point in (
            (7, 2, 0.25, 0.5, 118),
            (9, 1, 0.75, 1.25, 118),
            (10, 2, 0.1285, 0.375, 135),
        ):
            tip = depth + size / 2 / math.tan(math.radians(point / 2))
            self.near(self.get(HOLES, f"H{row}"), tip, 1e-4)
            feed = self.get(HOLES, f"J{row}")
            # The feed is shown to the hundredth.
            self.assertAlmostEqual(self.get(HOLES, f"K{row}"), (tip + 0.1) / feed, delta=0.005 / feed)
            self.assertAlmostEqual(self.get(HOLES, f"L{row}"), many * self.get(HOLES, f"K{row}"), places=12)
            self.assertIn(self.get(HOLES, f"I{row}"), STEPS)
        total = sum(self.get(HOLES, f"L{row}") for row in range(7, 13))
        self.assertAlmostEqual(self.get(HOLES, "L19"), total, places=12)

    def test_speeds_are_what_the_service_answers_and_steps_of_the_spindle(self):
        for row, column, material, size in (
            (9, "B", "1018", "1/8 in"),
            (10, "F", "4140 annealed", "1/2 in"),
            (14, "H", "brass-360", "1 in"),
        ):
            answer = asked(
                "speeds/drilling", diameter=size, material=material, tool_material="hss", units="inch", available=LISTED
            )
            self.assertEqual(self.get(SPEEDS, f"{column}{row}"), answer["spindle_speed"]["value"])
            self.assertIn(self.get(SPEEDS, f"{column}{row}"), STEPS)
            feed = self.get(SPEEDS, f"{column}{row + 13}")
            self.assertEqual(f"{feed:.2f} in/min", answer["feed_rate"]["text"])

    def test_units_digits_and_machine_are_chosen_on_the_first_sheet(self):
        self.addCleanup(self.reckon)
        self.reckon(B5="metric", B6="full")
        # The readout goes on reading inches, and its columns say so; other answers are metric.
        self.assertEqual((self.get(CIRCLE, "E6"), self.get(CIRCLE, "F8")), ("X [in]", 4.5))
        self.assertEqual(self.get(CIRCLE, "A16"), "From hole to next, middle to middle [mm]")
        self.near(self.get(CIRCLE, "B16"), 50.8, 1e-9)
        self.assertEqual(self.get(HOLES, "J6"), "Feed rate [mm/min]")
        self.assertEqual(self.counted(24)[2:], [0, 0])
        self.book.write(CIRCLE, "B14", "0.005 mm")
        self.book.reckon()
        self.assertEqual(self.get(CIRCLE, "F6"), "Y [mm]")
        self.near(self.get(CIRCLE, "F8"), 4.5 * 25.4, 1e-9)
        self.book.write(CIRCLE, "B14", "0.0005 in")
        self.near(self.get(HOLES, "H7"), 25.4 * (0.5 + 0.125 / math.tan(math.radians(59))), 1e-9)
        # No steps, no machine: the exact speed. With the mill of the shop's file: its steps.
        self.reckon(B8="")
        exact = self.get(SPEEDS, "F9")
        self.assertNotIn(exact, STEPS)
        self.reckon(B8="", B7="mill")
        self.assertEqual(self.get(SPEEDS, "F9"), max(step for step in STEPS if step <= exact))

    def test_a_refused_cell_says_why_is_counted_and_leaves_no_silent_total(self):
        self.addCleanup(self.reckon)
        before = {place: cell for place, cell in self.book.cells(shown=True).items() if place[0] == HOLES}
        total = self.get(HOLES, "L19")
        self.book.write(HOLES, "C8", "0.257")
        self.book.write(CIRCLE, "B7", "4,5 in")
        self.book.write(SPEEDS, "A11", "driftwood")
        self.book.write(TAPS, "A10", "")
        self.book.reckon()
        for column in "HIJKL":
            self.assertEqual(self.get(HOLES, f"{column}8"), "refused")
        self.assertIn('"0.257" has no unit', self.get(HOLES, "M8"))
        self.assertEqual(self.get(HOLES, "L19"), "short: 1 of 6 missing")
        self.assertEqual(self.get(HOLES, "B3"), 6)
        self.assertIn("4,5 in", self.get(CIRCLE, "J7"))
        self.assertIn("driftwood", self.get(SPEEDS, "I11"))
        # An emptied row is not asked, nor counted.
        self.assertEqual([self.get(TAPS, f"{column}10") for column in "DEFGHIJK"], [""] * 8)
        self.assertEqual([self.counted(row)[2] for row in range(20, 24)], [6, 32, 0, 14])
        self.assertEqual(self.counted(24), [257, 205, 52, 0])
        self.assertTrue(self.get("Start", "A25").startswith("52 of 257 questions have no number"))
        for sheet, name, value in (
            (HOLES, "C8", "letter F"),
            (CIRCLE, "B7", "4 in"),
            (SPEEDS, "A11", "304"),
            (TAPS, "A10", "#10-32 UNF"),
        ):
            self.book.write(sheet, name, value)
        self.book.reckon()
        self.assertEqual({p: c for p, c in self.book.cells(shown=True).items() if p[0] == HOLES}, before)
        self.assertEqual(self.get(HOLES, "L19"), total)

    def test_a_count_that_is_none_is_refused_and_a_long_circle_says_so(self):
        self.addCleanup(self.reckon)
        self.book.write(CIRCLE, "B8", "six")
        self.book.reckon()
        self.assertEqual((self.get(CIRCLE, "D7"), self.get(CIRCLE, "E7"), self.get(CIRCLE, "D8")), (1, "refused", ""))
        self.assertIn("holes", self.get(CIRCLE, "J7"))
        self.book.write(CIRCLE, "B8", 30)
        self.book.reckon()
        self.assertEqual(self.get(CIRCLE, "D31"), "6 more holes: insert rows above the last one and copy it into them")
        self.book.insert(CIRCLE, 30, 6)
        self.addCleanup(self.book.remove, CIRCLE, 30, 6)
        self.book.reckon()
        self.assertEqual([self.get(CIRCLE, f"D{row}") for row in (29, 30, 35, 36)], [23, 24, 29, 30])
        self.assertEqual(self.get(CIRCLE, "D37"), "")
        self.near(self.get(CIRCLE, "I36"), 30 + 29 * 12 - 360, 1e-9)
        self.assertEqual(self.counted(21), [152, 152, 0, 0])
        self.book.write(CIRCLE, "B8", 6)

    def test_a_row_put_into_a_table_is_summed_and_counted(self):
        self.addCleanup(self.reckon)
        total, many = self.get(HOLES, "L19"), self.get(HOLES, "L10")
        self.book.insert(HOLES, 18, 1)
        self.addCleanup(self.book.remove, HOLES, 18, 1)
        for column, value in (
            ("B", 2),
            ("C", "No.30"),
            ("D", "3/8 in"),
            ("E", "135 deg"),
            ("F", "1018"),
            ("G", "cobalt"),
        ):
            self.book.write(HOLES, f"{column}18", value)
        self.book.reckon()
        self.assertAlmostEqual(self.get(HOLES, "L20"), total + many, places=12)
        self.assertEqual(self.counted(20), [42, 42, 0, 0])

    def test_the_one_address_points_every_cell(self):
        self.addCleanup(self.reckon)
        before = answered()
        self.assertGreater(before, 0)
        # A stroke at the end of the address does no harm.
        with other_service() as address:
            self.reckon(B4=f"{address}/")
        self.assertEqual(answered(), before)
        for sheet, cells in ((HOLES, "HIJK"), (TAPS, "DFGHI"), (SPEEDS, "BCDEFGH")):
            for row in range(9, 12):
                self.assertEqual([self.get(sheet, f"{column}{row}") for column in cells], [7] * len(cells))
        self.assertEqual([self.get(CIRCLE, f"{column}9") for column in "EFGHI"], [7] * 5)
        self.assertEqual(self.get("Start", "B17"), "7")
        paths = {path.split("?")[0] for path in Other.seen}
        self.assertEqual(len(paths), 5, paths)
        self.assertTrue(all(path.startswith("/v1/") and path.endswith(".txt") for path in paths))

    def test_a_service_that_was_down_is_asked_again_on_demand(self):
        self.addCleanup(self.reckon)
        with other_service() as address:
            pass
        port = int(address.rsplit(":", 1)[1])
        self.reckon(B4=address)
        silent, answered = [0, 0, 264], [264, 0, 0]
        self.assertEqual(self.counted(24)[1:], silent)
        with other_service(port):
            # Any word will do, the one that stood there during the outage too.
            self.reckon(B4=address, B10="at noon")
            self.assertEqual(self.counted(24)[1:], answered)
        self.assertEqual([path for path in Other.seen if "noon" in path or "#" in path], [], "the mark is not sent")

    def test_a_hard_recalculation_is_all_that_an_outage_needs(self):
        self.addCleanup(self.reckon)
        with other_service() as address:
            pass
        port = int(address.rsplit(":", 1)[1])
        silent, answered = [0, 0, 264], [264, 0, 0]
        self.book.write("Start", "B4", address)
        # Twice down and twice up, with nothing written in between.
        for _ in range(2):
            self.book.reckon_hard()
            self.assertEqual(self.counted(24)[1:], silent)
            self.assertEqual((self.get("Start", "B17"), self.get(SPEEDS, "C10")), ("no answer", "no answer"))
            with other_service(port):
                self.book.reckon_hard()
            self.assertEqual(self.counted(24)[1:], answered)
            self.assertEqual((self.get("Start", "B17"), self.get(SPEEDS, "C10")), ("7", 7))
        self.assertEqual([path for path in Other.seen if "#" in path or "%230" in path], [], "the mark is not sent")

    def test_what_was_answered_is_not_asked_again_while_one_writes(self):
        self.addCleanup(self.reckon)
        with other_service() as address:
            self.reckon(B4=address)
            seen = len(Other.seen)
            self.book.write(HOLES, "C8", "letter G")
            self.assertEqual(self.get(HOLES, "H8"), 7)
            self.counted(24)
            asked = len(Other.seen) - seen
            self.book.write(HOLES, "C8", "letter F")
        # The questions of that row, and no other's.
        self.assertTrue(0 < asked <= 6, asked)

    def test_without_a_service_every_cell_says_so(self):
        self.addCleanup(self.reckon)
        self.reckon(B4="http://127.0.0.1:1")
        total, good, refused, silent = self.counted(24)
        self.assertEqual((total, good, refused, silent), (264, 0, 0, 264))
        self.assertEqual(self.get("Start", "B17"), "no answer")
        self.assertEqual(self.get(SPEEDS, "C10"), "no answer")
        self.assertTrue(self.get(HOLES, "M7").startswith("No answer:"))
        self.assertEqual(self.get(HOLES, "L19"), "short: 6 of 6 missing")


class Xlsx(Workbook, unittest.TestCase):
    """The .xlsx, where numbers have a decimal point."""

    file, locale = "shop-sums.xlsx", "en-US"


class Ods(Workbook, unittest.TestCase):
    """The .ods, where numbers have a decimal comma."""

    file, locale = "shop-sums.ods", "de-DE"

    def test_this_country_writes_a_comma(self):
        cell = self.book.cell("Start", "H1")
        cell.setFormula('=VALUE("0,5")')
        self.assertEqual(cell.getValue(), 0.5)
        cell.setString("")

    def test_both_files_hold_the_same_cells(self):
        twin = Book(self.desktop, self.other_path)
        # The first book's settings are those of this test's service.
        for book in (self.book, twin):
            book.write("Start", "B4", SERVICE)
        self.assertEqual(self.book.cells(), twin.cells())
        twin.close()


if __name__ == "__main__":
    unittest.main()
