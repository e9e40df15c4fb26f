//! The units the service reads and writes: one row each, with its exact factor to SI. Factors are
//! products of defined constants (inch 0.0254 m, pound 0.45359237 kg, standard gravity
//! 9.80665 m/s²: the 1959 yard and pound agreement and ISO 80000-3), never rounded decimals.

use serde::Deserialize;
use std::f64::consts::PI;
use utoipa::ToSchema;

/// The system of an answer: inch or metric.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, ToSchema)]
#[serde(rename_all = "lowercase")]
#[schema(as = Units)]
pub enum System {
    /// Inch units: in, ft/min, in/min, hp.
    Inch,
    /// Metric units: mm, m/min, mm/min, kW.
    Metric,
}

impl System {
    /// The word a request uses: `inch` or `metric`.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Inch => "inch",
            Self::Metric => "metric",
        }
    }
}

/// What a unit measures. Velocity is one dimension; cutting speed and feed rate are kinds of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Dimension {
    Length,
    ThreadCount,
    Angle,
    Velocity,
    FeedPerRev,
    FeedPerTooth,
    TurningSpeed,
    Power,
    Torque,
    Force,
    Pressure,
    UnitPower,
    VolumeRate,
    Area,
    Time,
    Mass,
    Density,
    MassPerLength,
    Temperature,
    Expansion,
    Ratio,
}

impl Dimension {
    /// The unit computed values are kept in; `fallback` where there is none for all.
    pub const fn base_unit(self, fallback: Unit) -> Unit {
        match self {
            Dimension::Length | Dimension::ThreadCount => Unit::Metre,
            Dimension::Angle => Unit::Radian,
            Dimension::Velocity => Unit::MetrePerSecond,
            Dimension::TurningSpeed => Unit::Hertz,
            Dimension::VolumeRate => Unit::CubicMetrePerSecond,
            Dimension::Area => Unit::SquareMetre,
            Dimension::Ratio => Unit::One,
            Dimension::Power => Unit::Watt,
            Dimension::Torque => Unit::NewtonMetre,
            Dimension::Force => Unit::Newton,
            Dimension::Pressure => Unit::Pascal,
            Dimension::UnitPower => Unit::JoulePerCubicMillimetre,
            Dimension::Time => Unit::Second,
            Dimension::Mass => Unit::Kilogram,
            Dimension::Density => Unit::KilogramPerCubicMetre,
            Dimension::MassPerLength => Unit::KilogramPerMetre,
            // A feed's dimension is a length per turn or tooth, which counts as a length.
            Dimension::FeedPerRev => Unit::MillimetrePerRev,
            Dimension::FeedPerTooth => Unit::MillimetrePerTooth,
            Dimension::Expansion => Unit::MicrometrePerMetreKelvin,
            Dimension::Temperature => fallback,
        }
    }

    /// The dimension in words, as an error says it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Length => "a length",
            Self::ThreadCount => "a number of threads in an inch",
            Self::Angle => "an angle",
            Self::Velocity => "a speed",
            Self::FeedPerRev => "a feed per turn",
            Self::FeedPerTooth => "a feed per tooth",
            Self::TurningSpeed => "a turning speed",
            Self::Power => "a power",
            Self::Torque => "a torque",
            Self::Force => "a force",
            Self::Pressure => "a pressure",
            Self::UnitPower => "a power for each volume rate",
            Self::VolumeRate => "a volume rate",
            Self::Area => "an area",
            Self::Time => "a time",
            Self::Mass => "a mass",
            Self::Density => "a density",
            Self::MassPerLength => "a mass for each length",
            Self::Temperature => "a temperature",
            Self::Expansion => "an expansion for each degree",
            Self::Ratio => "a percentage",
        }
    }
}

/// One unit's row.
#[derive(Debug)]
pub struct UnitRow {
    /// The one spelling on the way out.
    pub spelling: &'static str,
    /// A spelling in plain ASCII that survives an address.
    pub ascii: &'static str,
    /// How it follows a number in text, with its space.
    pub suffix: &'static str,
    /// Other spellings on the way in, normalised as [`normal`] does.
    pub aliases: &'static [&'static str],
    /// What it measures.
    pub dimension: Dimension,
    /// How many SI base units it is.
    pub factor: f64,
    /// SI value of its zero; only temperatures have one.
    pub zero: f64,
    /// The system it belongs to, if it belongs to one.
    pub system: Option<System>,
}

