//! A question: made again from what it is made of, with its answer, and the marking of what was answered.

use super::draw::Draw;
use super::link::{self, Link};
use super::machine::{self, On};
use super::marking::{Answered, Closeness, agree};
use super::slips::{self, Slip};
use super::wanted::{self, Wanted};
use super::{round_near, sentence};
use crate::asking::{Answer, Form, ask};
use crate::calculators::exercise::Exercise;
use crate::calculators::{Entry, Example};
use crate::declared::one_after_another;
use crate::fields::{Fields, Given};
use crate::refusal::{Code, Refusal, Wrong};
use crate::working::Step;

/// Tries of other numbers before an answer's own are asked.
const TRIES: usize = 24;

/// What one question is made of; the same again makes the same question.
#[derive(Clone, Debug)]
pub struct Recipe {
    /// The calculator.
    pub entry: &'static Entry,
    /// The seed.
    pub seed: u64,
    /// How hard, 1 to 3; any where it is not said.
    pub level: Option<u8>,
    /// The link or query of an answer it is made of, as it was given.
    pub from: Option<String>,
    /// Whether the numbers of that answer are changed.
    pub vary: bool,
    /// A machine of the shop.
    pub machine: Option<String>,
}

/// A question with its answer.
#[derive(Debug)]
pub struct Question {
    /// What it was made of; of an exercise with the level that it has.
    pub recipe: Recipe,
    /// The fields, as a query has them.
    pub fields: Vec<(String, String)>,
    /// The result that is asked for.
    pub wanted: Wanted,
    /// The question in words.
    pub text: String,
    /// The whole answer.
    pub answer: Answer,
}

/// A marked answer.
#[derive(Debug)]
pub struct Marked {
    /// What was answered, as understood.
    pub answered: Answered,
    /// Whether it is right.
    pub right: bool,
    /// What a wrong answer comes from, if that is seen; two where both fit.
    pub slips: Vec<Slip>,
}

/// The answer of a calculator to fields.
pub fn solve(entry: &'static Entry, fields: &[(String, String)]) -> Result<Answer, Refusal> {
    let given = fields.iter().map(|(name, value)| (name.as_str(), value.as_str()));
    ask(entry, Fields::of_texts(given), Form::Json).map(|(answer, _)| answer)
}

fn owned(fields: &[(&str, &str)]) -> Vec<(String, String)> {
    fields.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect()
}

impl Question {
    /// Makes the question of a recipe.
    pub fn make(recipe: Recipe) -> Result<Self, Refusal> {
        let mut draw = Draw::new(recipe.seed, recipe.entry.id);
        match &recipe.from {
            Some(from) => {
                let mut fields = Link::read(from)?.fields;
                if let Some(machine) = &recipe.machine {
                    fields.retain(|(name, _)| name != "machine");
                    fields.push(("machine".to_owned(), machine.clone()));
                }
                link::check_single(recipe.entry, &fields)?;
                let answer = solve(recipe.entry, &fields).map_err(of_link)?;
                Self::of_answer(recipe, fields, answer, &mut draw)
            }
            None if recipe.entry.exercises.is_empty() => Self::of_example(recipe, &mut draw),
            None => Self::of_exercise(recipe, &mut draw),
        }
    }

