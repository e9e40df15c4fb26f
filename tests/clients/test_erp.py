"""The nightly job against the running service: prices, and the same prices whatever goes wrong on the way.

Run by tests/clients/run, which gives SHOP_RECKONER, the address of a service started with the example shop.
"""

import csv
import math
import os
import signal
import subprocess
import sys
import tempfile
import time
import unittest
from decimal import Decimal
from pathlib import Path

from unsteady import Unsteady

SERVICE = os.environ["SHOP_RECKONER"]
FOLDER = Path(__file__).resolve().parents[2] / "clients/erp"
STEPS = {
    "mill": (112, 160, 224, 315, 450, 630, 900, 1250),
    "bench-drill": (280, 450, 710, 1120, 1800),
    # The chuck of the rates allows 450 rpm; the shop's file would allow 900.
    "lathe": (45, 71, 112, 180, 280, 450),
}


def point(diameter):
    """Length of a 118 degree point."""
    return diameter / 2 / math.tan(math.radians(59))


# Way at feed of one cut in mm, 2 mm of approach in it, by plane geometry worked out here.
WAYS = {
    ("TP-1041", "1"): 25.4 + point(0.201 * 25.4) + 2,
    ("TP-1041", "2"): 2 * (19.05 + 2),
    # A face cutter clear of the work goes its whole diameter on.
    ("TP-1041", "3"): 2 * (152.4 + 50.8 + 2),
    # A slot begins with half the cutter.
    ("TP-1041", "4"): 2 * (63.5 + 12.7 / 2 + 2),
    ("TP-1042", "1"): 12 + point(8.5) + 2,
    ("TP-1042", "2"): 2 * (12 + 2),
    # The rim meets the edge √(ae (D - ae)) before the axis does.
    ("TP-1042", "3"): 90 + math.sqrt(3 * (16 - 3)) + 2,
    ("TP-1043", "1"): 40 + point(6) + 2,
    ("TP-1043", "2"): 2 * (35 + 4 + 2),
    ("TP-1044", "1"): 19.05 + point(0.257 * 25.4) + 2,
    ("TP-1044", "2"): 2 * (15.875 + 2),
    ("TP-1044", "3"): 110 + 10 + 2,
    ("TP-1047", "1"): 40 + 2,
    # From the rim to the center, twice; of a groove to its bottom.
    ("TP-1047", "2"): 2 * (40 / 2 + 2),
    ("TP-1047", "3"): 3 * (110 + 2),
    ("TP-1047", "4"): (34 - 26) / 2 + 2,
    ("TP-1048", "1"): 2 * (50.8 + 2),
    ("TP-1048", "2"): 25 + 2,
}
# Per hour, set-up, a piece, a cut, as rates.toml has them.
RATES = {
    "mill": (42, 12, 1.5, 0.25),
    "lathe": (46, 10, 1.5, 0.25),
    "bench-drill": (24, 5, 0.75, 0.1),
    "saw": (18, 5, 0, 1),
}
REFUSED = {
    ("TP-1045", "1"): ("diameter", "unit_missing"),
    ("TP-1045", "2"): ("material", "not_found"),
    ("TP-1046", "1"): ("machine", "too_much_power"),
    ("TP-1048", "3"): ("material", "not_found"),
    ("TP-1048", "4"): ("machine", "too_much_power"),
}


def rows(path):
    with path.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