macro_rules! units {
    ($($(#[$doc:meta])* $name:ident = $spelling:literal, $ascii:literal, $suffix:literal, [$($alias:literal),*],
        $dimension:ident, $factor:expr, $zero:expr, $system:expr;)*) => {
        /// A unit of measure.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Unit { $($(#[$doc])* $name,)* }

        static ROWS: &[UnitRow] = &[$(UnitRow {
            spelling: $spelling, ascii: $ascii, suffix: $suffix, aliases: &[$($alias),*],
            dimension: Dimension::$dimension, factor: $factor, zero: $zero, system: $system,
        },)*];

        /// Every unit, in the order of the table.
        pub static UNITS: &[Unit] = &[$(Unit::$name,)*];
    };
}

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const POUND: f64 = 0.453_592_37;
const GRAVITY: f64 = 9.806_65;
const POUND_FORCE: f64 = POUND * GRAVITY;
const MINUTE: f64 = 60.0;

const IN: Option<System> = Some(System::Inch);
const MM: Option<System> = Some(System::Metric);

units! {
    /// Inch.
    Inch = "in", "in", " in", ["inch", "inches", "\"", "''"], Length, INCH, 0.0, IN;
    /// Millimeter.
    Millimetre = "mm", "mm", " mm", ["millimetre", "millimetres", "millimeter", "millimeters"], Length, 0.001, 0.0, MM;
    /// Foot.
    Foot = "ft", "ft", " ft", ["foot", "feet", "'"], Length, FOOT, 0.0, IN;
    /// Centimetre.
    Centimetre = "cm", "cm", " cm", ["centimetre", "centimetres", "centimeter", "centimeters"], Length, 0.01, 0.0, MM;
    /// Meter; also the base unit that computed lengths are kept in.
    Metre = "m", "m", " m", ["metre", "metres", "meter", "meters"], Length, 1.0, 0.0, MM;
    /// Micrometer.
    Micrometre = "µm", "um", " µm", ["micron", "microns", "micrometre", "micrometres", "micrometer", "micrometers"], Length, 1e-6, 0.0, MM;
    /// Microinch.
    Microinch = "µin", "uin", " µin", ["microinch", "microinches"], Length, INCH / 1e6, 0.0, IN;
    /// A thousandth of an inch.
    Thou = "thou", "thou", " thou", [], Length, INCH / 1000.0, 0.0, IN;
    /// Threads in one inch: the pitch or lead is an inch over them.
    ThreadsPerInch = "tpi", "tpi", " tpi", ["threadsperinch", "threads/inch", "threads/in"], ThreadCount, INCH, 0.0, IN;
    /// Degree of angle.
    Degree = "deg", "deg", "°", ["°", "degree", "degrees"], Angle, PI / 180.0, 0.0, None;
    /// Radian; also the base unit that computed angles are kept in.
    Radian = "rad", "rad", " rad", ["radian", "radians"], Angle, 1.0, 0.0, None;
    /// Foot per minute.
    FootPerMinute = "ft/min", "ft/min", " ft/min", ["fpm", "sfm", "sfpm", "feet/min"], Velocity, FOOT / MINUTE, 0.0, IN;
    /// Meter per minute.
    MetrePerMinute = "m/min", "m/min", " m/min", [], Velocity, 1.0 / MINUTE, 0.0, MM;
    /// Meter per second; also the base unit of computed speeds.
    MetrePerSecond = "m/s", "m/s", " m/s", [], Velocity, 1.0, 0.0, MM;
    /// Inch per minute.
    InchPerMinute = "in/min", "in/min", " in/min", ["ipm"], Velocity, INCH / MINUTE, 0.0, IN;
    /// Millimeter per minute.
    MillimetrePerMinute = "mm/min", "mm/min", " mm/min", [], Velocity, 0.001 / MINUTE, 0.0, MM;
    /// Inch per turn.
    InchPerRev = "in/rev", "in/rev", " in/rev", ["ipr", "in/turn", "in/r"], FeedPerRev, INCH, 0.0, IN;
    /// Millimeter per turn.
    MillimetrePerRev = "mm/rev", "mm/rev", " mm/rev", ["mm/turn", "mm/r"], FeedPerRev, 0.001, 0.0, MM;
    /// Inch per tooth.
    InchPerTooth = "in/tooth", "in/tooth", " in/tooth", ["ipt"], FeedPerTooth, INCH, 0.0, IN;
    /// Millimeter per tooth.
    MillimetrePerTooth = "mm/tooth", "mm/tooth", " mm/tooth", [], FeedPerTooth, 0.001, 0.0, MM;
    /// Turns per minute.
    Rpm = "rpm", "rpm", " rpm", ["r/min", "rev/min", "1/min", "turns/min"], TurningSpeed, 1.0 / MINUTE, 0.0, None;
    /// Turns per second, the base unit of computed turning speeds.
    Hertz = "Hz", "Hz", " Hz", ["1/s"], TurningSpeed, 1.0, 0.0, None;
    /// Kilowatt.
    Kilowatt = "kW", "kW", " kW", [], Power, 1000.0, 0.0, MM;
    /// Watt; also the base unit of computed powers.
    Watt = "W", "W", " W", [], Power, 1.0, 0.0, MM;
    /// Mechanical horsepower, 550 ft·lbf/s.
    Horsepower = "hp", "hp", " hp", [], Power, 550.0 * FOOT * POUND_FORCE, 0.0, IN;
    /// Newton meter.
    NewtonMetre = "N·m", "N.m", " N·m", ["nm"], Torque, 1.0, 0.0, MM;
    /// Pound-force foot.
    PoundForceFoot = "lbf·ft", "lbf.ft", " lbf·ft", ["lbfft", "ftlbf", "ftlb", "lbft"], Torque, POUND_FORCE * FOOT, 0.0, IN;
    /// Pound-force inch.
    PoundForceInch = "lbf·in", "lbf.in", " lbf·in", ["lbfin", "inlbf", "inlb", "lbin"], Torque, POUND_FORCE * INCH, 0.0, IN;
    /// Newton.
    Newton = "N", "N", " N", [], Force, 1.0, 0.0, MM;
    /// Pound-force.
    PoundForce = "lbf", "lbf", " lbf", [], Force, POUND_FORCE, 0.0, IN;
    /// Megapascal.
    Megapascal = "MPa", "MPa", " MPa", [], Pressure, 1e6, 0.0, MM;
    /// Newton per square millimeter, the same as a megapascal.
    NewtonPerSquareMillimetre = "N/mm²", "N/mm2", " N/mm²", [], Pressure, 1e6, 0.0, MM;
    /// Pound-force per square inch.
    Psi = "psi", "psi", " psi", ["lbf/in2"], Pressure, POUND_FORCE / (INCH * INCH), 0.0, IN;
    /// A thousand pounds-force per square inch.
    Ksi = "ksi", "ksi", " ksi", ["kip/in2"], Pressure, 1000.0 * POUND_FORCE / (INCH * INCH), 0.0, IN;
    /// Pascal, the base unit of computed pressures.
    Pascal = "Pa", "Pa", " Pa", [], Pressure, 1.0, 0.0, MM;
    /// Horsepower for each cubic inch per minute.
    HorsepowerMinutePerCubicInch = "hp·min/in³", "hp.min/in3", " hp·min/in³", ["hp/in3/min"], UnitPower, 550.0 * FOOT * POUND_FORCE * MINUTE / (INCH * INCH * INCH), 0.0, IN;
    /// Joule per cubic millimeter, which is watt for each cubic millimeter per second.
    JoulePerCubicMillimetre = "J/mm³", "J/mm3", " J/mm³", ["ws/mm3"], UnitPower, 1e9, 0.0, MM;
    /// Cubic inch per minute.
    CubicInchPerMinute = "in³/min", "in3/min", " in³/min", ["cuin/min"], VolumeRate, INCH * INCH * INCH / MINUTE, 0.0, IN;
    /// Cubic centimetre per minute.
    CubicCentimetrePerMinute = "cm³/min", "cm3/min", " cm³/min", ["cc/min"], VolumeRate, 1e-6 / MINUTE, 0.0, MM;
    /// Cubic millimeter per second.
    CubicMillimetrePerSecond = "mm³/s", "mm3/s", " mm³/s", [], VolumeRate, 1e-9, 0.0, MM;
    /// Cubic meter per second, the base unit of computed volume rates.
    CubicMetrePerSecond = "m³/s", "m3/s", " m³/s", [], VolumeRate, 1.0, 0.0, MM;
    /// Square inch.
    SquareInch = "in²", "in2", " in²", ["sqin"], Area, INCH * INCH, 0.0, IN;
    /// Square millimeter.
    SquareMillimetre = "mm²", "mm2", " mm²", ["sqmm"], Area, 1e-6, 0.0, MM;
    /// Square meter, the base unit of computed areas.
    SquareMetre = "m²", "m2", " m²", [], Area, 1.0, 0.0, MM;
    /// Second; also the base unit of computed times.
    Second = "s", "s", " s", ["sec", "second", "seconds"], Time, 1.0, 0.0, None;
    /// Minute.
    Minute = "min", "min", " min", ["minute", "minutes"], Time, MINUTE, 0.0, None;
    /// Hour.
    Hour = "h", "h", " h", ["hr", "hour", "hours"], Time, 60.0 * MINUTE, 0.0, None;
    /// Kilogram.
    Kilogram = "kg", "kg", " kg", [], Mass, 1.0, 0.0, MM;
    /// Pound.
    Pound = "lb", "lb", " lb", ["lbs", "pound", "pounds"], Mass, POUND, 0.0, IN;
    /// Gram.
    Gram = "g", "g", " g", ["gram", "grams"], Mass, 0.001, 0.0, MM;
    /// Kilogram per cubic meter; also the base unit of densities.
    KilogramPerCubicMetre = "kg/m³", "kg/m3", " kg/m³", [], Density, 1.0, 0.0, MM;
    /// Gram per cubic centimetre, the same as a kilogram per liter.
    GramPerCubicCentimetre = "g/cm³", "g/cm3", " g/cm³", ["kg/dm3", "g/cc", "kg/l"], Density, 1000.0, 0.0, MM;
    /// Pound per cubic inch.
    PoundPerCubicInch = "lb/in³", "lb/in3", " lb/in³", ["lbs/in3", "lb/cuin"], Density, POUND / (INCH * INCH * INCH), 0.0, IN;
    /// Pound per cubic foot.
    PoundPerCubicFoot = "lb/ft³", "lb/ft3", " lb/ft³", ["lbs/ft3", "lb/cuft"], Density, POUND / (FOOT * FOOT * FOOT), 0.0, IN;
    /// Kilogram per meter; also the base unit of masses per length.
    KilogramPerMetre = "kg/m", "kg/m", " kg/m", [], MassPerLength, 1.0, 0.0, MM;
    /// Pound per foot.
    PoundPerFoot = "lb/ft", "lb/ft", " lb/ft", ["lbs/ft"], MassPerLength, POUND / FOOT, 0.0, IN;
    /// Degree Celsius.
    Celsius = "°C", "degC", " °C", ["°c", "c"], Temperature, 1.0, 273.15, MM;
    /// Degree Fahrenheit.
    Fahrenheit = "°F", "degF", " °F", ["°f", "f"], Temperature, 5.0 / 9.0, 459.67 * 5.0 / 9.0, IN;
    /// Micrometer in a meter for each degree Celsius, which is a millionth for each kelvin.
    MicrometrePerMetreKelvin = "µm/m/K", "um/m/K", " µm/m/K", ["um/m/°c", "um/m/c", "ppm/k"], Expansion, 1e-6, 0.0, MM;
    /// Microinch in an inch for each degree Fahrenheit.
    MicroinchPerInchFahrenheit = "µin/in/°F", "uin/in/F", " µin/in/°F", ["uin/in/°f", "ppm/f"], Expansion, 1.8e-6, 0.0, IN;
    /// Percent.
    Percent = "percent", "percent", " %", ["%", "pct"], Ratio, 0.01, 0.0, None;
    /// A plain ratio, the base unit of computed percentages.
    One = "1", "1", "", [], Ratio, 1.0, 0.0, None;
}

impl Unit {
    /// The unit's row.
    pub const fn row(self) -> &'static UnitRow {
        &ROWS[self as usize]
    }

    /// The one spelling on the way out.
    pub fn spelling(self) -> &'static str {
        self.row().spelling
    }

    /// The system it belongs to, if any.
    pub fn system(self) -> Option<System> {
        self.row().system
    }

    /// `value` of this unit in SI base units.
    pub fn to_si(self, value: f64) -> f64 {
        let row = self.row();
        if self == Unit::ThreadsPerInch { row.factor / value } else { value * row.factor + row.zero }
    }

    /// An SI value in this unit.
    pub fn of_si(self, si: f64) -> f64 {
        let row = self.row();
        if self == Unit::ThreadsPerInch { row.factor / si } else { (si - row.zero) / row.factor }
    }

    /// The unit that stands for this one in `system`, as the kinds write it; itself where it is of that system.
    pub fn counterpart(self, system: System) -> Option<Unit> {
        if self.system() == Some(system) {
            return Some(self);
        }
        let mut kinds = super::KINDS.iter();
        let written = kinds.clone().find(|row| row.inch.0 == self || row.metric.0 == self);
        let row = written.or_else(|| kinds.find(|row| row.units.contains(&self)))?;
        Some(row.written_in(system).0).filter(|unit| unit.system() == Some(system))
    }

    /// Reads a unit's name or alias; `None` if there is no such unit. Case does not matter, and
    /// spaces, points, raised dots, carets and hyphens between letters do not either.
    pub fn named(text: &str) -> Option<Unit> {
        // Most are written plainly, which costs least to see.
        Unit::spelled(text).or_else(|| {
            let wanted = normal(text);
            UNITS.iter().copied().filter(Unit::is_asked).find(|unit| {
                let row = unit.row();
                normal(row.ascii) == wanted || row.aliases.contains(&wanted.as_str())
            })
        })
    }

    /// The unit whose plain spelling `text` is, letter by letter.
    pub(super) fn spelled(text: &str) -> Option<Unit> {
        UNITS.iter().copied().find(|unit| unit.row().ascii == text).filter(Unit::is_asked)
    }

    /// `Hz`, `Pa`, `m³/s`, `m²` and `1` are kept out of requests: base units of the arithmetic.
    fn is_asked(&self) -> bool {
        !matches!(self, Unit::Hertz | Unit::Pascal | Unit::CubicMetrePerSecond | Unit::SquareMetre | Unit::One)
    }
}