    /// Draws an exercise of the level, a set of its fields, and a value for each.
    fn of_exercise(mut recipe: Recipe, draw: &mut Draw) -> Result<Self, Refusal> {
        let entry = recipe.entry;
        // The level is drawn by itself, so that the seed and the level drawn make the same question again.
        let any = Draw::new(recipe.seed, "level").pick(entry.exercises).map(|exercise| exercise.level);
        let level = recipe.level.or(any).unwrap_or(1);
        recipe.level = Some(level);
        let of_level: Vec<&Exercise> = entry.exercises.iter().filter(|exercise| exercise.level == level).collect();
        let Some(exercise) = draw.pick(&of_level) else { return Err(no_such_level(entry, level)) };
        let set = draw.pick(exercise.sets).copied().unwrap_or_default();
        let drawn: Vec<(&str, &str)> =
            set.iter().map(|(name, values)| (*name, draw.pick(values).copied().unwrap_or_default())).collect();
        let fields = owned(&drawn);
        let says = |fields: &[(String, String)], on: Option<&On>| {
            let value = |name: &str| {
                let stated = fields.iter().find(|(known, _)| known == name).map(|(_, value)| value.clone());
                stated.or_else(|| on?.machine.field(name).map(str::to_owned))
            };
            let said = sentence::filled(entry, exercise.says, value);
            match on {
                Some(on) => on.told(entry, &said, exercise.says),
                None => said,
            }
        };
        let on = machine::chosen(entry, &fields, recipe.machine.as_deref())?;
        if let Some(on) = &on {
            match solve(entry, &on.fields) {
                Ok(answer) => {
                    if let Some(wanted) = Wanted::at(exercise.asks, &on.fields, &answer) {
                        let text = says(&on.fields, Some(on));
                        return Ok(Self::of(recipe, on.fields.clone(), answer, wanted, text));
                    }
                }
                Err(refusal) if refusal.is_of_time() => return Err(refusal),
                // What this machine cannot do is asked with the exercise's own numbers.
                Err(_) => {}
            }
        }
        let answer = solve(entry, &fields)?;
        match Wanted::at(exercise.asks, &fields, &answer) {
            Some(wanted) => {
                let text = says(&fields, None);
                Ok(Self::of(recipe, fields, answer, wanted, text))
            }
            None => Err(nothing_to_ask_for()),
        }
    }

    /// An example as it stands, in a sentence of labels: the first drawn that is short enough to read.
    fn of_example(recipe: Recipe, draw: &mut Draw) -> Result<Self, Refusal> {
        let entry = recipe.entry;
        let count = entry.examples.len();
        let first = draw.below(count as u64) as usize;
        let mut last = None;
        for at in 0..count.max(1) {
            let example = entry.examples.get((first + at) % count.max(1)).unwrap_or(&NO_EXAMPLE);
            let mut fields = owned(example.fields);
            let on = machine::chosen(entry, &fields, recipe.machine.as_deref())?;
            let on_machine = on.and_then(|on| Some((solve(entry, &on.fields).ok()?, on.fields)));
            let answer = match on_machine {
                Some((answer, of_machine)) => {
                    fields = of_machine;
                    answer
                }
                None => solve(entry, &fields)?,
            };
            let question = Self::of_labels(recipe.clone(), fields, answer, wanted::MAIN, draw)?;
            if question.text.chars().count() <= sentence::LONGEST {
                return Ok(question);
            }
            last = Some(question);
        }
        last.ok_or_else(nothing_to_ask_for)
    }

    /// Changes the numbers of an answer, if that is wanted, until they can be answered without a word more.
    fn of_answer(
        recipe: Recipe,
        stated: Vec<(String, String)>,
        answer: Answer,
        draw: &mut Draw,
    ) -> Result<Self, Refusal> {
        let known: Vec<&str> = answer.record.notes.iter().map(|note| note.code).collect();
        for attempt in 0..if recipe.vary { TRIES } else { 0 } {
            let fields = round_near::near(recipe.entry, &stated, attempt * 2 < TRIES, draw);
            match solve(recipe.entry, &fields) {
                Ok(answer) if answer.record.notes.iter().all(|note| known.contains(&note.code)) => {
                    return Self::of_labels(recipe, fields, answer, usize::MAX, draw);
                }
                Err(refusal) if refusal.is_of_time() => return Err(refusal),
                _ => {}
            }
        }
        // Whoever brings an answer may mean any of its results.
        Self::of_labels(recipe, stated, answer, usize::MAX, draw)
    }

    fn of_labels(
        recipe: Recipe,
        fields: Vec<(String, String)>,
        answer: Answer,
        most: usize,
        draw: &mut Draw,
    ) -> Result<Self, Refusal> {
        let path = wanted::choose(&answer, most, draw)?;
        let wanted = path.and_then(|path| Wanted::at(&path, &fields, &answer)).ok_or_else(nothing_to_ask_for)?;
        let text = sentence::of_labels(recipe.entry, &fields, &answer, &wanted);
        Ok(Self::of(recipe, fields, answer, wanted, text))
    }

