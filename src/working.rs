//! The record of one calculation: the steps and their formulas, what was assumed, notes, cautions
//! and sources. A step names where each of its numbers comes from, so that a test can follow every
//! number back to an input, a cited constant or an earlier step.

use crate::quantity::{Found, Kind, Measure, Quantity, System, text};
use crate::sources::{Source, Trust, source};
use crate::tree::{IntoTree, Node};
use serde::ser::{Serialize, SerializeMap, SerializeStruct, Serializer};
use std::borrow::Cow;
use std::fmt::Write;

/// How a step comes to what it gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// By evaluating its formula.
    Formula,
    /// By looking it up in a table.
    Table,
    /// By choosing one of the values it shows.
    Choice,
}

impl By {
    /// The word in the answer.
    pub const fn as_str(self) -> &'static str {
        match self {
            By::Formula => "formula",
            By::Table => "table",
            By::Choice => "choice",
        }
    }
}

/// A value in a step.
#[derive(Clone, Debug)]
pub enum Shown {
    /// A quantity asked for, shown as it was stated.
    Stated(Quantity),
    /// A quantity found, shown in the answer's units.
    Quantity(Quantity),
    /// A plain number.
    Number(f64),
    /// Words.
    Text(Cow<'static, str>),
    /// One quantity asked for, for each row of a list.
    StatedList(Vec<Quantity>),
    /// One quantity found, for each row of a list.
    Quantities(Vec<Quantity>),
    /// One number for each row of a list.
    Numbers(Vec<f64>),
    /// One word for each row of a list.
    Texts(Vec<Cow<'static, str>>),
}

impl Shown {
    fn quantities(&self) -> &[Quantity] {
        match self {
            Shown::Quantity(quantity) => std::slice::from_ref(quantity),
            Shown::Quantities(list) => list,
            _ => &[],
        }
    }

    /// The same with limits as they are printed.
    fn as_printed(&self) -> Self {
        match self {
            Shown::Quantity(quantity) => Shown::Quantity(quantity.as_printed()),
            Shown::Quantities(list) => Shown::Quantities(list.iter().map(Quantity::as_printed).collect()),
            other => other.clone(),
        }
    }
}

impl<K: Kind> From<Measure<K>> for Shown {
    fn from(measure: Measure<K>) -> Self {
        Shown::Stated(measure.quantity())
    }
}

impl<K: Kind> From<Found<K>> for Shown {
    fn from(found: Found<K>) -> Self {
        Shown::Quantity(found.quantity())
    }
}

impl<K: Kind> From<Vec<Found<K>>> for Shown {
    fn from(found: Vec<Found<K>>) -> Self {
        Shown::Quantities(found.iter().map(Found::quantity).collect())
    }
}

impl<K: Kind> From<&[Measure<K>]> for Shown {
    fn from(measures: &[Measure<K>]) -> Self {
        Shown::StatedList(measures.iter().map(Measure::quantity).collect())
    }
}

impl From<f64> for Shown {
    fn from(number: f64) -> Self {
        Shown::Number(number)
    }
}

impl From<u32> for Shown {
    fn from(count: u32) -> Self {
        Shown::Number(f64::from(count))
    }
}

impl From<Vec<f64>> for Shown {
    fn from(numbers: Vec<f64>) -> Self {
        Shown::Numbers(numbers)
    }
}

impl From<&'static str> for Shown {
    fn from(text: &'static str) -> Self {
        Shown::Text(Cow::Borrowed(text))
    }
}

impl From<String> for Shown {
    fn from(text: String) -> Self {
        Shown::Text(text.into())
    }
}

impl From<bool> for Shown {
    fn from(truth: bool) -> Self {
        Shown::Text(Cow::Borrowed(if truth { "true" } else { "false" }))
    }
}

impl From<Vec<&'static str>> for Shown {
    fn from(texts: Vec<&'static str>) -> Self {
        Shown::Texts(texts.into_iter().map(Cow::Borrowed).collect())
    }
}

