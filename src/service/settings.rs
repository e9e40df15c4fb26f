//! The settings, by flag or by environment. A setting that cannot be used stops the start.

use actix_web::http::Uri;
use clap::builder::RangedU64ValueParser;
use clap::{Parser, ValueEnum};
use std::net::SocketAddr;
use std::num::NonZeroU32;
use std::path::PathBuf;

/// The longest time that can be set.
const HOUR: u64 = 3600;

/// The arithmetic of a machine shop as a service. Listens on this computer alone unless told otherwise.
#[derive(Clone, Debug, Parser)]
#[command(name = "shop-reckoner", version)]
pub struct Settings {
    /// Address and port to listen on. Port 0 takes a free port.
    #[arg(long, env = "SHOP_RECKONER_LISTEN", default_value = "127.0.0.1:8080", value_name = "ADDRESS:PORT")]
    pub listen: SocketAddr,
    /// File that lists what the shop owns: machines, drills and more.
    #[arg(long, env = "SHOP_RECKONER_SHOP", value_name = "FILE")]
    pub shop: Option<PathBuf>,
    /// What to log: error, warn, info, debug, or a filter by module.
    #[arg(long, env = "SHOP_RECKONER_LOG", default_value = "info", value_name = "FILTER")]
    pub log: String,
    /// Threads that answer requests, up to 512. 0 is one for each core.
    #[arg(long, env = "SHOP_RECKONER_WORKERS", default_value_t = 0, value_name = "NUMBER",
          value_parser = RangedU64ValueParser::<usize>::new().range(0..=512))]
    pub workers: usize,
    /// Largest body of a request, in bytes, from 1 KiB to 1 GiB.
    #[arg(long, env = "SHOP_RECKONER_BODY_LIMIT", default_value_t = 262_144, value_name = "BYTES",
          value_parser = RangedU64ValueParser::<usize>::new().range(1024..=1 << 30))]
    pub body_limit: usize,
    /// Longest address of a request with its query, in bytes, from 256 to 65536.
    #[arg(long, env = "SHOP_RECKONER_QUERY_LIMIT", default_value_t = 8_192, value_name = "BYTES",
          value_parser = RangedU64ValueParser::<usize>::new().range(256..=1 << 16))]
    pub query_limit: usize,
    /// Largest headers of a request, all together, in bytes, from 1024 to 65536.
    #[arg(long, env = "SHOP_RECKONER_HEADER_LIMIT", default_value_t = 16_384, value_name = "BYTES",
          value_parser = RangedU64ValueParser::<usize>::new().range(1024..=1 << 16))]
    pub header_limit: usize,
    /// Origins of other sites whose pages may ask from a browser, separated by commas. * allows any. Without it, none may.
    #[arg(long, env = "SHOP_RECKONER_ALLOW_ORIGIN", value_delimiter = ',', value_name = "ORIGIN",
          value_parser = origin)]
    pub allow_origin: Vec<String>,
    /// Seconds a request may take, up to an hour.
    #[arg(long, env = "SHOP_RECKONER_TIMEOUT", default_value_t = 10, value_name = "SECONDS",
          value_parser = clap::value_parser!(u64).range(1..=HOUR))]
    pub timeout: u64,
    /// How many requests may do long work or wait for it at once, up to 10000, and as many streams. More get 503 and may ask
    /// again later.
    #[arg(long, env = "SHOP_RECKONER_LONG_REQUESTS", default_value_t = 64, value_name = "NUMBER",
          value_parser = RangedU64ValueParser::<usize>::new().range(1..=10_000))]
    pub long_requests: usize,
    /// Seconds that an answer waits for a reader that takes none of it, up to an hour.
    #[arg(long, env = "SHOP_RECKONER_READER_TIMEOUT", default_value_t = 30, value_name = "SECONDS",
          value_parser = clap::value_parser!(u64).range(1..=HOUR))]
    pub reader_timeout: u64,
    /// Seconds that the service still answers after it is told to stop. /readyz answers 503 meanwhile, so that a load balancer
    /// can send requests elsewhere. A second signal ends the wait.
    #[arg(long, env = "SHOP_RECKONER_DRAIN_TIMEOUT", default_value_t = 5, value_name = "SECONDS",
           value_parser = clap::value_parser!(u64).range(0..=HOUR))]
    pub drain_timeout: u64,
    /// Seconds that open requests then have to finish.
    #[arg(long, env = "SHOP_RECKONER_STOP_TIMEOUT", default_value_t = 10, value_name = "SECONDS",
           value_parser = clap::value_parser!(u64).range(0..=HOUR))]
    pub stop_timeout: u64,
    /// Requests a second that one caller, told by its address, may make. Without it there is no limit.
    #[arg(long, env = "SHOP_RECKONER_RATE_LIMIT", value_name = "NUMBER", value_parser = rate)]
    pub rate_limit: Option<NonZeroU32>,
    /// Requests that one caller may make at once. Without it, as many as in a second.
    #[arg(long, env = "SHOP_RECKONER_RATE_BURST", value_name = "NUMBER", requires = "rate_limit", value_parser = rate)]
    pub rate_burst: Option<NonZeroU32>,
    /// Header in which a load balancer in front of the service writes the caller's address. Its last entry is the caller
    /// that is counted. Without it, the other end of the connection is the caller.
    #[arg(long, env = "SHOP_RECKONER_TRUST_FORWARDED", value_name = "HEADER")]
    pub trust_forwarded: Option<Forwarded>,
}

/// A header that says for whom a load balancer asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Forwarded {
    /// `X-Forwarded-For`.
    XForwardedFor,
    /// `Forwarded`, of RFC 7239.
    Forwarded,
}

fn rate(text: &str) -> Result<NonZeroU32, String> {
    match text.parse() {
        Ok(rate) if rate <= NonZeroU32::MIN.saturating_add(999_999) => Ok(rate),
        _ => Err("give a whole number from 1 to 1000000".into()),
    }
}

/// An origin as a browser writes it, so that the two can be the same.
fn origin(text: &str) -> Result<String, String> {
    let is_origin = || {
        let uri: Uri = text.parse().ok()?;
        let (scheme, host) = (uri.scheme_str()?, uri.host()?);
        let port = uri.port().map(|port| format!(":{port}")).unwrap_or_default();
        let usual = matches!((scheme, port.as_str()), ("http", ":80") | ("https", ":443"));
        (!usual && text == format!("{scheme}://{host}{port}") && !text.contains(|c: char| c.is_ascii_uppercase()))
            .then_some(())
    };
    if text == "*" || is_origin().is_some() {
        return Ok(text.to_owned());
    }
    Err("write an origin as scheme://host or scheme://host:port, in small letters, without a path and without the \
         scheme's usual port, such as https://tern.example; or * for any"
        .into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_listens_on_this_computer_alone_unless_told_otherwise() {
        let settings = Settings::parse_from(["shop-reckoner"]);
        assert!(settings.listen.ip().is_loopback());
    }

    #[test]
    fn an_origin_is_what_a_browser_sends() {
        for good in ["*", "https://tern.example", "http://localhost:3000", "http://[::1]:3000", "app://tern"] {
            assert!(origin(good).is_ok(), "{good}");
        }
        for bad in [
            "", "not a url", "tern.example", "https://", "https://tern.example/", "https://tern.example/page",
            "https://Tern.example", "https://tern.example:443", "https://me@tern.example", "https://tern.example?x",
            "https://tern.example:port", "null",
        ] {
            assert!(origin(bad).is_err(), "{bad}");
        }
    }
}
