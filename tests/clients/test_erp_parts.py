"""The parts of the nightly job by themselves: reading, keys, what is kept, and asking again."""

import csv
import http.server
import io
import json
import sys
import tempfile
import threading
import unittest
from decimal import Decimal
from pathlib import Path

FOLDER = Path(__file__).resolve().parents[2] / "clients/erp"
sys.path.insert(0, str(FOLDER))

import ledger  # noqa: E402
import machines  # noqa: E402
import operations  # noqa: E402
import orders  # noqa: E402
import pricing  # noqa: E402
import service  # noqa: E402

RATES = """
currency = "crowns"
[machines.mill]
per_hour = 42.00
[machines.drill]
per_hour = 0.1
in_shop_file = false
fields = { fastest = "900 rpm" }
"""
HEAD = "order,line,operation,pieces,per_piece,machine,material,tool,diameter,thread,depth,remark\n"


class Files(unittest.TestCase):
    """A folder for files of a test."""

    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def file(self, name, text):
        path = self.folder / name
        path.write_text(text, encoding="utf-8")
        return path

    def rates(self, text=RATES):
        return orders.read_rates(self.file("rates.toml", text))

    def lines(self, *rows, head=HEAD, rates=None):
        return orders.read_orders(self.file("orders.csv", head + "\n".join(rows)), ",", rates or self.rates())


class Orders(Files):
    """Reading the order list and the rates."""

    good = "A,1,drill,2,3,mill,1018,hss,8 mm,,12 mm,"

    def test_a_good_line_is_read(self):
        (line,) = self.lines(self.good)
        self.assertEqual((line.pieces, line.per_piece, line.wrongs), (2, 3, ()))

    def test_everything_wrong_with_a_line_is_said_at_once(self):
        (line,) = self.lines("A,,drill,0,x,saw,1018,,8 mm,M8,12 mm,")
        found = {wrong.column: wrong.code for wrong in line.wrongs}
        self.assertEqual(
            found,
            {
                "line": "field_missing",
                "pieces": "count_unreadable",
                "per_piece": "count_unreadable",
                "machine": "machine_unknown",
                "tool": "field_missing",
                "thread": "field_unused",
            },
        )

    def test_an_unknown_operation_and_a_row_that_does_not_fit_are_refused(self):
        polish, short = self.lines("A,1,polish,1,1,mill,,,,,,", "A,2,drill,1,1,mill")
        self.assertIn("operation_unknown", [wrong.code for wrong in polish.wrongs])
        self.assertIn("cells_do_not_fit", [wrong.code for wrong in short.wrongs])

    def test_a_line_that_is_there_twice_is_refused_each_time(self):
        first, second, third = self.lines(self.good, self.good.replace("8 mm", "9 mm"), self.good.replace("A,1", "A,2"))
        for line in (first, second):
            self.assertEqual([wrong.code for wrong in line.wrongs], ["line_repeated"])
        self.assertEqual(third.wrongs, ())

    def test_a_column_unknown_repeated_or_missing_stops_the_run(self):
        for head in (HEAD.replace("depth", "dept"), HEAD.replace("depth", "diameter"), HEAD.replace("pieces,", "")):
            with self.assertRaises(orders.Unusable):
                self.lines(head=head)

    def test_rates_that_cannot_be_meant_stop_the_run(self):
        for wrong in ("per_hour = -1", 'per_hour = "a lot"', "per_hour = nan", "per_hours = 3", "per_hour ="):
            with self.assertRaises(orders.Unusable, msg=wrong):
                self.rates(RATES.replace("per_hour = 0.1", wrong))
        with self.assertRaises(orders.Unusable):
            self.rates('currency = "crowns"')

    def test_a_key_changes_with_what_sets_the_price_and_with_nothing_else(self):
        key = lambda row, rates=None: self.lines(row, rates=rates)[0].key  # noqa: E731
        at_first = key(self.good)
        self.assertEqual(key(self.good + "a remark"), at_first)
        self.assertEqual(key(self.good, self.rates(RATES.replace("0.1", "0.2"))), at_first)
        for other in (
            key(self.good.replace("12 mm", "13 mm")),
            key(self.good.replace("A,1,drill,2", "A,1,drill,4")),
            key(self.good, self.rates(RATES.replace("42.00", "43.00"))),
            key(self.good, self.rates('approach = "3 mm"\n' + RATES)),
        ):
            self.assertNotEqual(other, at_first)

    def test_a_refused_field_leads_back_to_its_column(self):
        cells = dict.fromkeys(orders.COLUMNS, "") | {"operation": "mill_slot", "diameter": "8 mm", "machine": "mill"}
        asks = {"speeds/milling": {"diameter", "fastest", "range_point"}}
        asked = operations.about_speed(cells, {"fields": {}, "in_shop_file": True}, asks)
        problem = {
            "errors": [
                {"field": "/inputs/radial_depth", "code": "unit_missing", "says": "…"},
                {"field": "/inputs/tool_material", "code": "field_missing", "says": "…", "try": "hss"},
            ]
        }
        self.assertEqual([wrong.column for wrong in pricing.refused(problem, asked)], ["diameter", "tool"])
        self.assertEqual(asked.question(cells)["inputs"]["machine"], "mill")
        # A field goes beside the machine of the shop's file, and only to a calculator that asks for it.
        own = {"fastest": "9 rpm", "quill_feeds": "0.1 mm/rev"}
        for listed, by in ((True, {"machine": "mill"}), (False, {})):
            asked = operations.about_speed(cells, {"fields": own, "in_shop_file": listed}, asks)
            self.assertEqual(asked.others, by | {"fastest": "9 rpm"})