/// A symbol of a formula: what it stands for and its value.
#[derive(Clone, Debug)]
struct With {
    symbol: &'static str,
    of: Cow<'static, str>,
    value: Shown,
}

/// One step.
#[derive(Clone, Debug)]
pub struct Step {
    what: Cow<'static, str>,
    by: By,
    formula: Cow<'static, str>,
    with: Vec<With>,
    field: Cow<'static, str>,
    gives: Shown,
}

/// A step being written; kept only if the working is wanted.
pub struct StepDraft<'r> {
    record: &'r mut Record,
    what: Cow<'static, str>,
    by: By,
    formula: Cow<'static, str>,
    with: Vec<With>,
}

impl StepDraft<'_> {
    /// A symbol of the formula that stands for the input or earlier result `of`.
    pub fn with(mut self, symbol: &'static str, of: &'static str, value: impl Into<Shown>) -> Self {
        if self.record.keep_working {
            self.with.push(With { symbol, of: of.into(), value: value.into() });
        }
        self
    }

    /// A symbol that stands for a constant of the trade or of a standard.
    pub fn constant(self, symbol: &'static str, value: &Constant) -> Self {
        self.record.source(value.source, value.place);
        self.with(symbol, value.of, value.value)
    }

    /// Ends the step: the result field or the intermediate value `field` it gives.
    pub fn gives(self, field: &'static str, value: impl Into<Shown>) {
        if self.record.keep_working {
            let Self { record, what, by, formula, with } = self;
            record.steps.push(Step { what, by, formula, with, field: field.into(), gives: value.into() });
        }
    }
}

/// A cited constant.
#[derive(Debug)]
pub struct Constant {
    /// How a step names it: `constant:name`.
    pub of: &'static str,
    /// Its value.
    pub value: f64,
    /// Key of its source.
    pub source: &'static str,
    /// Where in the source.
    pub place: &'static str,
}

/// A default that was used.
#[derive(Clone, Debug)]
pub struct Assumed {
    /// The field that was not given.
    pub field: &'static str,
    /// What was taken for it.
    pub value: Node,
    /// Why.
    pub says: Cow<'static, str>,
}

/// Something to know about the answer, or to beware of.
#[derive(Clone, Debug)]
pub struct Remark {
    /// A short name that does not change.
    pub code: &'static str,
    /// The words.
    pub says: Cow<'static, str>,
}

/// A source as used.
#[derive(Clone, Debug)]
pub struct Used {
    /// The source.
    pub source: &'static Source,
    /// Where in it.
    pub place: Cow<'static, str>,
    /// How far what was taken from it can be trusted.
    pub trust: Trust,
}

/// The record of one calculation.
#[derive(Debug, Default)]
pub struct Record {
    keep_working: bool,
    /// The steps, in order.
    pub steps: Vec<Step>,
    /// Defaults used.
    pub assumed: Vec<Assumed>,
    /// Notes.
    pub notes: Vec<Remark>,
    /// Cautions.
    pub cautions: Vec<Remark>,
    /// Sources used.
    pub sources: Vec<Used>,
}

impl Record {
    /// An empty record; without `keep_working` steps are not kept.
    pub fn new(keep_working: bool) -> Self {
        Self { keep_working, ..Self::default() }
    }

