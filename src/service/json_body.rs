//! The JSON body of a request: its media type, its bytes up to the limit, and the fields in it and in the address.

use super::problem::Problem;
use super::shared_refusals::{badly_encoded, unreadable};
use crate::fields::Fields;
use actix_web::http::{StatusCode, header};
use actix_web::{HttpRequest, HttpResponse, web};
use bytes::BytesMut;
use futures_util::StreamExt;

/// The media type of a request's body, without its parameters.
pub fn essence(request: &HttpRequest) -> String {
    let media_type = request.headers().get(header::CONTENT_TYPE).and_then(|value| value.to_str().ok()).unwrap_or("");
    media_type.split(';').next().unwrap_or_default().trim().to_ascii_lowercase()
}

/// The bytes of a JSON body.
pub async fn json_bytes(
    request: &HttpRequest,
    mut payload: web::Payload,
    limit: usize,
) -> Result<BytesMut, HttpResponse> {
    let essence = essence(request);
    if essence != "application/json" && !(essence.starts_with("application/") && essence.ends_with("+json")) {
        let says = "The body must be JSON, sent with the header Content-Type: application/json.";
        return Err(Problem::whole(StatusCode::UNSUPPORTED_MEDIA_TYPE, says, "application/json").respond());
    }
    let mut bytes = BytesMut::new();
    while let Some(part) = payload.next().await {
        let Ok(part) = part else { return Err(unreadable("The body ended too early.", None).respond()) };
        if bytes.len() + part.len() > limit {
            let says = format!("The body is larger than {limit} bytes.");
            return Err(
                Problem::whole(StatusCode::PAYLOAD_TOO_LARGE, says, "lines or parts of it by themselves").respond()
            );
        }
        bytes.extend_from_slice(&part);
    }
    Ok(bytes)
}

/// The fields in the bytes of a JSON body.
fn fields_in(bytes: &[u8]) -> Result<Fields<'_>, Problem> {
    serde_json::from_slice(bytes).map_err(|error| {
        let says = format!("The body is not a JSON object of fields: {error}.");
        unreadable(&says, Some(r#"{"diameter": "0.5 in"}"#))
    })
}

/// The fields of the address and, where there is one, of the body.
pub fn stated<'r>(request: &'r HttpRequest, body: Option<&'r [u8]>) -> Result<Fields<'r>, Problem> {
    let mut fields = Fields::of_query(request.query_string()).ok_or_else(badly_encoded)?;
    if let Some(body) = body {
        fields.0.extend(fields_in(body)?.0);
    }
    Ok(fields)
}
