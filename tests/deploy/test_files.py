"""The operator's files, each held against the tool that reads it and against the service: flags, addresses, metrics.

Run by tests/deploy/run, which gives SHOP_RECKONER_BIN and names the tools that could be had.
"""

import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import yaml
from instances import BINARY, DEPLOY, SHOP, Instance

UNIT, MANIFESTS = DEPLOY / "shop-reckoner@.service", DEPLOY / "kubernetes.yaml"
ALERTS, DASHBOARD = DEPLOY / "alerts.yml", DEPLOY / "dashboard.json"
PROMTOOL = os.environ.get("PROMTOOL", "promtool")
HELP = subprocess.run([BINARY, "--help"], capture_output=True, text=True, check=True).stdout
# The most that the unit may be exposed to the rest of the computer, of 10.
MOST_EXPOSED = 2.0


def run(*command, **how):
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True, timeout=120, **how)
    return done.returncode, done.stdout + done.stderr


def lacks(tool, what):
    return unittest.skipUnless(shutil.which(tool), f"{tool} cannot be had here: {what} is not checked")


def default(flag):
    """The default of a flag in seconds, as the executable says it."""
    return float(re.search(rf"--{flag} <SECONDS>.*?\[default: ([\d.]+)\]", HELP, re.S)[1])


class Flags(unittest.TestCase):
    """What the files tell the executable."""

    def test_every_flag_and_variable_in_them_exists(self):
        for path in (UNIT, MANIFESTS, DEPLOY / "Containerfile"):
            text = re.sub(r"#.*", "", path.read_text(encoding="utf-8"))
            for flag in re.findall(r"(?<![\w-])--[a-z][a-z-]+", text):
                self.assertIn(f"\n      {flag} ", HELP, path)
            for name in re.findall(r"SHOP_RECKONER_\w+", text):
                self.assertIn(f"[env: {name}=]", HELP, path)

    def test_whoever_ends_it_waits_for_draining_and_stopping(self):
        needs = default("drain-timeout") + default("stop-timeout")
        unit = float(re.search(r"^TimeoutStopSec=(\d+)$", UNIT.read_text(encoding="utf-8"), re.M)[1])
        pod = next(yaml.safe_load_all(MANIFESTS.read_text(encoding="utf-8")))["spec"]["template"]["spec"]
        for given in (unit, pod["terminationGracePeriodSeconds"]):
            self.assertGreater(given, needs)

    def test_balancers_wait_a_little_longer_than_the_service_works(self):
        for name, pattern in (("nginx.conf", r"proxy_read_timeout (\d+)s"), ("Caddyfile", r"header_timeout (\d+)s")):
            given = float(re.search(pattern, (DEPLOY / name).read_text(encoding="utf-8"))[1])
            self.assertTrue(default("timeout") < given <= 2 * default("timeout"), name)


class Unit(unittest.TestCase):
    """The systemd unit."""

    def copy(self):
        folder = Path(self.enterContext(tempfile.TemporaryDirectory()))
        text = UNIT.read_text(encoding="utf-8").replace("/usr/local/bin/shop-reckoner", BINARY)
        (folder / UNIT.name).write_text(text, encoding="utf-8")
        return folder

    @lacks("systemd-analyze", "the unit")
    def test_it_is_understood_and_tightly_shut(self):
        ended, said = run("systemd-analyze", "verify", self.copy() / "shop-reckoner@8081.service")
        self.assertEqual((ended, [line for line in said.splitlines() if "shop-reckoner" in line]), (0, []), said)
        ended, said = run("systemd-analyze", "security", "--offline=true", UNIT)
        exposed = float(re.search(r"Overall exposure level for .*: ([\d.]+)", said)[1])
        print(f"systemd unit: exposed {exposed} of 10")
        self.assertEqual(ended, 0, said)
        self.assertLess(exposed, MOST_EXPOSED, said)

    @lacks("systemd-analyze", "the filter of system calls")
    @lacks("strace", "the filter of system calls")
    def test_its_filter_lets_every_system_call_of_the_service_through(self):
        folder = self.copy()
        trace = folder / "trace"
        service = Instance("--drain-timeout", "0")
        traced = ["strace", "-f", "-qq", "-o", str(trace), BINARY]
        command = [*traced, "--listen", f"127.0.0.1:{service.port}", "--shop", str(SHOP), "--drain-timeout", "0"]
        with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as process:
            process.stdout.readline()
            for path in ("/metrics", "/v1/calculators", "/v1/speeds/turning?diameter=1%20in", "/guide"):
                run("curl", "--silent", "--compressed", service.base + path)
            found = re.search(r"^(\d+) ", trace.read_text(encoding="utf-8"))[1]
            os.kill(int(found), 15)
            process.wait(20)
        used = set(re.findall(r"^\d+ +([a-z_0-9]+)\(", trace.read_text(encoding="utf-8"), re.M))
        self.assertGreater(len(used), 20, used)
        allowed = expanded("@system-service") - expanded("@privileged") - expanded("@resources")
        self.assertEqual(used - allowed, set())


