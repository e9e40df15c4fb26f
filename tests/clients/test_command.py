"""The command line, as a shell runs it: against the running service, against one that fails, and by itself."""

import csv
import io
import json
import math
import os
import re
import ssl
import subprocess
import tempfile
import unittest
from pathlib import Path

from unsteady import Unsteady

SERVICE = os.environ["SHOP_RECKONER"]
COMMAND = os.environ["RECKON"]
ROOT = Path(__file__).resolve().parents[2]
POINT = 0.25 / math.tan(math.radians(59))
LINES = [{"id": f"h{size}", "calculator": "holes/drill-point", "inputs": {"diameter": f"{size} mm"}} for size in range(1, 1201)]


def reckon(*arguments, given="", address=SERVICE, **more):
    """Runs the command; gives code, standard output, standard error."""
    environment = {**os.environ, "SHOP_RECKONER": address, **more}
    done = subprocess.run([COMMAND, *arguments], input=given, capture_output=True, text=True, timeout=120, env=environment)
    return done.returncode, done.stdout, done.stderr


class Asking(unittest.TestCase):
    """One request."""

    def test_a_person_reads_labels_and_lists(self):
        code, out, _ = reckon("ask", "patterns/bolt-circle", "diameter=4in", "holes=3")
        self.assertEqual(code, 0)
        self.assertRegex(out, r"Center to center +3\.4641 in")
        self.assertRegex(out, r"(?m)^Holes\n Number +X +Y .*\n 1 +2\.0000 in +0\.0000 in")
        self.assertRegex(out, r"Assumed\n(  .*\n)*  Angles start at: X axis\n")
        self.assertNotIn("_", out)

    def test_a_program_reads_json_csv_text_and_svg(self):
        drill = ("ask", "holes/drill-point", "diameter=1/2 in", "point_angle=118deg")
        self.assertAlmostEqual(json.loads(reckon(*drill, "--json")[1])["result"]["point_length"]["value"], POINT, 12)
        rows = list(csv.DictReader(io.StringIO(reckon(*drill, "--csv")[1])))
        self.assertAlmostEqual(float(rows[0]["point_length [in]"]), POINT, 12)
        self.assertAlmostEqual(float(reckon(*drill, "pick=point_length", "units=inch", "--as", "text")[1]), POINT, 12)
        self.assertRegex(reckon(*drill, "--as", "svg")[1], "^<svg ")

    def test_ranges_backwards_and_corrections_are_shown(self):
        out = reckon("ask", "holes/drill-point", "diameter=0.5in..0.6in step 0.1in", "point_angle=118deg")[1]
        self.assertRegex(out, r"Drill 0\.5000 in, Point angle 118°\n\n Point length +0\.1502 in\n\nDrill 0\.6000 in, Point angle 118°\n\n Point length +0\.1803 in")
        out = reckon("ask", "holes/drill-point", "solve_for=diameter", "wanted=point_length:0.152 in", "point_angle=118deg")[1]
        self.assertRegex(out, r"^0\.5059 in\n\n Point length +0\.1520 in")
        out = reckon("ask", "holes/drill-point", "diameter=1/2in", "point_angle=118deg", "measured=point_length:0.152in", "correct=point_angle")[1]
        self.assertRegex(out, r"^Point angle\n\n Intended +118°\n As made +117\.4008°")

    def test_working_has_steps_and_sources(self):
        out = reckon("ask", "holes/drill-point", "diameter=1/2 in", "--working")[1]
        self.assertRegex(out, r"Worked out\n  Length of the point; h = .*; gives 0\.1502 in\n")
        self.assertRegex(out, r"Sources\n  Plane geometry, derived: .* \(derivation\)")

    def test_by_itself_it_says_the_same(self):
        for fields in (["holes/tap-drill", "thread=M8", "from=tables"], ["patterns/bolt-circle", "diameter=4in", "holes=3"]):
            here, there = (json.loads(reckon(*way, "ask", *fields, "--json", address=at)[1]) for way, at in ((["--local"], "http://127.0.0.1:9"), ([], SERVICE)))
            self.assertEqual(here["result"], there["result"])
            self.assertNotIn("shop", here)

    def test_by_itself_with_a_shop(self):
        shop = str(ROOT / "data/shop/tern-point-works.toml")
        here, there = (reckon(*way, "ask", "holes/tap-drill", "thread=M8", "--json")[1] for way in (["--local", "--shop", shop], []))
        self.assertEqual(here, there)
        self.assertEqual(json.loads(here)["shop"]["name"], "Tern Point Works")

    def test_the_register_is_listed_and_a_calculator_described(self):
        code, out, _ = reckon("find")
        self.assertEqual((code, "holes/tap-drill" in out, "geometry/arc" in out), (0, True, True))
        self.assertEqual(reckon("find", "stripped", "hole")[1].split()[0], "threads/rescue")
        out = reckon("fields", "geometry/arc")[1]
        command = re.search(r"(?m)^reckon (ask .*)$", out).group(1)
        self.assertEqual(reckon(*(part.strip("'") for part in re.findall(r"'[^']*'|\S+", command)))[0], 0)


