//! Long work, done aside from the threads that serve: a few threads take turns between
//! the requests that have work waiting, so that nobody's work holds up everybody else's.

use super::current_request::carried_on;
use super::metrics;
use super::problem::Problem;
use super::settings::Settings;
use crate::budget::{Budget, too_much_work};
use crate::refusal::{Code, Refusal, Wrong};
use actix_web::{HttpRequest, HttpResponse, web};
use std::collections::VecDeque;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;
use tokio::sync::oneshot;

/// How long a request is worked on by the thread it came in on before it begins again aside.
const AT_ONCE: Duration = Duration::from_millis(1);

/// How much longer than its budget work may take to notice that the budget is spent.
const TO_NOTICE: Duration = Duration::from_secs(1);

type Job = Box<dyn FnOnce() + Send>;

/// The threads for long work, and the requests that wait for them.
pub struct Workshop {
    shared: Arc<Shared>,
    /// How many requests of each kind may have long work at once.
    most: usize,
}

struct Shared {
    queue: Mutex<Queue>,
    work_there: Condvar,
}

#[derive(Default)]
struct Queue {
    /// The requests that have jobs waiting, in the order of their turns.
    turns: VecDeque<(u64, VecDeque<Job>)>,
    /// How many requests of each kind there are, whether they have jobs waiting or not.
    inside: [usize; 2],
    /// How many jobs wait, and how many are being worked on.
    waiting: usize,
    working: usize,
    next_number: u64,
    closed: bool,
}

/// What a request's long work is for. Each kind has its own places: readers that leave their streams lying keep nobody
/// from an answer.
#[derive(Clone, Copy, Debug)]
pub enum Wanted {
    /// One answer, which is there when its work is done.
    Answer,
    /// A stream, which lasts as long as its reader reads.
    Stream,
}

/// Why work was not done.
#[derive(Debug)]
pub enum Undone {
    /// It could not begin in time.
    Late,
    /// It failed by a fault of its own.
    Failed,
    /// The service stops.
    Stopping,
}

impl Shared {
    fn queue(&self) -> MutexGuard<'_, Queue> {
        self.queue.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn add(&self, number: u64, job: Job) -> Result<(), Undone> {
        let mut queue = self.queue();
        if queue.closed {
            return Err(Undone::Stopping);
        }
        queue.add(number, job);
        drop(queue);
        self.work_there.notify_one();
        Ok(())
    }

    fn work(&self) {
        loop {
            let mut queue = self.queue();
            let job = loop {
                if let Some(job) = queue.next() {
                    break job;
                }
                if queue.closed {
                    return;
                }
                queue = self.work_there.wait(queue).unwrap_or_else(PoisonError::into_inner);
            };
            drop(queue);
            job();
            let mut queue = self.queue();
            queue.working -= 1;
            queue.tell();
        }
    }
}

impl Queue {
    fn add(&mut self, number: u64, job: Job) {
        self.waiting += 1;
        match self.turns.iter_mut().find(|(known, _)| *known == number) {
            Some((_, jobs)) => jobs.push_back(job),
            None => self.turns.push_back((number, VecDeque::from([job]))),
        }
        self.tell();
    }

    /// One job of the request whose turn it is; the request's next has to wait for the others.
    fn next(&mut self) -> Option<Job> {
        let (number, mut jobs) = self.turns.pop_front()?;
        let job = jobs.pop_front();
        if !jobs.is_empty() {
            self.turns.push_back((number, jobs));
        }
        self.waiting -= 1;
        self.working += 1;
        self.tell();
        job
    }

    fn tell(&self) {
        metrics::aside(self.waiting, self.working);
    }
}

impl Workshop {
    /// A workshop with its threads.
    pub fn open(settings: &Settings) -> std::io::Result<Self> {
        let shared = Arc::new(Shared { queue: Mutex::default(), work_there: Condvar::new() });
        // Twice the cores: a few very long requests leave room for the shorter ones.
        let threads = 2 * std::thread::available_parallelism().map_or(1, usize::from);
        for number in 0..threads {
            let shared = shared.clone();
            std::thread::Builder::new().name(format!("aside-{number}")).spawn(move || shared.work())?;
        }
        Ok(Self { shared, most: settings.long_requests })
    }

