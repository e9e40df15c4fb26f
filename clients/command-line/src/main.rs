//! `reckon`: any calculator of Shop Reckoner from a shell. Answers for people, or as JSON, CSV, text or a drawing; files of
//! requests; values for a CAM post. It asks a service, or answers by itself with `--local`.

#![forbid(unsafe_code)]

mod arguments;
mod asked;
mod completing;
mod failure;
mod listing;
mod local;
mod record_file;
mod service;
mod shown;
mod values;

use arguments::{Arguments, Command};
use clap::{CommandFactory, Parser};
use failure::Failure;
use service::Service;
use std::process::ExitCode;

fn main() -> ExitCode {
    clap_complete::CompleteEnv::with_factory(Arguments::command).var("RECKON_COMPLETE").complete();
    let arguments = Arguments::parse();
    match run(&arguments) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            failure.print();
            failure.code()
        }
    }
}

fn run(arguments: &Arguments) -> Result<(), Failure> {
    let service = || Service::of(arguments);
    match &arguments.command {
        Command::Ask(ask) => asked::ask(&service()?, ask),
        Command::Find { words } => listing::find(&service()?, words),
        Command::Fields { calculator } => listing::fields(&service()?, calculator),
        Command::Lines { file } => record_file::lines(&service()?, file),
        Command::Table(table) => record_file::table(&service()?, table),
        Command::Values(values) => values::write(&service()?, values),
        Command::Completions { shell } => completing::print(*shell),
    }
}