class Failing(unittest.TestCase):
    """Exit codes, and words."""

    def test_each_wrong_field_is_named_with_a_value_to_try(self):
        code, out, err = reckon("ask", "holes/drill-point", "diameter=0 in", "angel=1")
        self.assertEqual((code, out), (1, ""))
        self.assertRegex(err, r"diameter: .*is not more than 0\. Try 0\.5 in\.\nreckon: angel: ")

    def test_what_is_not_there(self):
        code, _, err = reckon("ask", "holes/tap-dril", "thread=M8")
        self.assertEqual(code, 1)
        self.assertRegex(err, "There is no calculator holes/tap-dril.* holes/tap-drill")
        self.assertEqual(reckon("ask", "tap-drill", "thread=M8")[0], 1)
        self.assertEqual(reckon("find", "xyzzy")[0], 1)
        self.assertEqual(reckon("fields", "holes/nothing")[0], 1)

    def test_a_wrong_command_line(self):
        self.assertEqual(reckon("ask", "holes/tap-drill", "M8")[0], 2)
        self.assertRegex(reckon("ask", "holes/tap-drill", "M8")[2], "name=value")

    def test_no_service(self):
        code, _, err = reckon("--tries", "1", "ask", "holes/tap-drill", "thread=M8", address="http://127.0.0.1:9")
        self.assertEqual(code, 3)
        self.assertIn("http://127.0.0.1:9 does not answer: Connection refused", err)

    def test_a_busy_service_is_asked_again_and_not_for_ever(self):
        table = ("table", "holes/drill-point", "-")
        given = "diameter [mm]\n12.7\n"
        with Unsteady(SERVICE, [503, 429]) as way:
            self.assertEqual(reckon(*table, given=given, address=way.address)[0], 0)
            self.assertEqual(way.requests, 3)
        with Unsteady(SERVICE, [503] * 9) as way:
            self.assertEqual(reckon("--tries", "3", *table, given=given, address=way.address)[0], 4)
            self.assertEqual(way.requests, 3)

    def test_files_that_cannot_be_read(self):
        self.assertEqual(reckon("lines", "nowhere.jsonl")[0], 6)
        code, _, err = reckon("lines", "-", given='{"id": "a"}\n{"id":\n')
        self.assertEqual(code, 6)
        self.assertRegex(err, "-: line 2 is no JSON: ")


class Files(unittest.TestCase):
    """Files of requests."""

    def test_lines_are_answered_in_order(self):
        code, out, _ = reckon("lines", "-", given="".join(json.dumps(line) + "\n" for line in LINES))
        answers = [json.loads(line) for line in out.splitlines()]
        self.assertEqual((code, [answer["id"] for answer in answers]), (0, [line["id"] for line in LINES]))
        for size, answer in enumerate(answers, 1):
            point = answer["answer"]["result"]["point_length"]["value"]
            self.assertAlmostEqual(point, size / 2 / math.tan(math.radians(59)), 9)

    def test_a_line_refused_does_not_hold_up_the_others(self):
        lines = [LINES[0], {"id": "wrong", "calculator": "holes/drill-point", "inputs": {"diameter": "0 in"}}, LINES[1]]
        code, out, err = reckon("lines", "-", given="".join(json.dumps(line) + "\n" for line in lines))
        answers = [json.loads(line) for line in out.splitlines()]
        self.assertEqual((code, ["answer" in answer for answer in answers]), (5, [True, False, True]))
        self.assertIn("1 of 3 records are refused", err)

    def test_lines_cut_off_are_asked_again_alone(self):
        some = LINES[:20]
        with Unsteady(SERVICE, ["cut", 503, "cut"]) as way:
            code, out, _ = reckon("lines", "-", given="".join(json.dumps(line) + "\n" for line in some), address=way.address)
            self.assertEqual((code, len(out.splitlines()), way.requests), (0, 20, 4))
            self.assertEqual(way.asked, [str(at) for at in range(20)] + ["19"] * 3)

    def test_a_table_gets_its_answers_and_says_how_many_are_refused(self):
        code, out, err = reckon("table", "holes/drill-point", "-", "units=inch", "pick=point_length", given="part,diameter\na,1/2 in\nb,0 in\n")
        rows = list(csv.DictReader(io.StringIO(out)))
        self.assertAlmostEqual(float(rows[0]["point_length [in]"]), POINT, 12)
        self.assertEqual((code, [row["part"] for row in rows]), (5, ["a", "b"]))
        self.assertRegex(rows[1]["refused"], "^diameter: ")
        self.assertIn("1 of 2 records are refused", err)


