"""Values for a CAM post, end to end: requests, values file, words, and the words read back by a parser of its own."""

import csv
import json
import math
import os
import re
import subprocess
import tempfile
import unittest
import urllib.parse
import urllib.request
import zlib
from fractions import Fraction
from pathlib import Path

import jsonschema

SERVICE = os.environ["SHOP_RECKONER"]
COMMAND = os.environ["RECKON"]
CAM = Path(__file__).resolve().parents[2] / "clients/cam-post"
FLANGE = CAM / "example/flange.jsonl"
WORD = re.compile(r"([A-Z])([+-]?(?:\d+\.?\d*|\.\d+))")


def asked(request, units):
    """A request of the file, asked of the service without the command line."""
    query = urllib.parse.urlencode({**request["inputs"], "units": units}, quote_via=urllib.parse.quote)
    with urllib.request.urlopen(f"{SERVICE}/v1/{request['calculator']}?{query}", timeout=20) as answer:
        return json.load(answer)["result"]


def blocks(program):
    """The blocks of a program by ISO 6983-1: words of a letter and a number between `%` and `%`, without comments."""
    lines = program.strip().split("\n")
    assert lines[0] == lines[-1] == "%", "a program stands between two %"
    for line in lines[1:-1]:
        line = re.sub(r"\([^()]*\)", "", line).strip()
        words = WORD.findall(line)
        assert "".join(letter + number for letter, number in words) == line.replace(" ", ""), line
        if words:
            yield {letter: Fraction(number) for letter, number in words if letter != "G"}, [number for letter, number in words if letter == "G"]


def script(text, *arguments):
    """What a script prints that has both files."""
    head = f"var ShopValues = require({json.dumps(str(CAM / 'values.js'))}), ShopWords = require({json.dumps(str(CAM / 'words.js'))});"
    done = subprocess.run(["node", "-e", head + text, "--", *arguments], capture_output=True, text=True, timeout=60)
    return done.stdout.strip() if done.returncode == 0 else "Error: " + re.search(r"Error: (.*)", done.stderr).group(1)


