//! A question: made again from what it is made of, with its answer, and the marking of what was answered.

use super::draw::Draw;
use super::link::{self, Link};
use super::marking::{Answered, agree, allowed};
use super::slips::{self, Slip};
use super::vary::{self, Freedom};
use super::wanted::{self, Wanted};
use super::words;
use crate::asking::{Answer, Form, ask, describe_entry};
use crate::calculators::{Entry, Example};
use crate::fields::{Fields, Given};
use crate::quantity::Quantity;
use crate::refusal::{Refusal, Wrong};
use crate::shop::{self, MACHINE_FIELDS, Machine};

/// Tries of other numbers before the example itself is asked.
const TRIES: usize = 48;

/// What one question is made of; the same again makes the same question.
#[derive(Clone, Debug)]
pub struct Recipe {
    /// The calculator.
    pub entry: &'static Entry,
    /// The seed.
    pub seed: u64,
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
    /// What it was made of.
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
    pub answered: Quantity,
    /// Whether it is right.
    pub right: bool,
    /// What a wrong answer comes from, if that is seen.
    pub slip: Option<Slip>,
    /// How far from right an answer may be, in the unit asked for.
    pub allowed: f64,
}

fn solve(entry: &'static Entry, fields: &[(String, String)]) -> Result<Answer, Refusal> {
    let given = fields.iter().map(|(name, value)| (name.as_str(), value.as_str()));
    ask(entry, Fields::of_texts(given), Form::Json).map(|(answer, _)| answer)
}

impl Question {
    /// Makes the question of a recipe.
    pub fn make(recipe: Recipe) -> Result<Self, Refusal> {
        let mut draw = Draw::new(recipe.seed, recipe.entry.id);
        match &recipe.from {
            Some(from) => {
                let fields = with_machine(Link::read(from)?.fields, recipe.machine.as_deref());
                link::check_single(recipe.entry, &fields)?;
                let answer = solve(recipe.entry, &fields).map_err(of_link)?;
                Self::vary(recipe, fields, answer, &mut draw)
            }
            None => {
                let example = draw.pick(recipe.entry.examples).unwrap_or(&NO_EXAMPLE);
                let (fields, answer) = template(recipe.entry, example, recipe.machine.as_deref())?;
                Self::vary(Recipe { vary: true, ..recipe }, fields, answer, &mut draw)
            }
        }
    }

    /// Changes the numbers until they can be answered without a word more than the pattern's answer has.
    fn vary(recipe: Recipe, pattern: Vec<(String, String)>, answer: Answer, draw: &mut Draw) -> Result<Self, Refusal> {
        let known: Vec<&str> = answer.record.notes.iter().map(|note| note.code).collect();
        let tries = if recipe.vary { TRIES } else { 0 };
        // Whoever brings an answer may mean any of its results.
        let most = if recipe.from.is_some() { usize::MAX } else { wanted::MAIN };
        for attempt in 0..tries {
            let freedom = [Freedom::All, Freedom::Some, Freedom::One][attempt * 3 / TRIES];
            let fields = vary::varied(recipe.entry, &pattern, freedom, draw);
            let answer = match solve(recipe.entry, &fields) {
                Ok(answer) => answer,
                Err(refusal) if refusal.is_of_time() => return Err(refusal),
                Err(_) => continue,
            };
            if answer.record.notes.iter().all(|note| known.contains(&note.code))
                && let Some(wanted) = wanted::choose(&answer, most, draw)?
            {
                return Ok(Self::of(recipe, fields, answer, wanted));
            }
        }
        match wanted::choose(&answer, most, draw)? {
            Some(wanted) => Ok(Self::of(recipe, pattern, answer, wanted)),
            None => {
                let says = "This answer holds no quantity that could be asked for.";
                Err(Refusal::one(Wrong::new("from", crate::refusal::Code::NoAnswer, says, "another answer's link")))
            }
        }
    }

    fn of(recipe: Recipe, fields: Vec<(String, String)>, answer: Answer, wanted: Wanted) -> Self {
        let text = words::question(recipe.entry, &fields, &answer, &wanted);
        Self { recipe, fields, wanted, text, answer }
    }

    /// Every slip that this question allows.
    pub fn slips(&self) -> Result<Vec<Slip>, Refusal> {
        let Self { recipe, fields, wanted, answer, .. } = self;
        slips::slips(&slips::Case { entry: recipe.entry, fields, answer, wanted })
    }