class Job(unittest.TestCase):
    """Whole runs."""

    @classmethod
    def setUpClass(cls):
        folder = Path(cls.enterClassContext(tempfile.TemporaryDirectory()))
        cls.ended, cls.said = cls.run_job(folder)
        cls.whole = cls.files(folder)
        cls.table = rows(folder / "prices.csv")
        cls.refused = rows(folder / "prices.refused.csv")

    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    @staticmethod
    def command(folder, *more, service=SERVICE, orders=FOLDER / "orders.csv"):
        return [
            sys.executable,
            str(FOLDER / "price_orders.py"),
            "--orders",
            str(orders),
            "--rates",
            str(FOLDER / "rates.toml"),
            "--into",
            str(folder / "prices.csv"),
            "--service",
            service,
            "--wait",
            "0.01",
            "--tries",
            "4",
            *more,
        ]

    @classmethod
    def run_job(cls, folder, *more, **where):
        done = subprocess.run(cls.command(folder, *more, **where), capture_output=True, text=True, timeout=120)
        assert "Traceback" not in done.stderr, done.stderr
        return done.returncode, done.stderr

    @staticmethod
    def files(folder):
        """The three tables, and nothing else but the lock."""
        found = {path.name: path.read_bytes() for path in folder.iterdir() if path.suffix != ".lock"}
        assert set(found) == {"prices.csv", "prices.refused.csv", "prices.report.txt"}, set(found)
        return found

    def test_every_line_is_priced_or_refused_in_its_order(self):
        self.assertEqual(self.ended, 1, self.said)
        listed = [(row["order"], row["line"]) for row in rows(FOLDER / "orders.csv")]
        self.assertEqual(
            [(row["order"], row["line"]) for row in self.table], [name for name in listed if name not in REFUSED]
        )
        self.assertEqual({(row["order"], row["line"]): (row["column"], row["code"]) for row in self.refused}, REFUSED)
        self.assertTrue(all(row["says"] and row["try"] for row in self.refused))

    def test_times_and_prices_are_those_of_the_geometry_and_the_rates(self):
        for row in self.table:
            name, machine = (row["order"], row["line"]), row["machine"]
            feed, per_cut = float(row["feed_rate [mm/min]"]), float(row["minutes_per_cut [min]"])
            # Feeds are printed to 0.1 mm/min, minutes to 0.001.
            near = WAYS[name] / feed * 0.05 / feed + 0.0006
            self.assertAlmostEqual(per_cut, WAYS[name] / feed, delta=near, msg=name)
            if machine == "saw":
                self.assertEqual((row["spindle_speed [rpm]"], row["load [percent]"]), ("", ""))
            else:
                self.assertIn(float(row["spindle_speed [rpm]"]), STEPS[machine], name)
            pieces, cuts = int(row["pieces"]), int(row["pieces"]) * int(row["per_piece"])
            hour, setup, piece, cut = RATES[machine]
            cost = hour / 60 * (WAYS[name] / feed * cuts + setup + piece * pieces + cut * cuts)
            self.assertAlmostEqual(float(row["price"]), max(cost, 5), delta=0.0051 + hour / 60 * cuts * near, msg=name)
        self.assertEqual(sum(row["price"] == "5.00" for row in self.table), 2)

    def row(self, order, line):
        (row,) = [row for row in self.table if (row["order"], row["line"]) == (order, line)]
        return row

    def changed_rates(self, old, new):
        """The rates with one text in place of another."""
        text = (FOLDER / "rates.toml").read_text(encoding="utf-8")
        self.assertIn(old, text)
        path = self.folder / "rates.toml"
        path.write_text(text.replace(old, new, 1), encoding="utf-8")
        return path

    def test_fields_of_the_rates_leave_the_steps_and_the_power_of_the_machine_alone(self):
        of_mill = "[machines.mill]\n"
        prices = {}
        for point in ("low", "high"):
            rates = self.changed_rates(of_mill, f'{of_mill}fields = {{ range_point = "{point}" }}\n')
            ended, said = self.run_job(self.folder, "--anew", "--rates", str(rates))
            self.assertEqual(ended, 1, said)
            refused = {(row["order"], row["line"]): row["code"] for row in rows(self.folder / "prices.refused.csv")}
            self.assertEqual(refused, {name: code for name, (_, code) in REFUSED.items()})
            table = rows(self.folder / "prices.csv")
            for row in table:
                if row["machine"] == "mill":
                    self.assertIn(float(row["spindle_speed [rpm]"]), STEPS["mill"], row)
                    self.assertIn("available", row["limited_by"])
            prices[point] = [{k: cell for k, cell in row.items() if k != "key"} for row in table]
        # The low end is what the service takes anyway; the high end is not.
        self.assertEqual(prices["low"], [{k: cell for k, cell in row.items() if k != "key"} for row in self.table])
        self.assertNotEqual(prices["high"], prices["low"])

    def test_the_load_of_the_spindle_is_told_and_where_it_is_not_known_that_is_told_too(self):
        for row in self.table:
            compared = row["machine"] in ("mill", "lathe") and row["operation"] not in ("tap", "ream")
            self.assertEqual(bool(row["load [percent]"]), compared, row)
            self.assertLessEqual(float(row["load [percent]"] or 0), 100)
        report = self.whole["prices.report.txt"].decode()
        self.assertIn("In 7 lines nobody checked that the spindle has the power", report)
        stalls = [row["says"] for row in self.refused if row["code"] == "too_much_power"]
        taken = [says.split(" of the power")[0] for says in stalls]
        self.assertEqual(taken, ["The cut takes 255 percent", "The cut takes 267 percent"])

    def test_what_the_rates_and_the_shops_file_make_of_each_other_is_said(self):
        for words in (
            "machines.lathe: fastest = 450 rpm goes before the shop's file, which says 900 rpm",
            "machines.lathe: fastest = 450 rpm leaves out 710 rpm, 1120 rpm",
            "machines.bench-drill: spindle_power is not known",
        ):
            self.assertIn(words, self.said)
        self.assertNotIn("machines.mill:", self.said)
        rates = self.changed_rates('fastest = "450 rpm"', 'fastests = "450 rpm"')
        ended, said = self.run_job(self.folder, "--anew", "--rates", str(rates))
        self.assertEqual(ended, 2, said)
        self.assertIn("machines.lathe.fields.fastests: no calculator asked here has such a field", said)

    def test_a_name_of_another_standard_is_priced_as_the_same_metal_and_a_near_one_is_asked_about(self):
        self.assertEqual(self.row("TP-1047", "1")["material"], "1018")
        self.assertEqual(self.row("TP-1048", "1")["material"], "c93200")
        (near,) = [row for row in self.refused if row["line"] == "3"]
        says = '"1.4301" is near 304, not the same: give 304 if that will do.'
        self.assertEqual((near["says"], near["try"]), (says, "304"))

    def test_a_tap_goes_a_lead_a_turn(self):
        for name, lead in ((("TP-1041", "2"), 25.4 / 20), (("TP-1042", "2"), 1.5), (("TP-1044", "2"), 25.4 / 18)):
            (row,) = [row for row in self.table if (row["order"], row["line"]) == name]
            self.assertAlmostEqual(
                float(row["feed_rate [mm/min]"]), lead * float(row["spindle_speed [rpm]"]), delta=0.051
            )

    def test_the_report_says_what_the_sum_lacks_and_what_to_beware_of(self):
        report = self.whole["prices.report.txt"].decode()
        total = sum(Decimal(row["price"]) for row in self.table)
        self.assertIn(
            f"18 of 23 lines are priced: {total} crowns in all.\nThe sum is short of 5 refused lines:", report
        )
        for row in self.refused:
            self.assertIn(
                f"order {row['order']} line {row['line']} ({row['operation']}), {row['column']}: {row['says']}", report
            )
        versions = {(row["service_version"], row["data_version"], row["shop_version"]) for row in self.table}
        ((service, data, shop),) = versions
        self.assertIn(f"Reckoned by Shop Reckoner {service}, tables {data}, shop's file {shop}.", report)
        self.assertNotIn("--anew", report)
        self.assertIn("The tool maker's data, the machine's manual", report)
        self.assertIn("Cast iron makes fine dust", report)

    def test_a_second_run_changes_nothing_and_asks_only_for_what_was_refused(self):
        self.run_job(self.folder)
        before = {path: path.stat().st_mtime_ns for path in self.folder.iterdir()}
        with Unsteady(SERVICE) as way:
            ended, said = self.run_job(self.folder, service=way.address)
        self.assertEqual((ended, self.files(self.folder)), (1, self.whole), said)
        self.assertEqual({path: path.stat().st_mtime_ns for path in self.folder.iterdir()}, before)
        self.assertEqual(len(way.asked), len(REFUSED))
        self.assertIn("0 priced now, 18 before, 5 refused", said)

    def test_a_changed_line_alone_is_priced_again_and_anew_means_all(self):
        self.run_job(self.folder)
        changed = self.folder / "changed.csv"
        text = (FOLDER / "orders.csv").read_text(encoding="utf-8")
        changed.write_text(
            text.replace("TP-1042,1,pump flange,drill,2,8", "TP-1042,1,pump flange,drill,20,8"), encoding="utf-8"
        )
        with Unsteady(SERVICE) as way:
            _, said = self.run_job(self.folder, service=way.address, orders=changed)
            self.assertEqual(len(way.asked), len(REFUSED) + 2)
            way.asked.clear()
            self.run_job(self.folder, "--anew", service=way.address)
            # Two questions a line, but one for those that have no speed or stall.
            self.assertEqual(len(way.asked), 2 * 23 - len(REFUSED))
        changed.unlink()
        self.assertIn("1 priced now, 17 before", said)
        self.assertEqual(self.files(self.folder), self.whole)

    def test_a_busy_service_a_cut_wire_and_silence_cost_nothing_but_time(self):
        with Unsteady(SERVICE, [503, "cut", 429, None, "cut", None, "silent", None, "cut", 502]) as way:
            ended, said = self.run_job(self.folder, "--at-once", "4", "--timeout", "1", service=way.address)
        self.assertEqual((ended, way.faults), (1, []), said)
        self.assertEqual(self.files(self.folder), self.whole)
        self.assertIn("7 retries", said)

    def test_a_run_killed_in_the_middle_is_taken_up_where_it_stood(self):
        # Speed and time of the first four lines, speed of the next; then nothing comes.
        with Unsteady(SERVICE, [None, None, None, "silent"]) as way:
            job = subprocess.Popen(
                self.command(self.folder, "--at-once", "4", service=way.address), stderr=subprocess.DEVNULL
            )
            self.wait_for(lambda: way.requests == 4)
            first = set(way.asked[:4])
            job.send_signal(signal.SIGKILL)
            job.wait()
        partial = self.folder / "prices.csv.partial"
        self.assertEqual(len(partial.read_bytes().splitlines()), 4)
        self.assertFalse((self.folder / "prices.csv").exists())
        # As if it had been killed while it wrote.
        with partial.open("ab") as file:
            file.write(partial.read_bytes().splitlines()[0][:200])
        with Unsteady(SERVICE) as way:
            ended, said = self.run_job(self.folder, service=way.address)
        self.assertEqual(ended, 1, said)
        self.assertFalse(first & set(way.asked), "what was priced was asked again")
        self.assertEqual(self.files(self.folder), self.whole)

    def test_killed_at_any_moment_it_ends_with_the_same_files(self):
        for after in range(1, 9):
            job = subprocess.Popen(self.command(self.folder, "--at-once", "2"), stderr=subprocess.DEVNULL)
            time.sleep(0.06 * after)
            job.kill()
            job.wait()
        ended, said = self.run_job(self.folder, "--at-once", "2")
        self.assertEqual((ended, self.files(self.folder)), (1, self.whole), said)

    def test_without_a_service_what_was_done_stays_and_the_table_is_left_alone(self):
        self.run_job(self.folder)
        ended, said = self.run_job(self.folder, "--anew", service="http://127.0.0.1:1")
        self.assertEqual(ended, 3, said)
        self.assertIn("in 4 tries", said)
        self.assertEqual(self.files(self.folder), self.whole)
        with Unsteady(SERVICE, [None, None] + [503] * 4) as way:
            ended, said = self.run_job(self.folder, "--anew", "--at-once", "4", service=way.address)
        self.assertEqual((ended, (self.folder / "prices.csv").read_bytes()), (3, self.whole["prices.csv"]), said)
        self.assertEqual(len((self.folder / "prices.csv.partial").read_bytes().splitlines()), 4)

    def test_an_address_of_something_else_is_told(self):
        ended, said = self.run_job(self.folder, service=SERVICE + "/elsewhere")
        self.assertEqual(ended, 3, said)
        self.assertIn("status 404", said)

    def test_prices_of_another_state_of_the_service_are_kept_and_told(self):
        self.run_job(self.folder)
        path = self.folder / "prices.csv"
        (row, *_) = self.table
        path.write_bytes(path.read_bytes().replace(row["data_version"].encode(), b"older", 1))
        self.run_job(self.folder)
        self.assertEqual([row["data_version"] for row in rows(path)].count("older"), 1)
        self.assertIn("--anew makes them all again", (self.folder / "prices.report.txt").read_text(encoding="utf-8"))

    def test_a_service_without_the_shop_refuses_its_machines_in_words(self):
        rates = self.folder / "rates.toml"
        text = (FOLDER / "rates.toml").read_text(encoding="utf-8")
        rates.write_text(text.replace("[machines.mill]", "[machines.other-mill]"), encoding="utf-8")
        orders = self.folder / "orders.csv"
        listed = (FOLDER / "orders.csv").read_text(encoding="utf-8").splitlines()[:2]
        orders.write_text("\n".join(listed).replace(",mill,", ",other-mill,"), encoding="utf-8")
        ended, said = self.run_job(self.folder, "--rates", str(rates), orders=orders)
        self.assertEqual(ended, 1, said)
        (refused,) = rows(self.folder / "prices.refused.csv")
        self.assertEqual((refused["question"], refused["column"]), ("speed", "machine"))
        self.assertIn("other-mill", refused["says"])

    def test_two_runs_at_once_do_not_mix(self):
        with Unsteady(SERVICE, ["silent"]) as way:
            first = subprocess.Popen(self.command(self.folder, service=way.address), stderr=subprocess.DEVNULL)
            self.wait_for(lambda: way.requests == 1)
            ended, said = self.run_job(self.folder)
            first.kill()
            first.wait()
        self.assertEqual(ended, 4, said)
        self.assertEqual(self.run_job(self.folder)[0], 1)
        self.assertEqual(self.files(self.folder), self.whole)

    def test_a_list_without_fault_ends_with_0_and_one_that_cannot_be_read_with_2(self):
        text = (FOLDER / "orders.csv").read_text(encoding="utf-8").splitlines()
        good, bad = self.folder / "good.csv", self.folder / "bad.csv"
        # With a mark at its beginning and semicolons, as some programs write it.
        good.write_text("\ufeff" + "\n".join(text[:5]).replace(",", ";"), encoding="utf-8")
        ended, said = self.run_job(self.folder, "--separator", ";", orders=good)
        self.assertEqual(ended, 0, said)
        self.assertEqual(
            [row["price"] for row in rows(self.folder / "prices.csv")], [row["price"] for row in self.table[:4]]
        )
        self.assertEqual(rows(self.folder / "prices.refused.csv"), [])
        bad.write_text(text[0].replace("depth", "dept") + "\n", encoding="utf-8")
        for orders in (bad, self.folder / "none.csv"):
            ended, said = self.run_job(self.folder, orders=orders)
            self.assertEqual(ended, 2, said)
            self.assertIn(orders.name, said)

    def wait_for(self, true):
        for _ in range(400):
            if true():
                return
            time.sleep(0.05)
        self.fail("it did not come about within 20 s")


if __name__ == "__main__":
    unittest.main()
