//! Choosing a spindle speed that the machine has, when the exact one is known.

use super::{
    CutDiameter, Held, Limit, Names, Toward, WantedSpeed, as_stated, at_most, check_steps, cutting_speed_at,
    exact_speed, fall, si, steps_within, to_try,
};
use crate::declared::{Asks, Gives};
use crate::quantity::{
    CuttingSpeed, FoundCuttingSpeed, FoundPercentage, FoundSpindleSpeed, Percentage, SiValue, SpindleSpeed, Unit, kind,
    text,
};
use crate::refusal::Refusal;
use crate::working::Record;
use std::f64::consts::PI;
use validator::ValidationError;

/// The speeds a machine has, as a request states them.
#[derive(Clone, Debug, Default, Asks)]
#[asks(check = SpindleLimits::check)]
pub struct SpindleLimits {
    /// Slowest speed to be used; no limit if absent.
    pub slowest: Option<SpindleSpeed>,
    /// Fastest speed to be used, by the machine, the chuck, the holder or the tool; no limit if absent.
    pub fastest: Option<SpindleSpeed>,
    /// The speeds that gears or pulleys give, in any order; any speed if absent. Those outside slowest to fastest are left out.
    pub available: Option<Vec<SpindleSpeed>>,
    /// How far above the exact speed the speed chosen may be, in percent of the exact speed.
    #[absent("0", "The speed is taken at or below the exact one, which spares the tool.")]
    pub may_exceed: Option<Percentage>,
}

/// The speed chosen, and its neighbours.
#[derive(Clone, Debug)]
pub struct ChosenSpeed {
    /// The speed; none if even the slowest is faster than allowed.
    pub speed: Option<FoundSpindleSpeed>,
    /// The greatest step at or below the exact speed.
    pub below: Option<SpindleSpeed>,
    /// The least step above the exact speed; without steps, the slowest speed where that is above it.
    pub above: Option<SpindleSpeed>,
    /// The limits that do not allow the exact speed.
    pub limited_by: Vec<Limit>,
}

const NAMES: Names = Names { list: "available", least: "slowest", most: "fastest" };

/// The speed that is set.
#[derive(Clone, Copy, Debug, Gives)]
pub struct SetSpeed {
    /// Spindle speed to set.
    pub spindle_speed: FoundSpindleSpeed,
    /// Speed that gives the cutting speed exactly.
    pub exact_speed: FoundSpindleSpeed,
    /// Cutting speed at the spindle speed to set.
    pub cutting_speed: FoundCuttingSpeed,
}

impl SetSpeed {
    /// By how much the spindle speed is below the exact one: the step that gives `speed_fall`.
    pub fn fall(&self, record: &mut Record) -> Option<FoundPercentage> {
        fall("speed_fall", ("exact_speed", self.exact_speed), ("spindle_speed", self.spindle_speed), record)
    }
}

impl SpindleLimits {
    /// Refuses limits that contradict each other or leave no speed.
    pub fn check(&self) -> Result<(), ValidationError> {
        check_steps(&NAMES, self.available.as_deref(), self.slowest.as_ref(), self.fastest.as_ref())
    }

    /// Sets a cutting speed at a diameter; records the steps that give `exact_speed`, `spindle_speed` and
    /// `cutting_speed`.
    pub fn set(
        &self,
        wanted: WantedSpeed,
        across: CutDiameter,
        record: &mut Record,
    ) -> Result<(SetSpeed, Held), Refusal> {
        let exact_speed = exact_speed(wanted, across, record)?;
        let chosen = self.choose(exact_speed, record);
        let spindle_speed =
            chosen.speed.ok_or_else(|| self.no_speed((exact_speed, chosen.above), &wanted.speed, across))?;
        let cutting_speed = cutting_speed_at("cutting_speed", ("spindle_speed", spindle_speed), across, record);
        Ok((SetSpeed { spindle_speed, exact_speed, cutting_speed }, Held::of(exact_speed, chosen.limited_by)))
    }

