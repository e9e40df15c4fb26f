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
