//! Between what sizes the crests of a sound thread measure: by the usual class of its standard, along the
//! cone of a taper thread, and for Whitworth threads as wide as a Unified thread of the size would have it.

use crate::reference::threads::{
    Thread, ThreadSystem, Tolerances, basics, external_limits, internal_limits, npt, read, taper_row,
};
use crate::working::Record;

/// What was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Crest {
    /// The major diameter of an external thread.
    Outside,
    /// The minor diameter of an internal thread.
    Inside,
}

/// Where the range comes from.
#[derive(Debug)]
enum Rule {
    /// Limits of a class.
    Class(String, Tolerances),
    /// From the small to the large end of a cone.
    Cone,
    /// What the tolerance of the gauge plane makes of a parallel thread.
    GaugePlane,
    /// The tolerance of another standard.
    Borrowed,
}

/// The sizes between which the crests of a sound thread measure, in its own unit.
#[derive(Debug)]
pub struct Range {
    /// The smallest.
    pub least: f64,
    /// The largest.
    pub greatest: f64,
    rule: Rule,
}

impl Range {
    /// The range of a thread; `None` where it has no such side.
    pub fn of(thread: &Thread, crest: Crest) -> Option<Self> {
        let has = if crest == Crest::Outside { thread.has_external() } else { thread.has_internal() };
        if !has {
            return None;
        }
        if thread.is_taper() || thread.system == ThreadSystem::PipeTaper {
            return along_cone(thread, crest);
        }
        if thread.system == ThreadSystem::Whitworth {
            return borrowed(thread, crest);
        }
        match crest {
            Crest::Outside => external_limits(thread, None, None).ok().map(|limits| Range {
                least: limits.major_min,
                greatest: limits.major_max,
                rule: Rule::Class(limits.class, limits.tolerances),
            }),
            Crest::Inside => internal_limits(thread, None, None).ok().map(|limits| Range {
                least: limits.minor_min,
                greatest: limits.minor_max,
                rule: Rule::Class(limits.class, limits.tolerances),
            }),
        }
    }

    /// Where it comes from, in words.
    pub fn words(&self) -> String {
        match &self.rule {
            Rule::Class(class, _) if class.is_empty() => "the limits of its standard".into(),
            Rule::Class(class, _) => format!("the limits of class {class}"),
            Rule::Cone => "its sizes from one end of the taper to the other".into(),
            Rule::GaugePlane => "what the tolerance of its gauge plane allows".into(),
            Rule::Borrowed => "its basic size and the tolerance of a similar Unified thread".into(),
        }
    }

    /// Cites what it rests on.
    pub fn cite(&self, thread: &Thread, record: &mut Record) {
        match (&self.rule, thread.system) {
            (Rule::Class(_, tolerances), _) => crate::threading::cite_limits(tolerances, record),
            (Rule::Borrowed, _) => {
                record.source("bs_84", "basic sizes of Whitworth threads");
                record.source("asme_b1_1", "formulas of the tolerances, borrowed for Whitworth threads");
            }
            (Rule::Cone, ThreadSystem::Npt) => record.source("asme_b1_20_1", "sizes at both ends of the thread"),
            (Rule::Cone | Rule::GaugePlane, _) => {
                record.source("iso_7_1", "sizes at the gauge plane, gauge length and useful thread")
            }
        }
    }
}

/// The taper is 1 in 16 on the diameter.
fn along_cone(thread: &Thread, crest: Crest) -> Option<Range> {
    let (least, greatest) = match (npt(thread), crest) {
        (Some(npt), Crest::Outside) => (npt.small_end_exact + npt.height, npt.row.outside_diameter_in),
        (Some(npt), Crest::Inside) => (npt.wrench - npt.height, npt.hand_tight - npt.height),
        (None, crest) => {
            let (row, basics) = (taper_row(&thread.size)?, basics(thread));
            let (gauge, useful) = (row.gauge_length_mm / 16.0, row.useful_thread_mm / 16.0);
            let tolerance = row.gauge_length_tolerance_mm / 16.0;
            match crest {
                Crest::Outside => (basics.major - gauge, basics.major + useful - gauge),
                // Rp is parallel; its tolerance is that of the gauge plane, as a share of the cone.
                Crest::Inside if !thread.is_taper() => (basics.minor - tolerance, basics.minor + tolerance),
                Crest::Inside => (basics.minor - useful, basics.minor),
            }
        }
    };
    let rule = if thread.is_taper() { Rule::Cone } else { Rule::GaugePlane };
    Some(Range { least, greatest, rule })
}

/// The width that ASME B1.1 gives a thread of this size and pitch, from the basic size of this one.
fn borrowed(thread: &Thread, crest: Crest) -> Option<Range> {
    let like = read(&format!("{}-{} UNS", thread.size, thread.threads_per_inch?));
    let like =
        like.or_else(|_| read(&format!("{}-{}", thread.size, thread.threads_per_inch.unwrap_or_default()))).ok()?;
    let basics = basics(thread);
    let (least, greatest) = match crest {
        Crest::Outside => {
            let limits = external_limits(&like, None, None).ok()?;
            (limits.major_min - like.diameter + basics.major, limits.major_max - like.diameter + basics.major)
        }
        Crest::Inside => {
            let limits = internal_limits(&like, None, None).ok()?;
            (basics.minor, basics.minor + limits.minor_max - limits.minor_min)
        }
    };
    Some(Range { least, greatest, rule: Rule::Borrowed })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reference::threads::listed;

    #[test]
    fn every_listed_thread_has_a_range_on_each_side_it_has() {
        for one in listed() {
            let thread = one.thread();
            for (crest, has) in [(Crest::Outside, thread.has_external()), (Crest::Inside, thread.has_internal())] {
                let range = Range::of(thread, crest);
                assert_eq!(range.is_some(), has, "{} {crest:?}", thread.designation);
                if let Some(range) = range {
                    assert!(range.least < range.greatest, "{} {range:?}", thread.designation);
                    let basic = if crest == Crest::Outside { thread.diameter } else { one.basics().minor };
                    let within = (range.least - basic).abs().max((range.greatest - basic).abs()) < 0.6 * thread.pitch;
                    assert!(within || thread.is_taper(), "{} {crest:?} {range:?}", thread.designation);
                }
            }
        }
    }
}