    /// Chooses the speed for `exact`: the exact one where the machine has it, else the one below,
    /// or the one above where `may_exceed` allows that. Records the step that gives `spindle_speed`.
    pub fn choose(&self, exact: FoundSpindleSpeed, record: &mut Record) -> ChosenSpeed {
        let n = exact.get().si();
        let over = if self.available.is_some() || self.slowest.is_some() {
            self.may_exceed(record)
        } else {
            if self.may_exceed.is_some() {
                record.note("may_exceed_without_effect", "may_exceed matters only with available or slowest.");
            }
            Percentage::stated(0.0, Unit::Percent)
        };
        let highest = n * (1.0 + si(&over));
        let chosen = match &self.available {
            Some(list) => self.choose_step(list, exact, highest, record),
            None => self.choose_between(exact, highest),
        };
        let (mut chosen, rule) = chosen;
        chosen.limited_by = self.limits_on(n, chosen.limited_by);
        match chosen.speed {
            Some(speed) => {
                let mut step =
                    record.choose("Spindle speed that the machine has", rule).with("n", "exact_speed", exact);
                if let Some(slowest) = self.slowest {
                    step = step.with("L", "slowest", slowest);
                }
                if let Some(fastest) = self.fastest {
                    step = step.with("F", "fastest", fastest);
                }
                if let Some(list) = &self.available {
                    step = step.with("A", "available", list.as_slice());
                }
                step.gives("spindle_speed", speed);
                if !at_most(speed.get().si(), n) {
                    record.note(
                        "above_exact",
                        "The speed chosen is above the exact one, as may_exceed allows; the tool wears faster for it.",
                    );
                }
            }
            None => self.note_none(n, chosen.above, record),
        }
        chosen
    }

    /// Any speed between the limits.
    fn choose_between(&self, exact: FoundSpindleSpeed, highest: f64) -> (ChosenSpeed, &'static str) {
        let n = exact.get().si();
        let mut chosen = ChosenSpeed { speed: Some(exact), below: None, above: None, limited_by: Vec::new() };
        if let Some(fastest) = self.fastest
            && n > si(&fastest)
        {
            chosen.speed = Some(fastest.found());
            return (chosen, "the fastest, the exact speed being above it");
        }
        if let Some(slowest) = self.slowest
            && n < si(&slowest)
        {
            chosen.speed = at_most(si(&slowest), highest).then(|| slowest.found());
            chosen.above = (!at_most(si(&slowest), n)).then_some(slowest);
            return (chosen, "the slowest, which is above the exact speed by no more than may_exceed");
        }
        (chosen, "the exact speed, which no limit forbids")
    }

    /// One of the steps.
    fn choose_step(
        &self,
        list: &[SpindleSpeed],
        exact: FoundSpindleSpeed,
        highest: f64,
        record: &mut Record,
    ) -> (ChosenSpeed, &'static str) {
        let n = exact.get().si();
        let steps = steps_within(list, self.slowest.as_ref(), self.fastest.as_ref());
        if steps.len() < steps_within(list, None, None).len() {
            record.note("steps_left_out", "Speeds of available that lie outside slowest to fastest were left out.");
        }
        let below = steps.iter().rev().find(|step| at_most(si(*step), n)).copied();
        let above = steps.iter().find(|step| !at_most(si(*step), n)).copied();
        let exactly = below.filter(|step| at_most(n, si(step)));
        let allowed = above.filter(|step| at_most(si(step), highest));
        let limited_by = if exactly.is_some() { Vec::new() } else { vec![Limit::Available] };
        let (speed, rule) = match (exactly, allowed) {
            (Some(_), _) => (exactly, "the step that is the exact speed"),
            (None, Some(_)) => (allowed, "the step above the exact speed, which may_exceed allows"),
            (None, None) => (below, "the greatest step at or below the exact speed"),
        };
        (ChosenSpeed { speed: speed.map(|step| step.found()), below, above, limited_by }, rule)
    }

