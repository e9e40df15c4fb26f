//! Counts and times for a monitoring system, in the Prometheus text format. Labels are calculators, forms, outcomes,
//! codes and statuses, all from closed lists, so that nobody outside can make new ones.

use crate::asking::Form;
use crate::calculators::{Entry, REGISTER};
use crate::refusal::{Code, Refusal};
use metrics::{
    Counter, Gauge, Histogram, counter, describe_counter, describe_gauge, describe_histogram, gauge, histogram,
};
use metrics_exporter_prometheus::{PrometheusBuilder, PrometheusHandle};
use metrics_process::Collector;
use std::collections::HashMap;
use std::sync::OnceLock;
use std::time::Duration;

const REQUESTS: &str = "shop_reckoner_requests_total";
const REFUSALS: &str = "shop_reckoner_refusals_total";
const SECONDS: &str = "shop_reckoner_answer_seconds";
const OTHERS: &str = "shop_reckoner_other_requests_total";
const RESPONSES: &str = "shop_reckoner_responses_total";
const IN_FLIGHT: &str = "shop_reckoner_requests_in_flight";
const CONNECTIONS: &str = "shop_reckoner_connections_open";
const ASIDE_WAITING: &str = "shop_reckoner_aside_waiting";
const ASIDE_WORKING: &str = "shop_reckoner_aside_working";
const BUILD: &str = "shop_reckoner_build_info";

/// The statuses that are counted each by itself; the last stands for any other.
const STATUSES: &[&str] = &[
    "200", "204", "303", "304", "308", "400", "404", "405", "406", "408", "413", "414", "415", "422", "429", "431",
    "500", "503", "other",
];

/// Upper bounds of the time buckets, in seconds.
const BUCKETS: &[f64] = &[0.000_01, 0.000_025, 0.000_05, 0.000_1, 0.000_25, 0.001, 0.005, 0.025, 0.1, 1.0];

static KEPT: OnceLock<Kept> = OnceLock::new();

/// The handles, made once so that a request looks up no label.
struct Kept {
    handle: PrometheusHandle,
    /// By their places in the register.
    calculators: Vec<OfCalculator>,
    refusals: HashMap<&'static str, Counter>,
    others: Counter,
    responses: Vec<Counter>,
    in_flight: Gauge,
    connections: Gauge,
    aside_waiting: Gauge,
    aside_working: Gauge,
    process: Collector,
}

impl Kept {
    fn of(&self, entry: &Entry) -> Option<&OfCalculator> {
        self.calculators.get(entry.place()?)
    }
}

struct OfCalculator {
    answered: [Counter; FORMS.len()],
    refused: [Counter; FORMS.len()],
    seconds: Histogram,
}

const FORMS: [(Form, &str); 5] = [
    (Form::Json, "json"),
    (Form::Cell, "txt"),
    (Form::Table, "csv"),
    (Form::Sheet, "csv_rows"),
    (Form::Drawing, "svg"),
];

fn form_number(form: Form) -> usize {
    FORMS.iter().position(|(one, _)| *one == form).unwrap_or_default()
}

/// Begins to count. Does nothing if counting has begun before.
pub fn install() {
    if KEPT.get().is_some() {
        return;
    }
    let Ok(builder) = PrometheusBuilder::new().set_buckets(BUCKETS) else { return };
    let Ok(handle) = builder.install_recorder() else { return };
    describe_counter!(REQUESTS, "Requests to a calculator, by form and outcome.");
    describe_counter!(REFUSALS, "Wrong fields and requests, by code.");
    describe_counter!(OTHERS, "Requests to anything else: pages, tables, the description, health.");
    describe_counter!(RESPONSES, "Responses, by status.");
    describe_gauge!(IN_FLIGHT, "Requests that are being answered, or whose answer is being sent.");
    describe_gauge!(CONNECTIONS, "Connections that are open.");
    describe_gauge!(ASIDE_WAITING, "Long requests that wait for a thread.");
    describe_gauge!(ASIDE_WORKING, "Long requests that are being worked on.");
    describe_gauge!(BUILD, "1, with the versions of the service and of its tables.");
    describe_histogram!(SECONDS, "Seconds from the fields to the answer's text, by calculator.");
    let calculators = REGISTER.iter().map(|entry| {
        let of = |outcome: &'static str| {
            FORMS.map(|(_, form)| counter!(REQUESTS, "calculator" => entry.id, "form" => form, "outcome" => outcome))
        };
        let seconds = histogram!(SECONDS, "calculator" => entry.id);
        OfCalculator { answered: of("answered"), refused: of("refused"), seconds }
    });
    let calculators = calculators.collect();
    let refusals = Code::ALL.iter().map(|code| (code.as_str(), counter!(REFUSALS, "code" => code.as_str()))).collect();
    gauge!(BUILD, "version" => crate::VERSION, "data_version" => crate::data_version()).set(1.0);
    let process = Collector::default();
    process.describe();
    let _ = KEPT.set(Kept {
        handle,
        calculators,
        refusals,
        others: counter!(OTHERS),
        responses: STATUSES.iter().map(|status| counter!(RESPONSES, "status" => *status)).collect(),
        in_flight: gauge!(IN_FLIGHT),
        connections: gauge!(CONNECTIONS),
        aside_waiting: gauge!(ASIDE_WAITING),
        aside_working: gauge!(ASIDE_WORKING),
        process,
    });
    aside(0, 0);
}