def expanded(group):
    """The system calls of a group, those of the groups in it too."""
    _, said = run("systemd-analyze", "--no-pager", "syscall-filter", group)
    names = {line.strip() for line in said.splitlines() if line.startswith("    ") and "#" not in line}
    inner = {name for name in names if name.startswith("@")}
    return (names - inner).union(*(expanded(name) for name in inner))


class Manifests(unittest.TestCase):
    """The Kubernetes manifests."""

    def test_they_fit_the_schemas_and_a_wrong_word_does_not(self):
        check = Path(sys.executable).with_name("kubernetes-validate")
        ended, said = run(check, "--strict", MANIFESTS)
        self.assertEqual(ended, 0, said)
        self.assertEqual(said.count(" passed "), 4, said)
        text = MANIFESTS.read_text(encoding="utf-8")
        wrong = Path(self.enterContext(tempfile.TemporaryDirectory())) / "wrong.yaml"
        for old, new in (("replicas: 2", "replicaz: 2"), ("minAvailable: 1", "minAvailable: [1]")):
            self.assertIn(old, text)
            wrong.write_text(text.replace(old, new), encoding="utf-8")
            self.assertNotEqual(run(check, "--strict", wrong)[0], 0, new)

    def test_the_pod_is_shut_and_its_parts_belong_together(self):
        deployment, service, budget, policy = yaml.safe_load_all(MANIFESTS.read_text(encoding="utf-8"))
        labels = deployment["spec"]["template"]["metadata"]["labels"]
        pod = deployment["spec"]["template"]["spec"]
        (container,) = pod["containers"]
        self.assertEqual(service["spec"]["selector"], labels)
        for selector in (deployment["spec"]["selector"], budget["spec"]["selector"], policy["spec"]["podSelector"]):
            self.assertEqual(selector["matchLabels"], labels)
        self.assertLess(budget["spec"]["minAvailable"], deployment["spec"]["replicas"])
        self.assertTrue(pod["securityContext"]["runAsNonRoot"])
        self.assertTrue(container["securityContext"]["readOnlyRootFilesystem"])
        user = (DEPLOY / "Containerfile").read_text(encoding="utf-8")
        self.assertIn(f"USER {pod['securityContext']['runAsUser']}:{pod['securityContext']['runAsGroup']}\n", user)

    def test_probes_ask_addresses_that_there_are(self):
        deployment = next(yaml.safe_load_all(MANIFESTS.read_text(encoding="utf-8")))
        (container,) = deployment["spec"]["template"]["spec"]["containers"]
        service = Instance().start()
        self.addCleanup(service.kill)
        for name in ("startupProbe", "livenessProbe", "readinessProbe"):
            service.get(container[name]["httpGet"]["path"])


class Metrics(unittest.TestCase):
    """The alerts and the dashboard."""

    @classmethod
    def setUpClass(cls):
        service = Instance().start()
        cls.addClassCleanup(service.kill)
        service.get("/v1/holes/drill-point?diameter=1/2%20in")
        cls.metrics = service.get("/metrics")
        cls.dashboard = json.loads(DASHBOARD.read_text(encoding="utf-8"))
        rules = yaml.safe_load(ALERTS.read_text(encoding="utf-8"))["groups"][0]["rules"]
        targets = [target for panel in cls.dashboard["panels"] for target in panel["targets"]]
        cls.expressions = [one["expr"] for one in (*rules, *targets)]

    def test_each_metric_and_label_is_that_of_a_running_service(self):
        seen = set()
        for expression in self.expressions:
            bare = re.sub(r'"[^"]*"', '""', expression)
            for name, labels in re.findall(r"((?:shop_reckoner|process)_\w+)(\{[^}]*\})?", expression):
                wanted = re.findall(r'(\w+)="([^"]*)"', labels)
                self.assertIn(("job", "shop-reckoner"), wanted, expression)
                lines = [line for line in self.metrics.splitlines() if re.match(rf"{name}[ {{]", line)]
                for label, value in wanted:
                    if label != "job":
                        lines = [line for line in lines if f'{label}="{value}"' in line]
                self.assertTrue(lines, f"{name}{labels} is not in /metrics")
                seen.add(name)
            for group in re.findall(r"by \(([^)]*)\)", bare):
                for label in group.replace(" ", "").split(","):
                    self.assertTrue(label == "instance" or f'{label}="' in self.metrics, label)
            # Whatever else is followed by labels or by a time is a metric of somebody else.
            others = set(re.findall(r"\b[a-z]+_[a-z_]+\b(?=[{\[])", bare)) - seen
            self.assertEqual(others, set(), expression)
        self.assertGreater(len(seen), 10)

    @lacks(PROMTOOL, "the language of the alerts and the dashboard")
    def test_the_rules_speak_when_they_must_and_the_panels_are_in_the_language(self):
        folder = Path(self.enterContext(tempfile.TemporaryDirectory()))
        panels = [{"record": f"panel:{at}", "expr": text} for at, text in enumerate(self.expressions)]
        (folder / "panels.yml").write_text(json.dumps({"groups": [{"name": "panels", "rules": panels}]}))
        shutil.copy(ALERTS, folder)
        tests = Path(shutil.copy(Path(__file__).with_name("alerts.test.yml"), folder))
        for command in (["check", "rules", folder / "panels.yml", folder / ALERTS.name], ["test", "rules", tests]):
            ended, said = run(PROMTOOL, *command)
            self.assertEqual(ended, 0, said)
        named = tests.read_text(encoding="utf-8")
        for alert in re.findall(r"alert: (\w+)", ALERTS.read_text(encoding="utf-8")):
            self.assertIn(f"alertname: {alert}\n", named, "each alert is tried")

    def test_the_dashboard_is_in_the_form_that_is_read(self):
        self.assertEqual(list(lost(self.dashboard, read_back(self.dashboard))), [])
        # A word that the form does not have would be dropped, and that is found out.
        self.assertEqual(list(lost({"titel": "x"}, read_back({"titel": "x"}))), ["/titel"])
        places = [panel["gridPos"] for panel in self.dashboard["panels"]]
        taken = [(at["x"] + x, at["y"] + y) for at in places for x in range(at["w"]) for y in range(at["h"])]
        self.assertEqual(len(taken), len(set(taken)), "no panel lies on another")
        self.assertLess(max(x for x, _ in taken), 24)


