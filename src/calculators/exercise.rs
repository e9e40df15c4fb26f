//! Questions as a foreman asks them: one sentence, the round values that a drawing, a drawer or a dial has, and the
//! result that is asked for. Practice draws from them.

/// A question with the values that its fields may have.
#[derive(Debug)]
pub struct Exercise {
    /// How hard: 1 one look or one sum, 2 several, 3 what has to be thought about first.
    pub level: u8,
    /// The question; `{diameter}` stands for the value of that field.
    pub says: &'static str,
    /// The result asked for, by its path.
    pub asks: &'static str,
    /// Fields with the values each may have; of a set every combination can be asked.
    pub sets: &'static [&'static [(&'static str, Values)]],
}

/// The values that a field may have, one of which is drawn.
pub type Values = &'static [&'static str];

/// Exercises: how hard, the question, the result asked for, then sets of fields with the values each may have:
///
/// ```ignore
/// exercises! {
///     1 "A {diameter} drill has the usual 118° point. How long is the point?" => "point_length":
///         { diameter = "1/4 in" | "3/8 in" | "1/2 in" }
///         { diameter = "6 mm" | "10 mm" | "12 mm" };
/// }
/// ```
#[macro_export]
macro_rules! exercises {
    ($($level:literal $says:literal => $asks:literal: $({ $($field:ident = $($value:literal)|+),* $(,)? })+;)*) => {
        &[$($crate::calculators::exercise::Exercise {
            level: $level,
            says: $says,
            asks: $asks,
            sets: &[$(&[$((stringify!($field), &[$($value),+])),*]),+],
        }),*]
    };
}
