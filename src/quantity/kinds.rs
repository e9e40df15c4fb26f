//! The kinds of quantity a calculator can ask for or give: which units each takes, its bounds, the
//! units and decimal places it is written in. Two kinds of one dimension do not stand in for each
//! other: a feed per tooth is not a feed per turn.

use super::units::{Dimension, System, Unit};
use uom::si::f64 as si;

/// How a result is put on a machine, if it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Setting {
    /// Not set or read on a machine.
    Never,
    /// A place on an axis.
    Place,
    /// A move from the place before it: the difference of two places.
    Move,
    /// A depth below a face, which `z_plus` can turn into a reading.
    Depth,
    /// A place of a lathe's cross slide that counts diameters; `x_reads` says what the scale counts.
    AcrossDiameter,
    /// The same where it counts radii.
    AcrossRadius,
}

/// Which way a limit of size goes when it is converted to the other system, so that what meets the
/// converted limit meets the standard's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Inward {
    /// No limit; nothing is rounded.
    No,
    /// A greatest size: down.
    Down,
    /// A least size: up.
    Up,
}

/// The smallest value of a kind, in SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Least {
    /// No lower bound but the negative of the greatest.
    Any,
    /// This value or more.
    From(f64),
    /// More than zero, and not so small that nothing can be computed.
    AboveZero,
}

/// The smallest amount, in SI units, that counts as above zero.
pub const TINY: f64 = 1e-12;

/// One kind's row.
#[derive(Debug)]
pub struct KindRow {
    /// Name of the schema an input of this kind has.
    pub name: &'static str,
    /// What it is, in a sentence.
    pub about: &'static str,
    /// The units it is read in.
    pub units: &'static [Unit],
    /// Unit and decimal places in an inch answer.
    pub inch: (Unit, usize),
    /// Unit and decimal places in a metric answer.
    pub metric: (Unit, usize),
    /// Lower bound.
    pub least: Least,
    /// Greatest value, in SI units, inclusive.
    pub most: f64,
    /// How it is set on a machine.
    pub setting: Setting,
    /// How it is rounded, at the places it is written to, on its way into the other system.
    pub inward: Inward,
    /// A good value.
    pub example: &'static str,
}

impl KindRow {
    /// The dimension of its units.
    pub const fn dimension(&self) -> Dimension {
        self.metric.0.row().dimension
    }

    /// The unit of a number that stands without one, where there is no other to mean: that of a percentage. A turning
    /// speed has one unit too, but a speed is never read without it.
    pub const fn only_unit(&self) -> Option<Unit> {
        match (self.units, self.dimension()) {
            (&[unit], Dimension::Ratio) => Some(unit),
            _ => None,
        }
    }

    /// Unit and places in an answer of `system`.
    pub fn written_in(&self, system: System) -> (Unit, usize) {
        match system {
            System::Inch => self.inch,
            System::Metric => self.metric,
        }
    }

    /// Decimal places for a value in `unit`.
    pub fn places(&self, unit: Unit) -> usize {
        if unit == self.inch.0 {
            self.inch.1
        } else if unit == self.metric.0 {
            self.metric.1
        } else {
            match unit {
                Unit::Thou | Unit::Micrometre | Unit::Microinch => 1,
                Unit::Foot | Unit::Metre => 6,
                Unit::Radian => 6,
                _ => 4,
            }
        }
    }
}

/// A kind, as a type.
pub trait Kind: 'static {
    /// The uom quantity its arithmetic is done in.
    type Si: super::SiValue + super::InFormula;
    /// Its row.
    const ROW: &'static KindRow;
}

