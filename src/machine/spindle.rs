//! Choosing a spindle speed that the machine has, when the exact one is known.

use super::{
    CutDiameter, Held, Limit, Names, Wanted, as_stated, at_most, check_some_within, check_steps, cutting_speed_at,
    exact_speed, fall, si, steps_within,
};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::quantity::{
    FoundCuttingSpeed, FoundPercentage, FoundSpindleSpeed, Percentage, SiValue, SpindleSpeed, Unit, text,
};
use crate::refusal::Refusal;
use crate::working::Record;
use std::f64::consts::PI;
use validator::ValidationError;

/// From this diameter on a chuck's, a faceplate's or a wheel's own speed limit is soon reached.
const BIG: f64 = 0.15;
/// From this share of the fastest speed on it is near.
const NEAR: f64 = 0.9;

/// The speeds a machine has, as a request states them.
#[derive(Clone, Debug, Default, Asks)]
#[asks(check = SpindleLimits::check)]
pub struct SpindleLimits {
    /// Slowest speed to use; no limit if absent.
    #[label("Slowest speed")]
    pub slowest: Option<SpindleSpeed>,
    /// Fastest speed to use: the lowest limit of machine, chuck, holder and tool; no limit if absent.
    #[label("Fastest speed")]
    pub fastest: Option<SpindleSpeed>,
    /// The speeds that the gears or pulleys give, in any order; any speed if absent. Those outside the slowest and fastest speed are left out.
    #[label("Speeds the machine has")]
    pub available: Option<Vec<SpindleSpeed>>,
    /// How far above the exact speed the speed to set may be, in percent of the exact speed.
    #[label("Allowed above exact speed")]
    #[absent("0", "The speed to set is at or below the exact one, which is easier on the tool.")]
    pub may_exceed: Option<Percentage>,
}

/// The speed chosen, and its neighbors.
#[derive(Clone, Debug)]
pub struct ChosenSpeed {
    /// The speed: the nearest one where even the slowest is faster than allowed.
    pub speed: FoundSpindleSpeed,
    /// The greatest step at or below the exact speed.
    pub below: Option<SpindleSpeed>,
    /// The least step above the exact speed; without steps, the slowest speed where that is above it.
    pub above: Option<SpindleSpeed>,
    /// The limits that do not allow the exact speed.
    pub limited_by: Vec<Limit>,
}

const NAMES: Names = Names { what: "speed", list: "available", least: "slowest", most: "fastest" };

/// The speed that is set.
#[derive(Clone, Copy, Debug, Gives)]
pub struct SetSpeed {
    /// Spindle speed to set.
    pub spindle_speed: FoundSpindleSpeed,
    /// Spindle speed that gives the wanted cutting speed exactly.
    #[label("Exact spindle speed")]
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
    /// Refuses limits that contradict each other, and an empty list.
    pub fn check(&self) -> Result<(), ValidationError> {
        check_steps(&NAMES, self.available.as_deref(), self.slowest.as_ref(), self.fastest.as_ref())
    }

    /// The same of a machine itself, whose steps must not all lie outside its own limits.
    pub fn check_machine(&self) -> Result<(), ValidationError> {
        self.check()?;
        let list = self.available.as_deref().unwrap_or_default();
        check_some_within(&NAMES, list, self.slowest.as_ref(), self.fastest.as_ref())
    }

    /// Sets a speed at a diameter; records the steps that give `exact_speed`, `spindle_speed` and `cutting_speed`.
    pub fn set(&self, wanted: Wanted, across: CutDiameter, record: &mut Record) -> Result<(SetSpeed, Held), Refusal> {
        let (set, chosen) = self.set_among(wanted, across, record)?;
        Ok((set, Held::of(set.exact_speed, chosen.limited_by)))
    }

