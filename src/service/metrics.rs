//! Counts and times for a monitoring system, in the Prometheus text format. Labels are calculators,
//! forms, outcomes and codes, all from closed lists, so that nobody outside can make new ones.

use crate::asking::Form;
use crate::calculators::{Entry, REGISTER};
use crate::refusal::{Code, Refusal};
use metrics::{Counter, Histogram, counter, describe_counter, describe_histogram, histogram};
use metrics_exporter_prometheus::{PrometheusBuilder, PrometheusHandle};
use std::collections::HashMap;
use std::sync::OnceLock;
use std::time::Duration;

const REQUESTS: &str = "shop_reckoner_requests_total";
const REFUSALS: &str = "shop_reckoner_refusals_total";
const SECONDS: &str = "shop_reckoner_answer_seconds";
const OTHERS: &str = "shop_reckoner_other_requests_total";

/// Upper bounds of the time buckets, in seconds.
const BUCKETS: &[f64] = &[0.000_01, 0.000_025, 0.000_05, 0.000_1, 0.000_25, 0.001, 0.005, 0.025, 0.1, 1.0];

static KEPT: OnceLock<Kept> = OnceLock::new();

/// The handles, made once so that a request looks up no label.
struct Kept {
    handle: PrometheusHandle,
    calculators: HashMap<&'static str, OfCalculator>,
    refusals: HashMap<&'static str, Counter>,
    others: Counter,
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
    describe_histogram!(SECONDS, "Seconds from the fields to the answer's text, by calculator.");
    let calculators = REGISTER.iter().map(|entry| {
        let of = |outcome: &'static str| {
            FORMS.map(|(_, form)| counter!(REQUESTS, "calculator" => entry.id, "form" => form, "outcome" => outcome))
        };
        let kept = OfCalculator {
            answered: of("answered"),
            refused: of("refused"),
            seconds: histogram!(SECONDS, "calculator" => entry.id),
        };
        (entry.id, kept)
    });
    let calculators = calculators.collect();
    let refusals = Code::ALL.iter().map(|code| (code.as_str(), counter!(REFUSALS, "code" => code.as_str()))).collect();
    let _ = KEPT.set(Kept { handle, calculators, refusals, others: counter!(OTHERS) });
}

/// Counts an answer or a refusal of a calculator.
pub fn asked(entry: &Entry, form: Form, refusal: Option<&Refusal>, took: Duration) {
    let Some(kept) = KEPT.get() else { return };
    if let Some(of) = kept.calculators.get(entry.id) {
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
    if let Some(of) = kept.calculators.get(entry.id) {
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

/// The counts as text.
pub fn text() -> String {
    KEPT.get().map(|kept| kept.handle.render()).unwrap_or_default()
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
