//! The tolerances behind a thread's limits with their steps, as ASME B1.1, ISO 965-1, ISO 228-1, ASME B1.5 or
//! ISO 2903 makes and rounds them.

use super::ThreadInput;
use crate::calculators::prelude::*;
use crate::reference::threads::{Thread, Tolerances, UnifiedTolerances, table_engagement};
use crate::threading::cite_cells;
use crate::working::known_steps;

/// A tolerance in the thread's unit and the rule that it comes from.
pub type Ruled = (f64, String);

/// The words and fields of one side's tolerances.
pub struct Side {
    pub internal: bool,
    allowance: (&'static str, &'static str),
    crest: (&'static str, &'static str),
    pitch: &'static str,
}

/// Of the screw.
pub const EXTERNAL: Side = Side {
    internal: false,
    allowance: ("Allowance", "limits.external.allowance"),
    crest: ("Tolerance of the major diameter", "external_major_tolerance"),
    pitch: "external_pitch_tolerance",
};

/// Of the hole.
pub const INTERNAL: Side = Side {
    internal: true,
    allowance: ("Deviation of the internal thread", "internal_deviation"),
    crest: ("Tolerance of the minor diameter", "internal_minor_tolerance"),
    pitch: "internal_pitch_tolerance",
};

/// Puts allowance and tolerances of a side on record, and gives back that of the root, where the standard has one.
pub fn tell(
    designation: &Designation,
    side: &Side,
    tolerances: &Tolerances,
    allowance: f64,
    record: &mut Record,
) -> Option<Ruled> {
    let extent = |value: f64| FoundExtent::stated(value, designation.unit());
    let mm = |um: i64| um as f64 / 1000.0;
    if let Some((source, place)) = match tolerances {
        Tolerances::Metric(_) => Some(("iso_965_1", "tolerances and deviations, and their R40 steps")),
        Tolerances::Pipe(_) => Some(("iso_228_1", "limits; class B has twice the pitch diameter tolerance of class A")),
        Tolerances::Acme(_) => Some(("asme_b1_5", "allowances and tolerances of general purpose threads")),
        Tolerances::Unified(_) | Tolerances::Trapezoidal(_) => None,
    } {
        record.source(source, place);
    }
    cite_cells(tolerances, record);
    let (allowed, pitch, crest, root) = match tolerances {
        Tolerances::Unified(t) => {
            unified(designation, side, t, extent(allowance), record);
            return None;
        }
        Tolerances::Metric(t) => {
            if !t.tabulated && !record.notes.iter().any(|note| note.code == "tolerance_by_formula") {
                record.note(
                    "tolerance_by_formula",
                    "No table at hand has a tolerance for this size and pitch; it comes from the formula of the \
                     standard.",
                );
            }
            let way = if side.internal { "above" } else { "below" };
            known_steps! { record;
                look_up side.allowance.0,
                    format!("ISO 965-1: position {} at this pitch, {way} the basic profile", t.class.position),
                    P = "pitch" => side.allowance.1, extent(mm(t.deviation_um));
                look_up side.crest.0,
                    format!("ISO 965-1: {} µm for grade 6, and {:+} steps of R40 from it for grade {}",
                        t.crest_grade_6_um, t.crest_steps, t.class.crest_grade), P = "pitch"
                    => side.crest.1, extent(mm(t.crest_um));
                look_up "Tolerance of the pitch diameter",
                    format!("ISO 965-1: {} µm for an external thread of grade 6, and {:+} steps of R40 from it for grade {}",
                        t.pitch_grade_6_um, t.pitch_steps, t.class.pitch_grade), D = "size", P = "pitch"
                    => side.pitch, extent(mm(t.pitch_um));
            }
            return None;
        }
        Tolerances::Pipe(t) => {
            let table = format!("ISO 228-1: table for size {}", designation.thread.size);
            ("ISO 228-1: none".to_owned(), (t.pitch, table.clone()), (t.crest, table), None)
        }
        Tolerances::Acme(t) => {
            let allowed = format!(
                "ASME B1.5: {} √D in inches with D = {} in, the middle of its range of sizes, to 0.0001 in",
                t.allowance_factor, t.allowance_size
            );
            let sum = format!("{} √P + {} √D", t.pitch_factor, t.size_factor);
            let pitch = (t.pitch_tolerance, format!("ASME B1.5: {sum} in inches, to 0.0001 in"));
            let crest = (t.crest_tolerance, "ASME B1.5: 0.05 P, at least 0.005 in, to 0.0001 in".to_owned());
            let root = match side.internal {
                false => (t.root_tolerance, format!("ASME B1.5: 1.5 × ({sum}), to 0.0001 in")),
                true => (t.clearance, "ASME B1.5: the same as the clearance".to_owned()),
            };
            (allowed, pitch, crest, Some(root))
        }
        Tolerances::Trapezoidal(t) => {
            let pitch = format!(
                "ISO 2903: {} µm of ISO 965-1 grade 6 and {:+} steps of R40",
                t.pitch_grade_6_um, t.pitch_steps
            );
            (
                "ISO 2903: deviation of the position at this pitch, from memory".to_owned(),
                (mm(t.pitch_um), pitch),
                (mm(t.crest_um), "ISO 2903: grade 4 at this pitch, from memory".to_owned()),
                Some((mm(t.root_um), "ISO 2903: 1.25 of the pitch diameter tolerance, and the deviation".to_owned())),
            )
        }
    };
    if !side.internal {
        tell_one(side.allowance, (allowance, allowed), designation, record);
    }
    tell_one(("Tolerance of the pitch diameter", side.pitch), pitch, designation, record);
    tell_one(side.crest, crest, designation, record);
    root
}