    /// Marks an answer.
    pub fn mark(&self, given: &Given) -> Result<Marked, Refusal> {
        let right = self.wanted.quantity;
        let answered = Answered::read(given, &right)?;
        let allowed = allowed(&right, self.resolution());
        let shown = Quantity { value: answered.value, unit: answered.unit, ..right };
        let marked = |is_right, slip| Marked {
            answered: shown,
            right: is_right,
            slip,
            allowed: allowed / right.unit.row().factor,
        };
        if !answered.measures(&right) {
            return Ok(marked(false, Some(slips_of_unit(&answered, &right))));
        }
        if agree(answered.si(), right.si(), allowed) {
            return Ok(marked(true, None));
        }
        let all = self.slips()?;
        Ok(marked(false, slips::found(&all, &right, answered.si()).cloned()))
    }

    /// How far from right an answer may be, in the unit asked for.
    pub fn allowed(&self) -> f64 {
        allowed(&self.wanted.quantity, self.resolution()) / self.wanted.quantity.unit.row().factor
    }

    /// The smallest step of the readout, in metres, where it is known.
    fn resolution(&self) -> Option<f64> {
        let stated = self.fields.iter().find(|(name, _)| name == "resolution").map(|(_, value)| value.as_str());
        let machine = self
            .recipe
            .machine
            .as_deref()
            .or_else(|| self.fields.iter().find(|(name, _)| name == "machine").map(|(_, value)| value.as_str()));
        let of_machine = || shop::installed()?.machine(machine?)?.field("resolution");
        let written = crate::quantity::read(stated.or_else(of_machine)?, "0.0005 in").ok()?;
        Some(written.unit?.to_si(written.value))
    }
}

/// The slip of a unit that measures something else.
fn slips_of_unit(answered: &Answered, right: &Quantity) -> Slip {
    use crate::quantity::Dimension::{FeedPerRev, FeedPerTooth};
    let (is, wanted) = (answered.unit.row().dimension, right.unit.row().dimension);
    let feeds = [FeedPerRev, FeedPerTooth];
    let code = if feeds.contains(&is) && feeds.contains(&wanted) { "feed_per_tooth" } else { "wrong_unit" };
    let says = format!("{} measures {}; {} is asked for.", answered.unit.spelling(), is.words(), wanted.words());
    Slip { code, says, value: answered.si() }
}

const NO_EXAMPLE: Example = Example { says: "", fields: &[] };

/// An example's fields with its answer: on the shop's own machine where there is one that fits.
fn template(
    entry: &'static Entry,
    example: &Example,
    machine: Option<&str>,
) -> Result<(Vec<(String, String)>, Answer), Refusal> {
    let fields: Vec<(String, String)> =
        example.fields.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
    let own = machine.or_else(|| machine_for(entry).map(|machine| machine.name.as_str()));
    if let Some(name) = own {
        let fields = on_machine(&fields, name);
        match solve(entry, &fields) {
            Ok(answer) => return Ok((fields, answer)),
            // A machine that was asked for is not passed over.
            Err(refusal) if machine.is_some() || refusal.is_of_time() => return Err(refusal),
            Err(_) => {}
        }
    }
    solve(entry, &fields).map(|answer| (fields, answer))
}

/// The fields with a machine in place of what a machine has.
fn on_machine(fields: &[(String, String)], machine: &str) -> Vec<(String, String)> {
    let has = |name: &str| MACHINE_FIELDS.iter().any(|field| field.name == name);
    let kept = fields.iter().filter(|(name, _)| !has(name)).cloned();
    kept.chain([("machine".to_owned(), machine.to_owned())]).collect()
}

fn with_machine(mut fields: Vec<(String, String)>, machine: Option<&str>) -> Vec<(String, String)> {
    if let Some(machine) = machine {
        fields.retain(|(name, _)| name != "machine");
        fields.push(("machine".to_owned(), machine.to_owned()));
    }
    fields
}

/// The machine of the shop that a calculator speaks of most, among those that have something it asks for.
fn machine_for(entry: &Entry) -> Option<&'static Machine> {
    let fields = &describe_entry(entry)?.fields;
    let of_request = ["resolution", "z_plus"];
    let fits = |machine: &&Machine| {
        machine
            .fields
            .iter()
            .any(|(name, _)| !of_request.contains(name) && fields.iter().any(|field| field.name == *name))
    };
    let examples = entry.examples.iter().map(|example| example.says);
    let said: Vec<&str> = [entry.title, entry.about].into_iter().chain(examples).chain(entry.each_word()).collect();
    let said = said.join(" ").to_lowercase();
    let named = |machine: &Machine| said.matches(&machine.name.to_lowercase()).count();
    let machines = shop::installed()?.machines.iter().filter(fits);
    // The first of those that are named equally often.
    machines.rev().max_by_key(|machine| named(machine))
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
