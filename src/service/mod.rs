//! HTTP: routes, forms of the answer, the published description, limits, logs. The only place that
//! knows it.

mod aside;
mod ask;
mod batch;
mod catalogue;
mod compressed;
mod docs;
mod flow;
mod json_body;
mod json_items;
mod metrics;
mod middleware;
pub mod openapi;
mod pages;
mod practice;
pub mod problem;
mod readable;
mod recheck;
mod records;
#[cfg(test)]
mod records_tests;
mod response;
mod rows;
mod settings;
mod shared_refusals;
mod tables;
mod verification;

pub use settings::Settings;

use actix_cors::Cors;
use actix_web::dev::Server;
use actix_web::http::{StatusCode, header};
use actix_web::middleware::{Compress, Condition, from_fn};
use actix_web::{App, HttpResponse, HttpServer, web};
use readable::readable;
use response::{JSON, json, tagged};
use std::io;
use std::net::TcpListener;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

static READY: AtomicBool = AtomicBool::new(false);

/// Every route but the calculators' own, with its methods: what the description must hold.
fn routes(config: &mut web::ServiceConfig) {
    config
        .configure(pages::routes)
        .service(readable("/healthz", || async { json("{\"status\":\"ok\"}") }))
        .service(readable("/readyz", ready))
        .service(readable("/openapi.json", openapi::published::whole))
        .service(readable("/openapi", openapi::published::list))
        .service(readable("/openapi/{part}.json", openapi::published::one))
        .service(readable("/v1/calculators", || async { json(catalogue::catalogue()) }))
        .service(readable("/v1/verification", verification::all))
        .service(readable("/v1/verification/{topic}/{calculator}", verification::one))
        .service(readable("/v1/tables", || async { tagged(JSON, tables::list().to_string().into_bytes()) }))
        .service(readable("/v1/tables/{name}", tables::answer))
        .service(readable("/metrics", || async {
            HttpResponse::Ok()
                .content_type("text/plain; version=0.0.4; charset=utf-8")
                .insert_header((header::CACHE_CONTROL, "no-store"))
                .body(metrics::text())
        }))
        .service(readable("/docs", docs::to_folder))
        .service(readable("/docs/", docs::overview))
        .service(readable("/docs/{part}", docs::one))
        .service(web::resource("/v1/batch").to(|request, payload| json_items::answer(request, payload, batch::answer)))
        .service(
            web::resource("/v1/recheck").to(|request, payload| json_items::answer(request, payload, recheck::answer)),
        )
        .service(readable("/v1/practice", practice::questions))
        .service(web::resource("/v1/practice/check").to(practice::check))
        .service(readable("/practice", practice::person))
        .service(readable("/practice/sheet", practice::sheet))
        .service(readable("/practice/answers", practice::answers))
        .service(web::resource("/v1/{topic}/{calculator}").to(ask::answer))
        .service(readable("/{topic}/{calculator}", pages::form))
        .default_service(web::to(shared_refusals::not_found));
}

async fn ready() -> HttpResponse {
    if READY.load(Ordering::Relaxed) {
        json("{\"status\":\"ready\"}")
    } else {
        problem::Problem::new(StatusCode::SERVICE_UNAVAILABLE, "The service is stopping.", Vec::new()).respond()
    }
}

/// Which pages from elsewhere may ask: none unless told.
fn cors(settings: &Settings) -> Cors {
    let cors = Cors::default()
        .allowed_methods(["GET", "HEAD", "POST"])
        .allowed_headers([header::CONTENT_TYPE, header::ACCEPT, header::IF_NONE_MATCH])
        .expose_headers([header::ETAG])
        .max_age(3600);
    let any = settings.allow_origin.iter().any(|origin| origin == "*");
    if any {
        cors.allow_any_origin().send_wildcard()
    } else {
        settings.allow_origin.iter().fold(cors, |cors, origin| cors.allowed_origin(origin))
    }
}

/// The service, bound to `listener`, and running once awaited.
pub fn serve(listener: TcpListener, settings: Settings) -> io::Result<Server> {
    metrics::install();
    let workers = match settings.workers {
        0 => std::thread::available_parallelism().map_or(1, usize::from),
        workers => workers,
    };
    let (timeout, stop_timeout) = (settings.timeout, settings.stop_timeout);
    // Every connection has it from the listener: the system cuts those whose other end takes nothing.
    #[cfg(target_os = "linux")]
    socket2::SockRef::from(&listener).set_tcp_user_timeout(Some(Duration::from_secs(settings.reader_timeout)))?;
    let workshop = web::Data::new(aside::Workshop::open(&settings)?);
    let data = web::Data::new(settings);
    let server = HttpServer::new(move || {
        App::new()
            .app_data(data.clone())
            .app_data(workshop.clone())
            .wrap(Compress::default())
            .wrap(Condition::new(!data.allow_origin.is_empty(), cors(&data)))
            .wrap(from_fn(middleware::wrap))
            .configure(routes)
    })
    .workers(workers)
    // What is left to these threads is to compress.
    .worker_max_blocking_threads(std::thread::available_parallelism().map_or(1, usize::from))
    // A caller that closes its side has gone, and work for it ends.
    .h1_allow_half_closed(false)
    .client_request_timeout(Duration::from_secs(timeout))
    .keep_alive(Duration::from_secs(75))
    .shutdown_timeout(stop_timeout)
    .disable_signals()
    .listen(listener)?
    .run();
    READY.store(true, Ordering::Relaxed);
    Ok(server)
}

/// Runs until the process is told to stop, then lets open requests finish.
pub async fn run(listener: TcpListener, settings: Settings) -> io::Result<()> {
    let server = serve(listener, settings)?;
    let handle = server.handle();
    actix_web::rt::spawn(metrics::keep_small());
    actix_web::rt::spawn(async move {
        told_to_stop().await;
        READY.store(false, Ordering::Relaxed);
        tracing::info!("stopping: open requests may finish");
        handle.stop(true).await;
    });
    server.await
}

#[cfg(unix)]
async fn told_to_stop() {
    use tokio::signal::unix::{SignalKind, signal};
    let Ok(mut terminate) = signal(SignalKind::terminate()) else {
        let _ = tokio::signal::ctrl_c().await;
        return;
    };
    tokio::select! {
        _ = terminate.recv() => {}
        _ = tokio::signal::ctrl_c() => {}
    }
}

#[cfg(not(unix))]
async fn told_to_stop() {
    let _ = tokio::signal::ctrl_c().await;
}
