//! What can be set, by flag or by environment.

use clap::Parser;
use std::net::SocketAddr;
use std::path::PathBuf;

/// The arithmetic of a machine shop as a service. Listens on this computer alone unless told otherwise.
#[derive(Clone, Debug, Parser)]
#[command(name = "shop-reckoner", version)]
pub struct Settings {
    /// Address and port to listen on; port 0 takes a free one.
    #[arg(long, env = "SHOP_RECKONER_LISTEN", default_value = "127.0.0.1:8080", value_name = "ADDRESS:PORT")]
    pub listen: SocketAddr,
    /// File of what the shop owns: machines, drills and more.
    #[arg(long, env = "SHOP_RECKONER_SHOP", value_name = "FILE")]
    pub shop: Option<PathBuf>,
    /// What is logged: error, warn, info, debug, or a filter by module.
    #[arg(long, env = "SHOP_RECKONER_LOG", default_value = "info", value_name = "FILTER")]
    pub log: String,
    /// Threads that answer requests; one for each core if 0.
    #[arg(long, env = "SHOP_RECKONER_WORKERS", default_value_t = 0, value_name = "NUMBER")]
    pub workers: usize,
    /// Largest body of a request, in bytes.
    #[arg(long, env = "SHOP_RECKONER_BODY_LIMIT", default_value_t = 262_144, value_name = "BYTES")]
    pub body_limit: usize,
    /// Longest query of a request, in bytes.
    #[arg(long, env = "SHOP_RECKONER_QUERY_LIMIT", default_value_t = 8_192, value_name = "BYTES")]
    pub query_limit: usize,
    /// Largest headers of a request, all together, in bytes.
    #[arg(long, env = "SHOP_RECKONER_HEADER_LIMIT", default_value_t = 16_384, value_name = "BYTES")]
    pub header_limit: usize,
    /// Origins whose pages may ask from a browser, parted by commas; * for any. None if absent.
    #[arg(long, env = "SHOP_RECKONER_ALLOW_ORIGIN", value_delimiter = ',', value_name = "ORIGIN")]
    pub allow_origin: Vec<String>,
    /// Seconds a request may take.
    #[arg(long, env = "SHOP_RECKONER_TIMEOUT", default_value_t = 10, value_name = "SECONDS")]
    pub timeout: u64,
    /// Requests that may have long work waiting or done at once; more are told to ask again later.
    #[arg(long, env = "SHOP_RECKONER_LONG_REQUESTS", default_value_t = 64, value_name = "NUMBER")]
    pub long_requests: usize,
    /// Seconds that an answer may wait for a reader that takes nothing of it.
    #[arg(long, env = "SHOP_RECKONER_READER_TIMEOUT", default_value_t = 30, value_name = "SECONDS")]
    pub reader_timeout: u64,
    /// Seconds that open requests are given to finish when the service is stopped.
    #[arg(long, env = "SHOP_RECKONER_STOP_TIMEOUT", default_value_t = 10, value_name = "SECONDS")]
    pub stop_timeout: u64,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_listens_on_this_computer_alone_unless_told_otherwise() {
        let settings = Settings::parse_from(["shop-reckoner"]);
        assert!(settings.listen.ip().is_loopback());
    }
}