/// Counts an answer or a refusal of a calculator.
pub fn asked(entry: &Entry, form: Form, refusal: Option<&Refusal>, took: Duration) {
    let Some(kept) = KEPT.get() else { return };
    if let Some(of) = kept.of(entry) {
        let counters = if refusal.is_some() { &of.refused } else { &of.answered };
        counters[form_number(form)].increment(1);
        of.seconds.record(took.as_secs_f64());
    }
    for wrong in refusal.iter().flat_map(|refusal| &refusal.0) {
        if let Some(counter) = kept.refusals.get(wrong.code.as_str()) {
            counter.increment(1);
        }
    }
}

/// Counts the rows of a table: those answered, and those refused with what was wrong.
pub fn asked_rows(entry: &Entry, answered: u64, refused: &[Vec<Code>]) {
    let Some(kept) = KEPT.get() else { return };
    if let Some(of) = kept.of(entry) {
        let form = form_number(Form::Sheet);
        of.answered[form].increment(answered);
        of.refused[form].increment(refused.len() as u64);
    }
    for code in refused.iter().flatten() {
        if let Some(counter) = kept.refusals.get(code.as_str()) {
            counter.increment(1);
        }
    }
}

/// Counts a request to anything but a calculator.
pub fn other() {
    if let Some(kept) = KEPT.get() {
        kept.others.increment(1);
    }
}

/// Counts a response.
pub fn responded(status: u16) {
    let Some(kept) = KEPT.get() else { return };
    let at = STATUSES.iter().position(|known| known.parse() == Ok(status)).unwrap_or(STATUSES.len() - 1);
    kept.responses[at].increment(1);
}

/// One of a gauge, for as long as it is held.
pub struct Held(Option<&'static Gauge>);

impl Held {
    fn one(of: fn(&Kept) -> &Gauge) -> Self {
        let gauge = KEPT.get().map(of);
        if let Some(gauge) = gauge {
            gauge.increment(1.0);
        }
        Self(gauge)
    }
}

impl Drop for Held {
    fn drop(&mut self) {
        if let Some(gauge) = self.0 {
            gauge.decrement(1.0);
        }
    }
}

/// Counts a request as in flight while what is given is held.
pub fn in_flight() -> Held {
    Held::one(|kept| &kept.in_flight)
}

/// Counts a connection as open while what is given is held.
pub fn connection() -> Held {
    Held::one(|kept| &kept.connections)
}

/// Says how many long requests wait to be worked on aside, and how many are worked on.
pub fn aside(waiting: usize, working: usize) {
    if let Some(kept) = KEPT.get() {
        kept.aside_waiting.set(waiting as f64);
        kept.aside_working.set(working as f64);
    }
}

/// The counts as text.
pub fn text() -> String {
    let Some(kept) = KEPT.get() else { return String::new() };
    kept.process.collect();
    kept.handle.render()
}

/// Folds recorded times into their buckets now and then, so that they do not pile up unread.
pub async fn keep_small() {
    loop {
        tokio::time::sleep(Duration::from_secs(5)).await;
        if let Some(kept) = KEPT.get() {
            kept.handle.run_upkeep();
        }
    }
}
