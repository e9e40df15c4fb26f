//! The service inside this process: on a free port of this computer, for as long as the command runs.

use crate::failure::Failure;
use clap::Parser;
use shop_reckoner::service::{Settings, run};
use shop_reckoner::shop::{self, Shop};
use std::net::TcpListener;
use std::path::Path;
use std::sync::mpsc;

/// Starts it and gives its address.
pub fn start(shop: Option<&Path>) -> Result<String, Failure> {
    if let Some(file) = shop {
        let shop = Shop::load(file).map_err(Failure::File)?;
        shop::install(shop).map_err(|_| Failure::File("a shop is set already".into()))?;
    }
    let failed = |error: &dyn std::fmt::Display| Failure::Service(format!("cannot answer in this process: {error}"));
    // Interrupted, it ends at once: nobody else asks it.
    let settings = Settings::try_parse_from(["shop-reckoner", "--drain-timeout", "0", "--stop-timeout", "0"]);
    let settings = settings.map_err(|error| failed(&error))?;
    let listener = TcpListener::bind("127.0.0.1:0").map_err(|error| failed(&error))?;
    listener.set_nonblocking(true).map_err(|error| failed(&error))?;
    let address = listener.local_addr().map_err(|error| failed(&error))?;
    let (ready, wait) = mpsc::channel();
    std::thread::spawn(move || {
        let ended = actix_web::rt::System::new().block_on(run(listener, settings, || {
            let _ = ready.send(());
        }));
        std::process::exit(if ended.is_ok() { 130 } else { 4 });
    });
    wait.recv().map_err(|error| failed(&error))?;
    Ok(format!("http://{address}"))
}