    /// Begins a step that evaluates `formula`.
    pub fn step(&mut self, what: impl Into<Cow<'static, str>>, formula: impl Into<Cow<'static, str>>) -> StepDraft<'_> {
        StepDraft { record: self, what: what.into(), by: By::Formula, formula: formula.into(), with: Vec::new() }
    }

    /// Begins a step that looks something up; `table` says where.
    pub fn look_up(
        &mut self,
        what: impl Into<Cow<'static, str>>,
        table: impl Into<Cow<'static, str>>,
    ) -> StepDraft<'_> {
        StepDraft { record: self, what: what.into(), by: By::Table, formula: table.into(), with: Vec::new() }
    }

    /// Begins a step that chooses among values shown; `rule` says how.
    pub fn choose(&mut self, what: impl Into<Cow<'static, str>>, rule: impl Into<Cow<'static, str>>) -> StepDraft<'_> {
        StepDraft { record: self, what: what.into(), by: By::Choice, formula: rule.into(), with: Vec::new() }
    }

    /// `given`, or the default with its reason put on record.
    pub fn or_assume<T: IntoTree>(
        &mut self,
        given: Option<T>,
        field: &'static str,
        default: T,
        says: impl Into<Cow<'static, str>>,
    ) -> T {
        match given {
            Some(value) => value,
            None => {
                self.assume(field, &default, says);
                default
            }
        }
    }

    /// Puts a default on record.
    pub fn assume(&mut self, field: &'static str, value: &impl IntoTree, says: impl Into<Cow<'static, str>>) {
        if let Some(value) = value.tree() {
            self.assumed.push(Assumed { field, value, says: says.into() });
        }
    }

    /// Adds a note.
    pub fn note(&mut self, code: &'static str, says: impl Into<Cow<'static, str>>) {
        self.notes.push(Remark { code, says: says.into() });
    }

    /// Adds a caution, once.
    pub fn caution(&mut self, (code, says): (&'static str, &'static str)) {
        if !self.cautions.iter().any(|c| c.code == code) {
            self.cautions.push(Remark { code, says: Cow::Borrowed(says) });
        }
    }

    /// Cites a source, once for each place.
    pub fn source(&mut self, key: &'static str, place: impl Into<Cow<'static, str>>) {
        if let Some(source) = source(key) {
            self.cite(source, place.into(), source.trust);
        }
    }

    /// Cites a source for a value of less trust than the source as a whole.
    pub fn source_trusted(&mut self, key: &'static str, place: impl Into<Cow<'static, str>>, trust: Trust) {
        if let Some(source) = source(key) {
            self.cite(source, place.into(), trust.max(source.trust));
        }
    }

    fn cite(&mut self, source: &'static Source, place: Cow<'static, str>, trust: Trust) {
        let same = |used: &Used| used.source.key == source.key && used.place == place && used.trust == trust;
        if !self.sources.iter().any(same) {
            self.sources.push(Used { source, place, trust });
        }
    }

    /// Notes that limits come from the other system and are rounded inward, and makes two steps of
    /// each that gives one: the limit as printed, and its rounding.
    pub fn round_limits(&mut self, system: System) {
        self.note(
            "limits_inward",
            "The limits come from the other system and are rounded inward, the greatest down and the least up, so \
             that what meets them meets the limits as printed.",
        );
        let rounds = |shown: &Shown| shown.quantities().iter().any(|quantity| quantity.rounds_in(system));
        let printed = |name: &str| Cow::Owned(format!("{name}.as_printed"));
        for mut step in std::mem::take(&mut self.steps) {
            for part in step.with.iter_mut().filter(|part| rounds(&part.value)) {
                part.of = printed(&part.of);
                part.value = part.value.as_printed();
            }
            if !rounds(&step.gives) {
                self.steps.push(step);
                continue;
            }
            let as_printed = step.gives.as_printed();
            let rounding = Step {
                what: format!("{}, in the units of the answer", step.what).into(),
                by: By::Table,
                formula: "rounded inward at the last place written: a greatest size down, a least size up".into(),
                with: vec![With { symbol: "x", of: printed(&step.field), value: as_printed.clone() }],
                field: step.field.clone(),
                gives: std::mem::replace(&mut step.gives, as_printed),
            };
            step.field = printed(&step.field);
            self.steps.extend([step, rounding]);
        }
    }

    /// The worst trust of the sources used.
    pub fn trust(&self) -> Trust {
        self.sources.iter().map(|used| used.trust).max().unwrap_or(Trust::Derivation)
    }
}

impl Serialize for Remark {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut remark = serializer.serialize_struct("Remark", 2)?;
        remark.serialize_field("code", self.code)?;
        remark.serialize_field("says", &self.says)?;
        remark.end()
    }
}