    /// A place for one request's long work; refused where all are taken.
    pub fn enter(&self, wanted: Wanted) -> Result<Place, Problem> {
        let mut queue = self.shared.queue();
        if queue.inside[wanted as usize] >= self.most || queue.closed {
            return Err(busy());
        }
        queue.inside[wanted as usize] += 1;
        queue.next_number += 1;
        let place = Place { shared: self.shared.clone(), wanted, number: queue.next_number };
        drop(queue);
        Ok(place)
    }

    /// Takes no more work, and drops what waits.
    pub fn close(&self) {
        let mut queue = self.shared.queue();
        queue.closed = true;
        let dropped = std::mem::take(&mut queue.turns);
        queue.waiting = 0;
        drop(queue);
        drop(dropped);
        self.shared.work_there.notify_all();
    }
}

impl Drop for Workshop {
    fn drop(&mut self) {
        self.close();
    }
}

/// One request's place among those that have long work.
pub struct Place {
    shared: Arc<Shared>,
    wanted: Wanted,
    number: u64,
}

impl Drop for Place {
    fn drop(&mut self) {
        self.shared.queue().inside[self.wanted as usize] -= 1;
    }
}

/// Gives work up when nobody waits for it any more.
struct WhileWanted(Budget);

impl Drop for WhileWanted {
    fn drop(&mut self) {
        self.0.give_up();
    }
}

impl Place {
    /// Does `work` when this request's turn comes, within `budget`. It ends when nobody waits for it.
    pub async fn work<T: Send + 'static>(
        &self,
        budget: Budget,
        work: impl FnOnce() -> T + Send + 'static,
    ) -> Result<T, Undone> {
        let (done, wait) = oneshot::channel();
        let wanted = WhileWanted(budget.clone());
        let job = carried_on(move || {
            if done.is_closed() {
                return;
            }
            let outcome = match budget.is_spent() {
                true => Err(Undone::Late),
                false => catch_unwind(AssertUnwindSafe(|| budget.spend(work))).map_err(|_| Undone::Failed),
            };
            let _ = done.send(outcome);
        });
        self.shared.add(self.number, Box::new(job))?;
        let outcome = wait.await.unwrap_or(Err(Undone::Stopping));
        drop(wanted);
        outcome
    }
}

/// A place for a request that is answered by a stream.
pub fn enter(request: &HttpRequest) -> Result<Place, Problem> {
    match request.app_data::<web::Data<Workshop>>() {
        Some(workshop) => workshop.enter(Wanted::Stream),
        None => Err(undone(Undone::Failed)),
    }
}

/// Does the work of one request: `here`, on the thread it came in on, or, where that turns out to take
/// long, begun again aside, by what `again` makes of the request.
pub async fn work<T, W>(
    request: &HttpRequest,
    here: impl FnOnce() -> T,
    again: impl FnOnce() -> W,
) -> Result<T, HttpResponse>
where
    T: Send + 'static,
    W: FnOnce() -> T + Send + 'static,
{
    let at_once = Budget::of_work(AT_ONCE);
    let done = at_once.spend(here);
    if !at_once.ran_out() {
        return Ok(done);
    }
    drop(done);
    let work = again();
    aside(request, work).await
}

/// Does work that is known to be long aside, within the time of a request.
async fn aside<T: Send + 'static>(
    request: &HttpRequest,
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, HttpResponse> {
    let (Some(workshop), Some(settings)) =
        (request.app_data::<web::Data<Workshop>>(), request.app_data::<web::Data<Settings>>())
    else {
        return Err(undone(Undone::Failed).respond());
    };
    let place = workshop.enter(Wanted::Answer).map_err(|problem| problem.respond())?;
    let time = Duration::from_secs(settings.timeout).mul_f64(0.9);
    match tokio::time::timeout(time + TO_NOTICE.min(time / 20), place.work(Budget::of(time), work)).await {
        Ok(outcome) => outcome.map_err(|why| undone(why).respond()),
        Err(_) => Err(Problem::refused(too_much_work()).respond()),
    }
}

