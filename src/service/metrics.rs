//! Counts and times for a monitoring system, in the Prometheus text format. Labels are calculators, forms, outcomes,
//! codes and statuses, all from closed lists, so that nobody outside can make new ones.

use crate::asking::Form;
use crate::calculators::{Entry, REGISTER};
use crate::refusal::{Code, Refusal};
use prometheus::{
    Histogram, HistogramOpts, HistogramVec, IntCounter, IntCounterVec, IntGauge, IntGaugeVec, Opts, Registry,
    TextEncoder,
};
use std::collections::HashMap;
use std::sync::LazyLock;
use std::time::Duration;

/// The statuses that are counted each by itself; the last stands for any other.
const STATUSES: &[&str] = &[
    "200", "204", "303", "304", "308", "400", "404", "405", "406", "408", "413", "414", "415", "422", "429", "431",
    "500", "503", "other",
];

/// Upper bounds of the time buckets, in seconds.
const BUCKETS: &[f64] = &[0.000_01, 0.000_025, 0.000_05, 0.000_1, 0.000_25, 0.001, 0.005, 0.025, 0.1, 1.0];

static KEPT: LazyLock<Option<Kept>> = LazyLock::new(|| Kept::registered().ok());

/// The handles, made once so that a request looks up no label.
struct Kept {
    registry: Registry,
    /// By their places in the register.
    calculators: Vec<OfCalculator>,
    refusals: HashMap<&'static str, IntCounter>,
    others: IntCounter,
    responses: Vec<IntCounter>,
    in_flight: IntGauge,
    connections: IntGauge,
    aside_waiting: IntGauge,
    aside_working: IntGauge,
}

impl Kept {
    fn registered() -> prometheus::Result<Self> {
        let registry = Registry::new();
        let counters = |name, says, labels: &[&str]| -> prometheus::Result<IntCounterVec> {
            let counters = IntCounterVec::new(Opts::new(name, says), labels)?;
            registry.register(Box::new(counters.clone()))?;
            Ok(counters)
        };
        let gauge = |name, says| -> prometheus::Result<IntGauge> {
            let gauge = IntGauge::new(name, says)?;
            registry.register(Box::new(gauge.clone()))?;
            Ok(gauge)
        };
        let requests = counters(
            "shop_reckoner_requests_total",
            "Requests to a calculator, by form and outcome.",
            &["calculator", "form", "outcome"],
        )?;
        let says = "Seconds from the fields to the answer's text, by calculator.";
        let seconds = HistogramOpts::new("shop_reckoner_answer_seconds", says).buckets(BUCKETS.to_vec());
        let seconds = HistogramVec::new(seconds, &["calculator"])?;
        registry.register(Box::new(seconds.clone()))?;
        let refusals = counters("shop_reckoner_refusals_total", "Wrong fields and requests, by code.", &["code"])?;
        let says = "Requests to anything else: pages, tables, the description, health.";
        let others = counters("shop_reckoner_other_requests_total", says, &[])?;
        let responses = counters("shop_reckoner_responses_total", "Responses, by status.", &["status"])?;
        let says = "1, with the versions of the service and of its tables.";
        let build = IntGaugeVec::new(Opts::new("shop_reckoner_build_info", says), &["version", "data_version"])?;
        registry.register(Box::new(build.clone()))?;
        build.with_label_values(&[crate::VERSION, crate::data_version()]).set(1);
        #[cfg(target_os = "linux")]
        registry.register(Box::new(prometheus::process_collector::ProcessCollector::for_self()))?;
        let calculators = REGISTER.iter().map(|entry| {
            let of = |outcome| FORMS.map(|(_, form)| requests.with_label_values(&[entry.id, form, outcome]));
            OfCalculator {
                answered: of("answered"),
                refused: of("refused"),
                seconds: seconds.with_label_values(&[entry.id]),
            }
        });
        Ok(Self {
            calculators: calculators.collect(),
            refusals: Code::ALL
                .iter()
                .map(|code| (code.as_str(), refusals.with_label_values(&[code.as_str()])))
                .collect(),
            others: others.with_label_values::<&str>(&[]),
            responses: STATUSES.iter().map(|status| responses.with_label_values(&[*status])).collect(),
            in_flight: gauge(
                "shop_reckoner_requests_in_flight",
                "Requests that are being answered, or whose answer is being sent.",
            )?,
            connections: gauge("shop_reckoner_connections_open", "Connections that are open.")?,
            aside_waiting: gauge("shop_reckoner_aside_waiting", "Long requests that wait for a thread.")?,
            aside_working: gauge("shop_reckoner_aside_working", "Long requests that are being worked on.")?,
            registry,
        })
    }

    fn of(&self, entry: &Entry) -> Option<&OfCalculator> {
        self.calculators.get(entry.place()?)
    }
}

struct OfCalculator {
    answered: [IntCounter; FORMS.len()],
    refused: [IntCounter; FORMS.len()],
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

/// Makes all counters, so that the first request need not wait for them.
pub fn install() {
    LazyLock::force(&KEPT);
}

/// Counts an answer or a refusal of a calculator.
pub fn asked(entry: &Entry, form: Form, refusal: Option<&Refusal>, took: Duration) {
    let Some(kept) = &*KEPT else { return };
    if let Some(of) = kept.of(entry) {
        let counters = if refusal.is_some() { &of.refused } else { &of.answered };
        counters[form_number(form)].inc();
        of.seconds.observe(took.as_secs_f64());
    }
    for wrong in refusal.iter().flat_map(|refusal| &refusal.0) {
        if let Some(counter) = kept.refusals.get(wrong.code.as_str()) {
            counter.inc();
        }
    }
}

/// Counts the rows of a table: those answered, and those refused with what was wrong.
pub fn asked_rows(entry: &Entry, answered: u64, refused: &[Vec<Code>]) {
    let Some(kept) = &*KEPT else { return };
    if let Some(of) = kept.of(entry) {
        let form = form_number(Form::Sheet);
        of.answered[form].inc_by(answered);
        of.refused[form].inc_by(refused.len() as u64);
    }
    for code in refused.iter().flatten() {
        if let Some(counter) = kept.refusals.get(code.as_str()) {
            counter.inc();
        }
    }
}

/// Counts a request to anything but a calculator.
pub fn other() {
    if let Some(kept) = &*KEPT {
        kept.others.inc();
    }
}

/// Counts a response.
pub fn responded(status: u16) {
    let Some(kept) = &*KEPT else { return };
    let at = STATUSES.iter().position(|known| known.parse() == Ok(status)).unwrap_or(STATUSES.len() - 1);
    kept.responses[at].inc();
}

/// One of a gauge, for as long as it is held.
pub struct Held(Option<&'static IntGauge>);

impl Held {
    fn one(of: fn(&Kept) -> &IntGauge) -> Self {
        let gauge = KEPT.as_ref().map(of);
        if let Some(gauge) = gauge {
            gauge.inc();
        }
        Self(gauge)
    }
}

impl Drop for Held {
    fn drop(&mut self) {
        if let Some(gauge) = self.0 {
            gauge.dec();
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
    if let Some(kept) = &*KEPT {
        kept.aside_waiting.set(waiting as i64);
        kept.aside_working.set(working as i64);
    }
}

/// The counts as text.
pub fn text() -> String {
    let kept = KEPT.as_ref();
    kept.and_then(|kept| TextEncoder::new().encode_to_string(&kept.registry.gather()).ok()).unwrap_or_default()
}