impl Serialize for Assumed {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut assumed = serializer.serialize_struct("Assumed", 3)?;
        assumed.serialize_field("field", self.field)?;
        assumed.serialize_field("value", &self.value)?;
        assumed.serialize_field("says", &self.says)?;
        assumed.end()
    }
}

impl Serialize for Used {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut used = serializer.serialize_struct("Used", 4)?;
        used.serialize_field("key", self.source.key)?;
        used.serialize_field("title", self.source.title)?;
        used.serialize_field("where", &self.place)?;
        used.serialize_field("trust", self.trust.as_str())?;
        used.end()
    }
}

/// A step as an answer of `system` writes it. Inputs stand as they were stated.
pub struct StepIn<'s>(pub &'s Step, pub System);

impl Serialize for StepIn<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self(step, system) = self;
        let mut map = serializer.serialize_map(Some(5))?;
        map.serialize_entry("what", &step.what)?;
        map.serialize_entry("by", step.by.as_str())?;
        map.serialize_entry("formula", &step.formula)?;
        let mut with = String::with_capacity(64);
        for part in &step.with {
            if !with.is_empty() {
                with.push_str("; ");
            }
            let _ = write!(with, "{} ({}) = ", part.symbol, part.of);
            write_shown(&mut with, &part.value, *system);
        }
        map.serialize_entry("with", &with)?;
        map.serialize_entry("gives", &GivesIn(step, *system))?;
        map.end()
    }
}

fn write_quantity(out: &mut String, quantity: &Quantity) {
    out.push_str(&text::full(text::tidy(quantity.value)));
    out.push(' ');
    out.push_str(quantity.unit.spelling());
}

fn write_shown(out: &mut String, shown: &Shown, system: System) {
    let separate = |out: &mut String, at: usize| {
        if at > 0 {
            out.push_str(", ");
        }
    };
    match shown {
        Shown::Stated(quantity) => write_quantity(out, quantity),
        Shown::Quantity(quantity) => write_quantity(out, &quantity.in_system(system)),
        Shown::Number(number) => out.push_str(&text::full(text::tidy(*number))),
        Shown::Text(words) => out.push_str(words),
        Shown::StatedList(list) => list.iter().enumerate().for_each(|(at, quantity)| {
            separate(out, at);
            write_quantity(out, quantity);
        }),
        Shown::Quantities(list) => list.iter().enumerate().for_each(|(at, quantity)| {
            separate(out, at);
            write_quantity(out, &quantity.in_system(system));
        }),
        Shown::Numbers(list) => list.iter().enumerate().for_each(|(at, number)| {
            separate(out, at);
            out.push_str(&text::full(text::tidy(*number)));
        }),
        Shown::Texts(list) => list.iter().enumerate().for_each(|(at, words)| {
            separate(out, at);
            out.push_str(words);
        }),
    }
}

struct GivesIn<'s>(&'s Step, System);

impl Serialize for GivesIn<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self(step, system) = self;
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("field", &step.field)?;
        match &step.gives {
            Shown::Stated(quantity) | Shown::Quantity(quantity) => {
                let quantity = quantity.in_system(*system);
                map.serialize_entry("value", &quantity.value)?;
                map.serialize_entry("unit", quantity.unit.spelling())?;
                map.serialize_entry("text", &quantity.text())?;
            }
            Shown::Number(number) => map.serialize_entry("value", &text::tidy(*number))?,
            Shown::Text(words) => map.serialize_entry("text", words)?,
            Shown::StatedList(list) | Shown::Quantities(list) => {
                let values: Vec<f64> = list.iter().map(|quantity| quantity.in_system(*system).value).collect();
                map.serialize_entry("values", &values)?;
                if let Some(first) = list.first() {
                    map.serialize_entry("unit", first.in_system(*system).unit.spelling())?;
                }
            }
            Shown::Numbers(list) => {
                map.serialize_entry("values", &list.iter().map(|n| text::tidy(*n)).collect::<Vec<_>>())?;
            }
            Shown::Texts(list) => map.serialize_entry("texts", list)?,
        }
        map.end()
    }
}
