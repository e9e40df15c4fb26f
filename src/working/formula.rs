//! What formulas are made of: the values that symbols stand for, with their dimensions, and the functions
//! that the working shows by name. `step!` computes with these and shows the same expression.

use super::Constant;
use crate::quantity::{Degrees, Found, InFormula, Kind, Measure, SiValue, angle};
use uom::si::f64::{Area, Length, Ratio};

/// The number π.
#[allow(non_upper_case_globals)]
pub const π: f64 = std::f64::consts::PI;

/// What a symbol of a formula stands for.
pub trait Symbol {
    /// The value as formulas compute with it.
    type Value;
    /// The value.
    fn symbol(&self) -> Self::Value;
}

impl<K: Kind> Symbol for Measure<K> {
    type Value = <K::Si as InFormula>::Value;

    fn symbol(&self) -> Self::Value {
        K::Si::value(&self.quantity())
    }
}

impl<K: Kind> Symbol for Found<K> {
    type Value = <K::Si as InFormula>::Value;

    fn symbol(&self) -> Self::Value {
        K::Si::value(&self.quantity())
    }
}

impl Symbol for f64 {
    type Value = f64;

    fn symbol(&self) -> f64 {
        *self
    }
}

impl Symbol for u32 {
    type Value = f64;

    fn symbol(&self) -> f64 {
        f64::from(*self)
    }
}

impl Symbol for Constant {
    type Value = f64;

    fn symbol(&self) -> f64 {
        self.value
    }
}

impl<T: Symbol> Symbol for &T {
    type Value = T::Value;

    fn symbol(&self) -> Self::Value {
        (*self).symbol()
    }
}

/// The sine of an angle.
pub fn sin(of: Degrees) -> f64 {
    angle::sin(of.0)
}

/// The cosine of an angle.
pub fn cos(of: Degrees) -> f64 {
    angle::cos(of.0)
}

/// The tangent of an angle.
pub fn tan(of: Degrees) -> f64 {
    angle::tan(of.0)
}

/// The angle whose tangent is `of`.
pub fn atan(of: impl Into<f64>) -> Degrees {
    Degrees(of.into().atan().to_degrees())
}

/// The angle whose sine is `of`.
pub fn asin(of: impl Into<f64>) -> Degrees {
    Degrees(of.into().asin().to_degrees())
}

/// The natural logarithm.
pub fn ln(of: impl Into<f64>) -> f64 {
    of.into().ln()
}

/// A number raised to a power.
pub fn power(of: impl Into<f64>, to: impl Into<f64>) -> f64 {
    of.into().powf(to.into())
}

/// A ratio of like quantities, such as a share, as a plain number; not shown.
pub fn number(of: impl Into<f64>) -> f64 {
    of.into()
}

/// A plain number as a share; not shown.
pub fn ratio(of: impl Into<f64>) -> Ratio {
    Ratio::from(of.into())
}

/// A ratio of arc and radius as the angle it is; not shown.
pub fn radians(of: impl Into<f64>) -> Degrees {
    Degrees(of.into().to_degrees())
}

/// A plain number, such as 0, as a quantity in SI units; not shown.
pub fn si<T: SiValue>(of: f64) -> T {
    T::from_si(of)
}

/// What only rounding can have made less than nothing is nothing; not shown.
pub fn not_negative<T: Ordered + SiValue>(of: T) -> T {
    max(of, si(0.0))
}

/// A value times itself.
pub fn squared<T: Copy + std::ops::Mul>(of: T) -> T::Output {
    of * of
}

/// What has a square root.
pub trait HasRoot {
    /// What the root is.
    type Root;
    /// The root.
    fn root(self) -> Self::Root;
}

impl HasRoot for f64 {
    type Root = f64;

    fn root(self) -> f64 {
        self.sqrt()
    }
}

impl HasRoot for Area {
    type Root = Length;

    fn root(self) -> Length {
        self.sqrt()
    }
}

impl HasRoot for Ratio {
    type Root = f64;

    fn root(self) -> f64 {
        f64::from(self).sqrt()
    }
}

/// The square root.
pub fn root<T: HasRoot>(of: T) -> T::Root {
    of.root()
}

/// What has a size and an order: numbers, lengths, angles.
pub trait Ordered: Copy + PartialOrd {
    /// Without its sign.
    fn abs(self) -> Self;
}

impl Ordered for f64 {
    fn abs(self) -> Self {
        f64::abs(self)
    }
}

impl Ordered for Length {
    fn abs(self) -> Self {
        Length::abs(self)
    }
}

impl Ordered for Area {
    fn abs(self) -> Self {
        Area::abs(self)
    }
}

impl Ordered for Degrees {
    fn abs(self) -> Self {
        Degrees(self.0.abs())
    }
}

/// Without its sign.
pub fn abs<T: Ordered>(of: T) -> T {
    of.abs()
}

/// The smaller of two.
pub fn min<T: Ordered>(a: T, b: T) -> T {
    if b < a { b } else { a }
}

/// The larger of two.
pub fn max<T: Ordered>(a: T, b: T) -> T {
    if b > a { b } else { a }
}

/// The whole number below.
pub fn floor(of: impl Into<f64>) -> f64 {
    of.into().floor()
}

/// The whole number nearest.
pub fn round(of: impl Into<f64>) -> f64 {
    of.into().round()
}
