//! How long the work of one request may go on: until its time is up, or until it is given up because
//! the caller has gone or the service stops. Every loop that can take long asks [`go_on`].

use crate::refusal::{Code, Refusal, Wrong};
use std::cell::RefCell;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::thread::LocalKey;
use std::time::{Duration, Instant};

/// How long one of many requests sent together may work.
pub const ONE_OF_MANY: Duration = Duration::from_secs(2);

thread_local! {
    // Asking runs from start to end on one thread.
    static CURRENT: RefCell<Option<Budget>> = const { RefCell::new(None) };
}

/// The time of one request.
#[derive(Clone, Debug)]
pub struct Budget {
    until: Instant,
    /// The end of what it is a part of.
    most: Instant,
    /// Whether it begins only now, so that the clock need not be looked at.
    is_fresh: bool,
    /// Time of the processor that the thread may take beyond `until`.
    beyond: Option<Duration>,
    whole: Arc<Whole>,
    /// Set where a part ran out; the whole has its own.
    part: Option<Arc<AtomicBool>>,
}

/// What a budget and its parts have in common.
#[derive(Debug, Default)]
struct Whole {
    given_up: AtomicBool,
    ran_out: AtomicBool,
    /// What the thread had taken of the processor when `until` was there.
    taken: AtomicU64,
}

impl Budget {
    /// A budget of so much time from now.
    pub fn of(time: Duration) -> Self {
        let until = Instant::now() + time;
        Self { until, most: until, is_fresh: false, beyond: None, whole: Arc::default(), part: None }
    }

    /// A budget of so much work by one thread: where other threads kept it from working meanwhile, it has so much again.
    pub fn of_work(time: Duration) -> Self {
        Self { beyond: Some(time), ..Self::of(time) }
    }

    /// A part of this budget: at most so much time from now, and given up with the whole.
    pub fn part(&self, time: Duration) -> Self {
        let until = self.until.min(Instant::now() + time);
        Self { until, most: self.until, part: Some(Arc::default()), ..self.clone() }
    }

    /// Gives the work up: it ends at its next look.
    pub fn give_up(&self) {
        self.whole.given_up.store(true, Ordering::Relaxed);
    }

    /// Whether the work was given up or its time is up.
    pub fn is_spent(&self) -> bool {
        self.is_given_up() || (Instant::now() > self.until && self.has_worked_beyond())
    }

    fn is_given_up(&self) -> bool {
        self.whole.given_up.load(Ordering::Relaxed)
    }

    fn has_worked_beyond(&self) -> bool {
        let Some(time) = self.beyond else { return true };
        let Some(now) = time_of_thread() else { return true };
        match self.whole.taken.load(Ordering::Relaxed) {
            0 => {
                self.whole.taken.store(now.max(1), Ordering::Relaxed);
                false
            }
            taken => Duration::from_nanos(now.saturating_sub(taken)) > time,
        }
    }

    /// Whether work within this budget was refused because the budget was spent.
    pub fn ran_out(&self) -> bool {
        self.own().load(Ordering::Relaxed)
    }

    /// Where it is written that this very budget ran out.
    fn own(&self) -> &AtomicBool {
        self.part.as_deref().unwrap_or(&self.whole.ran_out)
    }

    /// Runs `work` within this budget.
    pub fn spend<T>(&self, work: impl FnOnce() -> T) -> T {
        with_set(&CURRENT, Some(self.clone()), work)
    }
}

/// Runs `work` with a value set for its thread. What stood there is put back, also where the work panics, since threads
/// are used again.
pub fn with_set<V, T>(place: &'static LocalKey<RefCell<Option<V>>>, value: Option<V>, work: impl FnOnce() -> T) -> T {
    struct Before<V: 'static>(&'static LocalKey<RefCell<Option<V>>>, Option<V>);
    impl<V> Drop for Before<V> {
        fn drop(&mut self) {
            self.0.set(self.1.take());
        }
    }
    let _before = Before(place, place.replace(value));
    work()
}

/// Nanoseconds that the processor has worked for this thread, where the system tells.
#[cfg(unix)]
fn time_of_thread() -> Option<u64> {
    let time = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
    u64::try_from(Duration::try_from(time).ok()?.as_nanos()).ok()
}

