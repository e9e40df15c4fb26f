//! The length over which screw and nut engage: what it does to the limits of a Unified thread, and to the
//! usual classes of a metric one.

use super::ThreadInput;
use crate::calculators::prelude::*;
use crate::reference::threads::{EngagementGroup, ThreadSystem, classes_for_engagement, normal_engagement};
use crate::sources::Trust;
use crate::threading::cite_row;
use crate::working::known_steps;

/// Only Unified and metric limits know it.
pub fn check(input: &ThreadInput) -> Result<(), ValidationError> {
    let Some(engagement) = input.engagement else { return Ok(()) };
    let thread = &input.designation.thread;
    match thread.system {
        ThreadSystem::Unified if engagement.quantity().in_unit(Unit::Inch) > 1000.0 => Err(rule_broken(
            Code::ValueOutOfRange,
            "Give a length of engagement of at most 1000 in.",
            &[("engagement", "0.5 in")],
        )),
        ThreadSystem::Unified => Ok(()),
        ThreadSystem::Metric if normal_engagement(thread).is_some() => Ok(()),
        _ => {
            let says = format!(
                "The limits of {} do not depend on the length of engagement. Leave it out.",
                thread.designation
            );
            Err(rule_broken(Code::Conflict, says, &[("engagement", "leave out"), ("designation", "1/4-20 UNC")]))
        }
    }
}

/// The length as Unified tolerances take it, in inches.
pub fn unified(input: &ThreadInput) -> Option<f64> {
    let is_unified = input.designation.thread.system == ThreadSystem::Unified;
    input.engagement.filter(|_| is_unified).map(|length| length.quantity().in_unit(Unit::Inch))
}

/// Group of a metric thread's engagement, and the classes that are usual in it.
pub struct MetricEngagement {
    /// The length as stated.
    pub length: FoundSize,
    /// The group.
    pub group: EngagementGroup,
    /// Usual external class, where it is another than for normal lengths.
    pub external: Option<&'static str>,
    /// Usual internal class, likewise.
    pub internal: Option<&'static str>,
}

/// The group of a metric thread's stated engagement, with its steps.
pub fn metric(input: &ThreadInput, record: &mut Record) -> Option<MetricEngagement> {
    let stated = input.engagement?;
    let thread = &input.designation.thread;
    let normal = normal_engagement(thread)?;
    let (length, group) = (stated.found(), normal.group(stated.quantity().in_unit(Unit::Millimetre)));
    record.choose("Length of engagement", "as given").with("LE", "engagement", stated).gives("engagement", length);
    let rule = match normal.provenance {
        Some(row) => {
            cite_row(row, "lengths of engagement, group N", record);
            "ISO 965-1: group N by the range of size and the pitch"
        }
        None => {
            record.source_trusted("iso_965_1", "formula of the lengths of engagement, from memory", Trust::FromMemory);
            "ISO 965-1: no row in the table; 2.24 P d^0.2 and 6.7 P d^0.2 in millimeters, to 0.1 mm"
        }
    };
    let millimetres = |value: f64| FoundSize::stated(value, Unit::Millimetre);
    known_steps! { record;
        look_up "Normal lengths begin above", rule, P = "pitch" => "normal_over", millimetres(normal.over);
        look_up "Normal lengths end at", rule, P = "pitch" => "normal_up_to", millimetres(normal.up_to);
        look_up "Group", "S up to a, N above a and up to b, L above b",
            LE = "engagement", a = "normal_over", b = "normal_up_to" => "engagement_group", group.letter();
    }
    let (external, internal) = classes_for_engagement(thread, group);
    if group != EngagementGroup::Normal {
        record.source_trusted("iso_965_2", "usual classes of groups S and L, from memory", Trust::FromMemory);
        record.note(
            "engagement_group",
            format!(
                "For the same fit, an engagement of group {} takes a pitch diameter grade {}. A class that you name \
                 keeps its limits.",
                group.letter(),
                if group == EngagementGroup::Short { "one finer" } else { "one coarser" },
            ),
        );
    }
    Some(MetricEngagement { length, group, external, internal })
}
