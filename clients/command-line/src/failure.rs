//! What goes wrong, in words on standard error and as an exit code.

use serde_json::Value;
use std::path::Path;
use std::process::ExitCode;

/// Why there is no answer, or not a whole one.
#[derive(Debug)]
pub enum Failure {
    /// The service refuses the request; its problem document.
    Refused(Value),
    /// No service answers.
    Unreachable(String),
    /// The service failed, or was busy as often as it was asked.
    Service(String),
    /// So many of so many records are refused; each says why where it stands.
    Records(usize, usize),
    /// A file cannot be read or written.
    File(String),
}

impl Failure {
    /// A file that cannot be read or written.
    pub fn of_file(file: &Path, error: impl std::fmt::Display) -> Self {
        Failure::File(format!("{}: {error}", file.display()))
    }

    /// The exit code.
    pub fn code(&self) -> ExitCode {
        ExitCode::from(match self {
            Failure::Refused(_) => 1,
            Failure::Unreachable(_) => 3,
            Failure::Service(_) => 4,
            Failure::Records(..) => 5,
            Failure::File(_) => 6,
        })
    }

    /// Prints what is wrong.
    pub fn print(&self) {
        match self {
            Failure::Refused(problem) => print_problem(problem),
            Failure::Unreachable(says) | Failure::Service(says) | Failure::File(says) => eprintln!("reckon: {says}"),
            Failure::Records(refused, all) => eprintln!("reckon: {refused} of {all} records are refused"),
        }
    }
}

fn print_problem(problem: &Value) {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    match problem["errors"].as_array().filter(|errors| !errors.is_empty()) {
        Some(errors) => {
            for error in errors {
                let field = text(&error["field"]);
                let attempt = error["try"].as_str().map(|attempt| format!(" Try {attempt}.")).unwrap_or_default();
                eprintln!("reckon: {}: {}{attempt}", field.trim_start_matches('/'), text(&error["says"]));
            }
        }
        None => eprintln!("reckon: {}", text(&problem["detail"])),
    }
}
