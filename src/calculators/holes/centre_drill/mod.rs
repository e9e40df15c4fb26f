//! Which center drill for a diameter of work or a cone, and how deep it goes: plane geometry of the cone, sizes recalled
//! from their standards, cones for work from a trade course.

mod choice;
mod drawing;

use crate::calculators::prelude::*;
use crate::reference::center_drills::{CenterDrillKind, CenterDrillName};
use choice::Wanted;

/// The calculator.
pub struct CentreDrill;

/// What the center drill calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct CentreDrillInput {
    /// Diameter of the work at the end to be centered.
    #[label("Work diameter")]
    pub work_diameter: Option<Size>,
    /// Diameter of the cone of 60° wanted, at its mouth.
    #[label("Cone wanted")]
    pub cone: Option<Size>,
    /// Center drill at hand by its name, such as #3 or A 2.5.
    #[label("Center drill at hand")]
    pub size: Option<CenterDrillName>,
    /// Kind of center drill; if absent plain for inches, a for millimeters.
    #[label("Kind of center drill")]
    pub kind: Option<CenterDrillKind>,
    /// Length of the pilot from its tip to the cone, as measured.
    #[label("Length of the pilot")]
    pub pilot_length: Option<Size>,
}

/// What the center drill calculator gives.
#[derive(Debug, Gives)]
pub struct CentreDrillResult {
    /// The center drill.
    #[label("Center drill")]
    pub name: &'static str,
    /// Its kind.
    pub kind: &'static str,
    /// Diameter of its pilot.
    #[label("Pilot")]
    pub pilot_diameter: FoundSize,
    /// Diameter of its body.
    #[label("Body")]
    pub body_diameter: FoundSize,
    /// Diameter of the cone at its mouth.
    #[label("Cone at the mouth")]
    pub cone_diameter: FoundSize,
    /// Depth of the cone, from where it meets the pilot; absent for the arc of kind R.
    pub cone_depth: Option<FoundExtent>,
    /// Depth of the tip below the face; absent where the length of the pilot is not known.
    pub tip_depth: Option<FoundDepthSetting>,
}

rules! { check(CentreDrillInput) {
    never(|input| input.work_diameter.is_none() && input.cone.is_none() && input.size.is_none(), Code::FieldMissing,
        work_diameter = "1 in", cone = "0.2 in"):
        "Give the diameter of the work, the cone wanted, or the center drill at hand.";
    never(|input| input.size.is_some() && input.kind.is_some(), Code::Conflict, kind = "leave out"):
        "The center drill at hand is of one kind: leave the kind out.";
    not_both(work_diameter, cone): "Give the diameter of the work or the cone wanted, not both.";
} }

impl Calculator for CentreDrill {
    const ID: &'static str = "holes/centre-drill";
    const TITLE: &'static str = "Center drill";
    const ABOUT: &'static str = "Which center drill suits the diameter of the work or the cone wanted, and how deep it goes \
        for that cone.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Measure the mouth with calipers, and try the lathe center: it must sit on the cone and not on the bottom.";
    const WORDS: &'static str = "centre drill, center drill, center hole, combined drill and countersink, lathe center, 60 \
        degree, tailstock, bell type, ISO 866, between centers";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1 in winch shaft is turned between centers; the shop has plain inch center drills.":
            work_diameter = "1 in", kind = "plain";
        "A pump shaft of 20 mm; the pilot of the center drill measures 3.4 mm.":
            work_diameter = "20 mm", pilot_length = "3.4 mm";
        "A cone of 0.2 in at the end of a mill gear spindle, with a #3.": cone = "0.2 in", size = "#3";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You turn work of {work_diameter} between centers. What cone does the table of the trade course set?"
            => "cone_diameter":
            { work_diameter = "8 mm" | "16 mm" | "20 mm" | "30 mm" | "50 mm" | "80 mm", kind = "a", units = "metric" };
        1 "Which pilot has a {size} center drill?" => "pilot_diameter":
            { size = "#2" | "#3" | "#4" | "#5" | "#6", units = "inch" }
            { size = "A 2" | "A 2.5" | "A 3.15" | "A 4", units = "metric" };
        2 "A {size} center drill makes a cone of {cone}. How deep is the cone itself?" => "cone_depth":
            { size = "#3", cone = "0.15 in" | "0.2 in" | "0.22 in", units = "inch" }
            { size = "A 2.5" | "A 2", cone = "3.5 mm" | "4 mm", units = "metric" };
        3 "The pilot of your {size} center drill is {pilot_length} long. How deep does its tip go for a cone of {cone}?"
            => "tip_depth":
            { size = "#3", pilot_length = "0.1 in" | "0.12 in", cone = "0.18 in" | "0.2 in", units = "inch" }
            { size = "A 2.5", pilot_length = "3 mm" | "3.5 mm", cone = "4 mm" | "5 mm", units = "metric" };
    };
    type Input = CentreDrillInput;
    type Output = CentreDrillResult;
    const LEADS: &'static [&'static str] = &["name", "tip_depth|cone_depth"];
    const CONTEXT: &'static [&'static str] =
        &["cone {cone_diameter}", "tip {tip_depth} deep", "pilot {pilot_diameter}"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.cautions(&[cautions::TURNING_SPINDLE, cautions::DRILLING]);
        record.source("geometry", "cone of 60 degrees: half the width over the tangent of 30 degrees");
        let wanted = Wanted::of(input, record)?;
        let drill = choice::choose(input, &wanted, record)?;
        let (pilot_diameter, body_diameter) = (drill.found(drill.pilot), drill.found(drill.body));
        record.source_trusted(drill.source, format!("sizes of {}", drill.name), drill.trust);
        let row = format!("center_drills.csv, row {}", drill.name);
        tell!(record.look_up("Its kind", row.clone()) => "kind": drill.kind.as_str());
        tell!(record.look_up("Its pilot", row.clone()) => pilot_diameter);
        tell!(record.look_up("Its body", row.clone()) => body_diameter);
        let cone_diameter = wanted.cone(drill, record)?;
        if drill.kind == CenterDrillKind::R {
            notes!(record => arc: "The arc of kind R has no cone, so no depth is computed. Go down until the mouth measures.");
            let (cone_depth, tip_depth, name) = (None, None, drill.name);
            return Ok(CentreDrillResult {
                name,
                kind: drill.kind.as_str(),
                pilot_diameter,
                body_diameter,
                cone_diameter,
                cone_depth,
                tip_depth,
            });
        }
        let half = FoundAngle::stated(30.0, Unit::Degree);
        let cone_depth: FoundExtent = step!(record, "Depth of the cone", z: cone_depth = (C - d) / (2.0 * tan(a)),
            C = cone_diameter, d = pilot_diameter, a = "constant:half_cone_angle": half);
        let pilot = input.pilot_length.or_else(|| choice::pilot_length(drill, record));
        let tip_depth = pilot.map(
            |pilot| step!(record, "Depth of the tip", t: tip_depth = l + z, l = pilot_length: pilot, z = cone_depth),
        );
        if tip_depth.is_none() {
            notes!(record => no_pilot_length: "The length of this pilot is not known: measure it, or feed by the depth of \
                the cone from where the cone begins to cut.");
        }
        notes!(record => go_deeper_by_measure: "Go to the depth, measure the mouth, and go deeper by 0.87 of what it lacks. Keep \
            the spindle fast and the feed light: pilots break.");
        let (name, kind) = (drill.name, drill.kind.as_str());
        let cone_depth = Some(cone_depth);
        Ok(CentreDrillResult { name, kind, pilot_diameter, body_diameter, cone_diameter, cone_depth, tip_depth })
    }
}
