//! The service that is asked: over http or https, again with growing waits where it is busy or silent. Every request may be
//! sent again, since the service keeps nothing.

use crate::arguments::Arguments;
use crate::failure::Failure;
use crate::local;
use backon::{BackoffBuilder, ExponentialBuilder};
use reqwest::Method;
use reqwest::blocking::{Client, Response};
use reqwest::header::{ACCEPT, CONTENT_TYPE, RETRY_AFTER};
use serde_json::{Value, json};
use std::time::Duration;

/// The longest wait between two tries.
const LONGEST_WAIT: Duration = Duration::from_secs(60);

/// A service at an address.
pub struct Service {
    client: Client,
    address: String,
    tries: u16,
}

/// What is sent.
pub struct Request<'a> {
    /// GET or POST.
    pub method: Method,
    /// From the root of the service.
    pub path: String,
    /// Fields of the address.
    pub query: &'a [(String, String)],
    /// The body and its type.
    pub body: Option<(&'static str, String)>,
    /// The type wanted.
    pub accept: &'static str,
}

impl Request<'_> {
    /// A request without a body.
    pub fn get(path: impl Into<String>, accept: &'static str) -> Self {
        Self { method: Method::GET, path: path.into(), query: &[], body: None, accept }
    }
}

impl Service {
    /// The one the arguments name.
    pub fn of(arguments: &Arguments) -> Result<Self, Failure> {
        let address = match arguments.local {
            true => local::start(arguments.shop.as_deref())?,
            false => arguments.service.trim_end_matches('/').to_owned(),
        };
        // A second call of it changes nothing.
        let _ = rustls::crypto::ring::default_provider().install_default();
        let client = Client::builder()
            .timeout(Duration::from_secs(arguments.timeout))
            .user_agent(concat!("reckon/", env!("CARGO_PKG_VERSION")))
            .build()
            .map_err(|error| Failure::Service(error.to_string()))?;
        Ok(Self { client, address, tries: arguments.tries })
    }

    /// Waits between the tries, one after another, growing and not the same for all callers.
    pub fn waits(&self) -> impl Iterator<Item = Duration> + use<> {
        let tries = usize::from(self.tries) - 1;
        ExponentialBuilder::default().with_jitter().with_max_delay(LONGEST_WAIT).with_max_times(tries).build()
    }

    /// Sends once.
    pub fn send(&self, request: &Request) -> Result<Response, Turned> {
        let mut builder = self.client.request(request.method.clone(), format!("{}{}", self.address, request.path));
        builder = builder.header(ACCEPT, request.accept).query(request.query);
        if let Some((kind, body)) = &request.body {
            builder = builder.header(CONTENT_TYPE, *kind).body(body.clone());
        }
        let response = builder.send().map_err(|error| self.silent(&error))?;
        let status = response.status().as_u16();
        if status < 400 {
            return Ok(response);
        }
        let after = response.headers().get(RETRY_AFTER).and_then(|value| value.to_str().ok()?.parse().ok());
        let problem = response.text().unwrap_or_default();
        let problem = serde_json::from_str(&problem)
            .ok()
            .filter(Value::is_object)
            .unwrap_or_else(|| json!({ "detail": format!("{} answers with status {status}", self.address) }));
        Err(match is_busy(status) {
            true => {
                Turned::Busy(after.map(Duration::from_secs), problem["detail"].as_str().unwrap_or("busy").to_owned())
            }
            false => Turned::Refused(problem),
        })
    }

    /// Sends until there is an answer, or until the tries are used up.
    pub fn ask(&self, request: &Request) -> Result<Response, Failure> {
        let mut waits = self.waits();
        loop {
            let turned = match self.send(request) {
                Ok(response) => return Ok(response),
                Err(turned) => turned,
            };
            if matches!(turned, Turned::Refused(_)) {
                return Err(turned.into());
            }
            let Some(wait) = waits.next() else { return Err(turned.into()) };
            turned.pause(wait);
        }
    }

    /// A JSON document.
    pub fn document(&self, request: &Request) -> Result<Value, Failure> {
        self.ask(request)?.json().map_err(|error| Failure::Service(said(&error)))
    }

    /// No answer came, or not all of it.
    pub fn silent(&self, error: &reqwest::Error) -> Turned {
        Turned::Silent(format!("{} does not answer: {}", self.address, said(error)))
    }
}

/// Why there was no answer this time.
#[derive(Debug)]
pub enum Turned {
    /// The request is wrong.
    Refused(Value),
    /// Busy or failed, with the wait that it asks for.
    Busy(Option<Duration>, String),
    /// Nobody there, or cut off.
    Silent(String),
}

impl Turned {
    /// Waits as the service says, or else as given.
    pub fn pause(&self, wait: Duration) {
        let wait = match self {
            Turned::Busy(Some(after), _) => (*after).min(LONGEST_WAIT),
            _ => wait,
        };
        std::thread::sleep(wait);
    }
}

impl From<Turned> for Failure {
    fn from(turned: Turned) -> Self {
        match turned {
            Turned::Refused(problem) => Failure::Refused(problem),
            Turned::Busy(_, says) => Failure::Service(says),
            Turned::Silent(says) => Failure::Unreachable(says),
        }
    }
}

/// Whether a status says to come again.
pub fn is_busy(status: u16) -> bool {
    matches!(status, 429 | 500 | 502 | 503 | 504)
}

/// An error with what caused it, the last cause alone: those between repeat it.
pub fn said(error: &dyn std::error::Error) -> String {
    let mut cause = error;
    while let Some(deeper) = cause.source() {
        cause = deeper;
    }
    cause.to_string()
}