#[cfg(not(unix))]
fn time_of_thread() -> Option<u64> {
    None
}

/// Runs `work` within a part of the current budget, as one of many items sent together, which must not
/// hold up the others for long; within `time` alone where no budget is set.
pub fn spend_part<T>(time: Duration, work: impl FnOnce() -> T) -> T {
    let part = CURRENT.with_borrow(|current| current.as_ref().map(|whole| whole.part(time)));
    part.unwrap_or_else(|| Budget::of(time)).spend(work)
}

/// Within such a part, begins the next of many as short as it, without the cost of another part; gives the time.
pub fn begin_next(time: Duration) -> Instant {
    let now = Instant::now();
    CURRENT.with_borrow_mut(|current| {
        if let Some(budget) = current {
            budget.until = budget.most.min(now + time);
            budget.is_fresh = now <= budget.until;
        }
    });
    now
}

/// Refuses to work on where the budget is spent. Without a budget, as in most tests, work goes on.
pub fn go_on() -> Result<(), Refusal> {
    CURRENT.with_borrow_mut(|current| match current {
        Some(budget) => {
            let is_fresh = std::mem::take(&mut budget.is_fresh) && !budget.is_given_up();
            if is_fresh || !budget.is_spent() {
                return Ok(());
            }
            budget.own().store(true, Ordering::Relaxed);
            Err(too_much_work())
        }
        None => Ok(()),
    })
}

/// The refusal of a request whose time is up.
pub fn too_much_work() -> Refusal {
    let says =
        "This takes longer than a request may. Ask for fewer rows or points, a wider step, or one thing at a time.";
    Refusal::one(Wrong { field: String::new(), code: Code::TooMuchWork, says: says.into(), try_this: None })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_of_many_has_its_own_time_and_all_have_that_of_the_whole() {
        let (nothing, much) = (Duration::ZERO, Duration::from_secs(60));
        let pause = || std::thread::sleep(Duration::from_millis(1));
        Budget::of(much).spend(|| {
            spend_part(nothing, || {
                pause();
                assert!(go_on().is_err(), "the first has no time left");
                begin_next(much);
                assert!(go_on().is_ok(), "the next has its own");
            });
        });
        Budget::of(nothing).spend(|| {
            pause();
            spend_part(much, || {
                begin_next(much);
                assert!(go_on().is_err(), "the whole has none left");
            });
        });
    }

    #[test]
    fn work_stops_when_its_time_is_up_and_only_then() {
        let spent = Budget::of(Duration::ZERO);
        std::thread::sleep(Duration::from_millis(1));
        assert!(!spent.ran_out(), "nobody has asked yet");
        assert_eq!(spent.spend(go_on).unwrap_err().0[0].code, Code::TooMuchWork);
        assert!(spent.ran_out());
        assert!(Budget::of(Duration::from_secs(60)).spend(go_on).is_ok());
        assert!(go_on().is_ok(), "the time of one request is not the next one's");
    }

    #[test]
    #[cfg(unix)]
    fn a_budget_of_work_does_not_count_the_time_that_others_had() {
        let budget = Budget::of_work(Duration::from_millis(1));
        std::thread::sleep(Duration::from_millis(5));
        assert!(budget.spend(go_on).is_ok(), "the thread slept and did nothing");
        // Ends only if what is worked is counted.
        budget.spend(|| while go_on().is_ok() {});
        assert!(budget.ran_out());
    }

    #[test]
    fn work_given_up_stops_with_all_its_parts() {
        let whole = Budget::of(Duration::from_secs(60));
        let part = whole.part(Duration::from_secs(60));
        assert!(part.spend(go_on).is_ok());
        whole.give_up();
        assert!(part.spend(go_on).is_err());
        assert!(!whole.ran_out(), "only the part was refused");
    }

    #[test]
    fn a_part_has_no_more_time_than_the_whole() {
        let whole = Budget::of(Duration::ZERO);
        std::thread::sleep(Duration::from_millis(1));
        assert!(whole.spend(|| spend_part(Duration::from_secs(60), go_on)).is_err());
        assert!(spend_part(Duration::from_secs(60), go_on).is_ok());
    }
}
