//! Stopping without losing a request: first the service says that it is not ready, so that a load balancer sends
//! nothing more, and answers whatever still comes, closing each connection with its answer; then it stops listening
//! and lets open requests finish.

use super::aside::Workshop;
use super::problem::Problem;
use super::settings::Settings;
use actix_web::dev::ServerHandle;
use actix_web::http::StatusCode;
use std::io;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

static READY: AtomicBool = AtomicBool::new(false);
static STOPPING: AtomicBool = AtomicBool::new(false);

/// Says that the service takes requests from now on.
pub fn begin() {
    READY.store(true, Ordering::Relaxed);
}

/// Whether the service takes requests and will go on to.
pub fn is_ready() -> bool {
    READY.load(Ordering::Relaxed)
}

/// Whether the service has been told to stop.
pub fn is_stopping() -> bool {
    STOPPING.load(Ordering::Relaxed)
}

/// 503 for what is not done any more.
pub fn problem() -> Problem {
    let says = "The service is stopping. Ask again in a moment.";
    Problem::whole(StatusCode::SERVICE_UNAVAILABLE, says, "the same request in a few seconds")
}

/// How long before open requests are cut off: long answers then end with a line that says so.
const TO_SIGN: Duration = Duration::from_secs(1);

/// Stops the service when it is told to, answering on for the time it drains; the second time it is told it does not
/// wait. Comes to its end only when told a third time, which is to end at once.
pub async fn when_told(mut told: Told, server: ServerHandle, settings: &Settings, workshop: &Workshop) {
    let drain = Duration::from_secs(settings.drain_timeout);
    told.next().await;
    READY.store(false, Ordering::Relaxed);
    STOPPING.store(true, Ordering::Relaxed);
    tracing::info!(seconds = drain.as_secs(), "stopping: /readyz answers 503, requests are still answered");
    tokio::select! {
        () = tokio::time::sleep(drain) => {}
        () = told.next() => {}
    }
    tracing::info!("stopping: no new connections, open requests may finish");
    // Told so at once; what it gives is the end, which the server itself shows.
    let _end = server.stop(true);
    let open = Duration::from_secs(settings.stop_timeout);
    tokio::select! {
        () = tokio::time::sleep(open.saturating_sub(TO_SIGN)) => {
            workshop.close();
            told.next().await;
        }
        () = told.next() => {}
    }
    tracing::info!("stopping: open requests are cut off");
}

/// The signals to stop: SIGTERM and ctrl-c.
#[cfg(unix)]
pub struct Told {
    terminate: tokio::signal::unix::Signal,
    interrupt: tokio::signal::unix::Signal,
}

#[cfg(unix)]
impl Told {
    /// Listens for them from now on.
    pub fn listen() -> io::Result<Self> {
        use tokio::signal::unix::{SignalKind, signal};
        Ok(Self { terminate: signal(SignalKind::terminate())?, interrupt: signal(SignalKind::interrupt())? })
    }

    async fn next(&mut self) {
        tokio::select! {
            _ = self.terminate.recv() => {}
            _ = self.interrupt.recv() => {}
        }
    }
}

/// The signal to stop: ctrl-c.
#[cfg(not(unix))]
pub struct Told;

#[cfg(not(unix))]
impl Told {
    /// Listens for it.
    pub fn listen() -> io::Result<Self> {
        Ok(Self)
    }

    async fn next(&mut self) {
        let _ = tokio::signal::ctrl_c().await;
    }
}
