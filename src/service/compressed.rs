//! Something that never changes while the service runs, compressed once and then sent as it is.

use super::response::tagged;
use actix_web::http::header::{self, AcceptEncoding, ContentEncoding, Encoding, Header};
use actix_web::{HttpRequest, HttpResponse, web::Bytes};
use std::io::Write;
use std::sync::OnceLock;

/// A file with its compressed forms, each made when it is first asked for.
pub struct Compressed {
    media_type: &'static str,
    plain: Bytes,
    gzip: OnceLock<Bytes>,
    brotli: OnceLock<Bytes>,
}

impl Compressed {
    /// A file of that media type.
    pub fn new(media_type: &'static str, plain: impl Into<Bytes>) -> Self {
        Self { media_type, plain: plain.into(), gzip: OnceLock::new(), brotli: OnceLock::new() }
    }

    /// The response in the best encoding that the caller takes.
    pub fn respond(&self, request: &HttpRequest) -> HttpResponse {
        let offered = [Encoding::brotli(), Encoding::gzip(), Encoding::identity()];
        let taken = match AcceptEncoding::parse(request) {
            Ok(taken) if request.headers().contains_key(header::ACCEPT_ENCODING) => taken.negotiate(offered.iter()),
            _ => None,
        };
        let encoded = match taken {
            Some(Encoding::Known(ContentEncoding::Brotli)) => {
                Some(("br", self.brotli.get_or_init(|| brotli(&self.plain))))
            }
            Some(Encoding::Known(ContentEncoding::Gzip)) => Some(("gzip", self.gzip.get_or_init(|| gzip(&self.plain)))),
            _ => None,
        };
        let mut response = tagged(self.media_type, encoded.map_or(&self.plain, |(_, bytes)| bytes).clone());
        let headers = response.headers_mut();
        headers.insert(header::VARY, header::HeaderValue::from_static("accept-encoding"));
        if let Some((name, _)) = encoded {
            headers.insert(header::CONTENT_ENCODING, header::HeaderValue::from_static(name));
        }
        response
    }
}

fn gzip(plain: &[u8]) -> Bytes {
    let mut encoder = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::default());
    // Writing into memory cannot fail.
    let _ = encoder.write_all(plain);
    encoder.finish().unwrap_or_default().into()
}

fn brotli(plain: &[u8]) -> Bytes {
    let mut out = Vec::new();
    // Nearly as small as with the highest quality, in a hundredth of its time. A window that just holds the whole takes
    // half the memory of the widest for the same bytes.
    let lgwin = (plain.len().max(1).ilog2() as i32 + 1).clamp(10, 22);
    let parameters = brotli::enc::BrotliEncoderParams { quality: 5, lgwin, ..Default::default() };
    let _ = brotli::BrotliCompress(&mut &plain[..], &mut out, &parameters);
    out.into()
}