class Cam(unittest.TestCase):
    """The whole way and its parts."""

    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def values(self, units, name="values.json", requests=FLANGE):
        file = self.folder / name
        done = subprocess.run([COMMAND, "values", requests, "--units", units, "--output", file], capture_output=True, text=True, timeout=60)
        return file, done

    def test_words_read_back_are_the_numbers_of_the_service(self):
        requests = {request["id"]: request for request in map(json.loads, FLANGE.read_text().splitlines())}
        for units, places, feeds in (("metric", 3, 1), ("inch", 4, 2)):
            file, done = self.values(units)
            self.assertEqual((done.returncode, done.stderr), (0, ""))
            program = subprocess.run(["node", CAM / "example/post.js", file, units], capture_output=True, text=True, check=True, timeout=60).stdout
            read = list(blocks(program))
            result = {id: asked(request, units) for id, request in requests.items()}
            self.assertIn(["71" if units == "metric" else "70", "90", "94"], [codes for _, codes in read])
            near = lambda value, word, decimals: self.assertLessEqual(abs(Fraction(value) - word), Fraction(1, 2 * 10**decimals) + Fraction(1, 10**12))
            holes = [(words["X"], words["Y"]) for words, _ in read if "X" in words]
            places_of = [(hole["x"]["value"], hole["y"]["value"]) for hole in result["holes"]["positions"]]
            self.assertEqual(len(holes), 12)
            for place, hole in zip(places_of * 2, holes, strict=True):
                near(place[0], hole[0], places)
                near(place[1], hole[1], places)
            drilled = [words for words, codes in read if codes == ["01"]]
            self.assertEqual(len(drilled), 6)
            for words in drilled:
                near(-result["point"]["tip_depth"]["value"], words["Z"], places)
                near(result["drill"]["feed_rate"]["value"], words["F"], feeds)
            speeds = [words["S"] for words, _ in read if "S" in words]
            self.assertEqual(speeds, [Fraction(result[name]["spindle_speed"]["value"]) for name in ("drill", "tap")])
            tapped = [words["F"] for words, codes in read if codes == ["84"]]
            near(result["tap"]["feed_per_rev"]["value"] * float(speeds[1]), tapped[0], feeds)
            self.assertRegex(program, r"\(This is a starting point")

    def test_the_file_keeps_to_its_schema_and_its_checksum(self):
        schema = json.loads((CAM / "values.schema.json").read_text())
        jsonschema.Draft202012Validator.check_schema(schema)
        for units in ("metric", "inch"):
            text = self.values(units)[0].read_bytes()
            document = json.loads(text)
            jsonschema.validate(document, schema)
            head, rest = text.split(b'",\n', 1)
            self.assertEqual(head[-8:].decode(), f"{zlib.crc32(rest):08x}")
            self.assertEqual(document["units"], units)
            self.assertTrue(text.isascii())
        with self.assertRaises(jsonschema.ValidationError):
            jsonschema.validate({**document, "units": "both"}, schema)

    def test_the_table_has_the_same_numbers(self):
        document = json.loads(self.values("metric")[0].read_text())["values"]
        text = self.values("metric", "values.csv")[0].read_bytes()
        body, last = text[: text.rstrip(b"\n").rfind(b"\n") + 1], text.rstrip(b"\n").rsplit(b"\n", 1)[1]
        self.assertEqual(last.decode(), f"checksum,,,{zlib.crc32(body):08x},crc32")
        rows = {(row["id"], row["result"]): row for row in csv.DictReader(body.decode().splitlines())}
        hole = document["holes"]["result"]["positions"][4]["y"]
        self.assertEqual((float(rows["holes", "positions.4.y"]["value"]), rows["holes", "positions.4.y"]["unit"]), (hole["value"], "mm"))
        speed = document["drill"]["result"]["spindle_speed"]
        self.assertEqual((float(rows["drill", "spindle_speed"]["value"]), rows["drill", "spindle_speed"]["unit"]), (speed["value"], "rpm"))

    def test_nothing_is_written_if_one_request_is_wrong(self):
        lines = FLANGE.read_text().splitlines()
        for wrong, code in (
            ('{"id": "x", "calculator": "holes/drill-point", "inputs": {"diameter": "0 in"}}', 5),
            (lines[0], 6),
            ('{"calculator": "holes/drill-point", "inputs": {"diameter": "1 in"}}', 6),
            ('{"id": "x", "units": "inch", "calculator": "holes/drill-point", "inputs": {"diameter": "1 in"}}', 6),
        ):
            requests = self.folder / "wrong.jsonl"
            requests.write_text("\n".join([*lines, wrong]))
            file, done = self.values("metric", requests=requests)
            self.assertEqual((done.returncode, file.exists()), (code, False), done.stderr)

    def read(self, text, use="console.log(v.units)"):
        file = self.folder / "given.json"
        file.write_text(text)
        return script(f"var v = ShopValues.read(require('fs').readFileSync(process.argv[1], 'utf8')); {use}", str(file))

    def test_the_reader_refuses_what_is_not_as_it_was_written(self):
        text = self.values("metric")[0].read_text()
        self.assertEqual(self.read(text), "metric")
        self.assertEqual(self.read("\ufeff" + text.replace("\n", "\r\n")), "metric")
        self.assertRegex(self.read(text.replace("900.0", "990.0")), "^Error: The values file was changed")
        self.assertRegex(self.read(text[:-40]), "^Error: The values file was changed")
        self.assertRegex(self.read("{}"), "^Error: This is no values file")
        self.assertRegex(self.read(text, "v.number('dril', 'spindle_speed', 'rpm')"), "has no request dril; it has holes, drill, point, tap")
        self.assertRegex(self.read(text, "v.number('drill', 'speed', 'rpm')"), "drill has no speed: .*spindle_speed")
        self.assertRegex(self.read(text, "v.number('point', 'tip_depth', 'in')"), "is in mm, and the post expects in")
        self.assertRegex(self.read(text, "v.number('holes', 'positions', 'mm')"), "is no quantity")
        self.assertRegex(self.read(text, "v.number('toString', 'x', 'mm')"), "has no request toString")

    def word(self, letter, told, value):
        return script(f"console.log(ShopWords.writer({json.dumps(letter)}, {json.dumps(told)})({value}))")

    def test_words_have_the_decimals_point_and_zeros_of_the_control(self):
        for told, value, word in (
            ({"decimals": 3, "point": "always"}, 12, "X12."),
            ({"decimals": 3}, 12, "X12"),
            ({"decimals": 3}, 12.5, "X12.5"),
            ({"decimals": 3, "trailing": True}, 12.5, "X12.500"),
            ({"decimals": 3, "leading": False}, -0.5, "X-.5"),
            ({"decimals": 3, "leading": False, "point": "always"}, 0, "X0."),
            ({"decimals": 3, "point": "never"}, 12.5, "X12500"),
            ({"decimals": 3, "point": "never", "whole": 4, "suppress": "none"}, -12.5, "X-0012500"),
            ({"decimals": 3, "point": "never", "whole": 4, "suppress": "trailing"}, 12.5, "X00125"),
            ({"decimals": 4, "plus": True}, 0.30004999, "X+0.3"),
            ({"decimals": 3}, -0.0004, "X0"),
            ({"decimals": 3}, 1.0005, "X1.001"),
            ({"decimals": 3}, -1.0005, "X-1.001"),
            ({"decimals": 3}, 8.5e-7, "X0"),
            ({"decimals": 0}, 469.5, "X470"),
        ):
            self.assertEqual(self.word("X", told, value), word, (told, value))
        for told, value, says in (
            ({"decimals": 3, "whole": 4}, 12345, "more than 4 digits"),
            ({"decimals": 3}, "NaN", "needs a number"),
            ({"decimals": 3}, "'1'", "needs a number"),
            ({"decimals": 3, "point": "sometimes"}, 1, "point is always"),
        ):
            self.assertRegex(self.word("X", told, value), "^Error: .*" + says)
        self.assertRegex(self.word("XY", {}, 1), "^Error: A word begins with a letter")

    def test_the_readme_is_true(self):
        """Its script runs on the example's values, and what it says of a number is what comes."""
        text = (CAM / "README.md").read_text()
        file = self.values("metric")[0]
        reading, writing, tapping = re.findall(r"```js\n(.*?)```", text, re.DOTALL)
        number = "var text = require('fs').readFileSync(process.argv[1], 'utf8');" + reading
        self.assertRegex(script(number + "console.log(values.count('holes', 'positions'))", str(file)), "^6$")
        shown = re.sub(r"(?m)^(X\(.*?\));.*$", r"console.log(\1);", writing)
        said = re.findall(r"// (\S+)$", writing, re.MULTILINE)
        self.assertEqual(script(shown).split(), said)
        says = script(tapping.split("//")[0].replace("ShopWords", "console.log(ShopWords", 1).rstrip().rstrip(";") + ".says);")
        self.assertEqual(" ".join(re.sub(r"(?m)^// (says: )?", "", tapping[tapping.index("//"):]).split()), says)

    def tap(self, **told):
        return json.loads(script(f"console.log(JSON.stringify(ShopWords.tap({json.dumps(told)})))"))

    def test_a_rounded_feed_that_moves_the_lead_is_said(self):
        tap = self.tap(lead=1.25, speed=470, decimals=0, depth=20)
        self.assertEqual((tap["feed"], tap["moved"]), (588, True))
        self.assertAlmostEqual(tap["off"], 20 * (588 / 470 / 1.25 - 1), 12)
        for offer in tap["offers"]:
            self.assertEqual(Fraction(5, 4) * offer["speed"], offer["feed"])
            self.assertLess(offer["speed"], 470)
        self.assertRegex(tap["says"], "588.*0.017 too far at a depth of 20.*468, 464, 460")
        even = self.tap(lead=1.25, speed=470, decimals=1, depth=20)
        self.assertEqual((even["feed"], even["moved"], even["says"]), (587.5, False, ""))

    def test_steps_of_the_machine_are_kept_and_the_speed_is_the_one_written(self):
        steps = [112, 160, 224, 315, 450, 630]
        tap = self.tap(lead=1.25, speed=450, decimals=0, depth=20, steps=steps)
        self.assertEqual([offer["speed"] for offer in tap["offers"]], [224, 160, 112])
        tap = self.tap(lead=1.25, speed=397.887, decimals=1, depth=20)
        self.assertEqual((tap["speed"], tap["feed"]), (398, 497.5))
        for speed in range(50, 900):
            tap = self.tap_fast(speed)
            exact = Fraction(3, 4) * speed
            self.assertEqual(tap["moved"], exact.denominator != 1)
            self.assertTrue(all((Fraction(3, 4) * offer).denominator == 1 and offer <= speed for offer in tap["offers"]))

    def tap_fast(self, speed):
        """Of a table made in one run of the script."""
        if not hasattr(self, "taps"):
            text = "var t = {}; for (var s = 50; s < 900; s += 1) { var a = ShopWords.tap({ lead: 0.75, speed: s, decimals: 0, depth: 9 }); t[s] = { moved: a.moved, offers: a.offers.map(function (o) { return o.speed; }) }; } console.log(JSON.stringify(t));"
            self.taps = json.loads(script(text))
        return self.taps[str(speed)]

    def test_a_tap_without_sense_is_an_error(self):
        for told in ({"lead": 0}, {"speed": -1}, {"depth": None}, {"speed": 0.2}):
            text = {"lead": 1.25, "speed": 100, "decimals": 0, "depth": 10, **told}
            self.assertRegex(script(f"console.log(ShopWords.tap({json.dumps(text)}))"), "^Error: ", told)
        self.assertTrue(math.isfinite(self.tap(lead=1.25, speed=100, decimals=0, depth=10)["off"]))


if __name__ == "__main__":
    unittest.main()
