//! What is asked of practice: questions for a calculator, a task or everything, and the marking of one
//! answer; each read from a request's fields with all that is wrong at once.

use super::draw::Draw;
use super::link::Link;
use super::{Marked, Question, Recipe};
use crate::asking::Sources;
use crate::calculators::{Entry, REGISTER, Task, find};
use crate::fields::{Count, Fields, Given, nearest};
use crate::quantity::{Quantity, Unread, shown, text, to_serde};
use crate::refusal::{Code, Refusal, Wrong};
use crate::working::StepIn;
use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::ser::{Serialize, SerializeMap, Serializer};
use serde_json::json;
use std::fmt;

/// Most questions of one request.
pub const MOST_QUESTIONS: u32 = 100;

/// The seed of a request that names none.
pub const FIRST_SEED: u64 = 1;

/// Seeds that follow from another one stay below this, so that they are short on paper.
const SHORT: u64 = 1_000_000;

/// Other seeds that are tried for a question that is not on the sheet yet.
const FRESH: usize = 40;

/// A seed: a whole number, as text or as a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Seed(pub u64);

/// The largest whole number below which JSON readers keep every one.
const EXACT: f64 = 9_007_199_254_740_992.0;

impl<'de> Deserialize<'de> for Seed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(SeedVisitor)
    }
}

struct SeedVisitor;

fn refused<E: de::Error>(code: &'static str, says: String) -> E {
    to_serde(Unread { code, says, try_this: String::new() })
}

impl Visitor<'_> for SeedVisitor {
    type Value = Seed;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a seed, a whole number such as 7")
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Seed, E> {
        if text.is_empty() || !text.bytes().all(|b| b.is_ascii_digit()) {
            return Err(refused(
                "value_unreadable",
                format!("\"{}\" is not a whole number of 0 or more.", shown(text)),
            ));
        }
        let large = || refused("value_out_of_range", format!("A seed is at most {}.", u64::MAX));
        text.parse().map(Seed).map_err(|_| large())
    }

    fn visit_f64<E: de::Error>(self, number: f64) -> Result<Seed, E> {
        if number < 0.0 || number.fract() != 0.0 {
            return self.visit_str(&text::full(number));
        }
        if number >= EXACT {
            return Err(refused("value_out_of_range", "Write so large a seed as text, or it loses digits.".into()));
        }
        Ok(Seed(number as u64))
    }

    fn visit_u64<E: de::Error>(self, number: u64) -> Result<Seed, E> {
        Ok(Seed(number))
    }
}

/// A task by its words, `make the hole`, also with underscores or hyphens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TaskNamed(pub Task);

impl TaskNamed {
    /// The word that addresses use.
    pub fn word(task: Task) -> String {
        task.words().to_lowercase().replace(' ', "_")
    }
}

impl<'de> Deserialize<'de> for TaskNamed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let said = String::deserialize(deserializer)?;
        let wanted = said.trim().to_lowercase().replace([' ', '-'], "_");
        let words: Vec<String> = Task::ALL.iter().map(|task| TaskNamed::word(*task)).collect();
        match Task::ALL.into_iter().find(|task| TaskNamed::word(*task) == wanted) {
            Some(task) => Ok(TaskNamed(task)),
            None => {
                let near = nearest(&wanted, words.iter().map(String::as_str)).unwrap_or("cut").to_owned();
                let says = format!("\"{}\" is no task; the tasks are {}.", shown(&said), words.join(", "));
                Err(to_serde(Unread { code: "not_found", says, try_this: near }))
            }
        }
    }
}

/// A request for questions.
#[derive(Clone, Debug, Default, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Asked {
    /// The calculator.
    pub calculator: Option<String>,
    /// A task, whose calculators take turns.
    pub task: Option<TaskNamed>,
    /// The seed.
    pub seed: Option<Seed>,
    /// How many.
    pub count: Option<Count<1, MOST_QUESTIONS>>,
    /// The link or query of an answer to make questions of.
    pub from: Option<String>,
    /// Whether the numbers of that answer are changed.
    pub vary: Option<bool>,
    /// A machine of the shop.
    pub machine: Option<String>,
}

/// A good value for a field of practice.
pub fn good(name: &str) -> Option<&'static str> {
    Some(match name {
        "calculator" => "holes/drill-point",
        "task" => "make_the_hole",
        "seed" => "7",
        "count" => "10",
        "from" => "/v1/holes/drill-point?diameter=1/2 in&point_angle=118 deg",
        "vary" => "true",
        "machine" => "mill",
        "answer" => "0.150 in",
        _ => return None,
    })
}

