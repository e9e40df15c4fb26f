//! HTTP: routes, forms of the answer, the published description, limits, logs. The only place that
//! knows it.

mod aside;
mod ask;
mod batch;
mod catalogue;
mod compressed;
mod current_request;
mod docs;
mod flow;
#[cfg(test)]
mod flow_tests;
mod json_body;
mod json_items;
mod limits;
mod metrics;
mod middleware;
pub mod openapi;
mod pages;
mod practice;
pub mod problem;
mod problem_page;
mod rate_limit;
mod readable;
mod recheck;
mod records;
#[cfg(test)]
mod records_tests;
mod response;
mod rows;
mod settings;
mod shared_refusals;
mod stopping;
mod tables;
mod trace_context;
mod verification;

pub use current_request::in_its_span;
pub use settings::Settings;

use crate::reference::versions;
use actix_cors::Cors;
use actix_web::dev::Server;
use actix_web::http::header;
use actix_web::middleware::{Compress, Condition, from_fn};
use actix_web::{App, HttpResponse, HttpServer, web};
use aside::Workshop;
use rate_limit::RateLimit;
use readable::readable;
use response::{JSON, json, tagged};
use std::future::{Future, poll_fn};
use std::io;
use std::net::TcpListener;
use std::pin::pin;
use std::task::Poll;
use std::time::Duration;

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
        .service(
            web::resource("/v1/batch")
                .to(|request, settings, payload| json_items::answer(request, settings, payload, batch::answering)),
        )
        .service(
            web::resource("/v1/recheck")
                .to(|request, settings, payload| json_items::answer(request, settings, payload, recheck::answering)),
        )
        .service(readable("/v1/practice", practice::questions))
        .service(readable("/v1/practice/course", practice::course_listed))
        .service(web::resource("/v1/practice/check").to(practice::check))
        .service(readable("/practice", practice::person))
        .service(readable("/practice/sheet", practice::sheet))
        .service(readable("/practice/answers", practice::answers))
        .service(web::resource("/v1/{topic}/{calculator}").to(ask::by_the_router))
        // A program that leaves out the topic is not sent a page.
        .service(web::resource("/v1/{anything}").to(shared_refusals::not_found))
        .service(readable("/{topic}/{calculator}", pages::form))
        .default_service(web::to(shared_refusals::not_found));
}

async fn ready() -> HttpResponse {
    if stopping::is_ready() { json("{\"status\":\"ready\"}") } else { stopping::problem().respond() }
}

/// Which pages from elsewhere may ask: none unless told.
fn cors(settings: &Settings) -> Cors {
    let cors = Cors::default()
        .allowed_methods(["GET", "HEAD", "POST"])
        .allowed_headers([header::CONTENT_TYPE, header::ACCEPT, header::IF_NONE_MATCH])
        .expose_headers([header::ETAG, header::RETRY_AFTER])
        .max_age(3600);
    let any = settings.allow_origin.iter().any(|origin| origin == "*");
    if any {
        cors.allow_any_origin().send_wildcard()
    } else {
        settings.allow_origin.iter().fold(cors, |cors, origin| cors.allowed_origin(origin))
    }
}

/// The service, bound to `listener`, and running once awaited.
fn serve(listener: TcpListener, settings: web::Data<Settings>, workshop: web::Data<Workshop>) -> io::Result<Server> {
    let workers = match settings.workers {
        0 => std::thread::available_parallelism().map_or(1, usize::from),
        workers => workers,
    };
    let (timeout, stop_timeout) = (settings.timeout, settings.stop_timeout);
    // Every connection has it from the listener: the system cuts those whose other end takes nothing.
    #[cfg(target_os = "linux")]
    socket2::SockRef::from(&listener).set_tcp_user_timeout(Some(Duration::from_secs(settings.reader_timeout)))?;
    let rate_limit = RateLimit::of(&settings).map(web::Data::new);
    if let Some(limit) = rate_limit.clone() {
        actix_web::rt::spawn(async move { limit.forget().await });
    }
    let server = HttpServer::new(move || {
        App::new()
            .app_data(settings.clone())
            .app_data(workshop.clone())
            .configure(|config| {
                rate_limit.iter().for_each(|limit| {
                    config.app_data(limit.clone());
                })
            })
            .wrap(from_fn(ask::before_the_router))
            .wrap(from_fn(limits::hold))
            .wrap(from_fn(problem_page::show))
            .wrap(Compress::default())
            .wrap(Condition::new(!settings.allow_origin.is_empty(), cors(&settings)))
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
    // The end of a stream is sent at once, not when the caller has said that it has all before it.
    .tcp_nodelay(true)
    .shutdown_timeout(stop_timeout)
    .disable_signals()
    .on_connect(|_, connection| {
        connection.insert(metrics::connection());
    })
    .listen(listener)?
    .run();
    Ok(server)
}

/// Runs until the process is told to stop, then lets open requests finish. Calls `answers` once requests are answered.
pub async fn run(listener: TcpListener, settings: Settings, answers: impl FnOnce()) -> io::Result<()> {
    // Both take a while, which need not hold up the rest; who needs one before it is made waits for it.
    for prepare in [metrics::install as fn(), versions::prepare] {
        std::thread::spawn(prepare);
    }
    let settings = web::Data::new(settings);
    let workshop = web::Data::new(Workshop::open(&settings)?);
    let mut server = pin!(serve(listener, settings.clone(), workshop.clone())?);
    let (told, handle) = (stopping::Told::listen()?, server.handle());
    // Asked for the first time, the server starts its workers and waits until each can answer.
    if let Poll::Ready(ended) = poll_fn(|context| Poll::Ready(server.as_mut().poll(context))).await {
        return ended;
    }
    stopping::begin();
    answers();
    tokio::select! {
        ended = server => ended,
        () = stopping::when_told(told, handle, &settings, &workshop) => Ok(()),
    }
}
