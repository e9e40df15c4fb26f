//! Settings, start; nothing else.

#![forbid(unsafe_code)]

use clap::Parser;
use shop_reckoner::service::{Settings, in_its_span, run};
use shop_reckoner::shop::{self, Shop};
use std::io::Write;
use std::net::TcpListener;
use tracing_appender::non_blocking::NonBlockingBuilder;
use tracing_subscriber::EnvFilter;

/// How many lines of the log may wait to be written; their places are made at the start.
const LINES_IN_HAND: usize = 8192;

#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> std::process::ExitCode {
    let settings = Settings::parse();
    match start(settings) {
        Ok(()) => std::process::ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("shop-reckoner: {error}");
            std::process::ExitCode::FAILURE
        }
    }
}

fn start(settings: Settings) -> Result<(), String> {
    let filter = EnvFilter::try_new(&settings.log).map_err(|error| format!("--log {}: {error}", settings.log))?;
    // A reader of the log that falls behind loses lines; it does not hold up the answers.
    let log = NonBlockingBuilder::default().buffered_lines_limit(LINES_IN_HAND);
    let (writer, _written) = log.finish(std::io::stderr());
    tracing_subscriber::fmt().json().with_span_list(false).with_writer(writer).with_env_filter(filter).init();
    // A fault is a line of the log like any other, with the request it happened in.
    std::panic::set_hook(Box::new(|fault| {
        in_its_span(|| tracing::error!(%fault, "the service failed; this is a bug"));
    }));
    if let Some(file) = &settings.shop {
        let shop = Shop::load(file)?;
        tracing::info!(shop = shop.name, hash = shop.hash, "read the shop's file");
        shop::install(shop).map_err(|_| "--shop: a shop is set already".to_owned())?;
    }
    let listener =
        TcpListener::bind(settings.listen).map_err(|error| format!("--listen {}: {error}", settings.listen))?;
    let address = listener.local_addr().map_err(|error| error.to_string())?;
    listener.set_nonblocking(true).map_err(|error| error.to_string())?;
    let answers = || {
        println!("Shop Reckoner {} answers at http://{address}/", shop_reckoner::VERSION);
        // The line must be out before a pipe that waits for it can go on.
        let _ = std::io::stdout().flush();
    };
    actix_web::rt::System::new().block_on(run(listener, settings, answers)).map_err(|error| error.to_string())
}