class Machines(Files):
    """What the rates say of machines."""

    asks = {operation.calculator: {"available", "fastest", "slowest", "spindle_power", "efficiency", "range_point"}
            for operation in operations.OPERATIONS.values()}  # fmt: skip

    def warned(self, shop, listed=True, **own):
        return machines.warnings({"mill": {"fields": own, "in_shop_file": listed}}, {"mill": shop}, self.asks)

    def test_what_overrides_what_and_what_is_left_out_is_said(self):
        shop = {"available": "112 rpm, 160 rpm", "spindle_power": "1.5 kW"}
        self.assertEqual(self.warned(shop), [])
        self.assertEqual(self.warned(shop, range_point="high"), [])
        (over,) = self.warned(shop, available="100 rpm")
        self.assertIn("available = 100 rpm goes before the shop's file, which says 112 rpm, 160 rpm", over)
        (some,) = self.warned(shop, slowest="150 rpm")
        self.assertIn("slowest = 150 rpm leaves out 112 rpm", some)
        (every,) = self.warned(shop, fastest="90 rpm")
        self.assertIn("leaves out every speed of the machine", every)
        (idle,) = self.warned({"available": "112 rpm"}, efficiency="70 percent")
        self.assertIn("efficiency changes nothing", idle)
        unused, unknown = self.warned(shop, listed=False, fastest="900 rpm")
        self.assertIn("in_shop_file = false leaves it unused", unused)
        self.assertIn("spindle_power is not known", unknown)
        with self.assertRaises(machines.Unusable):
            self.warned(shop, fastests="900 rpm")

    def test_a_machine_states_only_what_is_a_machines(self):
        of_a_line = ('diameter = "8 mm"', 'cutting_speed = "9 m/min"', 'machine = "mill"')
        for wrong in (*of_a_line, "fastest = 900", 'fastest = ""'):
            with self.assertRaises(orders.Unusable, msg=wrong):
                self.rates(RATES.replace('fastest = "900 rpm"', wrong))
        with self.assertRaises(orders.Unusable):
            self.rates(RATES.replace("in_shop_file = false", 'in_shop_file = "no"'))

    def test_a_machine_without_a_limit_of_its_speed_prices_nothing_but_sawing(self):
        rates = self.rates(RATES.replace('fastest = "900 rpm"', 'range_point = "low"'))
        head = HEAD.replace("remark", "section,tooth_pitch,remark")
        rows = "A,1,drill,1,1,drill,1018,hss,8 mm,,12 mm,,,", "A,2,saw,1,1,drill,1018,,,,12 mm,40 mm,1/8 in,"
        drill, saw = self.lines(*rows, head=head, rates=rates)
        self.assertEqual([wrong.code for wrong in drill.wrongs], ["machine_undescribed"])
        self.assertEqual(saw.wrongs, ())

    def test_a_cut_without_a_feed_is_refused_in_words(self):
        note = {"code": "left_out", "says": "Feed rate needs feed per revolution."}
        (wrong,) = pricing.impossible({"result": {"spindle_speed": {}}, "notes": [note]})
        self.assertEqual((wrong.code, wrong.says.endswith(note["says"])), ("no_feed", True))
        full = {"feed_rate": {}, "load": {"value": Decimal(100), "unit": "percent"}}
        self.assertEqual(pricing.impossible({"result": full}), ())
        (wrong,) = pricing.impossible({"result": full | {"load": {"value": Decimal(101)}}})
        self.assertEqual(wrong.code, "too_much_power")