    /// The same, with the neighbors of the speed.
    pub fn set_among(
        &self,
        wanted: Wanted,
        across: CutDiameter,
        record: &mut Record,
    ) -> Result<(SetSpeed, ChosenSpeed), Refusal> {
        let exact_speed = exact_speed(wanted, across, record)?;
        let chosen = self.choose(exact_speed, record);
        let spindle_speed = chosen.speed;
        let cutting_speed = cutting_speed_at("cutting_speed", ("spindle_speed", spindle_speed), across, record);
        let set = SetSpeed { spindle_speed, exact_speed, cutting_speed };
        self.compare(wanted, across, (&set, &chosen), record);
        let near = |fastest: SpindleSpeed| spindle_speed.get().si() >= NEAR * si(&fastest);
        if si(&across.size) >= BIG || self.fastest.is_some_and(near) {
            record.caution(cautions::RATED_SPEED);
        }
        Ok((set, chosen))
    }

    /// Says where what is set lies against what is published.
    fn compare(
        &self,
        wanted: Wanted,
        across: CutDiameter,
        (set, chosen): (&SetSpeed, &ChosenSpeed),
        record: &mut Record,
    ) {
        let Some(published) = wanted.published() else { return };
        let speed = set.cutting_speed.get().si();
        let rim = |step: &SpindleSpeed| PI * si(&across.size) * si(step);
        let inside = chosen.above.filter(|step| !published.is_above(rim(step)) && !published.is_below(rim(step)));
        let next = match inside {
            Some(step) => {
                format!(" {} would be within the range, if you allow more above the exact speed.", as_stated(&step))
            }
            None => String::new(),
        };
        let means = format!("slower is easier on the tool but takes longer.{next}");
        let what = ("speed_below_published", "The cutting speed set");
        published.tell_if_below(speed, what, &means, record);
        if !matches!(wanted, Wanted::Turns(..)) || published.is_above(speed) {
            return;
        }
        let words = published.words();
        if published.is_below(speed) {
            record.note_first(
                "above_published",
                format!("This spindle speed gives a cutting speed above the published {words}."),
            );
        } else {
            record.note(
                "within_published",
                format!("The cutting speed at this spindle speed is within the published {words}."),
            );
        }
    }

    /// Chooses the speed for `exact`: the exact one where the machine has it, else the one below, or the one above
    /// where `may_exceed` allows that; the nearest, with a caution, where none of these is. Records the step that gives
    /// `spindle_speed`.
    pub fn choose(&self, exact: FoundSpindleSpeed, record: &mut Record) -> ChosenSpeed {
        let n = exact.get().si();
        let over = if self.available.is_some() || self.slowest.is_some() {
            self.may_exceed(record)
        } else {
            if self.may_exceed.is_some() {
                record.note(
                    "may_exceed_without_effect",
                    "The allowance above the exact speed changes nothing without a list of speeds or a slowest speed.",
                );
            }
            Percentage::stated(0.0, Unit::Percent)
        };
        let highest = n * (1.0 + si(&over));
        let (mut chosen, rule) = match &self.available {
            Some(list) => self.choose_step(list, exact, highest, record),
            None => self.choose_between(exact, highest),
        };
        chosen.limited_by = self.limits_on(n, chosen.limited_by);
        let mut step = record.choose("Spindle speed to set", rule).with("n", "exact_speed", exact);
        if let Some(slowest) = self.slowest {
            step = step.with("L", "slowest", slowest);
        }
        if let Some(fastest) = self.fastest {
            step = step.with("F", "fastest", fastest);
        }
        if let Some(list) = &self.available {
            step = step.with("A", "available", list.as_slice());
        }
        step.gives("spindle_speed", chosen.speed);
        self.warn(n, highest, &chosen, record);
        chosen
    }

