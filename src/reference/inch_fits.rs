//! Inch fits by ANSI B4.1: the classes and their limits by size, from data/ansi_b41_fits.csv. Some classes have size bands of
//! their own.

use super::{rows_of, source_key};
use crate::sources::Trust;
use serde::Deserialize;
use std::sync::LazyLock;

crate::choice! {
    /// A class of fit by ANSI B4.1: RC1 to RC9 sliding and running, LC1 to LC11 located with clearance, LT1 to LT6 located tight or
    /// loose, LN1 to LN3 located tight, FN1 to FN5 driven, forced or shrunk; from close to wide.
    InchFitClass {
        /// Close sliding, without play that can be felt.
        Rc1 = "RC1" | "rc1",
        /// Sliding: moves and turns easily, not meant to run.
        Rc2 = "RC2" | "rc2",
        /// Precision running: the closest that runs freely, slow and lightly loaded.
        Rc3 = "RC3" | "rc3",
        /// Close running at moderate speed and load.
        Rc4 = "RC4" | "rc4",
        /// Medium running at higher speed or load.
        Rc5 = "RC5" | "rc5",
        /// Medium running, wider than RC5.
        Rc6 = "RC6" | "rc6",
        /// Free running, or where the temperature changes much.
        Rc7 = "RC7" | "rc7",
        /// Loose running with wide tolerances.
        Rc8 = "RC8" | "rc8",
        /// Loose running, for shafting as it comes from the mill.
        Rc9 = "RC9" | "rc9",
        /// Located, put together by hand, never tight: the closest of its kind.
        Lc1 = "LC1" | "lc1",
        /// Located, put together by hand, never tight.
        Lc2 = "LC2" | "lc2",
        /// Located, put together by hand, never tight.
        Lc3 = "LC3" | "lc3",
        /// Located, put together by hand, never tight.
        Lc4 = "LC4" | "lc4",
        /// Located, put together by hand, never tight.
        Lc5 = "LC5" | "lc5",
        /// Located, put together by hand, never tight.
        Lc6 = "LC6" | "lc6",
        /// Located, put together by hand, never tight.
        Lc7 = "LC7" | "lc7",
        /// Located, put together by hand, never tight.
        Lc8 = "LC8" | "lc8",
        /// Located, put together by hand, never tight.
        Lc9 = "LC9" | "lc9",
        /// Located, put together by hand, never tight.
        Lc10 = "LC10" | "lc10",
        /// Located, put together by hand, never tight: the widest of its kind.
        Lc11 = "LC11" | "lc11",
        /// Located, as a rule loose.
        Lt1 = "LT1" | "lt1",
        /// Located, as a rule loose, wider tolerances.
        Lt2 = "LT2" | "lt2",
        /// Located, about even.
        Lt3 = "LT3" | "lt3",
        /// Located, about even, wider tolerances.
        Lt4 = "LT4" | "lt4",
        /// Located, as a rule tight.
        Lt5 = "LT5" | "lt5",
        /// Located, as a rule tight, wider tolerances.
        Lt6 = "LT6" | "lt6",
        /// Located tight, lightly pressed.
        Ln1 = "LN1" | "ln1",
        /// Located tight, pressed.
        Ln2 = "LN2" | "ln2",
        /// Located tight, well pressed.
        Ln3 = "LN3" | "ln3",
        /// Light drive: thin parts, long fits and cast iron hubs.
        Fn1 = "FN1" | "fn1",
        /// Medium drive: ordinary steel parts.
        Fn2 = "FN2" | "fn2",
        /// Heavy drive: heavier steel parts, or shrunk medium ones.
        Fn3 = "FN3" | "fn3",
        /// Force: parts that can be highly stressed.
        Fn4 = "FN4" | "fn4",
        /// Force, shrunk: parts that can be highly stressed, where pressing takes too much force.
        Fn5 = "FN5" | "fn5",
    }
}

impl InchFitClass {
    /// Every class, in the order of the standard.
    pub const ALL: [InchFitClass; 34] = {
        use InchFitClass::*;
        [
            Rc1, Rc2, Rc3, Rc4, Rc5, Rc6, Rc7, Rc8, Rc9, Lc1, Lc2, Lc3, Lc4, Lc5, Lc6, Lc7, Lc8, Lc9, Lc10, Lc11, Lt1,
            Lt2, Lt3, Lt4, Lt5, Lt6, Ln1, Ln2, Ln3, Fn1, Fn2, Fn3, Fn4, Fn5,
        ]
    };
}

/// The limits of a class over a band of sizes, in thousandths of an inch from the size; the hole begins at the size.
#[derive(Debug)]
pub struct InchFitRow {
    /// The class.
    pub class: InchFitClass,
    /// Over this size, in inches.
    pub over: f64,
    /// Up to and including this one.
    pub to: f64,
    /// The hole's tolerance class.
    pub hole: &'static str,
    /// The hole's upper deviation; the lower is 0.
    pub hole_upper: f64,
    /// The shaft's tolerance class; may be empty.
    pub shaft: &'static str,
    /// The shaft's deviations, upper and lower.
    pub shaft_limits: (f64, f64),
    /// Key of the source.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
}

#[derive(Deserialize)]
struct Row {
    class: InchFitClass,
    over_in: f64,
    to_in: f64,
    hole: String,
    hole_upper_thou: f64,
    shaft: String,
    shaft_upper_thou: f64,
    shaft_lower_thou: f64,
    source: String,
    trust: Trust,
}

static ROWS: LazyLock<Vec<InchFitRow>> = LazyLock::new(|| {
    rows_of(include_str!("../../data/ansi_b41_fits.csv"))
        .map(|row: Row| InchFitRow {
            class: row.class,
            over: row.over_in,
            to: row.to_in,
            hole: row.hole.leak(),
            hole_upper: row.hole_upper_thou,
            shaft: row.shaft.leak(),
            shaft_limits: (row.shaft_upper_thou, row.shaft_lower_thou),
            source: source_key(&row.source),
            trust: row.trust,
        })
        .collect()
});

/// The rows of a class, from small to large.
pub fn rows(class: InchFitClass) -> impl DoubleEndedIterator<Item = &'static InchFitRow> {
    ROWS.iter().filter(move |row| row.class == class)
}

/// The row of a class for a size in inches.
pub fn row(class: InchFitClass, size: f64) -> Option<&'static InchFitRow> {
    rows(class).find(|row| row.over < size && size <= row.to)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bands_of_every_class_follow_each_other() {
        for class in InchFitClass::ALL {
            let all: Vec<&InchFitRow> = rows(class).collect();
            assert!(all.len() > 10 && all.iter().all(|row| !row.source.is_empty()), "{}", class.as_str());
            assert!(all.windows(2).all(|pair| pair[0].to == pair[1].over), "{}", class.as_str());
            assert!(all.iter().all(|row| row.hole_upper > 0.0 && row.shaft_limits.0 > row.shaft_limits.1));
        }
        assert_eq!(ROWS.len(), 492);
    }

    #[test]
    fn some_classes_begin_later() {
        let begins = |class| rows(class).next().map(|row| row.over);
        assert_eq!(begins(InchFitClass::Fn3), Some(0.95));
        assert_eq!(begins(InchFitClass::Lt3), Some(0.24));
        assert_eq!(begins(InchFitClass::Rc1), Some(0.0));
    }
}