class Kept(Files):
    """What is kept between runs."""

    def row(self, key, part="flange"):
        return {name: {"key": key, "part": part}.get(name, "1") for name in pricing.COLUMNS}

    def test_a_line_that_was_not_finished_counts_as_not_written(self):
        path = self.folder / "partial"
        partial = ledger.Partial(path)
        partial.add([self.row("a"), self.row("b")])
        whole = path.read_bytes()
        for torn in (b'{"order": "1", "li', json.dumps(self.row("c")).encode(), b"\x00\x00\xff\n", b'{"key": "c"}\n'):
            path.write_bytes(whole + torn)
            again = ledger.Partial(path)
            self.assertEqual(list(again.read()), ["a", "b"])
            again.add([self.row("d")])
            self.assertEqual(list(ledger.Partial(path).read()), ["a", "b", "d"])

    def test_cells_that_look_like_formulas_do_no_harm_and_come_back(self):
        parts = ["=1+1", "+7", "-7", "@x", "\tx", "'quoted", 'plain, "quoted"', "two\nlines", "Größe ø"]
        rows = [self.row(str(at), part) for at, part in enumerate(parts)]
        path = self.folder / "prices.csv"
        self.assertTrue(ledger.write(path, ledger.table(pricing.COLUMNS, rows)))
        self.assertEqual([row["part"] for row in ledger.earlier(path).values()], parts)
        shown = [row["part"] for row in csv.DictReader(io.StringIO(path.read_text(encoding="utf-8"), newline=""))]
        self.assertTrue(all(part.startswith("'") for part in shown[:6]))
        self.assertFalse(ledger.write(path, ledger.table(pricing.COLUMNS, rows)))

    def test_a_table_of_another_form_is_not_taken_for_ours(self):
        path = self.file("prices.csv", "order,price\nA,1\n")
        self.assertEqual(ledger.earlier(path), {})
        self.assertEqual(ledger.earlier(self.folder / "none.csv"), {})

    def test_halves_of_a_coin_go_up(self):
        self.assertEqual(
            [pricing.rounded(Decimal(value), "0.01") for value in ("0.125", "0.135", "2", "0.1249")],
            ["0.13", "0.14", "2.00", "0.12"],
        )


class Script(http.server.BaseHTTPRequestHandler):
    """Answers from a script: a function of the ids asked gives status and body."""

    def do_POST(self):
        ids = [json.loads(line)["id"] for line in self.rfile.read(int(self.headers["Content-Length"])).splitlines()]
        self.server.seen.append(ids)
        status, body = self.server.script(ids)
        self.send_response(status)
        self.end_headers()
        self.wfile.write(body.encode())

    def do_GET(self):
        status, body = self.server.script([])
        self.server.seen.append(self.path)
        self.send_response(status)
        self.end_headers()
        self.wfile.write(body.encode())

    def log_message(self, *_):
        pass


