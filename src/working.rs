//! The record of one calculation: the steps and their formulas, what was assumed, notes, cautions
//! and sources. A step names where each of its numbers comes from, so that a test can follow every
//! number back to an input, a cited constant or an earlier step.

mod column;
pub mod formula;
mod known_steps;
mod lacks;
mod steps;

pub use column::column;
pub(crate) use known_steps::known_steps;
pub use steps::{By, Shown, Step, StepIn};

use crate::json::{Json, ToJson};
use crate::quantity::System;
use crate::sources::{Source, Trust, source};
use crate::tree::{IntoTree, Node};
use std::borrow::Cow;
use steps::With;

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
    /// Where only the result is wanted, as in a table of very many rows, nothing is put on record.
    only_result: bool,
    /// The system that an input without a unit belongs to, and why; for where no input has one.
    implied_units: Option<(System, &'static str)>,
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

    /// A record on which nothing is put, for a result alone.
    pub fn of_result_alone() -> Self {
        Self { only_result: true, ..Self::default() }
    }

    /// Whether it is such a record.
    pub fn is_of_result_alone(&self) -> bool {
        self.only_result
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
        if self.only_result {
            return;
        }
        if let Some(value) = value.tree() {
            self.assumed.push(Assumed { field, value, says: says.into() });
        }
    }

    /// Says which system an input without a unit belongs to, and why.
    pub fn imply_units(&mut self, system: System, says: &'static str) {
        self.implied_units = Some((system, says));
    }

    /// The system to answer in where no input has one, and why.
    pub fn units_implied(&self) -> (System, &'static str) {
        self.implied_units.unwrap_or((System::Metric, "No input is in inch or metric units."))
    }

    /// Adds a note.
    pub fn note(&mut self, code: &'static str, says: impl Into<Cow<'static, str>>) {
        if self.only_result {
            return;
        }
        self.notes.push(Remark { code, says: says.into() });
    }

    /// Adds a note before all others, for what must be read first.
    pub fn note_first(&mut self, code: &'static str, says: impl Into<Cow<'static, str>>) {
        if !self.only_result {
            self.notes.insert(0, Remark { code, says: says.into() });
        }
    }

    /// Adds a caution before all others, for what this answer itself would do.
    pub fn caution_first(&mut self, code: &'static str, says: impl Into<Cow<'static, str>>) {
        if !self.only_result {
            self.cautions.retain(|caution| caution.code != code);
            self.cautions.insert(0, Remark { code, says: says.into() });
        }
    }

    /// Adds cautions, each once.
    pub fn cautions(&mut self, all: &[(&'static str, &'static str)]) {
        all.iter().for_each(|caution| self.caution(*caution));
    }

    /// Adds a caution, once.
    pub fn caution(&mut self, (code, says): (&'static str, &'static str)) {
        if !self.only_result && !self.cautions.iter().any(|c| c.code == code) {
            self.cautions.push(Remark { code, says: Cow::Borrowed(says) });
        }
    }

    /// Cites a source, once for each place.
    pub fn source(&mut self, key: &'static str, place: impl Into<Cow<'static, str>>) {
        if self.only_result {
            return;
        }
        if let Some(source) = source(key) {
            self.cite(source, place.into(), source.trust);
        }
    }

    /// Cites a source for a value of less trust than the source as a whole.
    pub fn source_trusted(&mut self, key: &'static str, place: impl Into<Cow<'static, str>>, trust: Trust) {
        if self.only_result {
            return;
        }
        if let Some(source) = source(key) {
            self.cite(source, place.into(), trust.max(source.trust));
        }
    }

    /// Cites a source for what a row of a table holds; `trust` is the row's own word for how far it can be trusted.
    pub fn source_of_row(&mut self, key: &'static str, place: impl Into<Cow<'static, str>>, trust: &str) {
        self.source_trusted(key, place, Trust::named(trust).unwrap_or(Trust::FromMemory));
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

impl ToJson for Remark {
    fn write(&self, json: &mut Json) {
        json.object(|json| {
            json.member("code", self.code);
            json.member("says", &self.says);
        });
    }
}

impl ToJson for Assumed {
    fn write(&self, json: &mut Json) {
        json.object(|json| {
            json.member("field", self.field);
            json.member("value", &self.value);
            json.member("says", &self.says);
        });
    }
}
