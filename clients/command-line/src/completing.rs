//! What the shell completes: calculators, their fields and their choices, from the register that this command was built with.

use crate::arguments::Arguments;
use crate::failure::Failure;
use clap::{CommandFactory, ValueEnum};
use clap_complete::engine::CompletionCandidate;
use clap_complete::env::Shells;
use shop_reckoner::asking::{Field, describe_entry, reserved_fields};
use shop_reckoner::calculators::{REGISTER, find};
use std::ffi::OsStr;
use std::io::stdout;

/// Shells that can complete.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum Shell {
    /// Bash.
    Bash,
    /// Fish.
    Fish,
    /// Zsh.
    Zsh,
}

/// Prints the script of a shell; it asks this command what to complete.
pub fn print(shell: Shell) -> Result<(), Failure> {
    let name = shell.to_possible_value().map(|value| value.get_name().to_owned()).unwrap_or_default();
    let command = Arguments::command();
    let (name_of_command, shells) = (command.get_name(), Shells::builtins());
    let Some(completer) = shells.completer(&name) else { return Ok(()) };
    completer
        .write_registration("RECKON_COMPLETE", name_of_command, name_of_command, name_of_command, &mut stdout())
        .map_err(|error| Failure::File(error.to_string()))
}

/// The names of calculators that begin with what is typed.
pub fn calculators(typed: &OsStr) -> Vec<CompletionCandidate> {
    let typed = typed.to_string_lossy();
    let fitting = REGISTER.iter().filter(|entry| entry.id.starts_with(typed.as_ref()));
    fitting.map(|entry| CompletionCandidate::new(entry.id).help(Some(entry.title.into()))).collect()
}

/// The fields of the calculator on the line, and behind `=` the words to choose from.
pub fn fields(typed: &OsStr) -> Vec<CompletionCandidate> {
    let typed = typed.to_string_lossy();
    // A completer is not told the rest of the line; it stands in the arguments of this process.
    let Some(described) = std::env::args().find_map(|argument| find(&argument)).and_then(describe_entry) else {
        return Vec::new();
    };
    let fields = described.fields.iter().chain(reserved_fields());
    fields
        .flat_map(|field| texts(field, &typed))
        .filter(|text| text.starts_with(typed.as_ref()))
        .map(CompletionCandidate::new)
        .collect()
}

/// `name=`, or once that is typed `name=choice` for each choice or the example.
fn texts(field: &Field, typed: &str) -> Vec<String> {
    let name = format!("{}=", field.name);
    match typed.starts_with(&name) {
        false => vec![name],
        true if field.choices.is_empty() => vec![format!("{name}{}", field.example)],
        true => field.choices.iter().map(|choice| format!("{name}{choice}")).collect(),
    }
}
