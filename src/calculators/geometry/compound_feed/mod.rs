//! The compound slide of a lathe set nearly along the bed, so that its dial feeds the tool in by a small part of what it
//! shows: the sine of the angle. Checked against points on a line in the complex plane.

mod drawing;

use crate::calculators::prelude::*;

/// The calculator.
pub struct CompoundFeed;

choice! {
    /// What the dial of the compound slide counts: `travel`, as far as the slide moves, or `diameter`, twice as much.
    SlideDial {
        /// As far as the slide moves.
        Travel = "travel",
        /// Twice as far.
        Diameter = "diameter",
    }
}

choice! {
    /// How the compound slide stands where its scale of degrees reads 0: `along_bed` or `across_bed`.
    ScaleZero {
        /// The slide moves along the bed.
        AlongBed = "along_bed",
        /// The slide moves like the cross slide.
        AcrossBed = "across_bed",
    }
}

/// What the compound feed calculator asks for: a move on the dial, and the feed wanted for it or the angle that is set.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct CompoundFeedInput {
    /// A move on the dial of the compound slide, such as one division.
    #[label("Move on the dial")]
    pub dial: GaugeSize,
    /// What that dial counts: travel of the slide, or diameter, twice the travel.
    #[label("Dial counts")]
    #[absent("travel", "The dial of a compound slide is assumed to count the travel of the slide.")]
    pub dial_counts: Option<SlideDial>,
    /// Infeed on the radius that the move should give.
    #[label("Infeed wanted, on the radius")]
    pub infeed: Option<GaugeSize>,
    /// What the move should take off the diameter.
    #[label("Wanted off the diameter")]
    pub off_diameter: Option<GaugeSize>,
    /// Angle that the scale of the slide is set to, to find what it gives.
    #[label("Scale is set to")]
    pub scale_angle: Option<CornerAngle>,
    /// How the slide stands where its scale reads 0: along the bed, or across the bed like the cross slide.
    #[label("At 0 the slide stands")]
    #[absent(
        "along_bed",
        "The scale is assumed to read 0 with the slide along the bed. Many read 0 across it: look at yours."
    )]
    pub scale_zero: Option<ScaleZero>,
    /// Smallest step of the scale that you can set.
    #[label("Smallest step of the scale")]
    #[absent("1 deg", "The scale is assumed to be set to whole degrees.")]
    pub scale_step: Option<CornerAngle>,
    /// What is to be taken off the diameter in all.
    #[label("To take off the diameter in all")]
    pub to_take: Option<Size>,
    /// Travel of the slide over which an indicator checks the angle.
    #[label("Travel of the slide for the check")]
    pub checked_over: Option<Size>,
}

/// What the compound feed calculator gives.
#[derive(Debug, Gives)]
pub struct CompoundFeedResult {
    /// What to set the scale of the slide to.
    #[label("Set the scale to")]
    pub scale_setting: FoundAngle,
    /// Exact angle between the slide and the axis of the lathe.
    #[label("Exact angle to the bed")]
    pub bed_angle: FoundAngle,
    /// Exact angle between the slide and the cross slide.
    #[label("Exact angle to the cross slide")]
    pub cross_angle: FoundAngle,
    /// Infeed on the radius for the move, as set.
    #[label("Infeed as set, on the radius")]
    pub feeds_in: FoundGaugeSize,
    /// What the move takes off the diameter, as set.
    #[label("Off the diameter as set")]
    pub takes_off: FoundGaugeSize,
    /// Infeed as set, more than the one wanted; needs an infeed or a change in diameter.
    #[needs(infeed | off_diameter)]
    #[label("More than wanted")]
    pub deviation: Option<FoundDeviation>,
    /// How far the move takes the tool along the bed.
    #[label("Tool moves along the bed")]
    pub along: FoundGaugeSize,
    /// Dial for all that is to come off; needs that.
    #[needs(to_take)]
    #[label("On the dial in all")]
    pub dial_in_all: Option<FoundExtent>,
    /// The tool's way along the bed meanwhile; needs what is to come off in all.
    #[needs(to_take)]
    #[label("Tool moves along the bed in all")]
    pub along_in_all: Option<FoundExtent>,
    /// What an indicator square to the axis reads over the travel of the check at the exact angle; needs that travel.
    #[needs(checked_over)]
    #[label("Indicator over the check")]
    pub indicator: Option<FoundGaugeSize>,
}

