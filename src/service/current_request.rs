//! The request that work belongs to, also on another thread: what is logged there carries its id and its trace.

use crate::budget::with_set;
use actix_web::http::header::HeaderValue;
use std::cell::RefCell;
use std::future::poll_fn;
use std::pin::pin;
use std::sync::Arc;
use tracing::Span;

/// What the log calls a request.
#[derive(Debug)]
pub struct Named {
    /// Its id.
    pub id: HeaderValue,
    /// Its trace.
    pub trace: Option<String>,
}

thread_local! {
    static CURRENT: RefCell<Option<Arc<Named>>> = const { RefCell::new(None) };
}

/// The request that is worked on.
pub fn current() -> Option<Arc<Named>> {
    CURRENT.with_borrow(Clone::clone)
}

/// Does `work` for that request.
pub fn work_for<T>(named: Option<Arc<Named>>, work: impl FnOnce() -> T) -> T {
    with_set(&CURRENT, named, work)
}

/// The same for work that waits in between.
pub async fn wait_for<F: Future>(named: Option<Arc<Named>>, future: F) -> F::Output {
    let mut future = pin!(future);
    poll_fn(|context| work_for(named.clone(), || future.as_mut().poll(context))).await
}

/// `work` of the current request, to be done on another thread.
pub fn carried_on<T>(work: impl FnOnce() -> T) -> impl FnOnce() -> T {
    let named = current();
    move || work_for(named, work)
}

/// Lets `log` write of the current request. Only what is written needs a span, so that answers need none.
pub fn in_its_span(log: impl FnOnce()) {
    let Some(named) = current() else { return log() };
    let request_id = named.id.to_str().unwrap_or_default();
    // At this level whatever is logged at all is logged with it.
    let span: Span = tracing::error_span!("request", request_id, trace_id = named.trace.as_deref());
    span.in_scope(log);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(id: &'static str) -> Option<Arc<Named>> {
        Some(Arc::new(Named { id: HeaderValue::from_static(id), trace: None }))
    }

    fn id() -> Option<String> {
        current().map(|named| named.id.to_str().unwrap().to_owned())
    }

    #[test]
    fn work_done_later_is_of_the_request_it_was_made_in() {
        let work = work_for(named("tern-1"), || carried_on(id));
        assert_eq!(id(), None);
        assert_eq!(std::thread::spawn(work).join().unwrap(), Some("tern-1".into()));
    }

    #[test]
    fn requests_that_wait_in_turn_each_have_their_own_name() {
        let one = async || {
            let before = id();
            tokio::task::yield_now().await;
            (before, id())
        };
        let runtime = tokio::runtime::Builder::new_current_thread().build().unwrap();
        let both = runtime.block_on(async { tokio::join!(wait_for(named("a"), one()), wait_for(named("b"), one())) });
        let twice = |id: &str| (Some(id.to_owned()), Some(id.to_owned()));
        assert_eq!(both, (twice("a"), twice("b")));
    }

    #[test]
    fn what_is_logged_of_a_request_is_in_its_span() {
        tracing::subscriber::with_default(tracing_subscriber::registry(), || {
            work_for(named("tern-2"), || in_its_span(|| assert!(Span::current().id().is_some())));
            in_its_span(|| assert!(Span::current().id().is_none()));
        });
    }
}
