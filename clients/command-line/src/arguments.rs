//! What the command is told.

use crate::completing;
use clap::{Args, Parser, Subcommand, ValueEnum};
use clap_complete::engine::ArgValueCompleter;
use std::path::PathBuf;

/// Ask Shop Reckoner from a shell.
///
/// Exit codes: 0 answered; 1 the request is refused; 2 the command line is wrong; 3 no service answers; 4 the service failed
/// or is too busy; 5 some records of a file are refused; 6 a file cannot be read or written.
#[derive(Debug, Parser)]
#[command(name = "reckon", version, max_term_width = 110)]
pub struct Arguments {
    /// Address of the service, http or https.
    #[arg(long, global = true, env = "SHOP_RECKONER", default_value = "http://127.0.0.1:8080", value_name = "ADDRESS")]
    pub service: String,
    /// Answer in this process, without a service.
    #[arg(long, global = true)]
    pub local: bool,
    /// With --local: the file that lists what the shop owns.
    #[arg(long, global = true, env = "SHOP_RECKONER_SHOP", value_name = "FILE", requires = "local")]
    pub shop: Option<PathBuf>,
    /// How often a request is sent before the command gives up on a busy or silent service.
    #[arg(long, global = true, default_value_t = 5, value_parser = clap::value_parser!(u16).range(1..=100))]
    pub tries: u16,
    /// Seconds to wait for an answer.
    #[arg(long, global = true, default_value_t = 30, value_parser = clap::value_parser!(u64).range(1..=3600))]
    pub timeout: u64,
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Ask one calculator: reckon ask holes/tap-drill thread=M8
    Ask(Ask),
    /// List the calculators whose title or words have all these words.
    Find {
        /// Words to look for; without any, all calculators.
        words: Vec<String>,
    },
    /// List what a calculator asks for and gives.
    Fields {
        /// Its name, such as holes/tap-drill.
        #[arg(add = ArgValueCompleter::new(completing::calculators))]
        calculator: String,
    },
    /// Answer a file of requests, one JSON object a line, by a file of answers.
    Lines {
        /// The file; - is standard input.
        file: PathBuf,
    },
    /// Answer a CSV table of requests to one calculator; the answers come beside the rows.
    Table(Table),
    /// Write the values file that a CAM post reads, from a file of requests, one JSON object a line.
    Values(Values),
    /// Print the script that makes a shell complete calculators, fields and choices.
    Completions {
        /// The shell.
        shell: completing::Shell,
    },
}

/// Ask one calculator.
#[derive(Debug, Args)]
pub struct Ask {
    /// The calculator, such as holes/tap-drill.
    #[arg(add = ArgValueCompleter::new(completing::calculators))]
    pub calculator: String,
    /// Fields and their values, such as thread=M8 or 'diameter=1/2 in'.
    #[arg(value_name = "FIELD=VALUE", value_parser = field, add = ArgValueCompleter::new(completing::fields))]
    pub fields: Vec<(String, String)>,
    /// How to write the answer.
    #[arg(long = "as", value_enum, default_value_t = Form::Table)]
    pub form: Form,
    /// The same as --as json.
    #[arg(long, conflicts_with_all = ["csv", "form"])]
    pub json: bool,
    /// The same as --as csv.
    #[arg(long, conflicts_with = "form")]
    pub csv: bool,
    /// Also print how it was worked out and its sources.
    #[arg(long)]
    pub working: bool,
}

impl Ask {
    /// How to write the answer, whichever flag says it.
    pub fn form(&self) -> Form {
        match (self.json, self.csv) {
            (true, _) => Form::Json,
            (_, true) => Form::Csv,
            _ => self.form,
        }
    }
}

/// How an answer is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Form {
    /// For people.
    Table,
    /// The whole answer.
    Json,
    /// A heading and rows.
    Csv,
    /// One value; needs pick=… where there are several.
    Text,
    /// The drawing, as SVG.
    Svg,
}

/// A table of requests.
#[derive(Debug, Args)]
pub struct Table {
    /// The calculator.
    #[arg(add = ArgValueCompleter::new(completing::calculators))]
    pub calculator: String,
    /// The file; - is standard input.
    pub file: PathBuf,
    /// Fields that are the same for every row, such as units=metric or pick=tip_depth.
    #[arg(value_name = "FIELD=VALUE", value_parser = field, add = ArgValueCompleter::new(completing::fields))]
    pub fields: Vec<(String, String)>,
}

/// A values file for a CAM post.
#[derive(Debug, Args)]
pub struct Values {
    /// The file of requests; - is standard input.
    pub file: PathBuf,
    /// Where to write the values; the ending, .json or .csv, says how.
    #[arg(long, short, value_name = "FILE")]
    pub output: PathBuf,
    /// The units of all values.
    #[arg(long, value_enum)]
    pub units: Units,
}

/// A system of units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Units {
    /// Inches.
    Inch,
    /// Millimeters.
    Metric,
}

impl Units {
    /// The word of the service.
    pub fn word(self) -> &'static str {
        match self {
            Units::Inch => "inch",
            Units::Metric => "metric",
        }
    }
}

fn field(text: &str) -> Result<(String, String), String> {
    match text.split_once('=') {
        Some((name, value)) if !name.is_empty() => Ok((name.to_owned(), value.to_owned())),
        _ => Err("a field is written as name=value, such as thread=M8".into()),
    }
}