const ONE_OF: &str = "Give the infeed wanted, what comes off the diameter, or the angle of the scale: one of them.";
const FLAT: &str = "The slide must stand between the bed and the cross slide: more than 0° and less than 90°.";

rules! { check(CompoundFeedInput) {
    one_of(infeed = "0.0001 in", off_diameter = "0.0002 in", scale_angle = "6 deg"): ONE_OF;
    not_both(infeed, off_diameter): ONE_OF;
    not_both(infeed, scale_angle): ONE_OF;
    not_both(off_diameter, scale_angle): ONE_OF;
    never(|input| input.scale_angle.is_some_and(|angle| angle.degrees() >= 90.0), Code::ValueOutOfRange,
        scale_angle = "6 deg"): FLAT;
    never(|input| input.scale_step.is_some() && input.scale_angle.is_some(), Code::Conflict, scale_step = "leave out"):
        "The step of the scale matters only where the setting is to be found.";
    never(|input| input.scale_step.is_some_and(|step| step.degrees() > 5.0), Code::ValueOutOfRange, scale_step = "1 deg"):
        "A scale with steps above 5° sets no fine feed.";
} }

impl Calculator for CompoundFeed {
    const ID: &'static str = "geometry/compound-feed";
    const TITLE: &'static str = "Fine feed by the compound slide";
    const ABOUT: &'static str = "The angle of a lathe's compound slide at which one division of its dial takes off a tenth of a \
        thousandth or whatever you want, and what the angle you can set gives.";
    const TASK: Task = Task::Turn;
    const ANOTHER_CHECK: &'static str = "Put an indicator on the work square to its axis, move the slide by a known amount on \
        its dial, and compare.";
    const WORDS: &'static str = "compound slide, top slide, compound rest, fine feed, tenths, infeed, angle of the compound, \
        5.74 degrees, 84.26, fine depth, small cuts";
    const EXAMPLES: &'static [Example] = examples! {
        "The last tenths on a winch pin: one thousandth on the compound's dial is to feed in one ten-thousandth.":
            dial = "0.001 in", infeed = "0.0001 in", checked_over = "1 in";
        "A pump shaft needs 0.01 mm off the diameter for each 0.05 mm of the dial; the scale reads 0 across the bed.":
            dial = "0.05 mm", off_diameter = "0.01 mm", scale_zero = "across_bed", scale_step = "0.5 deg", to_take = "0.06 mm";
        "The compound of a mill lathe stands at 30° and its dial counts diameters: what does 0.001 in give?":
            dial = "0.001 in", dial_counts = "diameter", scale_angle = "30 deg";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The compound slide stands {scale_angle} from the bed. You move it {dial} on its dial. How far does the tool feed \
            in?" => "feeds_in":
            { scale_angle = "6 deg" | "30 deg" | "45 deg", dial = "0.001 in" | "0.005 in" | "0.01 in" }
            { scale_angle = "6 deg" | "30 deg" | "45 deg", dial = "0.02 mm" | "0.1 mm" | "0.5 mm" };
        2 "{dial} on the dial of the compound slide is to feed in {infeed}. What is the exact angle to the bed?"
            => "bed_angle":
            { dial = "0.001 in", infeed = "0.0001 in" | "0.0002 in" | "0.0005 in" }
            { dial = "0.05 mm", infeed = "0.005 mm" | "0.01 mm" | "0.02 mm" };
        2 "{dial} on the dial is to take {off_diameter} off the diameter. The scale reads 0 across the bed and shows whole \
            degrees. What do you set it to?" => "scale_setting":
            { dial = "0.001 in", off_diameter = "0.0002 in" | "0.0005 in" | "0.001 in", scale_zero = "across_bed" }
            { dial = "0.05 mm", off_diameter = "0.01 mm" | "0.02 mm", scale_zero = "across_bed" };
        3 "The compound slide stands {scale_angle} from the bed, and {to_take} is to come off the diameter. How far do you go \
            on its dial?" => "dial_in_all":
            { scale_angle = "6 deg" | "30 deg", to_take = "0.001 in" | "0.002 in", dial = "0.001 in" }
            { scale_angle = "6 deg" | "30 deg", to_take = "0.02 mm" | "0.05 mm", dial = "0.02 mm" };
    };
    type Input = CompoundFeedInput;
    type Output = CompoundFeedResult;
    const LEADS: &'static [&'static str] = &["scale_setting"];
    const CONTEXT: &'static [&'static str] =
        &["exactly {bed_angle} to the bed", "{feeds_in} on the radius", "{deviation} more than wanted"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "of a move at an angle to the bed the sine goes in, the cosine along");
        cautions::ON_THE_LATHE.iter().for_each(|caution| record.caution(*caution));
        let (dial, dial_counts) = (input.dial, input.dial_counts(record));
        let travel: FoundGaugeSize = match dial_counts {
            SlideDial::Travel => step!(record, "Travel of the slide", v: travel = x, x = dial),
            SlideDial::Diameter => step!(record, "Travel of the slide, half of what its dial shows",
                v: travel = x / 2.0, x = dial),
        };
        let scale_zero = input.scale_zero(record);
        let wanted = wanted_infeed(input, travel, record)?;
        let (bed_angle, cross_angle, scale_setting, stands) = match (wanted, input.scale_angle) {
            (Some(infeed), _) => set_for(input, (infeed, travel), scale_zero, record)?,
            (None, angle) => as_it_stands(angle.unwrap_or(CornerAngle::stated(6.0, Unit::Degree)), scale_zero, record),
        };
        let feeds_in: FoundGaugeSize = step!(record, "Infeed on the radius", r: feeds_in = v * sin(t),
            v = travel, t = "angle_as_set": stands);
        let takes_off: FoundGaugeSize = step!(record, "Off the diameter", f: takes_off = 2.0 * r, r = feeds_in);
        let along: FoundGaugeSize = step!(record, "Along the bed", l: along = v * cos(t),
            v = travel, t = "angle_as_set": stands);
        let deviation = wanted.map(|infeed_wanted| -> FoundDeviation {
            step!(record, "More than wanted", e: deviation = (r - i) / i, r = feeds_in, i = infeed_wanted)
        });
        let (mut dial_in_all, mut along_in_all) = (None, None);
        if let Some(to_take) = input.to_take {
            let on_dial: FoundExtent = step!(record, "On the dial in all", n: dial_in_all = x * D / f,
                x = dial, D = to_take, f = takes_off);
            let along_bed: FoundExtent = step!(record, "Along the bed in all", m: along_in_all = l * D / f,
                l = along, D = to_take, f = takes_off);
            (dial_in_all, along_in_all) = (Some(on_dial), Some(along_bed));
        }
        let indicator = input.checked_over.map(|checked_over| -> FoundGaugeSize {
            step!(record, "What an indicator reads", k: indicator = c * sin(θ), c = checked_over, θ = bed_angle)
        });
        notes!(record =>
            backlash: "Take up the backlash of the slide toward the work, and lock the carriage and the cross slide.";
            along: "The tool also moves along the bed: keep it off a shoulder.");
        if scale_zero == ScaleZero::AcrossBed && scale_setting.degrees() > 60.0 {
            record.note(
                "end_of_scale",
                "Many scales end at 45° or 60°. Then set the angle to the bed with a protractor or an indicator.",
            );
        }
        Ok(CompoundFeedResult {
            scale_setting,
            bed_angle,
            cross_angle,
            feeds_in,
            takes_off,
            deviation,
            along,
            dial_in_all,
            along_in_all,
            indicator,
        })
    }
}

