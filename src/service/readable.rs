//! An address that is only read.

use super::shared_refusals::wrong_method;
use actix_web::dev::Handler;
use actix_web::{FromRequest, HttpRequest, Resource, Responder, web};

/// A resource that is read by GET and HEAD.
pub fn readable<F, Args>(path: &str, handler: F) -> Resource
where
    F: Handler<Args> + Clone,
    Args: FromRequest + 'static,
    F::Output: Responder + 'static,
{
    web::resource(path)
        .route(web::get().to(handler.clone()))
        .route(web::head().to(handler))
        .default_service(web::to(|request: HttpRequest| async move { wrong_method(&request, "GET, HEAD, OPTIONS") }))
}
