//! The limits of size of a thread of any system, and the choice of class.

use super::class_of_side::read_for;
use super::classes::{MetricClass, UnifiedClass, default_classes};
use super::error::{DesignationError, ErrorKind};
use super::limit_values::{ExternalLimits, InternalLimits};
use super::{Thread, ThreadSystem, acme, metric, pipe, trapezoidal, unified};

/// Limits of the external thread. Without `class`, the designation's class, else the usual one.
/// `engagement` (inches) only for Unified threads; without it, the one the tables are made for.
pub fn external_limits(
    thread: &Thread,
    class: Option<&str>,
    engagement: Option<f64>,
) -> Result<ExternalLimits, DesignationError> {
    let class = class.or(thread.external_class.as_deref()).or(default_classes(thread).external);
    let class = class.map(|class| read_for(thread.system, false, class)).transpose()?;
    let Some(class) = class else { return Err(without_limits(thread)) };
    if thread.system == ThreadSystem::Unified {
        return unified::external(thread, UnifiedClass::read(&class)?, engagement);
    }
    refuse_engagement(engagement)?;
    match thread.system {
        ThreadSystem::Metric => metric::external(thread, MetricClass::read(&class)?),
        ThreadSystem::PipeParallel => pipe::external(thread, &class),
        ThreadSystem::Acme => acme::external(thread, &class),
        ThreadSystem::Trapezoidal => trapezoidal::external(thread, &class),
        _ => Err(without_limits(thread)),
    }
}

/// Limits of the internal thread; class and engagement as for [`external_limits`].
pub fn internal_limits(
    thread: &Thread,
    class: Option<&str>,
    engagement: Option<f64>,
) -> Result<InternalLimits, DesignationError> {
    let class = class.or(thread.internal_class.as_deref()).or(default_classes(thread).internal);
    let class = class.map(|class| read_for(thread.system, true, class)).transpose()?;
    if thread.system == ThreadSystem::PipeParallel {
        refuse_engagement(engagement)?;
        return pipe::internal(thread);
    }
    let Some(class) = class else { return Err(without_limits(thread)) };
    if thread.system == ThreadSystem::Unified {
        return unified::internal(thread, UnifiedClass::read(&class)?, engagement);
    }
    refuse_engagement(engagement)?;
    match thread.system {
        ThreadSystem::Metric => metric::internal(thread, MetricClass::read(&class)?),
        ThreadSystem::Acme => acme::internal(thread, &class),
        ThreadSystem::Trapezoidal => trapezoidal::internal(thread, &class),
        _ => Err(without_limits(thread)),
    }
}

/// Refusal of limits for a system whose tolerances are not at hand.
fn without_limits(thread: &Thread) -> DesignationError {
    match thread.system {
        ThreadSystem::Whitworth => DesignationError::new(
            ErrorKind::ClassWithoutData,
            format!(
                "{}: no tolerances of Whitworth threads (BS 84) are known here; the sizes are basic",
                thread.designation
            ),
            "1/4-20 UNC",
        ),
        _ => pipe::no_tolerances(thread),
    }
}