/// A unit's text as it is compared: lower case, superscripts as digits, micro as `u`, without
/// spaces and joining marks.
pub(super) fn normal(text: &str) -> String {
    text.chars()
        .filter_map(|c| match c {
            ' ' | '.' | '·' | '*' | '^' | '-' | '_' | '⋅' => None,
            '²' => Some('2'),
            '³' => Some('3'),
            'µ' | 'μ' => Some('u'),
            '″' | '”' | '“' => Some('"'),
            '′' | '’' | '‘' => Some('\''),
            c => Some(c.to_ascii_lowercase()),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(a: f64, b: f64) -> bool {
        (a - b).abs() <= 4.0 * f64::EPSILON * b.abs()
    }

    #[test]
    fn each_derived_unit_is_the_product_of_its_parts() {
        let f = |unit: Unit| unit.row().factor;
        assert!(close(f(Unit::Foot), 12.0 * f(Unit::Inch)));
        assert!(close(f(Unit::FootPerMinute), f(Unit::Foot) / f(Unit::Minute)));
        assert!(close(f(Unit::InchPerMinute), f(Unit::Inch) / f(Unit::Minute)));
        assert!(close(f(Unit::Thou) * 1000.0, f(Unit::Inch)));
        assert!(close(f(Unit::Microinch) * 1e6, f(Unit::Inch)));
        assert!(close(f(Unit::SquareInch), f(Unit::Inch).powi(2)));
        assert!(close(f(Unit::CubicInchPerMinute), f(Unit::SquareInch) * f(Unit::InchPerMinute)));
        assert!(close(f(Unit::CubicCentimetrePerMinute), f(Unit::Centimetre).powi(3) / 60.0));
        assert!(close(f(Unit::CubicMillimetrePerSecond), f(Unit::Millimetre).powi(3)));
        assert!(close(f(Unit::PoundForce), f(Unit::Pound) * 9.80665));
        assert!(close(f(Unit::PoundForceFoot), f(Unit::PoundForce) * f(Unit::Foot)));
        assert!(close(f(Unit::PoundForceInch) * 12.0, f(Unit::PoundForceFoot)));
        assert!(close(f(Unit::Horsepower), 550.0 * f(Unit::PoundForceFoot)));
        assert!(close(f(Unit::Psi), f(Unit::PoundForce) / f(Unit::SquareInch)));
        assert!(close(f(Unit::HorsepowerMinutePerCubicInch), f(Unit::Horsepower) / f(Unit::CubicInchPerMinute)));
        assert!(close(f(Unit::JoulePerCubicMillimetre), f(Unit::Watt) / f(Unit::CubicMillimetrePerSecond)));
        assert!(close(f(Unit::Rpm) * f(Unit::Minute), 1.0));
        assert!(close(f(Unit::Degree) * 180.0, PI));
        // NIST SP 811 (2008), appendix B.8: horsepower 745.6999 W, psi 6894.757 Pa.
        assert!((f(Unit::Horsepower) - 745.6999).abs() < 5e-5);
        assert!((f(Unit::Psi) - 6894.757).abs() < 5e-4);
    }

    #[test]
    fn a_units_plain_spelling_is_no_other_units_alias() {
        for unit in UNITS {
            let plain = normal(unit.row().ascii);
            let first = UNITS
                .iter()
                .find(|other| normal(other.row().ascii) == plain || other.row().aliases.contains(&plain.as_str()));
            assert_eq!(first, Some(unit), "{plain}");
        }
    }

    #[test]
    fn threads_in_an_inch_are_an_inch_over_them() {
        assert!(close(Unit::Inch.of_si(Unit::ThreadsPerInch.to_si(20.0)), 0.05));
        assert!(close(Unit::ThreadsPerInch.to_si(11.5), INCH / 11.5));
        assert!(close(Unit::ThreadsPerInch.of_si(0.001), 25.4));
    }

    #[test]
    fn a_unit_has_its_like_in_the_other_system() {
        for (one, other) in [
            (Unit::Inch, Unit::Millimetre),
            (Unit::FootPerMinute, Unit::MetrePerMinute),
            (Unit::InchPerMinute, Unit::MillimetrePerMinute),
            (Unit::InchPerTooth, Unit::MillimetrePerTooth),
            (Unit::Horsepower, Unit::Kilowatt),
            (Unit::Microinch, Unit::Micrometre),
        ] {
            assert_eq!(one.counterpart(System::Metric), Some(other));
            assert_eq!(other.counterpart(System::Inch), Some(one));
        }
        assert_eq!(Unit::Thou.counterpart(System::Metric), Some(Unit::Millimetre));
        assert_eq!(Unit::Thou.counterpart(System::Inch), Some(Unit::Thou));
        assert_eq!(Unit::Degree.counterpart(System::Inch), None);
    }

    #[test]
    fn water_boils_at_212_fahrenheit() {
        let si = Unit::Celsius.to_si(100.0);
        assert!((Unit::Fahrenheit.of_si(si) - 212.0).abs() < 1e-9);
    }

    #[test]
    fn every_spelling_reads_back_as_its_unit() {
        for unit in UNITS.iter().copied() {
            let row = unit.row();
            let Some(read) = Unit::named(row.ascii) else { continue };
            assert_eq!(read, unit, "{}", row.ascii);
            assert_eq!(Unit::named(row.spelling), Some(unit), "{}", row.spelling);
            for alias in row.aliases {
                assert_eq!(Unit::named(alias), Some(unit), "{alias}");
            }
        }
    }

    #[test]
    fn no_two_units_share_a_spelling() {
        let mut seen = std::collections::HashSet::new();
        for unit in UNITS {
            let row = unit.row();
            let mut names: Vec<String> = row.aliases.iter().map(|a| (*a).to_owned()).collect();
            names.push(normal(row.ascii));
            names.sort();
            names.dedup();
            for name in names {
                assert!(seen.insert(name.clone()), "{name} names two units");
            }
        }
    }
}
