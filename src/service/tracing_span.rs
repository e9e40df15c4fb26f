//! The request that work belongs to, also on another thread: what is logged there carries its id and its trace.

use tracing::Span;

/// The span of a request.
pub fn of_request(request_id: &str, trace_id: Option<&str>) -> Span {
    // At this level whatever is logged at all is logged with it.
    tracing::error_span!("request", request_id, trace_id)
}

/// `work` of the current request, to be done on another thread.
pub fn carried_on<T>(work: impl FnOnce() -> T) -> impl FnOnce() -> T {
    let span = Span::current();
    move || span.in_scope(work)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn work_done_later_is_in_the_span_it_was_made_in() {
        tracing::subscriber::with_default(tracing_subscriber::registry(), || {
            let span = of_request("tern-1", None);
            let work = span.in_scope(|| carried_on(|| Span::current().id()));
            assert!(span.id().is_some() && Span::current().id().is_none());
            assert_eq!(work(), span.id());
        });
    }
}