fn refuse_engagement(engagement: Option<f64>) -> Result<(), DesignationError> {
    match engagement {
        None => Ok(()),
        Some(_) => Err(DesignationError::new(
            ErrorKind::EngagementUnusable,
            "a length of engagement counts for the tolerances of Unified threads only; for metric ones choose a grade \
             one finer for a short, one coarser for a long engagement",
            "6H",
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::super::read;
    use super::*;
    use crate::reference::threads::Tolerances;

    fn external(text: &str) -> ExternalLimits {
        external_limits(&read(text).unwrap(), None, None).unwrap()
    }

    fn internal(text: &str) -> InternalLimits {
        internal_limits(&read(text).unwrap(), None, None).unwrap()
    }

    #[test]
    fn hard_cells_of_the_unified_table_come_out_as_printed() {
        // ASME B1.1 limits: 1/4-20 and 1 3/4-5 from a copy of its UNC class 2B table, 5/8-11
        // from a copy of table 3 of Machinery's Handbook, 27th ed.; #10-24 from memory.
        // Each needs a step of the rounding: terms to six places, allowance from five places,
        // minor diameters rounded twice.
        assert_eq!(internal("1/4-20 UNC-2B").pitch_max, 0.2224);
        assert_eq!(external("5/8-11 UNC-2A").allowance, 0.0016);
        let ten = internal("#10-24 UNC-2B");
        assert_eq!((ten.minor_min, ten.minor_max), (0.145, 0.156));
        let big = internal("1 3/4-5 UNC-2B");
        assert_eq!((big.minor_min, big.minor_max), (1.534, 1.568));
    }

    #[test]
    fn above_two_inches_the_table_takes_the_next_half_inch_as_diameter() {
        // Machinery's Handbook, 27th ed., p. 1755, table 3: 2 3/8-20 UN, 2A and 2B.
        let screw = external("2 3/8-20 UN-2A");
        assert_eq!((screw.pitch_max, screw.pitch_min), (2.3410, 2.3359));
        assert_eq!(internal("2 3/8-20 UN-2B").pitch_max, 2.3491);
        let Tolerances::Unified(t) = screw.tolerances else {
            panic!("a Unified thread has Unified tolerances");
        };
        assert_eq!(t.diameter_used, 2.5);
    }

    #[test]
    fn the_allowance_of_class_1_is_that_of_class_2_and_class_3_has_none() {
        // Machinery's Handbook, 27th ed., p. 1755, table 3: 2 1/2-4 UNC.
        assert_eq!(external("2 1/2-4 UNC-1A").allowance, 0.0031);
        assert_eq!(external("2 1/2-4 UNC-2A").allowance, 0.0031);
        assert_eq!(external("2 1/2-4 UNC-3A").allowance, 0.0);
        assert_eq!(external("2 1/2-4 UNC-2A").major_min_unfinished, Some(2.4612));
    }

    #[test]
    fn hard_cells_of_the_metric_tables_come_out_as_printed() {
        // Limits as in ASME B1.13M and ISO 965-2, from memory; behind them, Td2 75 µm is printed
        // in Machinery's Handbook, 31st ed., p. 2025, and TD2 150 µm in a tap maker's catalogue.
        // M4x0.5 takes a stored cell that the formula misses, M6 6G a deviation upward.
        let fine = external("M4x0.5-6g");
        assert_eq!((fine.pitch_max, fine.pitch_min), (3.655, 3.580));
        let plated = internal("M6-6G");
        assert_eq!((plated.pitch_min, plated.pitch_max), (5.376, 5.526));
    }

    #[test]
    fn metric_limits_of_the_usual_classes_are_the_published_ones() {
        // threadlib metric table (after DIN 13 and ISO 965), M8 6g and 6H.
        let screw = external("M8");
        assert_eq!((screw.class.as_str(), screw.allowance), ("6g", 0.028));
        assert_eq!((screw.major_max, screw.major_min), (7.972, 7.760));
        assert_eq!((screw.pitch_max, screw.pitch_min), (7.160, 7.042));
        assert_eq!((screw.minor_max, screw.minor_min), (6.619, Some(6.272)));
        let nut = internal("M8");
        assert_eq!((nut.minor_min, nut.minor_max), (6.647, 6.912));
        assert_eq!((nut.pitch_min, nut.pitch_max), (7.188, 7.348));
    }

    #[test]
    fn a_pair_of_grades_takes_the_first_for_the_pitch_diameter() {
        // ISO 965-1: in 4g6g, 4 is the grade of the pitch diameter and 6 that of the major one.
        let (four, pair, six) = (external("M8-4g"), external("M8-4g6g"), external("M8-6g"));
        assert_eq!(pair.pitch_min, four.pitch_min);
        assert_eq!(pair.major_min, six.major_min);
        assert_ne!(pair.pitch_min, six.pitch_min);
    }

    #[test]
    fn the_usual_class_is_taken_where_none_is_named() {
        assert_eq!(external("1/4-20").class, "2A");
        assert_eq!(internal("1/4-20").class, "2B");
        assert_eq!((external("M1.4").class, internal("M1.4").class), ("6h".into(), "5H".into()));
        assert_eq!((external("M1.6").class, internal("M1.6").class), ("6g".into(), "6H".into()));
        assert_eq!(internal("M2x0.25").class, "5H");
        assert_eq!(internal("M1x0.2").class, "4H");
    }

    #[test]
    fn a_class_of_the_wrong_side_or_without_data_is_refused() {
        let refuse = |text: &str, class| external_limits(&read(text).unwrap(), Some(class), None).unwrap_err().kind;
        assert_eq!(refuse("1/4-20", "2B"), ErrorKind::ClassUnknown);
        assert_eq!(refuse("1/4-20", "6g"), ErrorKind::ClassUnknown);
        assert_eq!(refuse("M8", "6H"), ErrorKind::ClassUnknown);
        assert_eq!(refuse("M8", "2A"), ErrorKind::ClassUnknown);
        assert_eq!(refuse("M3", "8g"), ErrorKind::ClassWithoutData);
        assert_eq!(refuse("M2x0.25", "6e"), ErrorKind::ClassWithoutData);
        let error = internal_limits(&read("M1x0.2").unwrap(), Some("6H"), None).unwrap_err();
        assert_eq!(error.nearest, ["4H"]);
        assert_eq!(error.try_this, "4H");
    }

    #[test]
    fn a_longer_engagement_widens_a_unified_tolerance_and_is_refused_for_metric() {
        let thread = read("1/4-20").unwrap();
        let usual = external_limits(&thread, None, None).unwrap();
        let long = external_limits(&thread, None, Some(0.5)).unwrap();
        assert!(long.pitch_min < usual.pitch_min);
        let Tolerances::Unified(t) = long.tolerances else {
            panic!("a Unified thread has Unified tolerances");
        };
        assert!(!t.engagement_within_tables && !t.engagement_of_tables);
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(external_limits(&thread, None, Some(bad)).is_err(), "{bad}");
        }
        assert!(external_limits(&read("M8").unwrap(), None, Some(8.0)).is_err());
    }
}
