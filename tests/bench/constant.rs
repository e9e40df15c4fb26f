//! The benchmark's counterpart: one bare route on the same framework that sends the same bytes each
//! time. `constant FILE PORT` sends the contents of FILE.

use actix_web::{App, HttpResponse, HttpServer, web};

#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

#[actix_web::main]
async fn main() -> std::io::Result<()> {
    let mut arguments = std::env::args().skip(1);
    let file = arguments.next().ok_or_else(|| std::io::Error::other("constant FILE PORT"))?;
    let port: u16 = arguments.next().and_then(|port| port.parse().ok()).unwrap_or(8081);
    let body = web::Bytes::from(std::fs::read(file)?);
    HttpServer::new(move || {
        let body = body.clone();
        App::new().default_service(web::to(move || {
            let body = body.clone();
            async move { HttpResponse::Ok().content_type("application/json").body(body) }
        }))
    })
    .workers(std::thread::available_parallelism().map_or(1, usize::from))
    .bind(("127.0.0.1", port))?
    .run()
    .await
}