/// The infeed wanted on the radius, which must be less than the slide travels.
fn wanted_infeed(
    input: &CompoundFeedInput,
    travel: FoundGaugeSize,
    record: &mut Record,
) -> Result<Option<FoundGaugeSize>, Refusal> {
    let (infeed_wanted, field, times): (FoundGaugeSize, _, _) = match (input.infeed, input.off_diameter) {
        (Some(infeed), _) => (step!(record, "Infeed wanted", i: infeed_wanted = r, r = infeed), "infeed", 1.0),
        (_, Some(off_diameter)) => (
            step!(record, "Infeed wanted, half of what comes off the diameter", i: infeed_wanted = f / 2.0, f = off_diameter),
            "off_diameter",
            2.0,
        ),
        _ => return Ok(None),
    };
    if infeed_wanted.si() < travel.si() {
        return Ok(Some(infeed_wanted));
    }
    let good =
        crate::suggestion::value(0.1 * times * travel.si(), input.dial.quantity().unit, crate::suggestion::Way::Near);
    let says = "The tool cannot feed in as far as the slide travels or farther: ask for less, or use the cross slide.";
    Err(Refusal::one(Wrong::new(field, Code::Conflict, says, good)))
}

/// Bed and cross angle as they should be, the setting of the scale, and the angle to the bed as it is set then.
type Angles = (FoundAngle, FoundAngle, FoundAngle, FoundAngle);