    /// Every limit that by itself does not allow `n`, in the order of the fields.
    fn limits_on(&self, n: f64, steps: Vec<Limit>) -> Vec<Limit> {
        let mut limits = Vec::with_capacity(2);
        if self.slowest.is_some_and(|slowest| !at_most(si(&slowest), n)) {
            limits.push(Limit::Slowest);
        }
        if self.fastest.is_some_and(|fastest| !at_most(n, si(&fastest))) {
            limits.push(Limit::Fastest);
        }
        limits.extend(steps);
        limits
    }

    fn note_none(&self, n: f64, slowest: Option<SpindleSpeed>, record: &mut Record) {
        let Some(slowest) = slowest else { return };
        let percent = text::round((si(&slowest) / n - 1.0) * 100.0, 1);
        record.note(
            "no_speed_slow_enough",
            format!(
                "No speed is chosen: the slowest, {}, is {} percent above the exact one, more than may_exceed allows. \
                 What it gives stands under above.",
                as_stated(&slowest),
                text::full(percent)
            ),
        );
    }

    /// Not even the slowest speed will do.
    pub fn no_speed(
        &self,
        (exact, slowest): (FoundSpindleSpeed, Option<SpindleSpeed>),
        cutting_speed: &CuttingSpeed,
        across: CutDiameter,
    ) -> Refusal {
        let says = "The slowest speed that may be used is above the exact speed by more than may_exceed allows; cut faster \
                    only if the tool maker allows it.";
        match slowest {
            Some(slowest) => Refusal::no_answer(says, &self.ways_out((exact, slowest), cutting_speed, across)),
            None => Refusal::no_answer(says, &[("available", "leave out".to_owned())]),
        }
    }

    /// Where not even the slowest speed will do: the fields that could change that, each with a value.
    /// may_exceed is not among them: how far a tool may be overdriven is not ours to suggest.
    pub fn ways_out(
        &self,
        (exact, slowest): (FoundSpindleSpeed, SpindleSpeed),
        cutting_speed: &CuttingSpeed,
        across: CutDiameter,
    ) -> Vec<(&'static str, String)> {
        let (n, lowest) = (exact.get().si(), si(&slowest));
        let slowest_binds = self.slowest.is_some_and(|limit| !at_most(si(&limit), n));
        let low_enough = match (to_try::<kind::SpindleSpeed>(n, Unit::Rpm, Toward::Less), self.slowest) {
            // Rounded down, the value must not fall below a slowest limit that allows the exact speed.
            (Some(_), Some(limit)) if !slowest_binds => Some(as_stated(&limit)),
            (value, _) => value,
        };
        let machine = match &self.available {
            None => ("slowest", low_enough),
            Some(_) if !slowest_binds => {
                ("available", low_enough.map(|step| format!("{step},{}", as_stated(&slowest))))
            }
            // A step that the limit left out may be slow enough.
            Some(list) => {
                let steps = steps_within(list, None, None);
                ("slowest", steps.iter().rev().find(|step| at_most(si(*step), n)).map(as_stated))
            }
        };
        let diameter = &across.size;
        let machine_field = machine.0;
        let faster =
            to_try::<kind::CuttingSpeed>(PI * si(diameter) * lowest, cutting_speed.quantity().unit, Toward::More);
        let smaller = to_try::<kind::Size>(si(cutting_speed) / (PI * lowest), diameter.quantity().unit, Toward::Less);
        let machine = (Some(machine.0), machine.1);
        let mut ways: Vec<_> = [machine, (Some("cutting_speed"), faster), (across.field(), smaller)]
            .into_iter()
            .filter_map(|(field, value)| field.zip(value))
            .collect();
        if ways.is_empty() {
            ways.push((machine_field, "leave out".to_owned()));
        }
        ways
    }
}
