//! What a request must keep to before it is worked on: the size of its address and headers, a body that is not
//! compressed, how often its caller asks; and the time it may take.

use super::problem::Problem;
use super::rate_limit::RateLimit;
use super::settings::Settings;
use actix_web::body::MessageBody;
use actix_web::dev::{ServiceRequest, ServiceResponse};
use actix_web::error::InternalError;
use actix_web::http::{StatusCode, header};
use actix_web::middleware::Next;
use actix_web::{Error, HttpResponse, web};
use std::time::Duration;

/// Holds a request to the limits.
pub async fn hold(
    request: ServiceRequest,
    next: Next<impl MessageBody + 'static>,
) -> Result<ServiceResponse<impl MessageBody>, Error> {
    let Some(settings) = request.app_data::<web::Data<Settings>>().cloned() else {
        return Ok(request.into_response(Problem::failed().respond()).map_into_right_body());
    };
    if let Some(response) = beyond(&request, &settings) {
        return Ok(request.into_response(response).map_into_right_body());
    }
    let seconds = settings.timeout;
    match tokio::time::timeout(Duration::from_secs(seconds), next.call(request)).await {
        Ok(response) => Ok(response?.map_into_left_body()),
        Err(_) => {
            let says = format!("The request took longer than {seconds} s.");
            let problem = Problem::whole(StatusCode::REQUEST_TIMEOUT, says, "a smaller request, sent in one go");
            Err(InternalError::from_response("timeout", problem.respond()).into())
        }
    }
}

fn beyond(request: &ServiceRequest, settings: &Settings) -> Option<HttpResponse> {
    if let Some(limit) = request.app_data::<web::Data<RateLimit>>()
        && let Some(response) = limit.count(request)
    {
        return Some(response);
    }
    let query = request.query_string().len() + request.path().len();
    if query > settings.query_limit {
        let says = format!("The address is longer than {} bytes; POST the fields as JSON.", settings.query_limit);
        return Some(Problem::whole(StatusCode::URI_TOO_LONG, says, "POST").respond());
    }
    let headers: usize = request.headers().iter().map(|(name, value)| name.as_str().len() + value.len()).sum();
    if headers > settings.header_limit {
        let says = format!("The headers are larger than {} bytes.", settings.header_limit);
        let status = StatusCode::REQUEST_HEADER_FIELDS_TOO_LARGE;
        return Some(Problem::whole(status, says, "fewer headers, or no cookies").respond());
    }
    let mut encodings = request.headers().get_all(header::CONTENT_ENCODING);
    encodings.any(|encoding| !encoding.as_bytes().eq_ignore_ascii_case(b"identity")).then(|| {
        let says = "The service does not read compressed bodies. Send the body as it is, without Content-Encoding.";
        let mut response = Problem::whole(StatusCode::UNSUPPORTED_MEDIA_TYPE, says, "identity").respond();
        response.headers_mut().insert(header::ACCEPT_ENCODING, header::HeaderValue::from_static("identity"));
        response
    })
}