    /// Any speed between the limits.
    fn choose_between(&self, exact: FoundSpindleSpeed, highest: f64) -> (ChosenSpeed, &'static str) {
        let n = exact.get().si();
        let mut chosen = ChosenSpeed { speed: exact, below: None, above: None, limited_by: Vec::new() };
        if let Some(fastest) = self.fastest
            && n > si(&fastest)
        {
            chosen.speed = fastest.found();
            return (chosen, "the fastest speed, because the exact speed is above it");
        }
        if let Some(slowest) = self.slowest
            && n < si(&slowest)
        {
            chosen.speed = slowest.found();
            chosen.above = (!at_most(si(&slowest), n)).then_some(slowest);
            let rule = if at_most(si(&slowest), highest) {
                "the slowest speed, which is above the exact speed by no more than allowed"
            } else {
                "the slowest speed, the nearest to the exact speed"
            };
            return (chosen, rule);
        }
        (chosen, "the exact speed, which is within every limit")
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
        let mut steps = steps_within(list, self.slowest.as_ref(), self.fastest.as_ref());
        if steps.len() < steps_within(list, None, None).len() {
            record.note(
                "steps_left_out",
                "Speeds of the machine below the slowest or above the fastest speed to use were left out.",
            );
        }
        if steps.is_empty() {
            // What is too slow for the machine's manual hurts nobody; what is too fast for a chuck does.
            steps = steps_within(list, None, self.fastest.as_ref());
        }
        let below = steps.iter().rev().find(|step| at_most(si(*step), n)).copied();
        let above = steps.iter().find(|step| !at_most(si(*step), n)).copied();
        let exactly = below.filter(|step| at_most(n, si(step)));
        let allowed = above.filter(|step| at_most(si(step), highest));
        let limited_by = if exactly.is_some() { Vec::new() } else { vec![Limit::Available] };
        let (speed, rule) = match (exactly, allowed, below, above) {
            (Some(step), ..) => (step.found(), "the speed of the machine that is the exact speed"),
            (None, Some(step), ..) => (step.found(), "the next speed above the exact one, which the allowance permits"),
            (None, None, Some(step), _) => {
                (step.found(), "the fastest speed of the machine at or below the exact speed")
            }
            (None, None, None, Some(step)) => {
                (step.found(), "the slowest speed of the machine, the nearest to the exact speed")
            }
            (None, None, None, None) => match self.fastest.filter(|fastest| si(fastest) < n) {
                Some(fastest) => {
                    (fastest.found(), "the fastest speed to use, because no speed of the machine is that slow")
                }
                None => (exact, "the exact speed, because no speed of the machine is allowed"),
            },
        };
        (ChosenSpeed { speed, below, above, limited_by }, rule)
    }

    /// Warns of a speed that is above the exact one, and of a machine that has none that is allowed.
    fn warn(&self, n: f64, highest: f64, chosen: &ChosenSpeed, record: &mut Record) {
        let speed = chosen.speed.get().si();
        if let (Some(fastest), None, None, Some(list)) = (self.fastest, chosen.below, chosen.above, &self.available)
            && let Some(slowest) = steps_within(list, None, None).first()
        {
            record.caution_first(
                "no_speed_allowed",
                format!(
                    "Do not run it: the slowest speed of the machine, {}, is above the fastest speed to use, {}. The \
                     machine does not have the speed given here.",
                    as_stated(slowest),
                    as_stated(&fastest)
                ),
            );
        } else if at_most(speed, n) {
        } else if at_most(speed, highest) {
            record.note(
                "above_exact",
                "The speed to set is above the exact one, as you allowed; the tool wears faster for it.",
            );
        } else if let Some(slowest) = chosen.above {
            record.caution_first(
                "too_fast",
                format!(
                    "The slowest speed of the machine, {}, is {} percent above the exact one: the tool runs hot, dulls \
                     or breaks. Use a smaller diameter, a tool that stands more speed, or a slower machine; run it only if \
                     the tool maker allows it.",
                    as_stated(&slowest),
                    text::full(text::round((speed / n - 1.0) * 100.0, 0))
                ),
            );
        }
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
}
