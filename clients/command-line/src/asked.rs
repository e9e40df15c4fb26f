//! One request to one calculator.

use crate::arguments::{Ask, Form};
use crate::failure::Failure;
use crate::service::{Request, Service};
use crate::shown;
use reqwest::Method;
use serde_json::Value;
use std::io::{Read, Write};

/// Asks and prints the answer in the form wanted.
pub fn ask(service: &Service, ask: &Ask) -> Result<(), Failure> {
    let (ending, accept) = match ask.form() {
        Form::Table | Form::Json => ("", "application/json"),
        Form::Csv => (".csv", "text/csv"),
        Form::Text => (".txt", "text/plain"),
        Form::Svg => (".svg", "image/svg+xml"),
    };
    let path = format!("/v1/{}{ending}", ask.calculator);
    let request = Request { method: Method::GET, path, query: &ask.fields, body: None, accept };
    if ask.form() == Form::Table {
        shown::print(&shown::answer(&service.document(&request)?, ask.working));
        return Ok(());
    }
    let mut response = service.ask(&request)?;
    let mut bytes = Vec::new();
    response.read_to_end(&mut bytes).map_err(|error| Failure::Unreachable(error.to_string()))?;
    if ask.form() == Form::Json
        && let Ok(document) = serde_json::from_slice::<Value>(&bytes)
        && let Ok(pretty) = serde_json::to_vec_pretty(&document)
    {
        bytes = pretty;
    }
    if !bytes.ends_with(b"\n") {
        bytes.push(b'\n');
    }
    // A reader that has seen enough closes the pipe.
    let _ = std::io::stdout().write_all(&bytes);
    Ok(())
}