/// A seed that follows from another, short enough for paper.
pub fn next_seed(seed: u64) -> u64 {
    Draw::new(seed, "next").below(SHORT)
}

impl Asked {
    /// Reads a request.
    pub fn read(fields: &Fields) -> Result<Self, Refusal> {
        fields.read(good)
    }

    /// The seed, or the one that stands for none.
    pub fn seed(&self) -> u64 {
        self.seed.map_or(FIRST_SEED, |seed| seed.0)
    }

    /// The calculators that questions are made for.
    fn entries(&self) -> Result<Vec<&'static Entry>, Refusal> {
        let named = entry_of(self.calculator.as_deref(), self.from.as_deref())?;
        match (named, self.task) {
            (Some(_), Some(_)) => {
                let says = "A sheet is for one calculator or for a task, not both.";
                let wrong = |field| Wrong::new(field, Code::Conflict, says, "leave out");
                Err(Refusal(vec![wrong("calculator"), wrong("task")]))
            }
            (Some(entry), None) => Ok(vec![entry]),
            (None, task) => {
                let fits = |entry: &&'static Entry| task.is_none_or(|task| entry.task == task.0);
                let entries: Vec<&'static Entry> = REGISTER.iter().filter(fits).collect();
                if entries.is_empty() {
                    let says = "No calculator belongs to this task yet.";
                    return Err(Refusal::one(Wrong::new("task", Code::NotFound, says, "cut")));
                }
                Ok(entries)
            }
        }
    }

    /// The questions, no two alike; fewer than asked for where no more are to be had.
    pub fn questions(&self) -> Result<Vec<Question>, Refusal> {
        let mut entries = self.entries()?;
        let seed = self.seed();
        let mut order = Draw::new(seed, "order");
        for at in (1..entries.len()).rev() {
            entries.swap(at, order.below(at as u64 + 1) as usize);
        }
        let mut seeds = Draw::new(seed, "seeds");
        let count = self.count.map_or(1, Count::get) as usize;
        let mut questions: Vec<Question> = Vec::with_capacity(count);
        for at in 0..count {
            let entry = entries[at % entries.len()];
            let mut fresh = None;
            for attempt in 0..FRESH {
                let own = if at == 0 && attempt == 0 { seed } else { seeds.below(SHORT) };
                let question = Question::make(Recipe {
                    entry,
                    seed: own,
                    from: self.from.clone(),
                    vary: self.vary.unwrap_or(false),
                    machine: self.machine.clone(),
                })?;
                if questions.iter().all(|known| known.text != question.text) {
                    fresh = Some(question);
                    break;
                }
            }
            questions.extend(fresh);
        }
        Ok(questions)
    }
}

/// The calculator that a request names, or that its link names.
pub fn entry_of(calculator: Option<&str>, from: Option<&str>) -> Result<Option<&'static Entry>, Refusal> {
    let named = calculator.map(str::trim).map(|id| find(id).ok_or_else(|| unknown(id))).transpose();
    let linked = from.map(Link::read).transpose();
    let (named, linked) = match (named, linked) {
        (Ok(named), Ok(linked)) => (named, linked),
        (named, linked) => {
            let wrongs = named.err().into_iter().chain(linked.err()).flat_map(|refusal| refusal.0);
            return Err(Refusal(wrongs.collect()));
        }
    };
    match (named, linked) {
        (Some(named), Some(Link { entry: Some(linked), .. })) if named.id != linked.id => {
            let says = format!("The link is to {}, but the calculator is {}.", linked.id, named.id);
            Err(Refusal(vec![
                Wrong::new("calculator", Code::Conflict, says.clone(), linked.id),
                Wrong::new("from", Code::Conflict, says, format!("/v1/{}?…", named.id)),
            ]))
        }
        (None, Some(Link { entry: None, .. })) => {
            let says = "The query of an answer needs the calculator beside it, or its address before it.";
            Err(Refusal::one(Wrong::new("calculator", Code::FieldMissing, says, "holes/drill-point")))
        }
        (named, linked) => Ok(named.or(linked.and_then(|link| link.entry))),
    }
}

fn unknown(id: &str) -> Refusal {
    let near = nearest(id, REGISTER.iter().map(|entry| entry.id)).unwrap_or("holes/drill-point");
    let says = format!("There is no calculator \"{}\"; all are listed at /v1/calculators.", shown(id));
    Refusal::one(Wrong::new("calculator", Code::NotFound, says, near))
}

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct CheckedFields {
    calculator: Option<String>,
    seed: Seed,
    from: Option<String>,
    vary: Option<bool>,
    machine: Option<String>,
    #[serde(rename = "answer")]
    _answer: de::IgnoredAny,
}