const LENGTHS: &[Unit] = &[
    Unit::Inch,
    Unit::Millimetre,
    Unit::Foot,
    Unit::Centimetre,
    Unit::Metre,
    Unit::Micrometre,
    Unit::Microinch,
    Unit::Thou,
];
/// Lengths, and the threads in an inch that stand for one.
const PITCHES: &[Unit] = &[
    Unit::Inch,
    Unit::Millimetre,
    Unit::ThreadsPerInch,
    Unit::Foot,
    Unit::Centimetre,
    Unit::Metre,
    Unit::Micrometre,
    Unit::Microinch,
    Unit::Thou,
];
const ANGLES: &[Unit] = &[Unit::Degree, Unit::Radian];
const TURNING: &[Unit] = &[Unit::Rpm];
const PERCENT: &[Unit] = &[Unit::Percent];

/// A length beyond which no shop works: one kilometre.
const FAR: f64 = 1000.0;
const FULL_TURN: f64 = std::f64::consts::TAU;

macro_rules! kinds {
    (@inward) => { Inward::No };
    (@inward $inward:ident) => { Inward::$inward };
    ($($(#[doc = $doc:literal])* $name:ident / $given:ident / $found:ident: $si:ty {
        units: $units:expr, inch: $inch:expr, metric: $metric:expr, least: $least:expr, most: $most:expr,
        setting: $setting:ident, example: $example:literal $(, inward: $inward:ident)?
    })*) => {
        /// The kinds as marker types.
        pub mod kind {
            $($(#[doc = $doc])* #[derive(Clone, Copy, Debug)] pub struct $name;)*
        }
        $(impl Kind for kind::$name {
            type Si = $si;
            const ROW: &'static KindRow = &KindRow {
                name: stringify!($name), about: sentence(concat!($($doc),*)), units: $units,
                inch: $inch, metric: $metric, least: $least, most: $most, setting: Setting::$setting,
                inward: kinds!(@inward $($inward)?), example: $example,
            };
        }
        $(#[doc = $doc])*
        pub type $given = super::Measure<kind::$name>;
        $(#[doc = $doc])*
        pub type $found = super::Found<kind::$name>;)*

        /// Every kind's row.
        pub static KINDS: &[&KindRow] = &[$(<kind::$name as Kind>::ROW),*];
    };
}

/// Doc comments begin with a space; a row's sentence does not.
const fn sentence(doc: &'static str) -> &'static str {
    doc.trim_ascii()
}

const INCH4: (Unit, usize) = (Unit::Inch, 4);
const MM3: (Unit, usize) = (Unit::Millimetre, 3);
const INCH5: (Unit, usize) = (Unit::Inch, 5);
const MM4: (Unit, usize) = (Unit::Millimetre, 4);
const DEGREES: (Unit, usize) = (Unit::Degree, 4);

kinds! {
    /// A size that must exist, such as a diameter or a width: more than zero.
    Size / Size / FoundSize: si::Length {
        units: LENGTHS, inch: INCH4, metric: MM3, least: Least::AboveZero, most: FAR,
        setting: Never, example: "0.5 in"
    }
    /// The pitch or lead of a thread or a lead screw: a length, or threads per inch (tpi), which take no tolerance.
    ThreadPitch / ThreadPitch / FoundThreadPitch: si::Length {
        units: PITCHES, inch: INCH4, metric: MM3, least: Least::AboveZero, most: FAR,
        setting: Never, example: "0.05 in"
    }
    /// A size of a gauge or a taper thread, printed to a hundred-thousandth of an inch.
    GaugeSize / GaugeSize / FoundGaugeSize: si::Length {
        units: LENGTHS, inch: (Unit::Inch, 5), metric: (Unit::Millimetre, 4), least: Least::AboveZero, most: FAR,
        setting: Never, example: "1.82234 in"
    }
    /// A length that may be zero, such as a depth, a flat or an allowance.
    Extent / Extent / FoundExtent: si::Length {
        units: LENGTHS, inch: INCH4, metric: MM3, least: Least::From(0.0), most: FAR,
        setting: Never, example: "0.75 in"
    }
    /// The greatest size a standard allows.
    UpperLimit / UpperLimit / FoundUpperLimit: si::Length {
        units: LENGTHS, inch: INCH4, metric: MM3, least: Least::AboveZero, most: FAR,
        setting: Never, example: "0.207 in", inward: Down
    }
    /// The least size a standard allows.
    LowerLimit / LowerLimit / FoundLowerLimit: si::Length {
        units: LENGTHS, inch: INCH4, metric: MM3, least: Least::AboveZero, most: FAR,
        setting: Never, example: "0.196 in", inward: Up
    }
    /// The greatest size a fit allows, printed to a hundred-thousandth of an inch.
    FineUpperLimit / FineUpperLimit / FoundFineUpperLimit: si::Length {
        units: LENGTHS, inch: INCH5, metric: MM4, least: Least::AboveZero, most: FAR,
        setting: Never, example: "1.00052 in", inward: Down
    }
    /// The least size a fit allows, printed to a hundred-thousandth of an inch.
    FineLowerLimit / FineLowerLimit / FoundFineLowerLimit: si::Length {
        units: LENGTHS, inch: INCH5, metric: MM4, least: Least::AboveZero, most: FAR,
        setting: Never, example: "0.99921 in", inward: Up
    }
    /// A deviation or a clearance of either sign, printed to a hundred-thousandth of an inch.
    FineDifference / FineDifference / FoundFineDifference: si::Length {
        units: LENGTHS, inch: INCH5, metric: MM4, least: Least::Any, most: FAR,
        setting: Never, example: "-0.00028 in"
    }
    /// A difference of two lengths, of either sign.
    Difference / Difference / FoundDifference: si::Length {
        units: LENGTHS, inch: INCH4, metric: MM3, least: Least::Any, most: FAR,
        setting: Never, example: "-0.010 in"
    }
    /// A place on an axis, of either sign.
    Place / Place / FoundPlace: si::Length {
        units: LENGTHS, inch: INCH4, metric: MM3, least: Least::Any, most: FAR,
        setting: Place, example: "1.250 in"
    }
    /// A move along an axis from the place before.
    Move / Move / FoundMove: si::Length {
        units: LENGTHS, inch: INCH4, metric: MM3, least: Least::Any, most: FAR,
        setting: Move, example: "0.500 in"
    }
    /// A depth below a face, as a quill or a readout is set to it.
    DepthSetting / DepthSetting / FoundDepthSetting: si::Length {
        units: LENGTHS, inch: INCH4, metric: MM3, least: Least::Any, most: FAR,
        setting: Depth, example: "0.900 in"
    }
    /// A place of a lathe's cross slide, as the diameter it turns.
    CrossDiameter / CrossDiameter / FoundCrossDiameter: si::Length {
        units: LENGTHS, inch: INCH4, metric: MM3, least: Least::Any, most: FAR,
        setting: AcrossDiameter, example: "1.250 in"
    }
    /// A place of a lathe's cross slide, as the radius it turns.
    CrossRadius / CrossRadius / FoundCrossRadius: si::Length {
        units: LENGTHS, inch: INCH4, metric: MM3, least: Least::Any, most: FAR,
        setting: AcrossRadius, example: "0.625 in"
    }
    /// The thickness of a chip.
    ChipThickness / ChipThickness / FoundChipThickness: si::Length {
        units: LENGTHS, inch: (Unit::Inch, 5), metric: (Unit::Millimetre, 4), least: Least::AboveZero, most: 0.1,
        setting: Never, example: "0.002 in"
    }
    /// The smallest step a readout or a dial can show.
    Resolution / Resolution / FoundResolution: si::Length {
        units: LENGTHS, inch: (Unit::Inch, 5), metric: (Unit::Millimetre, 4), least: Least::AboveZero, most: 0.01,
        setting: Never, example: "0.0005 in"
    }
    /// An angle of either sign.
    Angle / Angle / FoundAngle: si::Angle {
        units: ANGLES, inch: DEGREES, metric: DEGREES, least: Least::Any, most: 100.0 * FULL_TURN,
        setting: Never, example: "30 deg"
    }
    /// An angle swept, of either sign, up to a full turn.
    Sweep / Sweep / FoundSweep: si::Angle {
        units: ANGLES, inch: DEGREES, metric: DEGREES, least: Least::Any, most: FULL_TURN,
        setting: Never, example: "180 deg"
    }
    /// The included angle of a drill's point: above 0 and up to 180 degrees.
    PointAngle / PointAngle / FoundPointAngle: si::Angle {
        units: ANGLES, inch: DEGREES, metric: DEGREES, least: Least::AboveZero, most: FULL_TURN / 2.0,
        setting: Never, example: "118 deg"
    }
    /// An angle between a cutting edge and the feed, κr of ISO 3002-1: above 0 and up to 90 degrees.
    EdgeAngle / EdgeAngle / FoundEdgeAngle: si::Angle {
        units: ANGLES, inch: DEGREES, metric: DEGREES, least: Least::AboveZero, most: FULL_TURN / 4.0,
        setting: Never, example: "90 deg"
    }
    /// The angle that an arc spans at its centre: above 0 and up to 360 degrees.
    ArcAngle / ArcAngle / FoundArcAngle: si::Angle {
        units: ANGLES, inch: DEGREES, metric: DEGREES, least: Least::AboveZero, most: FULL_TURN,
        setting: Never, example: "60 deg"
    }
    /// An angle at the corner of a figure: above 0 and up to 180 degrees.
    CornerAngle / CornerAngle / FoundCornerAngle: si::Angle {
        units: ANGLES, inch: DEGREES, metric: DEGREES, least: Least::AboveZero, most: FULL_TURN / 2.0,
        setting: Never, example: "60 deg"
    }
    /// The speed of a cutting edge over the work.
    CuttingSpeed / CuttingSpeed / FoundCuttingSpeed: si::Velocity {
        units: &[Unit::FootPerMinute, Unit::MetrePerMinute, Unit::MetrePerSecond],
        inch: (Unit::FootPerMinute, 1), metric: (Unit::MetrePerMinute, 2), least: Least::AboveZero, most: 1000.0,
        setting: Never, example: "70 ft/min"
    }
    /// The speed of the table or the tool along the cut.
    FeedRate / FeedRate / FoundFeedRate: si::Velocity {
        units: &[Unit::InchPerMinute, Unit::MillimetrePerMinute],
        inch: (Unit::InchPerMinute, 2), metric: (Unit::MillimetrePerMinute, 1), least: Least::AboveZero, most: 10.0,
        setting: Never, example: "4.3 in/min"
    }
    /// What each tooth advances.
    FeedPerTooth / FeedPerTooth / FoundFeedPerTooth: si::Length {
        units: &[Unit::InchPerTooth, Unit::MillimetrePerTooth, Unit::Inch, Unit::Millimetre, Unit::Thou],
        inch: (Unit::InchPerTooth, 5), metric: (Unit::MillimetrePerTooth, 4), least: Least::AboveZero, most: 0.1,
        setting: Never, example: "0.002 in/tooth"
    }
    /// What the tool advances in one turn.
    FeedPerRev / FeedPerRev / FoundFeedPerRev: si::Length {
        units: &[Unit::InchPerRev, Unit::MillimetrePerRev, Unit::Inch, Unit::Millimetre, Unit::Thou],
        inch: (Unit::InchPerRev, 4), metric: (Unit::MillimetrePerRev, 3), least: Least::AboveZero, most: 0.1,
        setting: Never, example: "0.004 in/rev"
    }
    /// How long something takes.
    Duration / Duration / FoundDuration: si::Time {
        units: &[Unit::Second, Unit::Minute, Unit::Hour],
        inch: (Unit::Second, 1), metric: (Unit::Second, 1), least: Least::From(0.0), most: 1e9,
        setting: Never, example: "12 s"
    }
    /// Turns of a spindle in a minute.
    SpindleSpeed / SpindleSpeed / FoundSpindleSpeed: si::Frequency {
        units: TURNING, inch: (Unit::Rpm, 1), metric: (Unit::Rpm, 1), least: Least::AboveZero, most: 20_000.0,
        setting: Never, example: "450 rpm"
    }
    /// Metal removed in a minute.
    RemovalRate / RemovalRate / FoundRemovalRate: si::VolumeRate {
        units: &[Unit::CubicInchPerMinute, Unit::CubicCentimetrePerMinute, Unit::CubicMillimetrePerSecond],
        inch: (Unit::CubicInchPerMinute, 3), metric: (Unit::CubicCentimetrePerMinute, 2), least: Least::AboveZero,
        most: 1.0, setting: Never, example: "0.225 in3/min"
    }
    /// The power of a spindle or a cut.
    Power / Power / FoundPower: si::Power {
        units: &[Unit::Kilowatt, Unit::Watt, Unit::Horsepower],
        inch: (Unit::Horsepower, 2), metric: (Unit::Kilowatt, 2), least: Least::AboveZero, most: 1e6,
        setting: Never, example: "1.5 kW"
    }
    /// An area.
    Area / Area / FoundArea: si::Area {
        units: &[Unit::SquareInch, Unit::SquareMillimetre],
        inch: (Unit::SquareInch, 4), metric: (Unit::SquareMillimetre, 2), least: Least::AboveZero, most: FAR * FAR,
        setting: Never, example: "0.25 in2"
    }
    /// A percentage of zero or more.
    Percentage / Percentage / FoundPercentage: si::Ratio {
        units: PERCENT, inch: (Unit::Percent, 1), metric: (Unit::Percent, 1), least: Least::From(0.0), most: 10.0,
        setting: Never, example: "5 percent"
    }
    /// The height of a thread's flanks that stands, as a share of the full height: above 0 and up to 100 percent.
    ThreadPercent / ThreadPercent / FoundThreadPercent: si::Ratio {
        units: PERCENT, inch: (Unit::Percent, 1), metric: (Unit::Percent, 1), least: Least::AboveZero, most: 1.0,
        setting: Never, example: "75 percent"
    }
    /// A small share of either sign, such as the error of a gear train.
    FineDeviation / FineDeviation / FoundFineDeviation: si::Ratio {
        units: PERCENT, inch: (Unit::Percent, 5), metric: (Unit::Percent, 5), least: Least::Any, most: 1e6,
        setting: Never, example: "0.01 percent"
    }
    /// A percentage of either sign.
    Deviation / Deviation / FoundDeviation: si::Ratio {
        units: PERCENT, inch: (Unit::Percent, 1), metric: (Unit::Percent, 1), least: Least::Any, most: 1e6,
        setting: Never, example: "-4.5 percent"
    }
    /// The torque of a spindle or of a tool.
    Torque / Torque / FoundTorque: si::Torque {
        units: &[Unit::NewtonMetre, Unit::PoundForceFoot, Unit::PoundForceInch],
        inch: (Unit::PoundForceFoot, 2), metric: (Unit::NewtonMetre, 2), least: Least::AboveZero, most: 1e7,
        setting: Never, example: "12 N.m"
    }
    /// A force of the cut.
    CuttingForce / CuttingForce / FoundCuttingForce: si::Force {
        units: &[Unit::Newton, Unit::PoundForce],
        inch: (Unit::PoundForce, 1), metric: (Unit::Newton, 0), least: Least::AboveZero, most: 1e8,
        setting: Never, example: "900 N"
    }
    /// The cutting force for each area of the chip's section.
    SpecificForce / SpecificForce / FoundSpecificForce: si::Pressure {
        units: &[Unit::NewtonPerSquareMillimetre, Unit::Megapascal, Unit::Psi],
        inch: (Unit::Psi, 0), metric: (Unit::NewtonPerSquareMillimetre, 0), least: Least::AboveZero, most: 1e11,
        setting: Never, example: "2200 N/mm2"
    }
    /// The power that removing metal takes, for each volume a minute.
    UnitPower / UnitPower / FoundUnitPower: si::Pressure {
        units: &[Unit::HorsepowerMinutePerCubicInch, Unit::JoulePerCubicMillimetre],
        inch: (Unit::HorsepowerMinutePerCubicInch, 3), metric: (Unit::JoulePerCubicMillimetre, 3),
        least: Least::AboveZero, most: 1e12, setting: Never, example: "0.72 hp.min/in3"
    }
    /// How much of a motor's power comes to the cutter: above 0 and up to 100 percent.
    Efficiency / Efficiency / FoundEfficiency: si::Ratio {
        units: PERCENT, inch: (Unit::Percent, 1), metric: (Unit::Percent, 1), least: Least::AboveZero, most: 1.0,
        setting: Never, example: "85 percent"
    }
    /// What an override dial is set to: above 0 and up to 500 percent.
    Override / Override / FoundOverride: si::Ratio {
        units: PERCENT, inch: (Unit::Percent, 1), metric: (Unit::Percent, 1), least: Least::AboveZero, most: 5.0,
        setting: Never, example: "80 percent"
    }
    /// A time of work.
    WorkTime / WorkTime / FoundWorkTime: si::Time {
        units: &[Unit::Minute, Unit::Second, Unit::Hour],
        inch: (Unit::Minute, 3), metric: (Unit::Minute, 3), least: Least::AboveZero, most: 1e8,
        setting: Never, example: "12 min"
    }
    /// A time between cuts that may be none, such as that for changing a tool.
    IdleTime / IdleTime / FoundIdleTime: si::Time {
        units: &[Unit::Minute, Unit::Second, Unit::Hour],
        inch: (Unit::Minute, 3), metric: (Unit::Minute, 3), least: Least::From(0.0), most: 1e8,
        setting: Never, example: "2 min"
    }
    /// A short time, counted in seconds.
    ShortTime / ShortTime / FoundShortTime: si::Time {
        units: &[Unit::Second, Unit::Minute], inch: (Unit::Second, 1), metric: (Unit::Second, 1),
        least: Least::AboveZero, most: 1e6, setting: Never, example: "8 s"
    }
    /// The height or mean deviation of a surface's roughness.
    Roughness / Roughness / FoundRoughness: si::Length {
        units: &[Unit::Microinch, Unit::Micrometre, Unit::Inch, Unit::Millimetre],
        inch: (Unit::Microinch, 1), metric: (Unit::Micrometre, 2), least: Least::AboveZero, most: 0.01,
        setting: Never, example: "1.6 um"
    }
    /// A pressure or a stress, of either sign: pull is positive.
    Stress / Stress / FoundStress: si::Pressure {
        units: &[Unit::NewtonPerSquareMillimetre, Unit::Megapascal, Unit::Psi],
        inch: (Unit::Psi, 0), metric: (Unit::NewtonPerSquareMillimetre, 1), least: Least::Any, most: 1e12,
        setting: Never, example: "120 MPa"
    }
    /// The strength of a material, or how stiff it is: its modulus of elasticity.
    Strength / Strength / FoundStrength: si::Pressure {
        units: &[Unit::NewtonPerSquareMillimetre, Unit::Megapascal, Unit::Psi],
        inch: (Unit::Psi, 0), metric: (Unit::NewtonPerSquareMillimetre, 0), least: Least::AboveZero, most: 2e12,
        setting: Never, example: "350 MPa"
    }
    /// A difference of two roughnesses, of either sign.
    RoughnessDifference / RoughnessDifference / FoundRoughnessDifference: si::Length {
        units: &[Unit::Microinch, Unit::Micrometre, Unit::Inch, Unit::Millimetre],
        inch: (Unit::Microinch, 1), metric: (Unit::Micrometre, 2), least: Least::Any, most: 0.01,
        setting: Never, example: "0.2 um"
    }
    /// The tensile strength of a metal.
    TensileStrength / TensileStrength / FoundTensileStrength: si::Pressure {
        units: &[Unit::Megapascal, Unit::NewtonPerSquareMillimetre, Unit::Ksi, Unit::Psi],
        inch: (Unit::Ksi, 0), metric: (Unit::Megapascal, 0), least: Least::AboveZero, most: 1e10,
        setting: Never, example: "770 MPa"
    }
    /// A small difference of two lengths, of either sign, written finer than a readout shows.
    TinyDifference / TinyDifference / FoundTinyDifference: si::Length {
        units: LENGTHS, inch: (Unit::Inch, 6), metric: (Unit::Millimetre, 5), least: Least::Any, most: FAR,
        setting: Never, example: "0.0002 in"
    }
    /// A small ratio of either sign, such as how much a warm part has grown.
    FineRatio / FineRatio / FoundFineRatio: si::Ratio {
        units: PERCENT, inch: (Unit::Percent, 5), metric: (Unit::Percent, 5), least: Least::Any, most: 1.0,
        setting: Never, example: "0.01 percent"
    }
    /// A temperature.
    Temperature / Temperature / FoundTemperature: si::ThermodynamicTemperature {
        units: &[Unit::Celsius, Unit::Fahrenheit], inch: (Unit::Fahrenheit, 1), metric: (Unit::Celsius, 1),
        least: Least::From(73.15), most: 1273.15, setting: Never, example: "10 degC"
    }
    /// How much a material grows with each degree, for its length.
    Expansion / Expansion / FoundExpansion: si::TemperatureCoefficient {
        units: &[Unit::MicrometrePerMetreKelvin, Unit::MicroinchPerInchFahrenheit],
        inch: (Unit::MicroinchPerInchFahrenheit, 2), metric: (Unit::MicrometrePerMetreKelvin, 1),
        least: Least::AboveZero, most: 1e-3, setting: Never, example: "11.5 um/m/K"
    }
    /// The angle at which a cutter goes down into the work: above 0 and up to 60 degrees.
    RampAngle / RampAngle / FoundRampAngle: si::Angle {
        units: ANGLES, inch: DEGREES, metric: DEGREES, least: Least::AboveZero, most: FULL_TURN / 6.0,
        setting: Never, example: "3 deg"
    }
    /// The mass of a piece or a load.
    Mass / Mass / FoundMass: si::Mass {
        units: &[Unit::Pound, Unit::Kilogram, Unit::Gram],
        inch: (Unit::Pound, 3), metric: (Unit::Kilogram, 3), least: Least::AboveZero, most: 1e12,
        setting: Never, example: "20 kg"
    }
    /// The density of a material.
    Density / Density / FoundDensity: si::MassDensity {
        units: &[Unit::PoundPerCubicInch, Unit::GramPerCubicCentimetre, Unit::KilogramPerCubicMetre,
            Unit::PoundPerCubicFoot],
        inch: (Unit::PoundPerCubicInch, 4), metric: (Unit::GramPerCubicCentimetre, 3), least: Least::AboveZero,
        most: 50_000.0, setting: Never, example: "7.85 g/cm3"
    }
    /// The mass of bar for each length of it.
    MassPerLength / MassPerLength / FoundMassPerLength: si::LinearMassDensity {
        units: &[Unit::PoundPerFoot, Unit::KilogramPerMetre],
        inch: (Unit::PoundPerFoot, 3), metric: (Unit::KilogramPerMetre, 3), least: Least::AboveZero, most: 1e9,
        setting: Never, example: "3.85 kg/m"
    }
}