def read_back(dashboard):
    """The dashboard as the library of its form reads and writes it."""
    from grafana_foundation_sdk.cog.encoder import JSONEncoder
    from grafana_foundation_sdk.models.dashboard import Dashboard

    return json.loads(JSONEncoder().encode(Dashboard.from_json(dashboard)))


def lost(before, after, where=""):
    """The places of what was dropped or changed."""
    if isinstance(before, dict):
        for key, value in before.items():
            if isinstance(after, dict) and key in after:
                yield from lost(value, after[key], f"{where}/{key}")
            else:
                yield f"{where}/{key}"
    elif isinstance(before, list) and isinstance(after, list) and len(before) == len(after):
        for at, (one, other) in enumerate(zip(before, after, strict=True)):
            yield from lost(one, other, f"{where}/{at}")
    elif before != after:
        yield where


class Image(unittest.TestCase):
    """The container."""

    def test_what_is_not_static_is_refused(self):
        ended, said = run(DEPLOY / "image", env=os.environ | {"EXECUTABLE": BINARY})
        self.assertEqual(ended, 1, said)
        self.assertIn("is not static", said)

    @lacks("buildah", "the container file")
    @lacks("cc", "the container file")
    def test_the_container_file_holds_one_file_and_runs_as_nobody(self):
        folder = Path(self.enterContext(tempfile.TemporaryDirectory()))
        # To link the service itself statically takes minutes: another small program stands for it.
        (folder / "program.c").write_text('#include <stdio.h>\nint main(void) { puts("shop-reckoner 0.0.0"); }\n')
        static, image = folder / "program", folder / "image.tar"
        self.assertEqual(run("cc", "-static", "-o", static, folder / "program.c")[0], 0)
        own = {"ENGINE": "buildah", "EXECUTABLE": str(static), "BUILDAH_ISOLATION": "chroot", "STORAGE_DRIVER": "vfs"}
        own |= {"XDG_DATA_HOME": str(folder), "CONTAINERS_STORAGE_CONF": str(folder / "storage.conf")}
        roots = f'[storage]\ndriver = "vfs"\ngraphroot = "{folder}/store"\nrunroot = "{folder}/run"\n'
        (folder / "storage.conf").write_text(roots)
        ended, said = run(DEPLOY / "image", image, env=os.environ | own)
        self.assertEqual(ended, 0, said)
        run("tar", "-xf", image, "-C", folder)
        (manifest,) = json.loads((folder / "manifest.json").read_text())
        (layer,) = manifest["Layers"]
        self.assertEqual(run("tar", "-tf", folder / layer)[1].split(), ["shop-reckoner"])
        config = json.loads((folder / manifest["Config"]).read_text())["config"]
        self.assertEqual((config["User"], config["Entrypoint"]), ("65532:65532", ["/shop-reckoner"]))
        self.assertIn("8080/tcp", config["ExposedPorts"])


class Caddy(unittest.TestCase):
    """The example for Caddy as it stands."""

    @lacks(os.environ.get("CADDY", "caddy"), "its example")
    def test_it_is_understood(self):
        caddy, path = os.environ.get("CADDY", "caddy"), DEPLOY / "Caddyfile"
        own = os.environ | {"HOME": self.enterContext(tempfile.TemporaryDirectory())}
        ended, said = run(caddy, "validate", "--adapter", "caddyfile", "--config", path, env=own)
        self.assertEqual(ended, 0, said)
        self.assertEqual(run(caddy, "fmt", path)[1], path.read_text(encoding="utf-8"))


if __name__ == "__main__":
    unittest.main()
