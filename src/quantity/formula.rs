//! Quantities as formulas compute with them: as `uom` has them, but angles in degrees, so that what is exact
//! in degrees stays exact.

use super::kinds::Kind;
use super::measure::{Found, Measure, Quantity, SiValue};
use super::units::Unit;
use std::ops::{Add, Div, Mul, Neg, Sub};
use uom::si::f64 as si;

/// An angle in degrees.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Degrees(pub f64);

/// How a formula computes with a quantity.
pub trait InFormula: Sized {
    /// The value there.
    type Value;
    /// The value of a quantity.
    fn value(quantity: &Quantity) -> Self::Value;
    /// A value found.
    fn found<K: Kind<Si = Self>>(value: Self::Value) -> Found<K>;
}

macro_rules! as_they_are {
    ($($of:ident),*) => {
        $(impl InFormula for si::$of {
            type Value = Self;

            fn value(quantity: &Quantity) -> Self {
                Self::from_si(quantity.si())
            }

            fn found<K: Kind<Si = Self>>(value: Self) -> Found<K> {
                Found::of(value)
            }
        })*
    };
}

as_they_are!(
    Length, Velocity, Frequency, VolumeRate, Area, Ratio, Power, Force, Pressure, Time, Mass, MassDensity,
    LinearMassDensity, TemperatureCoefficient
);

/// A torque is the energy of a turn by one radian, and formulas compute with it as that.
impl InFormula for si::Torque {
    type Value = si::Energy;

    fn value(quantity: &Quantity) -> si::Energy {
        si::Energy::from_si(quantity.si())
    }

    fn found<K: Kind<Si = Self>>(value: si::Energy) -> Found<K> {
        Found::of(Self::from_si(value.si()))
    }
}

/// A temperature is what it is above absolute zero, and formulas compute with differences.
impl InFormula for si::ThermodynamicTemperature {
    type Value = si::TemperatureInterval;

    fn value(quantity: &Quantity) -> si::TemperatureInterval {
        si::TemperatureInterval::from_si(quantity.si())
    }

    fn found<K: Kind<Si = Self>>(value: si::TemperatureInterval) -> Found<K> {
        Found::of(Self::from_si(value.si()))
    }
}

impl InFormula for si::Angle {
    type Value = Degrees;

    fn value(quantity: &Quantity) -> Degrees {
        Degrees(quantity.in_degrees())
    }

    fn found<K: Kind<Si = Self>>(value: Degrees) -> Found<K> {
        Found::stated(value.0, Unit::Degree)
    }
}

/// What a formula can give.
pub trait OfFormula {
    /// The value as the formula has it.
    type Value;
    /// What the formula gives.
    fn of_formula(value: Self::Value) -> Self;
}

impl<K: Kind> OfFormula for Found<K> {
    type Value = <K::Si as InFormula>::Value;

    fn of_formula(value: Self::Value) -> Self {
        K::Si::found(value)
    }
}

impl OfFormula for f64 {
    type Value = f64;

    fn of_formula(value: f64) -> f64 {
        value
    }
}

impl Add for Degrees {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Degrees {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Degrees {
    type Output = Self;

    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<f64> for Degrees {
    type Output = Self;

    fn mul(self, by: f64) -> Self {
        Self(self.0 * by)
    }
}

impl Mul<Degrees> for f64 {
    type Output = Degrees;

    fn mul(self, of: Degrees) -> Degrees {
        Degrees(self * of.0)
    }
}

impl Div<f64> for Degrees {
    type Output = Self;

    fn div(self, by: f64) -> Self {
        Self(self.0 / by)
    }
}

impl Div for Degrees {
    type Output = f64;

    fn div(self, by: Self) -> f64 {
        self.0 / by.0
    }
}

/// An arc: its radius times the angle in radians.
impl Mul<Degrees> for si::Length {
    type Output = si::Length;

    fn mul(self, angle: Degrees) -> si::Length {
        self * angle.0.to_radians()
    }
}

/// The radius of an arc: its length by the angle in radians.
impl Div<Degrees> for si::Length {
    type Output = si::Length;

    fn div(self, angle: Degrees) -> si::Length {
        self / angle.0.to_radians()
    }
}

impl<K: Kind> Measure<K> {
    /// In SI units, without its dimension.
    pub fn si(&self) -> f64 {
        self.get().si()
    }
}

impl<K: Kind> Found<K> {
    /// So many SI base units.
    pub fn of_si(value: f64) -> Self {
        Self::of(K::Si::from_si(value))
    }

    /// In SI units, without its dimension.
    pub fn si(&self) -> f64 {
        self.get().si()
    }
}