/// 503 for a request that found no place.
fn busy() -> Problem {
    refused("The service has too much work right now.")
}

/// The problem of a request whose work was not done.
fn undone(why: Undone) -> Problem {
    match why {
        Undone::Late => busy(),
        Undone::Stopping => refused("The service is stopping."),
        Undone::Failed => Problem::failed(),
    }
}

fn refused(says: &str) -> Problem {
    let try_this = Some("the same request again, a little later".to_owned());
    Problem::refused(Refusal::one(Wrong { field: String::new(), code: Code::Busy, says: says.into(), try_this }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::budget::go_on;
    use actix_web::http::{StatusCode, header};
    use clap::Parser;
    use std::sync::mpsc;

    const AN_HOUR: Duration = Duration::from_secs(3600);

    fn workshop(arguments: &[&str]) -> Workshop {
        let settings = Settings::parse_from(["shop-reckoner"].iter().chain(arguments));
        Workshop::open(&settings).expect("threads")
    }

    fn run<T>(what: impl Future<Output = T>) -> T {
        actix_web::rt::System::new().block_on(what)
    }

    #[test]
    fn requests_take_turns() {
        let (said, heard) = mpsc::channel();
        let job = |name: &'static str| -> Job {
            let said = said.clone();
            Box::new(move || said.send(name).expect("somebody listens"))
        };
        let mut queue = Queue::default();
        for (number, name) in [(1, "first of 1"), (1, "second of 1"), (1, "third of 1"), (2, "first of 2")] {
            queue.add(number, job(name));
        }
        while let Some(job) = queue.next() {
            job();
        }
        let order: Vec<&str> = heard.try_iter().collect();
        assert_eq!(order, ["first of 1", "first of 2", "second of 1", "third of 1"]);
    }

    #[test]
    fn work_ends_when_nobody_waits_for_it() {
        let (said, heard) = mpsc::channel();
        run(async {
            let workshop = workshop(&[]);
            let place = workshop.enter(Wanted::Answer).expect("a place");
            let begun = said.clone();
            let work = move || {
                begun.send("begun").expect("somebody listens");
                while go_on().is_ok() {}
                said.send("ended").expect("somebody listens");
            };
            let waited = tokio::time::timeout(Duration::from_millis(50), place.work(Budget::of(AN_HOUR), work)).await;
            assert!(waited.is_err(), "the work is still going on");
        });
        // Without a limit: were the work not given up, this would wait for an hour.
        assert_eq!([heard.recv().expect("word"), heard.recv().expect("word")], ["begun", "ended"]);
    }

    #[test]
    fn there_are_only_so_many_places() {
        let workshop = workshop(&["--long-requests", "2"]);
        let places = [(); 2].map(|()| workshop.enter(Wanted::Stream).expect("a place"));
        let refused = workshop.enter(Wanted::Stream).err().expect("a refusal").respond();
        assert_eq!(refused.status(), StatusCode::SERVICE_UNAVAILABLE);
        assert!(refused.headers().contains_key(header::RETRY_AFTER));
        assert!(workshop.enter(Wanted::Answer).is_ok(), "streams take no place from answers");
        drop(places);
        assert!(workshop.enter(Wanted::Stream).is_ok());
    }

    #[test]
    fn work_that_fails_or_comes_too_late_says_so() {
        run(async {
            let workshop = workshop(&[]);
            let place = workshop.enter(Wanted::Answer).expect("a place");
            let failed = place.work(Budget::of(AN_HOUR), || panic!("a fault, made on purpose")).await;
            assert!(matches!(failed, Err::<(), _>(Undone::Failed)));
            assert_eq!(place.work(Budget::of(AN_HOUR), || 7).await.ok(), Some(7), "the thread goes on");
            let spent = Budget::of(AN_HOUR);
            spent.give_up();
            assert!(matches!(place.work(spent, || 7).await, Err(Undone::Late)));
            workshop.close();
            assert!(matches!(place.work(Budget::of(AN_HOUR), || 7).await, Err(Undone::Stopping)));
        });
    }
}