class Asking(unittest.TestCase):
    """Asking in batches, against a service that misbehaves."""

    def server(self, script):
        server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Script)
        server.script, server.seen = script, []
        threading.Thread(target=server.serve_forever, daemon=True).start()
        self.addCleanup(server.server_close)
        self.addCleanup(server.shutdown)
        self.waits = []
        return server, service.Service(
            f"http://127.0.0.1:{server.server_port}/",
            tries=3,
            timeout=5,
            first_wait=1,
            say=lambda _: None,
            sleep=self.waits.append,
        )

    @staticmethod
    def good(id):
        return json.dumps({"id": id, "answer": {}}) + "\n"

    def test_only_what_did_not_come_is_asked_again(self):
        def script(ids):
            return 200, "".join(map(self.good, ids if len(ids) < 3 else ids[:2]))

        server, there = self.server(script)
        self.assertEqual(set(there.ask(dict.fromkeys("abc", {}))), set("abc"))
        self.assertEqual(server.seen, [["a", "b", "c"], ["c"]])

    def test_waits_grow_and_end(self):
        server, there = self.server(lambda ids: (503, ""))
        with self.assertRaises(service.Unreachable):
            there.ask({"a": {}})
        self.assertEqual((len(server.seen), len(self.waits)), (3, 2))
        self.assertTrue(0.75 <= self.waits[0] <= 1.25 and 1.5 <= self.waits[1] <= 2.5, self.waits)

    def test_a_question_that_the_service_falls_over_does_not_hold_up_the_others(self):
        def script(ids):
            # A fault of the service takes the whole piece with it, without names.
            if "b" in ids:
                return 200, json.dumps({"problem": {"status": 500}}) + "\n" + "{}\n" * (len(ids) - 1)
            return 200, "".join(map(self.good, ids))

        _, there = self.server(script)
        answers = there.ask(dict.fromkeys("abc", {}))
        self.assertEqual([sorted(answers[id]) for id in "abc"], [["answer", "id"], ["problem"], ["answer", "id"]])
        self.assertEqual(pricing.refused(answers["b"]["problem"], operations.Asked("", {}, {}))[0].code, "refused")

    def test_what_is_no_service_is_told_at_once(self):
        for status in (404, 405, 413, 301):
            server, there = self.server(lambda ids, status=status: (status, '{"detail": "not here"}'))
            with self.assertRaisesRegex(service.Turned, f"{status}: not here"):
                there.ask({"a": {}})
            self.assertEqual(len(server.seen), 1)
        for address in ("127.0.0.1:8080", "ftp://there", ""):
            with self.assertRaises(service.Turned):
                service.Service(address)

    def test_the_list_of_calculators_is_waited_for_too(self):
        lists = {"calculators": [{"id": "speeds/sawing", "fields": [{"name": "section"}]}]}
        replies = [(503, ""), (200, json.dumps(lists))]
        server, there = self.server(lambda _: replies.pop(0))
        self.assertEqual(there.known(), ({"speeds/sawing": {"section"}}, {}))
        self.assertEqual((server.seen, len(self.waits)), (["/v1/calculators"] * 2, 1))
        for script, error in ((lambda _: (503, ""), service.Unreachable), (lambda _: (200, "[]"), service.Turned)):
            with self.assertRaises(error):
                self.server(script)[1].known()

    def test_words_that_are_no_answer_count_as_none(self):
        server, there = self.server(lambda ids: (200, "<html>hello</html>\n[1]\n"))
        answers = there.ask({"a": {}})
        self.assertNotIn("answer", answers["a"])
        self.assertEqual(len(server.seen), 3)


if __name__ == "__main__":
    unittest.main()