class Elsewhere(unittest.TestCase):
    """Over https, and as the README has it."""

    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def test_https_is_spoken_with_a_certificate_that_is_known_and_no_other(self):
        key, certificate = self.folder / "key.pem", self.folder / "certificate.pem"
        subprocess.run(
            ["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes", "-days", "2",
             "-keyout", key, "-out", certificate, "-subj", "/CN=localhost", "-addext", "subjectAltName=DNS:localhost",
             "-addext", "basicConstraints=critical,CA:FALSE"],
            check=True, capture_output=True,
        )
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.load_cert_chain(certificate, key)
        with Unsteady(SERVICE) as way:
            way.socket = context.wrap_socket(way.socket, server_side=True)
            address = f"https://localhost:{way.server_port}"
            table = ("--tries", "1", "table", "holes/drill-point", "-", "units=inch", "pick=point_length")
            code, out, err = reckon(*table, given="diameter\n1/2 in\n", address=address, SSL_CERT_FILE=str(certificate))
            self.assertEqual((code, err), (0, ""))
            self.assertIn("0.15021515475689", out)
            code, _, err = reckon(*table, given="diameter\n1/2 in\n", address=address)
            self.assertEqual(code, 3, "an unknown certificate is not trusted")
            self.assertIn("certificate", err)

    def test_the_readme_is_true(self):
        """Its commands in a fresh folder, with the files that it names; what it prints below one is what comes."""
        text = (ROOT / "clients/command-line/README.md").read_text()
        (self.folder / "requests.jsonl").write_text("".join(json.dumps(line) + "\n" for line in LINES[:3]))
        (self.folder / "holes.csv").write_text("part,diameter\na,1/2 in\n")
        path = f"{Path(COMMAND).parent}:{os.environ['PATH']}"
        run = lambda line: subprocess.run(
            ["bash", "-c", line], cwd=self.folder, capture_output=True, text=True, timeout=60, env={**os.environ, "PATH": path}
        )
        compared = 0
        for block, below in re.findall(r"```sh\n(.*?)```(?:\n\n```text\n(.*?)```)?", text, re.DOTALL):
            for line in block.strip().splitlines():
                if line.startswith("cargo install"):
                    continue
                done = run(line)
                self.assertEqual((done.returncode, done.stderr), (0, ""), line)
                if below:
                    compared += 1
                    self.assertEqual(done.stdout, below)
        self.assertEqual(compared, 1)
        rows = re.findall(r"^\| `((?:reckon|source) [^`]*)` \|", text, re.MULTILINE)
        self.assertEqual(len(rows), 7)
        for line in rows:
            line = line.replace("CALCULATOR FIELD=VALUE …", "holes/tap-drill thread=M8")
            self.assertEqual(run(line).returncode, 0, line)
        self.assertEqual(json.loads((self.folder / "values.json").read_text())["units"], "metric")


class Completing(unittest.TestCase):
    """What the shell is told."""

    def complete(self, *words):
        """The candidates for the last word, by the variables that the script of bash sets."""
        line = ["reckon", *words]
        return reckon("--", *line, RECKON_COMPLETE="bash", _CLAP_COMPLETE_INDEX=str(len(words)), _CLAP_IFS="\n")[1].split("\n")

    def test_calculators_fields_and_choices(self):
        self.assertEqual(self.complete("ask", "holes/tap-d"), ["holes/tap-drill"])
        self.assertIn("thread=", self.complete("ask", "holes/tap-drill", ""))
        self.assertIn("units=", self.complete("ask", "holes/tap-drill", "u"))
        self.assertEqual(self.complete("ask", "holes/tap-drill", "tap="), ["tap=cutting", "tap=forming"])

    def test_each_shell_gets_a_script_that_it_can_read(self):
        for shell in ("bash", "fish", "zsh"):
            code, out, _ = reckon("completions", shell)
            self.assertEqual((code, "RECKON_COMPLETE" in out), (0, True), shell)
        with tempfile.NamedTemporaryFile("w", suffix=".sh") as script:
            script.write(reckon("completions", "bash")[1])
            script.flush()
            subprocess.run(["bash", "-n", script.name], check=True)


if __name__ == "__main__":
    unittest.main()
