//! The trace that a request belongs to, from the header `traceparent` of W3C Trace Context. It goes into the log, so
//! that the lines of several services can be put together; an answer does not carry it, since the standard has a
//! header for requests alone.

use actix_web::http::header::HeaderMap;

/// The trace's id; nothing where there is no header, or one that is not valid, or several.
pub fn trace_id(headers: &HeaderMap) -> Option<&str> {
    let mut given = headers.get_all("traceparent");
    let (one, None) = (given.next()?.to_str().ok()?, given.next()) else { return None };
    read(one)
}

fn read(text: &str) -> Option<&str> {
    let mut parts = text.split('-');
    let mut hex = |length: usize| {
        let is_hex =
            |part: &&str| part.len() == length && part.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f'));
        parts.next().filter(is_hex)
    };
    let (version, trace, parent, _flags) = (hex(2)?, hex(32)?, hex(16)?, hex(2)?);
    let is_zero = |part: &str| part.bytes().all(|byte| byte == b'0');
    // A later version may have more parts; version 00 has these.
    let is_whole = version != "00" || parts.next().is_none();
    (version != "ff" && is_whole && !is_zero(trace) && !is_zero(parent)).then_some(trace)
}

#[cfg(test)]
mod tests {
    use super::read;

    const TRACE: &str = "0af7651916cd43dd8448eb211c80319c";

    #[test]
    fn a_valid_header_gives_its_trace() {
        for header in [
            "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01",
            "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-00",
            "01-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01-more",
        ] {
            assert_eq!(read(header), Some(TRACE), "{header}");
        }
    }

    #[test]
    fn an_invalid_header_gives_none() {
        for header in [
            "",
            "00",
            "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331",
            "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01-more",
            "ff-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01",
            "00-0AF7651916CD43DD8448EB211C80319C-b7ad6b7169203331-01",
            "00-00000000000000000000000000000000-b7ad6b7169203331-01",
            "00-0af7651916cd43dd8448eb211c80319c-0000000000000000-01",
            "00-0af7651916cd43dd8448eb211c80319-b7ad6b7169203331-01",
        ] {
            assert_eq!(read(header), None, "{header}");
        }
    }
}
