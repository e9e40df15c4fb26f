//! What a hole and a shaft may measure, the sizes to aim at and the clearance that the two leave, with their steps.

use crate::declared::Gives;
use crate::quantity::{FoundFineDifference, FoundFineLowerLimit, FoundFineUpperLimit, FoundGaugeSize, Unit, text};
use crate::working::{Record, known_steps};

crate::choice! {
    /// What a fit comes to: always `clearance`, always `interference`, or `transition`, either of them.
    FitKind {
        /// The shaft is always smaller than the hole.
        Clearance = "clearance",
        /// The shaft may be smaller or larger than the hole.
        Transition = "transition",
        /// The shaft is always larger than the hole.
        Interference = "interference",
    }
}

impl FitKind {
    /// The kind of a fit with that clearance, least and greatest; negative is interference.
    pub fn of(least: f64, greatest: f64) -> Self {
        match () {
            () if least >= 0.0 => FitKind::Clearance,
            () if greatest <= 0.0 => FitKind::Interference,
            () => FitKind::Transition,
        }
    }
}

/// What one part may measure.
#[derive(Clone, Debug, Gives)]
pub struct PartLimits {
    /// Its tolerance class; absent where the standard has no symbol for it.
    #[label("Tolerance class")]
    pub class: Option<String>,
    /// Largest size allowed.
    #[label("Largest")]
    pub greatest: FoundFineUpperLimit,
    /// Smallest size allowed.
    #[label("Smallest")]
    pub least: FoundFineLowerLimit,
    /// Middle of the two, to aim at.
    #[label("Aim at")]
    pub middle: FoundGaugeSize,
    /// Largest size less nominal size.
    pub upper_deviation: FoundFineDifference,
    /// Smallest size less nominal size.
    pub lower_deviation: FoundFineDifference,
    /// Largest less smallest.
    pub tolerance: FoundFineDifference,
}

/// A hole and a shaft, and what they leave between them.
#[derive(Clone, Debug, Gives)]
pub struct FittedPair {
    /// The hole; where the fit names its class.
    pub hole: Option<PartLimits>,
    /// The shaft; where the fit names its class.
    pub shaft: Option<PartLimits>,
    /// Smallest hole less largest shaft; negative is interference. Where the fit names both.
    #[label("Least clearance")]
    pub least_clearance: Option<FoundFineDifference>,
    /// Largest hole less smallest shaft; negative is interference. Where the fit names both.
    #[label("Most clearance")]
    pub greatest_clearance: Option<FoundFineDifference>,
    /// Whether the two always have clearance, always interference, or either. Where the fit names both.
    #[label("Kind of fit")]
    pub kind: Option<FitKind>,
}

/// The paths of a part's results.
#[derive(Debug)]
pub struct Paths {
    pub(crate) class: &'static str,
    pub(crate) tolerance: &'static str,
    /// Of the upper deviation.
    pub upper: &'static str,
    /// Of the lower deviation.
    pub lower: &'static str,
    pub(crate) greatest: &'static str,
    pub(crate) least: &'static str,
    pub(crate) middle: &'static str,
}

/// The paths of the results of a part in the field `$part`.
macro_rules! paths {
    ($part:literal) => {
        $crate::fitting::Paths {
            class: concat!($part, ".class"),
            tolerance: concat!($part, ".tolerance"),
            upper: concat!($part, ".upper_deviation"),
            lower: concat!($part, ".lower_deviation"),
            greatest: concat!($part, ".greatest"),
            least: concat!($part, ".least"),
            middle: concat!($part, ".middle"),
        }
    };
}
pub(crate) use paths;

/// The paths of the hole.
pub const HOLE: Paths = paths!("hole");
/// The paths of the shaft.
pub const SHAFT: Paths = paths!("shaft");

impl PartLimits {
    /// The limits of a part by its nominal size and deviations, in one unit.
    pub fn of(class: Option<String>, nominal: f64, (upper, lower): (f64, f64), unit: Unit) -> Self {
        let at = |deviation: f64| text::tidy(nominal + deviation);
        Self {
            class,
            greatest: FoundFineUpperLimit::stated(at(upper), unit),
            least: FoundFineLowerLimit::stated(at(lower), unit),
            middle: FoundGaugeSize::stated(at((upper + lower) / 2.0), unit),
            upper_deviation: FoundFineDifference::stated(text::tidy(upper), unit),
            lower_deviation: FoundFineDifference::stated(text::tidy(lower), unit),
            tolerance: FoundFineDifference::stated(text::tidy(upper - lower), unit),
        }
    }
}

/// Puts a part's sizes on record, after its deviations. The nominal size stands under `size`.
pub fn tell_sizes(part: &PartLimits, paths: &Paths, record: &mut Record) {
    known_steps! { record;
        step "Largest size", "G = N + e", N = "size", e = (paths.upper) => paths.greatest, part.greatest;
        step "Smallest size", "K = N + i", N = "size", i = (paths.lower) => paths.least, part.least;
        step "Middle size", "M = (G + K) / 2", G = (paths.greatest), K = (paths.least) => paths.middle, part.middle;
    }
}

/// Least and greatest clearance of a hole and a shaft of one nominal size, from their deviations, which have more digits
/// than their sizes.
pub fn clearances(hole: &PartLimits, shaft: &PartLimits) -> (FoundFineDifference, FoundFineDifference) {
    let between = |a: FoundFineDifference, b: FoundFineDifference| {
        FoundFineDifference::stated(text::tidy(a.quantity().value - b.quantity().value), a.quantity().unit)
    };
    (between(hole.lower_deviation, shaft.upper_deviation), between(hole.upper_deviation, shaft.lower_deviation))
}

/// Both parts with the clearance that they leave, put on record where the fit names both.
pub fn pair(hole: Option<PartLimits>, shaft: Option<PartLimits>, record: &mut Record) -> FittedPair {
    let (Some(of_hole), Some(of_shaft)) = (&hole, &shaft) else {
        return FittedPair { hole, shaft, least_clearance: None, greatest_clearance: None, kind: None };
    };
    let (least, most) = clearances(of_hole, of_shaft);
    let kind = FitKind::of(least.quantity().value, most.quantity().value);
    known_steps! { record;
        step "Clearance of the smallest hole and the largest shaft", "c = i - e", i = "hole.lower_deviation",
            e = "shaft.upper_deviation" => "least_clearance", least;
        step "Clearance of the largest hole and the smallest shaft", "C = e - i", e = "hole.upper_deviation",
            i = "shaft.lower_deviation" => "greatest_clearance", most;
        look_up "Kind of fit", "by the signs of both clearances" => "kind", kind.as_str();
    }
    FittedPair { hole, shaft, least_clearance: Some(least), greatest_clearance: Some(most), kind: Some(kind) }
}