/// Looks a tolerance up by size and pitch.
pub fn tell_one(
    (what, field): (&'static str, &'static str),
    (value, rule): Ruled,
    designation: &Designation,
    record: &mut Record,
) {
    let found = FoundExtent::stated(value, designation.unit());
    known_steps! { record; look_up what, rule, D = "size", P = "pitch" => field, found; }
}

fn unified(designation: &Designation, side: &Side, t: &UnifiedTolerances, allowance: FoundExtent, record: &mut Record) {
    let thread = &designation.thread;
    let (crest, pitch) =
        (FoundExtent::stated(t.crest_tolerance, Unit::Inch), FoundExtent::stated(t.pitch_tolerance, Unit::Inch));
    let allowed = match t.class.number {
        3 => "ASME B1.1: none for class 3A",
        _ => "ASME B1.1: 0.3 of the 2A tolerance taken to 0.00001 in, to 0.0001 in",
    };
    let share = if t.class.number == 1 { "0.090" } else { "0.060" };
    if side.internal {
        known_steps! { record;
            look_up side.crest.0, unified_minor_rule(thread, t), D = "size", P = "pitch" => side.crest.1, crest;
        }
    } else {
        known_steps! { record;
            look_up side.allowance.0, allowed, T = "tolerance_2a" => side.allowance.1, allowance;
            look_up side.crest.0, format!("ASME B1.1: {share} × ∛P² in inches, to 0.0001 in"), P = "pitch"
                => side.crest.1, crest;
        }
    }
    known_steps! { record;
        look_up "Tolerance of the pitch diameter",
            format!("ASME B1.1: {} × T for class {}, to 0.0001 in", t.factor, t.class.text()), T = "tolerance_2a"
            => side.pitch, pitch;
    }
}

/// What all Unified pitch diameter tolerances of a thread rest on: its tolerance of class 2A.
pub fn class_2a(input: &ThreadInput, t: &UnifiedTolerances, record: &mut Record) -> FoundSize {
    record.source("asme_b1_1", "allowances and tolerances, and their rounding");
    let inches = |value: f64| FoundSize::stated(value, Unit::Inch);
    let engagement = inches(t.engagement);
    match input.engagement {
        Some(stated) => record
            .choose("Length of engagement", "as given")
            .with("LE", "engagement", stated)
            .gives("engagement", engagement),
        None => known_steps! { record;
            look_up "Length of engagement",
                "ASME B1.1 tables: the size for UNC, UNF, 4-UN, 6-UN and 8-UN, nine pitches for the rest",
                D = "size", P = "pitch" => "engagement", engagement;
        },
    }
    known_steps! { record;
        look_up "Size in the tolerance",
            "ASME B1.1 tables: the size; above 2 in, where the engagement is nine pitches, the next half inch",
            D = "size" => "tolerance_size", inches(t.diameter_used);
        look_up "Pitch diameter tolerance of class 2A before its last rounding",
            "ASME B1.1: 0.0015 × ∛D + 0.0015 × √LE + 0.015 × ∛P² in inches, each term to six places",
            D = "tolerance_size", LE = "engagement", P = "pitch"
            => "tolerance_2a", FoundExtent::stated(t.td2, Unit::Inch);
    }
    let thread = &input.designation.thread;
    let made_for = if table_engagement(thread) == thread.diameter { "one diameter" } else { "nine pitches" };
    if t.engagement_of_tables {
        record.note(
            "engagement",
            format!("The limits hold for the length of engagement that their tables are made for: here {made_for}."),
        );
    } else {
        record.note(
            "engagement_stated",
            format!(
                "The limits are worked out for the length given, by the formula of the standard. Its tables, and most \
                 gauges, are made for {made_for}. The allowance is three tenths of the 2A tolerance at that length."
            ),
        );
    }
    if !t.engagement_within_tables {
        record.note(
            "engagement_outside",
            "The tables of ASME B1.1 hold for an engagement of up to one and a half diameters, or of five to fifteen \
             pitches where they are made for nine. Beyond that its formula may not hold.",
        );
    }
    engagement
}

/// The formula that the minor diameter tolerance of an internal Unified thread comes from.
fn unified_minor_rule(thread: &Thread, t: &UnifiedTolerances) -> &'static str {
    let threads = thread.threads_per_inch.unwrap_or(1.0 / thread.pitch);
    match t.class.number {
        3 if threads >= 13.0 => {
            "ASME B1.1: 0.05 ∛P² + 0.03 P / D - 0.002 in inches, from 0.23 P - 1.5 P² to 0.394 P, to 0.0001 in"
        }
        3 => "ASME B1.1: 0.05 ∛P² + 0.03 P / D - 0.002 in inches, from 0.120 P to 0.394 P, to 0.0001 in",
        _ if thread.diameter < 0.25 => {
            "ASME B1.1: 0.05 ∛P² + 0.03 P / D - 0.002 in inches, from 0.25 P - 0.40 P² to 0.394 P, to 0.0001 in"
        }
        _ if threads >= 4.0 => "ASME B1.1: 0.25 P - 0.40 P² in inches, to 0.0001 in",
        _ => "ASME B1.1: 0.15 P, to 0.0001 in",
    }
}
