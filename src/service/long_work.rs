//! Work that can take long, done on another thread within the time of a request.

use super::problem::Problem;
use super::settings::Settings;
use super::tracing_span::carried_on;
use crate::budget::{Budget, too_much_work};
use actix_web::{HttpResponse, web};
use std::time::Duration;

/// Works on another thread, so that short requests of this thread go on, and within the time of a request.
pub async fn on_another_thread<T: Send + 'static>(
    settings: &Settings,
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, HttpResponse> {
    let time = Duration::from_secs(settings.timeout).mul_f64(0.9);
    let budget = Budget::of(time);
    match tokio::time::timeout(time, web::block(carried_on(move || budget.spend(work)))).await {
        Ok(Ok(done)) => Ok(done),
        Ok(Err(_)) => Err(super::stopping::problem().respond()),
        // One calculation can take long by itself; the work is left to find out that its time is up.
        Err(_) => Err(Problem::refused(too_much_work()).respond()),
    }
}