    fn of(recipe: Recipe, fields: Vec<(String, String)>, answer: Answer, wanted: Wanted, text: String) -> Self {
        let text = text + &sentence::answer_in(&wanted);
        Self { recipe, fields, wanted, text, answer }
    }

    /// Every slip that this question allows, the likeliest first.
    pub fn slips(&self) -> Result<Vec<Slip>, Refusal> {
        let Self { recipe, fields, wanted, answer, .. } = self;
        let case = slips::Case { entry: recipe.entry, fields, answer, wanted, found: Vec::new() };
        slips::slips(case, self.room())
    }

    /// Marks an answer.
    pub fn mark(&self, given: &Given) -> Result<Marked, Refusal> {
        self.mark_among(given, || self.slips())
    }

    /// Marks an answer, with the slips that a wrong one may come from.
    pub fn mark_among(
        &self,
        given: &Given,
        slips: impl FnOnce() -> Result<Vec<Slip>, Refusal>,
    ) -> Result<Marked, Refusal> {
        let right = self.wanted.amount;
        let answered = Answered::read(given, &self.wanted)?;
        let (is_right, slips) = match (answered.wrong_dimension(&right), right.quantity()) {
            (Some(unit), Some(right)) => (false, vec![slips::of_unit(unit, answered.si(), right)]),
            _ if agree(answered.si(), right.si(), self.room()) => (true, Vec::new()),
            _ => (false, slips::found(&slips()?, &right, &answered)),
        };
        Ok(Marked { answered, right: is_right, slips })
    }

    /// How close an answer is wanted.
    pub fn closeness(&self) -> Closeness {
        Closeness::of(&self.wanted, machine::step(&self.fields, self.recipe.machine.as_deref()))
    }

    /// How far from right an answer may be, in SI units.
    pub fn room(&self) -> f64 {
        self.closeness().room(&self.wanted.amount)
    }

    /// The steps that lead to what is asked for; all, where none gives it.
    pub fn steps(&self) -> Vec<&Step> {
        let mut needed = vec![wanted::unnumbered(&self.wanted.path)];
        let mut steps = Vec::new();
        for step in self.answer.record.steps.iter().rev().filter(|step| !step.field().is_empty()) {
            if needed.iter().any(|field| field == step.field()) {
                needed.extend(step.symbols().map(|(_, of, _)| of.to_owned()));
                steps.push(step);
            }
        }
        steps.reverse();
        if steps.is_empty() { self.answer.record.steps.iter().collect() } else { steps }
    }

    /// The result asked for, in words.
    pub fn asked_for(&self) -> String {
        sentence::asked_for(self.recipe.entry, &self.answer, &self.wanted.path)
    }
}

const NO_EXAMPLE: Example = Example { says: "", fields: &[] };

fn nothing_to_ask_for() -> Refusal {
    let says = "This answer holds no quantity that could be asked for.";
    Refusal::one(Wrong::new("from", Code::NoAnswer, says, "another answer's link"))
}

/// The levels that a calculator has questions of.
pub fn levels(entry: &Entry) -> Vec<u8> {
    (1..=3).filter(|level| entry.exercises.iter().any(|exercise| exercise.level == *level)).collect()
}

fn no_such_level(entry: &Entry, level: u8) -> Refusal {
    let has: Vec<String> = levels(entry).iter().map(u8::to_string).collect();
    let says =
        format!("{} has no questions of level {level}; it has level {}.", entry.title, one_after_another(&has, "and"));
    Refusal::one(Wrong::new("level", Code::NotFound, says, has.first().cloned().unwrap_or_default()))
}

/// A refusal of what a link asks, as one of the link.
fn of_link(refusal: Refusal) -> Refusal {
    let one = |wrong: Wrong| {
        let field = wrong.field.trim_start_matches('/').to_owned();
        let says = if field.is_empty() { wrong.says } else { format!("{field}: {}", wrong.says) };
        Wrong { field: "/from".into(), says, ..wrong }
    };
    if refusal.is_of_time() { refusal } else { Refusal(refusal.0.into_iter().map(one).collect()) }
}
