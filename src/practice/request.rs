//! What is asked of practice: questions for a calculator, a task or everything, and the marking of one
//! answer; each read from a request's fields with all that is wrong at once.

use super::course::{Topic, TopicNamed};
use super::draw::Draw;
use super::link::Link;
use super::question::{Marked, Question, Recipe, levels};
use super::seed::{Seed, TaskNamed};
use crate::calculators::{Entry, REGISTER, find};
use crate::fields::{Count, Fields, Given, nearest};
use crate::quantity::shown;
use crate::refusal::{Code, Refusal, Wrong};
use serde::de::IgnoredAny;

/// Most questions of one request.
pub const MOST_QUESTIONS: u32 = 100;

/// The seed of a request that names none.
pub const FIRST_SEED: u64 = 1;

/// Seeds that follow from another one stay below this, so that they are short on paper.
const SHORT: u64 = 1_000_000;

/// Other seeds that are tried for a question that is not on the sheet yet.
const FRESH: usize = 40;

/// A request for questions.
#[derive(Clone, Debug, Default, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Asked {
    /// The calculator.
    pub calculator: Option<String>,
    /// A task, whose calculators take turns.
    pub task: Option<TaskNamed>,
    /// A topic of the course, whose calculators take turns.
    pub topic: Option<TopicNamed>,
    /// How hard, 1 to 3; mixed where it is not said.
    pub level: Option<Count<1, 3>>,
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
        "topic" => "drill",
        "level" => "1",
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

    /// The level, where one is asked for.
    pub fn level(&self) -> Option<u8> {
        self.level.map(|level| level.get() as u8)
    }

    /// The calculators that questions are made for.
    fn entries(&self) -> Result<Vec<&'static Entry>, Refusal> {
        let named = entry_of(self.calculator.as_deref(), self.from.as_deref())?;
        refuse_level_of_link(self.level(), self.from.as_deref())?;
        let ways = [("calculator", named.is_some()), ("task", self.task.is_some()), ("topic", self.topic.is_some())];
        let stated: Vec<&str> = ways.iter().filter(|(_, stated)| *stated).map(|(name, _)| *name).collect();
        if stated.len() > 1 {
            let says = "A sheet is for one calculator, for a task or for a topic: give one of them.";
            let wrong = |name: &&str| Wrong::new(name, Code::Conflict, says, "leave out");
            return Err(Refusal(stated.iter().map(wrong).collect()));
        }
        if let Some(entry) = named {
            return Ok(vec![entry]);
        }
        let of_task = |entry: &Entry| self.task.is_none_or(|task| entry.task == task.0);
        let of_topic = |entry: &Entry| self.topic.is_none_or(|topic| Topic::of(entry) == Some(topic.0));
        let all: Vec<&Entry> = REGISTER.iter().filter(|entry| of_task(entry) && of_topic(entry)).collect();
        if all.is_empty() {
            let says = "No calculator belongs to this task yet.";
            return Err(Refusal::one(Wrong::new("task", Code::NotFound, says, "cut")));
        }
        let has = |entry: &&Entry| match self.level() {
            Some(level) => entry.exercises.is_empty() || levels(entry).contains(&level),
            None => true,
        };
        let entries: Vec<&Entry> = all.into_iter().filter(has).collect();
        if entries.is_empty() {
            let says = "There are no questions of this level here.";
            return Err(Refusal::one(Wrong::new("level", Code::NotFound, says, "leave out")));
        }
        Ok(entries)
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
        // Calculators that no seed gave a question of that is not on the sheet yet: they are not asked again.
        let mut dry: Vec<&str> = Vec::new();
        for at in 0..count {
            let entry = entries[at % entries.len()];
            let mut fresh = None;
            for attempt in 0..FRESH {
                let own = if at == 0 && attempt == 0 { seed } else { seeds.below(SHORT) };
                // Its seeds are passed over, so that the others keep theirs.
                if dry.contains(&entry.id) {
                    continue;
                }
                let question = Question::make(Recipe {
                    entry,
                    seed: own,
                    level: self.level(),
                    from: self.from.clone(),
                    vary: self.vary.unwrap_or(false),
                    machine: self.machine.clone(),
                })?;
                if questions.iter().all(|known| known.text != question.text) {
                    fresh = Some(question);
                    break;
                }
            }
            match fresh {
                Some(fresh) => questions.push(fresh),
                None if dry.contains(&entry.id) => {}
                None => dry.push(entry.id),
            }
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

/// Refuses a level for a question made of an answer, which is as hard as that is.
fn refuse_level_of_link(level: Option<u8>, from: Option<&str>) -> Result<(), Refusal> {
    match (level, from) {
        (Some(_), Some(_)) => {
            let says = "A question made of an answer has no level.";
            Err(Refusal::one(Wrong::new("level", Code::Conflict, says, "leave out")))
        }
        _ => Ok(()),
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
    level: Option<Count<1, 3>>,
    from: Option<String>,
    vary: Option<bool>,
    machine: Option<String>,
    #[serde(rename = "answer")]
    _answer: IgnoredAny,
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
        let level = read.level.map(|level| level.get() as u8);
        refuse_level_of_link(level, read.from.as_deref())?;
        let question = Question::make(Recipe {
            entry,
            seed: read.seed.0,
            level,
            from: read.from,
            vary: read.vary.unwrap_or(false),
            machine: read.machine,
        })?;
        let answer = fields.0.iter().find(|(name, _)| name == "answer").map_or(&Given::Null, |(_, given)| given);
        let marked = question.mark(answer)?;
        Ok(Self { question, marked })
    }
}