/// A question with the answer that was marked.
#[derive(Debug)]
pub struct Checked {
    /// The question.
    pub question: Question,
    /// How it was marked.
    pub marked: Marked,
}

impl Checked {
    /// Reads a request, makes its question again and marks the answer.
    pub fn read(fields: &Fields) -> Result<Self, Refusal> {
        let read: CheckedFields = fields.read(good)?;
        let entry = match entry_of(read.calculator.as_deref(), read.from.as_deref())? {
            Some(entry) => entry,
            None => {
                let says = "The field calculator is needed: which calculator was the question for?";
                return Err(Refusal::one(Wrong::new("calculator", Code::FieldMissing, says, "holes/drill-point")));
            }
        };
        let question = Question::make(Recipe {
            entry,
            seed: read.seed.0,
            from: read.from,
            vary: read.vary.unwrap_or(false),
            machine: read.machine,
        })?;
        let answer = fields.0.iter().find(|(name, _)| name == "answer").map_or(&Given::Null, |(_, given)| given);
        let marked = question.mark(answer)?;
        Ok(Self { question, marked })
    }
}

impl Question {
    /// The fields that make the same question again, beside the answer.
    pub fn recipe_fields(&self) -> Vec<(&'static str, String)> {
        let recipe = &self.recipe;
        let mut fields = vec![("calculator", recipe.entry.id.to_owned()), ("seed", recipe.seed.to_string())];
        if let Some(from) = &recipe.from {
            fields.push(("from", from.clone()));
            if recipe.vary {
                fields.push(("vary", "true".to_owned()));
            }
        }
        if let Some(machine) = &recipe.machine {
            fields.push(("machine", machine.clone()));
        }
        fields
    }

    fn write<M: SerializeMap>(&self, map: &mut M) -> Result<(), M::Error> {
        let recipe = &self.recipe;
        map.serialize_entry("calculator", recipe.entry.id)?;
        map.serialize_entry("seed", &recipe.seed)?;
        if let Some(from) = &recipe.from {
            map.serialize_entry("from", from)?;
            map.serialize_entry("vary", &recipe.vary)?;
        }
        if let Some(machine) = &recipe.machine {
            map.serialize_entry("machine", machine)?;
        }
        map.serialize_entry("text", &self.text)?;
        map.serialize_entry("asks_for", &self.wanted.path)?;
        map.serialize_entry("unit", self.wanted.quantity.unit.spelling())?;
        let inputs: serde_json::Map<String, serde_json::Value> =
            self.fields.iter().map(|(name, value)| (name.clone(), json!(value))).collect();
        map.serialize_entry("inputs", &inputs)
    }
}

impl Serialize for Question {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        self.write(&mut map)?;
        map.end()
    }
}

/// A quantity as an answer repeats it.
pub fn stated(quantity: &Quantity) -> serde_json::Value {
    json!({"value": text::tidy(quantity.value), "unit": quantity.unit.spelling(), "text": quantity.text()})
}

impl Serialize for Checked {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self { question, marked } = self;
        let record = &question.answer.record;
        let expected = question.wanted.quantity;
        let mut map = serializer.serialize_map(None)?;
        question.write(&mut map)?;
        let answered = &marked.answered;
        let said = format!("{}{}", text::full(answered.value), answered.unit.row().suffix);
        map.serialize_entry(
            "answered",
            &json!({"value": answered.value, "unit": answered.unit.spelling(), "text": said}),
        )?;
        map.serialize_entry("right", &marked.right)?;
        if let Some(slip) = &marked.slip {
            map.serialize_entry("slip", &json!({"code": slip.code, "says": slip.says}))?;
        }
        map.serialize_entry("expected", &stated(&expected))?;
        map.serialize_entry("allowed", &allowed_words(marked.allowed, &expected))?;
        let steps: Vec<StepIn> = record.steps.iter().map(|step| StepIn(step, question.answer.system)).collect();
        map.serialize_entry("working", &steps)?;
        map.serialize_entry("notes", &record.notes)?;
        map.serialize_entry("cautions", &record.cautions)?;
        map.serialize_entry("sources", &Sources(&record.sources))?;
        map.serialize_entry("trust", record.trust().as_str())?;
        map.end()
    }
}

/// How far an answer may be off, as a quantity.
pub fn allowed_words(allowed: f64, expected: &Quantity) -> serde_json::Value {
    let value = text::rough(allowed);
    let said = format!("±{}{}", text::full(value), expected.unit.row().suffix);
    json!({"value": value, "unit": expected.unit.spelling(), "text": said})
}
