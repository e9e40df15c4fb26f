//! What the tests share: asking in process, the rows of checks, and the real executable on a free port.
#![allow(dead_code)]

use serde_json::Value;
use shop_reckoner::asking::{Form, ask};
use shop_reckoner::calculators::{Entry, find};
use shop_reckoner::fields::{Fields, Given};
use shop_reckoner::json::ToJson;
use shop_reckoner::refusal::Refusal;
use std::io::{BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::JoinHandle;

/// The project's folder.
pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Query text that is not percent-encoded, `name=value&name=value`, as fields.
pub fn fields(text: &str) -> Fields<'static> {
    let pair = |pair: &str| {
        let (name, value) = pair.split_once('=').unwrap_or((pair, ""));
        (name.to_owned().into(), Given::Text(value.to_owned().into()))
    };
    Fields(text.split('&').filter(|p| !p.is_empty()).map(pair).collect())
}

/// Names and values as query text that is not percent-encoded, such as an example's.
pub fn query(fields: &[(&str, &str)]) -> String {
    fields.iter().map(|(name, value)| format!("{name}={value}")).collect::<Vec<_>>().join("&")
}

/// Asks in process; the answer as JSON.
pub fn asked(entry: &'static Entry, text: &str) -> Result<Value, Refusal> {
    ask(entry, fields(text), Form::Json).map(|(answer, _)| answer.value())
}

/// One row of data/checks.
#[derive(Clone, Debug, serde::Deserialize)]
pub struct Check {
    pub calculator: String,
    pub inputs: String,
    pub field: String,
    pub expected: String,
    pub unit: String,
    pub tolerance: String,
    pub source: String,
    pub place: String,
    pub kind: String,
    #[serde(skip)]
    pub line: String,
}

impl Check {
    pub fn entry(&self) -> &'static Entry {
        find(&self.calculator).unwrap_or_else(|| panic!("{}: no calculator {}", self.line, self.calculator))
    }

    /// An outside check: printed somewhere, or computed by a general-purpose library.
    pub fn is_outside(&self) -> bool {
        matches!(self.kind.as_str(), "published" | "library")
    }
}

/// Every row of data/checks.
pub fn checks() -> Vec<Check> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(root().join("data/checks"))
        .expect("data/checks")
        .filter_map(|file| Some(file.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|ext| ext == "csv"))
        .collect();
    files.sort();
    let mut checks = Vec::new();
    for file in files {
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let mut reader = csv::Reader::from_path(&file).expect("a table of checks");
        for (at, row) in reader.deserialize::<Check>().enumerate() {
            let mut row = row.unwrap_or_else(|error| panic!("{name}: {error}"));
            row.line = format!("{name}:{}", at + 2);
            checks.push(row);
        }
    }
    checks
}

/// The running executable; stopped when dropped.
pub struct Service {
    child: Child,
    /// Reads what is logged as it comes: a full pipe would stop the service.
    log: Option<JoinHandle<String>>,
    pub base: String,
}

impl Service {
    pub fn start(arguments: &[&str]) -> Self {
        // Not optimized, and beside other tests, writing the description can take longer than a caller is let wait.
        let patience: &[&str] = if arguments.contains(&"--timeout") { &[] } else { &["--timeout", "60"] };
        // Tests that stop it have nothing in front of it that would have to turn away first.
        let at_once: &[&str] = if arguments.contains(&"--drain-timeout") { &[] } else { &["--drain-timeout", "0"] };
        let log: &[&str] = if arguments.contains(&"--log") { &[] } else { &["--log", "info"] };
        let mut child = Command::new(env!("CARGO_BIN_EXE_shop-reckoner"))
            .args(["--listen", "127.0.0.1:0"])
            .args(log)
            .args(patience)
            .args(at_once)
            .args(arguments)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the executable starts");
        let mut line = String::new();
        let stdout = child.stdout.take().expect("stdout");
        BufReader::new(stdout).read_line(&mut line).expect("the line that says where it listens");
        let base = line.split("http://").nth(1).expect("an address").trim().trim_end_matches('/');
        let base = format!("http://{base}");
        let mut stderr = child.stderr.take().expect("stderr");
        let log = std::thread::spawn(move || {
            let mut log = String::new();
            let _ = stderr.read_to_string(&mut log);
            log
        });
        Self { child, base, log: Some(log) }
    }

    pub fn pid(&self) -> u32 {
        self.child.id()
    }

    /// Host and port.
    pub fn address(&self) -> &str {
        self.base.trim_start_matches("http://")
    }

    /// Tells it to stop.
    pub fn stop(&self) {
        let told = Command::new("kill").args(["-TERM", &self.pid().to_string()]).status();
        assert!(told.is_ok_and(|status| status.success()));
    }

    /// Waits for the end, giving the exit status and what was logged.
    pub fn wait(mut self) -> (std::process::ExitStatus, String) {
        let status = self.child.wait().expect("it ends");
        let log = self.log.take().and_then(|log| log.join().ok()).unwrap_or_default();
        (status, log)
    }
}

impl Drop for Service {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Golden files are rewritten by `BLESS=1 cargo golden` and compared otherwise.
pub fn golden(path: &str, actual: &str) {
    let file = root().join(path);
    if std::env::var_os("BLESS").is_some() {
        std::fs::create_dir_all(file.parent().expect("a folder")).expect("the folder");
        std::fs::write(&file, actual).expect("the golden file is written");
        return;
    }
    let expected = std::fs::read_to_string(&file).unwrap_or_default();
    if expected != actual {
        let at = expected.lines().zip(actual.lines()).position(|(a, b)| a != b);
        let at = at.unwrap_or_else(|| expected.lines().count().min(actual.lines().count()));
        panic!(
            "{path} is out of date from line {}:\n  in the file: {}\n  now:         {}\n\
             If the change is meant, run `BLESS=1 cargo golden` and look at the difference.",
            at + 1,
            expected.lines().nth(at).unwrap_or("(nothing)"),
            actual.lines().nth(at).unwrap_or("(nothing)")
        );
    }
}
