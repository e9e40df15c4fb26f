//! `/docs`: the published description to read and try in a browser, from files inside the binary, so
//! that it needs no internet.

use super::problem::Problem;
use super::response::tagged;
use actix_web::http::{StatusCode, header};
use actix_web::{HttpResponse, web};
use std::sync::{Arc, LazyLock};
use utoipa_swagger_ui::{Config, serve};

static CONFIG: LazyLock<Arc<Config<'static>>> = LazyLock::new(|| Arc::new(Config::from("/openapi.json")));

/// `/docs` without its stroke, from which relative links would go astray.
pub async fn to_folder() -> HttpResponse {
    HttpResponse::PermanentRedirect().insert_header((header::LOCATION, "/docs/")).finish()
}

/// A file of the reference.
pub async fn file(path: web::Path<String>) -> HttpResponse {
    match serve(&path.into_inner(), CONFIG.clone()) {
        Ok(Some(file)) => {
            let mut response = tagged(&file.content_type, file.bytes.into_owned());
            let policy = "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; \
                          frame-ancestors 'none'; base-uri 'none'";
            let headers = response.headers_mut();
            headers.insert(header::CONTENT_SECURITY_POLICY, header::HeaderValue::from_static(policy));
            response
        }
        _ => Problem::whole(StatusCode::NOT_FOUND, "There is no such file in the reference.", "/docs/").respond(),
    }
}