fn of_degrees(degrees: f64) -> FoundAngle {
    FoundAngle::stated(degrees, Unit::Degree)
}

/// The setting of the scale that comes nearest to the angle for an infeed.
fn set_for(
    input: &CompoundFeedInput,
    (infeed_wanted, travel): (FoundGaugeSize, FoundGaugeSize),
    scale_zero: ScaleZero,
    record: &mut Record,
) -> Result<Angles, Refusal> {
    let bed_angle: FoundAngle = step!(record, "Exact angle to the bed", θ: bed_angle = asin(i / v),
        i = infeed_wanted, v = travel);
    let cross_angle = of_degrees(90.0 - bed_angle.degrees());
    tell!(record.step("Exact angle to the cross slide", "c = π / 2 - θ"), θ = bed_angle => cross_angle);
    let scale_step = input.scale_step(record);
    let (exact, of) = match scale_zero {
        ScaleZero::AlongBed => (bed_angle, "bed_angle"),
        ScaleZero::AcrossBed => (cross_angle, "cross_angle"),
    };
    let scale_setting: FoundAngle = step!(record, "Nearest step of the scale", s: scale_setting = e * round(a / e),
        e = scale_step, a = (of): exact);
    let (stands, formula) = match scale_zero {
        ScaleZero::AlongBed => (scale_setting, "t = s"),
        ScaleZero::AcrossBed => (of_degrees(90.0 - scale_setting.degrees()), "t = π / 2 - s"),
    };
    if !(1e-9..90.0 - 1e-9).contains(&stands.degrees()) {
        let finer = bed_angle.degrees().min(cross_angle.degrees()) / 4.0;
        let good = crate::suggestion::value(finer.to_radians(), Unit::Degree, crate::suggestion::Way::Down);
        let says =
            "The nearest step of the scale lies along or across the bed, and sets no fine feed. Set it more finely.";
        return Err(Refusal::one(Wrong::new("scale_step", Code::NoAnswer, says, good)));
    }
    tell!(record.step("Angle to the bed as set", formula), s = scale_setting => angle_as_set: stands);
    Ok((bed_angle, cross_angle, scale_setting, stands))
}

/// The angles of a slide whose scale is set already.
fn as_it_stands(scale_angle: CornerAngle, scale_zero: ScaleZero, record: &mut Record) -> Angles {
    let scale_setting = of_degrees(scale_angle.degrees());
    tell!(record.choose("Setting of the scale", "as given"), s = scale_angle => scale_setting);
    let other = of_degrees(90.0 - scale_angle.degrees());
    let (bed_angle, cross_angle) = match scale_zero {
        ScaleZero::AlongBed => (scale_setting, other),
        ScaleZero::AcrossBed => (other, scale_setting),
    };
    let formulas = match scale_zero {
        ScaleZero::AlongBed => ("θ = s", "c = π / 2 - s"),
        ScaleZero::AcrossBed => ("θ = π / 2 - s", "c = s"),
    };
    tell!(record.step("Angle to the bed", formulas.0), s = scale_setting => bed_angle);
    tell!(record.step("Angle to the cross slide", formulas.1), s = scale_setting => cross_angle);
    tell!(record.step("Angle to the bed as set", "t = θ"), θ = bed_angle => angle_as_set: bed_angle);
    (bed_angle, cross_angle, scale_setting, bed_angle)
}
